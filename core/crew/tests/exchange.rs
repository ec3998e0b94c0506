//! The exchange between phones in memory: equal in the end, whatever was held and wherever the
//! line broke; and what a hostile phone can and cannot do.

use proptest::prelude::*;
use sward_book::BookError;
use sward_book::env::TimeProof;
use sward_book::fact::{Fact, TimeConfirmed};
use sward_book::ids::Hash;
use sward_book::log::digest_of_heads;
use sward_crew::exchange::{Exchange, MESSAGE_BYTES_MAX, Side};
use sward_crew::testing::{Line, Phone, TestEnv};
use sward_crew::{CHUNK_BYTES_MAX, CrewError, Log, Standing};

fn crew_of_two() -> (Phone, Phone) {
    let mut lead = Phone::founder(1);
    let mut second = Phone::joiner(2);
    lead.admit(&second);
    let (file, _) = lead.lock_for(&[second.keys()]).unwrap();
    second.take(&file).unwrap();
    (lead, second)
}

fn digest(phone: &Phone) -> Hash {
    digest_of_heads(&phone.log.heads().unwrap())
}

fn exchange(a: &mut Phone, b: &mut Phone) {
    let mut line = Line::between(a, b).unwrap();
    line.run_out().unwrap();
    assert!(line.is_done());
}

#[test]
fn both_bring_each_other_what_is_new() {
    let (mut a, mut b) = crew_of_two();
    a.work(30);
    b.work(20);
    let mut line = Line::between(&mut a, &mut b).unwrap();
    line.run_out().unwrap();
    assert!(line.is_done());
    let [at_a, at_b] = line.outcomes();
    assert_eq!((at_a.new_entries, at_a.known_entries, at_a.given_entries), (20, 0, 30));
    assert_eq!((at_b.new_entries, at_b.known_entries, at_b.given_entries), (30, 0, 20));
    assert_eq!(at_a.peer_holds.len(), 1);
    assert_eq!(at_a.peer_holds[0].seq, 32);
    assert_eq!(digest(&a), digest(&b));
}

#[test]
fn nothing_new_takes_one_round_trip_of_little() {
    let (mut a, mut b) = crew_of_two();
    for work in [0, 1000] {
        a.work(work);
        exchange(&mut a, &mut b);
        let mut line = Line::between(&mut a, &mut b).unwrap();
        line.run_out().unwrap();
        assert!(line.is_done());
        assert_eq!(line.traffic().messages, [1, 1]);
        assert!(line.traffic().bytes.iter().all(|bytes| *bytes < 200), "{:?}", line.traffic());
        assert_eq!(line.outcomes()[0].peer_holds.len(), 2);
    }
}

#[test]
fn one_chunk_at_most_is_under_way() {
    let (mut a, mut b) = crew_of_two();
    a.work(4000);
    b.work(2000);
    let mut line = Line::between(&mut a, &mut b).unwrap();
    line.run_out().unwrap();
    assert!(line.is_done());
    let most = line.traffic().in_flight_bytes_most;
    assert!(most > CHUNK_BYTES_MAX / 2, "the log is too small to show anything: {most}");
    assert!(most < CHUNK_BYTES_MAX + 16 * 1024, "{most}");
    assert_eq!(digest(&a), digest(&b));
}

#[test]
fn a_phone_that_the_other_does_not_know_yet_brings_its_own_admission() {
    for newcomer_opens in [true, false] {
        let (mut lead, mut second) = crew_of_two();
        let mut third = Phone::joiner(3);
        lead.admit(&third);
        let (file, _) = lead.lock_for(&[third.keys()]).unwrap();
        third.take(&file).unwrap();
        second.work(3);
        third.work(3);
        assert_eq!(second.log.standing(third.stream()).unwrap(), Standing::Unknown);
        if newcomer_opens {
            exchange(&mut third, &mut second);
        } else {
            exchange(&mut second, &mut third);
        }
        assert_eq!(digest(&second), digest(&third), "newcomer opens: {newcomer_opens}");
    }
}

