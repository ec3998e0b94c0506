//! Calculations without a book: areas, edges, strips and slopes, units.

use crate::support::Phone;

fn number(value: &serde_json::Value, pointer: &str) -> f64 {
    let found = value.pointer(pointer).and_then(serde_json::Value::as_f64);
    found.unwrap_or_else(|| panic!("{pointer} is no number in {value}"))
}

// By hand, from plane geometry.
#[test]
fn a_lawn_its_edge_a_strip_and_a_slope() {
    let phone = Phone::new();
    let told = phone.does([
        "calc",
        "area",
        "--rectangle",
        "60 ft x 25 ft",
        "--strip",
        "5 ft",
        "--slope",
        "3 ft / 4 ft",
    ]);
    for (pointer, expected) in [
        ("/area/area_ft2", 1_500.0),
        ("/edge/length_ft", 170.0),
        ("/strip/area_ft2", 750.0),
        ("/left_to_treat/area_ft2", 750.0),
        ("/slope/surface/area_ft2", 750.0),
        ("/slope/level/area_ft2", 600.0),
        ("/slope/grade_percent", 75.0),
    ] {
        let found = number(&told, pointer);
        assert!((found - expected).abs() < 1e-3, "{pointer}: {found}");
    }
    for of in ["area", "edge", "strip", "slope"] {
        assert!(told["working"][of]["formula"].is_string(), "{of}: {told}");
    }
    let along = phone.does([
        "calc",
        "area",
        "--rectangle",
        "60 ft x 25 ft",
        "--strip",
        "5 ft",
        "--along",
        "60 ft",
    ]);
    assert!((number(&along, "/left_to_treat/area_ft2") - 1_200.0).abs() < 1e-6);
    let level = phone.does([
        "calc", "area", "--circle", "80 ft", "--slope", "75 %", "--level",
    ]);
    let ratio = number(&level, "/slope/surface/area_ft2") / number(&level, "/area/area_ft2");
    assert!((ratio - 1.25).abs() < 1e-9, "{ratio}");
    let open = phone.does(["calc", "area", "--trapezoid", "40 ft, 30 ft, 20 ft"]);
    assert!(open["edge"].is_null(), "{open}");
}

#[test]
fn an_amount_in_another_unit() {
    let phone = Phone::new();
    let told = phone.does(["calc", "convert", "2.5 lb/1000 ft2", "kg/ha"]);
    assert_eq!(told["converted"], "122.060691 kg/har");
    let shown = phone.tries(["calc", "convert", "1 gal/acre", "L/ha", "--how"]);
    assert!(
        shown.out.contains("1 gal/acre = 9.35395623 L/ha"),
        "{}",
        shown.out
    );
    assert!(shown.out.contains("9 significant digits"), "{}", shown.out);
}

#[test]
fn what_cannot_be_is_refused_with_what_to_do() {
    let phone = Phone::new();
    for (step, said) in [
        (
            vec!["area", "--circle", "20 ft", "--strip", "10 ft"],
            "leaves nothing to treat",
        ),
        (
            vec!["area", "--circle", "20 ft", "--strip", "5 gal"],
            "width of the strip",
        ),
        (
            vec!["area", "--circle", "20 ft", "--slope", "steep"],
            "slope",
        ),
        (
            vec!["area", "--circle", "20 ft", "--slope", "300 %"],
            "45 degrees",
        ),
        (
            vec!["area", "--circle", "20 ft", "--slope", "12 deg deg"],
            "write it like",
        ),
        (
            vec!["area", "--triangle", "10 ft, 20 ft, 35 ft"],
            "do not make a triangle",
        ),
        (
            vec!["area", "--trapezoid", "4 ft, 3 ft, 2 ft", "--strip", "1 ft"],
            "how long the edge is",
        ),
        (vec!["convert", "8 oz", "fl oz"], "not a fluid ounce"),
        (vec!["convert", "8", "lb"], "no unit"),
        (vec!["convert", "8 lb", "stone"], "not a unit known here"),
    ] {
        let mut whole = vec!["calc"];
        whole.extend(step);
        let told = phone.is_refused(whole.clone(), 1);
        assert!(told.contains(said), "{whole:?}: {told}");
    }
}
