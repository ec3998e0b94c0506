//! Each calculation answers in both languages, what the rules refuse stands beside its field, and
//! nothing is kept.

use sward_book::ids::SheetId;

use super::CALCS;
use crate::Result;
use crate::ask::{Again, Next};
use crate::server::Form;
use crate::testing;
use crate::words::{Language, Units, Words};

struct Scene {
    screens: testing::Scene,
    label: SheetId,
}

/// A form of fields `name=value`; a value's unit stands behind a bar.
fn form(fields: &[&str]) -> Form {
    let mut all = vec![("do".to_owned(), "work-out".to_owned())];
    for field in fields {
        let (name, value) = field.split_once('=').unwrap();
        let (value, unit) = value.split_once('|').unwrap_or((value, ""));
        all.push((name.to_owned(), value.to_owned()));
        if !unit.is_empty() {
            all.push((format!("{name}.unit"), unit.to_owned()));
        }
    }
    Form::of_query(&all)
}

fn words(language: Language, units: Units) -> Words {
    Words {
        language,
        units,
        zone: chrono_tz::UTC,
    }
}

impl Scene {
    fn new() -> Self {
        let (screens, label) = testing::Scene::new(|book| {
            book.add_label(&[
                ("product", "Example drench"),
                ("method", "drench"),
                ("rate_most", "0.6 fl oz/1000 ft2"),
                ("carrier_least", "2 gal/1000 ft2"),
            ])
        });
        Self { screens, label }
    }

    fn shown(&self, words: Words, what: &str, query: &str, again: Option<&Again>) -> String {
        let address = format!("/things/work-out/{what}?{query}");
        self.screens.shown(words, &address, again).unwrap()
    }

    fn send(&self, what: &str, form: &Form) -> Result<String> {
        let path = format!("/things/work-out/{what}");
        match self.screens.act(&path, form)? {
            Next::Go(path) => Ok(path.split_once('?').unwrap().1.to_owned()),
            _ => panic!("a calculation leads to its result"),
        }
    }

    /// Sends it, looks at the result in both languages, and gives the English.
    fn worked(&self, what: &str, fields: &[&str]) -> String {
        let query = self.send(what, &form(fields)).unwrap();
        let english = Language::ALL.map(|language| {
            let page = self.shown(words(language, Units::Us), what, &query, None);
            assert!(page.contains("class=\"how\""), "{what}: {page}");
            assert!(!page.contains('\u{27e6}'), "{what}: {page}");
            page
        });
        let [english, _] = english;
        english
    }

    fn refused(&self, what: &str, fields: &[&str], field: &str) {
        let trouble = self.send(what, &form(fields)).unwrap_err();
        assert!(trouble.of_field(field).is_some(), "{what}: {trouble:?}");
    }
}

fn has(page: &str, all: &[&str]) {
    for text in all {
        assert!(page.contains(text), "{text} in {page}");
    }
}

#[test]
fn every_page_shows_its_form_in_both_languages_and_units() {
    let scene = Scene::new();
    for calc in CALCS {
        for language in Language::ALL {
            for units in [Units::Us, Units::Metric] {
                let page = scene.shown(words(language, units), calc.name, "", None);
                has(&page, &["name=\"once\"", "value=\"work-out\""]);
                assert!(!page.contains('\u{27e6}'), "{}: {page}", calc.name);
                // An address that was changed by hand shows the form and no result.
                let page = scene.shown(words(language, units), calc.name, "x=1&rate=y", None);
                assert!(!page.contains("class=\"how\""), "{}: {page}", calc.name);
            }
        }
        scene.send(calc.name, &form(&[])).unwrap_err();
    }
}

#[test]
fn rates_come_in_every_form_and_product_for_an_area() {
    let scene = Scene::new();
    // 3.6 pt/acre are 1.32231405 fl oz/1000 ft²; on 5,000 ft² 6.6 fl oz.
    let page = scene.worked(
        "rate",
        &[
            "rate=3.6|pt/acre",
            "area=5000|ft2",
            "step=0.5|fl oz",
            "most=3.6|pt/acre",
        ],
    );
    has(&page, &["1.322 fl oz/1000", "6.5 fl oz", "verdict-clear"]);
    let page = scene.worked("pack", &["pack=15|lb", "covers=12500|ft2"]);
    // The label's most is nowhere: not known, never clear.
    has(&page, &["1.2 lb/1000", "verdict-unknown"]);
    let page = scene.worked("ingredient", &["active=2|lb/acre", "content=80|%"]);
    has(&page, &["2.5 lb/acre"]);
    let page = scene.worked(
        "in-mix",
        &["ratio=2|lb/100 gal", "mix=20|gal", "carrier=5|gal/1000 ft2"],
    );
    has(&page, &["0.4 lb", "0.1 lb/1000"]);
    scene.refused("in-mix", &["ratio=2|lb/100 gal", "area=100|ft2"], "carrier");
    scene.refused(
        "ingredient",
        &["active=2|lb/acre", "content=120|%"],
        "content",
    );
    scene.refused("rate", &["rate=0|lb/acre"], "rate");
    let area = ["rate=1|lb/acre", "area=1|ft2", "step=5|lb"];
    scene.refused("rate", &area, "step");
}

