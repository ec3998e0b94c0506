//! The edge stands with the area; a strip and a slope are worked out from what was typed, and what
//! does not fit stands beside its field.

use sward_rules::Entered;
use sward_rules::measure::{Outline, Shape};

use crate::ask::{Again, Next};
use crate::testing::{self, WORDS, given, sent, words};
use crate::words::{Language, Units, Words};

struct Scene {
    screens: testing::Scene,
    path: String,
}

fn ft(text: &str) -> Entered {
    given(&format!("{text} ft"))
}

/// 60 by 25 feet.
fn lawn() -> Shape {
    Shape::Rectangle {
        length: ft("60"),
        width: ft("25"),
    }
}

impl Scene {
    fn new(shape: Shape) -> Self {
        let (screens, path) = testing::Scene::new(|book| {
            let yard = book.add_yard("Corner", "1 Example Way", "America/New_York")?;
            let left_out = Vec::new();
            let outline = Outline { shape, left_out };
            let section = book.add_section(yard, "front", &outline)?;
            Ok(format!("/yards/{yard}/sections/{section}"))
        });
        Self { screens, path }
    }

    fn shown(&self, language: Language, query: &str, again: Option<&Again>) -> String {
        let address = format!("{}?{query}", self.path);
        let page = self.screens.shown(words(language), &address, again);
        page.unwrap()
    }

    /// The screen that a form leads to, or the same one with what is wrong.
    fn sent(&self, language: Language, [strip, along, slope]: [&str; 3]) -> String {
        let fields = [
            ("do", "rest"),
            ("strip", strip),
            ("strip.unit", "ft"),
            ("along", along),
            ("along.unit", "ft"),
            ("slope", slope),
            ("slope.unit", "%"),
        ];
        let form = sent(&fields);
        match self.screens.act(&self.path, &form) {
            Ok(Next::Go(to)) => {
                let (there, query) = to.split_once('?').unwrap();
                assert_eq!(there, self.path);
                self.shown(language, query, None)
            }
            Ok(_) => panic!("another screen is expected"),
            Err(trouble) => self.shown(language, "", Some(&Again { form, trouble })),
        }
    }
}

// By hand: 2 · (60 + 25); inside a strip of 5 ft 50 · 15 remain; 50 ft along the edge, 10 wide, leave
// 1000; a slope of 75 % has a cosine of 4/5.
#[test]
fn the_edge_a_strip_and_a_slope_are_shown_with_their_working() {
    let scene = Scene::new(lawn());
    let plain = scene.shown(Language::English, "", None);
    assert!(plain.contains("Edge: 170 ft ± 1.3 ft"), "{plain}");
    assert!(!plain.contains("Left to treat"));
    let workings = |page: &str| page.matches("class=\"how\"").count();

    let strip = scene.sent(Language::English, ["5", "", ""]);
    assert!(strip.contains("Left to treat") && strip.contains("<dd>750 ft²"));
    assert_eq!(workings(&strip), workings(&plain) + 1);

    let both = scene.sent(Language::English, ["10", "50", "75"]);
    for value in [
        "<dd>500 ft²",
        "<dd>1,000 ft²",
        "75 % (36.9°)",
        "<dd>800 ft²",
    ] {
        assert!(both.contains(value), "{value}: {both}");
    }
    assert_eq!(workings(&both), workings(&plain) + 2);
    assert!(
        both.contains("value=\"50\""),
        "what was typed stands there: {both}"
    );
    // In metres the same address says what was typed in feet.
    let metric = Words {
        units: Units::Metric,
        ..WORDS
    };
    let address = format!("{}?strip=5&strip.unit=ft", scene.path);
    let page = scene.screens.shown(metric, &address, None).unwrap();
    assert!(page.contains("value=\"5 ft\""), "{page}");

    let slope = scene.sent(Language::Spanish, ["", "", "75"]);
    assert!(slope.contains("A nivel") && slope.contains("<dd>1,200 "));
    // Nothing was kept, and the form is small.
    let after = scene.shown(Language::English, "", None);
    assert!(!after.contains("On the ground"), "{after}");
    assert!(both.len() < plain.len() + 6_000, "{}", both.len());
}

#[test]
fn what_does_not_fit_stands_beside_its_field() {
    let scene = Scene::new(lawn());
    for (typed, beside) in [
        (["", "", ""], "strip"),
        (["", "20", "10"], "strip"),
        (["13", "", ""], "strip"),
        (["5 lb", "", ""], "strip"),
        (["-5", "", ""], "strip"),
        (["5", "900", ""], "along"),
        (["5", "0", ""], "along"),
        (["", "", "101"], "slope"),
        (["", "", "steep"], "slope"),
    ] {
        let page = scene.sent(Language::English, typed);
        let fault = format!("<p class=\"fault\" id=\"rest--{beside}-fault\">");
        assert!(page.contains(&fault), "{typed:?}: {page}");
        assert!(!page.contains("Left to treat"), "{typed:?}");
    }
}

#[test]
fn an_edge_that_is_not_known_says_so_and_a_strip_needs_its_length() {
    let (base, height) = (ft("30"), ft("26"));
    let scene = Scene::new(Shape::TriangleHeight { base, height });
    let page = scene.shown(Language::English, "", None);
    assert!(page.contains("Edge: These measures do not say"), "{page}");
    let whole = scene.sent(Language::English, ["5", "", ""]);
    assert!(whole.contains("id=\"rest--along-fault\""), "{whole}");
    let part = scene.sent(Language::English, ["5", "20", ""]);
    assert!(part.contains("<dd>290 ft²"), "{part}");
}

#[test]
fn an_address_changed_by_hand_has_no_result() {
    let scene = Scene::new(lawn());
    for query in [
        "strip=5&strip.unit=lb",
        "slope=999&slope.unit=%25",
        "strip=",
    ] {
        let page = scene.shown(Language::English, query, None);
        assert!(!page.contains("Left to treat") && !page.contains("On the ground"));
    }
}
