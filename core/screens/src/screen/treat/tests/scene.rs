//! A planned visit, and its screens shown and acted on as the server does it.

use sward_book::Book;
use sward_book::Env as _;
use sward_book::fact::Fact;
use sward_book::ids::VisitId;
use sward_book::sheet::SheetKind;
use sward_rules::measure::{Outline, Shape};

use crate::ask::Next;
use crate::server::Form;
pub(crate) use crate::testing::sent;
use crate::testing::{self, given, read_back};
use crate::{Result, Trouble};

/// A book with one yard of two sections, a label sheet that was read back, and a planned visit.
pub(crate) struct Scene {
    pub(crate) screens: testing::Scene,
    pub(crate) visit: VisitId,
}

fn begin(book: &mut Book) -> sward_book::Result<VisitId> {
    let yard = book.add_yard("Corner", "1 Example Way", "America/New_York")?;
    for (name, length) in [("front", "60 ft"), ("back", "40 ft")] {
        let shape = Shape::Rectangle {
            length: given(length),
            width: given("50 ft"),
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
    read_back(book, label)?;
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
        let (screens, visit) = testing::Scene::new(begin);
        Self { screens, visit }
    }

    fn address(&self, part: &str) -> String {
        format!("/visit/{}{part}", self.visit)
    }

    /// A screen of the visit, `part` being what follows the visit in its address.
    pub(crate) fn show(&self, part: &str) -> String {
        self.screens.show(&self.address(part))
    }

    pub(crate) fn act(&self, part: &str, form: &Form) -> Result<String> {
        match self.screens.act(&self.address(part), form)? {
            Next::Go(path) => Ok(path),
            Next::File { .. } | Next::Once(_) => panic!("another screen is expected"),
        }
    }

    /// Sends a form that is taken; where it leads.
    pub(crate) fn send(&self, part: &str, fields: &[(&str, &str)]) -> String {
        self.screens.send(&self.address(part), fields)
    }

    /// Sends a form that is not taken; the screen with what is wrong.
    pub(crate) fn refused(&self, part: &str, fields: &[(&str, &str)]) -> (Trouble, String) {
        self.screens.refused(&self.address(part), fields)
    }

    /// The book, to read and to write in beside the screens.
    pub(crate) fn book<T>(&self, work: impl FnOnce(&mut Book) -> sward_book::Result<T>) -> T {
        self.screens.book(work)
    }

    /// Lets time pass.
    pub(crate) fn pass_min(&self, min: u64) {
        self.screens.env.pass_ms(min * 60_000);
        self.screens.shared.changed();
    }

    pub(crate) fn keep_offs(&self) -> Vec<String> {
        let all = self.book(|b| b.keep_offs_of(self.visit));
        all.iter().map(|k| k.keep_off.to_string()).collect()
    }

    pub(crate) fn last_applied(&self) -> Vec<Option<i64>> {
        let all = self.book(|b| b.keep_offs_of(self.visit));
        all.iter().map(|k| k.last_applied_utc_ms).collect()
    }

    pub(crate) fn now_ms(&self) -> i64 {
        self.screens.env.clock().utc_ms
    }

    pub(crate) fn facts(&self) -> Vec<Fact> {
        self.book(|book| {
            let history = book.visit(self.visit)?.history;
            history.iter().map(|l| Ok(book.fact(l.fact)?.1)).collect()
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
