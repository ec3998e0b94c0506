//! Membership: nothing valid is refused, and a crew lead decides what it is worth.

use sward_book::Book;
use sward_book::action::{ReadyInputs, judge};
use sward_book::fact::{Fact, Replacement, Role, WindMeasured};
use sward_book::view::keep_off::DryDoubt;
use sward_book::view::visit::Question;
use sward_rules::finding::{Check, Verdict};
use sward_rules::keep_off::Now;
use sward_rules::sky::MeterReading;
use sward_tests::crew::{Crew, amount, judged_visit, label, load, start, yard};
use sward_tests::orders::{for_every_order, with_observer};

#[test]
fn what_a_retired_phone_did_offline_is_there_marked_and_keeps_off() {
    let mut crew = Crew::of(3).unwrap();
    let observer = with_observer(&mut crew).unwrap();
    let yard = yard(crew.book(0)).unwrap();
    let label = label(crew.book(0), "4 h").unwrap();
    crew.swap_all().unwrap();
    let retired = crew.phones[1].book.secret().unwrap().stream();
    crew.book(0).retire(retired, "left the crew").unwrap();
    // Phone 1 has not heard of it.
    let book = crew.book(1);
    let visit = judged_visit(book, yard, label).unwrap();
    let keep_off = start(book, visit, label).unwrap();
    load(book, visit, "3 lb").unwrap();
    book.finish(visit, &[], "").unwrap();
    crew.pass_ms(60_000);
    let looked = crew.phones[1].now_ms();
    crew.book(1).looked_dry(visit, &[keep_off], looked).unwrap();
    for_every_order(&mut crew, &observer, |book| {
        let view = book.visit(visit).unwrap();
        assert_eq!(
            view.questions,
            vec![Question::NotOfTheCrew { device: retired }]
        );
        assert_eq!(view.finishes.len(), 1);
        let keep = book.keep_off(visit, keep_off).unwrap();
        assert!(keep.by_outsider);
        assert_eq!(keep.dry_utc_ms, None);
        assert_eq!(keep.dry_not_counted[0].doubt, DryDoubt::NotOfTheCrew);
        assert!(keep.keeps_off(Now {
            utc_ms: looked + 100 * 3_600_000,
            proven: true
        }));
    });
    crew.book(0)
        .release_keep_off(visit, keep_off, "I was there: dry")
        .unwrap();
    for_every_order(&mut crew, &observer, |book| {
        let keep = book.keep_off(visit, keep_off).unwrap();
        assert!(!keep.keeps_off(Now {
            utc_ms: looked,
            proven: true
        }));
    });
}

#[test]
fn a_retired_phone_cannot_calm_the_wind() {
    let mut crew = Crew::of(3).unwrap();
    let observer = with_observer(&mut crew).unwrap();
    let book = crew.book(0);
    let yard = yard(book).unwrap();
    let label = label(book, "4 h").unwrap();
    let visit = judged_visit(book, yard, label).unwrap();
    let at_ms = crew.phones[0].now_ms();
    let series = |mph: &str| {
        let reading = |n: i64| MeterReading {
            at_utc_ms: at_ms - n * 30_000,
            wind: amount(mph),
            gust: Some(amount(mph)),
            from_degrees: Some(270),
            height: None,
        };
        (0..6).map(reading).collect::<Vec<_>>()
    };
    crew.book(0)
        .measure_wind(visit, series("14 mph")[..1].to_vec())
        .unwrap();
    crew.swap_all().unwrap();
    let retired = crew.phones[1].book.secret().unwrap().stream();
    crew.book(0).retire(retired, "left the crew").unwrap();
    let wind = |book: &Book| {
        let (findings, _) = judge(book, visit, label, ReadyInputs::default()).unwrap();
        findings
            .into_iter()
            .find(|f| f.check == Check::Wind)
            .unwrap()
    };
    let before = wind(&crew.phones[0].book);
    let book = crew.book(1);
    let history = book.visit(visit).unwrap().history;
    let measured = history
        .iter()
        .find(|l| matches!(book.fact(l.fact).unwrap().1, Fact::WindMeasured(_)))
        .unwrap()
        .fact;
    let new = Replacement::WindMeasured(WindMeasured {
        visit,
        readings: series("5 mph"),
    });
    book.correct(visit, vec![measured], new, "misread").unwrap();
    for_every_order(&mut crew, &observer, |book| {
        let mut after = wind(book);
        // Only the clock of the phone that asks differs.
        after.age_min = before.age_min;
        assert_eq!(after, before);
        assert_ne!(after.verdict, Verdict::Clear);
    });
}

