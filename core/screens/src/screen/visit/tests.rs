//! The screens of a visit from its opening to the plan, shown and acted on as the server does it.

use std::sync::Arc;

use sward_book::Book;
use sward_book::action::{ReadyInputs, Start, judge};
use sward_book::fact::ReadBackHow;
use sward_book::ids::{SheetId, VisitId};
use sward_book::sheet::SheetKind;
use sward_book::testing::{TestEnv, found};
use sward_book::view::visit::VisitState;
use sward_rules::Entered;
use sward_rules::finding::Verdict;
use sward_rules::measure::{Outline, Shape};

use crate::ask::{Again, Ask, Doing, Next, Screen};
use crate::server::Form;
use crate::state::{Setting, Shared};
use crate::words::{Language, Units, Words};
use crate::{Result, Trouble};

/// A book with one yard, one section, one label sheet and one open visit.
pub(crate) struct Scene {
    pub(crate) shared: Arc<Shared>,
    pub(crate) yard: SheetId,
    pub(crate) label: SheetId,
    pub(crate) visit: VisitId,
    _folder: tempfile::TempDir,
}

/// What acting on a screen came to.
pub(crate) enum Came {
    /// Another screen.
    To(String),
    /// The same screen again, with what is wrong.
    Back(String),
}

impl Scene {
    pub(crate) fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let env = TestEnv::new(7);
        let mut book = found(folder.path(), &env, "Ana").unwrap();
        let yard = book
            .add_yard("Corner", "1 Example Way", "America/New_York")
            .unwrap();
        let side = |text: &str| Entered::parse(text).unwrap();
        let outline = Outline {
            shape: Shape::Rectangle {
                length: side("100 ft"),
                width: side("50 ft"),
            },
            left_out: Vec::new(),
        };
        book.add_section(yard, "front", &outline).unwrap();
        let label = label(&mut book);
        let visit = book.open_visit(yard, "white grub").unwrap();
        drop(book);
        let shared = Shared::new(Setting {
            folder: folder.path().to_owned(),
            env: Arc::clone(&env) as Arc<dyn sward_book::Env>,
            zone: chrono_tz::UTC,
            port: 0,
        })
        .unwrap();
        Self {
            shared: Arc::new(shared),
            yard,
            label,
            visit,
            _folder: folder,
        }
    }

    fn screen(&self, path: &str) -> (&'static Screen, Vec<(String, String)>) {
        let pattern = path.replace(&self.visit.to_string(), "{visit}");
        let screen = crate::screen::all().find(|s| s.path == pattern).unwrap();
        (screen, vec![("visit".to_owned(), self.visit.to_string())])
    }

    fn shown(
        &self,
        path: &str,
        query: &[(String, String)],
        again: Option<&Again>,
    ) -> Result<String> {
        let (screen, params) = self.screen(path);
        let show = |book: Option<&Book>| {
            let now = book.unwrap().now()?;
            let ask = Ask::new(book, &self.shared, WORDS, now, path, &params, query, again);
            (screen.show)(&ask).map(|page| page.main.into_string())
        };
        self.shared.reading(show)?
    }

    /// A screen of the visit, `part` being what follows the visit in its address.
    pub(crate) fn show(&self, part: &str) -> String {
        let (path, query) = part.split_once('?').unwrap_or((part, ""));
        let query = Form::from_urlencoded(query.as_bytes()).unwrap().fields;
        let page = self.shown(&format!("/visit/{}{path}", self.visit), &query, None);
        let page = page.unwrap();
        for own in ["visit", "look", "plan", "finding"] {
            assert!(
                !page.contains(&format!("\u{27e6}{own}-")),
                "a message is missing: {page}"
            );
        }
        page
    }

    /// Sends a form.
    pub(crate) fn send(&self, part: &str, fields: &[(&str, &str)]) -> Came {
        let path = format!("/visit/{}{part}", self.visit);
        let (screen, params) = self.screen(&path);
        let owned = |(n, v): &(&str, &str)| ((*n).to_owned(), (*v).to_owned());
        let form = Form {
            fields: fields.iter().map(owned).collect(),
            files: Vec::new(),
        };
        let (_, act) = screen
            .acts
            .iter()
            .find(|(n, _)| *n == form.text("do"))
            .unwrap();
        let mut slot = self.shared.writer();
        let next = act(&mut Doing {
            slot: &mut slot,
            shared: &self.shared,
            words: WORDS,
            path: &path,
            params: &params,
            form: &form,
        });
        drop(slot);
        self.shared.changed();
        match next {
            Ok(Next::Go(path)) => Came::To(path),
            Ok(_) => panic!("neither a file nor a page is expected"),
            Err(trouble) => Came::Back(
                self.shown(&path, &[], Some(&Again { form, trouble }))
                    .unwrap(),
            ),
        }
    }

    pub(crate) fn book<T>(&self, read: impl FnOnce(&mut Book) -> T) -> T {
        let done = read(self.shared.writer().as_mut().unwrap());
        self.shared.changed();
        done
    }

    /// Reads the label sheet's numbers back.
    pub(crate) fn read_back(&self) {
        self.book(|book| {
            let numbers = book.to_read_back(self.label).unwrap();
            let again: Vec<(&str, &str)> = numbers.iter().map(|(k, v)| (*k, v.as_str())).collect();
            book.read_back(self.label, &again, ReadBackHow::TypedTwice, "")
                .unwrap();
        });
    }

    /// Every field of a plan, as its form sends it.
    fn plan_fields(&self) -> Vec<(String, String)> {
        let label = self.label.to_string();
        let sections = self.book(|book| book.yard_sheet(self.yard).unwrap().sections);
        let mut fields = vec![
            ("do", "keep".to_owned()),
            ("key", label.clone()),
            ("label", label),
            ("rate", "2.5".to_owned()),
            ("rate.unit", "lb/1000 ft2".to_owned()),
            ("stock", String::new()),
            ("equipment", String::new()),
            ("holds", "5".to_owned()),
            ("holds.unit", "lb".to_owned()),
            ("vessel", "0.1".to_owned()),
            ("vessel.unit", "lb".to_owned()),
            ("passes", "2".to_owned()),
            ("swath", String::new()),
            ("swath.unit", "ft".to_owned()),
            ("gear", "gloves, boots".to_owned()),
        ];
        fields.extend(sections.iter().map(|s| ("sections", s.id.to_string())));
        fields.into_iter().map(|(n, v)| (n.to_owned(), v)).collect()
    }

    /// A plan that is kept, some fields as given here.
    fn keep_plan(&self, instead: &[(&str, &str)]) -> Came {
        let mut fields = self.plan_fields();
        fields.retain(|(name, _)| instead.iter().all(|(n, _)| n != name));
        let mut sent: Vec<(&str, &str)> = fields
            .iter()
            .map(|(n, v)| (n.as_str(), v.as_str()))
            .collect();
        sent.extend(instead.iter().filter(|(_, v)| *v != "-"));
        self.send("/plan", &sent)
    }

    /// Treats the visit by its plan and finishes it.
    fn treat(&self) {
        self.book(|book| {
            let now_ms = book.now().unwrap().utc_ms;
            let inputs = ReadyInputs::default();
            let (found, _) = judge(book, self.visit, self.label, inputs).unwrap();
            let unknown = found.iter().filter(|f| f.verdict == Verdict::Unknown);
            let acknowledged = unknown.map(|f| f.check).collect();
            book.record_findings(self.visit, self.label, found, None)
                .unwrap();
            let start = Start {
                label_sheet: self.label,
                rate: Entered::parse("2.5 lb/1000 ft2").unwrap(),
                sections: Vec::new(),
                acknowledged,
                against: Some("a test".into()),
                equipment: None,
                lot: None,
                gear: None,
            };
            let keep_offs = book.start(self.visit, start).unwrap();
            let product = Entered::parse("12.5 lb").unwrap();
            book.load(self.visit, keep_offs.clone(), product, None, now_ms)
                .unwrap();
            let done: Vec<_> = keep_offs.into_iter().map(|k| (k, now_ms)).collect();
            book.finish(self.visit, &done, "").unwrap();
        });
    }
}

