//! One action made durable, beside a bare SQLite transaction of the same bytes and settings, in
//! one run: processor time, flushes to disk, bytes by kind of entry.
//!
//! Goal: the same flushes, at most twice the processor time, signing counted apart.

#![allow(clippy::print_stdout, reason = "a bench is read on the terminal")]

use std::path::Path;
use std::process::Command;
use std::time::Instant;

use sward_book::log::{Body, Entry, sign_entry};
use sward_tests::crew::{Crew, sample, yard};
use sward_tests::measure::{cpu_ns, ratio};

const ACTIONS: usize = 1_000;
const BLOCK: usize = 50;

fn main() {
    let arguments: Vec<String> = std::env::args().collect();
    match arguments.iter().position(|a| a == "--only") {
        Some(at) => only(&arguments[at + 1]),
        None => report(),
    }
}

/// What one action wrote: the sizes of the rows that a bare transaction has to write too.
struct Sizes {
    wire: usize,
    rows: Vec<usize>,
}

fn crew_with_a_season() -> (Crew, sward_book::ids::SheetId) {
    let mut crew = Crew::of(2).expect("a crew can be founded");
    let yard = yard(crew.book(0)).expect("a yard can be added");
    for _ in 0..200 {
        // A visit a week: a yard's history, not one day's.
        crew.pass_ms(7 * 86_400_000);
        let visit = crew
            .book(0)
            .open_visit(yard, "grubs")
            .expect("a visit can be opened");
        crew.book(0)
            .count(visit, "grubs", vec![sample(4)], "")
            .expect("a count can be written");
    }
    (crew, yard)
}

fn act(crew: &mut Crew, yard: sward_book::ids::SheetId) {
    crew.pass_ms(86_400_000);
    crew.book(0)
        .open_visit(yard, "chinch bug")
        .expect("a visit can be opened");
}

fn sizes_of_an_action(crew: &mut Crew, yard: sward_book::ids::SheetId) -> Sizes {
    let before = crew.phones[0]
        .book
        .compared()
        .expect("a book can be read")
        .views;
    act(crew, yard);
    let after = crew.phones[0]
        .book
        .compared()
        .expect("a book can be read")
        .views;
    let rows = after
        .iter()
        .filter(|r| !before.contains(r))
        .map(|r| r.2.len())
        .collect();
    Sizes {
        wire: last_entry(crew).wire().len(),
        rows,
    }
}

fn last_entry(crew: &Crew) -> Entry {
    let book = &crew.phones[0].book;
    let own = book.secret().expect("it has keys").stream();
    let head = book
        .heads()
        .expect("it can be read")
        .into_iter()
        .find(|h| h.stream == own);
    book.entry(head.expect("it has written").hash)
        .expect("it is there")
}

fn bare_store(folder: &Path) -> rusqlite::Connection {
    let conn = rusqlite::Connection::open(folder.join("bare.sqlite")).expect("it can be made");
    conn.query_row("PRAGMA journal_mode = WAL", [], |_| Ok(()))
        .expect("a setting");
    conn.execute_batch(
        "PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON; PRAGMA temp_store = MEMORY;
         PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON;
         CREATE TABLE entry (id INTEGER PRIMARY KEY, hash BLOB NOT NULL UNIQUE, wire BLOB) STRICT;
         CREATE TABLE row (key BLOB PRIMARY KEY, body BLOB) STRICT, WITHOUT ROWID;",
    )
    .expect("a schema");
    conn
}

