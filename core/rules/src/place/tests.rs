//! Corner cases of place profiles, and what must hold whatever is typed.

use chrono_tz::Tz;
use proptest::prelude::*;

use super::*;
use crate::Note;
use crate::RuleError;
use crate::finding::{Verdict, sum};
use crate::quantity::Entered;

const HOUR_MS: i64 = 3_600_000;
const ENDED: i64 = 1_793_491_200_000;

fn amount(text: &str) -> Option<Entered> {
    Entered::parse(text).ok()
}

fn good_sign() -> SignGiven {
    SignGiven {
        width: amount("5 in"),
        height: amount("4 in"),
        letters: amount("0.375 in"),
        bottom: amount("1 ft"),
        white: Some(true),
        languages: Some(vec![SignLanguage::English, SignLanguage::Spanish]),
    }
}

#[test]
fn a_state_is_known_by_its_letters_or_its_whole_name_only() {
    for place in Place::ALL {
        assert_eq!(Place::from_typed(place.code()), Some(place));
        assert_eq!(Place::from_typed(&place.name().to_uppercase()), Some(place));
    }
    let near = [
        "",
        "N",
        "New",
        "NYC",
        "NewYork",
        "Texas, USA",
        "Флорида",
        "IL 60601",
    ];
    for typed in near {
        assert_eq!(Place::from_typed(typed), None, "{typed}");
    }
    assert_eq!(Place::from_typed(&"NY ".repeat(1000)), None);
}

#[test]
fn every_rule_names_its_law_and_when_it_was_read() {
    for place in Place::ALL {
        assert!(!place.rules().is_empty(), "{place:?}");
        for rule in place.rules() {
            assert!(rule.source.law.len() > 10);
            assert_eq!(rule.source.read, "2026-11, stored copy");
        }
    }
}

#[test]
fn a_state_without_a_rule_has_none_of_another() {
    for place in [None, Some(Place::Minnesota), Some(Place::Texas)] {
        let asked = sign_asked(place, ENDED, Tz::America__Chicago).unwrap();
        assert_eq!(asked.value.rule, None);
        assert_eq!(asked.value.earliest_removal_utc_ms, None);
        assert_eq!(asked.value.finding.verdict, Verdict::Unknown);
        assert!(asked.working.notes.contains(&Note::CheckCurrentRule));
        let findings = check_sign(place, &good_sign()).unwrap();
        assert_eq!(sum(&findings), Verdict::Unknown);
        assert_eq!(findings.len(), 1);
    }
    for place in Place::ALL.into_iter().filter(|p| *p != Place::NewYork) {
        assert_eq!(place.notice_rule(), None, "{place:?}");
    }
}

#[test]
fn hours_end_on_a_whole_minute_and_never_a_second_early() {
    let until = |ended| {
        let asked = sign_asked(Some(Place::Maryland), ended, Tz::UTC).unwrap();
        asked.value.earliest_removal_utc_ms.unwrap()
    };
    assert_eq!(until(ENDED), ENDED + 48 * HOUR_MS);
    assert_eq!(until(ENDED + 1), ENDED + 48 * HOUR_MS + 60_000);
    assert_eq!(until(ENDED + 60_000), ENDED + 48 * HOUR_MS + 60_000);
}

#[test]
fn what_a_rule_does_not_say_is_named_as_not_read() {
    let florida = sign_asked(Some(Place::Florida), ENDED, Tz::America__New_York).unwrap();
    assert_eq!(florida.value.earliest_removal_utc_ms, None);
    assert!(florida.value.not_read.contains(&SignPart::Stays));
    assert!(!florida.value.not_read.contains(&SignPart::PutUp));
    let maryland = check_sign(Some(Place::Maryland), &good_sign()).unwrap();
    assert_eq!(maryland.len(), 5);
    assert!(maryland.iter().all(|f| f.reason == Reason::SignPartNotRead));
}

