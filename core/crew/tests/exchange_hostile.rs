//! The exchange against a phone that does not keep to its course: it ends with a word, and
//! nothing is stored that was not asked for.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use proptest::prelude::*;
use sward_book::BookError;
use sward_book::ids::Hash;
use sward_book::testing::TestEnv;
use sward_crew::exchange::{Exchange, MESSAGE_BYTES_MAX, Side};
use sward_crew::testing::Phone;
use sward_crew::{CrewError, Log};

/// One end of an exchange, fed by hand.
struct End<'a> {
    exchange: Exchange,
    phone: &'a mut Phone,
}

impl<'a> End<'a> {
    fn new(side: Side, phone: &'a mut Phone, peer: &Phone) -> Self {
        let env = TestEnv::new(3);
        let exchange = Exchange::new(
            side,
            phone.stream(),
            peer.stream(),
            &phone.log,
            env.as_ref(),
        )
        .unwrap();
        Self { exchange, phone }
    }

    fn begin(&mut self) -> Vec<Vec<u8>> {
        self.exchange
            .begin(self.phone.stamp(), &self.phone.log)
            .unwrap()
    }

    fn hear(&mut self, message: &[u8]) -> Result<Vec<Vec<u8>>, CrewError> {
        self.exchange
            .on_message(message, self.phone.stamp(), &mut self.phone.log)
    }
}

