//! A book of one device with yards, label sheets and visits.
//!
//! Only what several tests here need.

use std::sync::Arc;

use sward_book::Book;
use sward_book::action::Start;
use sward_book::fact::ReadBackHow;
use sward_book::ids::{KeepOffId, SheetId, VisitId};
use sward_book::testing::{TestEnv, found};
use sward_rules::Entered;
use sward_rules::measure::{Outline, Shape};
use tempfile::TempDir;

pub(crate) const HOUR_MS: i64 = 3_600_000;

pub(crate) struct Scene {
    pub(crate) book: Book,
    pub(crate) env: Arc<TestEnv>,
    _folder: TempDir,
}

pub(crate) fn amount(typed: &str) -> Entered {
    Entered::parse(typed).unwrap()
}

impl Scene {
    pub(crate) fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let env = TestEnv::new(5);
        let book = found(folder.path(), &env, "Núria Sample").unwrap();
        Self {
            book,
            env,
            _folder: folder,
        }
    }

    pub(crate) fn yard(&mut self, name: &str, address: &str) -> SheetId {
        let yard = self
            .book
            .add_yard(name, address, "America/New_York")
            .unwrap();
        let shape = Shape::Rectangle {
            length: amount("60 ft"),
            width: amount("25 ft"),
        };
        let lawn = Outline {
            shape,
            left_out: Vec::new(),
        };
        self.book.add_section(yard, "front", &lawn).unwrap();
        yard
    }

    pub(crate) fn label(&mut self, product: &str) -> SheetId {
        let fields = [
            ("rate_most", "2.5 lb/1000 ft2"),
            ("keep_off_until_dry", "yes"),
            ("keep_off_wait", "4 h"),
        ];
        let mut typed = vec![
            ("product", product),
            ("registration", "00000-0"),
            ("method", "granule"),
        ];
        typed.extend(fields);
        let label = self.book.add_label(&typed).unwrap();
        self.book
            .read_back(label, &fields, ReadBackHow::TypedTwice, "")
            .unwrap();
        label
    }

    pub(crate) fn visit(&mut self, yard: SheetId) -> VisitId {
        self.env.pass_ms(60_000);
        self.book.open_visit(yard, "chinch bug").unwrap()
    }

    pub(crate) fn start(&mut self, visit: VisitId, label_sheet: SheetId) -> KeepOffId {
        self.book
            .record_findings(visit, label_sheet, Vec::new(), None)
            .unwrap();
        let start = Start {
            label_sheet,
            rate: amount("2.5 lb/1000 ft2"),
            sections: Vec::new(),
            acknowledged: Vec::new(),
            against: None,
            equipment: Some("  drop spreader, setting 5 ".to_owned()),
            lot: Some("LOT-0".to_owned()),
            gear: Some(" ".to_owned()),
        };
        self.book.start(visit, start).unwrap()[0]
    }

    pub(crate) fn treated(&mut self, yard: SheetId, label: SheetId) -> (VisitId, KeepOffId) {
        let visit = self.visit(yard);
        let keep_off = self.start(visit, label);
        self.book.finish(visit, &[], "").unwrap();
        (visit, keep_off)
    }

    pub(crate) fn whole(&mut self) {
        let before = self.book.compared().unwrap();
        let verified = self.book.verify(&mut |_, _| {}).unwrap();
        assert_eq!(verified.faults, Vec::<String>::new());
        self.book.rebuild().unwrap();
        assert_eq!(self.book.compared().unwrap(), before);
    }
}
