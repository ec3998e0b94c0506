//! The screens of records, shown and acted on as the server does it.

use sward_book::action::Incident;
use sward_book::fact::{Fact, IncidentWhat};
use sward_book::ids::VisitId;
use sward_book::{Book, Env as _};
use sward_rules::look::{Sample, SampleMethod};

use crate::ask::{Again, Next};
use crate::testing::{self, WORDS, given, lawn, read_back, sent};

/// A book with one treated visit and one that only looked.
struct Scene {
    screens: testing::Scene,
    treated: VisitId,
    open: VisitId,
}

enum Came {
    To(String),
    Back(String),
    File(String, String),
}

fn treat(book: &mut Book, visit: VisitId) {
    let fields = [
        ("product", "Invented Granules"),
        ("registration", "00000-0"),
        ("method", "granule"),
        ("rate_most", "3 lb/1000 ft2"),
    ];
    let label = book.add_label(&fields).unwrap();
    read_back(book, label).unwrap();
    testing::treat(book, visit, label).unwrap();
}

impl Scene {
    fn new() -> Self {
        let (screens, treated) = testing::Scene::new(|book| {
            let yard = lawn(book, "Corner")?;
            let treated = book.open_visit(yard, "white grub")?;
            let sample = Sample {
                method: SampleMethod::SodSquare(given("12 in")),
                count: 12,
            };
            book.count(treated, "white grub", vec![sample], "")?;
            treat(book, treated);
            Ok(treated)
        });
        screens.env.pass_ms(60_000);
        let open = screens.book(|book| {
            let hedge = book.add_yard("Hedge", "2 Example Way", "")?;
            book.open_visit(hedge, "chinch bug")
        });
        Self {
            screens,
            treated,
            open,
        }
    }

    fn show(&self, path: &str) -> String {
        self.screens.show(path)
    }

    fn send(&self, path: &str, fields: &[(&str, &str)]) -> Came {
        let form = sent(fields);
        match self.screens.act(path, &form) {
            Ok(Next::Go(path)) => Came::To(path),
            Ok(Next::File { name, bytes, .. }) => {
                Came::File(name, String::from_utf8(bytes).unwrap())
            }
            Ok(Next::Once(_)) => panic!("no page is shown once here"),
            Err(trouble) => {
                let again = Again { form, trouble };
                Came::Back(self.screens.shown(WORDS, path, Some(&again)).unwrap())
            }
        }
    }
}

fn to(came: Came) -> String {
    match came {
        Came::To(path) => path,
        Came::Back(page) => panic!("it came back: {page}"),
        Came::File(name, _) => panic!("a file came: {name}"),
    }
}

fn back(came: Came) -> String {
    match came {
        Came::Back(page) => page,
        Came::To(path) => panic!("it went on to {path}"),
        Came::File(name, _) => panic!("a file came: {name}"),
    }
}

#[test]
fn the_newest_stand_first_and_what_is_looked_for_is_in_no_address() {
    let scene = Scene::new();
    let page = scene.show("/records");
    let (hedge, corner) = (page.find("Hedge").unwrap(), page.find("Corner").unwrap());
    assert!(hedge < corner, "the newest first: {page}");
    let address = to(scene.send("/records", &[("do", "find"), ("product", "granules")]));
    assert_eq!(address, "/records");
    let page = scene.show("/records");
    assert!(page.contains("Corner") && !page.contains("Hedge"), "{page}");
    assert_eq!(to(scene.send("/records", &[("do", "all")])), "/records");
    assert!(scene.show("/records").contains("Hedge"));
    assert!(!scene.show("/records?after=30").contains("Hedge"));
}

#[test]
fn a_span_of_days_that_ends_before_it_begins_comes_back() {
    let scene = Scene::new();
    let fields = [
        ("do", "find"),
        ("from", "2026-06-30"),
        ("to", "2026-06-01"),
        ("person", "Ana"),
    ];
    let page = back(scene.send("/records", &fields));
    assert!(
        page.contains("2026-06-30") && page.contains("fault"),
        "{page}"
    );
}

#[test]
fn a_file_holds_what_was_found_and_is_named_by_the_day_alone() {
    let scene = Scene::new();
    let export =
        |of, kind| match scene.send("/records", &[("do", "export"), ("of", of), ("kind", kind)]) {
            Came::File(name, text) => (name, text),
            _ => panic!("a file is expected"),
        };
    let (name, text) = export("whole", "csv");
    assert!(
        text.contains("Corner") && text.contains("00000-0"),
        "{text}"
    );
    let day = name.strip_suffix(".csv").unwrap();
    assert!(day.parse::<chrono::NaiveDate>().is_ok(), "{name}");
    let (name, text) = export("whole", "json");
    assert!(name.strip_suffix(".json").is_some() && text.contains("Corner"));
    let (name, text) = export("whole", "incidents");
    assert!(name.ends_with(".incidents.csv"), "{name}");
    assert!(text.starts_with("format,incident,what,"), "{text}");
    to(scene.send("/records", &[("do", "find"), ("place", "Hedge")]));
    let (_, text) = export("found", "csv");
    assert!(!text.contains("Corner"), "{text}");
}

