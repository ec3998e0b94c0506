//! What a record tells of a visit, and which records there are.

use chrono::NaiveDate;
use sward_book::export::{Mark, Outcome, RecordFilter, fields_asked, records, unfinished};
use sward_book::fact::{Fact, Finished, NotTreatedWhy};
use sward_book::ids::{Hash, SheetId};
use sward_book::testing::START_UTC_MS;
use sward_rules::finding::Verdict;
use sward_rules::record_rules::{Asked, FieldName, Filled, RULES};

use crate::scene::{HOUR_MS, Phone, marks};

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
    for rule in RULES {
        let asked = fields_asked(&records[1], rule);
        let has = |field, filled| asked.contains(&Asked { field, filled });
        assert!(!has(FieldName::Date, Filled::Yes));
        assert!(!has(FieldName::FinishTime, Filled::Yes));
        assert!(has(FieldName::Product, Filled::No), "{}", rule.name);
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
