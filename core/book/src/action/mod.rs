//! What people do, each as one entry: the same for the terminal, the screens and the phone.
//!
//! An action checks what can be checked before anything is written, and never stops a truthful
//! record of what was done.

mod after;
mod crew;
mod frozen;
mod incident;
mod keep_off;
mod label;
mod ready;
mod settle;
mod sheets;
mod treat;
mod visit;
mod yard;

pub use frozen::treatment_of;
pub use incident::Incident;
pub use ready::{ReadyInputs, judge};
pub use treat::{JUDGED_AGE_MOST_MIN, Start};

use crate::ids::{FactId, VisitId};
use crate::refusal::{Typed, VisitRefusal};
use crate::{Book, BookError, Result, Thing};

/// The longest text in a fact, in bytes.
const TEXT_BYTES_MAX: usize = 2000;

/// Text that a person typed into a fact: one to a few lines, trimmed.
fn words(what: Typed, text: &str) -> Result<String> {
    let text = text.trim();
    if text.len() > TEXT_BYTES_MAX || text.chars().any(|c| c.is_control() && c != '\n') {
        return Err(BookError::refused(VisitRefusal::TextUnfit {
            what,
            bytes_most: TEXT_BYTES_MAX,
        }));
    }
    Ok(text.to_owned())
}

/// A reason, which must not be empty.
fn reason(text: &str) -> Result<String> {
    let text = words(Typed::Reason, text)?;
    if text.is_empty() {
        return Err(BookError::refused(VisitRefusal::ReasonMissing));
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
            what: Thing::FactInVisit,
            name: fact.to_string(),
        })
    }
}

/// A wind reading no meter on a lawn can give is a typing slip.
fn check_readings(readings: &[sward_rules::sky::MeterReading]) -> Result<()> {
    const FASTEST_MS: u32 = 60;
    for reading in readings {
        for speed in std::iter::once(&reading.wind).chain(&reading.gust) {
            let metres_per_second = speed.to_speed()?.value;
            if !(0.0..=f64::from(FASTEST_MS)).contains(&metres_per_second) {
                return Err(BookError::refused(VisitRefusal::WindCannotBe {
                    reading: speed.for_person(),
                    metres_per_second_most: FASTEST_MS,
                }));
            }
        }
        if let Some(height) = &reading.height {
            sward_rules::sky::must_be_meter_height(height)?;
        }
        if reading.from_degrees.is_some_and(|d| d > 360) {
            return Err(BookError::refused(VisitRefusal::WindDirection));
        }
    }
    Ok(())
}
