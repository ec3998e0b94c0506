//! Areas and densities as a person reads them, in the units of the settings.
//!
//! Amounts that were typed or worked out with a unit of their own are [`crate::words`]'.

use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive as _;
use sward_rules::measure::{AreaEstimate, LengthEstimate};
use sward_rules::quantity::Unit;

use crate::words::{Units, Words};

/// One square metre in square feet (NIST Handbook 44, Appendix C).
const FT2_PER_M2: f64 = 10.763_910_417;

/// An area with how far off it may be.
pub(crate) fn area(words: Words, area: &AreaEstimate) -> String {
    let percent = area.uncertainty_percent();
    let off_m2 = area.square_metres() * percent / 100.0;
    let (value, off, unit) = match words.units {
        Units::Us => (area.square_feet(), off_m2 * FT2_PER_M2, Unit::SQUARE_FOOT),
        Units::Metric => (area.square_metres(), off_m2, Unit::SQUARE_METRE),
    };
    let unit = words.unit(unit);
    format!(
        "{} {unit} \u{b1} {} {unit}",
        rounded(words, value, 0),
        rounded(words, off, 0)
    )
}

/// A length with how far off it may be.
pub(crate) fn length(words: Words, length: &LengthEstimate) -> String {
    let off_share = length.uncertainty_percent() / 100.0;
    let (value, unit, decimals) = match words.units {
        Units::Us => (length.feet(), Unit::FOOT, 0),
        Units::Metric => (length.metres(), Unit::METRE, 1),
    };
    let unit = words.unit(unit);
    format!(
        "{} {unit} \u{b1} {} {unit}",
        rounded(words, value, decimals),
        rounded(words, value * off_share, 1)
    )
}

/// So many of a pest per square foot, in the units of the settings.
pub(crate) fn per_area(words: Words, per_ft2: f64) -> String {
    let (value, unit) = match words.units {
        Units::Us => (per_ft2, Unit::SQUARE_FOOT),
        Units::Metric => (per_ft2 * FT2_PER_M2, Unit::SQUARE_METRE),
    };
    format!("{}/{}", rounded(words, value, 1), words.unit(unit))
}

/// A percentage with its sign.
pub(crate) fn change(words: Words, percent: f64) -> String {
    let sign = if percent > 0.0 { "+" } else { "" };
    format!("{sign}{} %", rounded(words, percent, 1))
}

/// A number that was worked out, with so many decimals at most.
pub(crate) fn rounded(words: Words, value: f64, decimals: u32) -> String {
    match Decimal::from_f64(value) {
        Some(exact) => words.number(exact.round_dp(decimals).normalize()),
        // No number stands for what none can be given for.
        None => words.t("frame-not-known"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Language;
    use sward_rules::Entered;
    use sward_rules::measure::Shape;

    fn words(units: Units) -> Words {
        Words {
            language: Language::English,
            units,
            zone: chrono_tz::UTC,
        }
    }

    #[test]
    fn an_area_stands_in_the_units_of_the_settings_with_its_uncertainty() {
        let given = |text| Entered::parse(text).unwrap();
        let lawn = AreaEstimate::stated(&given("1500 ft2"), &given("21 ft2")).unwrap();
        assert_eq!(area(words(Units::Us), &lawn), "1,500 ft² ± 21 ft²");
        assert_eq!(area(words(Units::Metric), &lawn), "139 m² ± 2 m²");
    }

    #[test]
    fn a_length_stands_in_the_units_of_the_settings_with_its_uncertainty() {
        let side = |text| Entered::parse(text).unwrap();
        let (length, width) = (side("60 ft"), side("25 ft"));
        let edge = Shape::Rectangle { length, width }.perimeter().unwrap();
        assert_eq!(length_words(Units::Us, &edge.value), "170 ft ± 1.3 ft");
        assert_eq!(length_words(Units::Metric, &edge.value), "51.8 m ± 0.4 m");
    }

    fn length_words(units: Units, edge: &LengthEstimate) -> String {
        length(words(units), edge)
    }

    #[test]
    fn ten_per_square_foot_are_a_hundred_and_seven_per_square_metre() {
        assert_eq!(per_area(words(Units::Us), 10.0), "10/ft²");
        assert_eq!(per_area(words(Units::Metric), 10.0), "107.6/m²");
    }

    #[test]
    fn what_is_no_number_is_not_known() {
        assert_eq!(rounded(words(Units::Us), f64::NAN, 1), "not known");
    }
}
