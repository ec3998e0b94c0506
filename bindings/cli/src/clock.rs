//! The real clock and the system's randomness for a book; in a practice book, a pretended clock.
//!
//! Whether a pretended clock may be used is decided where a book is opened ([`crate::app`]).

use std::time::{Instant, SystemTime, UNIX_EPOCH};

use chrono::{DateTime, FixedOffset, Offset as _, TimeZone as _};
use chrono_tz::Tz;
use sward_book::Env;
use sward_book::env::{Clock, TimeProof};

/// What the device offers, or pretends.
pub(crate) struct SystemEnv {
    zone: Tz,
    started: Instant,
    /// Where the system does not tell one start from another, each start of this program is one.
    boot_if_untold: u64,
    pretended: Option<DateTime<FixedOffset>>,
}

impl SystemEnv {
    /// The device's clock, or, in practice, the pretended one: it stands still.
    pub(crate) fn new(pretended: Option<DateTime<FixedOffset>>) -> Self {
        let mut boot = [0; 8];
        system_random(&mut boot);
        Self {
            zone: device_zone(),
            started: Instant::now(),
            boot_if_untold: u64::from_be_bytes(boot),
            pretended,
        }
    }

    /// Whether the clock is pretended.
    pub(crate) fn is_pretended(&self) -> bool {
        self.pretended.is_some()
    }

    /// The device's time zone; UTC where the system does not tell.
    pub(crate) fn zone(&self) -> Tz {
        self.zone
    }

    fn real_clock(&self) -> Clock {
        let utc_ms = match SystemTime::now().duration_since(UNIX_EPOCH) {
            Ok(since) => i64::try_from(since.as_millis()).unwrap_or(i64::MAX),
            Err(before) => i64::try_from(before.duration().as_millis()).map_or(i64::MIN, |ms| -ms),
        };
        let (boot, since_boot_ms) = boot_told_by_system().unwrap_or_else(|| {
            let ran_ms = u64::try_from(self.started.elapsed().as_millis()).unwrap_or(u64::MAX);
            (self.boot_if_untold, ran_ms)
        });
        let offset_min = self
            .zone
            .timestamp_millis_opt(utc_ms)
            .single()
            .map_or(0, |at| minutes(at.offset().fix()));
        Clock {
            utc_ms,
            offset_min,
            boot,
            since_boot_ms,
            vouched: None,
        }
    }
}

impl Env for SystemEnv {
    fn clock(&self) -> Clock {
        match self.pretended {
            Some(at) => Clock {
                utc_ms: at.timestamp_millis(),
                offset_min: minutes(*at.offset()),
                boot: 0,
                since_boot_ms: 0,
                vouched: Some(TimeProof::Person),
            },
            None => self.real_clock(),
        }
    }

    fn random(&self, bytes: &mut [u8]) {
        system_random(bytes);
    }
}

fn system_random(bytes: &mut [u8]) {
    getrandom::fill(bytes).expect("without the system's randomness no key can be made");
}

fn minutes(offset: FixedOffset) -> i16 {
    i16::try_from(offset.local_minus_utc() / 60).unwrap_or(0)
}

fn device_zone() -> Tz {
    iana_time_zone::get_timezone()
        .ok()
        .and_then(|name| name.parse().ok())
        .unwrap_or(Tz::UTC)
}

/// Which start of the device this is, and how long ago it was, sleep included.
#[cfg(target_os = "linux")]
fn boot_told_by_system() -> Option<(u64, u64)> {
    let id = std::fs::read_to_string("/proc/sys/kernel/random/boot_id").ok()?;
    let (high, low) = id.trim().parse::<uuid::Uuid>().ok()?.as_u64_pair();
    // Seconds since the start with two decimals, by CLOCK_BOOTTIME.
    let uptime = std::fs::read_to_string("/proc/uptime").ok()?;
    let (seconds, hundredths) = uptime.split_ascii_whitespace().next()?.split_once('.')?;
    let (seconds, hundredths): (u64, u64) = (seconds.parse().ok()?, hundredths.parse().ok()?);
    Some((
        high ^ low,
        seconds.checked_mul(1000)?.checked_add(hundredths * 10)?,
    ))
}

#[cfg(not(target_os = "linux"))]
fn boot_told_by_system() -> Option<(u64, u64)> {
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_real_clock_vouches_for_nothing_and_runs_on() {
        let env = SystemEnv::new(None);
        let (first, second) = (env.clock(), env.clock());
        assert_eq!(first.vouched, None);
        assert_eq!(first.boot, second.boot);
        assert!(second.since_boot_ms >= first.since_boot_ms);
        assert!(first.utc_ms > 1_700_000_000_000, "{}", first.utc_ms);
    }

    #[test]
    fn a_pretended_clock_stands_still_and_counts_as_a_persons() {
        let at = DateTime::parse_from_rfc3339("2026-06-15T08:30:00-04:00").unwrap();
        let clock = SystemEnv::new(Some(at)).clock();
        assert_eq!(clock.utc_ms, 1_781_526_600_000);
        assert_eq!(clock.offset_min, -240);
        assert_eq!(clock.vouched, Some(TimeProof::Person));
    }
}
