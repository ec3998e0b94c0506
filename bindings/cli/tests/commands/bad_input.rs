//! Slips at the keyboard: each a clear sentence, and nothing stored.

use crate::support::{Phone, planned, started, yard_and_visit};

#[test]
fn sizes_that_cannot_be_are_refused() {
    let phone = Phone::founder("Ann");
    phone.does(["yard", "add", "Maple"]);
    for (flag, measures, said) in [
        ("--rectangle", "0 ft x 25 ft", "more than zero"),
        ("--rectangle", "-3 ft x 25 ft", "below zero"),
        ("--rectangle", "NaN ft x 25 ft", "plain number"),
        ("--rectangle", "inf ft x 25 ft", "plain number"),
        ("--rectangle", "1e9 ft x 25 ft", "plain number"),
        ("--rectangle", "60 x 25", "no unit"),
        ("--rectangle", "2,5 ft x 25 ft", "unit"),
        ("--rectangle", "600000 ft x 25 ft", "over the limit"),
        ("--rectangle", "60 lb x 25 ft", "a length is needed"),
        (
            "--triangle",
            "10 ft, 20 ft, 30 ft",
            "do not make a triangle",
        ),
        ("--offsets", "10 ft; 5 ft", "too few"),
        (
            "--tape-polygon",
            "40 ft; 2 5 ft, 1 5 ft, left",
            "do not meet",
        ),
    ] {
        let told = phone.is_refused(["section", "add", "maple", "x", flag, measures], 1);
        assert!(told.contains(said), "{flag} {measures}: {told}");
    }
    let too_much = phone.is_refused(
        [
            "section",
            "add",
            "maple",
            "x",
            "--circle",
            "6 ft",
            "--leave-out",
            "rectangle 60 ft x 25 ft",
        ],
        1,
    );
    assert!(too_much.contains("not smaller than the lawn"), "{too_much}");
}

#[test]
fn rates_of_the_wrong_kind_are_refused() {
    let phone = Phone::founder("Ann");
    planned(&phone);
    // The label gives a weight.
    phone.does(["plan", "maple", "--rate", "2.5 lb/1000 ft2"]);
    let told = phone.is_refused(
        [
            "half-way", "maple", "--filled", "3 fl oz", "--left", "1 fl oz", "--done", "50 %",
        ],
        1,
    );
    assert!(told.contains("a weight is needed"), "{told}");
    let told = phone.is_refused(["label", "set", "granule", "wind_most=10 ft"], 1);
    assert!(told.contains("a length, where a speed is needed"), "{told}");
    let told = phone.is_refused(
        ["label", "set", "granule", "rate_least=1 fl oz/1000 ft2"],
        1,
    );
    assert!(
        told.contains("one is by weight, the other by volume"),
        "{told}"
    );
    let told = phone.is_refused(["label", "set", "granule", "rate_most=0 lb/1000 ft2"], 1);
    assert!(told.contains("zero is no rate"), "{told}");
    let told = phone.is_refused(["label", "set", "granule", "rate_least=3 lb/1000 ft2"], 1);
    assert!(told.contains("above rate most"), "{told}");
}

#[test]
fn a_plan_by_volume_for_a_label_by_weight_is_never_worked_out() {
    let phone = Phone::founder("Ann");
    planned(&phone);
    let told = phone.tries(["plan", "maple", "--rate", "2.5 fl oz/1000 ft2"]);
    assert_eq!(told.code, Some(1), "{}", told.out);
    assert!(told.err.contains("an ounce of weight"), "{}", told.err);
    assert!(told.out.is_empty(), "{}", told.out);
}

#[test]
fn an_empty_limit_is_not_known_and_never_allowed() {
    let phone = Phone::founder("Ann");
    planned(&phone);
    phone.does(["label", "set", "granule", "wind_most="]);
    phone.does([
        "reading",
        "maple",
        "--wind",
        "2 mph gust 3 mph@07:57",
        "--wind",
        "2 mph@07:58",
        "--wind",
        "2 mph@07:59",
    ]);
    let told = phone.ends(["ready", "maple"], 3);
    let wind = told["findings"]
        .as_array()
        .unwrap()
        .iter()
        .find(|f| f["check"] == "wind")
        .unwrap();
    assert_eq!(wind["verdict"], "unknown");
}

#[test]
fn counts_and_readings_that_cannot_be_are_refused() {
    let phone = Phone::founder("Ann");
    yard_and_visit(&phone);
    for (step, code, said) in [
        (
            vec![
                "count", "maple", "--pest", "x", "--sod", "0 in", "--counts", "1",
            ],
            1,
            "size",
        ),
        (
            vec![
                "count", "maple", "--pest", "x", "--sod", "900 ft", "--counts", "1",
            ],
            1,
            "size",
        ),
        (
            vec![
                "count", "maple", "--pest", "x", "--sod", "6 lb", "--counts", "1",
            ],
            1,
            "a length is needed",
        ),
        (
            vec![
                "count", "maple", "--pest", "x", "--sod", "6 in", "--counts", "-1",
            ],
            2,
            "--counts",
        ),
        (
            vec![
                "count", "maple", "--pest", "x", "--sod", "6 in", "--counts", "1.5",
            ],
            2,
            "--counts",
        ),
        (
            vec!["reading", "maple", "--wind", "600 mph"],
            1,
            "cannot be",
        ),
        (
            vec!["reading", "maple", "--wind", "6 ft"],
            1,
            "a speed is needed",
        ),
        (
            vec!["reading", "maple", "--wind", "6 mph@25:00"],
            1,
            "no time",
        ),
        (
            vec!["reading", "maple", "--wind", "6 mph from 361"],
            1,
            "0 to 360",
        ),
        (
            vec!["reading", "maple", "--air", "70 mph"],
            1,
            "a temperature is needed",
        ),
        (
            vec!["reading", "maple", "--air", "70 F", "--humidity", "101"],
            2,
            "--humidity",
        ),
        (
            vec!["reading", "maple", "--beaufort", "13"],
            2,
            "--beaufort",
        ),
        (
            vec!["reading", "maple", "--inversion", "mist"],
            2,
            "hanging-smoke",
        ),
        (vec!["reading", "maple"], 2, "--wind"),
        (
            vec!["walk-round", "maple", "--moved", "toys", "--cant", "toys"],
            2,
            "two different answers",
        ),
    ] {
        let told = phone.is_refused(&step, code);
        assert!(told.contains(said), "{step:?}: {told}");
    }
}

#[test]
fn loads_and_looks_that_cannot_be_are_refused() {
    let phone = Phone::founder("Ann");
    started(&phone);
    for (step, said) in [
        (vec!["load", "maple", "--product", "0 lb"], "above zero"),
        (
            vec!["load", "maple", "--product", "5 ft"],
            "a weight or a volume",
        ),
        (
            vec!["load", "maple", "--product", "5 lb", "--at", "23:00"],
            "still to come",
        ),
        (
            vec!["load", "maple", "--product", "5 lb", "--section", "side"],
            "no section treated",
        ),
        (
            vec!["finish", "maple", "--section", "front=23:00"],
            "still to come",
        ),
        (vec!["dry", "maple", "side"], "no section treated"),
    ] {
        let told = phone.is_refused(&step, 1);
        assert!(told.contains(said), "{step:?}: {told}");
    }
}

#[test]
fn words_with_steering_characters_reach_no_terminal() {
    let phone = Phone::founder("Ann");
    let told = phone.is_refused(["yard", "add", "Oak\u{1b}[2J"], 1);
    assert!(told.contains("control character"), "{told}");
    assert!(!told.contains('\u{1b}'));
}
