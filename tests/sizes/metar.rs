//! What the reader of weather stations' reports adds to a library: a parser library and regular expressions.

uniffi::setup_scaffolding!();

/// What a report says.
#[uniffi::export]
#[must_use]
pub fn used(text: &str) -> String {
    match metar::Metar::parse(text) {
        Ok(report) => format!("{report:?}"),
        Err(faults) => faults.iter().map(ToString::to_string).collect(),
    }
}
