//! Exported records: the same bytes from every phone, nothing left out, everything in doubt marked.

use std::sync::Arc;

use chrono::NaiveDate;
use proptest::prelude::*;
use sward_book::Book;
use sward_book::action::Start;
use sward_book::book::Founding;
use sward_book::env::Env;
use sward_book::export::{
    FieldName, Filled, Mark, Outcome, RULES, Record, RecordFilter, fields_asked, records, to_csv,
    to_json, unfinished,
};
use sward_book::fact::{Fact, Finished, Loaded, NotTreatedWhy, Person, Replacement, Role, SkySeen};
use sward_book::ids::{FactId, Hash, KeepOffId, SheetId, StreamId, VisitId};
use sward_book::testing::{START_UTC_MS, TestEnv, ask, give, secret};
use sward_rules::Entered;
use sward_rules::finding::{Check, Finding, Verdict};
use sward_rules::look::{Sample, SampleMethod};
use sward_rules::measure::{Outline, Shape};
use sward_rules::sky::{AirReading, MeterReading};
use tempfile::TempDir;

const HOUR_MS: u64 = 3_600_000;

struct Phone {
    book: Book,
    env: Arc<TestEnv>,
    _folder: TempDir,
}

impl Phone {
    fn founder(practice: bool) -> Self {
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

    fn joining(lead: &mut Self, name: &str, seed: u64) -> Self {
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

    fn now_ms(&self) -> i64 {
        self.env.clock().utc_ms
    }

    fn yard(&mut self, zone: &str) -> SheetId {
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

    fn label(&mut self) -> SheetId {
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

    fn looked_at(&mut self, yard: SheetId) -> VisitId {
        let visit = self.book.open_visit(yard, "chinch bug").unwrap();
        let sample = Sample {
            method: SampleMethod::SodSquare(amount("1 ft")),
            count: 22,
        };
        self.book
            .count(visit, "chinch bug", vec![sample.clone(), sample], "")
            .unwrap();
        let at_utc_ms = self.now_ms();
        let reading = |wind: &str, gust: Option<&str>, from| MeterReading {
            at_utc_ms,
            wind: amount(wind),
            gust: gust.map(amount),
            from_degrees: from,
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
        let wind = Finding::new(Check::Wind, Verdict::Clear, "7 mph, limit 10 mph");
        let rain = Finding::unknown(Check::Rain, "no forecast");
        self.book
            .record_findings(visit, vec![wind, rain], None)
            .unwrap();
        visit
    }

    fn start(&mut self, visit: VisitId, label_sheet: SheetId) -> KeepOffId {
        let start = Start {
            label_sheet,
            rate: amount("2.5 lb/1000 ft2"),
            sections: Vec::new(),
            acknowledged: vec![Check::Rain],
            against: None,
        };
        self.book.start(visit, start).unwrap()[0]
    }

    fn load(&mut self, visit: VisitId, product: &str) -> FactId {
        let now_ms = self.now_ms();
        self.book
            .load(visit, Vec::new(), amount(product), None, now_ms)
            .unwrap();
        self.last_fact(visit)
    }

    fn last_fact(&self, visit: VisitId) -> FactId {
        self.book.visit(visit).unwrap().history.last().unwrap().fact
    }

    fn started_visit(&mut self) -> (VisitId, KeepOffId) {
        let yard = self.yard("America/New_York");
        let label = self.label();
        let visit = self.looked_at(yard);
        self.env.pass_ms(HOUR_MS);
        (visit, self.start(visit, label))
    }

    fn treated_visit(&mut self) -> (VisitId, KeepOffId) {
        let (visit, keep_off) = self.started_visit();
        self.env.pass_ms(HOUR_MS / 4);
        self.load(visit, "3.75 lb");
        self.env.pass_ms(HOUR_MS / 4);
        self.book
            .finish(visit, &[], "Gate left open;\n\"swept\" the drive")
            .unwrap();
        (visit, keep_off)
    }

    fn records(&self) -> Vec<Record> {
        records(&self.book, &RecordFilter::default()).unwrap()
    }

    fn only(&self) -> Record {
        let mut records = self.records();
        assert_eq!(records.len(), 1);
        records.remove(0)
    }
}

fn amount(typed: &str) -> Entered {
    Entered::parse(typed).unwrap()
}

fn swap(a: &mut Phone, b: &mut Phone) {
    give(&a.book, &mut b.book).unwrap();
    give(&b.book, &mut a.book).unwrap();
}

fn marks(record: &Record) -> Vec<String> {
    record.marks.iter().map(ToString::to_string).collect()
}

fn cells(csv: &str) -> Vec<std::collections::BTreeMap<String, String>> {
    csv::Reader::from_reader(csv.as_bytes())
        .deserialize()
        .map(Result::unwrap)
        .collect()
}

#[test]
fn a_treated_and_a_not_treated_visit_are_one_record_each() {
    let mut phone = Phone::founder(false);
    let (visit, keep_off) = phone.treated_visit();
    phone.env.pass_ms(HOUR_MS);
    let looked_ms = phone.now_ms();
    phone
        .book
        .looked_dry(visit, &[keep_off], looked_ms)
        .unwrap();
    let yard = phone.yard("America/New_York");
    let other = phone.looked_at(yard);
    phone
        .book
        .not_treated(
            other,
            NotTreatedWhy::BelowThreshold,
            "few",
            Some("2026-06-30"),
        )
        .unwrap();

    let records = phone.records();
    assert_eq!(records.len(), 2);
    let (done, left) = (&records[0], &records[1]);
    assert_eq!(marks(done), Vec::<String>::new());
    assert_eq!(done.outcome, Outcome::Treated);
    assert_eq!(done.date, NaiveDate::from_ymd_opt(2026, 6, 15));
    assert_eq!(
        done.started.as_ref().unwrap().local,
        "2026-06-15T09:00:00-04:00"
    );
    assert_eq!(done.finished.local, "2026-06-15T09:30:00-04:00");
    assert_eq!(done.finished.utc, "2026-06-15T13:30:00Z");
    assert_eq!(done.applicator.as_ref().unwrap().licence, "TEST-1");
    // (4 + 5 + 7) / 3 = 5.33.
    assert_eq!(done.wind.mean.as_deref(), Some("5.3 mph"));
    assert_eq!(done.wind.gust.as_deref(), Some("9.5 mph"));
    assert_eq!(done.verdict, Verdict::Unknown);
    let treatment = done.treatment.as_ref().unwrap();
    // 3.75 lb × 0.45359237 kg/lb (exact by definition).
    let total = treatment.product_total.as_ref().unwrap();
    assert_eq!(total.entered, "3.75 lb");
    assert_eq!(total.metric.as_deref(), Some("1.70097139 kg"));
    let keep_off = treatment.sections[0].keep_off.as_ref().unwrap();
    assert_eq!(
        keep_off.terms,
        ["until seen dry; 4 h after the last application"]
    );
    let dry = keep_off.dry.as_ref().unwrap();
    assert_eq!(dry.by.name, "Lead Example");
    assert_eq!(dry.at.local, "2026-06-15T10:30:00-04:00");

    assert_eq!(left.outcome, Outcome::NotTreated);
    assert_eq!(left.treatment, None);
    let why = left.not_treated.as_ref().unwrap();
    assert_eq!(why.why, NotTreatedWhy::BelowThreshold);
    assert_eq!(why.look_again.as_deref(), Some("2026-06-30"));
    assert_eq!(left.counts[0].density.as_deref(), Some("22.0 per ft²"));
    assert_eq!(left.note, "few");
    assert_eq!(unfinished(&phone.book, None).unwrap(), vec![]);
}

#[test]
fn csv_reads_back_to_the_same_cells() {
    let mut phone = Phone::founder(false);
    phone.treated_visit();
    let csv = to_csv(&phone.records());
    assert!(csv.ends_with("\r\n"));
    // RFC 4180: a quote inside a quoted cell is doubled.
    assert!(csv.contains("\"Test \"\"granule\"\", fine\""), "{csv}");
    let rows = cells(&csv);
    assert_eq!(rows.len(), 1);
    let record = phone.only();
    let expected = [
        ("yard", "Corner, \"north\""),
        ("product", "Test \"granule\", fine"),
        ("note", "Gate left open;\n\"swept\" the drive"),
        ("active_ingredients", "bifenthrin 0.2 %"),
        ("rate", "2.5 lb/1000 ft²"),
        ("product_total", "3.75 lb"),
        ("water_total", ""),
        ("loads", "1"),
        ("temperatures", "77 °F"),
        ("wind_from_degrees", "270; 280"),
        ("findings", "not known"),
        ("acknowledged_unknown", "rain"),
        ("seen_dry", "Front: not yet"),
        ("counts", "chinch bug: 44 in 2 samples, 22.0 per ft²"),
        ("record_id", &record.visit.to_string()),
        ("frozen_hash", &record.frozen.unwrap().to_string()),
        ("entry_hash", &record.fact.entry.to_string()),
    ];
    for (column, cell) in expected {
        assert_eq!(rows[0][column], cell, "{column}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn no_cell_is_a_formula_and_no_text_is_lost(
        text in "[=+@\\-\t\r\n＝a\",;' 0\u{7}]{0,6}",
    ) {
        let mut record = sample_record().clone();
        record.yard_name.clone_from(&text);
        record.note.clone_from(&text);
        let row = cells(&to_csv(&[record])).remove(0);
        let told = text.replace('\u{7}', "\u{fffd}");
        let trap = told.starts_with(['=', '+', '-', '@', '＝', '\t', '\r', '\n']);
        let cell = if trap { format!("'{told}") } else { told };
        prop_assert_eq!(&row["yard"], &cell);
        prop_assert_eq!(&row["note"], &cell);
    }
}

fn sample_record() -> &'static Record {
    static RECORD: std::sync::OnceLock<Record> = std::sync::OnceLock::new();
    RECORD.get_or_init(|| {
        let mut phone = Phone::founder(false);
        phone.treated_visit();
        phone.only()
    })
}

#[test]
fn every_phone_with_the_same_entries_writes_the_same_bytes() {
    let mut lead = Phone::founder(false);
    let mut helper = Phone::joining(&mut lead, "Helper Example", 2);
    let (first, keep_off) = lead.started_visit();
    swap(&mut lead, &mut helper);
    helper.env.pass_ms(HOUR_MS);
    lead.load(first, "2 lb");
    lead.book.finish(first, &[], "lead").unwrap();
    helper.load(first, "1.5 lb");
    helper.book.finish(first, &[], "helper").unwrap();
    helper
        .book
        .confirm_keep_off(first, keep_off, "as the label says")
        .unwrap();
    helper.treated_visit();
    swap(&mut lead, &mut helper);
    let chosen = lead.book.visit(first).unwrap().finishes[1].fact;
    lead.book
        .choose_finish(first, chosen, "both were there")
        .unwrap();
    // A third phone, with another clock, takes everything in the other way round.
    let late = Phone::joining(&mut lead, "Late Example", 3);
    swap(&mut lead, &mut helper);
    let mut late = late;
    late.env.pass_ms(77 * HOUR_MS);
    let mut wires = Vec::new();
    for head in lead.book.heads().unwrap() {
        wires.extend(lead.book.wires_up_to(head.hash, None, usize::MAX).unwrap());
    }
    for wire in wires.into_iter().rev() {
        assert!(late.book.take_in(&[wire], None).unwrap().refused.is_empty());
    }
    assert_eq!(lead.records().len(), 3);
    for other in [&helper, &late] {
        assert_eq!(to_json(&lead.records()), to_json(&other.records()));
        assert_eq!(to_csv(&lead.records()), to_csv(&other.records()));
    }
}

#[test]
fn two_finishes_are_marked_until_and_after_a_person_chooses() {
    let mut lead = Phone::founder(false);
    let mut helper = Phone::joining(&mut lead, "Helper Example", 2);
    let (visit, _) = lead.started_visit();
    swap(&mut lead, &mut helper);
    helper.env.pass_ms(HOUR_MS);
    lead.load(visit, "2 lb");
    lead.book.finish(visit, &[], "").unwrap();
    helper.load(visit, "3 lb");
    helper.book.finish(visit, &[], "").unwrap();
    swap(&mut lead, &mut helper);
    let both = lead.records();
    assert_eq!(both.len(), 2);
    for (number, record) in [(1, &both[0]), (2, &both[1])] {
        let version = Mark::Version { number, of: 2 };
        assert_eq!(record.marks[0], version);
        assert!(record.late[0].in_other_version);
        assert_eq!(record.marks.len(), 2, "{:?}", record.marks);
    }
    assert!(to_csv(&both).contains("version 1 of 2, to settle"));
    lead.book
        .choose_finish(visit, both[1].fact, "seen both")
        .unwrap();
    let both = lead.records();
    assert_eq!(marks(&both[0])[0], "set aside by Lead Example: seen both");
    assert_eq!(marks(&both[1])[0], "chosen by Lead Example: seen both");
}

#[test]
fn a_late_addition_is_marked_and_stays_out_of_the_figures() {
    let mut lead = Phone::founder(false);
    let mut helper = Phone::joining(&mut lead, "Helper Example", 2);
    let (visit, _) = lead.started_visit();
    swap(&mut lead, &mut helper);
    lead.load(visit, "2 lb");
    lead.book.finish(visit, &[], "").unwrap();
    helper.env.pass_ms(HOUR_MS);
    let late = helper.load(visit, "1.75 lb");
    swap(&mut lead, &mut helper);
    let record = lead.only();
    let mark = |to_settle, put_on| Mark::LateAdditions {
        to_settle,
        put_on,
        in_other_version: 0,
    };
    assert_eq!(record.marks, vec![mark(1, 0)]);
    assert_eq!(record.late[0].fact, late);
    assert_eq!(record.late[0].by.name, "Helper Example");
    assert_eq!(record.late[0].load.product.entered, "1.75 lb");
    let total = |record: &Record| {
        record
            .treatment
            .as_ref()
            .unwrap()
            .product_total
            .clone()
            .unwrap()
    };
    assert_eq!(total(&record).entered, "2 lb");

    lead.book
        .settle_late(visit, late, true, "I saw it")
        .unwrap();
    let record = lead.only();
    assert_eq!(record.marks, vec![mark(0, 1)]);
    assert_eq!(record.late[0].settled.as_ref().unwrap().why, "I saw it");

    // Said not to have been put on: a finish made anew must not add it up.
    lead.book
        .settle_late(visit, late, false, "it was another yard")
        .unwrap();
    assert_eq!(lead.only().marks, vec![]);
    lead.book.correct_finish(visit, &[], "", "note").unwrap();
    let record = lead.only();
    assert_eq!(total(&record).entered, "2 lb");
    assert_eq!(record.late[0].counts, Some(false));
}

fn corrected_load(phone: &mut Phone, visit: VisitId, old: FactId, product: &str, why: &str) {
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

#[test]
fn amendments_tell_old_and_new_and_whether_the_figures_hold_them() {
    let mut phone = Phone::founder(false);
    let (visit, _) = phone.started_visit();
    let load = phone.load(visit, "37.5 lb");
    corrected_load(&mut phone, visit, load, "3.75 lb", "the point was missing");
    let load = phone.last_fact(visit);
    phone.book.finish(visit, &[], "").unwrap();
    assert_eq!(marks(&phone.only()), Vec::<String>::new());
    corrected_load(&mut phone, visit, load, "3.5 lb", "weighed again");

    let record = phone.only();
    assert_eq!(record.marks, vec![Mark::Amended { count: 1 }]);
    let [before, after] = &record.amendments[..] else {
        panic!("{:?}", record.amendments)
    };
    assert_eq!(
        before.old,
        ["load of 37.5 lb, applied 2026-06-15T09:00:00-04:00"]
    );
    assert_eq!(
        before.new,
        "load of 3.75 lb, applied 2026-06-15T09:00:00-04:00"
    );
    assert!(before.in_figures);
    assert_eq!(
        (after.why.as_str(), after.in_figures),
        ("weighed again", false)
    );
    assert_eq!(after.by.name, "Lead Example");
    assert_eq!(record.late, vec![]);

    phone
        .book
        .correct_finish(visit, &[], "", "after weighing again")
        .unwrap();
    let record = phone.only();
    assert_eq!(record.marks, vec![]);
    let finish = record.amendments.last().unwrap();
    assert!(
        finish.old[0].contains("product in all 3.75 lb"),
        "{:?}",
        finish.old
    );
    assert!(
        finish.new.contains("product in all 3.5 lb"),
        "{}",
        finish.new
    );
    assert!(cells(&to_csv(&[record]))[0]["amendments"].contains("why: weighed again"));
}

#[test]
fn what_a_retired_device_writes_is_marked_and_corrects_nothing() {
    let mut lead = Phone::founder(false);
    let mut helper = Phone::joining(&mut lead, "Helper Example", 2);
    let (visit, _) = lead.started_visit();
    let load = lead.load(visit, "2 lb");
    give(&lead.book, &mut helper.book).unwrap();
    helper.env.pass_ms(2 * HOUR_MS);
    let stream = helper.book.secret().unwrap().stream();
    lead.book.retire(stream, "left the crew").unwrap();
    corrected_load(&mut helper, visit, load, "9 lb", "said so");
    give(&helper.book, &mut lead.book).unwrap();
    lead.book.finish(visit, &[], "").unwrap();
    helper.book.finish(visit, &[], "").unwrap();
    give(&helper.book, &mut lead.book).unwrap();

    let records = lead.records();
    assert_eq!(records.len(), 2);
    let by_lead = records.iter().find(|r| r.recorded_by.of_the_crew).unwrap();
    let treatment = by_lead.treatment.as_ref().unwrap();
    assert_eq!(treatment.product_total.as_ref().unwrap().entered, "2 lb");
    assert!(!by_lead.amendments[0].by.of_the_crew);
    assert!(!by_lead.amendments[0].in_figures);
    let devices = vec![stream.short()];
    assert!(by_lead.marks.contains(&Mark::OutsidersWroteToo { devices }));
    let outsider = records.iter().find(|r| !r.recorded_by.of_the_crew).unwrap();
    assert!(marks(outsider).contains(&"device not of the crew".to_owned()));
}

#[test]
fn a_finish_that_cannot_be_read_is_a_marked_record_and_hides_no_other() {
    let mut phone = Phone::founder(false);
    phone.treated_visit();
    let (visit, _) = phone.started_visit();
    let junk = Finished {
        visit,
        covers: Vec::new(),
        frozen: vec![1, 2, 3],
        frozen_hash: Hash([7; 32]),
        sections: Vec::new(),
    };
    phone
        .book
        .write(|w| {
            w.fact(Fact::Finished(junk));
            Ok(())
        })
        .unwrap();
    let records = phone.records();
    assert_eq!(records.len(), 2);
    assert!(records[0].treatment.is_some());
    assert!(
        records[1]
            .marks
            .iter()
            .any(|m| matches!(m, Mark::Unreadable { .. }))
    );
    for rule in &RULES {
        let asked = fields_asked(&records[1], rule);
        assert!(
            asked.contains(&(FieldName::Product, Filled::No)),
            "{}",
            rule.name
        );
    }
}

#[test]
fn practice_unset_zones_and_unproven_clocks_are_marked() {
    let mut phone = Phone::founder(true);
    let yard = phone.yard("");
    let label = phone.label();
    let visit = phone.looked_at(yard);
    phone.env.set_vouched(None);
    phone.env.reboot();
    phone.start(visit, label);
    assert_eq!(unfinished(&phone.book, Some(yard)).unwrap(), vec![visit]);
    phone.book.finish(visit, &[], "").unwrap();
    let record = phone.only();
    assert_eq!(
        record.marks,
        vec![Mark::Practice, Mark::TimeUncertain, Mark::NoZone]
    );
    assert_eq!(record.finished.local, "2026-06-15T12:00:00Z");
}

#[test]
fn times_keep_their_offset_over_the_change_of_clocks() {
    // Computed with the IANA database (C in the reference values): 2026-10-31 20:00 EDT and 24 h
    // later, 2026-11-01 19:00 EST.
    let mut phone = Phone::founder(false);
    let begin_ms = 1_793_491_200_000;
    phone
        .env
        .pass_ms(u64::try_from(begin_ms - START_UTC_MS).unwrap() - HOUR_MS);
    let (visit, _) = phone.started_visit();
    phone.env.pass_ms(24 * HOUR_MS);
    phone.book.finish(visit, &[], "").unwrap();
    let record = phone.only();
    assert_eq!(record.started.unwrap().local, "2026-10-31T20:00:00-04:00");
    assert_eq!(record.finished.local, "2026-11-01T19:00:00-05:00");
    assert_eq!(record.finished.utc, "2026-11-02T00:00:00Z");
}

#[test]
fn filters_take_what_they_name_by_the_yards_own_day() {
    let mut phone = Phone::founder(false);
    // 22:30 in New York is the next day in UTC.
    phone.env.pass_ms(13 * HOUR_MS + HOUR_MS / 2);
    let (visit, _) = phone.treated_visit();
    let yard = phone.book.visit(visit).unwrap().yard;
    let day = |d| NaiveDate::from_ymd_opt(2026, 6, d);
    let text = |text: &str| Some(text.to_owned());
    let count = |filter: RecordFilter| records(&phone.book, &filter).unwrap().len();
    let all = RecordFilter::default;
    assert_eq!(count(RecordFilter { yard, ..all() }), 1);
    assert_eq!(
        count(RecordFilter {
            yard: Some(SheetId(visit.0)),
            ..all()
        }),
        0
    );
    assert_eq!(
        count(RecordFilter {
            product: text("GRANULE"),
            ..all()
        }),
        1
    );
    assert_eq!(
        count(RecordFilter {
            product: text("00000-000"),
            ..all()
        }),
        1
    );
    assert_eq!(
        count(RecordFilter {
            product: text("spray"),
            ..all()
        }),
        0
    );
    assert_eq!(
        count(RecordFilter {
            person: text("lead"),
            ..all()
        }),
        1
    );
    assert_eq!(
        count(RecordFilter {
            person: text("helper"),
            ..all()
        }),
        0
    );
    assert_eq!(
        count(RecordFilter {
            from: day(15),
            to: day(15),
            ..all()
        }),
        1
    );
    assert_eq!(
        count(RecordFilter {
            from: day(16),
            ..all()
        }),
        0
    );
    assert_eq!(
        count(RecordFilter {
            to: day(14),
            ..all()
        }),
        0
    );
}

#[test]
fn one_record_in_json() {
    let json = to_json(std::slice::from_ref(sample_record()));
    assert!(json.starts_with("{\n  \"format\": 1,\n"));
    assert!(json.ends_with("}\n"));
    insta::assert_snapshot!(json);
}

#[test]
fn the_columns_of_csv() {
    let csv = to_csv(&[]);
    insta::assert_snapshot!(csv.trim_end().replace(',', "\n"));
}

#[test]
fn each_rule_asks_for_its_fields_and_keeps_its_own_time() {
    use FieldName as F;
    // Retention and fields: texts of the rules as read; Minnesota's time was not.
    let expected: [(&str, Option<u8>, usize, &[F]); 6] = [
        ("USDA 7 CFR 110.3", Some(2), 9, &[]),
        ("New York ECL 33-1205", Some(3), 8, &[]),
        ("Minnesota Stat. 18B.37", None, 14, &[F::Customer]),
        (
            "Texas 4 TAC chapter 7",
            Some(2),
            15,
            &[F::Customer, F::Equipment],
        ),
        (
            "Georgia 40-21-5",
            Some(2),
            11,
            &[F::Equipment, F::UnexpectedOccurrence, F::Disposal],
        ),
        ("Pennsylvania 7 Pa. Code 128.35", Some(3), 9, &[F::Customer]),
    ];
    for (rule, (name, keep_years, count, in_text)) in RULES.iter().zip(expected) {
        assert_eq!((rule.name, rule.keep_years), (name, keep_years));
        let asked = fields_asked(sample_record(), rule);
        assert_eq!(asked.len(), count, "{name}");
        for (field, filled) in asked {
            let want = if in_text.contains(&field) {
                Filled::LookInText
            } else {
                Filled::Yes
            };
            assert_eq!(filled, want, "{name}: {field:?}");
        }
    }
}

#[test]
fn a_field_that_is_empty_is_told_as_empty() {
    use FieldName as F;
    type Emptied = (F, fn(&mut Record));
    let emptied: [Emptied; 10] = [
        (F::LicenceNumber, |r| {
            r.applicator.as_mut().unwrap().licence.clear()
        }),
        (F::Applicator, |r| r.applicator = None),
        (F::Temperature, |r| r.temperatures.clear()),
        (F::WindSpeed, |r| r.wind.readings.clear()),
        (F::WindDirection, |r| {
            r.wind
                .readings
                .iter_mut()
                .for_each(|w| w.from_degrees = None)
        }),
        (F::TotalProduct, |r| {
            r.treatment.as_mut().unwrap().product_total = None
        }),
        (F::Area, |r| {
            r.treatment.as_mut().unwrap().sections[0].area.clear()
        }),
        (F::AddressWithZip, |r| {
            r.address = "12345 Test Lane, Sampletown".to_owned()
        }),
        (F::Location, |r| r.address = " ".to_owned()),
        (F::Equipment, |r| r.note.clear()),
    ];
    for (field, empty) in emptied {
        let mut record = sample_record().clone();
        empty(&mut record);
        let rules = RULES.iter().filter(|rule| rule.fields.contains(&field));
        assert!(rules.clone().count() > 0, "{field:?}");
        for rule in rules {
            let asked = fields_asked(&record, rule);
            assert!(
                asked.contains(&(field, Filled::No)),
                "{}: {field:?}",
                rule.name
            );
        }
    }
    let mut record = sample_record().clone();
    record.address = "12 Test Lane, NY 00000-0000, USA".to_owned();
    assert!(fields_asked(&record, &RULES[1]).contains(&(F::AddressWithZip, Filled::Yes)));
    record.outcome = Outcome::NotTreated;
    assert_eq!(fields_asked(&record, &RULES[1]), vec![]);
}
