//! The key, degree-days, and what more samples would say, shown and acted on as the server does it.

use std::sync::Arc;

use sward_rules::look::keys::keys;

use crate::ask::{Ask, Doing, Next};
use crate::screen::treat::tests::scene::{Scene, sent};
use crate::words::{Language, Units, Words};
use crate::{Result, Trouble};

fn words(language: Language, units: Units) -> Words {
    Words {
        language,
        units,
        zone: chrono_tz::UTC,
    }
}

/// A screen under a visit: the part of its address behind the visit, with what it asks.
fn page(scene: &Scene, part: &str, words: Words) -> Result<String> {
    let (part, query) = part.split_once('?').unwrap_or((part, ""));
    let path = format!("/visit/{}{part}", scene.visit);
    let mut params = vec![("visit".to_owned(), scene.visit.to_string())];
    let pattern = match part.strip_prefix("/key/") {
        Some(key) => {
            params.push(("key".to_owned(), key.to_owned()));
            "/visit/{visit}/key/{key}".to_owned()
        }
        None => format!("/visit/{{visit}}{part}"),
    };
    let screen = super::SCREENS.iter().find(|s| s.path == pattern).unwrap();
    let query = crate::server::Form::from_urlencoded(query.as_bytes())?.fields;
    scene.shared.reading(|book| {
        let now = book.unwrap().now()?;
        let ask = Ask::new(
            book,
            &scene.shared,
            words,
            now,
            &path,
            &params,
            &query,
            None,
        );
        (screen.show)(&ask).map(|page| page.main.into_string())
    })?
}

/// In English, after it was seen to be whole in both languages.
fn show(scene: &Scene, part: &str) -> String {
    for language in Language::ALL {
        let page = page(scene, part, words(language, Units::Metric)).unwrap();
        assert!(!page.contains('\u{27e6}'), "a message is missing: {page}");
    }
    page(scene, part, words(Language::English, Units::Us)).unwrap()
}

fn sum(scene: &Scene, fields: &[(&str, &str)]) -> Result<String> {
    let path = format!("/visit/{}/degree-days", scene.visit);
    let params = [("visit".to_owned(), scene.visit.to_string())];
    let mut slot = scene.shared.writer();
    let next = super::warmth::sum(&mut Doing {
        slot: &mut slot,
        shared: &Arc::clone(&scene.shared),
        words: words(Language::English, Units::Us),
        path: &path,
        params: &params,
        form: &sent(fields),
    });
    match next? {
        Next::Once(page) => Ok(page.main.into_string()),
        Next::Go(_) | Next::File { .. } => panic!("a page is expected"),
    }
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
        page(&scene, "/key/weeds", words(Language::English, Units::Us)),
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
    let typed = |days| [("base", "50 F"), ("start", "2026-04-01"), ("days", days)];
    let days = "2026-04-01, 40 F, 80 F\n2026-04-03, 45 F, 75 F";
    let told = sum(&scene, &typed(days)).unwrap();
    for said in [
        "At least 23.1 degree-days",
        "Above 50 °F, from Wed, Apr 1, 2026",
        "Thu, Apr 2, 2026",
    ] {
        assert!(told.contains(said), "{said}: {told}");
    }
    for (field, fields) in [
        ("days", typed("2026-04-01, 80 F, 40 F")),
        ("days", typed("2026-04-01 40 80")),
        ("days", typed("2026-03-01, 40 F, 80 F")),
        (
            "base",
            [("base", "50"), ("start", "2026-04-01"), ("days", days)],
        ),
        ("start", [("base", "50 F"), ("start", ""), ("days", days)]),
    ] {
        let trouble = sum(&scene, &fields).unwrap_err();
        assert!(trouble.of_field(field).is_some(), "{field}: {trouble}");
    }
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