#[test]
fn what_a_phone_did_before_its_retirement_counts_whenever_it_arrives() {
    let mut crew = Crew::of(3).unwrap();
    let observer = with_observer(&mut crew).unwrap();
    let yard = yard(crew.book(0)).unwrap();
    let label = label(crew.book(0), "nothing").unwrap();
    crew.swap_all().unwrap();
    let book = crew.book(1);
    let visit = judged_visit(book, yard, label).unwrap();
    let keep_off = start(book, visit, label).unwrap();
    book.finish(visit, &[], "").unwrap();
    crew.pass_ms(3_600_000);
    let looked = crew.phones[1].now_ms();
    crew.book(1).looked_dry(visit, &[keep_off], looked).unwrap();
    crew.give(1, 0).unwrap();
    let stream = crew.phones[1].book.secret().unwrap().stream();
    crew.book(0).retire(stream, "season is over").unwrap();
    for_every_order(&mut crew, &observer, |book| {
        let keep = book.keep_off(visit, keep_off).unwrap();
        assert_eq!(keep.dry_utc_ms, Some(looked));
        assert_eq!(book.visit(visit).unwrap().questions, vec![]);
    });
}

#[test]
fn a_phone_that_waits_to_be_admitted_records_and_counts_once_admitted() {
    let mut crew = Crew::of(2).unwrap();
    let observer = with_observer(&mut crew).unwrap();
    let yard = yard(crew.book(0)).unwrap();
    let label = label(crew.book(0), "nothing").unwrap();
    crew.swap_all().unwrap();
    // It asks, is admitted, gets the records; what it writes before the roster knows it is its
    // own request.
    let pending = Crew::asking("late", 40).unwrap();
    let asked = pending.book.own_request().unwrap();
    let request = pending.book.own_request_entry().unwrap().wire().to_vec();
    crew.book(0).take_in(&[request], None).unwrap();
    let member = crew.phones[0]
        .book
        .roster()
        .member(asked.device.stream)
        .unwrap()
        .clone();
    assert_eq!(member.role, None);
    crew.book(0).admit(&asked, Role::Applicator).unwrap();
    crew.phones.push(pending);
    let last = crew.phones.len() - 1;
    let crew_hash = crew.phones[0].book.crew().unwrap();
    let wires = {
        let mut wires = Vec::new();
        for head in crew.phones[0].book.heads().unwrap() {
            wires.extend(
                crew.phones[0]
                    .book
                    .wires_up_to(head.hash, None, usize::MAX)
                    .unwrap(),
            );
        }
        wires
    };
    crew.book(last).join_crew(crew_hash, &wires, None).unwrap();
    let book = crew.book(last);
    let visit = judged_visit(book, yard, label).unwrap();
    let keep_off = start(book, visit, label).unwrap();
    book.finish(visit, &[], "").unwrap();
    for_every_order(&mut crew, &observer, |book| {
        assert_eq!(book.visit(visit).unwrap().questions, vec![]);
        assert!(!book.keep_off(visit, keep_off).unwrap().by_outsider);
    });
}

#[test]
fn two_leads_retiring_each_other_end_the_same_everywhere() {
    let mut crew = Crew::of(3).unwrap();
    let observer = with_observer(&mut crew).unwrap();
    let founder = crew.phones[0].book.secret().unwrap().stream();
    let other = crew.phones[1].book.secret().unwrap().stream();
    crew.book(0).give_role(other, Role::CrewLead).unwrap();
    crew.swap_all().unwrap();
    crew.book(0).retire(other, "phone lost").unwrap();
    crew.book(1).retire(founder, "phone lost").unwrap();
    for_every_order(&mut crew, &observer, |book| {
        assert!(book.roster().is_lead(founder), "the founder is the senior");
        assert!(!book.roster().is_lead(other));
    });
}

#[test]
fn an_office_device_reads_and_writes_nothing() {
    let mut crew = Crew::of(1).unwrap();
    crew.join("desk", Role::Office).unwrap();
    crew.swap_all().unwrap();
    let refused = crew.book(1).add_yard("x", "", "").unwrap_err();
    assert!(refused.to_string().contains("may only read"), "{refused}");
}

#[test]
fn only_a_crew_lead_admits_retires_and_releases() {
    let mut crew = Crew::of(2).unwrap();
    let stranger = Crew::asking("stranger", 50).unwrap();
    let asked = stranger.book.own_request().unwrap();
    let founder = crew.phones[0].book.secret().unwrap().stream();
    assert!(crew.book(1).admit(&asked, Role::CrewLead).is_err());
    assert!(crew.book(1).retire(founder, "no").is_err());
    assert!(crew.book(1).give_role(founder, Role::Office).is_err());
}