#[test]
fn a_sign_is_as_good_turned_on_its_side_and_no_better() {
    let findings = check_sign(Some(Place::NewYork), &good_sign()).unwrap();
    let clear = findings.iter().filter(|f| f.verdict == Verdict::Clear);
    assert_eq!(clear.count(), 4);
    let size = |width: &str, height: &str| {
        let sign = SignGiven {
            width: amount(width),
            height: amount(height),
            ..good_sign()
        };
        check_sign(Some(Place::Illinois), &sign).unwrap()[0].verdict
    };
    assert_eq!(size("4 in", "5 in"), Verdict::Clear);
    assert_eq!(size("10.16 cm", "12.7 cm"), Verdict::Clear);
    assert_eq!(size("20 in", "3.999 in"), Verdict::Caution);
    assert_eq!(size("4.9 in", "4.9 in"), Verdict::Caution);
}

#[test]
fn a_sign_hangs_too_low_too_high_or_right() {
    let hung = |place, bottom: &str| {
        let sign = SignGiven {
            bottom: amount(bottom),
            ..good_sign()
        };
        check_sign(Some(place), &sign).unwrap()[2].reason.clone()
    };
    assert_eq!(hung(Place::Georgia, "7.9 in"), Reason::SignTooLow);
    assert_eq!(hung(Place::Georgia, "8 in"), Reason::SignAsAsked);
    assert_eq!(hung(Place::Georgia, "12.1 in"), Reason::SignTooHigh);
    assert_eq!(hung(Place::Illinois, "0 in"), Reason::SignTooLow);
    assert_eq!(hung(Place::NewYork, "6 ft"), Reason::SignAsAsked);
}

#[test]
fn a_sign_that_lacks_a_language_or_its_colour_falls_short() {
    let sign = SignGiven {
        languages: Some(vec![SignLanguage::English]),
        white: Some(false),
        ..good_sign()
    };
    let new_york = check_sign(Some(Place::NewYork), &sign).unwrap();
    assert_eq!(new_york[4].reason, Reason::SignNotAsAsked);
    let illinois = check_sign(Some(Place::Illinois), &sign).unwrap();
    assert_eq!(illinois[3].reason, Reason::SignNotAsAsked);
    assert_eq!(illinois[4].reason, Reason::SignPartNotRead);
}

#[test]
fn what_is_no_length_is_refused_by_its_field() {
    let wrong = SignGiven {
        letters: amount("3 lb"),
        ..good_sign()
    };
    for place in [None, Some(Place::NewYork)] {
        let error = check_sign(place, &wrong).unwrap_err();
        assert!(error.to_string().contains("letters"), "{error}");
    }
    let flat = SignGiven {
        height: amount("0 in"),
        ..good_sign()
    };
    let error = check_sign(Some(Place::NewYork), &flat).unwrap_err();
    assert!(matches!(error, RuleError::NotPositive { .. }), "{error}");
}

#[test]
fn a_time_that_no_treatment_bears_is_refused() {
    for hostile in [i64::MIN, -1, i64::MAX] {
        let error = sign_asked(Some(Place::NewYork), hostile, Tz::UTC).unwrap_err();
        assert!(error.to_string().contains("out of range"), "{error}");
    }
    let times = NoticeTimes {
        planned_start_utc_ms: i64::MIN,
        given_utc_ms: None,
        now_utc_ms: None,
    };
    assert!(notice_asked(Some(Place::NewYork), Adopted::Yes, &times).is_err());
}

