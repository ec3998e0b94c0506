//! Hostile entries and hostile surroundings: a clear word, nothing lost, nothing half stored.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::sync::Arc;

use ed25519_dalek::{Signer as _, SigningKey};
use proptest::prelude::*;
use sward_book::action::{ReadyInputs, Start, judge};
use sward_book::book::Joining;
use sward_book::env::Env;
use sward_book::fact::{Fact, TimeConfirmed};
use sward_book::ids::{Hash, SheetId, StreamId};
use sward_book::log::{Body, ENTRY_FORMAT, Entry, SheetChange, Stamp, sign_entry};
use sward_book::sheet::SheetKind;
use sward_book::testing::{START_UTC_MS, TestEnv, ask, found, give, person, secret};
use sward_book::{Book, BookError};
use sward_rules::Entered;
use sward_rules::measure::{Outline, Shape};

fn key() -> SigningKey {
    SigningKey::from_bytes(&[42; 32])
}

fn body(seq: u64, prev: Hash) -> Body {
    Body {
        format: ENTRY_FORMAT,
        stream: StreamId(key().verifying_key().to_bytes()),
        seq,
        prev,
        seen: Vec::new(),
        lamport: seq,
        written: Stamp {
            utc_ms: START_UTC_MS,
            offset_min: 0,
            proof: sward_book::env::TimeProof::Network,
        },
        facts: vec![Fact::TimeConfirmed(TimeConfirmed {
            how: sward_book::env::TimeProof::Person,
        })],
        changes: Vec::new(),
    }
}

fn wire_of(body: &[u8], signature: &[u8]) -> Vec<u8> {
    let mut wire = Vec::new();
    let mut e = minicbor::Encoder::new(&mut wire);
    e.array(2)
        .unwrap()
        .bytes(body)
        .unwrap()
        .bytes(signature)
        .unwrap();
    wire
}

fn signed(body: &[u8]) -> Vec<u8> {
    let signature = key().sign(&[b"swardbook entry 1\0", body].concat());
    wire_of(body, &signature.to_bytes())
}

#[test]
fn an_altered_entry_is_refused_and_only_its_stream_with_it() {
    let folder = tempfile::tempdir().unwrap();
    let mut book = found(folder.path(), &TestEnv::new(1), "lead").unwrap();
    let first = sign_entry(body(1, Hash::NONE), &key());
    let second = sign_entry(body(2, first.hash()), &key());
    let third = sign_entry(body(3, second.hash()), &key());
    let other_key = SigningKey::from_bytes(&[43; 32]);
    let stream = StreamId(other_key.verifying_key().to_bytes());
    let other = sign_entry(
        Body {
            stream,
            ..body(1, Hash::NONE)
        },
        &other_key,
    );

    let mut altered = second.wire().to_vec();
    let last = altered.len() - 1;
    altered[last] ^= 1;
    let batch = [
        first.wire().to_vec(),
        altered,
        third.wire().to_vec(),
        other.wire().to_vec(),
    ];
    let taken = book.take_in(&batch, None).unwrap();
    assert_eq!((taken.new, taken.refused.len()), (2, 1));
    assert_eq!(taken.refused[0].stream, Some(first.body().stream));
    assert!(matches!(taken.refused[0].error, BookError::BadSignature));
    assert!(book.holds(other.hash()).unwrap());
    assert!(!book.holds(third.hash()).unwrap());

    // The same stream whole, later: everything arrives.
    let batch = [first, second, third].map(|e| e.wire().to_vec());
    let taken = book.take_in(&batch, None).unwrap();
    assert_eq!((taken.new, taken.known, taken.refused.len()), (2, 1, 0));
}

#[test]
fn a_second_spelling_of_the_same_entry_is_refused() {
    let entry = sign_entry(body(1, Hash::NONE), &key());
    let bytes = minicbor::to_vec(entry.body()).unwrap();
    assert!(Entry::check(&signed(&bytes)).is_ok());
    // The format as a two-byte integer: the same value, rightly signed, spelt otherwise.
    let mut longer = vec![bytes[0], 0x18, bytes[1]];
    longer.extend(&bytes[2..]);
    let error = Entry::check(&signed(&longer)).unwrap_err();
    assert!(error.to_string().contains("deterministic"), "{error}");
    // The wrapper spelt otherwise: an array of indefinite length.
    let mut wrapper = entry.wire().to_vec();
    wrapper[0] = 0x9f;
    wrapper.push(0xff);
    assert!(Entry::check(&wrapper).is_err());
    let mut more = entry.wire().to_vec();
    more.push(0);
    assert!(Entry::check(&more).is_err());
}

