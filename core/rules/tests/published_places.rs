//! Signs and notices as states ask for them: statutes and pages of public bodies, read in 2026-11
//! in stored copies. Clock changes computed with Python's zoneinfo, 2026.

use chrono::{DateTime, TimeZone};
use chrono_tz::America::{Chicago, New_York};
use chrono_tz::Tz;
use sward_rules::finding::{Check, Finding, Reason, Shown, Verdict, Whose, sum};
use sward_rules::place::{
    Adopted, Mark, NoticeTimes, Place, PutUp, SignAsked, SignFacts, SignGiven, SignLanguage,
    SignPart, Stays, check_sign, is_within_reach, notice_asked, sign_asked, sign_text,
};
use sward_rules::{Entered, Note};

fn local(zone: Tz, text: &str) -> i64 {
    let naive = chrono::NaiveDateTime::parse_from_str(text, "%Y-%m-%d %H:%M").expect("a time");
    zone.from_local_datetime(&naive)
        .single()
        .expect("an hour that occurs once")
        .timestamp_millis()
}

fn asked(place: Place, zone: Tz, ended: &str) -> SignAsked {
    let answer = sign_asked(Some(place), local(zone, ended), zone).expect("a time of this century");
    assert!(answer.working.notes.contains(&Note::CheckCurrentRule));
    let has_law = answer.value.source.map(|source| source.law) == Some(answer.working.source);
    assert!(has_law, "{place:?}");
    answer.value
}

fn amount(text: &str) -> Option<Entered> {
    Entered::parse(text).ok()
}

fn sign(size: [&str; 2], letters: &str, bottom: &str) -> SignGiven {
    SignGiven {
        width: amount(size[0]),
        height: amount(size[1]),
        letters: amount(letters),
        bottom: amount(bottom),
        white: Some(true),
        languages: Some(vec![SignLanguage::English, SignLanguage::Spanish]),
    }
}

fn verdicts(place: Place, given: &SignGiven) -> [Verdict; 5] {
    let findings = check_sign(Some(place), given).expect("lengths");
    let each: Vec<Verdict> = findings.iter().map(|f| f.verdict).collect();
    each.try_into().expect("five parts")
}

use Verdict::{Caution, Clear, Unknown};

/// New York ECL 33-1003: at least 4 by 5 in, 12 in above ground, letters 3/8 in, 24 hours.
#[test]
fn new_york_signs() {
    let just = sign(["5 in", "4 in"], "0.375 in", "12 in");
    assert_eq!(
        verdicts(Place::NewYork, &just),
        [Clear, Clear, Clear, Unknown, Clear]
    );
    let below = sign(["5 in", "3.99 in"], "0.374 in", "11.9 in");
    assert_eq!(
        verdicts(Place::NewYork, &below),
        [Caution, Caution, Caution, Unknown, Clear]
    );
    let findings = check_sign(Some(Place::NewYork), &below).unwrap();
    assert_eq!(findings[0].reason, Reason::SignSmaller);
    assert_eq!(
        findings[1].limit.as_ref().unwrap().to_string(),
        "at least 0.375 in"
    );
    assert_eq!(findings[0].whose, Whose::Law);
    // What was read of the rule is never all of it.
    assert_eq!(
        sum(&check_sign(Some(Place::NewYork), &just).unwrap()),
        Unknown
    );
}

/// The same sign, over both changes of the clocks: 24 hours are 24 hours.
#[test]
fn new_york_hours_over_clock_changes() {
    let end = |ended| asked(Place::NewYork, New_York, ended).earliest_removal_utc_ms;
    let spring = end("2026-03-07 20:00");
    assert_eq!(spring, Some(local(New_York, "2026-03-08 21:00")));
    let utc = DateTime::from_timestamp_millis(spring.unwrap()).unwrap();
    assert_eq!(utc.format("%Y%m%dT%H%M%SZ").to_string(), "20260309T010000Z");
    let autumn = end("2026-10-31 20:00");
    assert_eq!(autumn, Some(local(New_York, "2026-11-01 19:00")));
}

/// Maryland Agriculture Article 5-208: at application, 48 hours.
#[test]
fn maryland_signs() {
    let sign = asked(Place::Maryland, New_York, "2026-10-30 20:00");
    let end = local(New_York, "2026-11-01 19:00");
    assert_eq!(sign.earliest_removal_utc_ms, Some(end));
    assert_eq!(sign.removed_before_utc_ms, None);
    let put_up = sign.rule.and_then(|rule| rule.put_up).unwrap();
    assert_eq!(
        (put_up.value, put_up.mark),
        (PutUp::AtApplication, Mark::Read)
    );
    // New York's size is New York's.
    assert!(sign.not_read.contains(&SignPart::Size));
}

/// Illinois 415 ILCS 65/3: 4 by 5 in, white, bottom at least 12 in, right after, off the day
/// following.
#[test]
fn illinois_signs() {
    let just = sign(["4 in", "5 in"], "1 in", "12 in");
    assert_eq!(
        verdicts(Place::Illinois, &just),
        [Clear, Unknown, Clear, Clear, Unknown]
    );
    let sign = asked(Place::Illinois, Chicago, "2026-10-31 23:59");
    assert_eq!(
        sign.earliest_removal_utc_ms,
        Some(local(Chicago, "2026-11-01 00:00"))
    );
    // That Sunday has 25 hours.
    assert_eq!(
        sign.removed_before_utc_ms,
        Some(local(Chicago, "2026-11-02 00:00"))
    );
    let hours = sign.removed_before_utc_ms.unwrap() - sign.earliest_removal_utc_ms.unwrap();
    assert_eq!(hours, 25 * 3_600_000);
    let rule = sign.rule.unwrap();
    assert_eq!(rule.put_up.map(|told| told.value), Some(PutUp::RightAfter));
}

