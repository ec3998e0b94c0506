//! A phone or two with a yard, a label sheet and a visit, and what the tests read from records.

use std::collections::BTreeMap;
use std::sync::{Arc, OnceLock};

use sward_book::Book;
use sward_book::action::Start;
use sward_book::book::Founding;
use sward_book::env::Env;
use sward_book::export::{Record, RecordFilter, records};
use sward_book::fact::{Loaded, Person, Replacement, Role, SkySeen};
use sward_book::ids::{FactId, KeepOffId, SheetId, StreamId, VisitId};
use sward_book::testing::{TestEnv, ask, give, secret};
use sward_rules::Entered;
use sward_rules::finding::{Check, Finding, Reason, Verdict};
use sward_rules::look::{Sample, SampleMethod};
use sward_rules::measure::{Outline, Shape};
use sward_rules::sky::{AirReading, MeterReading};
use tempfile::TempDir;

pub(crate) const HOUR_MS: u64 = 3_600_000;

pub(crate) struct Phone {
    pub(crate) book: Book,
    pub(crate) env: Arc<TestEnv>,
    _folder: TempDir,
}

impl Phone {
    pub(crate) fn founder(practice: bool) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let env = TestEnv::new(1);
        let founding = Founding {
            crew: "Test crew".to_owned(),
            practice,
            recovery_key: StreamId([9; 32]),
            person: Person {
                name: "Lead Example".to_owned(),
                licence: "TEST-1".to_owned(),
            },
            secret: secret(env.as_ref()),
            recipient: "age1testlead".to_owned(),
        };
        let book = Book::found(folder.path(), Arc::clone(&env) as Arc<dyn Env>, founding).unwrap();
        Self {
            book,
            env,
            _folder: folder,
        }
    }

    pub(crate) fn joining(lead: &mut Self, name: &str, seed: u64) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let env = TestEnv::new(seed);
        let (mut book, asked) = ask(folder.path(), &env, name).unwrap();
        lead.book.admit(&asked, Role::Applicator).unwrap();
        give(&lead.book, &mut book).unwrap();
        give(&book, &mut lead.book).unwrap();
        Self {
            book,
            env,
            _folder: folder,
        }
    }

    pub(crate) fn now_ms(&self) -> i64 {
        self.env.clock().utc_ms
    }

    pub(crate) fn yard(&mut self, zone: &str) -> SheetId {
        let address = "12 Test Lane, Sampletown, NY 00000";
        let yard = self
            .book
            .add_yard("Corner, \"north\"", address, zone)
            .unwrap();
        let (length, width) = (amount("60 ft"), amount("25 ft"));
        let outline = Outline {
            shape: Shape::Rectangle { length, width },
            left_out: Vec::new(),
        };
        self.book.add_section(yard, "Front", &outline).unwrap();
        yard
    }

    pub(crate) fn label(&mut self) -> SheetId {
        let label = self
            .book
            .add_label(&[
                ("product", "Test \"granule\", fine"),
                ("registration", "00000-000-TEST"),
                ("method", "granule"),
                ("rate_most", "2.5 lb/1000 ft2"),
                ("keep_off_until_dry", "yes"),
                ("keep_off_wait", "4 h"),
            ])
            .unwrap();
        self.book
            .add_ingredient(label, "bifenthrin", "0.2 %")
            .unwrap();
        label
    }

    pub(crate) fn looked_at(&mut self, yard: SheetId) -> VisitId {
        let visit = self.book.open_visit(yard, "chinch bug").unwrap();
        self.book
            .count(visit, "chinch bug", vec![sample(22), sample(22)], "")
            .unwrap();
        let at_utc_ms = self.now_ms();
        let reading = |wind: &str, gust: Option<&str>, from| MeterReading {
            at_utc_ms,
            wind: amount(wind),
            gust: gust.map(amount),
            from_degrees: from,
            height: None,
        };
        let series = vec![
            reading("4 mph", None, Some(270)),
            reading("5 mph", Some("8 mph"), Some(280)),
            reading("7 mph", Some("9.5 mph"), None),
        ];
        self.book.measure_wind(visit, series).unwrap();
        let air = AirReading {
            at_utc_ms,
            temperature: amount("77 F"),
            humidity_percent: Some(50),
        };
        self.book
            .see_sky(SkySeen {
                visit,
                air: Some(air),
                inversion: None,
                soil: None,
                bloom: None,
                wind: None,
            })
            .unwrap();
        visit
    }

    pub(crate) fn start(&mut self, visit: VisitId, label_sheet: SheetId) -> KeepOffId {
        let wind = Finding::new(Check::Wind, Verdict::Clear, Reason::WindUnderLabel);
        let rain = Finding::unknown(Check::Rain, Reason::NoForecast);
        self.book
            .record_findings(visit, label_sheet, vec![wind, rain], None)
            .unwrap();
        let start = Start {
            label_sheet,
            rate: amount("2.5 lb/1000 ft2"),
            sections: Vec::new(),
            acknowledged: vec![Check::Rain],
            against: None,
            equipment: None,
            lot: None,
            gear: None,
        };
        self.book.start(visit, start).unwrap()[0]
    }

    pub(crate) fn load(&mut self, visit: VisitId, product: &str) -> FactId {
        let now_ms = self.now_ms();
        self.book
            .load(visit, Vec::new(), amount(product), None, now_ms)
            .unwrap();
        self.last_fact(visit)
    }

    pub(crate) fn last_fact(&self, visit: VisitId) -> FactId {
        self.book.visit(visit).unwrap().history.last().unwrap().fact
    }

    pub(crate) fn started_visit(&mut self) -> (VisitId, KeepOffId) {
        let yard = self.yard("America/New_York");
        let label = self.label();
        let visit = self.looked_at(yard);
        self.env.pass_ms(HOUR_MS);
        (visit, self.start(visit, label))
    }

    pub(crate) fn treated_visit(&mut self) -> (VisitId, KeepOffId) {
        let (visit, keep_off) = self.started_visit();
        self.env.pass_ms(HOUR_MS / 4);
        self.load(visit, "3.75 lb");
        self.env.pass_ms(HOUR_MS / 4);
        self.book
            .finish(visit, &[], "Gate left open;\n\"swept\" the drive")
            .unwrap();
        (visit, keep_off)
    }

    pub(crate) fn records(&self) -> Vec<Record> {
        records(&self.book, &RecordFilter::default()).unwrap()
    }

    pub(crate) fn only(&self) -> Record {
        let mut records = self.records();
        assert_eq!(records.len(), 1);
        records.remove(0)
    }
}

