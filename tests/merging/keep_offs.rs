//! Keep-offs: no order of arrival may end one earlier than the crew's own word does.

use sward_book::Book;
use sward_book::ids::{KeepOffId, VisitId};
use sward_book::view::keep_off::{KeepOffView, Standing};
use sward_rules::keep_off::{EndedBy, Now, State};
use sward_rules::label::{KeepOffTerms, LabelSays};
use sward_tests::crew::{Crew, amount, judged_visit, label, load, start, yard};
use sward_tests::orders::{Observer, for_every_order, with_observer};

const HOUR_MS: i64 = 3_600_000;

struct Scene {
    crew: Crew,
    observer: Observer,
    visit: VisitId,
    keep_off: KeepOffId,
    finished_ms: i64,
}

/// Phone 1 has treated and finished; everyone knows.
fn treated(wait: &str) -> Scene {
    let mut crew = Crew::of(3).unwrap();
    let observer = with_observer(&mut crew).unwrap();
    let book = crew.book(1);
    let yard = yard(book).unwrap();
    let label = label(book, wait).unwrap();
    let visit = judged_visit(book, yard, label).unwrap();
    let keep_off = start(book, visit, label).unwrap();
    crew.pass_ms(600_000);
    load(crew.book(1), visit, "3.75 lb").unwrap();
    crew.book(1).finish(visit, &[], "").unwrap();
    let finished_ms = crew.phones[1].now_ms();
    crew.swap_all().unwrap();
    Scene {
        crew,
        observer,
        visit,
        keep_off,
        finished_ms,
    }
}

fn waits(hours: &str) -> KeepOffTerms {
    KeepOffTerms {
        until_dry: LabelSays::Value(false),
        wait: LabelSays::Value(amount(hours)),
    }
}

fn view(book: &Book, scene_visit: VisitId, keep_off: KeepOffId) -> KeepOffView {
    book.keep_off(scene_visit, keep_off).unwrap()
}

fn state_at(view: &KeepOffView, utc_ms: i64) -> State {
    match view.standing(Now {
        utc_ms,
        proven: true,
    }) {
        Standing::ByClaims(state) => state,
        Standing::Released => panic!("nobody released it"),
    }
}

#[test]
fn of_different_ends_the_later_holds_and_both_show() {
    let mut s = treated("2 h");
    let (visit, keep_off, finished) = (s.visit, s.keep_off, s.finished_ms);
    s.crew
        .book(1)
        .claim_keep_off(visit, keep_off, waits("6 h"), "label misread")
        .unwrap();
    s.crew
        .book(2)
        .claim_keep_off(visit, keep_off, waits("4 h"), "label misread")
        .unwrap();
    for_every_order(&mut s.crew, &s.observer, |book| {
        let view = view(book, visit, keep_off);
        assert_eq!(view.standing_claims().count(), 2);
        assert_eq!(view.claims.len(), 3);
        let until_utc_ms = finished + 6 * HOUR_MS;
        assert_eq!(
            state_at(&view, finished + 5 * HOUR_MS),
            State::Runs {
                until_utc_ms,
                then_dry: false
            }
        );
        assert_eq!(
            state_at(&view, until_utc_ms),
            State::Ended {
                by: EndedBy::Time,
                at_utc_ms: until_utc_ms
            }
        );
    });
}

#[test]
fn a_shortening_does_not_set_aside_a_confirmation_it_never_saw() {
    let mut s = treated("24 h");
    let (visit, keep_off, finished) = (s.visit, s.keep_off, s.finished_ms);
    s.crew
        .book(1)
        .claim_keep_off(visit, keep_off, waits("4 h"), "the label says 4 h")
        .unwrap();
    s.crew
        .book(2)
        .confirm_keep_off(visit, keep_off, "read the label: 24 h")
        .unwrap();
    for_every_order(&mut s.crew, &s.observer, |book| {
        let view = view(book, visit, keep_off);
        assert_eq!(view.standing_claims().count(), 2);
        assert!(matches!(
            state_at(&view, finished + 23 * HOUR_MS),
            State::Runs { until_utc_ms, then_dry: true } if until_utc_ms == finished + 24 * HOUR_MS
        ));
    });
}

#[test]
fn a_shortening_that_saw_every_claim_holds() {
    let mut s = treated("24 h");
    let (visit, keep_off, finished) = (s.visit, s.keep_off, s.finished_ms);
    s.crew
        .book(2)
        .confirm_keep_off(visit, keep_off, "read the label: 24 h")
        .unwrap();
    s.crew.swap_all().unwrap();
    s.crew
        .book(1)
        .claim_keep_off(visit, keep_off, waits("4 h"), "we both misread")
        .unwrap();
    for_every_order(&mut s.crew, &s.observer, |book| {
        let at_utc_ms = finished + 4 * HOUR_MS;
        assert_eq!(
            state_at(&view(book, visit, keep_off), at_utc_ms),
            State::Ended {
                by: EndedBy::Time,
                at_utc_ms
            }
        );
    });
}

