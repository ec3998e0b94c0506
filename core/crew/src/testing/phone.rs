//! A phone without a disk: keys, a clock, a log in memory.

use std::sync::Arc;

use age::secrecy::ExposeSecret as _;
use sward_book::env::{Env as _, TimeProof};
use sward_book::fact::{
    Admitted, DeviceKeys, Fact, Founded, JoinAsked, Retired, Role, TimeConfirmed,
};
use sward_book::ids::{Hash, StreamId};
use sward_book::keys::DeviceSecret;
use sward_book::log::{Body, ENTRY_FORMAT, Entry, Head, Stamp, digest_of_heads, sign_entry};
use sward_book::testing::{TestEnv, person};
use zeroize::Zeroizing;

use super::MemoryLog;
use crate::Log as _;
use crate::keys::device_keys;
use crate::locked::{Locking, Made, Opener, Taken, make_locked_file, take_locked_file};

/// A phone.
pub struct Phone {
    /// Its keys.
    pub secret: DeviceSecret,
    /// Its clock and randomness.
    pub env: Arc<TestEnv>,
    /// What it holds.
    pub log: MemoryLog,
}

impl Phone {
    /// A phone with nothing in it. The age identity comes from the system.
    pub fn new(seed: u64) -> Self {
        let identity = age::x25519::Identity::generate().to_string();
        Self::with_identity(seed, identity.expose_secret())
    }

    /// A phone with nothing in it and a given age identity.
    pub fn with_identity(seed: u64, identity: &str) -> Self {
        let env = TestEnv::new(seed);
        let secret = DeviceSecret::new(env.as_ref(), Zeroizing::new(identity.to_owned()));
        Self {
            secret,
            env,
            log: MemoryLog::default(),
        }
    }

    /// A phone that has founded a crew.
    pub fn founder(seed: u64) -> Self {
        let mut phone = Self::new(seed);
        phone.found();
        phone
    }

    /// A phone that has asked to join.
    pub fn joiner(seed: u64) -> Self {
        let mut phone = Self::new(seed);
        phone.ask();
        phone
    }

    /// A founder, and a phone that it has admitted and that has joined by a locked file.
    pub fn crew_of_two() -> (Self, Self) {
        let mut lead = Self::founder(1);
        let mut second = Self::joiner(2);
        lead.admit(&second);
        let (file, _) = lead
            .lock_for(&[second.keys()])
            .expect("it can be locked for the second");
        second.take(&file).expect("the second joins");
        (lead, second)
    }

    /// One hash over all that it holds.
    pub fn digest(&self) -> Hash {
        digest_of_heads(&self.log.heads().expect("memory is readable"))
    }

    /// Founds a crew.
    pub fn found(&mut self) -> Entry {
        let founded = Founded {
            crew: "Practice crew".into(),
            practice: true,
            recovery_key: StreamId([9; 32]),
            device: self.keys(),
            person: person("A. Tester"),
        };
        self.write(vec![Fact::Founded(founded)])
    }

    /// Asks to join; gives the first entry.
    pub fn ask(&mut self) -> Entry {
        let asked = JoinAsked {
            device: self.keys(),
            person: person("A. Tester"),
            was: None,
        };
        self.write(vec![Fact::JoinAsked(asked)])
    }

    /// Admits another phone, whose first entry is taken in.
    pub fn admit(&mut self, other: &Self) {
        let first = other
            .log
            .entries()
            .find(|e| e.body().stream == other.stream());
        let first = first.expect("it has asked").wire().to_vec();
        self.log
            .take_in(&[first], other.stream())
            .expect("memory takes it");
        let admitted = Admitted {
            device: other.keys(),
            person: person("A. Tester"),
            role: Role::Applicator,
        };
        self.write(vec![Fact::Admitted(admitted)]);
    }

    /// Retires a stream.
    pub fn retire(&mut self, stream: StreamId, last: Option<Head>) {
        self.write(vec![Fact::Retired(Retired {
            stream,
            last,
            why: "lost".into(),
        })]);
    }

    /// Writes so many entries that mean little.
    pub fn work(&mut self, entries: usize) {
        for _ in 0..entries {
            self.write(vec![Fact::TimeConfirmed(TimeConfirmed {
                how: TimeProof::Person,
            })]);
        }
    }

    /// Writes one entry after the end of the own branch.
    pub fn write(&mut self, facts: Vec<Fact>) -> Entry {
        let heads = self.log.heads().expect("memory is readable");
        let own = heads
            .iter()
            .filter(|h| h.stream == self.stream())
            .max_by_key(|h| h.seq);
        let (seq, prev) = own.map_or((1, Hash::NONE), |h| (h.seq + 1, h.hash));
        let entry = self.sign(seq, prev, facts);
        self.log.add_own(entry.clone());
        entry
    }

    /// Signs an entry without storing it.
    pub fn sign(&self, seq: u64, prev: Hash, facts: Vec<Fact>) -> Entry {
        let body = Body {
            format: ENTRY_FORMAT,
            stream: self.stream(),
            seq,
            prev,
            seen: Vec::new(),
            lamport: self.log.lamport_max() + 1,
            written: self.stamp(),
            facts,
            changes: Vec::new(),
        };
        sign_entry(body, self.secret.signing())
    }

    /// Its clock as a stamp.
    pub fn stamp(&self) -> Stamp {
        let clock = self.env.clock();
        let proof = clock.vouched.unwrap_or(TimeProof::Unproven);
        Stamp {
            utc_ms: clock.utc_ms,
            offset_min: clock.offset_min,
            proof,
        }
    }

    /// Its stream.
    pub fn stream(&self) -> StreamId {
        self.secret.stream()
    }

    /// Its public keys.
    pub fn keys(&self) -> DeviceKeys {
        device_keys(&self.secret).expect("its identity is whole")
    }

    /// Locks everything it holds for the phones with these keys.
    ///
    /// # Errors
    /// As [`make_locked_file`].
    pub fn lock_for(&self, members: &[DeviceKeys]) -> crate::Result<(Vec<u8>, Made)> {
        self.lock_since(members, &[])
    }

    /// Locks what comes after `since`.
    ///
    /// # Errors
    /// As [`make_locked_file`].
    pub fn lock_since(
        &self,
        members: &[DeviceKeys],
        since: &[Hash],
    ) -> crate::Result<(Vec<u8>, Made)> {
        let locking = Locking {
            secret: &self.secret,
            members,
            made: self.stamp(),
            since,
        };
        let mut file = Vec::new();
        let made = make_locked_file(&mut file, &locking, &self.log, self.env.as_ref())?;
        Ok((file, made))
    }

    /// Takes a locked file.
    ///
    /// # Errors
    /// As [`take_locked_file`].
    pub fn take(&mut self, file: &[u8]) -> crate::Result<Taken> {
        let opener = Opener::new(&self.secret)?;
        take_locked_file(std::io::Cursor::new(file), &opener, &mut self.log)
    }
}
