//! Names that came from outside: the ids of yards, sections, label sheets, visits and keep-offs as
//! text, checks by their names, and what is typed with its unit.

use std::str::FromStr;

use sward_rules::Entered;
use sward_rules::Field;
use sward_rules::finding::Check;
use sward_screens::{Result, Trouble};

/// Reads an id; text that is none names nothing.
pub(crate) fn id<T: FromStr>(text: &str) -> Result<T> {
    text.parse().map_err(|_| Trouble::NotFound)
}

/// Reads ids.
pub(crate) fn ids<T: FromStr>(texts: &[String]) -> Result<Vec<T>> {
    texts.iter().map(|text| id(text)).collect()
}

/// Reads an amount as it was typed, told by `field` when it does not fit.
pub(crate) fn entered(text: &str, field: Field) -> Result<Entered> {
    Ok(Entered::parse(text).map_err(|error| error.of(field))?)
}

/// A check's own name, as records have it.
pub(crate) fn check_name(check: Check) -> String {
    match serde_json::to_value(check) {
        Ok(serde_json::Value::String(name)) => name,
        _ => String::new(),
    }
}

/// The check of that name.
pub(crate) fn check(name: &str) -> Result<Check> {
    serde_json::from_value(name.into()).map_err(|_| Trouble::NotFound)
}
