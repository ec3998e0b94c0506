//! The key, degree-days, and what more samples would say, shown and acted on as the server does it.

use sward_rules::look::keys::keys;

use crate::ask::draft_name;
use crate::screen::treat::tests::scene::{Scene, sent};
use crate::testing::WORDS;
use crate::words::{Language, Units, Words};
use crate::{Result, Trouble};

/// A screen under a visit: the part of its address behind the visit, with what it asks.
fn page(scene: &Scene, part: &str, words: Words) -> Result<String> {
    let address = format!("/visit/{}{part}", scene.visit);
    scene.screens.shown(words, &address, None)
}

/// In US units, after it was seen to be whole in both languages and the other units.
fn show(scene: &Scene, part: &str) -> String {
    for language in Language::ALL {
        let words = Words {
            language,
            units: Units::Metric,
            ..WORDS
        };
        page(scene, part, words).unwrap();
    }
    page(scene, part, WORDS).unwrap()
}

/// The screen with the sum of these days.
fn sum(scene: &Scene, [base, start, days]: [&str; 3]) -> Result<String> {
    let fields = [
        ("do", "sum"),
        ("base", base),
        ("start", start),
        ("days", days),
    ];
    let to = scene.act("/degree-days", &sent(&fields))?;
    let part = to.strip_prefix(&format!("/visit/{}", scene.visit));
    Ok(show(scene, part.unwrap()))
}

#[test]
fn every_key_is_shown_with_its_drawings_and_the_extension_office() {
    let scene = Scene::new();
    let list = show(&scene, "/key");
    for key in keys() {
        assert!(list.contains(&format!("/key/{}\"", key.name)), "{list}");
        let page = show(&scene, &format!("/key/{}", key.name));
        assert!(page.contains("ask your extension office"), "{page}");
        assert!(page.contains("Not sure"), "{page}");
        let drawn = page.matches("role=\"img\" aria-label=\"Drawing: ").count();
        assert!(drawn >= key.kinds.len(), "{}: {drawn}", key.name);
        for kind in key.kinds {
            assert!(page.contains(kind.english), "{}", kind.name);
        }
    }
}

#[test]
fn a_key_leads_to_what_fits_with_its_look_alikes_beside_it() {
    let scene = Scene::new();
    let page = show(&scene, "/key/chinch-bug?head=broad&pace=fast");
    assert!(
        page.contains("<strong>Fits</strong>: Big-eyed bug"),
        "{page}"
    );
    assert!(page.contains("a helper: leave it"));
    let (_, likes) = page.split_once("Often taken for it").unwrap();
    assert!(likes.contains("Drawing: Chinch bug, grown"), "{likes}");
    assert!(!page.contains("Count it"), "a helper is not counted");
    assert!(!page.contains("<strong>certain"), "{page}");
    // One answer alone never fits, and may be taken back.
    let page = show(&scene, "/key/white-grub?legs=unsure&raster=v");
    assert!(
        page.contains("<strong>May be</strong>: Japanese beetle"),
        "{page}"
    );
    assert!(page.contains("key/white-grub?legs=unsure\""), "{page}");
    assert!(page.contains("look?pest=japanese_beetle"), "{page}");
    let look = show(&scene, "/look?pest=japanese_beetle");
    assert!(look.contains("<option selected>Japanese beetle"), "{look}");
}

#[test]
fn an_address_with_what_a_key_does_not_ask_does_no_harm() {
    let scene = Scene::new();
    let plain = show(&scene, "/key/ant");
    let odd = show(
        &scene,
        "/key/ant?waist=three&colour=%3Cscript%3E&__proto__=1",
    );
    assert_eq!(plain, odd);
    assert!(matches!(
        page(&scene, "/key/weeds", WORDS),
        Err(Trouble::NotFound)
    ));
    let none = show(&scene, "/key/chinch-bug?head=broad&back=triangles");
    assert!(
        none.contains("Nothing here fits all that you saw"),
        "{none}"
    );
    let look = show(&scene, "/look?pest=weeds");
    assert!(!look.contains("weeds"), "{look}");
}

