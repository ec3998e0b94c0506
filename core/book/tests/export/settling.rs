//! Several phones: the same bytes everywhere, and everything that has to be settled is marked.

use sward_book::action::treatment_of;
use sward_book::export::{Mark, Record, to_csv, to_json};
use sward_book::fact::{Loaded, NotTreatedWhy, Replacement};
use sward_book::testing::give;
use sward_rules::finding::{Check, Finding, Reason, Verdict};
use sward_rules::sky::MeterReading;

use crate::scene::{HOUR_MS, Phone, amount, cells, corrected_load, marks, sample, swap};

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
        assert_eq!(
            to_json(&lead.records(), &[]),
            to_json(&other.records(), &[])
        );
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
fn a_record_holds_the_findings_that_the_start_was_made_on() {
    let mut lead = Phone::founder(false);
    let mut helper = Phone::joining(&mut lead, "Helper Example", 2);
    let yard = lead.yard("America/New_York");
    let label = lead.label();
    let visit = lead.looked_at(yard);
    swap(&mut lead, &mut helper);
    // The other phone judges without the start; in the order of the log that is before it.
    let hot = Finding::new(
        Check::Temperature,
        Verdict::Caution,
        Reason::TemperatureNearLabel,
    );
    helper
        .book
        .record_findings(visit, label, vec![hot], None)
        .unwrap();
    lead.book
        .count(visit, "chinch bug", vec![sample(3)], "")
        .unwrap();
    lead.start(visit, label);
    swap(&mut lead, &mut helper);
    lead.book.finish(visit, &[], "").unwrap();
    let checks: Vec<Check> = lead.only().findings.iter().map(|f| f.check).collect();
    assert_eq!(checks, [Check::Wind, Check::Rain]);
}

#[test]
fn treated_on_one_phone_and_not_on_another_is_marked_on_both_records() {
    let mut lead = Phone::founder(false);
    let mut helper = Phone::joining(&mut lead, "Helper Example", 2);
    let yard = lead.yard("America/New_York");
    let label = lead.label();
    let visit = lead.looked_at(yard);
    swap(&mut lead, &mut helper);
    helper
        .book
        .not_treated(visit, NotTreatedWhy::Weather, "wind", None)
        .unwrap();
    lead.start(visit, label);
    lead.book.finish(visit, &[], "").unwrap();
    swap(&mut lead, &mut helper);
    let records = helper.records();
    assert_eq!(records.len(), 2);
    assert!(
        records.iter().all(|r| r.marks == [Mark::TreatedOrNot]),
        "{records:?}"
    );
}

#[test]
fn a_second_start_with_another_product_is_marked() {
    let mut lead = Phone::founder(false);
    let mut helper = Phone::joining(&mut lead, "Helper Example", 2);
    let yard = lead.yard("America/New_York");
    let label = lead.label();
    let visit = lead.looked_at(yard);
    swap(&mut lead, &mut helper);
    lead.start(visit, label);
    lead.book.finish(visit, &[], "").unwrap();
    let other = helper.label();
    helper.start(visit, other);
    swap(&mut lead, &mut helper);
    assert_eq!(
        lead.only().marks,
        [Mark::StartedAgain, Mark::SeveralProducts]
    );
}

#[test]
fn two_visits_said_to_be_one_job_name_each_other() {
    let mut lead = Phone::founder(false);
    let (first, _) = lead.treated_visit();
    let yard = lead.book.visit(first).unwrap().yard.unwrap();
    let label = lead.label();
    let second = lead.looked_at(yard);
    lead.start(second, label);
    lead.book.finish(second, &[], "").unwrap();
    lead.book.settle_one_job(first, second, true).unwrap();
    let records = lead.records();
    assert_eq!(records[0].marks, [Mark::OneJobWith { visit: second }]);
    assert_eq!(records[1].marks, [Mark::OneJobWith { visit: first }]);
}

#[test]
fn a_correction_replaces_nothing_of_another_visit_and_no_finish() {
    let mut lead = Phone::founder(false);
    let (visit, _) = lead.started_visit();
    let load = lead.load(visit, "2 lb");
    let (other, _) = lead.treated_visit();
    let elsewhere = Replacement::Loaded(Loaded {
        visit: other,
        keep_offs: Vec::new(),
        product: amount("1 lb"),
        water: None,
        applied_utc_ms: lead.now_ms(),
    });
    lead.book
        .correct(visit, vec![load], elsewhere, "slip")
        .unwrap_err();
    lead.book.finish(visit, &[], "").unwrap();
    lead.book
        .correct_finish(visit, &[], "swept", "note")
        .unwrap();
    let finish = lead.last_fact(visit);
    lead.book
        .correct(visit, vec![finish], Replacement::Nothing, "gone")
        .unwrap_err();
    assert_eq!(lead.book.visit(visit).unwrap().finish(), Some(finish));
}

#[test]
fn a_record_has_the_wind_of_its_treatment_and_not_of_a_refused_morning() {
    let mut lead = Phone::founder(false);
    let yard = lead.yard("America/New_York");
    let label = lead.label();
    let visit = lead.book.open_visit(yard, "chinch bug").unwrap();
    for (wind, hours_later) in [("18 mph", 9), ("4.5 mph", 0)] {
        let reading = MeterReading {
            at_utc_ms: lead.now_ms(),
            wind: amount(wind),
            gust: None,
            from_degrees: None,
            height: None,
        };
        lead.book.measure_wind(visit, vec![reading]).unwrap();
        lead.env.pass_ms(hours_later * 3_600_000);
    }
    lead.start(visit, label);
    lead.book.finish(visit, &[], "").unwrap();
    let finish = lead.book.visit(visit).unwrap().finish().unwrap();
    let wind = treatment_of(&lead.book, finish).unwrap().wind;
    assert_eq!(wind.len(), 1, "{wind:?}");
    assert_eq!(wind[0].readings[0].wind, amount("4.5 mph"));
}
