//! Yards, sections and label sheets.

use crate::support::{LABEL, Phone, label, text, yard_and_visit};

#[test]
fn yards_are_added_changed_listed_and_shown() {
    let phone = Phone::founder("Ann");
    phone.does([
        "yard",
        "add",
        "Maple 12",
        "--address",
        "12 Maple St",
        "--zone",
        "America/New_York",
    ]);
    phone.does(["yard", "add", "Maple 14", "--zone", "America/New_York"]);
    phone.does([
        "yard",
        "set",
        "maple 12",
        "people=two children, a dog",
        "note=gate by the shed",
    ]);
    let shown = phone.does(["yard", "show", "maple 12"]);
    assert_eq!(text(&shown, "/people"), "two children, a dog");
    assert_eq!(
        phone.does(["yard", "list"])["yards"]
            .as_array()
            .unwrap()
            .len(),
        2
    );
    assert!(
        phone
            .is_refused(["yard", "show", "maple"], 1)
            .contains("more than one yard")
    );
    assert!(
        phone
            .is_refused(["yard", "show", "oak"], 1)
            .contains("no yard called oak")
    );
    assert!(
        phone
            .is_refused(["yard", "set", "maple 14", "zone=Mars/One"], 1)
            .contains("America/New_York")
    );
    assert!(
        phone
            .is_refused(["yard", "set", "maple 14", "colour=green"], 1)
            .contains("no field")
    );
}

#[test]
fn sections_are_measured_in_every_way_and_hidden() {
    let phone = Phone::founder("Ann");
    phone.does(["yard", "add", "Maple"]);
    let ways = [
        ("--rectangle", "60 ft x 25 ft", 1500.0),
        ("--triangle", "3 ft, 4 ft, 5 ft", 6.0),
        ("--triangle-height", "30 ft x 26 ft", 390.0),
        ("--trapezoid", "40 ft, 30 ft, 20 ft", 700.0),
        ("--circle", "12 ft", 113.097),
        ("--oval", "20 ft x 10 ft", 157.08),
        ("--radii", "10 ft, 10 ft, 10 ft, 10 ft", 314.159),
        ("--offsets", "10 ft; 0 ft, 18 ft, 24 ft, 20 ft", 520.0),
        (
            "--tape-polygon",
            "40 ft; 2 30 ft, 1 50 ft, left; 3 40 ft, 1 30 ft, left",
            1200.0,
        ),
    ];
    for (flag, measures, square_feet) in ways {
        let made = phone.does(["section", "add", "maple", &flag[2..], flag, measures]);
        let found = made["area"]["area_ft2"].as_f64().unwrap();
        assert!((found - square_feet).abs() < 0.01, "{flag}: {found}");
    }
    let less = phone.does([
        "section",
        "leave-out",
        "maple",
        "rectangle",
        "circle 12 ft",
        "rectangle 10 ft x 4 ft",
    ]);
    assert!(
        (less["area"]["area_ft2"].as_f64().unwrap() - 1346.903).abs() < 0.01,
        "{less}"
    );
    phone.does([
        "section",
        "measure",
        "maple",
        "oval",
        "--oval",
        "30 ft x 10 ft",
    ]);
    phone.does(["section", "hide", "maple", "oval"]);
    let shown = phone.tries(["section", "list", "maple", "--how"]);
    assert!(
        shown.out.contains("hidden") && shown.out.contains("length × width"),
        "{}",
        shown.out
    );
    let unhidden = phone.does(["section", "unhide", "maple", "oval"]);
    assert_eq!(unhidden["hidden"], false);
    assert!(
        phone
            .is_refused(["section", "add", "maple", "x"], 2)
            .contains("--rectangle")
    );
}

#[test]
fn a_walk_tells_which_fixes_were_dropped() {
    let phone = Phone::founder("Ann");
    phone.does(["yard", "add", "Maple"]);
    let gpx = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../fixtures/demo/front-lawn.gpx"
    );
    let made = phone.does(["section", "add", "maple", "front", "--gpx", gpx]);
    let (read, used) = (&made["walk"]["read"], &made["walk"]["used"]);
    let dropped = made["walk"]["dropped"].as_array().unwrap().len() as u64;
    assert!(dropped > 0);
    assert_eq!(read.as_u64().unwrap(), used.as_u64().unwrap() + dropped);
}

#[test]
fn a_label_is_typed_read_back_and_shown() {
    let phone = Phone::founder("Ann");
    label(&phone);
    let shown = phone.does(["label", "show", "granule"]);
    assert_eq!(
        text(&shown, "/fields/rate_most"),
        "2.5 [lb_av]/(1000.[ft_i]2)"
    );
    assert_eq!(text(&shown, "/ingredients/0/name"), "bifenthrin");
    assert_eq!(text(&shown, "/read_back/how"), "typed_twice");
    let set = phone.does(["label", "set", "granule", "wind_most=8 mph"]);
    assert_eq!(
        set["read_back"], false,
        "a changed number voids the reading back"
    );
    assert!(phone.does(["label", "list"])["labels"][0]["read_back"].is_null());
    phone.does(["label", "ingredient", "granule", "imidacloprid", "0.1 %"]);
    let mut again = vec![
        "label",
        "read-back",
        "granule",
        "--second-person",
        "Bea",
        "--field",
        "wind_most=8 mph",
    ];
    for field in LABEL[3..].iter().filter(|f| !f.starts_with("wind")) {
        again.extend(["--field", field]);
    }
    phone.does(again);
    assert_eq!(
        text(
            &phone.does(["label", "show", "granule"]),
            "/read_back/person"
        ),
        "Bea"
    );
}

#[test]
fn a_reading_back_that_differs_is_refused_by_field() {
    let phone = Phone::founder("Ann");
    label(&phone);
    let told = phone.is_refused(
        [
            "label",
            "read-back",
            "granule",
            "--field",
            "rate_most=25 lb/1000 ft2",
            "--field",
            "wind_most=10 mph",
        ],
        1,
    );
    assert!(told.contains("rate most: the sheet says 2.5"), "{told}");
    assert!(told.contains("rain free was not read back"), "{told}");
    let alone = phone.is_refused(
        [
            "label",
            "read-back",
            "granule",
            "--second-person",
            "Ann",
            "--field",
            "wind_most=10 mph",
        ],
        1,
    );
    assert!(alone.contains("second person"), "{alone}");
}

#[test]
fn what_is_asked_at_a_terminal_names_its_flag_where_there_is_none() {
    let phone = Phone::founder("Ann");
    label(&phone);
    yard_and_visit(&phone);
    for (step, flag) in [
        (vec!["label", "new"], "--field"),
        (vec!["label", "read-back", "granule"], "--field"),
        (vec!["walk-round", "maple"], "--moved"),
        (vec!["recover"], "--code"),
    ] {
        let told = phone.is_refused(&step, 2);
        assert!(
            told.contains("no terminal") && told.contains(flag),
            "{step:?}: {told}"
        );
    }
    let before = phone.state();
    let told = phone.tries(["confirm-time"]);
    assert_eq!(told.code, Some(2));
    assert!(told.err.contains("--yes"), "{}", told.err);
    assert_eq!(phone.state(), before);
}
