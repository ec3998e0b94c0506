//! The exchange between phones in memory: equal in the end, whatever was held and wherever the
//! line broke; and what a hostile phone can and cannot do.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use proptest::prelude::*;
use sward_book::BookError;
use sward_book::env::TimeProof;
use sward_book::fact::{Fact, TimeConfirmed};
use sward_book::testing::TestEnv;
use sward_crew::exchange::{Exchange, Side};
use sward_crew::testing::{Line, Phone};
use sward_crew::{CHUNK_BYTES_MAX, CrewError, Log, Standing};

fn exchange(a: &mut Phone, b: &mut Phone) {
    let mut line = Line::between(a, b).unwrap();
    line.run_out().unwrap();
    assert!(line.is_done());
}

#[test]
fn both_bring_each_other_what_is_new() {
    let (mut a, mut b) = Phone::crew_of_two();
    a.work(30);
    b.work(20);
    let mut line = Line::between(&mut a, &mut b).unwrap();
    line.run_out().unwrap();
    assert!(line.is_done());
    let [at_a, at_b] = line.outcomes();
    assert_eq!(
        (at_a.new_entries, at_a.known_entries, at_a.given_entries),
        (20, 0, 30)
    );
    assert_eq!(
        (at_b.new_entries, at_b.known_entries, at_b.given_entries),
        (30, 0, 20)
    );
    assert_eq!(at_a.peer_holds.len(), 1);
    assert_eq!(at_a.peer_holds[0].seq, 32);
    assert_eq!(a.digest(), b.digest());
}

#[test]
fn nothing_new_takes_one_round_trip_of_little() {
    let (mut a, mut b) = Phone::crew_of_two();
    for work in [0, 1000] {
        a.work(work);
        exchange(&mut a, &mut b);
        let mut line = Line::between(&mut a, &mut b).unwrap();
        line.run_out().unwrap();
        assert!(line.is_done());
        assert_eq!(line.traffic().messages, [1, 1]);
        assert!(
            line.traffic().bytes.iter().all(|bytes| *bytes < 200),
            "{:?}",
            line.traffic()
        );
        assert_eq!(line.outcomes()[0].peer_holds.len(), 2);
    }
}

#[test]
fn what_is_written_while_greeting_waits_for_the_next_exchange() {
    let (mut a, mut b) = Phone::crew_of_two();
    let (a_stream, b_stream) = (a.stream(), b.stream());
    let env = TestEnv::new(3);
    let mut opens = Exchange::new(Side::Opens, a_stream, b_stream, &a.log, env.as_ref()).unwrap();
    let mut answers =
        Exchange::new(Side::Answers, b_stream, a_stream, &b.log, env.as_ref()).unwrap();
    let hello = opens.begin(a.stamp(), &a.log).unwrap();
    a.work(1);
    let answer = answers
        .on_message(&hello[0], b.stamp(), &mut b.log)
        .unwrap();
    assert!(
        opens
            .on_message(&answer[0], a.stamp(), &mut a.log)
            .unwrap()
            .is_empty()
    );
    assert!(opens.is_done() && answers.is_done());
    // It does not count as held by the other.
    assert!(opens.outcome().peer_holds.is_empty());
    exchange(&mut a, &mut b);
    assert_eq!(a.digest(), b.digest());
}

#[test]
fn one_chunk_at_most_is_under_way() {
    let (mut a, mut b) = Phone::crew_of_two();
    a.work(4000);
    b.work(2000);
    let mut line = Line::between(&mut a, &mut b).unwrap();
    line.run_out().unwrap();
    assert!(line.is_done());
    let most = line.traffic().in_flight_bytes_most;
    assert!(
        most > CHUNK_BYTES_MAX / 2,
        "the log is too small to show anything: {most}"
    );
    assert!(most < CHUNK_BYTES_MAX + 16 * 1024, "{most}");
    assert_eq!(a.digest(), b.digest());
}

#[test]
fn a_phone_that_the_other_does_not_know_yet_brings_its_own_admission() {
    for newcomer_opens in [true, false] {
        let (mut lead, mut second) = Phone::crew_of_two();
        let mut third = Phone::joiner(3);
        lead.admit(&third);
        let (file, _) = lead.lock_for(&[third.keys()]).unwrap();
        third.take(&file).unwrap();
        second.work(3);
        third.work(3);
        assert_eq!(
            second.log.standing(third.stream()).unwrap(),
            Standing::Unknown
        );
        if newcomer_opens {
            exchange(&mut third, &mut second);
        } else {
            exchange(&mut second, &mut third);
        }
        assert_eq!(
            second.digest(),
            third.digest(),
            "newcomer opens: {newcomer_opens}"
        );
    }
}

#[test]
fn the_retired_and_the_unknown_bring_and_get_nothing() {
    let (mut lead, mut second) = Phone::crew_of_two();
    lead.retire(second.stream(), None);
    lead.work(5);
    second.work(4);
    let mut line = Line::between(&mut second, &mut lead).unwrap();
    line.run_out().unwrap();
    assert!(line.is_done());
    let [at_second, at_lead] = line.outcomes();
    assert_eq!(at_second.new_entries, 0);
    assert_eq!(at_lead.new_entries, 4);
    assert_eq!(at_lead.peer_standing, Some(Standing::Retired));
}