#[test]
fn what_happened_on_a_yard_that_was_not_found_is_in_no_file_of_what_was() {
    let scene = Scene::new();
    let happened_utc_ms = scene.screens.env.clock().utc_ms;
    scene.screens.book(|book| {
        let yard = |visit| book.visit(visit).map(|v| v.yard);
        let (corner, hedge) = (yard(scene.treated)?, yard(scene.open)?);
        for (note, yard, visit) in [
            ("of the Corner visit", None, Some(scene.treated)),
            ("of the Corner yard", corner, None),
            ("of the Hedge yard", hedge, None),
            ("of nowhere", None, None),
        ] {
            book.file_incident(Incident {
                adds_to: None,
                yard,
                visit,
                what: IncidentWhat::Other,
                told: note.to_owned(),
                done: String::new(),
                who_called: String::new(),
                happened_utc_ms,
            })?;
        }
        Ok(())
    });
    let export = |of: &str, kind: &str| {
        let fields = [("do", "export"), ("of", of), ("kind", kind)];
        match scene.send("/records", &fields) {
            Came::File(_, text) => text,
            _ => panic!("a file is expected"),
        }
    };
    to(scene.send("/records", &[("do", "find"), ("place", "Hedge")]));
    for kind in ["incidents", "json"] {
        let text = export("found", kind);
        assert!(text.contains("of the Hedge yard"), "{text}");
        assert!(!text.contains("of the Corner"), "{text}");
        assert!(!text.contains("of nowhere"), "{text}");
        let text = export("whole", kind);
        assert!(text.contains("of the Corner yard"), "{text}");
    }
    to(scene.send("/records", &[("do", "find"), ("from", "2026-06-15")]));
    let text = export("found", "incidents");
    for told in ["Corner visit", "Corner yard", "Hedge yard", "nowhere"] {
        assert!(text.contains(told), "only days are looked for: {text}");
    }
    let days = [("do", "find"), ("place", "Hedge"), ("to", "2026-06-01")];
    to(scene.send("/records", &days));
    assert!(!export("found", "incidents").contains("Hedge yard"));
}

#[test]
fn a_record_shows_what_was_frozen_what_is_not_known_and_what_rules_ask() {
    let scene = Scene::new();
    let page = scene.show(&format!("/records/{}", scene.treated));
    for words in [
        "Invented Granules",
        "00000-0",
        "12.5 lb",
        "2.5 lb/1000",
        "L-7",
        "5,000 ft²",
        "1 Example Way",
        "white grub",
        "Started against",
        "EDT",
        "not known",
        "New York ECL 33-1205",
        "check your state's current rule",
    ] {
        assert!(page.contains(words), "{words}: {page}");
    }
    assert!(!page.to_lowercase().contains("complete for"), "{page}");
    // The address has no zip code, and that is the first that can still be filled.
    assert!(page.contains("Fill what is missing"), "{page}");
    let paper = scene.show(&format!("/records/{}/print", scene.treated));
    assert!(paper.contains("class=\"sheet\"") && !paper.contains("<form"));
}

#[test]
fn the_yards_state_says_which_rules_may_govern_and_no_other_asks_to_be_filled() {
    let scene = Scene::new();
    let path = format!("/records/{}", scene.treated);
    let page = scene.show(&path);
    assert!(page.contains("Say in which state the yard is"), "{page}");
    scene.screens.book(|book| {
        let yard = book.visit(scene.treated)?.yard.unwrap();
        book.set_yard_fields(yard, &[("state", "pa")])
    });
    let page = scene.show(&path);
    let at = |text: &str| page.find(text).unwrap_or_else(|| panic!("{text}: {page}"));
    assert!(at("Pennsylvania 7 Pa. Code") < at("Rules of other states"));
    assert!(at("Rules of other states") < at("New York ECL 33-1205"));
    assert!(!page.contains("Say in which state"), "{page}");
}