#[test]
fn a_notice_stands_as_its_county_and_its_time_say() {
    let asked = |adopted, given: Option<i64>, now: Option<i64>| {
        let times = NoticeTimes {
            planned_start_utc_ms: ENDED,
            given_utc_ms: given.map(|hours| ENDED - hours * HOUR_MS),
            now_utc_ms: now.map(|hours| ENDED - hours * HOUR_MS),
        };
        let answer = notice_asked(Some(Place::NewYork), adopted, &times).unwrap();
        (answer.value.finding.verdict, answer.value.finding.reason)
    };
    let cases = [
        (
            Adopted::NotSaid,
            Some(72),
            None,
            Verdict::Unknown,
            Reason::NoticeCountyNotSaid,
        ),
        (
            Adopted::No,
            None,
            None,
            Verdict::Clear,
            Reason::NoticeNotAdopted,
        ),
        (
            Adopted::Yes,
            Some(48),
            Some(48),
            Verdict::Clear,
            Reason::NoticeInTime,
        ),
        // Nobody knows whether that is still to come.
        (
            Adopted::Yes,
            Some(48),
            None,
            Verdict::Unknown,
            Reason::NoticeNotGiven,
        ),
        (
            Adopted::Yes,
            Some(47),
            None,
            Verdict::DontTreat,
            Reason::NoticeTooLate,
        ),
        (
            Adopted::Yes,
            None,
            None,
            Verdict::Unknown,
            Reason::NoticeNotGiven,
        ),
        (
            Adopted::Yes,
            None,
            Some(48),
            Verdict::Unknown,
            Reason::NoticeNotGiven,
        ),
        (
            Adopted::Yes,
            None,
            Some(47),
            Verdict::DontTreat,
            Reason::NoticeTooLate,
        ),
        // A notice that is still to come is none yet, and comes too late after the latest moment.
        (
            Adopted::Yes,
            Some(50),
            Some(60),
            Verdict::Unknown,
            Reason::NoticeNotGiven,
        ),
        (
            Adopted::Yes,
            Some(40),
            Some(60),
            Verdict::DontTreat,
            Reason::NoticeTooLate,
        ),
    ];
    for (adopted, given, now, verdict, reason) in cases {
        assert_eq!(
            asked(adopted, given, now),
            (verdict, reason),
            "{adopted:?} {given:?} {now:?}"
        );
    }
}

#[test]
fn a_neighbour_is_within_reach_up_to_the_limit_itself() {
    let (_, rule) = Place::NewYork.notice_rule().unwrap();
    let reach = |text: &str| is_within_reach(rule, &Entered::parse(text).unwrap());
    assert!(reach("150 ft").unwrap());
    assert!(reach("45.72 m").unwrap());
    assert!(!reach("151 ft").unwrap());
    assert!(reach("2 h").is_err());
}

fn facts<'a>(product: &'a str, phone: &'a str) -> SignFacts<'a> {
    SignFacts {
        product,
        registration: "000-0",
        ended_utc_ms: ENDED,
        keep_off_until_utc_ms: Some(ENDED + 24 * HOUR_MS + 1),
        stays_until_utc_ms: None,
        by: "",
        phone,
        zone: Tz::America__New_York,
    }
}

#[test]
fn a_sign_says_the_same_in_both_languages_and_never_ends_early() {
    let english = sign_text(
        SignLanguage::English,
        &facts("Invented Granule", "555-0100"),
    );
    let spanish = sign_text(
        SignLanguage::Spanish,
        &facts("Invented Granule", "555-0100"),
    );
    assert_eq!(english.len(), spanish.len());
    // A millisecond past the minute counts as the next.
    assert_eq!(english[2], "Keep off until November 1, 2026, 7:01 pm");
    assert_eq!(
        spanish[2],
        "No entrar hasta el 1 de noviembre de 2026, 19:01"
    );
}

#[test]
fn a_sign_without_a_known_end_names_none_and_takes_hostile_text_as_one_line() {
    let long = "x\n\u{1b}[31m".repeat(1000);
    let hostile = SignFacts {
        keep_off_until_utc_ms: Some(i64::MAX),
        ended_utc_ms: i64::MIN,
        ..facts(&long, " \t ")
    };
    for language in [SignLanguage::English, SignLanguage::Spanish] {
        let lines = sign_text(language, &hostile);
        assert_eq!(lines.len(), 5, "{lines:?}");
        assert!(!lines[2].contains(char::is_numeric), "{}", lines[2]);
        for line in lines {
            assert!(line.chars().count() < 120 && !line.contains(char::is_control));
        }
    }
}