#[test]
fn the_retired_and_the_unknown_bring_and_get_nothing() {
    let (mut lead, mut second) = crew_of_two();
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
    let (mut lead, mut second) = crew_of_two();
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
    let (mut a, mut b) = crew_of_two();
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
    assert_eq!(digest(&a), digest(&b));
}

fn proven() -> Fact {
    Fact::TimeConfirmed(TimeConfirmed { how: TimeProof::Person })
}

#[test]
fn another_crew_is_told() {
    let (mut a, _) = crew_of_two();
    let mut other = Phone::founder(7);
    let mut line = Line::between(&mut a, &mut other).unwrap();
    assert!(matches!(line.run_out(), Err(CrewError::PeerOfAnotherCrew)));
    let newcomer = Phone::joiner(8);
    let none = Exchange::new(
        Side::Opens,
        newcomer.stream(),
        a.stream(),
        &newcomer.log,
        &TestEnv::new(1),
    );
    assert!(matches!(none, Err(CrewError::NoCrew)));
}

#[test]
fn clocks_are_bracketed() {
    let (mut a, mut b) = crew_of_two();
    a.work(1);
    b.work(1);
    let ahead = 90_000;
    b.env.set_utc_ms(a.env.stamp().utc_ms + ahead);
    let mut line = Line::between(&mut a, &mut b).unwrap();
    line.run_out().unwrap();
    let [at_a, at_b] = line.outcomes().map(|o| o.peer_clock.unwrap());
    assert_eq!((at_a.ahead_ms_least, at_a.ahead_ms_most), (ahead, Some(ahead)));
    assert_eq!((at_b.ahead_ms_least, at_b.ahead_ms_most), (-ahead, Some(-ahead)));
    assert_eq!(at_a.told.proof, TimeProof::Network);
}

/// One end of an exchange, fed by hand.
struct End<'a> {
    exchange: Exchange,
    phone: &'a mut Phone,
}

impl<'a> End<'a> {
    fn new(side: Side, phone: &'a mut Phone, peer: &Phone) -> Self {
        let env = TestEnv::new(3);
        let exchange =
            Exchange::new(side, phone.stream(), peer.stream(), &phone.log, &env).unwrap();
        Self { exchange, phone }
    }

    fn begin(&mut self) -> Vec<Vec<u8>> {
        self.exchange.begin(self.phone.env.stamp(), &self.phone.log).unwrap()
    }

    fn hear(&mut self, message: &[u8]) -> Result<Vec<Vec<u8>>, CrewError> {
        self.exchange.on_message(message, self.phone.env.stamp(), &mut self.phone.log)
    }
}

/// Every message of a whole exchange, from the one that opens and from the one that answers.
fn recorded() -> (Phone, Phone, [Vec<Vec<u8>>; 2]) {
    let (mut a, mut b) = crew_of_two();
    a.work(3);
    b.work(3);
    let before = (a.log.clone(), b.log.clone());
    let (a_stream, b_stream) = (a.stream(), b.stream());
    let env = TestEnv::new(3);
    let mut first = Exchange::new(Side::Opens, a_stream, b_stream, &a.log, &env).unwrap();
    let mut second = Exchange::new(Side::Answers, b_stream, a_stream, &b.log, &env).unwrap();
    let mut said = [first.begin(a.env.stamp(), &a.log).unwrap(), Vec::new()];
    let mut heard = [0, 0];
    loop {
        if let Some(message) = said[0].get(heard[0]).cloned() {
            heard[0] += 1;
            said[1].extend(second.on_message(&message, b.env.stamp(), &mut b.log).unwrap());
        } else if let Some(message) = said[1].get(heard[1]).cloned() {
            heard[1] += 1;
            said[0].extend(first.on_message(&message, a.env.stamp(), &mut a.log).unwrap());
        } else {
            break;
        }
    }
    assert!(first.is_done() && second.is_done());
    (a.log, b.log) = before;
    (a, b, said)
}