#[test]
fn a_visit_without_a_result_shows_what_there_is_and_leads_back_to_it() {
    let scene = Scene::new();
    let page = scene.show(&format!("/records/{}", scene.open));
    assert!(page.contains("There is no result yet"), "{page}");
    assert!(page.contains(&format!(
        "class=\"way next\" href=\"/visit/{}\"",
        scene.open
    )));
    let page = scene.show(&format!("/records/{}/correct", scene.open));
    assert!(
        page.contains("nothing on this visit that can be corrected"),
        "{page}"
    );
}

impl Scene {
    /// The name of the first standing fact of its kind.
    fn fact(&self, is: fn(&Fact) -> bool) -> String {
        self.screens.book(|book| {
            let history = book.visit(self.treated)?.history;
            let standing = history.iter().filter(|l| l.superseded_by.is_none());
            let found = standing
                .map(|l| l.fact)
                .find(|id| is(&book.fact(*id).unwrap().1));
            Ok(found.unwrap().to_string())
        })
    }
}

#[test]
fn a_corrected_load_keeps_the_old_and_stands_in_the_next_finish() {
    let scene = Scene::new();
    let path = format!("/records/{}/correct", scene.treated);
    let load = scene.fact(|f| matches!(f, Fact::Loaded(_)));
    let mut fields = vec![
        ("do", "load"),
        ("key", load.as_str()),
        ("product", "11.5"),
        ("product.unit", "lb"),
    ];
    let page = back(scene.send(&path, &fields));
    assert!(
        page.contains("11.5") && page.contains("Fill this in."),
        "{page}"
    );
    fields.push(("why", "read the scale wrong"));
    assert_eq!(to(scene.send(&path, &fields)), path);
    let record = format!("/records/{}", scene.treated);
    let page = scene.show(&record);
    assert!(page.contains("Corrected since"), "{page}");
    for words in ["read the scale wrong", "12.5 lb", "11.5 lb"] {
        assert!(page.contains(words), "{words}");
    }
    // The same form once more is about what no longer holds.
    assert!(back(scene.send(&path, &fields)).contains("11.5"));
    let fields = [
        ("do", "finish"),
        ("note", "hopper leaked"),
        ("why", "the load"),
    ];
    assert_eq!(to(scene.send(&path, &fields)), record);
    let page = scene.show(&record);
    assert!(!page.contains("Corrected since"), "{page}");
    assert!(page.contains("hopper leaked"));
}

#[test]
fn a_load_of_which_nothing_was_changed_comes_back() {
    let scene = Scene::new();
    let path = format!("/records/{}/correct", scene.treated);
    let load = scene.fact(|f| matches!(f, Fact::Loaded(_)));
    let same = [("do", "load"), ("key", load.as_str()), ("why", "none")];
    assert!(back(scene.send(&path, &same)).contains("fault"));
    let day_alone = [
        ("do", "load"),
        ("key", load.as_str()),
        ("day", "2026-06-01"),
        ("why", "none"),
    ];
    assert!(back(scene.send(&path, &day_alone)).contains("fault"));
}

#[test]
fn a_count_is_corrected_and_then_withdrawn() {
    let scene = Scene::new();
    let path = format!("/records/{}/correct", scene.treated);
    let count = scene.fact(|f| matches!(f, Fact::Counted(_)));
    let fields = [
        ("do", "count"),
        ("key", count.as_str()),
        ("count1", "21"),
        ("why", "counted again"),
    ];
    to(scene.send(&path, &fields));
    let corrected = scene.fact(|f| matches!(f, Fact::Corrected(_)));
    let fields = [
        ("do", "withdraw"),
        ("fact", corrected.as_str()),
        ("why", "another lawn"),
    ];
    to(scene.send(&path, &fields));
    let page = scene.show(&format!("/records/{}", scene.treated));
    for words in [
        "counted again",
        "another lawn",
        "withdrawn, nothing in its place",
    ] {
        assert!(page.contains(words), "{words}");
    }
    // What was withdrawn is offered no more; a start never was.
    let started = scene.fact(|f| matches!(f, Fact::Started(_)));
    for gone in [count, started] {
        let fields = [("do", "withdraw"), ("fact", gone.as_str()), ("why", "x")];
        assert!(back(scene.send(&path, &fields)).contains("changed meanwhile"));
    }
}

#[test]
fn a_finish_made_anew_without_times_moves_no_keep_off() {
    let scene = Scene::new();
    let path = format!("/records/{}/correct", scene.treated);
    let last = |scene: &Scene| {
        let keep_offs = scene.screens.book(|book| book.keep_offs_of(scene.treated));
        keep_offs[0].last_applied_utc_ms
    };
    let before = last(&scene);
    let fields = [("do", "finish"), ("why", "once more")];
    to(scene.send(&path, &fields));
    assert_eq!(last(&scene), before, "nothing was typed, so nothing moved");
}
