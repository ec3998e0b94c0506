//! A unit: a row of the table, or one row per another where that pair has a kind.
//!
//! The acre of lawn work is the international acre of 43,560 square feet. UCUM's `[acr_us]` is the
//! US survey acre, so "per acre" is stored as `(43560.[ft_i]2)`.

use std::fmt;

use rust_decimal::Decimal;

use super::Dimension;
use super::table::{Base, Kind, TABLE};
use crate::error::{Result, RuleError};

/// A unit from the closed table, or one of them per another where that has a kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Unit {
    over: Base,
    under: Option<Base>,
}

impl Unit {
    /// Square foot.
    pub const SQUARE_FOOT: Self = Self::alone(Base::SquareFoot);
    /// Square metre.
    pub const SQUARE_METRE: Self = Self::alone(Base::SquareMetre);
    /// A thousand square feet.
    pub const SQUARE_FEET_1000: Self = Self::alone(Base::SquareFeet1000);
    /// The international acre, 43,560 square feet.
    pub const ACRE: Self = Self::alone(Base::Acre);
    /// Foot.
    pub const FOOT: Self = Self::alone(Base::Foot);
    /// Inch.
    pub const INCH: Self = Self::alone(Base::Inch);
    /// Millimetre.
    pub const MILLIMETRE: Self = Self::alone(Base::Millimetre);
    /// Metre.
    pub const METRE: Self = Self::alone(Base::Metre);
    /// Avoirdupois pound.
    pub const POUND: Self = Self::alone(Base::Pound);
    /// Gram.
    pub const GRAM: Self = Self::alone(Base::Gram);
    /// Avoirdupois ounce: a weight.
    pub const OUNCE: Self = Self::alone(Base::Ounce);
    /// Kilogram.
    pub const KILOGRAM: Self = Self::alone(Base::Kilogram);
    /// US fluid ounce: a volume.
    pub const FLUID_OUNCE: Self = Self::alone(Base::FluidOunce);
    /// Millilitre.
    pub const MILLILITRE: Self = Self::alone(Base::Millilitre);
    /// US pint.
    pub const PINT: Self = Self::alone(Base::Pint);
    /// US gallon.
    pub const GALLON: Self = Self::alone(Base::Gallon);
    /// Litre.
    pub const LITRE: Self = Self::alone(Base::Litre);
    /// Second.
    pub const SECOND: Self = Self::alone(Base::Second);
    /// Minute.
    pub const MINUTE: Self = Self::alone(Base::Minute);
    /// Hour.
    pub const HOUR: Self = Self::alone(Base::Hour);
    /// A hundred square metres.
    pub const SQUARE_METRES_100: Self = Self::alone(Base::SquareMetres100);
    /// Hectare.
    pub const HECTARE: Self = Self::alone(Base::Hectare);
    /// Degree Celsius.
    pub const CELSIUS: Self = Self::alone(Base::Celsius);
    /// Degree Fahrenheit.
    pub const FAHRENHEIT: Self = Self::alone(Base::Fahrenheit);
    /// Percent.
    pub const PERCENT: Self = Self::alone(Base::Percent);
    /// Mile per hour.
    pub const MILE_PER_HOUR: Self = Self {
        over: Base::Mile,
        under: Some(Base::Hour),
    };
    /// Kilometre per hour.
    pub const KILOMETRE_PER_HOUR: Self = Self {
        over: Base::Kilometre,
        under: Some(Base::Hour),
    };
    /// US gallon per thousand square feet.
    pub const GALLON_PER_1000_SQUARE_FEET: Self = Self {
        over: Base::Gallon,
        under: Some(Base::SquareFeet1000),
    };
    /// US gallon per acre of 43,560 square feet.
    pub const GALLON_PER_ACRE: Self = Self {
        over: Base::Gallon,
        under: Some(Base::Acre),
    };
    /// US gallon per minute.
    pub const GALLON_PER_MINUTE: Self = Self {
        over: Base::Gallon,
        under: Some(Base::Minute),
    };
    /// Pound per acre of 43,560 square feet.
    pub const POUND_PER_ACRE: Self = Self {
        over: Base::Pound,
        under: Some(Base::Acre),
    };