#[test]
fn messages_out_of_turn_end_the_exchange() {
    let (a, mut b, said) = recorded();
    // Anything but a greeting first; and any message of the course twice in a row, or left out.
    let [from_a, _] = said;
    assert!(from_a.len() >= 5, "a course with heads, want, entries, stored, done: {}", from_a.len());
    let untouched = b.log.clone();
    for first in 1..from_a.len() {
        b.log = untouched.clone();
        let mut end = End::new(Side::Answers, &mut b, &a);
        assert!(matches!(end.hear(&from_a[first]), Err(CrewError::Peer(_))), "message {first}");
        assert!(matches!(end.hear(&from_a[0]), Err(CrewError::Ended)));
        assert!(b.log == untouched);
    }
    for twice in 0..from_a.len() {
        b.log = untouched.clone();
        let mut end = End::new(Side::Answers, &mut b, &a);
        for message in &from_a[..=twice] {
            end.hear(message).unwrap();
        }
        let told = end.hear(&from_a[twice]).unwrap_err();
        assert!(matches!(told, CrewError::Peer(_) | CrewError::Ended), "message {twice}: {told}");
    }
}

#[test]
fn own_messages_sent_back_are_refused() {
    let (mut a, b, _) = recorded();
    let before = a.log.clone();
    let mut end = End::new(Side::Opens, &mut a, &b);
    let own = end.begin();
    assert!(matches!(end.hear(&own[0]), Err(CrewError::Peer(_))));
    assert!(a.log == before);
}

#[test]
fn entries_that_were_not_asked_for_are_not_stored() {
    let (mut a, mut b, said) = recorded();
    let untouched = b.log.clone();
    let [from_a, _] = said;
    // In place of what was asked for: the phone's own entry of a third stream, valid in itself.
    let stranger = Phone::joiner(5);
    let foreign: Vec<u8> = stranger.log.entries().next().unwrap().wire().to_vec();
    let gap = {
        a.work(2);
        let heads = a.log.heads().unwrap();
        let head = heads.iter().find(|h| h.stream == a.stream()).unwrap();
        a.log.entries().find(|e| e.hash() == head.hash).unwrap().wire().to_vec()
    };
    for wires in [vec![foreign], vec![gap], Vec::new()] {
        b.log = untouched.clone();
        let mut end = End::new(Side::Answers, &mut b, &a);
        end.hear(&from_a[0]).unwrap();
        end.hear(&from_a[1]).unwrap();
        assert!(matches!(end.hear(&entries(&wires)), Err(CrewError::Peer(_))), "{}", wires.len());
        assert!(b.log == untouched);
    }
}

/// An entries message, encoded by hand after the module's description.
fn entries(wires: &[Vec<u8>]) -> Vec<u8> {
    let mut message = Vec::new();
    let mut e = minicbor::Encoder::new(&mut message);
    e.array(2).unwrap().u64(1).unwrap().array(2).unwrap().u64(4).unwrap().array(1).unwrap();
    e.array(wires.len() as u64).unwrap();
    for wire in wires {
        e.bytes(wire).unwrap();
    }
    message
}

#[test]
fn an_altered_entry_refuses_its_stream_and_the_exchange_goes_on() {
    let (mut a, mut b) = crew_of_two();
    let mut third = Phone::joiner(3);
    third.work(2);
    a.admit(&third);
    let theirs: Vec<Vec<u8>> = {
        let mut all: Vec<_> = third.log.entries().collect();
        all.sort_by_key(|e| e.body().seq);
        all.iter().map(|e| e.wire().to_vec()).collect()
    };
    a.log.take_in(&theirs, third.stream()).unwrap();
    let heads = a.log.heads().unwrap();
    let mut end = End::new(Side::Answers, &mut b, &a);
    let mut opens = End::new(Side::Opens, &mut a, &third);
    opens.exchange = Exchange::new(
        Side::Opens,
        opens.phone.stream(),
        end.phone.stream(),
        &opens.phone.log,
        &TestEnv::new(3),
    )
    .unwrap();
    let mut to_b: std::collections::VecDeque<Vec<u8>> = opens.begin().into();
    let mut altered = false;
    while let Some(mut message) = to_b.pop_front() {
        let last = message.len() - 1;
        if message == entries(&theirs) {
            message[last] ^= 1;
            altered = true;
        }
        for answer in end.hear(&message).unwrap() {
            to_b.extend(opens.hear(&answer).unwrap());
        }
    }
    assert!(altered);
    assert!(end.exchange.is_done() && opens.exchange.is_done());
    let refused = &end.exchange.outcome().refused;
    assert_eq!(refused.len(), 1);
    assert!(matches!(refused[0], (s, BookError::BadSignature) if s == third.stream()));
    // The other stream came through.
    let lead = heads.iter().find(|h| h.stream == opens.phone.stream()).unwrap();
    assert!(end.phone.log.holds(lead.hash).unwrap());
}