#[test]
fn degree_days_say_base_start_and_what_is_missing() {
    let scene = Scene::new();
    let page = show(&scene, "/degree-days");
    assert!(page.contains("50 F"), "{page}");
    let days = "2026-04-01, 40 F, 80 F\n2026-04-03, 45 F, 75 F";
    let told = sum(&scene, ["45 F", "2026-04-01", days]).unwrap();
    assert!(told.contains("Above 45 °F"), "{told}");
    let told = sum(&scene, ["50 F", "2026-04-01", days]).unwrap();
    for said in [
        "At least 23.1 degree-days",
        "Above 50 °F, from Wed, Apr 1, 2026",
        "Thu, Apr 2, 2026",
        // What was typed stands there still, for the next day's line.
        &format!(">{days}</textarea>"),
        "value=\"2026-04-01\"",
    ] {
        assert!(told.contains(said), "{said}: {told}");
    }
    let changed = show(&scene, "/degree-days?base=50&start=x&days=none");
    assert!(!changed.contains("Above"), "{changed}");
    let first = "2026-04-01";
    for (field, typed) in [
        ("days", ["50 F", first, "2026-04-01, 80 F, 40 F"]),
        ("days", ["50 F", first, "2026-04-01 40 80"]),
        ("days", ["50 F", first, "2026-03-01, 40 F, 80 F"]),
        ("days", ["50 F", first, "2026-04-01, 40,5 F, 80 F"]),
        ("base", ["50", first, days]),
        ("start", ["50 F", "", days]),
    ] {
        let trouble = sum(&scene, typed).unwrap_err();
        assert!(trouble.of_field(field).is_some(), "{field}: {trouble}");
    }
}

#[test]
fn what_a_key_found_stands_in_the_form_whatever_lies_in_a_draft() {
    let scene = Scene::new();
    let typed = [
        ("pest", "European chafer"),
        ("method", "sod"),
        ("count1", "7"),
    ];
    let typed = typed.map(|(name, value)| (name.to_owned(), value.to_owned()));
    let name = draft_name(
        scene.screens.shared.which(),
        &format!("/visit/{}/look", scene.visit),
        "count",
        "4",
    );
    let desk = &scene.screens.shared;
    desk.desk().keep_draft(&name, &typed, 0).unwrap();
    assert!(show(&scene, "/look").contains("<option selected>European chafer"));
    let found = show(&scene, "/look?pest=japanese_beetle");
    assert!(
        found.contains("<option selected>Japanese beetle"),
        "{found}"
    );
    assert!(
        !found.contains("<option selected>European chafer"),
        "{found}"
    );
    assert!(
        found.contains("value=\"7\""),
        "the rest of it stays: {found}"
    );
}

#[test]
fn a_count_says_how_many_more_samples_would_decide() {
    let scene = Scene::new();
    let count = |pest, first, second| {
        scene.send(
            "/look",
            &[
                ("do", "count"),
                ("key", "4"),
                ("pest", pest),
                ("method", "sod"),
                ("across", "6"),
                ("across.unit", "in"),
                ("count1", first),
                ("count2", second),
            ],
        );
    };
    count("European chafer", "2", "2");
    let page = show(&scene, "/look");
    assert!(
        page.contains("more samples like these would decide"),
        "{page}"
    );
    assert!(page.contains("They would then say: treating may pay."));
    count("Japanese beetle", "3", "3");
    assert!(show(&scene, "/look").contains("own range: more samples may leave it there"));
    count("cutworm", "0", "0");
    let page = show(&scene, "/look");
    assert!(page.contains("(5/yd²)"), "{page}");
}

#[test]
fn a_re_check_has_its_interval_or_says_that_there_is_none() {
    let scene = Scene::new();
    scene.start();
    let control = |counts: [&str; 4]| {
        scene.send(
            "/recheck",
            &[
                ("do", "control"),
                ("treated_before", counts[0]),
                ("treated_after", counts[1]),
                ("check_before", counts[2]),
                ("check_after", counts[3]),
            ],
        );
        scene.show("/recheck")
    };
    let page = control(["30", "6", "28", "26"]);
    assert!(page.contains("Control 78 % (Henderson–Tilton)"), "{page}");
    assert!(page.contains("between 40 and 92 % (95 %)"), "{page}");
    let page = control(["4", "3", "4", "4"]);
    assert!(page.contains("it may have done nothing"), "{page}");
    let page = control(["30", "6", "0", "26"]);
    assert!(page.contains("Interval: the counts give none."), "{page}");
    let page = control(["30", "6", "28", "0"]);
    assert!(page.contains("nothing to compare with"), "{page}");
}