const WORDS: Words = Words {
    language: Language::English,
    units: Units::Us,
    zone: chrono_tz::UTC,
};

fn label(book: &mut Book) -> SheetId {
    let label = book
        .add_label(&[
            ("product", "Invented Granules"),
            ("registration", "00000-0"),
            ("method", "granule"),
            ("rate_least", "1.5 lb/1000 ft2"),
            ("rate_most", "3 lb/1000 ft2"),
            ("watering_in", "required 0.5 in"),
        ])
        .unwrap();
    book.add_ingredient(label, "bifenthrin", "0.2 %").unwrap();
    label
}

fn went_to(came: Came) -> String {
    match came {
        Came::To(path) => path,
        Came::Back(page) => panic!("it came back: {page}"),
    }
}

fn came_back(came: Came) -> String {
    match came {
        Came::Back(page) => page,
        Came::To(path) => panic!("it went on to {path}"),
    }
}

#[test]
fn a_new_visit_says_where_it_is_and_what_blocks_the_plan() {
    let scene = Scene::new();
    let page = scene.show("");
    for words in [
        "Corner",
        "1 Example Way",
        "white grub",
        "nothing put on yet",
        "Ana",
    ] {
        assert!(page.contains(words), "{words}");
    }
    assert!(page.contains(&format!(
        "class=\"way next\" href=\"/visit/{}/look\"",
        scene.visit
    )));
    assert!(page.contains("read back first"), "{page}");
    scene.read_back();
    let page = scene.show("");
    assert!(page.contains(&format!("href=\"/visit/{}/plan\"", scene.visit)));
}

