//! What may stand in a field, kind by kind, and how it is stored.

use proptest::prelude::*;
use sward_book::sheet::{OFFSET_MOST_M, Offset, SheetKind, check_text, schema};

fn stored(kind: SheetKind, list: Option<&str>, key: &str, typed: &str) -> Result<String, String> {
    let fields = match list {
        Some(list) => schema::list(kind, list).unwrap().fields,
        None => schema::fields(kind),
    };
    let field = fields.iter().find(|f| f.key == key).unwrap();
    match check_text(field, typed) {
        Ok(value) => Ok(value.text().unwrap().to_owned()),
        Err(error) => {
            assert_eq!(error.field(), Some(key), "{error}");
            Err(error.to_string())
        }
    }
}

fn takes(kind: SheetKind, key: &str, rows: &[(&str, &str)], refuses: &[&str]) {
    for (typed, expected) in rows {
        assert_eq!(
            stored(kind, None, key, typed),
            Ok((*expected).to_owned()),
            "{typed:?}"
        );
        // The stored form is taken again as it stands: editing a form changes nothing.
        assert_eq!(
            stored(kind, None, key, expected),
            Ok((*expected).to_owned())
        );
    }
    for typed in refuses {
        let refused = stored(kind, None, key, typed);
        assert!(refused.is_err(), "{typed:?} became {refused:?}");
    }
}

#[test]
fn a_day() {
    takes(
        SheetKind::Person,
        "licence_until",
        &[
            ("2027-03-31", "2027-03-31"),
            (" 2028-2-29 ", "2028-02-29"),
            ("", ""),
        ],
        &[
            "2027-02-29",
            "31.3.2027",
            "03/31/2027",
            "tomorrow",
            "2027-03-31 12:00",
            "0027-03-31",
            "+12027-03-31",
            "9999-01-01",
            "-2027-03-31",
        ],
    );
}

#[test]
fn a_bearing() {
    takes(
        SheetKind::Yard,
        "street_bearing",
        &[
            ("0", "0 deg"),
            ("225", "225 deg"),
            ("87.5°", "87.5 deg"),
            ("360 deg", "360 deg"),
            ("", ""),
        ],
        &[
            "-1",
            "360.001",
            "361",
            "1e2",
            "NaN",
            "inf",
            "1_0",
            "12,5",
            "north",
            ".",
            "deg",
            "5.00001",
            "99999999999999999999999999999999",
            "45 m",
        ],
    );
}

#[test]
fn yes_or_no() {
    takes(
        SheetKind::Plan,
        "less_uncertainty",
        &[("yes", "yes"), ("no", "no"), ("", "")],
        &["nothing", "Yes", "1", "true"],
    );
}

#[test]
fn ids() {
    let one = "01900000-0000-7000-8000-000000000002";
    let both = format!("{one} 01900000-0000-7000-8000-000000000003");
    takes(
        SheetKind::Plan,
        "equipment",
        &[(one, one), ("", "")],
        &["green spreader", &both, "01900000"],
    );
    takes(
        SheetKind::Plan,
        "sections",
        &[(one, one), (&both, &both), ("", "")],
        &["front", &format!("{one},{one}")],
    );
}

#[test]
fn a_choice_and_an_amount() {
    takes(
        SheetKind::Equipment,
        "kind",
        &[("boom_sprayer", "boom_sprayer"), ("", "")],
        &["boom sprayer", "Boom_sprayer", "drone"],
    );
    takes(
        SheetKind::Stock,
        "on_hand",
        &[("0 lb", "0 [lb_av]"), ("2.50 gal", "2.50 [gal_us]")],
        &["2.5", "-1 lb", "3 ft", "1e3 lb", "2,5 lb", "NaN lb"],
    );
    takes(
        SheetKind::Equipment,
        "calibrated_rate",
        &[("2.5 lb/1000 ft2", "2.5 [lb_av]/(1000.[ft_i]2)")],
        &["0 lb/1000 ft2", "2.5 lb", "nothing"],
    );
    takes(
        SheetKind::Label,
        "season_most",
        &[
            ("nothing", "nothing"),
            ("5 lb/1000 ft2", "5 [lb_av]/(1000.[ft_i]2)"),
        ],
        &["0 lb/1000 ft2", "5 lb", "5 mph"],
    );
}

#[test]
fn text_is_bounded_and_plain() {
    let long = "x".repeat(501);
    let longer = "x".repeat(8001);
    takes(
        SheetKind::Yard,
        "gate",
        &[("1234 #\nleft side", "1234 #\nleft side"), (&long, &long)],
        &[&longer, "bell \u{7}"],
    );
    takes(
        SheetKind::Person,
        "phone",
        &[("000 000", "000 000")],
        &[&long, "000\n000"],
    );
}

#[test]
fn an_offset() {
    for (typed, expected, metres) in [
        ("12.50 m", "12.50 m", 12.5),
        ("-12.50 m", "-12.50 m", -12.5),
        ("\u{2212}3 m", "-3 m", -3.0),
        ("-10 ft", "-10 [ft_i]", -3.048),
        ("-0 m", "0 m", 0.0),
        ("2000 m", "2000 m", 2000.0),
    ] {
        let got = stored(SheetKind::Yard, Some("marks"), "east", typed).unwrap();
        assert_eq!(got, expected);
        let read = Offset::parse("east", &got).unwrap();
        assert!((read.metres() - metres).abs() < 1e-9, "{typed}");
    }
    for typed in [
        "2000.1 m", "-2001 m", "--1 m", "- m", "5", "5 lb", "NaN m", "1e9 m", "1,5 m", "5 °",
    ] {
        let refused = stored(SheetKind::Yard, Some("marks"), "east", typed);
        assert!(refused.is_err(), "{typed} became {refused:?}");
    }
}

proptest! {
    #[test]
    fn any_text_is_refused_or_stored_so_that_it_is_taken_again(typed in "\\PC{0,40}") {
        for kind in [SheetKind::Yard, SheetKind::Label, SheetKind::Plan, SheetKind::Equipment,
            SheetKind::Stock, SheetKind::Person]
        {
            for field in schema::fields(kind) {
                if let Ok(value) = check_text(field, &typed) {
                    prop_assert_eq!(check_text(field, value.text().unwrap()).unwrap(), value);
                }
            }
        }
    }

    #[test]
    fn an_offset_is_read_back_and_never_far(tenths in -40_000_i32..40_000) {
        let typed = format!("{}{}.{} m", if tenths < 0 { "-" } else { "" }, tenths.abs() / 10, tenths.abs() % 10);
        match Offset::parse("north", &typed) {
            Ok(offset) => {
                prop_assert!(tenths.unsigned_abs() <= OFFSET_MOST_M * 10);
                prop_assert_eq!(Offset::parse("north", &offset.to_string()).unwrap(), offset);
                prop_assert!((offset.metres() - f64::from(tenths) / 10.0).abs() < 1e-9);
            }
            Err(_) => prop_assert!(tenths.unsigned_abs() > OFFSET_MOST_M * 10),
        }
    }
}