    const fn alone(base: Base) -> Self {
        Self {
            over: base,
            under: None,
        }
    }

    /// The unit in a person's spelling or its UCUM code.
    ///
    /// ```
    /// use sward_rules::quantity::Unit;
    /// let per_acre = Unit::parse("pt/acre")?;
    /// assert_eq!(per_acre.to_string(), "[pt_us]/(43560.[ft_i]2)");
    /// assert_eq!(Unit::parse("mph")?, Unit::MILE_PER_HOUR);
    /// # Ok::<(), sward_rules::RuleError>(())
    /// ```
    ///
    /// # Errors
    /// When the unit is not in the table.
    pub fn parse(text: &str) -> Result<Self> {
        let text = text.trim();
        if let Some(unit) = Self::from_code(text).or_else(|| Self::from_spelling(text)) {
            return Ok(unit);
        }
        if text.contains("[acr_us]") {
            return Err(RuleError::SurveyAcre);
        }
        Err(RuleError::UnknownUnit {
            unit: text.to_owned(),
        })
    }

    /// Every unit there is: each row of the table, and each row per another where the pair has a kind.
    ///
    /// ```
    /// use sward_rules::quantity::Unit;
    /// assert!(Unit::all().any(|unit| unit == Unit::POUND_PER_ACRE));
    /// ```
    pub fn all() -> impl Iterator<Item = Self> {
        TABLE.iter().flat_map(|over| {
            let alone = std::iter::once(None);
            let under = TABLE.iter().map(|under| Some(under.base));
            alone
                .chain(under)
                .filter_map(|under| Self::checked(over.base, under))
        })
    }

    fn from_code(text: &str) -> Option<Self> {
        match text.split_once('/') {
            None => Self::checked(Base::by_code(text)?, None),
            Some((over, under)) => {
                // Unbracketed, UCUM reads "a/1000.b" as (a/1000)·b.
                let bare = under.strip_prefix('(').and_then(|u| u.strip_suffix(')'));
                let under = Base::by_code(bare.unwrap_or(under))?;
                let needs_brackets = under.row().code.contains('.');
                let over = if over.is_empty() { "1" } else { over };
                (bare.is_some() || !needs_brackets)
                    .then(|| Self::checked(Base::by_code(over)?, Some(under)))?
            }
        }
    }

    fn from_spelling(text: &str) -> Option<Self> {
        let lower = text
            .to_lowercase()
            .replace('²', "2")
            .replace('³', "3")
            .replace('^', "")
            .replace(" per ", "/");
        let lower = lower
            .strip_prefix("per ")
            .map_or(lower.clone(), |rest| format!("/{rest}"));
        let plain: String = lower
            .chars()
            .filter(|c| !c.is_whitespace() && *c != '.')
            .collect();
        let base = |t: &str| Base::by_spelling(t).or_else(|| Base::by_code(t));
        match (plain.as_str(), plain.split_once('/')) {
            ("mph", _) => Some(Self::MILE_PER_HOUR),
            ("kmh" | "kph", _) => Self::checked(Base::Kilometre, Some(Base::Hour)),
            (_, None) => Self::checked(base(&plain)?, None),
            (_, Some(("", under))) => Self::checked(Base::Number, Some(base(under)?)),
            (_, Some((over, under))) => Self::checked(base(over)?, Some(base(under)?)),
        }
    }

    /// A unit only where the pair has a kind: the table stays closed.
    fn checked(over: Base, under: Option<Base>) -> Option<Self> {
        kind_of(over, under).map(|_| Self { over, under })
    }

