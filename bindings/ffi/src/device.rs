//! What only the program around the core knows of its device, and a clock to practise with.

use std::sync::Arc;

use sward_device::PretendedClock;

/// What a device says of itself when its book is opened.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct DeviceTold {
    /// The folder for this person's data, readable by this program alone and in no backup: the
    /// device's keys lie in it.
    pub folder: String,
    /// The time zone by its IANA name, like "America/New_York".
    pub zone: String,
    /// How often the device was started, where it counts: proof of time ends with each start. None:
    /// time has to be proven anew after each start of this program.
    pub boot_count: Option<u64>,
    /// The languages the person reads, the best first, as "es-US,en".
    pub languages: String,
}

/// A clock that stands still until it is told to move: to practise with. Only practice books open
/// with it, and their records are marked.
#[derive(uniffi::Object)]
pub struct PracticeClock {
    pub(crate) clock: Arc<PretendedClock>,
}

#[uniffi::export]
impl PracticeClock {
    /// A clock that shows `utc_ms`, with the local offset from UTC in minutes, east positive; it
    /// counts as confirmed by a person.
    #[uniffi::constructor]
    pub fn new(utc_ms: i64, offset_min: i16) -> Arc<Self> {
        Arc::new(Self {
            clock: Arc::new(PretendedClock::new(utc_ms, offset_min)),
        })
    }

    /// Lets time pass, in milliseconds.
    pub fn let_pass(&self, ms: u64) {
        self.clock.pass_ms(ms);
    }

    /// Sets the wall clock, as a person or a network might.
    pub fn set_wall(&self, utc_ms: i64) {
        self.clock.set_wall(utc_ms);
    }

    /// Starts the device anew.
    pub fn reboot(&self) {
        self.clock.reboot();
    }

    /// Whether the time counts as confirmed by itself.
    pub fn vouch(&self, proven: bool) {
        self.clock.vouch(proven);
    }

    /// What the wall clock shows.
    pub fn utc_ms(&self) -> i64 {
        sward_book::Env::clock(&*self.clock).utc_ms
    }

    /// Milliseconds since the device's start.
    pub fn since_boot_ms(&self) -> u64 {
        sward_book::Env::clock(&*self.clock).since_boot_ms
    }
}

/// The core's version.
#[uniffi::export]
pub fn core_version() -> String {
    env!("CARGO_PKG_VERSION").to_owned()
}
