//! What the world's time zones add to a library.

use chrono::DateTime;
use chrono_tz::Tz;

uniffi::setup_scaffolding!();

/// What the clocks of a time zone show, one second into 1970.
#[uniffi::export]
#[must_use]
pub fn used(text: &str) -> String {
    let second = DateTime::from_timestamp(1, 0).unwrap_or_default();
    match text.parse::<Tz>() {
        Ok(zone) => second.with_timezone(&zone).to_string(),
        Err(error) => error.to_string(),
    }
}
