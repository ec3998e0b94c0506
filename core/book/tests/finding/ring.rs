//! When a device rings, by its own clock, and what a time told from outside does to it. That no
//! call may come early is the promise of this book; no source is needed for it.

use sward_book::book::{ClockDifference, Ring, RingFor, TimeHeard};
use sward_book::env::{Env as _, TimeProof};
use sward_book::ids::{KeepOffId, VisitId};
use sward_book::refusal::{Refusal, StoreRefusal};
use sward_book::{Book, BookError};

use crate::scene::{HOUR_MS, Scene};

const MINUTE_MS: i64 = 60_000;

fn ring(book: &Book, visit: VisitId, keep_off: KeepOffId) -> Option<Ring> {
    let view = book.keep_off(visit, keep_off).unwrap();
    book.ring_for(&view, book.now().unwrap()).unwrap()
}

fn keeps_off(book: &Book, visit: VisitId, keep_off: KeepOffId) -> bool {
    let view = book.keep_off(visit, keep_off).unwrap();
    view.keeps_off(book.now().unwrap())
}

/// A treatment that was just finished: four hours, then a look.
fn just_treated() -> (Scene, VisitId, KeepOffId, i64) {
    let mut scene = Scene::new();
    let label = scene.label("Granule A");
    let yard = scene.yard("Corner lot", "1 Test Lane");
    let (visit, keep_off) = scene.treated(yard, label);
    let finished = scene.env.clock().utc_ms;
    (scene, visit, keep_off, finished)
}

#[test]
fn it_rings_for_a_look_when_the_wait_is_over_and_not_again() {
    let (mut scene, visit, keep_off, finished) = just_treated();
    let expected = Ring {
        at_device_utc_ms: finished + 4 * HOUR_MS,
        what: RingFor::Look,
    };
    assert_eq!(ring(&scene.book, visit, keep_off), Some(expected));
    scene.env.set_wall_clock(expected.at_device_utc_ms);
    assert_eq!(
        ring(&scene.book, visit, keep_off),
        None,
        "a person has to act"
    );
    assert!(keeps_off(&scene.book, visit, keep_off));
    scene
        .book
        .looked_dry(visit, &[keep_off], expected.at_device_utc_ms)
        .unwrap();
    assert!(!keeps_off(&scene.book, visit, keep_off));
}

#[test]
fn a_look_beforehand_leaves_the_wait_to_ring_for() {
    let (mut scene, visit, keep_off, finished) = just_treated();
    scene.env.pass_ms(60 * 60_000);
    let looked = scene.env.clock().utc_ms;
    scene.book.looked_dry(visit, &[keep_off], looked).unwrap();
    let ring = ring(&scene.book, visit, keep_off).unwrap();
    assert_eq!(ring.what, RingFor::WaitOver);
    scene.env.set_wall_clock(finished + 4 * HOUR_MS - 1);
    assert!(keeps_off(&scene.book, visit, keep_off));
    scene.env.set_wall_clock(ring.at_device_utc_ms);
    assert!(!keeps_off(&scene.book, visit, keep_off));
}

#[test]
fn a_clock_that_is_ahead_rings_by_so_much_later() {
    let (mut scene, visit, keep_off, _) = just_treated();
    let before = ring(&scene.book, visit, keep_off).unwrap();
    let own = scene.book.secret().unwrap().stream();
    let seen = ClockDifference {
        stream: own,
        seq: 10_000,
        ahead_ms_least: Some(5 * MINUTE_MS),
        ahead_ms_most: Some(5 * MINUTE_MS),
    };
    assert!(scene.book.note_clock(seen).unwrap());
    let after = ring(&scene.book, visit, keep_off).unwrap();
    assert!(
        after.at_device_utc_ms >= before.at_device_utc_ms + 5 * MINUTE_MS,
        "{before:?} {after:?}"
    );
    // One moment before the call the wait still runs; at the call it does not.
    scene.env.set_wall_clock(after.at_device_utc_ms - 1);
    assert!(ring(&scene.book, visit, keep_off).is_some());
    scene.env.set_wall_clock(after.at_device_utc_ms);
    assert_eq!(ring(&scene.book, visit, keep_off), None);
}

#[test]
fn a_time_that_nothing_proves_rings_to_be_confirmed() {
    let (scene, visit, keep_off, finished) = just_treated();
    scene.env.set_vouched(None);
    let expected = Ring {
        at_device_utc_ms: finished + 4 * HOUR_MS,
        what: RingFor::ConfirmTime,
    };
    assert_eq!(ring(&scene.book, visit, keep_off), Some(expected));
    scene.env.set_wall_clock(finished + 90 * HOUR_MS);
    assert!(keeps_off(&scene.book, visit, keep_off), "never over");
}

#[test]
fn a_time_told_by_the_network_proves_a_clock_that_fits_and_no_other() {
    let (mut scene, visit, keep_off, _) = just_treated();
    scene.env.set_vouched(None);
    let now = scene.env.clock();
    let told = |book: &mut Book, utc_ms| {
        book.hear_time(TimeProof::Network, utc_ms, now.since_boot_ms)
            .unwrap()
    };
    let entries = scene.book.entry_count().unwrap();
    assert_eq!(
        told(&mut scene.book, now.utc_ms + 20_000),
        TimeHeard::Confirmed
    );
    assert!(scene.book.now().unwrap().proven);
    let confirmed = scene.book.entry_count().unwrap();
    assert_eq!(confirmed, entries + 1, "it is a fact");
    assert_eq!(
        told(&mut scene.book, now.utc_ms),
        TimeHeard::ConfirmedBefore
    );
    assert_eq!(scene.book.entry_count().unwrap(), confirmed);

    assert_eq!(
        told(&mut scene.book, now.utc_ms + 31_000),
        TimeHeard::Differs
    );
    assert!(!scene.book.now().unwrap().proven);
    assert_eq!(
        ring(&scene.book, visit, keep_off).map(|r| r.what),
        Some(RingFor::ConfirmTime)
    );
}

#[test]
fn a_time_counts_from_the_moment_it_was_right() {
    let (mut scene, ..) = just_treated();
    scene.env.set_vouched(None);
    let told = scene.env.clock();
    scene.env.pass_ms(3 * 3_600_000);
    let heard = scene
        .book
        .hear_time(TimeProof::Network, told.utc_ms, told.since_boot_ms);
    assert_eq!(heard.unwrap(), TimeHeard::Confirmed);
    scene.env.reboot();
    assert!(!scene.book.now().unwrap().proven, "until it is told anew");
}

#[test]
fn a_time_from_before_this_start_is_refused() {
    let (mut scene, ..) = just_treated();
    scene.env.set_vouched(None);
    let told = scene.env.clock();
    scene.env.reboot();
    let heard = scene
        .book
        .hear_time(TimeProof::Network, told.utc_ms, told.since_boot_ms);
    assert!(
        matches!(
            heard,
            Err(BookError::Refused(Refusal::Store(
                StoreRefusal::TimeToldToCome
            )))
        ),
        "{heard:?}"
    );
}
