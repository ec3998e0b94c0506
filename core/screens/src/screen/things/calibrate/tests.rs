//! A result is shown with its working, kept by a tap with all that it holds for, and not kept where
//! it is above the label's most.

use sward_book::ids::SheetId;
use sward_book::sheet::{EquipmentSheet, SheetKind};

use crate::ask::{Again, Next};
use crate::server::Form;
use crate::testing::{self, sent as form, words};
use crate::words::Language;
use crate::{Result, Trouble};

struct Scene {
    screens: testing::Scene,
    machine: SheetId,
    label: SheetId,
}

impl Scene {
    fn new(kind: &str) -> Self {
        let (screens, (machine, label)) = testing::Scene::new(|book| {
            let machine = [("name", "red one"), ("kind", kind), ("parts", "air tires")];
            let machine = book.add_sheet(SheetKind::Equipment, &machine)?;
            let label = book.add_label(&[
                ("product", "Example granules"),
                ("method", "granule"),
                ("rate_most", "4 lb/1000 ft2"),
            ])?;
            Ok((machine, label))
        });
        Self {
            screens,
            machine,
            label,
        }
    }

    fn path(&self) -> String {
        format!("/things/equipment/{}/calibrate", self.machine)
    }

    fn shown(&self, language: Language, query: &str, again: Option<&Again>) -> String {
        let address = format!("{}?{query}", self.path());
        let page = self.screens.shown(words(language), &address, again);
        page.unwrap()
    }

    fn send(&self, act: &str, form: &Form) -> Result<String> {
        assert_eq!(form.text("do"), act);
        match self.screens.act(&self.path(), form)? {
            Next::Go(path) => Ok(path),
            _ => panic!("every act of calibrating leads to a screen"),
        }
    }

    fn sheet(&self) -> EquipmentSheet {
        self.screens.book(|book| book.equipment_sheet(self.machine))
    }

    fn strip(&self, left: &str) -> Form {
        form(&[
            ("do", "strip"),
            ("start", "10"),
            ("start.unit", "lb"),
            ("left", left),
            ("left.unit", "lb"),
            ("length", "125"),
            ("length.unit", "ft"),
            ("swath", "8"),
            ("swath.unit", "ft"),
            ("wanted", "3.6"),
            ("wanted.unit", "lb/1000 ft2"),
            ("label", &self.label.to_string()),
            ("setting", "12"),
            ("before", "8"),
            ("gave", "2.4"),
            ("gave.unit", "lb/1000 ft2"),
        ])
    }
}

impl Scene {
    /// The fields that a form comes back with, these of its own changed.
    fn wrong(&self, form: &Form, changed: &[(&str, &str)]) -> Trouble {
        let mut form = form.clone();
        for (name, value) in changed {
            form.fields.retain(|(n, _)| n != name);
            form.fields.push(((*name).to_owned(), (*value).to_owned()));
        }
        let act = form.text("do").to_owned();
        self.send(&act, &form).unwrap_err()
    }
}

fn query_of(address: &str) -> &str {
    address.split_once('?').unwrap().1
}

#[test]
fn a_strip_is_worked_out_and_kept_with_all_it_holds_for() {
    let scene = Scene::new("rotary_spreader");
    let went = scene.send("strip", &scene.strip("6.4")).unwrap();
    for language in Language::ALL {
        let page = scene.shown(language, query_of(&went), None);
        assert!(page.contains("3.6 lb/1000"), "{page}");
        assert!(page.contains("verdict-clear"), "{page}");
        assert!(page.contains("class=\"how\""), "{page}");
        assert!(page.contains("Example granules"), "{page}");
        assert!(!page.contains('\u{27e6}'), "{page}");
    }
    // Nothing is kept before somebody says so.
    assert_eq!(scene.sheet().calibrated_rate, None);
    let rate = "3.6 [lb_av]/(1000.[ft_i]2)";
    let keep = [
        ("do", "keep"),
        ("key", rate),
        ("calibrated_rate", rate),
        ("calibrated_on", "2026-06-15"),
        ("swath", "8"),
        ("swath.unit", "ft"),
        ("pace", "3"),
        ("pace.unit", "mph"),
        ("setting", "12"),
        ("calibrated_for", "Example granules"),
        ("calibrated_by", "Ana"),
        ("parts", "air tires"),
    ];
    scene.send("keep", &form(&keep)).unwrap();
    let sheet = scene.sheet();
    assert_eq!(sheet.calibrated_rate.unwrap().to_string(), rate);
    assert_eq!(sheet.swath.unwrap().for_person(), "8 ft");
    assert_eq!(
        (sheet.setting.as_str(), sheet.calibrated_by.as_str()),
        ("12", "Ana")
    );
    // A later one without a pace leaves none of the earlier one's.
    let without: Vec<_> = keep.iter().filter(|(n, _)| *n != "pace").copied().collect();
    scene.send("keep", &form(&without)).unwrap();
    assert_eq!(scene.sheet().pace, None);
}

