//! Around a treatment: who was told, the return, aftercare and incidents, in any order of arrival.
//!
//! All of it is there on every phone, and so is what rows are found by.

use sward_book::Book;
use sward_book::action::Incident;
use sward_book::fact::{
    AftercareDone, AftercareTask, Fact, IncidentWhat, ReturnWhat, TaskState, ToldHow,
};
use sward_book::ids::{IncidentId, VisitId};
use sward_tests::crew::{Crew, judged_visit, label, start, yard};
use sward_tests::orders::{for_every_order, with_observer};

fn incident(visit: VisitId, adds_to: Option<IncidentId>, told: &str, at_ms: i64) -> Incident {
    Incident {
        adds_to,
        yard: None,
        visit: Some(visit),
        what: IncidentWhat::Exposure,
        told: told.to_owned(),
        done: String::new(),
        who_called: String::new(),
        happened_utc_ms: at_ms,
    }
}

fn aftercare_facts(book: &Book, visit: VisitId) -> usize {
    let history = book.visit(visit).unwrap().history;
    let facts = history.iter().map(|l| book.fact(l.fact).unwrap().1);
    facts.filter(|f| matches!(f, Fact::Aftercare(_))).count()
}

#[test]
fn what_two_phones_record_around_a_treatment_is_all_there() {
    let mut crew = Crew::of(3).unwrap();
    let observer = with_observer(&mut crew).unwrap();
    let book = crew.book(0);
    let yard = yard(book).unwrap();
    let label = label(book, "4 h").unwrap();
    let visit = judged_visit(book, yard, label).unwrap();
    let keep_off = start(book, visit, label).unwrap();
    book.finish(visit, &[], "").unwrap();
    crew.swap_all().unwrap();
    let at_ms = crew.phones[0].now_ms();
    let id = crew
        .book(1)
        .file_incident(incident(visit, None, "a child ran across", at_ms))
        .unwrap();
    crew.give(1, 2).unwrap();
    for phone in 1..3 {
        crew.pass_ms(60_000);
        let book = crew.book(phone);
        let who = format!("neighbour {phone}");
        book.tell_keep_off(visit, &[keep_off], &who, ToldHow::InPerson, true)
            .unwrap();
        let rinsed = AftercareDone {
            task: AftercareTask::Rinsed,
            state: TaskState::Done,
        };
        book.record_aftercare(visit, vec![rinsed], "").unwrap();
        let more = format!("seen by phone {phone}");
        book.file_incident(incident(visit, Some(id), &more, at_ms - 1_000))
            .unwrap();
        let day = format!("2026-07-0{phone}");
        book.plan_return(visit, &day, ReturnWhat::ReCheck, "")
            .unwrap();
    }
    let planned = crew.phones[2].book.visit(visit).unwrap().return_day;
    for_every_order(&mut crew, &observer, |book| {
        assert_eq!(book.keep_off(visit, keep_off).unwrap().told.len(), 2);
        assert_eq!(aftercare_facts(book, visit), 2);
        let incidents = book.incidents().unwrap();
        assert_eq!(incidents.len(), 1);
        assert_eq!(incidents[0].lines.len(), 3);
        assert_eq!(incidents[0].lines[0].told, "a child ran across");
        assert_eq!(incidents[0].happened_utc_ms, at_ms - 1_000);
        let view = book.visit(visit).unwrap();
        assert_eq!(view.return_day, planned);
        assert_eq!(view.people, ["lead", "phone1", "phone2"]);
        let due = book.returns_due("2026-12-31".parse().unwrap()).unwrap();
        assert_eq!(due, [view]);
    });
    // Somebody went there again, whatever arrives first.
    let again = crew.book(1).open_visit(yard, "chinch bug").unwrap();
    for_every_order(&mut crew, &observer, |book| {
        let due = book.returns_due("2026-12-31".parse().unwrap()).unwrap();
        assert_eq!(due, []);
        assert_eq!(book.visits_newest(1, None).unwrap()[0].visit, again);
    });
}

#[test]
fn an_incident_by_a_phone_that_is_not_of_the_crew_is_kept_and_marked() {
    let mut crew = Crew::of(2).unwrap();
    let observer = with_observer(&mut crew).unwrap();
    let yard = yard(crew.book(0)).unwrap();
    crew.swap_all().unwrap();
    let lost = crew.phones[1].book.secret().unwrap().stream();
    crew.book(0).retire(lost, "left the crew").unwrap();
    let visit = crew.book(1).open_visit(yard, "chinch bug").unwrap();
    let at_ms = crew.phones[1].now_ms();
    crew.book(1)
        .file_incident(incident(visit, None, "a dog drank from a puddle", at_ms))
        .unwrap();
    for_every_order(&mut crew, &observer, |book| {
        let incidents = book.incidents().unwrap();
        assert_eq!(incidents.len(), 1);
        assert!(!incidents[0].lines[0].of_the_crew);
        assert_eq!(book.visits_with_questions().unwrap()[0].visit, visit);
    });
}
