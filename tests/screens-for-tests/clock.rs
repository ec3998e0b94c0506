//! A clock that stands still until it is moved, kept in a file; real randomness beside it.
//!
//! Randomness is not seeded, because a program started anew must not draw the same keys again.

use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

use serde_json::{Value, json};
use sward_book::Env;
use sward_book::env::{Clock, TimeProof};
use sward_book::testing::START_UTC_MS;

/// New York in June.
const OFFSET_MIN: i16 = -240;

/// The clocks of a device, moved by hand.
pub(crate) struct MovableClock {
    clock: Mutex<Clock>,
    file: PathBuf,
}

impl MovableClock {
    /// The clock as it was left in this folder, else one that a network vouches for, in the season.
    pub(crate) fn in_folder(folder: &Path) -> io::Result<Self> {
        let file = folder.join("clock-for-tests.json");
        let clock = match std::fs::read_to_string(&file) {
            Ok(text) => {
                read(&text).ok_or_else(|| io::Error::other("the clock's file is damaged"))?
            }
            Err(error) if error.kind() == io::ErrorKind::NotFound => Clock {
                utc_ms: START_UTC_MS,
                offset_min: OFFSET_MIN,
                boot: 1,
                since_boot_ms: 1_000_000,
                vouched: Some(TimeProof::Network),
            },
            Err(error) => return Err(error),
        };
        let clock = Mutex::new(clock);
        Ok(Self { clock, file })
    }

    fn change(&self, change: impl FnOnce(&mut Clock)) -> io::Result<()> {
        let mut clock = self.clock.lock().unwrap_or_else(PoisonError::into_inner);
        change(&mut clock);
        std::fs::write(&self.file, written(&clock).to_string())
    }

    /// Lets time pass.
    pub(crate) fn advance(&self, ms: u64) -> io::Result<()> {
        self.change(|clock| {
            clock.utc_ms = clock.utc_ms.saturating_add_unsigned(ms);
            clock.since_boot_ms = clock.since_boot_ms.saturating_add(ms);
        })
    }

    /// Sets the wall clock forward or back, and it alone.
    pub(crate) fn jump(&self, ms: i64) -> io::Result<()> {
        self.change(|clock| clock.utc_ms = clock.utc_ms.saturating_add(ms))
    }

    /// Starts the device anew.
    pub(crate) fn reboot(&self) -> io::Result<()> {
        self.change(|clock| {
            clock.boot += 1;
            clock.since_boot_ms = 5_000;
        })
    }

    /// Whether a network vouches for the time.
    pub(crate) fn vouch(&self, by_network: bool) -> io::Result<()> {
        self.change(|clock| clock.vouched = by_network.then_some(TimeProof::Network))
    }
}

impl Env for MovableClock {
    fn clock(&self) -> Clock {
        *self.clock.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn random(&self, bytes: &mut [u8]) {
        getrandom::fill(bytes).expect("the system gives randomness");
    }
}

fn written(clock: &Clock) -> Value {
    json!({
        "utc_ms": clock.utc_ms,
        "boot": clock.boot,
        "since_boot_ms": clock.since_boot_ms,
        "vouched": clock.vouched.is_some(),
    })
}

fn read(text: &str) -> Option<Clock> {
    let value: Value = serde_json::from_str(text).ok()?;
    Some(Clock {
        utc_ms: value["utc_ms"].as_i64()?,
        offset_min: OFFSET_MIN,
        boot: value["boot"].as_u64()?,
        since_boot_ms: value["since_boot_ms"].as_u64()?,
        vouched: value["vouched"].as_bool()?.then_some(TimeProof::Network),
    })
}
