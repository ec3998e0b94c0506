//! A label sheet on two phones: what they say differently is shown, settled by a tap, read back.

use sward_book::Book;
use sward_book::fact::Role;
use sward_book::ids::SheetId;
use sward_book::sheet::SheetKind;
use sward_book::testing::{TestEnv, ask, found, give};

use super::label;
use crate::ask::Next;
use crate::testing::{self, WORDS, sent};
use crate::{Result, Trouble};

struct Scene {
    screens: testing::Scene,
    label: SheetId,
}

fn typed_meanwhile(book: &mut Book, label: SheetId, rate_most: &str, rate_least: &str) {
    let typed = [("rate_most", rate_most), ("rate_least", rate_least)];
    book.set_label_fields(label, &typed).unwrap();
}

/// Two phones that typed other rates without seeing each other, both told to the first.
fn two_phones() -> Scene {
    let [folder, other_folder] = [(); 2].map(|()| tempfile::tempdir().unwrap());
    let (env, other_env) = (TestEnv::new(11), TestEnv::new(12));
    let mut book = found(folder.path(), &env, "Ana").unwrap();
    let (mut other, asked) = ask(other_folder.path(), &other_env, "Ben").unwrap();
    book.admit(&asked, Role::Applicator).unwrap();
    let label = book
        .add_label(&[("product", "Example granules"), ("method", "granule")])
        .unwrap();
    give(&book, &mut other).unwrap();
    typed_meanwhile(&mut book, label, "3 lb/1000 ft2", "2 lb/1000 ft2");
    typed_meanwhile(&mut other, label, "2.5 lb/1000 ft2", "1 lb/1000 ft2");
    give(&other, &mut book).unwrap();
    drop((book, other));
    Scene {
        screens: testing::Scene::on(folder, env),
        label,
    }
}

impl Scene {
    fn address(&self, end: &str) -> String {
        format!("/things/labels/{}{end}", self.label)
    }

    fn shown(&self, end: &str) -> String {
        self.screens.show(&self.address(end))
    }

    fn send(&self, end: &str, fields: &[(&str, &str)]) -> Result<String> {
        match self.screens.act(&self.address(end), &sent(fields))? {
            Next::Go(path) => Ok(path),
            _ => panic!("every act of a label sheet leads to a screen"),
        }
    }

    fn settled(&self, field: &str, value: &str) -> Result<String> {
        self.send("", &[("do", "settle"), ("field", field), ("value", value)])
    }

    fn stored(&self, key: &str) -> String {
        let sheet = self.screens.book(|b| b.sheet(self.label, SheetKind::Label));
        sheet.text(key)
    }
}

const TWO: &str = "2 [lb_av]/(1000.[ft_i]2)";
const THREE: &str = "3 [lb_av]/(1000.[ft_i]2)";

#[test]
fn both_values_are_shown_and_a_tap_says_which_holds() {
    let scene = two_phones();
    let page = scene.shown("");
    for value in [
        "3 lb/1000 ft²",
        "2.5 lb/1000 ft²",
        "2 lb/1000 ft²",
        "1 lb/1000 ft²",
    ] {
        assert!(page.contains(value), "{value}: {page}");
    }
    // Of two least rates neither is the safe one.
    assert!(page.contains(&WORDS.t("label-waits-settling")));
    assert!(!scene.shown("/read-back").contains("data-pad"));
    assert!(scene.settled("rate_least", "1.7 lb/1000 ft2").is_err());
    scene.settled("rate_least", TWO).unwrap();
    scene.settled("rate_most", THREE).unwrap();
    assert_eq!(scene.stored("rate_least"), TWO);
    assert!(scene.shown("").contains(&WORDS.t("label-waits-reading")));
    let page = scene.shown("");
    assert!(!page.contains("1 lb/1000 ft²"), "{page}");
}

#[test]
fn a_form_that_nobody_touched_settles_nothing() {
    let scene = two_phones();
    let was = [scene.stored("rate_most"), scene.stored("rate_least")];
    let number = |stored: &str| stored.split(' ').next().unwrap().to_owned();
    let (most, least) = (number(&was[0]), number(&was[1]));
    let went = scene.send(
        "/edit",
        &[
            ("do", "save"),
            ("product", "Example granules"),
            ("product.was", "Example granules"),
            ("method", "granule"),
            ("method.was", "granule"),
            ("rate_most", &most),
            ("rate_most.unit", "lb/1000 ft2"),
            ("rate_most.was", &was[0]),
            ("rate_least", &least),
            ("rate_least.unit", "lb/1000 ft2"),
            ("rate_least.was", &was[1]),
            ("wind_most", "10"),
            ("wind_most.unit", "mph"),
        ],
    );
    assert!(went.is_ok());
    assert!(scene.stored("wind_most").starts_with("10 "));
    assert!(scene.shown("").contains(&WORDS.t("label-waits-settling")));
}

#[test]
fn numbers_are_read_back_without_being_shown() {
    let scene = two_phones();
    scene.settled("rate_least", TWO).unwrap();
    scene.settled("rate_most", THREE).unwrap();
    let page = scene.shown("/read-back");
    assert!(page.contains("name=\"rate_most\" value=\"\""), "{page}");
    assert!(!page.contains("checked"), "{page}");
    assert!(!page.contains("3 lb"), "{page}");
    let again = |most: &str, person: &str| {
        scene.send(
            "/read-back",
            &[
                ("do", "agree"),
                ("how", "second"),
                ("person", person),
                ("rate_least", "2.0"),
                ("rate_least.unit", "lb/1000 ft2"),
                ("rate_most", most),
                ("rate_most.unit", "lb/1000 ft2"),
            ],
        )
    };
    let of = |sent: Result<String>, field: &str| {
        sent.err()
            .is_some_and(|trouble: Trouble| trouble.of_field(field).is_some())
    };
    assert!(of(again("2.5", "Ben"), "rate_most"));
    assert!(of(again("", "Ben"), "rate_most"));
    // The one who carries this phone is no second person.
    assert!(of(again("3", "Ana"), "person"));
    assert_eq!(
        again("3", "Ben").unwrap(),
        format!("/things/labels/{}", scene.label)
    );
    assert!(scene.shown("").contains("Ben"));
    assert!(!scene.shown("").contains(&WORDS.t("label-waits-reading")));
}

#[test]
fn every_screen_of_labels_has_a_path_of_its_own() {
    let mut paths: Vec<&str> = label::SCREENS.iter().map(|s| s.path).collect();
    paths.sort_unstable();
    paths.dedup();
    assert_eq!(paths.len(), label::SCREENS.len());
}
