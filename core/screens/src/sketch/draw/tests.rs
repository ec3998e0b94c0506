//! The drawing is whole, hostile names stay text, and it says in words what it shows.

use sward_rules::measure::{Outline, Shape};

use super::super::testing::{ft, section};
use super::super::{KeepOffDrawn, Orientation, PassLines, Place, SketchMark, Wind};
use super::*;
use crate::words::{Language, Units};

fn words(language: Language) -> Words {
    Words {
        language,
        units: Units::Us,
        zone: chrono_tz::UTC,
    }
}

fn rectangle() -> Shape {
    Shape::Rectangle {
        length: ft("60 ft"),
        width: ft("25 ft"),
    }
}

fn sketch() -> Sketch {
    let mut lawn = section("Front", rectangle());
    lawn.place = Some(Place::default());
    lawn.keep_offs = vec![KeepOffDrawn {
        outline: Outline {
            shape: rectangle(),
            left_out: vec![],
        },
        until: "keep off until 3:40 PM".to_owned(),
    }];
    Sketch {
        id: "main",
        name: "<b>Corner</b>".to_owned(),
        sections: vec![
            lawn,
            section(
                "Back",
                Shape::Circle {
                    diameter: ft("20 ft"),
                },
            ),
        ],
        marks: vec![
            SketchMark {
                kind: "well".into(),
                name: String::new(),
                at: Some(Point::new(30.0, 3.0)),
            },
            SketchMark {
                kind: "hive".into(),
                name: "two".into(),
                at: None,
            },
        ],
        wind: Some(Wind {
            from_deg: 270.0,
            mean: "5 mph".to_owned(),
        }),
        orientation: Orientation::North,
    }
}

#[test]
fn it_says_in_words_what_it_shows() {
    for language in Language::ALL {
        let words = words(language);
        let page = sketch().markup(words).into_string();
        assert!(!page.contains('\u{27e6}'), "a message is missing: {page}");
        for wanted in [
            "1,500",
            "keep off until 3:40 PM",
            "role=\"img\"",
            "aria-describedby",
            "5 mph",
        ] {
            assert!(page.contains(wanted), "{wanted}: {page}");
        }
        assert!(
            page.contains(&words.t("sketch-not-placed")),
            "the back is not placed"
        );
        assert!(!page.contains("style="), "the policy forbids inline style");
        assert!(!page.contains("<b>"), "a name is text");
    }
}

#[test]
fn what_lies_down_wind_is_named_and_what_is_not_known_too() {
    let sketch = sketch();
    let lees = sketch.lees().unwrap();
    // The second section has no place: even the well, which lies down wind of the first, is told.
    assert!(matches!(lees[0].1, super::super::Lee::DownWind { .. }));
    assert_eq!(lees[1].1, super::super::Lee::NotKnown);
    let page = sketch.markup(words(Language::English)).into_string();
    assert!(page.contains("Down wind"), "{page}");
}

#[test]
fn passes_are_drawn_and_counted() {
    let sketch = Sketch {
        wind: None,
        ..sketch()
    }
    .with_passes(PassLines {
        spacing_m: 1.524,
        crosswise: true,
    });
    let page = sketch.markup(words(Language::English)).into_string();
    // 25 ft in lines 5 ft apart: five; 60 ft across: twelve.
    assert!(
        page.contains("5 lines") && page.contains("12 lines"),
        "{page}"
    );
    assert!(page.contains("sk-pass"));
}

#[test]
fn nothing_to_draw_is_said() {
    let empty = Sketch {
        sections: vec![],
        marks: vec![],
        wind: None,
        ..sketch()
    };
    let page = empty.markup(words(Language::English)).into_string();
    assert!(
        !page.contains("<svg") && page.contains("Nothing to draw"),
        "{page}"
    );
}

#[test]
fn words_do_not_lie_over_words() {
    let mut plates = Plates::default();
    let row = |text: &str| [text.to_owned()];
    let _ = plates.rows(&row("Front lawn"), 180.0, 100.0);
    assert!(!plates.is_free((150.0, 95.0, 210.0, 105.0)));
    assert!(plates.is_free((150.0, 120.0, 210.0, 135.0)));
}
