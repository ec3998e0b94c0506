//! A seeded clock and random source, so that a whole crew runs deterministically in one process.
//! For tests and benches only.

use std::path::Path;
use std::sync::{Arc, Mutex};

use sha2::{Digest, Sha256};
use zeroize::Zeroizing;

use crate::book::{Founding, Joining};
use crate::env::{Clock, Env, TimeProof};
use crate::fact::{JoinAsked, Person};
use crate::ids::StreamId;
use crate::keys::DeviceSecret;
use crate::{Book, Result};

/// 2026-06-15 12:00 UTC, a Monday in the season.
pub const START_UTC_MS: i64 = 1_781_524_800_000;

struct State {
    clock: Clock,
    draws: u64,
}

/// A clock that moves when told to, and randomness from a seed.
pub struct TestEnv {
    seed: u64,
    state: Mutex<State>,
}

impl TestEnv {
    /// An environment whose time is vouched for by a network.
    pub fn new(seed: u64) -> Arc<Self> {
        Arc::new(Self {
            seed,
            state: Mutex::new(State {
                clock: Clock {
                    utc_ms: START_UTC_MS,
                    offset_min: -240,
                    boot: seed,
                    since_boot_ms: 1_000_000,
                    vouched: Some(TimeProof::Network),
                },
                draws: 0,
            }),
        })
    }

    fn change(&self, change: impl FnOnce(&mut Clock)) {
        change(&mut self.state.lock().expect("no panic while held").clock);
    }

    /// Lets time pass.
    pub fn pass_ms(&self, ms: u64) {
        self.change(|c| {
            c.utc_ms = c.utc_ms.saturating_add_unsigned(ms);
            c.since_boot_ms += ms;
        });
    }

    /// Sets the wall clock, as a person or a network might.
    pub fn set_wall_clock(&self, utc_ms: i64) {
        self.change(|c| c.utc_ms = utc_ms);
    }

    /// Starts the device anew.
    pub fn reboot(&self) {
        self.change(|c| {
            c.boot = c.boot.wrapping_add(1_000_003);
            c.since_boot_ms = 5_000;
        });
    }

    /// What vouches for the time by itself.
    pub fn set_vouched(&self, vouched: Option<TimeProof>) {
        self.change(|c| c.vouched = vouched);
    }
}

impl Env for TestEnv {
    fn clock(&self) -> Clock {
        self.state.lock().expect("no panic while held").clock
    }

    fn random(&self, bytes: &mut [u8]) {
        let mut state = self.state.lock().expect("no panic while held");
        for chunk in bytes.chunks_mut(32) {
            state.draws += 1;
            let mut sha = Sha256::new();
            sha.update(self.seed.to_be_bytes());
            sha.update(state.draws.to_be_bytes());
            let block: [u8; 32] = sha.finalize().into();
            chunk.copy_from_slice(&block[..chunk.len()]);
        }
    }
}

/// A person for tests.
pub fn person(name: &str) -> Person {
    Person {
        name: name.to_owned(),
        licence: String::new(),
    }
}

/// Keys for tests. The wrapping key is no real one: the book only keeps it.
pub fn secret(env: &dyn Env) -> DeviceSecret {
    DeviceSecret::new(env, Zeroizing::new("TEST-WRAPPING-KEY".to_owned()))
}

/// A book that founds a crew.
///
/// # Errors
/// As [`Book::found`].
pub fn found(folder: &Path, env: &Arc<TestEnv>, name: &str) -> Result<Book> {
    let founding = Founding {
        crew: "Test crew".to_owned(),
        practice: false,
        recovery_key: StreamId([9; 32]),
        person: person(name),
        secret: secret(env.as_ref()),
        recipient: format!("age1test{name}"),
    };
    Book::found(folder, Arc::clone(env) as Arc<dyn Env>, founding)
}

/// A book that asks to join, with its request.
///
/// # Errors
/// As [`Book::ask_to_join`].
pub fn ask(folder: &Path, env: &Arc<TestEnv>, name: &str) -> Result<(Book, JoinAsked)> {
    let joining = Joining {
        person: person(name),
        practice: false,
        secret: secret(env.as_ref()),
        recipient: format!("age1test{name}"),
    };
    let book = Book::ask_to_join(folder, Arc::clone(env) as Arc<dyn Env>, joining)?;
    let asked = book.own_request()?;
    Ok((book, asked))
}

/// Gives `to` everything that `from` has, as a swap would.
///
/// # Errors
/// As [`Book::take_in`].
pub fn give(from: &Book, to: &mut Book) -> Result<()> {
    let mut wires = Vec::new();
    for head in from.heads()? {
        wires.extend(from.wires_up_to(head.hash, None, usize::MAX)?);
    }
    let source = Some(from.secret()?.stream());
    let crew = from.crew().or(to.crew());
    match (to.crew(), crew) {
        (None, Some(crew)) => to.join_crew(crew, &wires, source)?,
        _ => to.take_in(&wires, source)?,
    };
    Ok(())
}

impl Book {
    /// Leaves the store no room for more than a few pages, as a disk that is nearly full.
    ///
    /// # Errors
    /// [`crate::BookError::Damaged`].
    pub fn fill_disk(&self) -> Result<()> {
        self.fill_store()
    }
}