#[test]
fn numbers_out_of_bounds_are_refused() {
    let check = |body: Body| Entry::check(sign_entry(body, &key()).wire());
    assert!(check(body(1, Hash::NONE)).is_ok());
    for bad in [
        body(0, Hash::NONE),
        body(1, Hash([1; 32])),
        body(2, Hash::NONE),
        Body {
            lamport: u64::MAX,
            ..body(1, Hash::NONE)
        },
        Body {
            lamport: 0,
            ..body(1, Hash::NONE)
        },
        Body {
            facts: Vec::new(),
            ..body(1, Hash::NONE)
        },
        Body {
            facts: vec![body(1, Hash::NONE).facts[0].clone(); 65],
            ..body(1, Hash::NONE)
        },
        Body {
            seen: vec![Hash([2; 32]), Hash([1; 32])],
            ..body(1, Hash::NONE)
        },
        Body {
            format: 0,
            ..body(1, Hash::NONE)
        },
    ] {
        assert!(check(bad.clone()).is_err(), "{bad:?}");
    }
}

#[test]
fn a_sheet_change_in_anothers_name_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let mut book = found(folder.path(), &TestEnv::new(1), "lead").unwrap();
    let yard = book.add_yard("Corner lot", "", "").unwrap();
    let own = book.secret().unwrap().stream();
    let head = book
        .heads()
        .unwrap()
        .into_iter()
        .find(|h| h.stream == own)
        .unwrap();
    let stolen = book.entry(head.hash).unwrap().body().changes[0].clone();
    let changes = vec![SheetChange {
        sheet: yard,
        kind: SheetKind::Yard,
        ..stolen
    }];
    let forged = sign_entry(
        Body {
            changes,
            ..body(1, Hash::NONE)
        },
        &key(),
    );
    let taken = book.take_in(&[forged.wire().to_vec()], None).unwrap();
    assert_eq!(taken.new, 0);
    assert!(
        taken.refused[0]
            .error
            .to_string()
            .contains("another device's name")
    );
    let nonsense = SheetChange {
        sheet: SheetId(uuid::Uuid::from_u128(1)),
        kind: SheetKind::Yard,
        nonce: 0,
        change: vec![1, 2, 3],
    };
    let forged = sign_entry(
        Body {
            changes: vec![nonsense],
            ..body(1, Hash::NONE)
        },
        &key(),
    );
    assert!(Entry::check(forged.wire()).is_err());
}

#[test]
fn a_hostile_order_number_costs_nobody_a_record() {
    let (here, there) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let mut lead = found(here.path(), &TestEnv::new(1), "lead").unwrap();
    let (mut other, asked) = ask(there.path(), &TestEnv::new(2), "other").unwrap();
    lead.admit(&asked, sward_book::fact::Role::Applicator)
        .unwrap();
    let last = sign_entry(
        Body {
            lamport: 1 << 53,
            ..body(1, Hash::NONE)
        },
        &key(),
    );
    assert_eq!(lead.take_in(&[last.wire().to_vec()], None).unwrap().new, 1);
    for name in ["first", "second"] {
        lead.add_yard(name, "", "").unwrap();
    }
    give(&lead, &mut other).unwrap();
    assert_eq!(other.yards().unwrap().len(), 2);
    assert_eq!(
        other.compared().unwrap().views.len(),
        lead.compared().unwrap().views.len()
    );
    other.add_yard("third", "", "").unwrap();
    give(&other, &mut lead).unwrap();
    assert_eq!(lead.compared().unwrap(), other.compared().unwrap());
}

#[test]
fn a_full_disk_stores_nothing_and_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let env = TestEnv::new(1);
    let mut book = found(folder.path(), &env, "lead").unwrap();
    let yard = book.add_yard("Corner lot", "", "").unwrap();
    book.fill_disk().unwrap();
    let mut stored = book.entry_count().unwrap();
    let error = loop {
        match book.open_visit(yard, "grubs") {
            Ok(_) => stored += 1,
            Err(error) => break error,
        }
        assert!(stored < 1000, "the disk never fills");
    };
    assert!(matches!(error, BookError::DiskFull), "{error}");
    assert_eq!(book.entry_count().unwrap(), stored);
    assert_eq!(book.visits().unwrap().len() as u64 + 2, stored);
    drop(book);
    let mut again = Book::open(folder.path(), env).unwrap();
    assert_eq!(
        again.verify(&mut |_, _| {}).unwrap().faults,
        Vec::<String>::new()
    );
    // With room again the same action goes through.
    again.open_visit(yard, "grubs").unwrap();
}

