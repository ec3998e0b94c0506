//! Days by a place's own calendar. Rules about whole days end at a local midnight, wherever the
//! clocks stand then.

use chrono::{DateTime, Days, NaiveDate, NaiveTime, TimeDelta, TimeZone as _};
use chrono_tz::Tz;

/// The end of the year 9999: no treatment is later, and dates near the calendar's own end cannot
/// be computed with.
const LAST_MS: i64 = 253_402_300_799_000;

/// The next whole minute: what is told by the minute ends never a second too early.
pub(crate) fn minute_up(utc_ms: i64) -> Option<i64> {
    const MINUTE_MS: i64 = 60_000;
    Some(utc_ms.checked_add(MINUTE_MS - 1)?.div_euclid(MINUTE_MS) * MINUTE_MS)
}

/// The local day of a moment; none before 1970 or after the year 9999.
pub(crate) fn local_day(utc_ms: i64, zone: Tz) -> Option<NaiveDate> {
    if !(0..=LAST_MS).contains(&utc_ms) {
        return None;
    }
    let utc = DateTime::from_timestamp_millis(utc_ms)?;
    Some(utc.with_timezone(&zone).date_naive())
}

/// The first moment of a day so many days after `day`, in milliseconds since 1970 UTC.
///
/// Where the clocks skip midnight, or a zone left a whole day out, it is the first moment that
/// exists after it.
pub(crate) fn day_after(day: NaiveDate, days: u64, zone: Tz) -> Option<i64> {
    const QUARTERS_OF_TWO_DAYS: i64 = 192;
    let midnight = day
        .checked_add_days(Days::new(days))?
        .and_time(NaiveTime::MIN);
    (0..=QUARTERS_OF_TWO_DAYS).find_map(|quarter| {
        let local = midnight.checked_add_signed(TimeDelta::minutes(15 * quarter))?;
        let at = zone.from_local_datetime(&local).earliest()?;
        Some(at.timestamp_millis())
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn utc(text: &str) -> i64 {
        DateTime::parse_from_rfc3339(text)
            .unwrap()
            .timestamp_millis()
    }

    #[test]
    fn a_day_begins_at_local_midnight_on_either_side_of_a_clock_change() {
        let zone = Tz::America__New_York;
        let day = local_day(utc("2026-11-01T00:30:00Z"), zone).unwrap();
        assert_eq!(day.to_string(), "2026-10-31");
        assert_eq!(day_after(day, 1, zone), Some(utc("2026-11-01T04:00:00Z")));
        assert_eq!(day_after(day, 2, zone), Some(utc("2026-11-02T05:00:00Z")));
    }

    #[test]
    fn a_midnight_that_the_clocks_skip_gives_the_first_moment_after_it() {
        // Cuba puts its clocks forward at midnight: 8 March 2026 begins at 01:00.
        let zone = Tz::America__Havana;
        let day = NaiveDate::from_ymd_opt(2026, 3, 7).unwrap();
        assert_eq!(day_after(day, 1, zone), Some(utc("2026-03-08T05:00:00Z")));
        // Samoa left 30 December 2011 out.
        let samoa = Tz::Pacific__Apia;
        let day = NaiveDate::from_ymd_opt(2011, 12, 29).unwrap();
        assert_eq!(day_after(day, 1, samoa), day_after(day, 2, samoa));
    }

    #[test]
    fn a_time_that_no_treatment_can_bear_has_no_day() {
        for hostile in [i64::MIN, -1, LAST_MS + 1, i64::MAX] {
            assert_eq!(local_day(hostile, Tz::UTC), None);
        }
        assert!(local_day(LAST_MS, Tz::Pacific__Kiritimati).is_some());
        assert_eq!(day_after(NaiveDate::MAX, 1, Tz::UTC), None);
    }
}
