//! Corner cases of rules about records, and what must hold for all of them.

use chrono::{DateTime, NaiveDate};
use chrono_tz::Tz;
use proptest::prelude::*;

use super::*;
use crate::place::Mark;
use crate::quantity::Entered;

fn ms(text: &str) -> i64 {
    DateTime::parse_from_rfc3339(text)
        .unwrap()
        .timestamp_millis()
}

fn spots(spots_only: Option<bool>, area: Option<&str>) -> Circumstances {
    Circumstances {
        spots_only,
        area: area.map(|text| Entered::parse(text).unwrap()),
        re_entry_applies: None,
    }
}

fn applicable(rule: &RecordRule, circumstances: &Circumstances) -> usize {
    let all = asked(rule, circumstances, |_| Filled::No).unwrap();
    all.iter().filter(|a| a.filled == Filled::No).count()
}

#[test]
fn only_spots_called_so_and_known_to_be_small_get_the_short_list() {
    let rule = &USDA_7_CFR_110_3;
    assert_eq!(applicable(rule, &spots(Some(true), Some("4355 ft2"))), 5);
    assert_eq!(applicable(rule, &spots(Some(true), Some("0.09 acre"))), 5);
    // A tenth of an acre is not under a tenth of an acre.
    assert_eq!(applicable(rule, &spots(Some(true), Some("0.1 acre"))), 9);
    assert_eq!(applicable(rule, &spots(Some(true), None)), 9);
    assert_eq!(applicable(rule, &spots(None, Some("10 ft2"))), 9);
    assert_eq!(applicable(rule, &spots(Some(false), Some("10 ft2"))), 9);
    let wrong = asked(rule, &spots(None, Some("3 ft")), |_| Filled::No).unwrap_err();
    assert!(wrong.to_string().starts_with("area"), "{wrong}");
}

#[test]
fn no_other_rule_has_a_short_list() {
    for rule in RULES.into_iter().filter(|r| r.place.is_some()) {
        let small = spots(Some(true), Some("1 ft2"));
        assert_eq!(applicable(rule, &small), rule.fields.len(), "{}", rule.name);
    }
}

#[test]
fn the_hour_of_completion_falls_away_only_where_a_person_says_that_no_re_entry_applies() {
    let said = |re_entry_applies| Circumstances {
        re_entry_applies,
        ..Circumstances::default()
    };
    let count = |said: Option<bool>, circumstances: Circumstances| {
        assert_eq!(circumstances.re_entry_applies, said);
        applicable(&PENNSYLVANIA_128_35, &circumstances)
    };
    assert_eq!(count(None, said(None)), 9);
    assert_eq!(count(Some(true), said(Some(true))), 9);
    assert_eq!(count(Some(false), said(Some(false))), 8);
    assert_eq!(applicable(&MINNESOTA_18B_37, &said(Some(false))), 14);
}

#[test]
fn a_time_that_was_not_read_is_none_and_one_from_memory_says_so() {
    for rule in RULES {
        let times = record_times(rule, ms("2026-06-15T12:00:00Z"), Tz::UTC).unwrap();
        assert_eq!(
            times.value.write_by.is_some(),
            rule.write_within_days.is_some()
        );
        let from_memory = times.working.notes.contains(&crate::Note::KeptFromMemory);
        assert_eq!(from_memory, rule.place == Some(Place::Minnesota));
        assert_eq!(from_memory, times.value.keep_mark == Some(Mark::FromMemory));
    }
    let unknown = RecordRule {
        keep_years: None,
        ..NEW_YORK_33_1205
    };
    let times = record_times(&unknown, ms("2026-06-15T12:00:00Z"), Tz::UTC).unwrap();
    assert_eq!(times.value.keep_through, None);
}

#[test]
fn days_are_the_yards_and_a_leap_day_is_kept_to_the_end() {
    let late = ms("2026-06-16T01:00:00Z");
    let here = record_times(&MINNESOTA_18B_37, late, Tz::America__Chicago).unwrap();
    let day = |y, m, d| NaiveDate::from_ymd_opt(y, m, d);
    assert_eq!(here.value.write_by, day(2026, 6, 20));
    let leap = record_times(&NEW_YORK_33_1205, ms("2028-02-29T12:00:00Z"), Tz::UTC).unwrap();
    assert_eq!(leap.value.keep_through, day(2031, 3, 1));
    for hostile in [i64::MIN, -1, i64::MAX] {
        assert!(record_times(&NEW_YORK_33_1205, hostile, Tz::UTC).is_err());
    }
}

#[test]
fn each_rule_is_its_states_and_no_field_stands_twice() {
    for rule in RULES {
        if let Some(place) = rule.place {
            assert_eq!(place.record_rule(), Some(rule));
        }
        let mut fields: Vec<_> = rule.fields.iter().map(|(field, _)| *field).collect();
        fields.sort_unstable();
        fields.dedup();
        assert_eq!(fields.len(), rule.fields.len(), "{}", rule.name);
        if let Some(spot) = rule.spot {
            assert!(spot.fields.iter().all(|field| rule.asks_for(*field)));
        }
    }
    let without = [Place::Maryland, Place::Illinois, Place::Florida];
    assert!(without.iter().all(|place| place.record_rule().is_none()));
}

proptest! {
    #[test]
    fn saying_less_of_the_circumstances_never_asks_for_less(
        rule in 0_usize..6,
        spots_only in proptest::option::of(any::<bool>()),
        area in proptest::option::of(1_u32..10_000),
        re_entry_applies in proptest::option::of(any::<bool>()),
        drop in 0_u8..3,
    ) {
        let area = area.map(|n| Entered::parse(&format!("{n} ft2")).unwrap());
        let all = Circumstances { spots_only, area, re_entry_applies };
        let mut less = all;
        match drop {
            0 => less.spots_only = None,
            1 => less.area = None,
            _ => less.re_entry_applies = None,
        }
        prop_assert!(applicable(RULES[rule], &less) >= applicable(RULES[rule], &all));
    }

    #[test]
    fn a_record_is_kept_for_its_whole_years(
        rule in 0_usize..6, ended in 0_i64..4_000_000_000_000, later in 0_i64..400_000_000,
    ) {
        let times = |at| record_times(RULES[rule], at, Tz::America__New_York).unwrap().value;
        let (sooner, later) = (times(ended), times(ended + later));
        prop_assert!(sooner.keep_through <= later.keep_through);
        prop_assert!(sooner.write_by <= later.write_by);
        prop_assert!(sooner.write_by.is_none() || sooner.write_by < sooner.keep_through);
    }
}