#[test]
fn findings_that_are_old_or_for_another_product_start_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let env = TestEnv::new(1);
    let mut book = found(folder.path(), &env, "lead").unwrap();
    let yard = book.add_yard("Corner lot", "", "").unwrap();
    let lawn = Shape::Circle {
        diameter: Entered::parse("80 ft").unwrap(),
    };
    book.add_section(
        yard,
        "round",
        &Outline {
            shape: lawn,
            left_out: Vec::new(),
        },
    )
    .unwrap();
    let sheet = |book: &mut Book, name| {
        book.add_label(&[("product", name), ("method", "granule")])
            .unwrap()
    };
    let (one, other) = (sheet(&mut book, "One"), sheet(&mut book, "Other"));
    let visit = book.open_visit(yard, "grubs").unwrap();
    let start = |label_sheet| Start {
        label_sheet,
        rate: Entered::parse("2.5 lb/1000 ft2").unwrap(),
        sections: Vec::new(),
        acknowledged: Vec::new(),
        against: None,
        equipment: None,
        lot: None,
        gear: None,
    };
    book.record_findings(visit, one, Vec::new(), None).unwrap();
    let error = book.start(visit, start(other)).unwrap_err().to_string();
    assert!(
        error.contains("not checked for this label sheet"),
        "{error}"
    );
    env.pass_ms(16 * 60_000);
    let error = book.start(visit, start(one)).unwrap_err().to_string();
    assert!(error.contains("checked 16 min ago"), "{error}");
    book.record_findings(visit, one, Vec::new(), None).unwrap();
    book.start(visit, start(one)).unwrap();
}

#[test]
fn a_second_program_may_read_but_not_write() {
    let folder = tempfile::tempdir().unwrap();
    let env = TestEnv::new(1);
    let mut book = found(folder.path(), &env, "lead").unwrap();
    let second = Book::open(folder.path(), Arc::clone(&env) as Arc<dyn Env>);
    assert!(matches!(second.err(), Some(BookError::Busy)));
    let mut reader = Book::open_reading(folder.path(), Arc::clone(&env) as Arc<dyn Env>).unwrap();
    let yard = book.add_yard("Corner lot", "", "").unwrap();
    assert_eq!(reader.yards().unwrap()[0].yard, yard);
    assert!(matches!(
        reader.add_yard("x", "", ""),
        Err(BookError::ReadOnly)
    ));
    drop(book);
    Book::open(folder.path(), env).unwrap();
}

#[test]
fn a_book_that_could_not_be_begun_leaves_the_folder_free() {
    let folder = tempfile::tempdir().unwrap();
    let env = TestEnv::new(1);
    let joining = Joining {
        person: person("new"),
        practice: false,
        secret: secret(env.as_ref()),
        recipient: "x".repeat(2 << 20),
    };
    let begun = Book::ask_to_join(folder.path(), Arc::clone(&env) as Arc<dyn Env>, joining);
    assert!(matches!(begun.err(), Some(BookError::Refused(_))));
    assert!(!folder.path().join("book.sqlite").exists());
    assert!(!folder.path().join("device.key").exists());
    ask(folder.path(), &env, "new").unwrap();
}

#[test]
fn a_folder_that_is_no_book_and_one_that_is() {
    let folder = tempfile::tempdir().unwrap();
    let env = TestEnv::new(1);
    let none = Book::open(folder.path(), Arc::clone(&env) as Arc<dyn Env>)
        .err()
        .unwrap();
    assert!(matches!(none, BookError::NoBook(_)), "{none}");
    drop(found(folder.path(), &env, "lead").unwrap());
    let twice = found(folder.path(), &env, "lead").err().unwrap();
    assert!(matches!(twice, BookError::AlreadyABook(_)), "{twice}");
}

#[test]
fn what_is_written_as_a_store_but_is_none_is_left_as_it_is() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("book.sqlite");
    std::fs::write(&file, b"not a store at all, but somebody's file").unwrap();
    let error = Book::open(folder.path(), TestEnv::new(1)).err().unwrap();
    assert!(error.to_string().contains("do not delete it"), "{error}");
    assert_eq!(
        std::fs::read(&file).unwrap(),
        b"not a store at all, but somebody's file"
    );
}

