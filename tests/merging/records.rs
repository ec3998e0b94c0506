//! Records: nothing is lost, nothing that was finished changes, and what differs is asked.

use sward_book::Book;
use sward_book::action::treatment_of;
use sward_book::fact::{Counted, Fact, Loaded, Replacement};
use sward_book::ids::FactId;
use sward_book::view::visit::{Question, VisitState};
use sward_tests::crew::{Crew, amount, judged_visit, label, load, sample, start, yard};
use sward_tests::orders::{for_every_order, with_observer};

#[test]
fn a_finish_stands_and_a_load_it_did_not_know_is_a_late_addition() {
    let mut crew = Crew::of(3).unwrap();
    let observer = with_observer(&mut crew).unwrap();
    let book = crew.book(0);
    let yard = yard(book).unwrap();
    let label = label(book, "4 h").unwrap();
    let visit = judged_visit(book, yard, label).unwrap();
    start(book, visit, label).unwrap();
    load(book, visit, "2 lb").unwrap();
    crew.swap_all().unwrap();
    crew.book(0).finish(visit, &[], "all done").unwrap();
    load(crew.book(1), visit, "1.75 lb").unwrap();
    let frozen = frozen_total(&crew.phones[0].book, visit);
    for_every_order(&mut crew, &observer, |book| {
        let view = book.visit(visit).unwrap();
        assert_eq!(view.state, VisitState::Finished);
        assert_eq!(frozen_total(book, visit), frozen);
        assert_eq!(view.late.len(), 1);
        assert_eq!(
            view.questions,
            vec![Question::LateLoad {
                addition: view.late[0].fact
            }]
        );
    });
    let addition = crew.phones[0].book.visit(visit).unwrap().late[0].fact;
    crew.book(2)
        .settle_late(visit, addition, true, "I saw it go on")
        .unwrap();
    for_every_order(&mut crew, &observer, |book| {
        let view = book.visit(visit).unwrap();
        assert_eq!(view.late[0].counts, Some(true));
        assert_eq!(view.questions, vec![]);
    });
}

fn frozen_total(book: &Book, visit: sward_book::ids::VisitId) -> String {
    let finish = book.visit(visit).unwrap().finish().unwrap();
    treatment_of(book, finish)
        .unwrap()
        .product_total
        .unwrap()
        .to_string()
}

#[test]
fn two_finishes_are_two_versions_until_a_person_chooses() {
    let mut crew = Crew::of(3).unwrap();
    let observer = with_observer(&mut crew).unwrap();
    let book = crew.book(0);
    let yard = yard(book).unwrap();
    let label = label(book, "4 h").unwrap();
    let visit = judged_visit(book, yard, label).unwrap();
    start(book, visit, label).unwrap();
    crew.swap_all().unwrap();
    load(crew.book(0), visit, "2 lb").unwrap();
    crew.book(0).finish(visit, &[], "").unwrap();
    load(crew.book(1), visit, "3 lb").unwrap();
    crew.book(1).finish(visit, &[], "").unwrap();
    for_every_order(&mut crew, &observer, |book| {
        let view = book.visit(visit).unwrap();
        assert_eq!(view.finishes.len(), 2);
        assert_eq!(view.finish(), None);
        assert!(
            matches!(&view.questions[..], [Question::WhichFinish { finishes }] if finishes.len() == 2)
        );
    });
    let chosen = crew.phones[2].book.visit(visit).unwrap().finishes[0].fact;
    crew.book(2)
        .choose_finish(visit, chosen, "the other phone was not there")
        .unwrap();
    for_every_order(&mut crew, &observer, |book| {
        let view = book.visit(visit).unwrap();
        assert_eq!(view.finishes.len(), 2);
        assert_eq!(view.finish(), Some(chosen));
        assert_eq!(view.questions, vec![]);
    });
}

#[test]
fn counts_and_readings_of_both_phones_are_all_there() {
    let mut crew = Crew::of(3).unwrap();
    let observer = with_observer(&mut crew).unwrap();
    let yard = yard(crew.book(0)).unwrap();
    let visit = crew.book(0).open_visit(yard, "chinch bug").unwrap();
    crew.swap_all().unwrap();
    for phone in 0..3 {
        for count in 0..3 {
            crew.book(phone)
                .count(visit, "chinch bug", vec![sample(count)], "")
                .unwrap();
        }
    }
    for_every_order(&mut crew, &observer, |book| {
        assert_eq!(standing_counts(book, visit).len(), 9);
    });
}

