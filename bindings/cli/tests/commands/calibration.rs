//! Calibration without a book.

use crate::support::{Phone, text};

#[test]
fn a_strip_is_weighed_and_held_against_the_label() {
    let phone = Phone::new();
    let strip = [
        "calc", "spreader", "--start", "10 lb", "--left", "6.4 lb", "--length", "125 ft",
        "--swath", "8 ft",
    ];
    let found = phone.does(strip);
    assert_eq!(text(&found, "/rate"), "3.6 [lb_av]/(1000.[ft_i]2)");
    let held = |wanted: &'static str, most: &'static str| {
        let more = ["--wanted", wanted, "--most", most];
        phone.does(strip.into_iter().chain(more))
    };
    let clear = held("3.6 lb/1000 ft2", "4 lb/1000 ft2");
    assert_eq!(text(&clear, "/checked/verdict"), "clear");
    // Within five percent of what is wanted, and above the label's most.
    let over = held("3.5 lb/1000 ft2", "3.5 lb/1000 ft2");
    assert_eq!(text(&over, "/checked/verdict"), "dont_treat");
    let twice = phone.does(strip.into_iter().chain([
        "--wanted",
        "7 lb/1000 ft2",
        "--most",
        "7 lb/1000 ft2",
        "--passes",
        "2",
    ]));
    assert_eq!(text(&twice, "/checked/verdict"), "dont_treat");
    let open = phone.does(strip.into_iter().chain(["--wanted", "3.6 lb/1000 ft2"]));
    assert_eq!(text(&open, "/checked/verdict"), "unknown");
    let length = phone.does([
        "calc",
        "spreader",
        "--test-area",
        "1000 ft2",
        "--swath",
        "8 ft",
    ]);
    assert_eq!(text(&length, "/strip_length"), "125 [ft_i]");
}

#[test]
fn two_settings_give_a_third_to_try() {
    let phone = Phone::new();
    let run = [
        "calc",
        "spreader",
        "--caught",
        "0.39 lb",
        "--length",
        "50 ft",
        "--swath",
        "2 ft",
        "--wanted",
        "3.6 lb/1000 ft2",
        "--most",
        "4 lb/1000 ft2",
        "--setting",
        "14",
    ];
    assert!(phone.does(run)["try_next"].is_null());
    let told = phone.tries(
        run.into_iter()
            .chain(["--tried", "10=2.8 lb/1000 ft2", "--how"]),
    );
    assert!(told.out.contains("Try setting 12 next"), "{}", told.out);
    assert!(told.out.contains("an estimate"), "{}", told.out);
    assert!(told.out.contains("straight line"), "{}", told.out);
}

#[test]
fn boxes_show_a_pattern_and_a_curve() {
    let phone = Phone::new();
    let run = [
        "calc",
        "catch-boxes",
        "--spacing",
        "1 ft",
        "--catches",
        "1, 3, 6, 9, 12, 14, 15, 15, 15, 13, 11, 9, 5, 3, 1 mL",
        "--swath",
        "11 ft",
    ];
    let found = phone.does(run);
    assert_eq!(text(&found, "/checked/verdict"), "dont_treat");
    let points = found["evenness"]["points"].as_array().unwrap();
    let ten = points.iter().find(|p| p["swath"] == "10 [ft_i]").unwrap();
    // Computed: 12.89 % back and forth.
    assert!((ten["back_and_forth_percent"].as_f64().unwrap() - 12.89).abs() < 0.005);
    let line = text(&found, "/svg_polylines/pattern");
    assert_eq!(line.split(' ').count(), 15);
    let told = phone.tries(run);
    assert!(told.out.contains("farm fertilizer"), "{}", told.out);
    assert!(told.out.contains('#'), "{}", told.out);
}

#[test]
fn a_sprayer_by_each_of_its_ways() {
    let phone = Phone::new();
    for (flags, per_acre) in [
        (
            vec![
                "--flow",
                "0.20 gal/min",
                "--speed",
                "3 mph",
                "--width",
                "20 in",
            ],
            "19.8 [gal_us]/(43560.[ft_i]2)",
        ),
        (
            vec![
                "--area",
                "250 ft2",
                "--area-time",
                "20 s",
                "--caught",
                "1.25 gal",
            ],
            "217.8 [gal_us]/(43560.[ft_i]2)",
        ),
        (
            vec!["--spacing", "20 in", "--caught", "40 fl oz"],
            "40 [gal_us]/(43560.[ft_i]2)",
        ),
        (
            vec!["--rate", "1 gal/1000 ft2"],
            "43.56 [gal_us]/(43560.[ft_i]2)",
        ),
    ] {
        let found = phone.does(["calc", "sprayer"].into_iter().chain(flags));
        assert_eq!(text(&found, "/rate/per_acre"), per_acre);
    }
}

