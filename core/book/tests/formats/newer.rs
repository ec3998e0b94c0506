//! What a newer program wrote is refused with a clear word, and nothing changes.

use std::sync::Arc;

use ed25519_dalek::{Signer as _, SigningKey};
use sward_book::env::Env;
use sward_book::ids::{Hash, StreamId};
use sward_book::log::{Body, Entry, sign_entry};
use sward_book::record::Treatment;
use sward_book::testing::{TestEnv, found};
use sward_book::{Book, BookError};

use crate::samples::{every_fact, stamp, treatment};

/// An entry of the next format, rightly signed.
fn newer_entry() -> Vec<u8> {
    let key = SigningKey::from_bytes(&[42; 32]);
    let mut body = Vec::new();
    let stream = StreamId(key.verifying_key().to_bytes());
    let mut e = minicbor::Encoder::new(&mut body);
    e.array(3)
        .unwrap()
        .u64(4)
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
                found: 4,
                known: 3,
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
    conn.execute_batch("PRAGMA user_version = 4").unwrap();
    drop(conn);
    let before = std::fs::read(&file).unwrap();
    for open in [Book::open, Book::open_reading] {
        let error = open(folder.path(), Arc::clone(&env) as Arc<dyn Env>)
            .err()
            .unwrap();
        assert!(
            matches!(error, BookError::Newer { found: 4, .. }),
            "{error}"
        );
    }
    assert_eq!(std::fs::read(&file).unwrap(), before);
}

#[test]
fn a_newer_treatment() {
    let newer = Treatment {
        format: 4,
        ..treatment()
    };
    let (bytes, hash) = newer.freeze();
    assert!(matches!(
        Treatment::thaw(&bytes, hash),
        Err(BookError::Newer { found: 4, .. })
    ));
    let (bytes, _) = treatment().freeze();
    assert!(
        Treatment::thaw(&bytes, hash).is_err(),
        "bytes under another hash"
    );
}

#[test]
fn an_entry_and_a_store_of_the_format_before() {
    let key = SigningKey::from_bytes(&[42; 32]);
    let of_format = |format| {
        let body = Body {
            format,
            stream: StreamId(key.verifying_key().to_bytes()),
            seq: 1,
            prev: Hash::NONE,
            seen: Vec::new(),
            lamport: 1,
            written: stamp(),
            facts: vec![every_fact().remove(7)],
            changes: Vec::new(),
        };
        sign_entry(body, &key).wire().to_vec()
    };
    assert!(Entry::check(&of_format(1)).is_ok());
    assert!(Entry::check(&of_format(2)).is_ok());
    assert!(Entry::check(&of_format(0)).is_err());

    let folder = tempfile::tempdir().unwrap();
    let env = TestEnv::new(1);
    let mut book = found(folder.path(), &env, "lead").unwrap();
    let yard = book.add_yard("Corner lot", "1 Test Lane", "").unwrap();
    book.open_visit(yard, "grubs").unwrap();
    let before = book.compared().unwrap();
    drop(book);
    let conn = rusqlite::Connection::open(folder.path().join("book.sqlite")).unwrap();
    // The views' table as format 1 had it; nothing else differs.
    conn.execute_batch(
        "DROP TABLE view;
         CREATE TABLE view (
           kind INTEGER NOT NULL, subject BLOB NOT NULL, yard BLOB, at_ms INTEGER,
           body BLOB NOT NULL, PRIMARY KEY (kind, subject)
         ) STRICT, WITHOUT ROWID;
         CREATE INDEX view_by_yard ON view (yard, kind, at_ms) WHERE yard IS NOT NULL;
         PRAGMA user_version = 1;",
    )
    .unwrap();
    drop(conn);
    let env = env as Arc<dyn Env>;
    let reading = Book::open_reading(folder.path(), Arc::clone(&env))
        .err()
        .unwrap();
    assert!(reading.to_string().contains("open it once"), "{reading}");
    let book = Book::open(folder.path(), Arc::clone(&env)).unwrap();
    assert_eq!(book.compared().unwrap(), before);
    drop(book);
    let book = Book::open_reading(folder.path(), env).unwrap();
    assert_eq!(book.visit_count().unwrap(), 1);
}
