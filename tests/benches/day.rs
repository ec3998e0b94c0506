//! A day of 8 phones with 40 visits of 10 actions each, taken in by a ninth, beside a floor that
//! does by hand what cannot be avoided: the same hashing, signature checks, Automerge applies and
//! saves, and SQLite rows, in the same batches and with the same settings.
//!
//! Goal: at most 1 s, and at most 1.5 times the floor.

#![allow(clippy::print_stdout, reason = "a bench is read on the terminal")]

use std::collections::BTreeMap;
use std::time::Instant;

use automerge::{AutoCommit, Change};
use ed25519_dalek::{Signature, VerifyingKey};
use sha2::{Digest, Sha256};
use sward_book::log::Entry;
use sward_tests::crew::Crew;
use sward_tests::measure::{cpu_ns, day, median, ratio};

const BATCH: usize = 400;
const RUNS: usize = 5;

fn main() {
    let mut crew = day(8, 40).expect("a day can be written");
    let wires = crew.all_wires().expect("the crew can swap");
    let actions = 8 * 40 * 10;
    let mut ours = Vec::new();
    let mut floor = Vec::new();
    let mut ours_cpu = Vec::new();
    let mut floor_cpu = Vec::new();
    let rows = crew.phones[0]
        .book
        .compared()
        .expect("a book can be read")
        .views;
    let since = Instant::now();
    for run in 0..RUNS {
        let (mut ninth, wires) = newcomer(&mut crew, &wires, run as u64);
        let (start, cpu) = (Instant::now(), cpu_ns(since));
        for batch in wires.chunks(BATCH) {
            let taken = ninth.book.take_in(batch, None).expect("it can be taken in");
            assert!(taken.refused.is_empty());
        }
        ours.push(u64::try_from(start.elapsed().as_micros()).unwrap_or(u64::MAX));
        ours_cpu.push((cpu_ns(since) - cpu) / 1000);

        let (start, cpu) = (Instant::now(), cpu_ns(since));
        by_hand(&wires, &rows);
        floor.push(u64::try_from(start.elapsed().as_micros()).unwrap_or(u64::MAX));
        floor_cpu.push((cpu_ns(since) - cpu) / 1000);
    }
    let (ours, floor) = (median(ours), median(floor));
    let (ours_cpu, floor_cpu) = (median(ours_cpu), median(floor_cpu));
    println!(
        "a day of 8 phones ({actions} actions, {} entries) taken in by a ninth, medians of {RUNS}",
        wires.len()
    );
    println!(
        "  taken in     {} ms, processor {} ms (goal: at most 1000 ms)",
        ours / 1000,
        ours_cpu / 1000
    );
    println!(
        "  floor        {} ms, processor {} ms",
        floor / 1000,
        floor_cpu / 1000
    );
    println!(
        "  ratio        {} (processor {}; goal: at most 1.50)",
        ratio(ours, floor),
        ratio(ours_cpu, floor_cpu)
    );
}

/// A phone that has just been admitted and holds nothing but the crew's founding.
fn newcomer(
    crew: &mut Crew,
    wires: &[Vec<u8>],
    run: u64,
) -> (sward_tests::crew::Phone, Vec<Vec<u8>>) {
    let mut ninth = Crew::asking("ninth", 500 + run).expect("a phone can ask");
    let asked = ninth.book.own_request().expect("it asked");
    crew.book(0)
        .admit(&asked, sward_book::fact::Role::Applicator)
        .expect("the lead admits");
    let lead = crew.phones[0].book.secret().expect("keys").stream();
    let head = crew.phones[0]
        .book
        .heads()
        .expect("heads")
        .into_iter()
        .find(|h| h.stream == lead);
    let head = head.expect("the lead has written");
    let admission = crew.phones[0].book.entry(head.hash).expect("it is there");
    let founding = wires
        .iter()
        .map(|w| Entry::check(w).expect("it is whole"))
        .find(|e| Some(e.hash()) == crew.phones[0].book.crew())
        .expect("the founding is among them");
    let first = [founding.wire().to_vec(), admission.wire().to_vec()];
    let crew_hash = founding.hash();
    ninth
        .book
        .join_crew(crew_hash, &first, None)
        .expect("it joins");
    let rest = wires.iter().filter(|w| **w != first[0]).cloned().collect();
    (ninth, rest)
}