#[test]
fn a_count_is_kept_and_stands_beside_its_threshold() {
    let scene = Scene::new();
    let fields = [
        ("do", "count"),
        ("key", "4"),
        ("pest", "Japanese beetle"),
        ("method", "sod"),
        ("across", "12"),
        ("across.unit", "in"),
        ("count1", "20"),
        ("count2", "25"),
        ("count3", ""),
        ("count4", "30"),
    ];
    let to = went_to(scene.send("/look", &fields));
    assert_eq!(to, format!("/visit/{}/look", scene.visit));
    let page = scene.show("/look");
    assert!(page.contains("25/ft²"), "75 in 3 ft²: {page}");
    assert!(page.contains("Treating may pay"));
    assert!(page.contains("Massachusetts"));
    assert!(
        page.contains("Ask your extension office") || page.contains("ask your extension office")
    );
    assert!(page.contains(&format!("/visit/{}/plan", scene.visit)));
}

#[test]
fn a_count_without_a_number_or_a_size_comes_back_with_what_was_typed() {
    let scene = Scene::new();
    let page = came_back(scene.send(
        "/look",
        &[
            ("do", "count"),
            ("key", "4"),
            ("pest", "another"),
            ("other", "mole crickets"),
            ("method", "sod"),
        ],
    ));
    assert!(page.contains("mole crickets"));
    assert_eq!(
        page.matches("Fill this in.").count(),
        2,
        "size and count: {page}"
    );
}

#[test]
fn one_more_sample_keeps_what_was_typed() {
    let scene = Scene::new();
    let to = went_to(scene.send(
        "/look",
        &[
            ("do", "count"),
            ("key", "4"),
            ("count1", "3"),
            ("more", "yes"),
        ],
    ));
    assert_eq!(to, format!("/visit/{}/look?n=5", scene.visit));
    let page = scene.show("/look?n=5");
    assert!(page.contains("name=\"count5\""));
    assert!(page.contains("value=\"3\""), "{page}");
}

#[test]
fn a_visit_ends_without_treating_for_a_reason() {
    let scene = Scene::new();
    let page = came_back(scene.send("/end", &[("do", "not-treated"), ("why", "other")]));
    assert!(page.contains("Fill this in."));
    went_to(scene.send(
        "/end",
        &[
            ("do", "not-treated"),
            ("why", "below"),
            ("again", "2026-07-01"),
        ],
    ));
    let state = scene.book(|book| book.visit(scene.visit).unwrap().state);
    assert_eq!(state, VisitState::NotTreated);
    let page = scene.show("");
    assert!(page.contains("ended without treating"));
    assert!(page.contains("Nothing is left to do"));
}

#[test]
fn a_plan_says_what_to_bring_and_leads_to_getting_ready() {
    let scene = Scene::new();
    let page = scene.show("/plan");
    assert!(page.contains("cannot be used yet"), "{page}");
    scene.read_back();
    let page = scene.show("/plan");
    assert!(page.contains("name=\"rate\""));
    assert!(page.contains("lb/1000 ft²"), "the label's unit");
    went_to(scene.keep_plan(&[]));
    let page = scene.show("/plan");
    // 5000 ft² at 2.5 lb/1000 ft².
    assert!(page.contains("12.5 lb"), "{page}");
    assert!(page.contains("Loads 1 to 2"), "{page}");
    assert!(page.contains("Two passes at right angles, each at 1.25 lb/1000 ft²"));
    assert!(page.contains("0.5 in deep"));
    assert!(page.contains("0.2178 lb/acre"), "bifenthrin: {page}");
    assert!(page.contains(&format!(
        "class=\"way next\" href=\"/visit/{}/ready\"",
        scene.visit
    )));
    let page = scene.show("");
    assert!(page.contains(&format!(
        "class=\"way next\" href=\"/visit/{}/ready\"",
        scene.visit
    )));
}