/// The tables of a book that one action touches, with their indexes.
fn same_tables(folder: &Path) -> rusqlite::Connection {
    let conn = rusqlite::Connection::open(folder.join("same.sqlite")).expect("it can be made");
    conn.query_row("PRAGMA journal_mode = WAL", [], |_| Ok(()))
        .expect("a setting");
    conn.execute_batch(
        "PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON; PRAGMA temp_store = MEMORY;
         PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON;
         CREATE TABLE entry (id INTEGER PRIMARY KEY, hash BLOB NOT NULL UNIQUE, stream INTEGER,
           seq INTEGER, prev BLOB, lamport INTEGER, wire BLOB) STRICT;
         CREATE INDEX entry_by_stream ON entry (stream, seq);
         CREATE TABLE tip (hash BLOB PRIMARY KEY, stream INTEGER, seq INTEGER) STRICT, WITHOUT ROWID;
         CREATE TABLE fact (kind INTEGER, subject BLOB, entry INTEGER, place INTEGER,
           PRIMARY KEY (kind, subject, entry, place)) STRICT, WITHOUT ROWID;
         CREATE TABLE view (kind INTEGER, subject BLOB, yard BLOB, at_ms INTEGER, body BLOB,
           PRIMARY KEY (kind, subject)) STRICT, WITHOUT ROWID;
         CREATE INDEX view_by_yard ON view (yard, kind, at_ms);",
    )
    .expect("a schema");
    conn
}

/// The rows of one action in the tables of a book, written by hand.
fn same_rows(conn: &rusqlite::Connection, sizes: &Sizes, number: usize) {
    let name = |n: usize| {
        let mut hash = [0_u8; 32];
        hash[..8].copy_from_slice(&(n as u64).wrapping_mul(0x9e37_79b9_7f4a_7c15).to_be_bytes());
        hash
    };
    let run = |sql: &str, values: &[&dyn rusqlite::ToSql]| {
        conn.prepare_cached(sql)
            .and_then(|mut s| s.execute(values))
            .expect("it can be written");
    };
    let (hash, prev, seq) = (
        name(number + 1),
        name(number),
        i64::try_from(number).expect("a small number"),
    );
    run("BEGIN IMMEDIATE", &[]);
    run(
        "INSERT INTO entry (hash, stream, seq, prev, lamport, wire) VALUES (?1, 1, ?2, ?3, ?2, ?4)",
        &[&hash, &seq, &prev, &vec![7_u8; sizes.wire]],
    );
    run("DELETE FROM tip WHERE hash = ?1", &[&prev]);
    run(
        "INSERT INTO tip (hash, stream, seq) VALUES (?1, 1, ?2)",
        &[&hash, &seq],
    );
    run(
        "INSERT INTO fact (kind, subject, entry, place) VALUES (2, ?1, ?2, 0)",
        &[&&hash[..16], &seq],
    );
    for size in &sizes.rows {
        run(
            "INSERT OR REPLACE INTO view (kind, subject, yard, at_ms, body) VALUES (4, ?1, ?2, ?3, ?4)",
            &[&&hash[..16], &&name(0)[..16], &seq, &vec![7_u8; *size]],
        );
    }
    run("COMMIT", &[]);
}

fn bare_transaction(conn: &rusqlite::Connection, sizes: &Sizes, number: usize) {
    let mut hash = [0_u8; 32];
    hash[..8].copy_from_slice(
        &(number as u64)
            .wrapping_mul(0x9e37_79b9_7f4a_7c15)
            .to_be_bytes(),
    );
    conn.execute_batch("BEGIN IMMEDIATE")
        .expect("a transaction");
    conn.prepare_cached("INSERT INTO entry (hash, wire) VALUES (?1, ?2)")
        .and_then(|mut s| s.execute((hash, vec![7_u8; sizes.wire])))
        .expect("a row");
    for (i, size) in sizes.rows.iter().enumerate() {
        hash[31] = u8::try_from(i).unwrap_or(u8::MAX);
        conn.prepare_cached("INSERT OR REPLACE INTO row (key, body) VALUES (?1, ?2)")
            .and_then(|mut s| s.execute((hash, vec![7_u8; *size])))
            .expect("a row");
    }
    conn.execute_batch("COMMIT").expect("a commit");
}

/// Runs under a tracer, to count flushes of one kind of write alone.
fn only(what: &str) {
    let (mut crew, yard) = crew_with_a_season();
    let sizes = sizes_of_an_action(&mut crew, yard);
    let folder = tempfile::tempdir().expect("room for temporary files");
    let conn = bare_store(folder.path());
    // A write that nobody else makes marks where counting begins and ends.
    let mark = || std::fs::create_dir(folder.path().join("mark")).is_ok();
    mark();
    for number in 0..ACTIONS {
        match what {
            "action" => act(&mut crew, yard),
            "bare" => bare_transaction(&conn, &sizes, number),
            other => panic!("nothing to measure is called {other}"),
        }
    }
    std::fs::remove_dir(folder.path().join("mark")).expect("the mark is there");
}

