//! Times as people read and type them, in the yard's zone.
//!
//! Records hold UTC; what is typed without a zone is meant in the yard's.

use chrono::{DateTime, LocalResult, NaiveDateTime, NaiveTime, TimeZone as _};
use chrono_tz::Tz;

use crate::error::{CliError, Result};

/// A moment with its day, in a zone, with the zone's abbreviation: `Mon 2026-06-15 08:30 EDT`.
pub(crate) fn moment(utc_ms: i64, zone: Tz) -> String {
    match zone.timestamp_millis_opt(utc_ms).single() {
        Some(at) => at.format("%a %Y-%m-%d %H:%M %Z").to_string(),
        None => format!("{utc_ms} ms after 1970 (no date can be given)"),
    }
}

/// Reads `08:30` (today), `2026-06-15 08:30`, or RFC 3339 with its offset.
///
/// # Errors
/// When it is none of these, or a change of the clocks makes it two moments or none.
pub(crate) fn when(text: &str, zone: Tz, now_utc_ms: i64) -> Result<i64> {
    let text = text.trim();
    if let Ok(at) = DateTime::parse_from_rfc3339(text) {
        return Ok(at.timestamp_millis());
    }
    let today = zone
        .timestamp_millis_opt(now_utc_ms)
        .single()
        .map(|at| at.date_naive());
    let clock = || {
        let time = NaiveTime::parse_from_str(text, "%H:%M:%S")
            .or_else(|_| NaiveTime::parse_from_str(text, "%H:%M"));
        Some(today?.and_time(time.ok()?))
    };
    let dated = || {
        ["%Y-%m-%d %H:%M:%S", "%Y-%m-%d %H:%M", "%Y-%m-%dT%H:%M"]
            .iter()
            .find_map(|form| NaiveDateTime::parse_from_str(text, form).ok())
    };
    let Some(local) = clock().or_else(dated) else {
        return Err(CliError::Refused(format!(
            "{text} is no time: write it like 08:30, 2026-06-15 08:30 or 2026-06-15T08:30:00-04:00"
        )));
    };
    match zone.from_local_datetime(&local) {
        LocalResult::Single(at) => Ok(at.timestamp_millis()),
        LocalResult::Ambiguous(..) => Err(CliError::Refused(format!(
            "{text} comes twice on the day the clocks change: write it with its offset, like 2026-11-01T01:30:00-04:00"
        ))),
        LocalResult::None => Err(CliError::Refused(format!(
            "{text} does not exist on the day the clocks change: write it with its offset"
        ))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const NOW: i64 = 1_781_526_600_000;

    #[test]
    fn times_are_meant_in_the_yards_zone() {
        let zone = Tz::America__New_York;
        assert_eq!(moment(NOW, zone), "Mon 2026-06-15 08:30 EDT");
        assert_eq!(when("08:30", zone, NOW).unwrap(), NOW);
        assert_eq!(when("2026-06-15 08:30", zone, NOW).unwrap(), NOW);
        assert_eq!(when("2026-06-15T12:30:00Z", zone, NOW).unwrap(), NOW);
        assert!(when("half past", zone, NOW).is_err());
    }

    #[test]
    fn an_hour_that_comes_twice_or_never_is_refused() {
        let zone = Tz::America__New_York;
        let twice = when("2026-11-01 01:30", zone, NOW).unwrap_err().to_string();
        assert!(twice.contains("comes twice"), "{twice}");
        let never = when("2026-03-08 02:30", zone, NOW).unwrap_err().to_string();
        assert!(never.contains("does not exist"), "{never}");
    }
}