#[test]
fn two_who_do_not_know_each_other_end_with_nothing() {
    let (mut lead, mut second) = Phone::crew_of_two();
    let mut third = Phone::joiner(3);
    let mut fourth = Phone::joiner(4);
    lead.admit(&third);
    let (file, _) = lead.lock_for(&[third.keys()]).unwrap();
    third.take(&file).unwrap();
    // The second phone is no lead, but this log does not look at that.
    second.admit(&fourth);
    let (file, _) = second.lock_for(&[fourth.keys()]).unwrap();
    fourth.take(&file).unwrap();
    let before = (third.log.clone(), fourth.log.clone());
    exchange(&mut third, &mut fourth);
    assert!(before == (third.log, fourth.log));
}

#[test]
fn forks_are_told_and_carried() {
    let (mut a, mut b) = Phone::crew_of_two();
    a.work(10);
    exchange(&mut a, &mut b);
    // A copy of the phone goes on by itself.
    let mut copy = a.log.clone();
    a.work(7);
    std::mem::swap(&mut a.log, &mut copy);
    a.write(vec![proven(), proven()]);
    a.work(3);
    exchange(&mut a, &mut b);
    std::mem::swap(&mut a.log, &mut copy);
    exchange(&mut b, &mut a);
    let heads = a.log.heads().unwrap();
    assert_eq!(heads.iter().filter(|h| h.stream == a.stream()).count(), 2);
    assert_eq!(a.digest(), b.digest());
}

fn proven() -> Fact {
    Fact::TimeConfirmed(TimeConfirmed {
        how: TimeProof::Person,
    })
}

#[test]
fn another_crew_is_told() {
    let (mut a, _) = Phone::crew_of_two();
    let mut other = Phone::founder(7);
    let mut line = Line::between(&mut a, &mut other).unwrap();
    assert!(matches!(line.run_out(), Err(CrewError::PeerOfAnotherCrew)));
    let newcomer = Phone::joiner(8);
    let none = Exchange::new(
        Side::Opens,
        newcomer.stream(),
        a.stream(),
        &newcomer.log,
        TestEnv::new(1).as_ref(),
    );
    assert!(matches!(none, Err(CrewError::NoCrew)));
}

#[test]
fn clocks_are_bracketed() {
    let (mut a, mut b) = Phone::crew_of_two();
    a.work(1);
    b.work(1);
    let ahead = 90_000;
    b.env.set_wall_clock(a.stamp().utc_ms + ahead);
    let mut line = Line::between(&mut a, &mut b).unwrap();
    line.run_out().unwrap();
    let [at_a, at_b] = line.outcomes().map(|o| o.peer_clock.unwrap());
    assert_eq!(
        (at_a.ahead_ms_least, at_a.ahead_ms_most),
        (ahead, Some(ahead))
    );
    assert_eq!(
        (at_b.ahead_ms_least, at_b.ahead_ms_most),
        (-ahead, Some(-ahead))
    );
    assert_eq!(at_a.told.proof, TimeProof::Network);
}

#[test]
fn a_full_disk_ends_it_and_the_next_one_goes_on() {
    let (mut a, mut b) = Phone::crew_of_two();
    a.work(3000);
    b.log.fill_up_after(Some(1));
    let mut line = Line::between(&mut a, &mut b).unwrap();
    assert!(matches!(
        line.run_out(),
        Err(CrewError::Book(BookError::DiskFull))
    ));
    let [at_a, at_b] = line.outcomes();
    assert!(at_b.new_entries > 0);
    // Only what is on disk counts as given.
    assert_eq!(at_a.given_entries, at_b.new_entries);
    b.log.fill_up_after(None);
    exchange(&mut a, &mut b);
    assert_eq!(a.digest(), b.digest());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    /// Three phones work, meet in any order and break off anywhere; a last round makes them equal.
    #[test]
    fn breaks_lose_nothing(
        steps in prop::collection::vec((0_usize..3, 1_usize..3, 0_usize..40, 0_usize..14, any::<u64>()), 1..14),
    ) {
        let (lead, second) = Phone::crew_of_two();
        let mut phones = [lead, second, Phone::joiner(3)];
        let [lead, second, third] = &mut phones;
        lead.admit(third);
        let (file, _) = lead.lock_for(&[third.keys(), second.keys()]).unwrap();
        third.take(&file).unwrap();
        second.take(&file).unwrap();
        let mut written = 0;
        for (who, distance, work, messages, order) in steps {
            phones[who].work(work);
            written += work;
            let mut bits = order;
            let [a, b] = phones.get_disjoint_mut([who, (who + distance) % 3]).unwrap();
            let mut line = Line::between(a, b).unwrap();
            line.run(messages, || { bits = bits.rotate_left(1); bits & 1 == 1 }).unwrap();
        }
        for (a, b) in [(0, 1), (1, 2), (2, 0), (0, 1)] {
            let [a, b] = phones.get_disjoint_mut([a, b]).unwrap();
            exchange(a, b);
        }
        // Founding, two requests, two admissions.
        prop_assert_eq!(phones[0].log.len(), 5 + written);
        prop_assert_eq!(phones[0].digest(), phones[1].digest());
        prop_assert_eq!(phones[0].digest(), phones[2].digest());
    }
}