/// Flushes to disk between the two marks, by strace; none where strace does not run.
fn flushes(what: &str) -> Option<u64> {
    let program = std::env::current_exe().ok()?;
    let output = Command::new("strace")
        .args(["-f", "-e", "trace=fsync,fdatasync,mkdir,rmdir"])
        .arg(program)
        .args(["--only", what])
        .output()
        .ok()
        .filter(|o| o.status.success())?;
    let trace = String::from_utf8_lossy(&output.stderr);
    let between = trace
        .lines()
        .skip_while(|l| !(l.contains("mkdir(") && l.contains("/mark\"")))
        .take_while(|l| !(l.contains("rmdir(") && l.contains("/mark\"")));
    Some(between.filter(|l| l.contains("sync(")).count() as u64)
}

fn report() {
    let (mut crew, yard) = crew_with_a_season();
    let sizes = sizes_of_an_action(&mut crew, yard);
    let folder = tempfile::tempdir().expect("room for temporary files");
    let conn = bare_store(folder.path());
    let tables = same_tables(folder.path());
    let since = Instant::now();
    let (mut ours, mut bare, mut by_hand) = (0, 0, 0);
    // In blocks by turns: the system counts processor time too coarsely for a single one.
    for block in 0..ACTIONS / BLOCK {
        let start = cpu_ns(since);
        for _ in 0..BLOCK {
            act(&mut crew, yard);
        }
        let middle = cpu_ns(since);
        for number in 0..BLOCK {
            bare_transaction(&conn, &sizes, block * BLOCK + number);
        }
        ours += middle - start;
        let then = cpu_ns(since);
        for number in 0..BLOCK {
            same_rows(&tables, &sizes, block * BLOCK + number);
        }
        bare += then - middle;
        by_hand += cpu_ns(since) - then;
    }
    let each = |sum: u64| sum / ACTIONS as u64;
    let (ours, bare, by_hand) = (each(ours), each(bare), each(by_hand));
    let signing = signing_ns(&crew);
    let bytes: usize = sizes.wire + sizes.rows.iter().sum::<usize>();
    println!(
        "one action made durable ({ACTIONS} in blocks by turns with a bare transaction, means)"
    );
    println!(
        "  bytes written      {bytes} (entry {}, rows {:?})",
        sizes.wire, sizes.rows
    );
    println!(
        "  processor time     {:.0} us, of it signing {:.0} us",
        us(ours),
        us(signing)
    );
    println!("  bare transaction   {:.0} us, two tables", us(bare));
    println!(
        "  the same rows      {:.0} us, in a book's own tables by hand",
        us(by_hand)
    );
    println!(
        "  ratios             {} to the bare one, {} to the same rows, without signing (goal: at most 2.00)",
        ratio(ours.saturating_sub(signing), bare),
        ratio(ours.saturating_sub(signing), by_hand)
    );
    match (flushes("action"), flushes("bare")) {
        (Some(ours), Some(bare)) => println!(
            "  flushes to disk    {:.2} an action, {:.2} a bare transaction (goal: the same)",
            ours as f64 / ACTIONS as f64,
            bare as f64 / ACTIONS as f64
        ),
        _ => println!("  flushes to disk    not measured: strace does not run here"),
    }
}

fn us(ns: u64) -> f64 {
    ns as f64 / 1000.0
}

fn signing_ns(crew: &Crew) -> u64 {
    const TIMES: u64 = 5_000;
    let body: Body = last_entry(crew).body().clone();
    let secret = crew.phones[0].book.secret().expect("it has keys");
    let since = Instant::now();
    let start = cpu_ns(since);
    for _ in 0..TIMES {
        std::hint::black_box(sign_entry(body.clone(), secret.signing()));
    }
    (cpu_ns(since) - start) / TIMES
}
