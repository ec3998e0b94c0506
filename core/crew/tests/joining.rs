//! The request to join: what it carries, and that nothing else passes for one.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use proptest::prelude::*;
use sward_book::BookError;
use sward_book::env::TimeProof;
use sward_book::fact::{Fact, JoinAsked, TimeConfirmed};
use sward_book::ids::{Hash, StreamId};
use sward_crew::join::{REQUEST_BYTES_MAX, make_request, read_request};
use sward_crew::testing::Phone;
use sward_crew::{CrewError, device_check_digits};

fn request() -> (Phone, Vec<u8>) {
    let mut phone = Phone::new(2);
    let first = phone.ask();
    let file = make_request(&first).unwrap();
    (phone, file)
}

#[test]
fn a_request_carries_the_first_entry_and_digits_to_compare() {
    let (phone, file) = request();
    let read = read_request(&file).unwrap();
    assert_eq!(read.asked.device, phone.keys());
    assert_eq!(read.check_digits, device_check_digits(&phone.keys()));
    assert_eq!(phone.log.entries().next(), Some(&read.entry));
    assert!(file.len() < 600, "{}", file.len());
}

#[test]
fn a_newer_format_is_refused() {
    let (_, mut file) = request();
    let number = file.iter().position(|b| *b == b'1').unwrap();
    file[number] = b'2';
    let newer = read_request(&file).unwrap_err();
    let told = matches!(
        &newer,
        CrewError::Book(BookError::Newer {
            found: 2,
            known: 1,
            ..
        })
    );
    assert!(told, "{newer}");
}

#[test]
fn other_first_entries_are_no_request() {
    let mut phone = Phone::new(2);
    let proven = Fact::TimeConfirmed(TimeConfirmed {
        how: TimeProof::Person,
    });
    let other = phone.sign(1, Hash::NONE, vec![proven]);
    assert!(matches!(make_request(&other), Err(CrewError::OtherFile(_))));
    // In another phone's name.
    let asked = asked_in(&phone.ask());
    let forged = JoinAsked {
        device: sward_book::fact::DeviceKeys {
            stream: StreamId([1; 32]),
            ..asked.device
        },
        ..asked
    };
    let forged = Phone::new(3).sign(1, Hash::NONE, vec![Fact::JoinAsked(forged)]);
    let file = [b"swardbook join request 1\n", forged.wire()].concat();
    assert!(matches!(read_request(&file), Err(CrewError::OtherFile(_))));
}

fn asked_in(entry: &sward_book::log::Entry) -> JoinAsked {
    match &entry.body().facts[0] {
        Fact::JoinAsked(asked) => asked.clone(),
        other => panic!("not a request: {other:?}"),
    }
}

#[test]
fn a_key_that_files_cannot_be_locked_to_is_refused() {
    let mut phone = Phone::new(2);
    let mut asked = asked_in(&phone.ask());
    asked.device.recipient = "age1odd".into();
    let odd = phone.sign(1, Hash::NONE, vec![Fact::JoinAsked(asked)]);
    let file = make_request(&odd).unwrap();
    assert!(matches!(read_request(&file), Err(CrewError::BadRecipient)));
}

#[test]
fn too_long_a_file_is_refused() {
    let (_, mut file) = request();
    file.resize(REQUEST_BYTES_MAX + 1, 0);
    assert!(matches!(read_request(&file), Err(CrewError::Damaged(_))));
}

proptest! {
    #[test]
    fn a_request_altered_anywhere_is_refused(at: prop::sample::Index, bit in 0_u8..8) {
        let (_, mut file) = request();
        let at = at.index(file.len());
        file[at] ^= 1 << bit;
        prop_assert!(read_request(&file).is_err());
    }

    #[test]
    fn a_request_cut_anywhere_is_refused(at: prop::sample::Index) {
        let (_, file) = request();
        prop_assert!(read_request(&file[..at.index(file.len())]).is_err());
    }

    #[test]
    fn random_bytes_are_refused(bytes in prop::collection::vec(any::<u8>(), 0..600)) {
        prop_assert!(read_request(&bytes).is_err());
        let headed = [b"swardbook join request 1\n", bytes.as_slice()].concat();
        prop_assert!(read_request(&headed).is_err());
    }
}