    /// What kind of amount it measures.
    #[allow(
        clippy::missing_panics_doc,
        reason = "no unit is made of a pair without a kind"
    )]
    pub fn dimension(self) -> Dimension {
        kind_of(self.over, self.under).expect("a unit is only made of pairs that have a kind")
    }

    /// The unit as a person would write it, such as `lb/1000 ft²`.
    pub fn for_person(self) -> String {
        match self.under {
            _ if self == Self::MILE_PER_HOUR => "mph".to_owned(),
            None => self.over.row().shown.to_owned(),
            Some(under) => format!("{}/{}", self.over.row().shown, under.row().shown),
        }
    }

    /// The unit in which this one counts, such as pounds for pounds an acre; none for a bare number.
    pub(crate) fn over(self) -> Option<Self> {
        Self::checked(self.over, None)
    }

    /// What this unit is per, such as the acre of pounds an acre; none where it stands alone.
    pub(crate) fn under(self) -> Option<Self> {
        Self::checked(self.under?, None)
    }

    /// This unit per another, both alone; none where that pair has no kind.
    pub(crate) fn per(self, under: Self) -> Option<Self> {
        if self.under.is_some() || under.under.is_some() {
            return None;
        }
        Self::checked(self.over, Some(under.over))
    }

    /// Factor and divisor to SI, both exact, and what is added before: `(x + shift) * times / by`.
    pub(super) fn to_si(self) -> (Decimal, Decimal, Decimal) {
        let over = self.over.row();
        match self.under.map(Base::row) {
            None => (over.shift, over.times, over.by),
            // The products have at most 27 digits and are exact.
            Some(under) => (over.shift, over.times * under.by, over.by * under.times),
        }
    }
}

impl fmt::Display for Unit {
    /// Writes the UCUM code.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let over = self.over.row().code;
        match self.under.map(|u| u.row().code) {
            None => f.write_str(over),
            Some(under) if under.contains('.') => write!(f, "{over}/({under})"),
            Some(under) => write!(f, "{over}/{under}"),
        }
    }
}

fn kind_of(over: Base, under: Option<Base>) -> Option<Dimension> {
    use Dimension as D;
    let kind = over.row().kind;
    let Some(under) = under else {
        return match kind {
            Kind::Alone(dimension) => Some(dimension),
            Kind::Number => None,
        };
    };
    match (kind, under.row().kind) {
        (Kind::Number, Kind::Alone(D::Area)) => Some(D::CountPerArea),
        (Kind::Alone(D::Length), Kind::Alone(D::Time)) => Some(D::Speed),
        (Kind::Alone(D::Mass), Kind::Alone(D::Area)) => Some(D::MassPerArea),
        (Kind::Alone(D::Volume), Kind::Alone(D::Area)) => Some(D::VolumePerArea),
        (Kind::Alone(D::Mass), Kind::Alone(D::Volume)) => Some(D::MassPerVolume),
        (Kind::Alone(D::Volume), Kind::Alone(D::Volume)) => Some(D::VolumePerVolume),
        (Kind::Alone(D::Mass), Kind::Alone(D::Time)) => Some(D::MassPerTime),
        (Kind::Alone(D::Volume), Kind::Alone(D::Time)) => Some(D::VolumePerTime),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_pair_reads_back_from_its_code_and_from_a_persons_form() {
        for unit in Unit::all() {
            assert_eq!(Unit::parse(&unit.to_string()), Ok(unit));
            assert_eq!(
                Unit::parse(&unit.for_person()),
                Ok(unit),
                "{}",
                unit.for_person()
            );
        }
        let pairs = Unit::all().count();
        assert!(pairs > 200, "{pairs}");
    }

    #[test]
    fn an_unbracketed_thousand_is_not_read_as_a_divisor() {
        // UCUM reads this as (lb/1000)·ft².
        assert!(Unit::parse("[lb_av]/1000.[ft_i]2").is_err());
        assert_eq!(Unit::parse("lb/[acr_us]"), Err(RuleError::SurveyAcre));
    }
}
