//! Times of a forecast: an ISO 8601 start with a duration, such as `2026-05-04T06:00:00+00:00/PT6H`.
//!
//! Months and years have no fixed length and are refused; nothing here knows what a layer means.

use chrono::DateTime;

const SECOND_MS: i64 = 1000;

/// Longest duration taken, in seconds: a forecast of over a year is none.
const SECONDS_MOST: i64 = 400 * 86_400;

/// Start and end in milliseconds since 1970 UTC; none when the text is no such interval.
pub(super) fn interval_utc_ms(text: &str) -> Option<(i64, i64)> {
    let (start, duration) = text.split_once('/')?;
    let from = instant_utc_ms(start)?;
    let length_s = duration_s(duration)?;
    Some((from, from.checked_add(length_s.checked_mul(SECOND_MS)?)?))
}

/// An instant with its offset from UTC, in milliseconds since 1970 UTC.
pub(super) fn instant_utc_ms(text: &str) -> Option<i64> {
    DateTime::parse_from_rfc3339(text)
        .ok()
        .map(|t| t.timestamp_millis())
}

/// Length in seconds of `P[nW][nD][T[nH][nM][nS]]`, in that order and longer than nothing.
fn duration_s(text: &str) -> Option<i64> {
    let (days, clock) = match text.strip_prefix('P')?.split_once('T') {
        Some((_, "")) => return None,
        Some((days, clock)) => (days, clock),
        None => (text.strip_prefix('P')?, ""),
    };
    let days = parts_s(days, &[('W', 7 * 86_400), ('D', 86_400)])?;
    let clock = parts_s(clock, &[('H', 3600), ('M', 60), ('S', 1)])?;
    let total = days.checked_add(clock)?;
    (1..=SECONDS_MOST).contains(&total).then_some(total)
}

fn parts_s(mut text: &str, units: &[(char, i64)]) -> Option<i64> {
    let mut total = 0_i64;
    for (letter, seconds) in units {
        let Some((number, rest)) = text.split_once(*letter) else {
            continue;
        };
        if number.is_empty() || number.len() > 9 || !number.bytes().all(|b| b.is_ascii_digit()) {
            return None;
        }
        total = total.checked_add(number.parse::<i64>().ok()?.checked_mul(*seconds)?)?;
        text = rest;
    }
    text.is_empty().then_some(total)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_durations_of_the_weather_service() {
        for (text, hours) in [
            ("PT1H", 1),
            ("P1D", 24),
            ("P1DT6H", 30),
            ("P7DT20H", 188),
            ("P1W", 168),
            ("PT90M", 0),
        ] {
            let seconds = duration_s(text).unwrap();
            assert_eq!(
                seconds,
                if hours == 0 { 5400 } else { hours * 3600 },
                "{text}"
            );
        }
    }

    #[test]
    fn refuses_what_has_no_fixed_or_no_length() {
        for text in [
            "",
            "P",
            "PT",
            "P1M",
            "P1Y",
            "PT0H",
            "P1DT",
            "1D",
            "PT-1H",
            "PT1.5H",
            "PT1M1H",
            "P9999999999D",
            "PT1H ",
        ] {
            assert_eq!(duration_s(text), None, "{text}");
        }
    }

    #[test]
    fn an_offset_moves_the_start() {
        assert_eq!(
            interval_utc_ms("2026-05-04T06:00:00-04:00/PT1H"),
            Some((1_777_888_800_000, 1_777_892_400_000))
        );
        for text in [
            "2026-05-04T06:00:00/PT1H",
            "2026-05-04/PT1H",
            "NOW/PT1H",
            "PT1H",
            "/",
        ] {
            assert_eq!(interval_utc_ms(text), None, "{text}");
        }
    }
}
