//! A planned visit, and its screens shown and acted on as the server does it.

use std::sync::Arc;

use sward_book::fact::{Fact, ReadBackHow};
use sward_book::ids::VisitId;
use sward_book::sheet::SheetKind;
use sward_book::testing::{TestEnv, found};
use sward_book::{Book, Env};
use sward_rules::Entered;
use sward_rules::measure::{Outline, Shape};

use crate::ask::{Again, Ask, Doing, Next};
use crate::server::Form;
use crate::state::{Setting, Shared};
use crate::words::{Language, Units, Words};
use crate::{Result, Trouble};

const WORDS: Words = Words {
    language: Language::English,
    units: Units::Us,
    zone: chrono_tz::UTC,
};

/// A book with one yard of two sections, a label sheet that was read back, and a planned visit.
pub(crate) struct Scene {
    pub(crate) shared: Arc<Shared>,
    pub(crate) env: Arc<TestEnv>,
    pub(crate) visit: VisitId,
    _folder: tempfile::TempDir,
}

fn begin(book: &mut Book) -> sward_book::Result<VisitId> {
    let side = |text: &str| Entered::parse(text).unwrap();
    let yard = book.add_yard("Corner", "1 Example Way", "America/New_York")?;
    for (name, length) in [("front", "60 ft"), ("back", "40 ft")] {
        let shape = Shape::Rectangle {
            length: side(length),
            width: side("50 ft"),
        };
        let left_out = Vec::new();
        book.add_section(yard, name, &Outline { shape, left_out })?;
    }
    let label = book.add_label(&[
        ("product", "Invented Granules"),
        ("registration", "00000-0"),
        ("method", "granule"),
        ("rate_least", "1.5 lb/1000 ft2"),
        ("rate_most", "3 lb/1000 ft2"),
        ("wind_most", "15 mph"),
        ("temperature_least", "nothing"),
        ("temperature_most", "nothing"),
    ])?;
    let numbers = book.to_read_back(label)?;
    let again: Vec<(&str, &str)> = numbers.iter().map(|(k, v)| (*k, v.as_str())).collect();
    book.read_back(label, &again, ReadBackHow::TypedTwice, "")?;
    let visit = book.open_visit(yard, "white grub")?;
    let label = label.to_string();
    let machine = [
        ("name", "red one"),
        ("kind", "rotary_spreader"),
        ("pace", "3 mph"),
    ];
    let machine = book.add_sheet(SheetKind::Equipment, &machine)?.to_string();
    let plan = [
        ("label", label.as_str()),
        ("rate", "2 lb/1000 ft2"),
        ("holds", "20 lb"),
        ("vessel", "0.1 lb"),
        ("passes", "1"),
        ("gear", "gloves, boots"),
        ("equipment", machine.as_str()),
    ];
    book.set_plan(visit, &plan)?;
    Ok(visit)
}