#[test]
fn a_tank_is_filled_and_followed_from_stop_to_stop() {
    let scene = Scene::new();
    let label = format!("label={}", scene.label);
    let fill = [
        "rate=0.6|fl oz/1000 ft2",
        "carrier=2|gal/1000 ft2",
        "tank=50|gal",
        "mix=25|gal",
        "step=1|fl oz",
        &label,
    ];
    let page = scene.worked("tank", &fill);
    has(
        &page,
        &["7 fl oz", "12,500 ft²", "0.56 fl oz/1000", "verdict-clear"],
    );
    let mut over = fill;
    over[3] = "mix=60|gal";
    scene.refused("tank", &over, "mix");

    let tank = [
        "product=15|fl oz",
        "mix=50|gal",
        "carrier=2|gal/1000 ft2",
        &label,
    ];
    let with = |more: &[&'static str]| [&tank[..], more].concat();
    let page = scene.worked(
        "stops",
        &with(&[
            "drawn-1=10|gal",
            "area-1=5000|ft2",
            "drawn-3=12|gal",
            "area-3=5000|ft2",
            "drawn-4=5|gal",
            "area-6=20000|ft2",
            "site-area=1000|ft2",
            "site-on-label=yes",
            "site-got=nothing",
        ]),
    );
    // The first at the label's most, the third above it, the fourth on nobody knows what.
    has(
        &page,
        &["Stop 1", "Stop 3", "verdict-clear", "verdict-dont-treat"],
    );
    has(
        &page,
        &["verdict-unknown", "23 gal", "11,500 ft²", "17 gal"],
    );
    // The site takes what 0.6 fl oz are in the mix.
    has(&page, &["The site takes", "2 gal"]);
    scene.refused("stops", &with(&["drawn-2=60|gal"]), "drawn-2");
    scene.refused("stops", &with(&["drawn-5=0|gal"]), "drawn-5");
    let both = with(&[
        "drawn-1=1|gal",
        "site-area=9|ft2",
        "site-got=nothing",
        "site-rate=1|fl oz/1000 ft2",
    ]);
    scene.refused("stops", &both, "site-rate");
    scene.refused("stops", &with(&["most=1|fl oz/1000 ft2"]), "most");
}

#[test]
fn dial_passes_water_spots_and_pace_are_worked_out() {
    let scene = Scene::new();
    let test = ["area=250|ft2", "took=20|s", "caught=1.25|gal"];
    let with = |more: &[&'static str]| [&test[..], more].concat();
    let dial = with(&[
        "rate=6|fl oz/1000 ft2",
        "steps=0.5, 1, 1.5|fl oz/gal",
        "most=6|fl oz/1000 ft2",
    ]);
    let page = scene.worked("hose-end", &dial);
    has(
        &page,
        &["5 gal/1000", "1.2 fl oz/gal", "Set the dial to 1 fl oz/gal"],
    );
    let none = with(&["rate=6|fl oz/1000 ft2"]);
    scene.refused("hose-end", &none, "steps");
    scene.refused("hose-end", &with(&["steps=1|fl oz/gal"]), "rate");

    let passes = [
        "rate=2.5|lb/1000 ft2",
        "gives=2.5|lb/1000 ft2",
        "swath=10|ft",
        "spacing=5|ft",
        "times=1",
        "most=2.5|lb/1000 ft2",
    ];
    let page = scene.worked("passes", &passes);
    has(
        &page,
        &["5 lb/1000", "1.25 lb/1000", "verdict-dont-treat", "+100 %"],
    );
    let page = scene.worked("passes", &[&passes[..2], &passes[3..]].concat());
    has(&page, &["verdict-unknown"]);

    let water = ["depth=0.5|in", "area=2000|ft2"];
    let cans = [
        &water[..],
        &[
            "cans=0.2, 0.3, 0.25, 0.25|in",
            "ran=15|min",
            "run-off=12|min",
            "soak=30|min",
        ],
    ];
    let page = scene.worked("watering-in", &cans.concat());
    has(
        &page,
        &[
            "311.7 gal",
            "623.4 gal",
            "30 min",
            "38 min",
            "In 3 runs of at most 10 min",
        ],
    );
    let few = [&water[..], &["cans=0.2|in", "ran=15|min"]].concat();
    scene.refused("watering-in", &few, "cans");
    scene.refused("watering-in", &["depth=0.5|in", "ran=15|min"], "cans");

    let spots = [
        "dose=0.5|oz",
        "count=20",
        "area=1|acre",
        "step=0.1|oz",
        "spot-most=0.5|oz",
        "most=1|lb/acre",
    ];
    let page = scene.worked("spots", &spots);
    has(&page, &["10 oz", "<dd>32</dd>", "verdict-clear"]);
    scene.refused("spots", &spots[..2], "step");

    let pace = ["length=100|ft", "speed=3|mph", "times=25, 25.2, 24.8|s"];
    let page = scene.worked("pace", &pace);
    has(&page, &["22.73 s", "+10 %", "verdict-caution", "Run 3"]);
    scene.refused("pace", &["length=100|ft", "speed=300|mph"], "speed");
}

#[test]
fn a_slip_keeps_what_was_typed_and_another_unit_is_not_lost() {
    let scene = Scene::new();
    let typed = form(&["do=work-out", "rate=0|lb/acre", "area=77|ft2"]);
    let trouble = scene.send("rate", &typed).unwrap_err();
    let again = Again {
        form: typed,
        trouble,
    };
    let us = words(Language::English, Units::Us);
    let page = scene.shown(us, "rate", "", Some(&again));
    has(&page, &["class=\"fault\"", "value=\"77\""]);
    // Typed in feet, looked at in metres.
    let query = scene.send("pace", &form(&["length=100|ft", "speed=3|mph"]));
    let metric = words(Language::English, Units::Metric);
    let page = scene.shown(metric, "pace", &query.unwrap(), None);
    has(&page, &["value=\"100 ft\"", "22.73 s"]);
}