fn any_length() -> impl Strategy<Value = Option<Entered>> {
    proptest::option::of((1_u32..200, 0_u8..3).prop_map(|(n, unit)| {
        let unit = ["in", "cm", "ft"][usize::from(unit)];
        Entered::parse(&format!("{}.{} {unit}", n / 10, n % 10 + 1)).unwrap()
    }))
}

fn any_sign() -> impl Strategy<Value = SignGiven> {
    let languages = prop_oneof![
        Just(vec![]),
        Just(vec![SignLanguage::English]),
        Just(vec![SignLanguage::English, SignLanguage::Spanish]),
    ];
    (
        any_length(),
        any_length(),
        any_length(),
        any_length(),
        proptest::option::of(any::<bool>()),
        proptest::option::of(languages),
    )
        .prop_map(
            |(width, height, letters, bottom, white, languages)| SignGiven {
                width,
                height,
                letters,
                bottom,
                white,
                languages,
            },
        )
}

fn any_place() -> impl Strategy<Value = Option<Place>> {
    proptest::option::weighted(0.9, (0_usize..8).prop_map(|i| Place::ALL[i]))
}

proptest! {
    #[test]
    fn measuring_less_of_a_sign_never_makes_a_part_look_better(
        place in any_place(), sign in any_sign(), drop in 0_u8..6,
    ) {
        let mut less = sign.clone();
        match drop {
            0 => less.width = None,
            1 => less.height = None,
            2 => less.letters = None,
            3 => less.bottom = None,
            4 => less.white = None,
            _ => less.languages = None,
        }
        let (more, less) = (check_sign(place, &sign).unwrap(), check_sign(place, &less).unwrap());
        for (more, less) in more.iter().zip(&less) {
            prop_assert!(more.verdict == less.verdict || less.verdict == Verdict::Unknown);
        }
    }

    #[test]
    fn a_larger_sign_is_never_too_small_where_a_smaller_is_not(
        place in any_place(), sign in any_sign(),
    ) {
        let mut larger = sign.clone();
        larger.width = larger.width.map(|_| Entered::parse("30 in").unwrap());
        let verdict = |s: &SignGiven| check_sign(place, s).unwrap()[0].verdict;
        prop_assert!(verdict(&larger) <= verdict(&sign));
    }

    #[test]
    fn no_sign_comes_down_before_the_treatment_ends(
        place in any_place(), ended in 0_i64..4_000_000_000_000, zone in 0_usize..4,
    ) {
        let zone = [Tz::America__New_York, Tz::America__Chicago, Tz::Pacific__Apia, Tz::UTC][zone];
        let asked = sign_asked(place, ended, zone).unwrap().value;
        prop_assert!(asked.earliest_removal_utc_ms.is_none_or(|at| at > ended));
        if let (Some(from), Some(to)) = (asked.earliest_removal_utc_ms, asked.removed_before_utc_ms) {
            prop_assert!(from < to && to - from <= 50 * HOUR_MS);
        }
        let later = sign_asked(place, ended + 1, zone).unwrap().value;
        prop_assert!(later.earliest_removal_utc_ms >= asked.earliest_removal_utc_ms);
        prop_assert!(asked.finding.verdict >= Verdict::Caution);
    }

    #[test]
    fn a_notice_given_later_never_stands_better(
        given in -100_i64..100, later in 1_i64..50, now in proptest::option::of(-100_i64..100),
    ) {
        let verdict = |given: i64| {
            let times = NoticeTimes {
                planned_start_utc_ms: ENDED,
                given_utc_ms: Some(ENDED + given * HOUR_MS),
                now_utc_ms: now.map(|now| ENDED + now * HOUR_MS),
            };
            notice_asked(Some(Place::NewYork), Adopted::Yes, &times).unwrap().value.finding.verdict
        };
        let clear = |verdict| verdict == Verdict::Clear;
        prop_assert!(clear(verdict(given)) || !clear(verdict(given + later)));
    }
}