#[test]
fn a_plan_leads_to_the_can_test_and_tells_of_a_swath_that_is_not_the_calibrations() {
    let scene = Scene::new();
    scene.read_back();
    let machine = scene.book(|book| {
        let fields = [
            ("name", "red one"),
            ("kind", "rotary_spreader"),
            ("calibrated_rate", "1.25 lb/1000 ft2"),
            ("swath", "10 ft"),
        ];
        book.add_sheet(SheetKind::Equipment, &fields).unwrap()
    });
    let machine = machine.to_string();
    let planned = |swath| {
        went_to(scene.keep_plan(&[("equipment", &machine), ("swath", swath)]));
        scene.show("/plan")
    };
    let page = planned("10");
    assert!(!page.contains("so many times over"), "{page}");
    assert!(page.contains("href=\"/things/work-out/watering-in?depth=0.5+in\""));
    // Twice over at 1.25 × 10 / 5 are 5 lb/1000 ft², where the label allows 3.
    let page = planned("5");
    assert!(page.contains("verdict-dont-treat"), "{page}");
    assert!(page.contains("5 lb/1000 ft²"), "{page}");
    assert!(page.contains("so many times over"), "{page}");
}

#[test]
fn what_lacks_in_a_plan_is_said_beside_every_field() {
    let scene = Scene::new();
    scene.read_back();
    let lacking = [
        ("rate", "lots"),
        ("holds", ""),
        ("vessel", ""),
        ("passes", "-"),
        ("sections", "-"),
    ];
    let page = came_back(scene.keep_plan(&lacking));
    assert_eq!(page.matches("Fill this in.").count(), 4, "{page}");
    assert!(page.contains("value=\"lots\""));
    let kept = scene.book(|book| book.plan(scene.visit).unwrap());
    assert_eq!(kept, None);
    let page = came_back(scene.keep_plan(&[("equipment", "nonsense")]));
    assert!(page.contains("Choose one of these."), "{page}");
}

#[test]
fn a_repeat_visit_takes_last_times_plan_with_one_button() {
    let mut scene = Scene::new();
    scene.read_back();
    went_to(scene.keep_plan(&[]));
    scene.treat();
    let page = scene.show("");
    assert!(page.contains("Keep-offs run on this yard"), "{page}");
    assert!(page.contains("treatment finished"));
    scene.visit = scene.book(|book| book.open_visit(scene.yard, "white grub").unwrap());
    let page = scene.show("");
    assert!(
        page.contains("Keep-offs run on this yard"),
        "minded on every visit"
    );
    let page = scene.show("/plan");
    assert!(page.contains("Still true"), "{page}");
    assert!(page.contains("from Mon, Jun 15, 2026"), "{page}");
    assert!(page.contains("gloves, boots"));
    assert!(page.contains("value=\"2.5\""));
    went_to(scene.keep_plan(&[]));
    let page = scene.show("/plan");
    assert!(page.contains("put on once before"), "{page}");
    assert!(page.contains("0.4356 lb/acre"), "twice 0.2178: {page}");
}

#[test]
fn what_is_left_empty_is_as_on_the_sheet_of_the_equipment() {
    let scene = Scene::new();
    scene.read_back();
    let spreader = scene.book(|book| {
        let fields = [
            ("name", "Spreader 1"),
            ("holds", "40 lb"),
            ("vessel", "0.5 lb"),
            ("setting", "M"),
            ("calibrated_on", "2026-05-02"),
            ("calibrated_for", "Invented Granules"),
        ];
        book.add_sheet(SheetKind::Equipment, &fields).unwrap()
    });
    let page = scene.show("/plan");
    assert!(
        page.contains("value=\"40\""),
        "the only one that fits: {page}"
    );
    let spreader = spreader.to_string();
    let empty = [
        ("equipment", spreader.as_str()),
        ("holds", ""),
        ("vessel", ""),
    ];
    went_to(scene.keep_plan(&empty));
    let plan = scene.book(|book| book.plan(scene.visit).unwrap().unwrap());
    assert_eq!(plan.holds, Some(Entered::parse("40 lb").unwrap()));
    let page = scene.show("/plan");
    assert!(page.contains("<svg"), "the lines to walk are drawn");
    for words in ["Spreader 1", "Sat, May 2, 2026", "Invented Granules"] {
        assert!(page.contains(words), "{words}: {page}");
    }
}

#[test]
fn a_visit_that_is_not_there_is_not_found() {
    let mut scene = Scene::new();
    scene.visit = VisitId(uuid::Uuid::nil());
    let page = scene.shown(&format!("/visit/{}", scene.visit), &[], None);
    assert!(matches!(
        page,
        Err(Trouble::Book(sward_book::BookError::NotFound { .. }))
    ));
}
