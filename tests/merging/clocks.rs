//! Clocks: one that is off lengthens keep-offs or makes them uncertain, never shortens them.

use sward_book::book::ClockDifference;
use sward_book::env::TimeProof;
use sward_book::ids::{KeepOffId, VisitId};
use sward_book::view::keep_off::Standing;
use sward_rules::keep_off::{Now, State};
use sward_tests::crew::{Crew, judged_visit, label, load, start, yard};
use sward_tests::orders::{Observer, for_every_order, with_observer};

const MINUTE_MS: i64 = 60_000;

fn treated() -> (Crew, Observer, VisitId, KeepOffId) {
    let mut crew = Crew::of(3).unwrap();
    let observer = with_observer(&mut crew).unwrap();
    let book = crew.book(1);
    let yard = yard(book).unwrap();
    let label = label(book, "1 h").unwrap();
    let visit = judged_visit(book, yard, label).unwrap();
    let keep_off = start(book, visit, label).unwrap();
    load(book, visit, "1 lb").unwrap();
    book.finish(visit, &[], "").unwrap();
    crew.swap_all().unwrap();
    (crew, observer, visit, keep_off)
}

fn seen_by(crew: &mut Crew, by: usize, of: usize, ahead_ms: i64) {
    let stream = crew.phones[of].book.secret().unwrap().stream();
    let heads = crew.phones[of].book.heads().unwrap();
    let seq = heads.iter().find(|h| h.stream == stream).unwrap().seq;
    let difference = ClockDifference {
        stream,
        seq,
        ahead_ms_least: Some(ahead_ms),
        ahead_ms_most: Some(ahead_ms),
    };
    assert!(crew.book(by).note_clock(difference).unwrap());
    assert!(
        !crew.book(by).note_clock(difference).unwrap(),
        "nothing new: phones settle"
    );
}

#[test]
fn a_clock_a_little_behind_lengthens_what_its_device_recorded() {
    let (mut crew, observer, visit, keep_off) = treated();
    let applied = crew.phones[1].now_ms();
    seen_by(&mut crew, 0, 1, -5 * MINUTE_MS);
    for_every_order(&mut crew, &observer, |book| {
        let view = book.keep_off(visit, keep_off).unwrap();
        let until_utc_ms = applied + 65 * MINUTE_MS;
        assert_eq!(
            view.standing(Now {
                utc_ms: applied,
                proven: true
            }),
            Standing::ByClaims(State::Runs {
                until_utc_ms,
                then_dry: true
            })
        );
    });
}

#[test]
fn a_clock_far_off_makes_the_time_uncertain_never_over() {
    let (mut crew, observer, visit, keep_off) = treated();
    seen_by(&mut crew, 0, 1, -120 * MINUTE_MS);
    for_every_order(&mut crew, &observer, |book| {
        let view = book.keep_off(visit, keep_off).unwrap();
        let state = view.standing(Now {
            utc_ms: i64::MAX / 2,
            proven: true,
        });
        assert!(
            matches!(state, Standing::ByClaims(State::TimeUncertain { .. })),
            "{state:?}"
        );
    });
}

#[test]
fn a_clock_in_2035_does_not_poison_the_order() {
    let (mut crew, observer, visit, _) = treated();
    let far = 2_051_222_400_000;
    crew.phones[2].env.set_wall_clock(far);
    let yard = crew.phones[2].book.visit(visit).unwrap().yard.unwrap();
    crew.book(2)
        .set_yard(yard, "note", "written in 2035")
        .unwrap();
    crew.swap_all().unwrap();
    // What comes after it in the order is written by a phone whose clock is right.
    crew.book(0)
        .set_yard(yard, "note", "written after")
        .unwrap();
    for_every_order(&mut crew, &observer, |book| {
        assert_eq!(book.yard_sheet(yard).unwrap().note, "written after");
    });
}

#[test]
fn after_a_reboot_the_time_is_uncertain_until_someone_confirms_it() {
    let (mut crew, _observer, visit, keep_off) = treated();
    let phone = &mut crew.phones[0];
    phone.env.set_vouched(None);
    assert_eq!(phone.book.time_proof().unwrap(), TimeProof::Unproven);
    phone.book.confirm_time(TimeProof::Person).unwrap();
    assert_eq!(phone.book.time_proof().unwrap(), TimeProof::Person);
    phone.env.pass_ms(3 * 3_600_000);
    assert_eq!(phone.book.time_proof().unwrap(), TimeProof::Person);
    let over = |book: &sward_book::Book| {
        let standing = book
            .keep_off(visit, keep_off)
            .unwrap()
            .standing(book.now().unwrap());
        !matches!(standing, Standing::ByClaims(State::TimeUncertain { .. }))
    };
    assert!(over(&phone.book));
    phone.env.reboot();
    assert_eq!(phone.book.time_proof().unwrap(), TimeProof::Unproven);
    assert!(!over(&phone.book));
    phone.book.confirm_time(TimeProof::Network).unwrap();
    assert!(over(&phone.book));
    // A jump of the wall clock without a reboot proves nothing either.
    let now_ms = phone.now_ms();
    phone.env.set_wall_clock(now_ms + 40_000);
    assert!(!over(&phone.book));
}

#[test]
fn a_phone_whose_own_clock_was_seen_far_ahead_shows_nothing_as_over() {
    let (mut crew, _observer, visit, keep_off) = treated();
    crew.pass_ms(3 * 3_600_000);
    assert!(crew.phones[2].book.now().unwrap().proven);
    seen_by(&mut crew, 0, 2, 60 * MINUTE_MS);
    crew.swap_all().unwrap();
    let book = &crew.phones[2].book;
    assert!(!book.now().unwrap().proven);
    let standing = book
        .keep_off(visit, keep_off)
        .unwrap()
        .standing(book.now().unwrap());
    assert!(
        matches!(standing, Standing::ByClaims(State::TimeUncertain { .. })),
        "{standing:?}"
    );
}