fn by_hand(wires: &[Vec<u8>], rows: &[(i64, Vec<u8>, Vec<u8>)]) {
    let folder = tempfile::tempdir().expect("room for temporary files");
    let conn = rusqlite::Connection::open(folder.path().join("floor.sqlite")).expect("a store");
    conn.query_row("PRAGMA journal_mode = WAL", [], |_| Ok(()))
        .expect("a setting");
    conn.execute_batch(
        "PRAGMA synchronous = FULL;
         CREATE TABLE entry (id INTEGER PRIMARY KEY, hash BLOB NOT NULL UNIQUE, wire BLOB) STRICT;
         CREATE TABLE fact (subject BLOB, entry INTEGER, place INTEGER,
           PRIMARY KEY (subject, entry, place)) STRICT, WITHOUT ROWID;
         CREATE TABLE sheet (id BLOB PRIMARY KEY, doc BLOB) STRICT, WITHOUT ROWID;
         CREATE TABLE row (key BLOB PRIMARY KEY, body BLOB) STRICT, WITHOUT ROWID;",
    )
    .expect("a schema");
    let batches = wires.len().div_ceil(BATCH);
    for (number, batch) in wires.chunks(BATCH).enumerate() {
        conn.execute_batch("BEGIN IMMEDIATE")
            .expect("a transaction");
        let mut changes: BTreeMap<[u8; 16], Vec<Change>> = BTreeMap::new();
        for wire in batch {
            entry_by_hand(&conn, wire, &mut changes);
        }
        for (sheet, changes) in changes {
            sheet_by_hand(&conn, sheet, changes);
        }
        // Each row is written once: in the batch where a subject is complete.
        let share = rows.len().div_ceil(batches);
        for (kind, subject, body) in rows.iter().skip(number * share).take(share) {
            let key = [&[u8::try_from(*kind).unwrap_or(0)], subject.as_slice()].concat();
            conn.prepare_cached("INSERT OR REPLACE INTO row (key, body) VALUES (?1, ?2)")
                .and_then(|mut s| s.execute((key, body)))
                .expect("a row");
        }
        conn.execute_batch("COMMIT").expect("a commit");
    }
}

fn entry_by_hand(
    conn: &rusqlite::Connection,
    wire: &[u8],
    changes: &mut BTreeMap<[u8; 16], Vec<Change>>,
) {
    let mut decoder = minicbor::Decoder::new(wire);
    decoder.array().expect("an array");
    let body = decoder.bytes().expect("a body");
    let signature: [u8; 64] = decoder
        .bytes()
        .expect("a signature")
        .try_into()
        .expect("64 bytes");
    let hash: [u8; 32] = Sha256::digest(wire).into();
    let decoded: sward_book::log::Body = minicbor::decode(body).expect("a body");
    let key = VerifyingKey::from_bytes(&decoded.stream.0).expect("a key");
    let message = [b"swardbook entry 1\0", body].concat();
    key.verify_strict(&message, &Signature::from_bytes(&signature))
        .expect("it fits");
    let id = conn
        .prepare_cached("INSERT INTO entry (hash, wire) VALUES (?1, ?2)")
        .and_then(|mut s| s.insert((hash, wire)))
        .expect("a row");
    for (place, fact) in decoded.facts.iter().enumerate() {
        for subject in fact.subjects(decoded.stream) {
            conn.prepare_cached("INSERT INTO fact (subject, entry, place) VALUES (?1, ?2, ?3)")
                .and_then(|mut s| {
                    s.execute((
                        format!("{subject:?}").into_bytes(),
                        id,
                        i64::try_from(place).unwrap_or(0),
                    ))
                })
                .expect("a row");
        }
    }
    for change in decoded.changes {
        let id = *change.sheet.0.as_bytes();
        let change = Change::from_bytes(change.change).expect("a change");
        changes.entry(id).or_default().push(change);
    }
}

fn sheet_by_hand(conn: &rusqlite::Connection, sheet: [u8; 16], changes: Vec<Change>) {
    let saved: Option<Vec<u8>> = conn
        .prepare_cached("SELECT doc FROM sheet WHERE id = ?1")
        .and_then(|mut s| s.query_row([sheet], |r| r.get(0)))
        .ok();
    let mut doc = match saved {
        Some(saved) => AutoCommit::load_unverified_heads(&saved).expect("a sheet"),
        None => AutoCommit::new(),
    };
    doc.apply_changes(changes).expect("changes fit");
    conn.prepare_cached("INSERT OR REPLACE INTO sheet (id, doc) VALUES (?1, ?2)")
        .and_then(|mut s| s.execute((sheet, doc.save())))
        .expect("a row");
}
