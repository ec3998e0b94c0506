//! The device a book runs on: its clock and its randomness; in a practice book, a pretended clock.
//!
//! Whether a pretended clock may be used is decided where a book is opened. What a clock proves is
//! the book's business.

mod boot;
mod pretended;

use std::sync::{Mutex, PoisonError};
use std::time::{SystemTime, UNIX_EPOCH};

use chrono::{Offset as _, TimeZone as _};
use chrono_tz::Tz;
use sward_book::Env;
use sward_book::env::Clock;

pub use pretended::PretendedClock;

use boot::Running;

/// What the device offers.
pub struct DeviceEnv {
    zone: Mutex<Tz>,
    running: Running,
}

impl DeviceEnv {
    /// The device's own clock and randomness, in the zone that its system tells; UTC where it
    /// tells none.
    pub fn of_the_system() -> Self {
        Self::new(system_zone(), None)
    }

    /// The same in `zone`, on a device that counts its own starts: `boot_count` differs after each
    /// of them. Where nobody counts, the system's name for this start is taken; where it has none
    /// either, each start of the program counts as one, and time has to be proven anew.
    pub fn new(zone: Tz, boot_count: Option<u64>) -> Self {
        Self {
            zone: Mutex::new(zone),
            running: Running::new(boot_count, &system_random),
        }
    }

    /// The zone the device is in.
    pub fn zone(&self) -> Tz {
        *self.zone.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Takes another zone: the device was carried, or set.
    pub fn set_zone(&self, zone: Tz) {
        *self.zone.lock().unwrap_or_else(PoisonError::into_inner) = zone;
    }
}

impl Env for DeviceEnv {
    fn clock(&self) -> Clock {
        let utc_ms = match SystemTime::now().duration_since(UNIX_EPOCH) {
            Ok(since) => i64::try_from(since.as_millis()).unwrap_or(i64::MAX),
            Err(before) => i64::try_from(before.duration().as_millis()).map_or(i64::MIN, |ms| -ms),
        };
        let (boot, since_boot_ms) = self.running.now();
        Clock {
            utc_ms,
            offset_min: offset_min(self.zone(), utc_ms),
            boot,
            since_boot_ms,
            vouched: None,
        }
    }

    fn random(&self, bytes: &mut [u8]) {
        system_random(bytes);
    }
}

/// A zone's offset from UTC at a moment, in minutes, east positive.
fn offset_min(zone: Tz, utc_ms: i64) -> i16 {
    zone.timestamp_millis_opt(utc_ms)
        .single()
        .and_then(|at| i16::try_from(at.offset().fix().local_minus_utc() / 60).ok())
        .unwrap_or(0)
}

fn system_random(bytes: &mut [u8]) {
    getrandom::fill(bytes).expect("without the system's randomness no key can be made");
}

fn system_zone() -> Tz {
    iana_time_zone::get_timezone()
        .ok()
        .and_then(|name| name.parse().ok())
        .unwrap_or(Tz::UTC)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_real_clock_vouches_for_nothing_and_runs_on() {
        let env = DeviceEnv::of_the_system();
        let (first, second) = (env.clock(), env.clock());
        assert_eq!(first.vouched, None);
        assert_eq!(first.boot, second.boot);
        assert!(second.since_boot_ms >= first.since_boot_ms);
        assert!(first.utc_ms > 1_700_000_000_000, "{}", first.utc_ms);
    }

    #[test]
    fn a_start_that_the_device_counts_is_told_from_the_next() {
        let boot = |count| DeviceEnv::new(Tz::UTC, Some(count)).clock().boot;
        assert_eq!(boot(7), boot(7));
        assert_ne!(boot(7), boot(8));
    }

    #[test]
    fn a_zone_that_changes_moves_the_offset_and_not_the_time() {
        let env = DeviceEnv::new(Tz::UTC, None);
        let before = env.clock();
        env.set_zone(chrono_tz::Asia::Kolkata);
        let after = env.clock();
        assert_eq!((before.offset_min, after.offset_min), (0, 330));
        assert!(after.utc_ms - before.utc_ms < 60_000);
    }
}