#[test]
fn a_second_persons_result_stands_beside_the_first() {
    let scene = Scene::new("rotary_spreader");
    let told = |left: &str| {
        let went = scene.send("strip", &scene.strip(left)).unwrap();
        scene.shown(Language::English, query_of(&went), None)
    };
    assert!(told("6.4").contains("Nobody else has done it yet."));
    let rate = "3.6 [lb_av]/(1000.[ft_i]2)";
    let keep = |by: &str, setting: &str| {
        let fields = [
            ("do", "keep"),
            ("key", rate),
            ("calibrated_rate", rate),
            ("calibrated_on", "2026-06-15"),
            ("swath", "8"),
            ("swath.unit", "ft"),
            ("setting", setting),
            ("calibrated_for", "Example granules"),
            ("calibrated_by", by),
        ];
        scene.send("keep", &form(&fields)).unwrap();
    };
    // Ana carries this device.
    keep("ana ", "12");
    assert!(told("6.4").contains("Nobody else has done it yet."));
    keep("Ben", "12");
    assert!(told("6.5").contains("Two people found the same within 5 %."));
    assert!(told("6").contains("Two people found different results"));
    keep("Ben", "11");
    assert!(told("6.4").contains("Nobody else has done it yet."));
}

#[test]
fn what_is_above_the_labels_most_is_not_offered_to_keep() {
    let scene = Scene::new("rotary_spreader");
    let went = scene.send("strip", &scene.strip("5.9")).unwrap();
    let page = scene.shown(Language::English, query_of(&went), None);
    assert!(page.contains("verdict-dont-treat"), "{page}");
    assert!(!page.contains("value=\"keep\""), "{page}");
    // Computed: 8 + 4 × (3.6 - 2.4) / (4.1 - 2.4) = 10.82, downwards.
    assert!(page.contains("Try setting 10 next"), "{page}");
}

#[test]
fn what_does_not_fit_stands_beside_its_field_and_nothing_is_lost() {
    let scene = Scene::new("rotary_spreader");
    let trouble = scene.send("strip", &scene.strip("12")).unwrap_err();
    assert!(trouble.of_field("left").is_some());
    let trouble = scene.send("strip", &form(&[("do", "strip")])).unwrap_err();
    for field in ["start", "left", "length", "swath"] {
        assert!(trouble.of_field(field).is_some(), "{field}");
    }
    // A "keep this" without its day shows the result and what was typed again.
    let went = scene.send("strip", &scene.strip("6.4")).unwrap();
    let typed = Form::from_urlencoded(query_of(&went).as_bytes()).unwrap();
    let rate = "3.6 [lb_av]/(1000.[ft_i]2)";
    let mut keep = form(&[
        ("do", "keep"),
        ("key", rate),
        ("calibrated_rate", rate),
        ("swath", "8"),
        ("swath.unit", "ft"),
        ("calibrated_by", "Ana Example"),
    ]);
    let along = typed.fields.into_iter();
    keep.fields
        .extend(along.map(|(name, value)| (format!("typed.{name}"), value)));
    let trouble = scene.send("keep", &keep).unwrap_err();
    assert!(trouble.of_field("calibrated_on").is_some());
    let again = Again {
        form: keep,
        trouble,
    };
    let page = scene.shown(Language::English, "", Some(&again));
    assert!(page.contains("Ana Example"), "{page}");
    assert!(page.contains("class=\"fault\""), "{page}");
}

#[test]
fn nothing_that_was_typed_is_passed_over_in_silence() {
    let scene = Scene::new("rotary_spreader");
    let strip = scene.strip("6.4");
    for (changed, beside) in [
        (&[("setting", "M")][..], "setting"),
        (&[("setting", "")], "setting"),
        (&[("before", "8,5")], "before"),
        (&[("before", "")], "before"),
        (&[("gave", "")], "gave"),
        (&[("wanted", "")], "wanted"),
        (&[("passes", "3")], "passes"),
        (&[("label", "granules")], "label"),
    ] {
        let trouble = scene.wrong(&strip, changed);
        assert!(trouble.of_field(beside).is_some(), "{changed:?}");
    }
    // A letter on the dial is a setting where none is to be tried next.
    let mut alone = strip.clone();
    let of_another = ["setting", "before", "gave"];
    alone
        .fields
        .retain(|(n, _)| !of_another.contains(&n.as_str()));
    alone.fields.push(("setting".to_owned(), "M".to_owned()));
    let went = scene.send("strip", &alone).unwrap();
    let page = scene.shown(Language::English, query_of(&went), None);
    assert!(page.contains("value=\"M\""), "{page}");
}

