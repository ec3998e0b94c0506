//! Calculations of looking and re-checking, without a book.

use crate::support::Phone;

fn near(value: &serde_json::Value, expected: f64) {
    let value = value.as_f64().unwrap();
    assert!((value - expected).abs() < 5e-4, "{value} for {expected}");
}

#[test]
fn samples_tell_a_density_and_how_many_more_decide() {
    let phone = Phone::new();
    let told = phone.does([
        "calc",
        "samples",
        "--sod",
        "6 in",
        "--counts",
        "2,2",
        "--pest",
        "European chafer",
    ]);
    near(&told["density"]["mean_per_ft2"], 8.0);
    let more = &told["decisions"][0]["more_samples"];
    assert_eq!(
        (&more["more"], &more["toward"]),
        (&"samples".into(), &"treating_may_pay".into())
    );
    let plain = phone.tries([
        "calc",
        "samples",
        "--can",
        "6 in",
        "--counts",
        "0,30,0",
        "--pest",
        "chinch bug",
        "--how",
    ]);
    assert_eq!(plain.code, Some(0), "{}", plain.err);
    for said in [
        "differ 30.0 times",
        "Garwood 1936",
        "University of California, IPM",
        "extension office",
    ] {
        assert!(plain.out.contains(said), "{said}: {}", plain.out);
    }
    let refused = phone.is_refused(["calc", "samples", "--sod", "0 in", "--counts", "1"], 1);
    assert!(
        refused.contains("sample 1: the sample's size is 0 in"),
        "{refused}"
    );
}

#[test]
fn degree_days_go_with_their_base_and_start_and_name_what_is_missing() {
    let phone = Phone::new();
    let file = phone.write(
        "days.txt",
        "2026-04-01, 40 F, 80 F\n\n2026-04-03, 45 F, 75 F\n",
    );
    let told = phone.does([
        "calc",
        "degree-days",
        "--base",
        "50 F",
        "--start",
        "2026-04-01",
        "--file",
        file.to_str().unwrap(),
    ]);
    near(&told["single_sine_degree_days"], 23.061_59);
    assert_eq!(told["is_at_least"], true);
    assert_eq!(told["missing_days"], serde_json::json!(["2026-04-02"]));
    assert_eq!(
        (&told["base"], &told["start"]),
        (&"50 °F".into(), &"2026-04-01".into())
    );
    let turned = phone.is_refused(
        [
            "calc",
            "degree-days",
            "--base",
            "50 F",
            "--start",
            "2026-04-01",
            "--day",
            "2026-04-01, 80 F, 40 F",
        ],
        1,
    );
    assert!(
        turned.contains("2026-04-01: the lowest temperature (80 °F) is above"),
        "{turned}"
    );
    let slip = phone.is_refused(
        [
            "calc",
            "degree-days",
            "--base",
            "50 F",
            "--start",
            "2026-04-01",
            "--day",
            "April",
        ],
        2,
    );
    assert!(slip.contains("2026-04-01, 40 F, 80 F"), "{slip}");
}

#[test]
fn control_comes_with_its_interval_or_says_that_there_is_none() {
    let phone = Phone::new();
    let told = phone.does([
        "calc",
        "henderson-tilton",
        "--treated",
        "30",
        "6",
        "--check",
        "28",
        "26",
    ]);
    near(&told["percent"], 78.461_54);
    near(&told["interval"]["lower_percent"], 39.893_82);
    near(&told["interval"]["upper_percent"], 92.281_90);
    let same = phone.does(["control", "--treated", "30", "6", "--check", "28", "26"]);
    assert_eq!(same["interval"], told["interval"]);
    let counts = phone.does(["calc", "abbott", "--check", "26", "--treated", "6"]);
    near(&counts["percent"], 76.923_08);
    let shares = phone.does(["calc", "abbott", "--check", "50 %", "--treated", "2 %"]);
    near(&shares["percent"], 96.0);
    assert!(shares["interval"].is_null());
    let dead = phone.does([
        "calc",
        "schneider-orelli",
        "--check",
        "10",
        "100",
        "--treated",
        "80",
        "100",
    ]);
    near(&dead["percent"], 77.777_78);
    let undefined = phone.is_refused(
        [
            "calc",
            "schneider-orelli",
            "--check",
            "9",
            "9",
            "--treated",
            "8",
            "9",
        ],
        1,
    );
    assert!(
        undefined.contains("what lives in the check is 0"),
        "{undefined}"
    );
    let mixed = phone.is_refused(["calc", "abbott", "--check", "50 %", "--treated", "2"], 2);
    assert!(mixed.contains("not alike"), "{mixed}");
}

#[test]
fn a_key_narrows_by_what_was_seen_and_is_never_certain() {
    let phone = Phone::new();
    let all = phone.does(["calc", "key"]);
    assert!(
        all["keys"]
            .as_array()
            .unwrap()
            .contains(&"chinch-bug".into())
    );
    let first = phone.tries(["calc", "key", "white-grub"]);
    assert!(
        first.out.contains("Look next: How do the short spines"),
        "{}",
        first.out
    );
    let told = phone.does([
        "calc",
        "key",
        "chinch-bug",
        "--seen",
        "head=broad",
        "--seen",
        "pace=fast",
        "--seen",
        "back=unsure",
    ]);
    let kinds = told["candidates"].as_array().unwrap();
    assert_eq!(kinds.len(), 1);
    assert_eq!(
        (&kinds[0]["kind"], &kinds[0]["standing"]),
        (&"big-eyed-bug".into(), &"fits".into())
    );
    assert_eq!(kinds[0]["role"], "helper");
    assert_eq!(told["excluded"].as_array().unwrap().len(), 3);
    let text = phone
        .tries(["calc", "key", "ant", "--seen", "waist=one"])
        .out;
    assert!(
        text.contains("It hurts people, so one feature does not exclude it"),
        "{text}"
    );
    assert!(
        text.contains("Not sure? Ask your extension office."),
        "{text}"
    );
    assert!(!text.to_lowercase().contains("certain"), "{text}");
    let refused = phone.is_refused(["calc", "key", "ant", "--seen", "waist=three"], 1);
    assert!(refused.contains("choose one of two, one"), "{refused}");
}
