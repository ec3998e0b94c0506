//! Keep-offs over clock changes: computed with Python's zoneinfo, New York, 2026.

use chrono::{DateTime, TimeZone};
use chrono_tz::America::New_York;
use sward_rules::Entered;
use sward_rules::keep_off::{
    DryNeed, EndedBy, KeepOff, Now, SiteKind, State, Terms, Treatment, Wait, WaterIn, ground,
    worker_claim,
};
use sward_rules::label::{KeepOffTerms, LabelSays};

fn local(text: &str) -> i64 {
    let naive = chrono::NaiveDateTime::parse_from_str(text, "%Y-%m-%d %H:%M").expect("a time");
    New_York
        .from_local_datetime(&naive)
        .single()
        .expect("an hour that occurs once")
        .timestamp_millis()
}

fn until(last: &str, wait: &str) -> i64 {
    let label = KeepOffTerms {
        until_dry: LabelSays::Nothing,
        wait: LabelSays::Value(Entered::parse(wait).expect("a time")),
    };
    let last_application_utc_ms = local(last);
    let keep_off = KeepOff {
        claims: vec![Terms::from_label(&label)],
        started_utc_ms: last_application_utc_ms - 1_800_000,
        last_application_utc_ms: Some(last_application_utc_ms),
        dry_utc_ms: None,
        lengthen_ms: 0,
    };
    let at = |utc_ms| {
        keep_off.state(Now {
            utc_ms,
            proven: true,
        })
    };
    let State::Runs {
        until_utc_ms,
        then_dry: false,
    } = at(last_application_utc_ms)
    else {
        panic!("it runs right after the last application");
    };
    assert!(matches!(at(until_utc_ms - 1), State::Runs { .. }));
    let ended = State::Ended {
        by: EndedBy::Time,
        at_utc_ms: until_utc_ms,
    };
    assert_eq!(at(until_utc_ms), ended);
    until_utc_ms
}

#[test]
fn a_day_into_summer_time() {
    let end = until("2026-03-07 20:00", "24 h");
    assert_eq!(end, local("2026-03-08 21:00"));
    let utc = DateTime::from_timestamp_millis(end).expect("in range");
    assert_eq!(utc.format("%Y%m%dT%H%M%SZ").to_string(), "20260309T010000Z");
}

#[test]
fn a_day_out_of_summer_time() {
    assert_eq!(until("2026-10-31 20:00", "24 h"), local("2026-11-01 19:00"));
    assert_eq!(
        until("2026-10-31 20:00", "1 day"),
        local("2026-11-01 19:00")
    );
}

#[test]
fn half_a_day_into_summer_time() {
    assert_eq!(until("2026-03-07 20:00", "12 h"), local("2026-03-08 09:00"));
    assert_eq!(
        until("2026-03-07 20:00", "720 min"),
        local("2026-03-08 09:00")
    );
}

/// Lawns: until the spray has dried, or longer if the label says so; dry is something a person
/// sees (Oregon State University). The federal worker interval is never the lawn's rule.
#[test]
fn a_lawn_waits_for_a_person_who_looks() {
    let label = KeepOffTerms {
        until_dry: LabelSays::Value(true),
        wait: LabelSays::Nothing,
    };
    let terms = Terms::from_label(&label);
    assert_eq!(
        terms,
        Terms {
            wait: Wait::NotNeeded,
            dry: DryNeed::Needed
        }
    );
    let finished = local("2026-05-04 09:00");
    let keep_off = KeepOff {
        claims: vec![terms],
        started_utc_ms: finished,
        last_application_utc_ms: Some(finished),
        dry_utc_ms: None,
        lengthen_ms: 0,
    };
    for hours in [0, 12, 24, 48, 10_000] {
        let now = Now {
            utc_ms: finished + hours * 3_600_000,
            proven: true,
        };
        assert_eq!(keep_off.state(now), State::WaitsForDry, "after {hours} h");
    }
}

/// 40 CFR 170.103 (text of 2007) leaves lawns kept for looks out of the worker interval of 12, 24
/// or 48 hours; sod farms are inside it.
#[test]
fn the_worker_interval_counts_at_a_sod_farm_and_never_on_a_lawn() {
    for hours in [12_u64, 24, 48] {
        let interval = LabelSays::Value(Entered::parse(&format!("{hours} h")).expect("a time"));
        assert_eq!(worker_claim(SiteKind::Lawn, &interval).claim, None);
        let farm = worker_claim(SiteKind::SodFarm, &interval).claim;
        let expected = Terms {
            wait: Wait::LastsMs(hours * 3_600_000),
            dry: DryNeed::NotNeeded,
        };
        assert_eq!(farm, Some(expected));
        assert!(
            worker_claim(SiteKind::NotSaid, &interval)
                .claim
                .is_some_and(Terms::is_open)
        );
    }
}

/// Granules: watered in and then dry, which a person sees (Oregon State University for "dry is
/// something a person sees"; that watering starts it anew is common practice, no source).
#[test]
fn granules_are_dry_after_they_were_watered_in() {
    let watered = local("2026-05-04 10:00");
    let mut granules = Treatment {
        keep_off: KeepOff {
            claims: vec![Terms {
                wait: Wait::NotNeeded,
                dry: DryNeed::Needed,
            }],
            started_utc_ms: local("2026-05-04 08:00"),
            last_application_utc_ms: Some(local("2026-05-04 09:00")),
            dry_utc_ms: Some(local("2026-05-04 09:30")),
            lengthen_ms: 0,
        },
        water_in: WaterIn::Asked,
        watered_utc_ms: None,
    };
    let now = Now {
        utc_ms: local("2026-05-04 15:00"),
        proven: true,
    };
    assert!(!ground([&granules], now).is_free());
    granules.watered_utc_ms = Some(watered);
    assert!(!ground([&granules], now).is_free());
    granules.keep_off.dry_utc_ms = Some(local("2026-05-04 14:00"));
    assert!(ground([&granules], now).is_free());
}

/// Two products on ground that overlaps, over the end of summer time: free when the later is over.
#[test]
fn overlapping_ground_is_free_when_the_later_wait_is_over() {
    let treated = |last: &str, hours: u64| Treatment {
        keep_off: KeepOff {
            claims: vec![Terms {
                wait: Wait::LastsMs(hours * 3_600_000),
                dry: DryNeed::NotNeeded,
            }],
            started_utc_ms: local(last),
            last_application_utc_ms: Some(local(last)),
            dry_utc_ms: None,
            lengthen_ms: 0,
        },
        water_in: WaterIn::Open,
        watered_utc_ms: None,
    };
    let both = [
        treated("2026-10-31 20:00", 24),
        treated("2026-10-31 21:00", 4),
    ];
    let at = |utc_ms| {
        let now = Now {
            utc_ms,
            proven: true,
        };
        ground(&both, now)
    };
    let first = at(local("2026-10-31 22:00"));
    // 01:00 comes twice that night; four hours from 21:00 end at the first of the two.
    assert_eq!(
        first.next.map(|n| n.at_utc_ms),
        Some(local("2026-10-31 21:00") + 4 * 3_600_000)
    );
    let end = local("2026-11-01 19:00");
    assert!(!at(end - 1).is_free());
    assert_eq!(at(end).over_since_utc_ms, Some(end));
}