#[test]
fn boxes_are_drawn_and_nothing_of_them_is_kept() {
    let scene = Scene::new("rotary_spreader");
    let boxes = form(&[
        ("do", "boxes"),
        ("spacing", "1"),
        ("spacing.unit", "ft"),
        (
            "catches",
            "1, 3, 6, 9, 12, 14, 15, 15, 15, 13, 11, 9, 5, 3, 1",
        ),
        ("catches.unit", "g"),
        ("across", "11"),
        ("across.unit", "ft"),
        ("travel", "back"),
    ]);
    let went = scene.send("boxes", &boxes).unwrap();
    for language in Language::ALL {
        let page = scene.shown(language, query_of(&went), None);
        assert_eq!(page.matches("<polyline").count(), 3, "{page}");
        assert!(page.contains("12.9 %"), "{page}");
        assert!(page.contains("verdict-dont-treat"), "{page}");
        assert!(!page.contains("value=\"keep\""), "{page}");
        assert!(!page.contains('\u{27e6}'), "{page}");
    }
    let even = form(&[
        ("do", "boxes"),
        ("spacing", "1"),
        ("spacing.unit", "ft"),
        ("catches", "1, 3, 3, 1"),
        ("catches.unit", "g"),
    ]);
    let trouble = scene.send("boxes", &even).unwrap_err();
    assert!(trouble.of_field("catches").is_some());
}

#[test]
fn a_boom_and_a_backpack_are_worked_out_in_both_languages() {
    let boom = Scene::new("boom_sprayer");
    let jars = form(&[
        ("do", "jars"),
        ("jars", "25.6, 25.6\n25.6, 30"),
        ("jars.unit", "fl oz"),
        ("time", "60"),
        ("time.unit", "s"),
        ("pace", "3"),
        ("pace.unit", "mph"),
        ("between", "20"),
        ("between.unit", "in"),
    ]);
    let went = boom.send("jars", &jars).unwrap();
    for language in Language::ALL {
        let page = boom.shown(language, query_of(&went), None);
        assert!(page.contains("+12.4 %"), "{page}");
        // What a new nozzle gives was not typed.
        assert!(page.contains("verdict-unknown"), "{page}");
        assert!(page.contains("value=\"keep\""), "{page}");
        assert!(!page.contains('\u{27e6}'), "{page}");
    }
    let trouble = boom.wrong(&jars, &[("pace", "")]);
    assert!(trouble.of_field("pace").is_some());
    let mut nozzles = jars.clone();
    nozzles.fields.retain(|(n, _)| !n.starts_with("between"));
    let went = boom.send("jars", &nozzles).unwrap();
    let page = boom.shown(Language::English, query_of(&went), None);
    assert!(page.contains("The rate is not known"), "{page}");
    assert!(!page.contains("value=\"keep\""), "{page}");
    let backpack = Scene::new("backpack_sprayer");
    let timed = form(&[
        ("do", "timed"),
        ("area", "250"),
        ("area.unit", "ft2"),
        ("area_time", "20"),
        ("area_time.unit", "s"),
        ("caught", "1.25"),
        ("caught.unit", "gal"),
    ]);
    let went = backpack.send("timed", &timed).unwrap();
    for language in Language::ALL {
        let page = backpack.shown(language, query_of(&went), None);
        assert!(page.contains("5 gal/1000"), "{page}");
        assert!(page.contains("217.8 gal/acre"), "{page}");
    }
}

#[test]
fn a_sprayer_is_kept_without_a_swath_and_by_the_second_person_whatever_was_in_it() {
    let scene = Scene::new("backpack_sprayer");
    let told = || {
        let query = "method=timed&area=250&area.unit=ft2&area_time=20&area_time.unit=s\
                     &caught=1.25&caught.unit=gal";
        scene.shown(Language::English, query, None)
    };
    assert!(told().contains("Nobody else has done it yet."));
    let rate = "5 [gal_us]/(1000.[ft_i]2)";
    let keep = |method: &str| {
        form(&[
            ("do", "keep"),
            ("calibrated_rate", rate),
            ("calibrated_on", "2026-06-15"),
            ("calibrated_for", "water"),
            ("calibrated_by", "Ben"),
            ("typed.method", method),
        ])
    };
    let trouble = scene.send("keep", &keep("strip")).unwrap_err();
    assert!(trouble.of_field("swath").is_some());
    scene.send("keep", &keep("timed")).unwrap();
    let sheet = scene.sheet();
    assert_eq!(sheet.calibrated_rate.unwrap().to_string(), rate);
    assert_eq!(sheet.swath, None);
    assert!(told().contains("Two people found the same within 5 %."));
}

#[test]
fn an_address_changed_by_hand_shows_the_forms_and_no_result() {
    let scene = Scene::new("rotary_spreader");
    for query in [
        "method=strip&start=x",
        "method=boxes&catches=1,2,3&spacing=1",
        "method=jars",
        "method=nothing",
        "",
    ] {
        let page = scene.shown(Language::English, query, None);
        assert!(page.contains("name=\"start\""), "{page}");
        assert!(!page.contains("value=\"keep\""), "{page}");
    }
}
