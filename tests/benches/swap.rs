//! What a swap costs: bytes and round trips when there is nothing new, a locked file's size, and
//! the bytes of each kind of entry.
//!
//! Goals: nothing new takes at most 1 KB each way and one round trip however long the log is; a
//! locked file at most 1.15 times the entries' own bytes + 300 B + 100 B a member, padding apart.

#![allow(clippy::print_stdout, reason = "a bench is read on the terminal")]

use std::collections::BTreeMap;

use sward_book::env::{Env, TimeProof};
use sward_book::fact::{DeviceKeys, Fact, TimeConfirmed};
use sward_book::ids::{Hash, StreamId};
use sward_book::log::{Body, ENTRY_FORMAT, Entry, Stamp, sign_entry};
use sward_book::testing::{START_UTC_MS, TestEnv, secret};
use sward_crew::locked::{Locking, make_locked_file};
use sward_crew::testing::{Ends, Line};
use sward_tests::crew::Crew;
use sward_tests::measure::day;

fn main() {
    entries_by_kind();
    nothing_new();
    locked_files();
}

fn stamp() -> Stamp {
    Stamp {
        utc_ms: START_UTC_MS,
        offset_min: 0,
        proof: TimeProof::Network,
    }
}

/// Entries of a device that nobody knows: logged all the same, and quick to write.
fn strangers_entries(count: usize) -> Vec<Vec<u8>> {
    let env = TestEnv::new(4_000);
    let secret = secret(env.as_ref());
    let mut prev = Hash::NONE;
    (1..=count as u64)
        .map(|seq| {
            let body = Body {
                format: ENTRY_FORMAT,
                stream: secret.stream(),
                seq,
                prev,
                seen: Vec::new(),
                lamport: seq,
                written: stamp(),
                facts: vec![Fact::TimeConfirmed(TimeConfirmed {
                    how: TimeProof::Person,
                })],
                changes: Vec::new(),
            };
            let entry = sign_entry(body, secret.signing());
            prev = entry.hash();
            entry.wire().to_vec()
        })
        .collect()
}

fn nothing_new() {
    println!("nothing new between two phones (goal: at most 1024 bytes each way, one round trip)");
    let mut crew = Crew::of(2).expect("a crew can be founded");
    let all = strangers_entries(100_000);
    let mut done = 0;
    for upto in [1_000, 10_000, 100_000] {
        for batch in all[done..upto].chunks(5_000) {
            for phone in 0..2 {
                crew.book(phone)
                    .take_in(batch, None)
                    .expect("it can be taken in");
            }
        }
        done = upto;
        crew.swap_all().expect("they can swap");
        let traffic = silent_swap(&mut crew);
        println!(
            "  {:>7} entries   {} bytes there, {} back, {} and {} messages",
            crew.phones[0]
                .book
                .entry_count()
                .expect("it can be counted"),
            traffic.0[0],
            traffic.0[1],
            traffic.1[0],
            traffic.1[1]
        );
    }
}

fn silent_swap(crew: &mut Crew) -> ([usize; 2], [usize; 2]) {
    let [a, b] = &mut crew.phones[..] else {
        panic!("two phones")
    };
    let stream = |book: &sward_book::Book| book.secret().expect("keys").stream();
    let (of_a, of_b): (StreamId, StreamId) = (stream(&a.book), stream(&b.book));
    let opens = Ends {
        stream: of_a,
        clock: stamp(),
        log: &mut a.book,
    };
    let answers = Ends {
        stream: of_b,
        clock: stamp(),
        log: &mut b.book,
    };
    let mut line = Line::open(opens, answers).expect("they can talk");
    line.run_out().expect("they can talk");
    assert!(line.is_done(), "nothing new ends at once");
    let [there, back] = line.outcomes();
    assert_eq!((there.new_entries, back.new_entries), (0, 0));
    (line.traffic().bytes, line.traffic().messages)
}

fn locked_files() {
    println!("locked files of a day of 3 phones with 20 visits each");
    let mut crew = day(3, 20).expect("a day can be written");
    crew.swap_all().expect("they can swap");
    for members in [3, 5, 10] {
        let keys: Vec<DeviceKeys> = (0..members).map(member).collect();
        let book = &crew.phones[0].book;
        let locking = Locking {
            secret: book.secret().expect("keys"),
            members: &keys,
            made: stamp(),
            since: &[],
        };
        let mut file = Vec::new();
        let made = make_locked_file(&mut file, &locking, book, book.env().as_ref())
            .expect("a file can be made");
        let unpadded = file.len() as u64 - made.padding_bytes;
        let most = made.entry_bytes as f64 * 1.15 + 300.0 + 100.0 * members as f64;
        println!(
            "  {members:>2} members   {} entries, {} bytes of their own, file {} and {} padding: {:.3} of the goal",
            made.entries,
            made.entry_bytes,
            unpadded,
            made.padding_bytes,
            unpadded as f64 / most
        );
    }
}

fn member(number: u64) -> DeviceKeys {
    let env = TestEnv::new(7_000 + number);
    let secret = sward_crew::keys::new_device_secret(env.as_ref() as &dyn Env);
    sward_crew::keys::device_keys(&secret).expect("fresh keys are sound")
}

fn entries_by_kind() {
    let mut crew = day(1, 10).expect("a day can be written");
    let mut kinds: BTreeMap<String, Vec<usize>> = BTreeMap::new();
    for wire in crew.all_wires().expect("a book can be read") {
        let entry = Entry::check(&wire).expect("it is whole");
        let body = entry.body();
        let kind = match body.facts.first() {
            Some(fact) => serde_json::to_value(fact)
                .ok()
                .and_then(|v| Some(v.get("fact")?.as_str()?.to_owned()))
                .unwrap_or_default(),
            None => format!(
                "edit of a {} sheet",
                format!("{:?}", body.changes[0].kind).to_lowercase()
            ),
        };
        kinds.entry(kind).or_default().push(wire.len());
    }
    println!("bytes of an entry, by kind (least, mean, most)");
    for (kind, sizes) in kinds {
        let sum: usize = sizes.iter().sum();
        println!(
            "  {kind:<22} {:>5} {:>5} {:>5}   of {}",
            sizes.iter().min().unwrap_or(&0),
            sum / sizes.len(),
            sizes.iter().max().unwrap_or(&0),
            sizes.len()
        );
    }
}
