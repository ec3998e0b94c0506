//! Reading what a step answered in JSON. A field that is missing stops the demo by name.

use serde_json::Value;
use sward_rules::Entered;

use crate::error::{CliError, Result};

/// The part of an answer at a JSON pointer.
pub(super) fn part<'a>(answer: &'a Value, at: &str) -> Result<&'a Value> {
    answer.pointer(at).ok_or_else(|| missing(answer, at))
}

/// A text.
pub(super) fn text<'a>(answer: &'a Value, at: &str) -> Result<&'a str> {
    part(answer, at)?
        .as_str()
        .ok_or_else(|| missing(answer, at))
}

/// A number.
pub(super) fn number(answer: &Value, at: &str) -> Result<f64> {
    part(answer, at)?
        .as_f64()
        .ok_or_else(|| missing(answer, at))
}

/// A list.
pub(super) fn list<'a>(answer: &'a Value, at: &str) -> Result<&'a [Value]> {
    part(answer, at)?
        .as_array()
        .map(Vec::as_slice)
        .ok_or_else(|| missing(answer, at))
}

/// An amount with its unit, as a person writes it, with no more than four digits that count.
pub(super) fn amount(answer: &Value, at: &str) -> Result<String> {
    let entered = Entered::from_canonical(text(answer, at)?).map_err(|_| missing(answer, at))?;
    Ok(match entered.amount().round_sf(4) {
        Some(amount) => format!("{} {}", amount.normalize(), entered.unit().for_person()),
        None => entered.for_person(),
    })
}

fn missing(answer: &Value, at: &str) -> CliError {
    CliError::Refused(format!(
        "the demo looked for {at} in an answer and did not find it: {answer}"
    ))
}
