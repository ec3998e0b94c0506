//! The story of one day, chapter by chapter. Every number told was answered by a step that one
//! of the three phones took; here is only who does what, when, and how it is told.

mod evening;
mod morning;
mod swaps;
mod yard_one;
mod yard_two;

use chrono_tz::America::New_York;
use serde_json::Value;

use super::answer::{list, number, part, text};
use super::phone::Phone;
use super::tell::{Teller, whole};
use crate::error::{CliError, Result};
use crate::times::moment;

/// The three phones and who tells of them.
pub(super) struct Day<'a> {
    /// The crew lead's.
    pub(super) ivy: &'a Phone,
    /// The one that goes to yard 2.
    pub(super) moss: &'a Phone,
    /// The one that helps.
    pub(super) fern: &'a Phone,
    /// Tells what happens.
    pub(super) teller: &'a Teller,
}

impl Day<'_> {
    /// Lives through the whole day.
    ///
    /// # Errors
    /// When a step ends otherwise than it should.
    pub(super) fn tell(&self) -> Result<()> {
        self.crew_and_label()?;
        self.first_try()?;
        self.not_treated()?;
        self.treatment()?;
        self.keep_off()?;
        self.swap()
    }
}

/// An area as a person reads it.
fn area_words(measured: &Value) -> Result<String> {
    Ok(format!(
        "{} ft² ± {}",
        whole(number(measured, "/area/area_ft2")?),
        whole(number(measured, "/area/uncertainty_ft2")?),
    ))
}

/// A series of wind readings in two numbers.
fn wind_words(read: &Value) -> Result<String> {
    Ok(format!(
        "{:.1} mph, gust {:.1} mph",
        number(read, "/wind/mean_mph")?,
        number(read, "/wind/gust_mph")?,
    ))
}

/// Stops the demo where an answer is not the one that the story tells of.
fn must(is_so: bool, what: &str) -> Result<()> {
    if is_so {
        Ok(())
    } else {
        Err(CliError::Refused(format!(
            "the demo's story does not hold: {what}"
        )))
    }
}

/// The finding of one check.
fn finding_of<'a>(ready: &'a Value, check: &str) -> Result<&'a Value> {
    list(ready, "/findings")?
        .iter()
        .find(|finding| finding["check"] == check)
        .ok_or_else(|| CliError::Refused(format!("the demo found no answer on {check}")))
}

/// The checks that are not known, by name.
fn unknown(ready: &Value) -> Result<Vec<&str>> {
    list(ready, "/findings")?
        .iter()
        .filter(|finding| finding["verdict"] == "unknown")
        .map(|finding| text(finding, "/check"))
        .collect()
}

/// From when on it may open next.
fn opening(ready: &Value) -> Result<String> {
    let from = part(ready, "/opens_next/from_utc_ms")?
        .as_i64()
        .unwrap_or_default();
    Ok(on_the_day(&moment(from, New_York)))
}

/// What a keep-off waits for.
fn until_words(keep_off: &Value) -> Result<String> {
    Ok(on_the_day(text(keep_off, "/told/until")?))
}

/// A text without the day and zone that the whole story has in common.
fn on_the_day(text: &str) -> String {
    text.replace("Tue 2026-06-16 ", "").replace(" EDT", "")
}
