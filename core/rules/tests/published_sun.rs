//! Values of the sun from outside the project: rise and set, position, and days without either.

use chrono::{DateTime, NaiveDate, TimeZone as _};
use chrono_tz::Tz;
use sward_rules::RuleError;
use sward_rules::sky::{AllDay, Place, SeenThrough, SunDay, sun_day, sun_position};

const NEW_YORK: (f64, f64, Tz) = (40.7128, -74.0060, Tz::America__New_York);
const MINNEAPOLIS: (f64, f64, Tz) = (44.9778, -93.2650, Tz::America__Chicago);

fn day(text: &str) -> NaiveDate {
    text.parse().expect("a day")
}

fn sun((lat, lon, zone): (f64, f64, Tz), date: &str) -> SunDay {
    let place = Place::new(lat, lon).expect("on earth");
    sun_day(place, day(date), zone).expect("a day").value
}

/// Seconds between a moment and a clock time of a day in a zone.
fn off_s(at_utc_ms: Option<i64>, zone: Tz, local: &str) -> i64 {
    let local = local.parse().expect("a local time");
    let expected = zone
        .from_local_datetime(&local)
        .single()
        .expect("one moment");
    (at_utc_ms.expect("it does") - expected.timestamp_millis()) / 1000
}

/// Computed with PyEphem; NOAA's formulas agree within 4 s; accepted within a minute.
#[test]
fn sunrise_and_sunset() {
    for (place, date, rises, sets) in [
        (NEW_YORK, "2024-06-20", "05:24:54", "20:30:38"),
        (NEW_YORK, "2024-12-21", "07:16:48", "16:32:01"),
        // The set is after 00:00 UTC: it is still this day's.
        (MINNEAPOLIS, "2024-09-22", "07:00:50", "19:09:21"),
    ] {
        let sun = sun(place, date);
        let rise = off_s(sun.rises_utc_ms, place.2, &format!("{date}T{rises}"));
        let set = off_s(sun.sets_utc_ms, place.2, &format!("{date}T{sets}"));
        assert!(
            rise.abs() <= 60 && set.abs() <= 60,
            "{date}: {rise} s, {set} s"
        );
        assert_eq!(sun.all_day, None);
    }
}

/// One library returns the day before for a local sunset after 00:00 UTC.
#[test]
fn a_sunset_after_midnight_utc_is_not_yesterdays() {
    let sets = sun(MINNEAPOLIS, "2024-09-22").sets_utc_ms.expect("it sets");
    let utc = DateTime::from_timestamp_millis(sets).expect("a time");
    assert_eq!(utc.date_naive(), day("2024-09-23"));
    let local = utc.with_timezone(&Tz::America__Chicago);
    assert_eq!(local.date_naive(), day("2024-09-22"));
}

/// NREL/TP-560-34302's example, from memory; computed with pvlib. Its difference of the earth's
/// turning from even time (67 s) is estimated here, which moves the sun by under 0.0001 degrees.
#[test]
fn the_position_of_the_published_example() {
    let place = Place::new(39.742_476, -105.1786).expect("on earth");
    let at = DateTime::parse_from_rfc3339("2003-10-17T12:30:30-07:00").expect("a time");
    let air = SeenThrough {
        height_m: 1830.14,
        pressure_hpa: 820.0,
        temperature_c: 11.0,
    };
    let sun = sun_position(place, at.timestamp_millis(), air)
        .expect("a time")
        .value;
    assert!(
        (sun.zenith_deg - 50.111_622).abs() < 1e-3,
        "{}",
        sun.zenith_deg
    );
    assert!(
        (sun.azimuth_deg - 194.340_241).abs() < 1e-3,
        "{}",
        sun.azimuth_deg
    );
    assert!((sun.elevation_deg + sun.zenith_deg - 90.0).abs() < 1e-9);
}