fn standing_counts(book: &Book, visit: sward_book::ids::VisitId) -> Vec<(FactId, Counted)> {
    let view = book.visit(visit).unwrap();
    let standing = view.history.iter().filter(|l| l.superseded_by.is_none());
    standing
        .filter_map(|line| match book.fact(line.fact).unwrap().1 {
            Fact::Counted(count) => Some((line.fact, count)),
            Fact::Corrected(c) => match c.new {
                Replacement::Counted(count) => Some((line.fact, count)),
                _ => None,
            },
            _ => None,
        })
        .collect()
}

#[test]
fn a_correction_supersedes_what_it_saw_and_nothing_else() {
    let mut crew = Crew::of(3).unwrap();
    let observer = with_observer(&mut crew).unwrap();
    let yard = yard(crew.book(0)).unwrap();
    let visit = crew.book(0).open_visit(yard, "chinch bug").unwrap();
    crew.book(0)
        .count(visit, "chinch bug", vec![sample(3)], "")
        .unwrap();
    crew.swap_all().unwrap();
    let (old, count) = standing_counts(&crew.phones[0].book, visit)[0].clone();
    let right = Counted {
        samples: vec![sample(30)],
        ..count
    };
    crew.book(1)
        .correct(
            visit,
            vec![old],
            Replacement::Counted(right),
            "a digit was missing",
        )
        .unwrap();
    crew.book(2)
        .count(visit, "chinch bug", vec![sample(7)], "")
        .unwrap();
    for_every_order(&mut crew, &observer, |book| {
        let mut counts: Vec<u32> = standing_counts(book, visit)
            .iter()
            .map(|(_, c)| c.samples[0].count)
            .collect();
        counts.sort_unstable();
        assert_eq!(counts, [7, 30]);
        let view = book.visit(visit).unwrap();
        assert!(
            view.history
                .iter()
                .any(|l| l.fact == old && l.superseded_by.is_some())
        );
    });
}

#[test]
fn one_job_entered_twice_is_kept_twice_and_joined_by_a_link() {
    let mut crew = Crew::of(3).unwrap();
    let observer = with_observer(&mut crew).unwrap();
    let yard = yard(crew.book(0)).unwrap();
    let label = label(crew.book(0), "4 h").unwrap();
    crew.swap_all().unwrap();
    let mut visits = Vec::new();
    for phone in 1..3 {
        let book = crew.book(phone);
        let visit = judged_visit(book, yard, label).unwrap();
        start(book, visit, label).unwrap();
        book.finish(visit, &[], "").unwrap();
        visits.push(visit);
    }
    for_every_order(&mut crew, &observer, |book| {
        assert_eq!(book.visits().unwrap().len(), 2);
        let twice = book.entered_twice().unwrap();
        assert_eq!(twice.len(), 1);
        assert!(visits.contains(&twice[0].earlier) && visits.contains(&twice[0].later));
    });
    crew.book(0)
        .settle_one_job(visits[0], visits[1], true)
        .unwrap();
    for_every_order(&mut crew, &observer, |book| {
        assert_eq!(book.visits().unwrap().len(), 2);
        assert_eq!(book.entered_twice().unwrap(), vec![]);
        assert_eq!(book.visit(visits[0]).unwrap().one_job_with, vec![visits[1]]);
        assert_eq!(book.visit(visits[1]).unwrap().one_job_with, vec![visits[0]]);
    });
}

#[test]
fn an_amended_load_the_finish_knew_is_no_late_addition() {
    let mut crew = Crew::of(2).unwrap();
    let observer = with_observer(&mut crew).unwrap();
    let book = crew.book(0);
    let yard = yard(book).unwrap();
    let label = label(book, "4 h").unwrap();
    let visit = judged_visit(book, yard, label).unwrap();
    start(book, visit, label).unwrap();
    load(book, visit, "2 lb").unwrap();
    book.finish(visit, &[], "").unwrap();
    let (old, load) = book
        .visit(visit)
        .unwrap()
        .history
        .iter()
        .find_map(|l| match book.fact(l.fact).unwrap().1 {
            Fact::Loaded(load) => Some((l.fact, load)),
            _ => None,
        })
        .unwrap();
    let right = Loaded {
        product: amount("2.2 lb"),
        ..load
    };
    book.correct(
        visit,
        vec![old],
        Replacement::Loaded(right),
        "read the scale again",
    )
    .unwrap();
    for_every_order(&mut crew, &observer, |book| {
        let view = book.visit(visit).unwrap();
        assert_eq!(view.late, vec![]);
        assert_eq!(frozen_total(book, visit), "2 [lb_av]");
    });
}
