//! What a person typed, kept as typed: a decimal and its unit in one value.
//!
//! Parsing, the closed table of units and typed conversions live here; nothing that knows what an
//! amount is for.

use std::fmt;

use rust_decimal::Decimal;

use crate::error::{Result, RuleError};

mod convert;
mod dimension;
mod list;
mod parse;
mod stored;
mod table;
mod unit;

pub(crate) use convert::{
    exact, near, out_of_range, positive, shown, shown_down, shown_up, significant, to_f64, whole,
};
pub use dimension::Dimension;
pub use list::pieces;
pub use unit::Unit;

/// Most digits an amount may have, leading zeros aside, and most digits behind its point.
pub const DIGITS_MOST: u32 = 12;

/// An amount as a person entered it. Number and unit never part: merged fields can then never pair
/// one phone's number with another's unit.
///
/// `Display` writes the one stored form, the decimal and a UCUM unit; [`Entered::for_person`]
/// writes what a person would. Equality is exact, digit by digit (`2.50 lb` is not `2.5 lb`);
/// [`Entered::compare`] compares what is meant.
///
/// ```
/// use sward_rules::Entered;
/// let rate = Entered::parse("2.50 lb/1000 ft²")?;
/// assert_eq!(rate.to_string(), "2.50 [lb_av]/(1000.[ft_i]2)");
/// assert_eq!(rate.for_person(), "2.50 lb/1000 ft²");
/// assert_eq!(Entered::parse(&rate.to_string())?, rate);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
#[derive(Debug, Clone, Copy)]
pub struct Entered {
    amount: Decimal,
    unit: Unit,
}

impl Entered {
    /// An amount from its number and unit.
    ///
    /// # Errors
    /// When the number has more digits than [`DIGITS_MOST`], or is below zero where its kind
    /// cannot be (only a temperature can).
    pub fn new(amount: Decimal, unit: Unit) -> Result<Self> {
        let text = || format!("{amount} {}", unit.for_person());
        let significant = amount
            .mantissa()
            .unsigned_abs()
            .checked_ilog10()
            .map_or(1, |d| d + 1);
        if significant > DIGITS_MOST || amount.scale() > DIGITS_MOST {
            return Err(RuleError::TooManyDigits { text: text() });
        }
        let mut amount = amount;
        if amount.is_zero() {
            amount.set_sign_positive(true);
        }
        if amount.is_sign_negative() && unit.dimension() != Dimension::Temperature {
            return Err(RuleError::Negative {
                text: text(),
                dimension: unit.dimension(),
            });
        }
        Ok(Self { amount, unit })
    }

    /// The number as typed, digits kept.
    pub fn amount(&self) -> Decimal {
        self.amount
    }

    /// The unit.
    pub fn unit(&self) -> Unit {
        self.unit
    }

    /// What kind of amount this is.
    pub fn dimension(&self) -> Dimension {
        self.unit.dimension()
    }

    /// Whether the number is zero.
    pub fn is_zero(&self) -> bool {
        self.amount.is_zero()
    }

    /// The amount as a person would write it, such as `2.5 lb/1000 ft²`.
    pub fn for_person(&self) -> String {
        format!("{} {}", self.amount, self.unit.for_person())
    }
}

impl PartialEq for Entered {
    fn eq(&self, other: &Self) -> bool {
        self.exact() == other.exact()
    }
}

impl Eq for Entered {}

impl std::hash::Hash for Entered {
    fn hash<H: std::hash::Hasher>(&self, state: &mut H) {
        self.exact().hash(state);
    }
}

impl Entered {
    /// Mantissa, scale and unit: `Decimal`'s own equality would take 2.50 for 2.5.
    fn exact(&self) -> (i128, u32, Unit) {
        (self.amount.mantissa(), self.amount.scale(), self.unit)
    }
}

impl fmt::Display for Entered {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.amount, self.unit)
    }
}

#[cfg(test)]
mod tests;
