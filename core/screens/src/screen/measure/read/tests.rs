//! Every way to measure is read as typed, and every error stands beside its field.

use super::*;

fn form(fields: &[(&str, &str)]) -> Form {
    let mut all = Vec::new();
    for (name, value) in fields {
        all.push(((*name).to_owned(), (*value).to_owned()));
        all.push((format!("{name}.unit"), "ft".to_owned()));
    }
    Form {
        fields: all,
        files: Vec::new(),
    }
}

fn ft2(kind: Kind, fields: &[(&str, &str)]) -> f64 {
    let sent = shape(&form(fields), kind).unwrap_or_else(|e| panic!("{e:?}"));
    sent.shape.area().unwrap().value.square_feet()
}

/// The fields with an error.
fn wrong(kind: Kind, fields: &[(&str, &str)]) -> Vec<String> {
    fn names(trouble: Trouble) -> Vec<String> {
        match trouble {
            Trouble::InField { field, .. } => vec![field],
            Trouble::Fields(all) => all.into_iter().flat_map(names).collect(),
            other => panic!("{other:?}"),
        }
    }
    match shape(&form(fields), kind) {
        Err(trouble) => names(trouble),
        Ok(sent) => panic!("taken: {:?}", sent.shape),
    }
}

const TAPED: &[(&str, &str)] = &[
    ("side", "40"),
    ("row.1.from-a", "2"),
    ("row.1.tape-a", "30"),
    ("row.1.from-b", "1"),
    ("row.1.tape-b", "50"),
    ("row.1.side", "left"),
    ("row.2.from-a", "3"),
    ("row.2.tape-a", "40"),
    ("row.2.from-b", "1"),
    ("row.2.tape-b", "30"),
    ("row.2.side", "left"),
    // Filled in beforehand, with no tape: not a corner.
    ("row.3.from-a", "4"),
    ("row.3.from-b", "1"),
];

// Plane geometry, worked by hand.
#[test]
fn shapes_are_read_as_typed() {
    let near = |found: f64, wanted: f64| assert!((found - wanted).abs() < 0.01, "{found} {wanted}");
    near(
        ft2(Kind::Rectangle, &[("length", "60"), ("width", "25")]),
        1500.0,
    );
    near(
        ft2(Kind::Rectangle, &[("length", "12 ft 6 in"), ("width", "8")]),
        100.0,
    );
    near(
        ft2(Kind::Triangle, &[("a", "3"), ("b", "4"), ("c", "5")]),
        6.0,
    );
    near(
        ft2(Kind::TriangleHeight, &[("base", "30"), ("height", "26")]),
        390.0,
    );
    near(
        ft2(
            Kind::Trapezoid,
            &[("a", "40"), ("b", "30"), ("height", "20")],
        ),
        700.0,
    );
    near(ft2(Kind::Circle, &[("diameter", "12")]), 113.097);
    let offsets = [
        ("spacing", "10"),
        ("row.1", "0"),
        ("row.2", "18"),
        ("row.3", "24"),
        ("row.4", "20"),
    ];
    near(
        ft2(
            Kind::Offsets,
            &[&offsets[..], &[("rule", "trapezoid")]].concat(),
        ),
        520.0,
    );
    near(ft2(Kind::Taped, TAPED), 1200.0);
}

#[test]
fn all_that_is_wrong_is_said_at_once_beside_its_field() {
    assert_eq!(wrong(Kind::Rectangle, &[]), ["length", "width"]);
    assert_eq!(
        wrong(Kind::Rectangle, &[("length", "x"), ("width", "0")]),
        ["length"]
    );
    assert_eq!(
        wrong(Kind::Rectangle, &[("length", "10"), ("width", "0")]),
        ["width"]
    );
    assert_eq!(
        wrong(Kind::Rectangle, &[("length", "10"), ("width", "99999")]),
        ["width"]
    );
    assert_eq!(
        wrong(Kind::Rectangle, &[("length", "10 lb"), ("width", "-3")]),
        ["length", "width"]
    );
    assert_eq!(
        wrong(Kind::Triangle, &[("a", "10"), ("b", "20"), ("c", "30")]),
        ["c"]
    );
    assert_eq!(wrong(Kind::Radii, &[]), ["row.1"]);
    assert_eq!(
        wrong(Kind::Radii, &[("row.1", "5"), ("row.3", "6")]),
        ["row.2"]
    );
    let even = [
        ("spacing", "10"),
        ("row.1", "1"),
        ("row.2", "2"),
        ("row.3", "3"),
        ("row.4", "4"),
        ("rule", "simpson"),
    ];
    assert_eq!(wrong(Kind::Offsets, &even), ["rule"]);
}

#[test]
fn a_taped_corner_that_cannot_be_is_named() {
    let with = |field: &str, value: &'static str| {
        let changed = TAPED
            .iter()
            .map(|(n, v)| (*n, if *n == field { value } else { *v }));
        changed.collect::<Vec<_>>()
    };
    assert_eq!(
        wrong(Kind::Taped, &with("row.2.tape-a", "5")),
        ["row.2.tape-a"]
    );
    assert_eq!(
        wrong(Kind::Taped, &with("row.1.from-b", "2")),
        ["row.1.from-a"]
    );
    assert_eq!(
        wrong(Kind::Taped, &with("row.1.from-a", "9")),
        ["row.1.from-a"]
    );
    assert_eq!(
        wrong(Kind::Taped, &with("row.2.side", "up")),
        ["row.2.side"]
    );
    // The fourth corner on the other side: its sides cross.
    assert_eq!(wrong(Kind::Taped, &with("row.2.side", "right")).len(), 1);
}