/// Every message of a whole exchange, from the one that opens and from the one that answers.
fn recorded() -> (Phone, Phone, [Vec<Vec<u8>>; 2]) {
    let (mut a, mut b) = Phone::crew_of_two();
    a.work(3);
    b.work(3);
    let before = (a.log.clone(), b.log.clone());
    let (a_stream, b_stream) = (a.stream(), b.stream());
    let env = TestEnv::new(3);
    let mut first = Exchange::new(Side::Opens, a_stream, b_stream, &a.log, env.as_ref()).unwrap();
    let mut second =
        Exchange::new(Side::Answers, b_stream, a_stream, &b.log, env.as_ref()).unwrap();
    let mut said = [first.begin(a.stamp(), &a.log).unwrap(), Vec::new()];
    let mut heard = [0, 0];
    loop {
        if let Some(message) = said[0].get(heard[0]).cloned() {
            heard[0] += 1;
            said[1].extend(second.on_message(&message, b.stamp(), &mut b.log).unwrap());
        } else if let Some(message) = said[1].get(heard[1]).cloned() {
            heard[1] += 1;
            said[0].extend(first.on_message(&message, a.stamp(), &mut a.log).unwrap());
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
    assert!(
        from_a.len() >= 5,
        "a course with heads, want, entries, stored, done: {}",
        from_a.len()
    );
    let untouched = b.log.clone();
    for first in 1..from_a.len() {
        b.log = untouched.clone();
        let mut end = End::new(Side::Answers, &mut b, &a);
        assert!(
            matches!(end.hear(&from_a[first]), Err(CrewError::Peer(_))),
            "message {first}"
        );
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
        assert!(
            matches!(told, CrewError::Peer(_) | CrewError::Ended),
            "message {twice}: {told}"
        );
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
    let before_gap = a.log.clone();
    let gap = {
        a.work(2);
        let heads = a.log.heads().unwrap();
        let head = heads.iter().find(|h| h.stream == a.stream()).unwrap();
        a.log
            .entries()
            .find(|e| e.hash() == head.hash)
            .unwrap()
            .wire()
            .to_vec()
    };
    // The last one of what was asked for, without those before it.
    let last = {
        let heads = before_gap.heads().unwrap();
        let head = heads.iter().find(|h| h.stream == a.stream()).unwrap();
        before_gap
            .entries()
            .find(|e| e.hash() == head.hash)
            .unwrap()
            .wire()
            .to_vec()
    };
    for wires in [vec![last], vec![foreign], vec![gap], Vec::new()] {
        b.log = untouched.clone();
        let mut end = End::new(Side::Answers, &mut b, &a);
        end.hear(&from_a[0]).unwrap();
        end.hear(&from_a[1]).unwrap();
        assert!(
            matches!(end.hear(&entries(&wires)), Err(CrewError::Peer(_))),
            "{}",
            wires.len()
        );
        assert!(b.log == untouched);
    }
}

#[test]
fn an_empty_page_of_heads_with_more_to_come_is_refused() {
    let (a, mut b, said) = recorded();
    let mut end = End::new(Side::Answers, &mut b, &a);
    end.hear(&said[0][0]).unwrap();
    // Heads, with a stamp, no heads, and "more".
    let mut message = Vec::new();
    let mut e = minicbor::Encoder::new(&mut message);
    e.array(2)
        .unwrap()
        .u64(1)
        .unwrap()
        .array(2)
        .unwrap()
        .u64(1)
        .unwrap()
        .array(3)
        .unwrap();
    e.encode(a.stamp())
        .unwrap()
        .array(0)
        .unwrap()
        .bool(true)
        .unwrap();
    assert!(matches!(end.hear(&message), Err(CrewError::Peer(_))));
}

#[test]
fn who_is_no_member_is_handed_nothing_even_on_asking() {
    let (mut lead, second) = Phone::crew_of_two();
    lead.retire(second.stream(), None);
    let held = lead.log.heads().unwrap()[0].hash;
    let env = TestEnv::new(3);
    let mut theirs = Exchange::new(
        Side::Opens,
        second.stream(),
        lead.stream(),
        &second.log,
        env.as_ref(),
    )
    .unwrap();
    let hello = theirs.begin(second.stamp(), &second.log).unwrap();
    let mut end = End::new(Side::Answers, &mut lead, &second);
    end.hear(&hello[0]).unwrap();
    let mut none = Vec::new();
    let mut e = minicbor::Encoder::new(&mut none);
    e.array(2)
        .unwrap()
        .u64(1)
        .unwrap()
        .array(2)
        .unwrap()
        .u64(1)
        .unwrap()
        .array(3)
        .unwrap();
    e.encode(second.stamp())
        .unwrap()
        .array(0)
        .unwrap()
        .bool(false)
        .unwrap();
    // It has told that it gives nothing, so the lead has told its heads: none.
    assert_eq!(end.hear(&none).unwrap().len(), 2);
    let mut want = Vec::new();
    let mut e = minicbor::Encoder::new(&mut want);
    e.array(2)
        .unwrap()
        .u64(1)
        .unwrap()
        .array(2)
        .unwrap()
        .u64(3)
        .unwrap()
        .array(2)
        .unwrap();
    e.bytes(&held.0).unwrap().array(0).unwrap();
    assert!(matches!(end.hear(&want), Err(CrewError::Peer(_))));
}

/// An entries message, encoded by hand after the module's description.
fn entries(wires: &[Vec<u8>]) -> Vec<u8> {
    let mut message = Vec::new();
    let mut e = minicbor::Encoder::new(&mut message);
    e.array(2)
        .unwrap()
        .u64(1)
        .unwrap()
        .array(2)
        .unwrap()
        .u64(4)
        .unwrap()
        .array(1)
        .unwrap();
    e.array(wires.len() as u64).unwrap();
    for wire in wires {
        e.bytes(wire).unwrap();
    }
    message
}

#[test]
fn an_altered_entry_refuses_its_stream_and_the_exchange_goes_on() {
    let (mut a, mut b) = Phone::crew_of_two();
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
        TestEnv::new(3).as_ref(),
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
    let lead = heads
        .iter()
        .find(|h| h.stream == opens.phone.stream())
        .unwrap();
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
        let fits = matches!(
            &told,
            CrewError::Book(BookError::Newer {
                found: 2,
                known: 1,
                ..
            })
        );
        assert!(fits, "message {n}: {told}");
        assert!(end.phone.log == held);
    }
}

#[test]
fn too_long_a_message_is_refused() {
    let (a, mut b, _) = recorded();
    let mut end = End::new(Side::Answers, &mut b, &a);
    assert!(matches!(
        end.hear(&vec![0x82; MESSAGE_BYTES_MAX + 1]),
        Err(CrewError::Peer(_))
    ));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

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
        if let Some(noise) = noise {
 message = noise;
 } else {
                let bit = bit.index(message.len() * 8);
                message[bit / 8] ^= 1 << (bit % 8);
}
        let _ = end.hear(&message);
        let signed: Vec<Hash> = a.log.entries().map(sward_book::log::Entry::hash).collect();
        let own = end.phone.stream();
        prop_assert!(end.phone.log.entries().all(|e| e.body().stream == own || signed.contains(&e.hash())));
    }
}