#[test]
fn nozzles_pace_and_whether_it_holds() {
    let phone = Phone::new();
    let jars = phone.does([
        "calc",
        "nozzles",
        "--catches",
        "20, 20, 26, 20 fl oz",
        "--time",
        "1 min",
    ]);
    assert_eq!(
        text(&jars, "/checked/findings/0/reason/reason"),
        "nozzle-off"
    );
    assert_eq!(text(&jars, "/checked/verdict"), "unknown");
    let flow = phone.does([
        "calc",
        "nozzles",
        "--flow",
        "0.20 gal/min",
        "--pressure",
        "40 psi",
        "--other-pressure",
        "160 psi",
    ]);
    assert_eq!(text(&flow, "/flow"), "0.4 [gal_us]/min");
    let drops = phone.does([
        "calc",
        "nozzles",
        "--label-finest",
        "coarse",
        "--drops",
        "fine",
    ]);
    assert_eq!(text(&drops, "/checked/verdict"), "dont_treat");
    let walk = phone.does([
        "calc",
        "pace",
        "--length",
        "100 ft",
        "--speed",
        "3 mph",
        "--times",
        "25, 25.2, 24.8 s",
    ]);
    assert_eq!(text(&walk, "/time_wanted"), "22.73 s");
    assert_eq!(
        text(&walk, "/checked/findings/0/reason/reason"),
        "pace-slow"
    );
    let same = [
        "calc",
        "calibration",
        "--days-ago",
        "3",
        "--product",
        "bait A=bait A",
        "--operator",
        "Ann=Ann",
        "--machine",
        "red=red",
        "--wheel",
        "air=air",
        "--nozzle",
        "none=none",
    ];
    let swath = phone.does(same);
    assert_eq!(text(&swath, "/checked/verdict"), "unknown");
    let holds = phone.does(same.into_iter().chain(["--swath", "8 ft=96 in"]));
    assert_eq!(text(&holds, "/checked/verdict"), "clear");
    let apart = phone.does([
        "calc",
        "calibration",
        "--first",
        "Ann=3.6 lb/1000 ft2",
        "--second",
        "Ben=3.9 lb/1000 ft2",
    ]);
    assert_eq!(
        text(&apart, "/checked/findings/0/reason/reason"),
        "two-people-differ"
    );
    let rest = phone.does([
        "calc",
        "calibration",
        "--planned",
        "5 lb/1000 ft2",
        "--rate-done",
        "5.8 lb/1000 ft2",
        "--pace",
        "3 mph",
    ]);
    assert_eq!(text(&rest, "/rest/pace"), "3.48 [mi_i]/h");
}

#[test]
fn what_cannot_be_is_refused_with_its_field() {
    let phone = Phone::new();
    for (step, code, said) in [
        (vec!["spreader", "--swath", "8 ft"], 2, "--start"),
        (
            vec![
                "spreader", "--start", "10 lb", "--left", "12 lb", "--length", "9 ft", "--swath",
                "8 ft",
            ],
            1,
            "product left",
        ),
        (
            vec![
                "spreader", "--caught", "2,5 lb", "--length", "9 ft", "--swath", "8 ft",
            ],
            2,
            "comma",
        ),
        (
            vec!["catch-boxes", "--spacing", "1 ft", "--catches", "1, 2, 1 g"],
            1,
            "odd number",
        ),
        (
            vec!["catch-boxes", "--spacing", "1 ft", "--catches", "1, 2, 1"],
            1,
            "--catches",
        ),
        (vec!["sprayer"], 2, "--spacing"),
        (
            vec!["pace", "--length", "100 ft", "--speed", "90 mph"],
            1,
            "25 mph",
        ),
        (
            vec![
                "nozzles",
                "--label-finest",
                "coarse",
                "--label-coarsest",
                "fine",
            ],
            1,
            "coarsest drops",
        ),
        (vec!["calibration"], 2, "--days-ago"),
    ] {
        let told = phone.is_refused(["calc"].into_iter().chain(step.clone()), code);
        assert!(told.contains(said), "{step:?}: {told}");
    }
}
