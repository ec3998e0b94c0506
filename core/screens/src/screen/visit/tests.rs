//! The screens of a visit from its opening to the plan, shown and acted on as the server does it.

use sward_book::Book;
use sward_book::ids::{SheetId, VisitId};
use sward_book::sheet::SheetKind;
use sward_book::view::visit::VisitState;

use crate::Trouble;
use crate::ask::{Again, Next};
use crate::testing::{self, WORDS, given, lawn, sent};

/// A book with one yard, one section, one label sheet and one open visit.
pub(crate) struct Scene {
    screens: testing::Scene,
    pub(crate) yard: SheetId,
    pub(crate) label: SheetId,
    pub(crate) visit: VisitId,
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
        let (screens, (yard, label, visit)) = testing::Scene::new(|book| {
            let yard = lawn(book, "Corner")?;
            let label = label(book);
            let visit = book.open_visit(yard, "white grub")?;
            Ok((yard, label, visit))
        });
        Self {
            screens,
            yard,
            label,
            visit,
        }
    }

    /// A screen of the visit, `part` being what follows the visit in its address.
    pub(crate) fn show(&self, part: &str) -> String {
        self.screens.show(&format!("/visit/{}{part}", self.visit))
    }

    /// Sends a form.
    pub(crate) fn send(&self, part: &str, fields: &[(&str, &str)]) -> Came {
        let path = format!("/visit/{}{part}", self.visit);
        let form = sent(fields);
        match self.screens.act(&path, &form) {
            Ok(Next::Go(path)) => Came::To(path),
            Ok(_) => panic!("neither a file nor a page is expected"),
            Err(trouble) => {
                let again = Again { form, trouble };
                Came::Back(self.screens.shown(WORDS, &path, Some(&again)).unwrap())
            }
        }
    }

    pub(crate) fn book<T>(&self, work: impl FnOnce(&mut Book) -> sward_book::Result<T>) -> T {
        self.screens.book(work)
    }

    /// Reads the label sheet's numbers back.
    pub(crate) fn read_back(&self) {
        self.book(|book| testing::read_back(book, self.label));
    }

    /// Every field of a plan, as its form sends it.
    fn plan_fields(&self) -> Vec<(String, String)> {
        let label = self.label.to_string();
        let sections = self.book(|book| book.yard_sheet(self.yard)).sections;
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
        self.book(|book| testing::treat(book, self.visit, self.label));
    }
}

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
    let state = scene.book(|book| book.visit(scene.visit)).state;
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
        book.add_sheet(SheetKind::Equipment, &fields)
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
    let kept = scene.book(|book| book.plan(scene.visit));
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
    scene.visit = scene.book(|book| book.open_visit(scene.yard, "white grub"));
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
        book.add_sheet(SheetKind::Equipment, &fields)
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
    let plan = scene.book(|book| book.plan(scene.visit)).unwrap();
    assert_eq!(plan.holds, Some(given("40 lb")));
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
    let address = format!("/visit/{}", scene.visit);
    let page = scene.screens.shown(WORDS, &address, None);
    assert!(matches!(
        page,
        Err(Trouble::Book(sward_book::BookError::NotFound { .. }))
    ));
}