#[test]
fn a_newer_version_is_refused_with_nothing_changed() {
    let (a, mut b, said) = recorded();
    let before = b.log.clone();
    for (n, message) in said[0].iter().enumerate() {
        b.log = before.clone();
        let mut end = End::new(Side::Answers, &mut b, &a);
        for earlier in &said[0][..n] {
            end.hear(earlier).unwrap();
        }
        let held = end.phone.log.clone();
        let mut newer = message.clone();
        assert_eq!(newer[1], 1, "the version is the second byte");
        newer[1] = 2;
        let told = end.hear(&newer).unwrap_err();
        let fits = matches!(&told, CrewError::Book(BookError::Newer { found: 2, known: 1, .. }));
        assert!(fits, "message {n}: {told}");
        assert!(end.phone.log == held);
    }
}

#[test]
fn too_long_a_message_is_refused() {
    let (a, mut b, _) = recorded();
    let mut end = End::new(Side::Answers, &mut b, &a);
    assert!(matches!(end.hear(&vec![0x82; MESSAGE_BYTES_MAX + 1]), Err(CrewError::Peer(_))));
}

#[test]
fn a_full_disk_ends_it_and_the_next_one_goes_on() {
    let (mut a, mut b) = crew_of_two();
    a.work(3000);
    b.log.fill_up_after(Some(1));
    let mut line = Line::between(&mut a, &mut b).unwrap();
    assert!(matches!(line.run_out(), Err(CrewError::Book(BookError::DiskFull))));
    let [at_a, at_b] = line.outcomes();
    assert!(at_b.new_entries > 0);
    // Only what is on disk counts as given.
    assert_eq!(at_a.given_entries, at_b.new_entries);
    b.log.fill_up_after(None);
    exchange(&mut a, &mut b);
    assert_eq!(digest(&a), digest(&b));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    /// Three phones work, meet in any order and break off anywhere; a last round makes them equal.
    #[test]
    fn breaks_lose_nothing(
        steps in prop::collection::vec((0_usize..3, 1_usize..3, 0_usize..40, 0_usize..14, any::<u64>()), 1..14),
    ) {
        let (lead, second) = crew_of_two();
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
        prop_assert_eq!(digest(&phones[0]), digest(&phones[1]));
        prop_assert_eq!(digest(&phones[0]), digest(&phones[2]));
    }

    /// Noise in place of any message, and any message with one bit changed: refused, or taken as
    /// what it says, never a panic; and what is stored is only what the other phone had signed.
    #[test]
    fn noise_stores_nothing(
        at: prop::sample::Index,
        bit: prop::sample::Index,
        noise in prop::option::of(prop::collection::vec(any::<u8>(), 0..300)),
    ) {
        let (a, mut b, said) = recorded();
        let n = at.index(said[0].len());
        let mut end = End::new(Side::Answers, &mut b, &a);
        for earlier in &said[0][..n] {
            end.hear(earlier).unwrap();
        }
        let mut message = said[0][n].clone();
        match noise {
            Some(noise) => message = noise,
            None => {
                let bit = bit.index(message.len() * 8);
                message[bit / 8] ^= 1 << (bit % 8);
            }
        }
        let _ = end.hear(&message);
        let signed: Vec<Hash> = a.log.entries().map(sward_book::log::Entry::hash).collect();
        let own = end.phone.stream();
        prop_assert!(end.phone.log.entries().all(|e| e.body().stream == own || signed.contains(&e.hash())));
    }
}