#[test]
fn civil_twilight_lies_around_the_day() {
    let sun = sun(NEW_YORK, "2024-06-20");
    let min = |a: Option<i64>, b: Option<i64>| (b.expect("there") - a.expect("there")) / 60_000;
    // About half an hour at this latitude at midsummer.
    assert!((28..40).contains(&min(sun.first_light_utc_ms, sun.rises_utc_ms)));
    assert!((28..40).contains(&min(sun.sets_utc_ms, sun.last_light_utc_ms)));
}

/// Svalbard: the sun neither rises nor sets for months, which is an answer.
#[test]
fn polar_day_and_night_are_answers() {
    let svalbard = (78.2167, 15.6333, Tz::Arctic__Longyearbyen);
    let summer = sun(svalbard, "2024-06-20");
    assert_eq!(summer.all_day, Some(AllDay::Up));
    assert_eq!((summer.rises_utc_ms, summer.sets_utc_ms), (None, None));
    let winter = sun(svalbard, "2024-12-21");
    assert_eq!(winter.all_day, Some(AllDay::Down));
    assert_eq!(
        (winter.rises_utc_ms, winter.last_light_utc_ms),
        (None, None)
    );
    // Every day of a year is answered, at the poles too.
    for lat in [-90.0, -66.6, 66.6, 90.0] {
        for week in 0..52 {
            let date = day("2024-01-01") + chrono::Days::new(week * 7);
            let place = Place::new(lat, 15.0).expect("on earth");
            let sun = sun_day(place, date, Tz::UTC).expect("answered").value;
            let crosses = sun.rises_utc_ms.is_some() || sun.sets_utc_ms.is_some();
            assert!(crosses != sun.all_day.is_some(), "{lat} {date}");
        }
    }
}

#[test]
fn a_day_of_23_or_25_hours_has_one_rise_and_one_set() {
    for date in ["2026-03-08", "2026-11-01"] {
        let sun = sun(NEW_YORK, date);
        for at in [sun.rises_utc_ms, sun.sets_utc_ms] {
            let at = DateTime::from_timestamp_millis(at.expect("it does")).expect("a time");
            assert_eq!(at.with_timezone(&NEW_YORK.2).date_naive(), day(date));
        }
    }
}

#[test]
fn what_is_no_place_day_or_air_is_refused_by_its_field() {
    for (lat, lon, field) in [
        (90.1, 0.0, "latitude"),
        (-91.0, 0.0, "latitude"),
        (f64::NAN, 0.0, "latitude"),
        (f64::INFINITY, 0.0, "latitude"),
        (0.0, 180.1, "longitude"),
        (0.0, f64::NEG_INFINITY, "longitude"),
        (0.0, f64::NAN, "longitude"),
    ] {
        let error = Place::new(lat, lon).expect_err("no place").to_string();
        assert!(error.contains(field), "{error}");
    }
    let place = Place::new(40.0, -75.0).expect("on earth");
    for date in [
        NaiveDate::MIN,
        NaiveDate::MAX,
        day("1969-12-31"),
        day("2200-01-01"),
    ] {
        let error = sun_day(place, date, Tz::UTC).expect_err("no such day");
        assert!(matches!(error, RuleError::NotAllowed { .. }), "{error}");
    }
    for at in [i64::MIN, -1, i64::MAX] {
        assert!(sun_position(place, at, SeenThrough::default()).is_err());
    }
    let fine = SeenThrough::default();
    for air in [
        SeenThrough {
            height_m: f64::NAN,
            ..fine
        },
        SeenThrough {
            height_m: 1e9,
            ..fine
        },
        SeenThrough {
            pressure_hpa: 0.0,
            ..fine
        },
        SeenThrough {
            pressure_hpa: f64::INFINITY,
            ..fine
        },
        SeenThrough {
            temperature_c: -300.0,
            ..fine
        },
        SeenThrough {
            temperature_c: f64::NAN,
            ..fine
        },
    ] {
        assert!(sun_position(place, 0, air).is_err(), "{air:?}");
    }
}
