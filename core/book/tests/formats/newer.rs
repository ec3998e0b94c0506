//! What a newer program wrote is refused with a clear word, and nothing changes.

use std::sync::Arc;

use ed25519_dalek::{Signer as _, SigningKey};
use sward_book::env::Env;
use sward_book::ids::StreamId;
use sward_book::log::Entry;
use sward_book::record::Treatment;
use sward_book::testing::{TestEnv, found};
use sward_book::{Book, BookError};

use crate::samples::treatment;

/// An entry of the next format, rightly signed.
fn newer_entry() -> Vec<u8> {
    let key = SigningKey::from_bytes(&[42; 32]);
    let mut body = Vec::new();
    let stream = StreamId(key.verifying_key().to_bytes());
    let mut e = minicbor::Encoder::new(&mut body);
    e.array(3)
        .unwrap()
        .u64(2)
        .unwrap()
        .bytes(&stream.0)
        .unwrap()
        .str("what comes then")
        .unwrap();
    let signature = key.sign(&[b"swardbook entry 1\0", body.as_slice()].concat());
    let mut wire = Vec::new();
    let mut e = minicbor::Encoder::new(&mut wire);
    e.array(2)
        .unwrap()
        .bytes(&body)
        .unwrap()
        .bytes(&signature.to_bytes())
        .unwrap();
    wire
}

#[test]
fn a_newer_entry() {
    let folder = tempfile::tempdir().unwrap();
    let mut book = found(folder.path(), &TestEnv::new(1), "lead").unwrap();
    let before = book.compared().unwrap();
    let taken = book.take_in(&[newer_entry()], None).unwrap();
    assert_eq!(taken.new, 0);
    let error = &taken.refused[0].error;
    assert!(
        matches!(
            error,
            BookError::Newer {
                found: 2,
                known: 1,
                ..
            }
        ),
        "{error}"
    );
    assert!(error.to_string().contains("update this program"), "{error}");
    assert_eq!(book.compared().unwrap(), before);
    assert!(Entry::check(&newer_entry()).is_err());
}

#[test]
fn a_newer_store() {
    let folder = tempfile::tempdir().unwrap();
    let env = TestEnv::new(1);
    drop(found(folder.path(), &env, "lead").unwrap());
    let file = folder.path().join("book.sqlite");
    let conn = rusqlite::Connection::open(&file).unwrap();
    conn.execute_batch("PRAGMA user_version = 2").unwrap();
    drop(conn);
    let before = std::fs::read(&file).unwrap();
    for open in [Book::open, Book::open_reading] {
        let error = open(folder.path(), Arc::clone(&env) as Arc<dyn Env>)
            .err()
            .unwrap();
        assert!(
            matches!(error, BookError::Newer { found: 2, .. }),
            "{error}"
        );
    }
    assert_eq!(std::fs::read(&file).unwrap(), before);
}

#[test]
fn a_newer_treatment() {
    let newer = Treatment {
        format: 2,
        ..treatment()
    };
    let (bytes, hash) = newer.freeze();
    assert!(matches!(
        Treatment::thaw(&bytes, hash),
        Err(BookError::Newer { found: 2, .. })
    ));
    let (bytes, _) = treatment().freeze();
    assert!(
        Treatment::thaw(&bytes, hash).is_err(),
        "bytes under another hash"
    );
}