/// Georgia 40-21-9: at least 4 by 5 in, bottom edge 8 to 12 in, until the day after.
#[test]
fn georgia_signs() {
    for (bottom, verdict) in [
        ("7 in", Caution),
        ("8 in", Clear),
        ("12 in", Clear),
        ("13 in", Caution),
    ] {
        let given = sign(["4 in", "5 in"], "1 in", bottom);
        assert_eq!(verdicts(Place::Georgia, &given)[2], verdict, "{bottom}");
    }
    let sign = asked(Place::Georgia, New_York, "2026-03-07 08:00");
    assert_eq!(
        sign.earliest_removal_utc_ms,
        Some(local(New_York, "2026-03-08 00:00"))
    );
    assert_eq!(
        sign.rule.unwrap().stays.map(|t| t.value),
        Some(Stays::UntilDayAfter)
    );
}

/// Florida, UF/IFAS EDIS PI-6: at the time of application. How long was not read.
#[test]
fn florida_signs() {
    let sign = asked(Place::Florida, New_York, "2026-06-15 12:00");
    assert_eq!(sign.earliest_removal_utc_ms, None);
    assert_eq!(sign.finding.verdict, Unknown);
    assert_eq!(
        sign.rule.unwrap().put_up.map(|told| told.value),
        Some(PutUp::AtApplication)
    );
}

/// Minnesota, Texas, Pennsylvania: nothing about signs was read. Nowhere: nothing at all.
#[test]
fn places_of_which_nothing_was_read() {
    let given = sign(["40 in", "50 in"], "2 in", "12 in");
    let read_none = [Place::Minnesota, Place::Texas, Place::Pennsylvania];
    for place in read_none.into_iter().map(Some).chain([None]) {
        let sign = sign_asked(place, local(New_York, "2026-06-15 12:00"), New_York).unwrap();
        assert_eq!(sign.value.earliest_removal_utc_ms, None);
        let finding = &sign.value.finding;
        let expected = if place.is_some() {
            Reason::NoRuleRead
        } else {
            Reason::PlaceNotKnown
        };
        assert_eq!((finding.verdict, &finding.reason), (Unknown, &expected));
        assert!(finding.also.contains(&Reason::CheckCurrentRule));
        assert_eq!(sum(&check_sign(place, &given).unwrap()), Unknown);
    }
}

/// Signs and notices in English and Spanish since 2020 (New York DEC).
#[test]
fn new_york_languages() {
    let english = SignGiven {
        languages: Some(vec![SignLanguage::English]),
        ..sign(["4 in", "5 in"], "1 in", "12 in")
    };
    let finding = &check_sign(Some(Place::NewYork), &english).unwrap()[4];
    assert_eq!(finding.verdict, Caution);
    assert_eq!(finding.limit, Some(Shown::SignBothLanguages));
    let (_, sign) = Place::NewYork.sign_rule().unwrap();
    let (_, notice) = Place::NewYork.notice_rule().unwrap();
    let both: &[SignLanguage] = &[SignLanguage::English, SignLanguage::Spanish];
    assert_eq!(sign.languages.map(|told| told.value), Some(both));
    assert_eq!(notice.languages.map(|told| told.value), Some(both));
    let facts = SignFacts {
        product: "Invented Lawn Granule",
        registration: "000-0",
        ended_utc_ms: local(New_York, "2026-10-31 20:00"),
        keep_off_until_utc_ms: Some(local(New_York, "2026-11-01 19:00")),
        stays_until_utc_ms: Some(local(New_York, "2026-11-01 19:00")),
        by: "Sample Crew",
        phone: "555-0100",
        zone: New_York,
    };
    let [english, spanish] = both
        .iter()
        .map(|l| sign_text(*l, &facts))
        .collect::<Vec<_>>()
        .try_into()
        .unwrap();
    assert_eq!(english.len(), spanish.len());
    assert!(
        english.contains(&"Leave this sign up at least until November 1, 2026, 7:00 pm".to_owned())
    );
    assert!(spanish[0].contains("PESTICIDA"));
}

/// New York ECL 33-1004: 48 h written notice to abutting property within 150 ft, where a county
/// adopted it.
#[test]
fn new_york_notices() {
    // Over the change of the clocks: 1 November 08:00 EST less 48 h is 30 October 09:00 EDT.
    let start = local(New_York, "2026-11-01 08:00");
    let latest = local(New_York, "2026-10-30 09:00");
    let at = |adopted, given| -> Finding {
        let times = NoticeTimes {
            planned_start_utc_ms: start,
            given_utc_ms: given,
            now_utc_ms: Some(latest),
        };
        let answer = notice_asked(Some(Place::NewYork), adopted, &times).unwrap();
        assert_eq!(answer.value.latest_utc_ms, Some(latest));
        assert!(answer.working.notes.contains(&Note::SomeProductsExempt));
        answer.value.finding
    };
    let unsaid = at(Adopted::NotSaid, Some(latest));
    assert_eq!((unsaid.check, unsaid.verdict), (Check::Notice, Unknown));
    assert_eq!(at(Adopted::Yes, Some(latest)).verdict, Clear);
    assert_eq!(
        at(Adopted::Yes, Some(latest + 1)).verdict,
        Verdict::DontTreat
    );
    assert_eq!(at(Adopted::Yes, None).verdict, Unknown);
    assert_eq!(at(Adopted::No, None).verdict, Clear);

    let (_, rule) = Place::NewYork.notice_rule().unwrap();
    assert!(is_within_reach(rule, &Entered::parse("150 ft").unwrap()).unwrap());
    assert!(!is_within_reach(rule, &Entered::parse("150.1 ft").unwrap()).unwrap());
    assert!(rule.only_where_adopted);
}
