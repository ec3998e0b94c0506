//! Corner cases: what is refused, with its field.

use super::*;
use crate::calibrate::{CatchBoxes, StripRun, Weighed};
use crate::plan::Passes;

fn e(text: &str) -> Entered {
    Entered::parse(text).unwrap()
}

fn refused<T: std::fmt::Debug>(result: Result<T>) -> String {
    result.unwrap_err().to_string()
}

fn run(start: &str, left: &str, length: &str, swath: &str) -> StripRun {
    StripRun {
        weighed: Weighed::StartAndLeft {
            start: e(start),
            left: e(left),
        },
        length: e(length),
        swath: e(swath),
    }
}

#[test]
fn a_strip_names_the_field_that_is_wrong() {
    let said = |run: StripRun| refused(strip_rate(&run, None));
    assert!(said(run("10 lb", "10 lb", "125 ft", "8 ft")).contains("product left"));
    assert!(said(run("10 lb", "1 gal", "125 ft", "8 ft")).contains("a weight is needed"));
    assert!(said(run("10 lb", "6 lb", "0 ft", "8 ft")).contains("length of the strip"));
    assert!(said(run("10 lb", "6 lb", "125 ft", "8 lb")).contains("swath"));
    assert!(said(run("10 ft", "6 ft", "125 ft", "8 ft")).contains("product at the start"));
    let wanted = Unit::parse("fl oz/1000 ft2").unwrap();
    let weighed = run("10 lb", "6 lb", "125 ft", "8 ft");
    assert!(refused(strip_rate(&weighed, Some(wanted))).contains("a volume is needed"));
}

#[test]
fn boxes_must_be_odd_and_of_one_kind() {
    let said = |catches: &[&str]| {
        let catches: Vec<Entered> = catches.iter().map(|c| e(c)).collect();
        let spacing = e("1 ft");
        refused(pattern(&CatchBoxes {
            spacing,
            catches: &catches,
        }))
    };
    assert!(said(&["1 g", "2 g", "2 g", "1 g"]).contains("odd number"));
    assert!(said(&["1 g"; 103]).contains("more than the 101"));
    assert!(said(&["1 g", "2 g", "3 mL", "2 g", "1 g"]).contains("catch of box 3"));
    assert!(said(&["1 g", "2 g", "0 g", "2 g", "1 g"]).contains("more than nothing"));
    assert!(said(&["1 s", "2 s", "3 s", "2 s", "1 s"]).contains("a weight, a volume or a height"));
}

#[test]
fn a_pattern_that_ends_too_soon_says_so() {
    let catches = ["6 g", "7 g", "8 g", "7 g", "6 g"].map(e);
    let boxes = CatchBoxes {
        spacing: e("1 ft"),
        catches: &catches,
    };
    let answer = pattern(&boxes).unwrap();
    assert_eq!(answer.value.effective_swath, None);
    assert!(
        answer
            .working
            .notes
            .contains(&crate::note::Note::BoxesEndTooSoon)
    );
    let curve = evenness(&boxes).unwrap().value;
    assert_eq!(
        (curve.best_one_way, curve.best_back_and_forth),
        (None, None)
    );
    let even = evenness_finding(&curve, &e("5 ft"), Travel::OneWay).unwrap();
    assert_eq!(even.verdict, crate::Verdict::Unknown);
    assert_eq!(even.reason, crate::finding::Reason::PatternBeyondBoxes);
    assert!(refused(evenness_finding(&curve, &e("1 ft"), Travel::OneWay)).contains("two boxes"));
    assert!(refused(evenness_finding(&curve, &e("6 ft"), Travel::OneWay)).contains("whole row"));
}

#[test]
fn settings_that_tell_nothing_are_refused() {
    let tried = |setting: i64, rate: &str| Tried {
        setting: Decimal::from(setting),
        rate: e(rate),
    };
    let wanted = e("3 lb/1000 ft2");
    let said = |tries: &[Tried]| refused(setting_to_try(tries, &wanted, None, Passes::One));
    let same = [tried(1, "2 lb/1000 ft2"), tried(2, "2 lb/1000 ft2")];
    assert!(said(&same).contains("gave different rates"));
    let below = [tried(-1, "2 lb/1000 ft2"), tried(2, "3 lb/1000 ft2")];
    assert!(said(&below).contains("setting tried, number 1"));
    // One setting tried twice is one setting.
    let once = [tried(2, "2 lb/1000 ft2"), tried(2, "2.5 lb/1000 ft2")];
    assert_eq!(setting_to_try(&once, &wanted, None, Passes::One), Ok(None));
    // Of three the two on either side count: 10 + 10 × (3 - 2.5) / (3.5 - 2.5) = 15.
    let three = [
        tried(0, "1 lb/1000 ft2"),
        tried(20, "3.5 lb/1000 ft2"),
        tried(10, "2.5 lb/1000 ft2"),
    ];
    let next = setting_to_try(&three, &wanted, None, Passes::One)
        .unwrap()
        .unwrap();
    assert_eq!(next.value.setting, Decimal::from(15));
    assert!(next.value.between);
    // A dial that closes with higher numbers is rounded up, which is less.
    let closing = [tried(1, "4 lb/1000 ft2"), tried(5, "1 lb/1000 ft2")];
    let next = setting_to_try(&closing, &wanted, None, Passes::One)
        .unwrap()
        .unwrap();
    assert_eq!(next.value.setting, Decimal::from(3));
}

#[test]
fn no_catch_and_no_run_are_refused() {
    let none = NozzleCatches {
        catches: &[],
        time: e("1 min"),
        new_flow: None,
    };
    assert!(refused(nozzle_test(&none)).contains("one at least"));
    let dry = [e("0 fl oz"), e("0 fl oz")];
    let dry = NozzleCatches {
        catches: &dry,
        ..none
    };
    assert!(refused(nozzle_test(&dry)).contains("more than zero"));
    let runs = PaceRuns {
        length: e("100 ft"),
        target: e("3 mph"),
        times: &[],
    };
    assert!(refused(pace(&runs)).contains("one at least"));
    assert!(refused(course_time(&e("100 ft"), &e("60 mph"))).contains("less than 25 mph"));
}

#[test]
fn a_blocked_nozzle_is_named_first() {
    let catches = ["20 fl oz", "0 fl oz", "20 fl oz"].map(e);
    let test = NozzleCatches {
        catches: &catches,
        time: e("1 min"),
        new_flow: Some(e("20 fl oz/min")),
    };
    let result = nozzle_test(&test).unwrap().value;
    assert!(
        result.findings[0]
            .reason
            .to_string()
            .starts_with("nozzle 2 gives -100")
    );
    assert_eq!(result.findings[1].verdict, crate::Verdict::Clear);
}

#[test]
fn who_has_no_name_is_not_known_to_be_another() {
    let found = e("3.6 lb/1000 ft2");
    let verdict = |first, second| {
        let [first, second] = [first, second].map(|name| Person { name, found });
        two_people_finding(&first, Some(&second)).unwrap().verdict
    };
    assert_eq!(verdict("Ann", "Ben"), crate::Verdict::Clear);
    for (first, second) in [("Ann", " ann"), ("Ann", " "), ("", "Ben"), ("", "")] {
        assert_eq!(verdict(first, second), crate::Verdict::Unknown);
    }
}