pub(crate) fn amount(typed: &str) -> Entered {
    Entered::parse(typed).unwrap()
}

/// One square foot of sod.
pub(crate) fn sample(count: u32) -> Sample {
    Sample {
        method: SampleMethod::SodSquare(amount("1 ft")),
        count,
    }
}

pub(crate) fn swap(a: &mut Phone, b: &mut Phone) {
    give(&a.book, &mut b.book).unwrap();
    give(&b.book, &mut a.book).unwrap();
}

pub(crate) fn marks(record: &Record) -> Vec<String> {
    record.marks.iter().map(ToString::to_string).collect()
}

pub(crate) fn cells(csv: &str) -> Vec<BTreeMap<String, String>> {
    csv::Reader::from_reader(csv.as_bytes())
        .deserialize()
        .map(Result::unwrap)
        .collect()
}

pub(crate) fn sample_record() -> &'static Record {
    static RECORD: OnceLock<Record> = OnceLock::new();
    RECORD.get_or_init(|| {
        let mut phone = Phone::founder(false);
        phone.treated_visit();
        phone.only()
    })
}

pub(crate) fn corrected_load(
    phone: &mut Phone,
    visit: VisitId,
    old: FactId,
    product: &str,
    why: &str,
) {
    let applied_utc_ms = phone.now_ms();
    let load = Loaded {
        visit,
        keep_offs: Vec::new(),
        product: amount(product),
        water: None,
        applied_utc_ms,
    };
    phone
        .book
        .correct(visit, vec![old], Replacement::Loaded(load), why)
        .unwrap();
}
