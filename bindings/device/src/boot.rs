//! Which start of the device this is, and how long it has run since, sleep included.

#[cfg(not(any(target_os = "linux", target_os = "android")))]
use std::time::Instant;

/// The device's present start.
pub(crate) struct Running {
    boot: u64,
    #[cfg(not(any(target_os = "linux", target_os = "android")))]
    program_began: Instant,
}

impl Running {
    /// Tells this start by `count`, else by what the system calls it, else by chance.
    pub(crate) fn new(count: Option<u64>, random: &dyn Fn(&mut [u8])) -> Self {
        let boot = count.or_else(named_by_system).unwrap_or_else(|| {
            let mut boot = [0; 8];
            random(&mut boot);
            u64::from_be_bytes(boot)
        });
        Self {
            boot,
            #[cfg(not(any(target_os = "linux", target_os = "android")))]
            program_began: Instant::now(),
        }
    }

    /// The start, and milliseconds since.
    #[cfg(any(target_os = "linux", target_os = "android"))]
    pub(crate) fn now(&self) -> (u64, u64) {
        use rustix::time::{ClockId, clock_gettime};
        // The one that counts on while the device sleeps.
        let since = clock_gettime(ClockId::Boottime);
        let seconds = u64::try_from(since.tv_sec).unwrap_or(0);
        let ms = u64::try_from(since.tv_nsec / 1_000_000).unwrap_or(0);
        (self.boot, seconds.saturating_mul(1000).saturating_add(ms))
    }

    /// The start, and milliseconds since.
    #[cfg(not(any(target_os = "linux", target_os = "android")))]
    pub(crate) fn now(&self) -> (u64, u64) {
        let ran = self.program_began.elapsed().as_millis();
        (self.boot, u64::try_from(ran).unwrap_or(u64::MAX))
    }
}

#[cfg(target_os = "linux")]
fn named_by_system() -> Option<u64> {
    let id = std::fs::read_to_string("/proc/sys/kernel/random/boot_id").ok()?;
    let (high, low) = id.trim().parse::<uuid::Uuid>().ok()?.as_u64_pair();
    Some(high ^ low)
}

/// Phones do not let a program read it: whoever starts this one tells the count.
#[cfg(not(target_os = "linux"))]
fn named_by_system() -> Option<u64> {
    None
}
