//! What people do, each as one entry: the same for the terminal, the screens and the phone.
//!
//! An action checks what can be checked before anything is written, and never stops a truthful
//! record of what was done.

mod crew;
mod frozen;
mod keep_off;
mod label;
mod ready;
mod settle;
mod treat;
mod visit;
mod yard;

pub use frozen::treatment_of;
pub use ready::{ReadyInputs, judge};
pub use treat::{JUDGED_AGE_MOST_MIN, Start};

use crate::ids::{FactId, VisitId};
use crate::{Book, BookError, Result};

/// Text that a person typed into a fact: one to a few lines, trimmed.
fn words(what: &str, text: &str) -> Result<String> {
    let text = text.trim();
    if text.len() > 2000 || text.chars().any(|c| c.is_control() && c != '\n') {
        return Err(BookError::refused(format!(
            "{what}: too long or with a control character: give at most 2000 bytes of plain text"
        )));
    }
    Ok(text.to_owned())
}

/// A reason, which must not be empty.
fn reason(text: &str) -> Result<String> {
    let text = words("reason", text)?;
    if text.is_empty() {
        return Err(BookError::refused("give a reason: it stands in the record"));
    }
    Ok(text)
}

/// The facts of a visit that a person was shown, to name them in a correction.
fn is_of_visit(book: &Book, visit: VisitId, fact: FactId) -> Result<()> {
    if book
        .visit(visit)?
        .history
        .iter()
        .any(|line| line.fact == fact)
    {
        Ok(())
    } else {
        Err(BookError::NotFound {
            what: "fact in this visit",
            name: fact.to_string(),
        })
    }
}

/// A wind reading no meter on a lawn can give is a typing slip.
fn check_readings(readings: &[sward_rules::sky::MeterReading]) -> Result<()> {
    const FASTEST_MS: f64 = 60.0;
    for reading in readings {
        for speed in std::iter::once(&reading.wind).chain(&reading.gust) {
            let metres_per_second = speed.to_speed()?.value;
            if !(0.0..=FASTEST_MS).contains(&metres_per_second) {
                return Err(BookError::refused(format!(
                    "wind {}: cannot be; give what the meter showed, from calm up to {FASTEST_MS} m/s",
                    speed.for_person()
                )));
            }
        }
        if reading.from_degrees.is_some_and(|d| d > 360) {
            return Err(BookError::refused(
                "wind direction: give 0 to 360 degrees from north",
            ));
        }
    }
    Ok(())
}
