//! By which day a record is written, and through which day it is kept.

use chrono::{Days, Months, NaiveDate};
use chrono_tz::Tz;
use serde::Serialize;

use super::RecordRule;
use crate::error::{Field, Result, RuleError};
use crate::note::Note;
use crate::place::{Mark, local_day};
use crate::working::{Answer, Working};

/// The two days that a rule sets for a record; none: not known, and no other rule's stands in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct RecordTimes {
    /// The last day on which it is written in time.
    pub write_by: Option<NaiveDate>,
    /// How the time to write it was learnt.
    pub write_mark: Option<Mark>,
    /// The last day on which it is kept.
    pub keep_through: Option<NaiveDate>,
    /// How the time to keep it was learnt.
    pub keep_mark: Option<Mark>,
}

/// By which day a record of an application that ended at `ended_utc_ms` is written, and through
/// which day it is kept, by the calendar of the yard's `zone`.
///
/// Days are counted from the day of the application; years end on the same date, and a 29 February
/// that the last year lacks is kept through 1 March.
///
/// ```
/// use sward_rules::record_rules::{NEW_YORK_33_1205, USDA_7_CFR_110_3, record_times};
/// let zone = chrono_tz::America::New_York;
/// let ended = 1_793_491_200_000; // 31 October 2026, 20:00 EDT
/// let federal = record_times(&USDA_7_CFR_110_3, ended, zone)?.value;
/// assert_eq!(federal.write_by.map(|d| d.to_string()), Some("2026-11-14".to_owned()));
/// assert_eq!(federal.keep_through.map(|d| d.to_string()), Some("2028-10-31".to_owned()));
/// let state = record_times(&NEW_YORK_33_1205, ended, zone)?.value;
/// assert_eq!(state.write_by, None);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// [`RuleError::OutOfRange`] when the end lies before 1970 or after the year 9999.
pub fn record_times(rule: &RecordRule, ended_utc_ms: i64, zone: Tz) -> Result<Answer<RecordTimes>> {
    let day = local_day(ended_utc_ms, zone).ok_or_else(|| {
        RuleError::OutOfRange {
            given: format!("{ended_utc_ms} ms"),
        }
        .of(Field::TreatmentEnd)
    })?;
    let days = rule.write_within_days;
    let years = rule.keep_years;
    let mut working = Working::new("days and years after the application", rule.source)
        .input("local day", day)
        .note(Note::CheckCurrentRule);
    if let Some(days) = days {
        working = working.input("days", days.value);
    }
    if let Some(years) = years {
        working = working.input("years", years.value);
        if years.mark == Mark::FromMemory {
            working = working.note(Note::KeptFromMemory);
        }
    }
    Ok(working.gives(RecordTimes {
        write_by: days.and_then(|told| day.checked_add_days(Days::new(u64::from(told.value)))),
        write_mark: days.map(|told| told.mark),
        keep_through: years.and_then(|told| years_after(day, told.value)),
        keep_mark: years.map(|told| told.mark),
    }))
}

fn years_after(day: NaiveDate, years: u8) -> Option<NaiveDate> {
    let same = day.checked_add_months(Months::new(12 * u32::from(years)))?;
    let fell_back = chrono::Datelike::day(&same) < chrono::Datelike::day(&day);
    if fell_back {
        same.succ_opt()
    } else {
        Some(same)
    }
}