impl Scene {
    pub(crate) fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let env = TestEnv::new(11);
        let mut book = found(folder.path(), &env, "Ana").unwrap();
        let visit = begin(&mut book).unwrap();
        drop(book);
        let setting = Setting {
            folder: folder.path().to_owned(),
            env: Arc::clone(&env) as Arc<dyn Env>,
            zone: chrono_tz::UTC,
            port: 0,
        };
        Self {
            shared: Arc::new(Shared::new(setting).unwrap()),
            env,
            visit,
            _folder: folder,
        }
    }

    fn shown(&self, part: &str, again: Option<&Again>) -> String {
        let path = format!("/visit/{}{part}", self.visit);
        let pattern = format!("/visit/{{visit}}{part}");
        let screen = crate::screen::all().find(|s| s.path == pattern).unwrap();
        let params = [("visit".to_owned(), self.visit.to_string())];
        let page = self.shared.reading(|book| {
            let now = book.unwrap().now()?;
            let ask = Ask::new(book, &self.shared, WORDS, now, &path, &params, &[], again);
            (screen.show)(&ask).map(|page| page.main.into_string())
        });
        let page = page.unwrap().unwrap();
        for own in ["ready", "treat", "reason", "shown", "finding"] {
            let missing = format!("\u{27e6}{own}-");
            assert!(!page.contains(&missing), "a message is missing: {page}");
        }
        page
    }

    pub(crate) fn show(&self, part: &str) -> String {
        self.shown(part, None)
    }

    pub(crate) fn act(&self, part: &str, form: &Form) -> Result<String> {
        let path = format!("/visit/{}{part}", self.visit);
        let pattern = format!("/visit/{{visit}}{part}");
        let screen = crate::screen::all().find(|s| s.path == pattern).unwrap();
        let params = [("visit".to_owned(), self.visit.to_string())];
        let (_, act) = screen
            .acts
            .iter()
            .find(|(name, _)| *name == form.text("do"))
            .unwrap();
        let mut slot = self.shared.writer();
        let next = act(&mut Doing {
            slot: &mut slot,
            shared: &self.shared,
            words: WORDS,
            path: &path,
            params: &params,
            form,
        });
        drop(slot);
        self.shared.changed();
        match next? {
            Next::Go(path) => Ok(path),
            Next::File { .. } | Next::Once(_) => panic!("another screen is expected"),
        }
    }

    /// Sends a form that is taken; where it leads.
    pub(crate) fn send(&self, part: &str, fields: &[(&str, &str)]) -> String {
        self.act(part, &sent(fields)).unwrap()
    }

    /// Sends a form that is not taken; the screen with what is wrong.
    pub(crate) fn refused(&self, part: &str, fields: &[(&str, &str)]) -> (Trouble, String) {
        let form = sent(fields);
        let trouble = self.act(part, &form).unwrap_err();
        let again = Again { form, trouble };
        let page = self.shown(part, Some(&again));
        (again.trouble, page)
    }

    pub(crate) fn book<T>(&self, read: impl FnOnce(&Book) -> T) -> T {
        read(self.shared.writer().as_ref().unwrap())
    }

    pub(crate) fn change(&self, change: impl FnOnce(&mut Book)) {
        change(self.shared.writer().as_mut().unwrap());
    }

    pub(crate) fn keep_offs(&self) -> Vec<String> {
        let all = self.book(|b| b.keep_offs_of(self.visit)).unwrap();
        all.iter().map(|k| k.keep_off.to_string()).collect()
    }

    pub(crate) fn last_applied(&self) -> Vec<Option<i64>> {
        let all = self.book(|b| b.keep_offs_of(self.visit)).unwrap();
        all.iter().map(|k| k.last_applied_utc_ms).collect()
    }

    pub(crate) fn now_ms(&self) -> i64 {
        self.env.clock().utc_ms
    }

    pub(crate) fn facts(&self) -> Vec<Fact> {
        self.book(|book| {
            let history = book.visit(self.visit).unwrap().history;
            history
                .iter()
                .map(|l| book.fact(l.fact).unwrap().1)
                .collect()
        })
    }

    /// Everything that can be read, seen and walked round, all of it well.
    pub(crate) fn look_well(&self) {
        self.send(
            "/ready",
            &[
                ("do", "seen"),
                ("wind1", "5"),
                ("wind1.unit", "mph"),
                ("wind2", "6"),
                ("wind2.unit", "mph"),
                ("wind3", "5"),
                ("wind3.unit", "mph"),
                ("span", "1"),
                ("gust", "7"),
                ("gust.unit", "mph"),
                ("from", "225"),
                ("soil", "fit"),
                ("bloom", "none"),
            ],
        );
        let walked: Vec<(&str, &str)> = [
            "people",
            "toys",
            "bowls",
            "pond",
            "irrigation",
            "gates",
            "puddles",
            "hard",
            "drains",
        ]
        .iter()
        .map(|name| (*name, "moved"))
        .chain([("do", "walk")])
        .collect();
        self.send("/ready/walk", &walked);
    }

    /// Starts, each thing not known acknowledged.
    pub(crate) fn start(&self) {
        self.look_well();
        self.send("/ready", &[("do", "check")]);
        let started = self.send(
            "/ready",
            &[("do", "start"), ("ack.rain", "yes"), ("ack.repeat", "yes")],
        );
        assert!(started.ends_with("/treat"));
    }
}

pub(crate) fn sent(fields: &[(&str, &str)]) -> Form {
    let owned = |(n, v): &(&str, &str)| ((*n).to_owned(), (*v).to_owned());
    Form {
        fields: fields.iter().map(owned).collect(),
        files: Vec::new(),
    }
}