#[test]
fn dry_on_one_phone_does_not_end_what_another_treated_again() {
    let mut s = treated("nothing");
    let (visit, keep_off) = (s.visit, s.keep_off);
    s.crew.pass_ms(2 * HOUR_MS.unsigned_abs());
    let looked = s.crew.phones[2].now_ms();
    s.crew
        .book(2)
        .looked_dry(visit, &[keep_off], looked)
        .unwrap();
    // Phone 0 has not heard of it and treats the same yard again.
    let book = s.crew.book(0);
    let yard = book.visit(visit).unwrap().yard.unwrap();
    let label = book.labels().unwrap()[0].sheet;
    let again = judged_visit(book, yard, label).unwrap();
    let second = start(book, again, label).unwrap();
    load(book, again, "1 lb").unwrap();
    book.finish(again, &[], "").unwrap();
    for_every_order(&mut s.crew, &s.observer, |book| {
        let later = looked + HOUR_MS;
        assert_eq!(
            state_at(&view(book, visit, keep_off), later),
            State::Ended {
                by: EndedBy::Dry,
                at_utc_ms: looked
            }
        );
        assert_eq!(
            state_at(&view(book, again, second), later),
            State::WaitsForDry
        );
    });
}

#[test]
fn dry_does_not_count_for_a_load_that_whoever_looked_did_not_know_of() {
    let mut s = treated("nothing");
    let (visit, keep_off) = (s.visit, s.keep_off);
    load(s.crew.book(1), visit, "0.5 lb").unwrap();
    s.crew.pass_ms(HOUR_MS.unsigned_abs());
    let looked = s.crew.phones[2].now_ms();
    s.crew
        .book(2)
        .looked_dry(visit, &[keep_off], looked)
        .unwrap();
    for_every_order(&mut s.crew, &s.observer, |book| {
        let view = view(book, visit, keep_off);
        assert_eq!(view.dry_not_counted.len(), 1);
        assert_eq!(state_at(&view, looked + HOUR_MS), State::WaitsForDry);
    });
}

#[test]
fn a_keep_off_has_no_end_before_a_finish() {
    let mut crew = Crew::of(2).unwrap();
    let observer = with_observer(&mut crew).unwrap();
    let book = crew.book(1);
    let yard = yard(book).unwrap();
    let label = label(book, "1 h").unwrap();
    let visit = judged_visit(book, yard, label).unwrap();
    let keep_off = start(book, visit, label).unwrap();
    load(book, visit, "1 lb").unwrap();
    for_every_order(&mut crew, &observer, |book| {
        let view = view(book, visit, keep_off);
        assert_eq!(state_at(&view, i64::MAX), State::RunsUntilFinish);
    });
}

#[test]
fn hiding_the_section_hides_no_keep_off() {
    let mut s = treated("24 h");
    let (visit, keep_off, finished) = (s.visit, s.keep_off, s.finished_ms);
    let book = s.crew.book(0);
    let yard = book.visit(visit).unwrap().yard.unwrap();
    let section = book.yard_sheet(yard).unwrap().sections[0].id;
    book.hide_section(yard, section, true).unwrap();
    for_every_order(&mut s.crew, &s.observer, |book| {
        assert!(book.yard_sheet(yard).unwrap().sections[0].hidden);
        let view = view(book, visit, keep_off);
        assert!(view.keeps_off(Now {
            utc_ms: finished + HOUR_MS,
            proven: true
        }));
        assert_eq!(view.outline, sward_tests::crew::lawn());
    });
}

#[test]
fn a_release_does_not_lift_a_claim_that_the_lead_was_not_shown() {
    let mut s = treated("24 h");
    let (visit, keep_off, finished) = (s.visit, s.keep_off, s.finished_ms);
    s.crew
        .book(0)
        .release_keep_off(visit, keep_off, "rained off, soil removed")
        .unwrap();
    s.crew
        .book(2)
        .claim_keep_off(visit, keep_off, waits("48 h"), "children here")
        .unwrap();
    for_every_order(&mut s.crew, &s.observer, |book| {
        let view = view(book, visit, keep_off);
        assert_eq!(view.released_by, None);
        assert!(view.keeps_off(Now {
            utc_ms: finished + 47 * HOUR_MS,
            proven: true
        }));
    });
}

#[test]
fn a_release_that_saw_everything_lifts_it() {
    let mut s = treated("24 h");
    let (visit, keep_off, finished) = (s.visit, s.keep_off, s.finished_ms);
    s.crew
        .book(0)
        .release_keep_off(visit, keep_off, "sod was replaced")
        .unwrap();
    for_every_order(&mut s.crew, &s.observer, |book| {
        let view = view(book, visit, keep_off);
        assert_eq!(
            view.standing(Now {
                utc_ms: finished,
                proven: true
            }),
            Standing::Released
        );
    });
}