#[test]
fn a_store_altered_on_disk_is_found_by_verify_and_made_anew_from_its_log() {
    let folder = tempfile::tempdir().unwrap();
    let env = TestEnv::new(1);
    let mut book = found(folder.path(), &env, "lead").unwrap();
    let yard = book.add_yard("Corner lot", "", "").unwrap();
    let visit = book.open_visit(yard, "grubs").unwrap();
    let whole = book.compared().unwrap();
    drop(book);
    let change = |sql: &str| {
        let conn = rusqlite::Connection::open(folder.path().join("book.sqlite")).unwrap();
        assert_eq!(conn.execute(sql, []).unwrap(), 1, "{sql}");
    };
    change("UPDATE view SET body = x'80' WHERE kind = 4");
    let mut book = Book::open(folder.path(), Arc::clone(&env) as Arc<dyn Env>).unwrap();
    assert!(!book.verify(&mut |_, _| {}).unwrap().faults.is_empty());
    assert!(
        book.visit(visit).is_err(),
        "a view that cannot be read is not shown as empty"
    );
    book.rebuild().unwrap();
    assert_eq!(book.compared().unwrap(), whole);
    assert_eq!(
        book.verify(&mut |_, _| {}).unwrap().faults,
        Vec::<String>::new()
    );
    drop(book);
    change(
        "UPDATE entry SET wire = CAST(substr(wire, 1, length(wire) - 1) || x'00' AS BLOB) WHERE id = 2",
    );
    let book = Book::open_reading(folder.path(), env).unwrap();
    let faults = book.verify(&mut |_, _| {}).unwrap().faults;
    assert!(faults.iter().any(|f| f.contains("row 2")), "{faults:?}");
}

#[test]
fn a_yard_that_cannot_be_read_is_not_taken_for_one_that_has_not_arrived() {
    let folder = tempfile::tempdir().unwrap();
    let env = TestEnv::new(1);
    let mut book = found(folder.path(), &env, "lead").unwrap();
    let yard = book.add_yard("Corner lot", "", "").unwrap();
    let label = book
        .add_label(&[("product", "Sample"), ("method", "drench")])
        .unwrap();
    let visit = book.open_visit(yard, "grubs").unwrap();
    let ready = |book: &Book| judge(book, visit, label, ReadyInputs::default());
    assert!(ready(&book).is_ok());
    drop(book);
    let change = |sql: &str| {
        let conn = rusqlite::Connection::open(folder.path().join("book.sqlite")).unwrap();
        assert_eq!(conn.execute(sql, []).unwrap(), 1, "{sql}");
    };
    change("UPDATE sheet SET doc = x'00' WHERE kind = 0");
    let book = Book::open(folder.path(), Arc::clone(&env) as Arc<dyn Env>).unwrap();
    let error = ready(&book).unwrap_err();
    assert!(matches!(error, BookError::Damaged(_)), "{error}");
    drop(book);
    // One that has not arrived takes no other answer away.
    change("DELETE FROM sheet WHERE kind = 0");
    let book = Book::open(folder.path(), env).unwrap();
    assert!(ready(&book).is_ok());
}

#[test]
fn a_file_of_a_crew_this_phone_is_not_admitted_to_changes_nothing() {
    let (here, there) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let lead = found(there.path(), &TestEnv::new(1), "lead").unwrap();
    let (mut book, _) = ask(here.path(), &TestEnv::new(2), "new").unwrap();
    let before = book.compared().unwrap();
    let error = give(&lead, &mut book).unwrap_err();
    assert!(
        error.to_string().contains("does not admit this phone"),
        "{error}"
    );
    assert_eq!(book.compared().unwrap(), before);
    assert_eq!(book.crew(), None);
}

proptest! {
    #[test]
    fn random_bytes_are_never_an_entry(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        prop_assert!(Entry::check(&bytes).is_err());
    }

    #[test]
    fn an_entry_with_any_byte_changed_is_refused(at in any::<prop::sample::Index>(), change in 1_u8..) {
        let mut wire = sign_entry(body(1, Hash::NONE), &key()).wire().to_vec();
        let at = at.index(wire.len());
        wire[at] ^= change;
        prop_assert!(Entry::check(&wire).is_err());
    }

    #[test]
    fn a_cut_entry_is_refused(at in any::<prop::sample::Index>()) {
        let wire = sign_entry(body(1, Hash::NONE), &key()).wire().to_vec();
        prop_assert!(Entry::check(&wire[..at.index(wire.len())]).is_err());
    }

    #[test]
    fn deeply_nested_bytes_do_not_overflow_the_stack(depth in 1_usize..50_000) {
        let mut body = vec![0x89, 0x01];
        body.extend(std::iter::repeat_n(0x81, depth));
        prop_assert!(Entry::check(&signed(&body)).is_err());
    }
}
