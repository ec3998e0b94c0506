//! Reading an amount from what a person typed, or from its stored form.
//!
//! What could be read in two ways is refused with a word; nothing is guessed.

use rust_decimal::Decimal;

use super::{Entered, Unit};
use crate::error::{Result, RuleError};

const TEXT_BYTES_MOST: usize = 80;

impl Entered {
    /// Reads what a person typed, such as `2.5 lb/1000 ft2`, `85 F`, `12 ft 6 in`, or the stored
    /// form such as `2.5 [lb_av]/(1000.[ft_i]2)`. Feet with inches are kept as inches.
    ///
    /// ```
    /// use sward_rules::Entered;
    /// assert_eq!(Entered::parse("3.6 pt/acre")?.to_string(), "3.6 [pt_us]/(43560.[ft_i]2)");
    /// assert_eq!(Entered::parse("12 ft 6 in")?.to_string(), "150 [in_i]");
    /// assert!(Entered::parse("2,5 lb").is_err());
    /// # Ok::<(), sward_rules::RuleError>(())
    /// ```
    ///
    /// # Errors
    /// When there is no plain number in front, it has a comma, an exponent or too many digits, the
    /// unit is missing or not in the table, or the amount is below zero where it cannot be.
    pub fn parse(text: &str) -> Result<Self> {
        if text.len() > TEXT_BYTES_MOST {
            return Err(RuleError::TooLong);
        }
        if text.chars().any(char::is_control) {
            return Err(RuleError::ControlCharacter);
        }
        let text = text.trim();
        if text.is_empty() {
            return Err(RuleError::Empty);
        }
        let end = text.find(|c: char| !(c.is_ascii_digit() || "+-.,".contains(c)));
        let (number, unit) = text.split_at(end.unwrap_or(text.len()));
        let amount = number_from(number, text)?;
        let unit = unit.trim();
        if unit.is_empty() {
            return Err(RuleError::NoUnit {
                text: text.to_owned(),
            });
        }
        match Unit::parse(unit) {
            Ok(unit) => Self::new(amount, unit),
            Err(error) => match feet_and_inches(amount, unit) {
                Some(inches) => Self::new(inches, Unit::INCH),
                None if looks_like_exponent(unit) => Err(RuleError::NotANumber {
                    text: text.to_owned(),
                }),
                None => Err(error),
            },
        }
    }

    /// Reads the stored form and nothing else.
    ///
    /// # Errors
    /// When the text is not exactly what [`Entered`]'s `Display` writes.
    pub fn from_canonical(text: &str) -> Result<Self> {
        let not = || RuleError::NotCanonical {
            text: text.chars().take(TEXT_BYTES_MOST).collect(),
        };
        let entered = Self::parse(text).map_err(|_| not())?;
        if entered.to_string() == text {
            Ok(entered)
        } else {
            Err(not())
        }
    }
}

impl std::str::FromStr for Entered {
    type Err = RuleError;

    fn from_str(text: &str) -> Result<Self> {
        Self::parse(text)
    }
}

fn number_from(number: &str, text: &str) -> Result<Decimal> {
    let not_a_number = || RuleError::NotANumber {
        text: text.to_owned(),
    };
    if number.contains(',') {
        return Err(RuleError::Comma {
            text: text.to_owned(),
        });
    }
    let digits = number.strip_prefix('-').unwrap_or(number);
    let (whole, fraction) = digits.split_once('.').unwrap_or((digits, "0"));
    let all_digits = |s: &str| s.bytes().all(|b| b.is_ascii_digit());
    if fraction.is_empty() || !all_digits(whole) || !all_digits(fraction) || digits.is_empty() {
        return Err(not_a_number());
    }
    Decimal::from_str_exact(number).map_err(|_| RuleError::TooManyDigits {
        text: text.to_owned(),
    })
}

/// Inches of `6 in` behind `12 ft`, or of `6"` behind `12'`.
fn feet_and_inches(feet: Decimal, rest: &str) -> Option<Decimal> {
    let behind = ["feet", "foot", "ft", "'"]
        .iter()
        .find_map(|ft| rest.strip_prefix(ft))?
        .trim();
    let end = behind.find(|c: char| !(c.is_ascii_digit() || c == '.'))?;
    let (inches, unit) = behind.split_at(end);
    let inches = number_from(inches, behind).ok()?;
    let twelve = Decimal::from(12);
    // A thirteenth inch would be a foot: more likely a slip than meant.
    let plain = feet.scale() == 0 && inches < twelve && Unit::parse(unit) == Ok(Unit::INCH);
    if plain {
        feet.checked_mul(twelve)?.checked_add(inches)
    } else {
        None
    }
}

fn looks_like_exponent(unit: &str) -> bool {
    let rest = unit.strip_prefix(['e', 'E']);
    rest.is_some_and(|r| r.starts_with(|c: char| c.is_ascii_digit() || "+-".contains(c)))
}
