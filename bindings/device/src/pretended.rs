//! A clock that stands still until it is told to move: to practise with, and for tests.

use std::sync::{Mutex, MutexGuard, PoisonError};

use sward_book::Env;
use sward_book::env::{Clock, TimeProof};

use crate::system_random;

/// A pretended clock with the system's randomness. For practice books only: every record made with
/// it is marked.
///
/// ```
/// use sward_book::Env as _;
/// use sward_device::PretendedClock;
///
/// let noon = 1_781_524_800_000;
/// let pretended = PretendedClock::new(noon, -240);
/// pretended.pass_ms(90_000);
/// assert_eq!(pretended.clock().utc_ms, noon + 90_000);
/// ```
pub struct PretendedClock {
    clock: Mutex<Clock>,
}

impl PretendedClock {
    /// A clock that shows `utc_ms` (milliseconds since 1970 in UTC) with a local offset in
    /// minutes, east positive; a person vouches for it.
    pub fn new(utc_ms: i64, offset_min: i16) -> Self {
        Self {
            clock: Mutex::new(Clock {
                utc_ms,
                offset_min,
                boot: 0,
                since_boot_ms: 0,
                vouched: Some(TimeProof::Person),
            }),
        }
    }

    fn held(&self) -> MutexGuard<'_, Clock> {
        self.clock.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Lets time pass.
    pub fn pass_ms(&self, ms: u64) {
        let mut clock = self.held();
        clock.utc_ms = clock.utc_ms.saturating_add_unsigned(ms);
        clock.since_boot_ms = clock.since_boot_ms.saturating_add(ms);
    }

    /// Sets the wall clock, as a person or a network might.
    pub fn set_wall(&self, utc_ms: i64) {
        self.held().utc_ms = utc_ms;
    }

    /// Starts the device anew.
    pub fn reboot(&self) {
        let mut clock = self.held();
        clock.boot = clock.boot.wrapping_add(1);
        clock.since_boot_ms = 0;
    }

    /// Whether a person vouches for the time by itself.
    pub fn vouch(&self, vouched: bool) {
        self.held().vouched = vouched.then_some(TimeProof::Person);
    }
}

impl Env for PretendedClock {
    fn clock(&self) -> Clock {
        *self.held()
    }

    fn random(&self, bytes: &mut [u8]) {
        system_random(bytes);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_stands_still_and_counts_as_a_persons() {
        let pretended = PretendedClock::new(1_781_526_600_000, -240);
        let clock = pretended.clock();
        assert_eq!(clock, pretended.clock());
        assert_eq!((clock.utc_ms, clock.offset_min), (1_781_526_600_000, -240));
        assert_eq!(clock.vouched, Some(TimeProof::Person));
    }

    #[test]
    fn a_new_start_counts_from_nothing() {
        let pretended = PretendedClock::new(0, 0);
        pretended.pass_ms(5_000);
        let before = pretended.clock();
        pretended.reboot();
        let after = pretended.clock();
        assert_ne!(before.boot, after.boot);
        assert_eq!((before.since_boot_ms, after.since_boot_ms), (5_000, 0));
        assert_eq!(after.utc_ms, 5_000);
    }
}
