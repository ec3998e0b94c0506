//! What a book is given from outside: the clock, and randomness.
//!
//! Passed in, so that a whole crew runs deterministically in one process. The real ones live in
//! the program around the core.

use minicbor::{Decode, Encode};
use serde::Serialize;
use uuid::Uuid;

/// How far a wall-clock time can be relied on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Encode, Decode, Serialize)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum TimeProof {
    /// Nothing but the device's own clock: after a reboot or a jump.
    #[n(0)]
    Unproven,
    /// A person confirmed it against another clock, and it has run on since.
    #[n(1)]
    Person,
    /// A network time or a satellite fix, and it has run on since.
    #[n(2)]
    Network,
    /// Another device's proven clock, learnt at a swap.
    #[n(3)]
    Peer,
}

/// What the device's clocks say at one moment.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Clock {
    /// Wall clock: milliseconds since 1970 in UTC.
    pub utc_ms: i64,
    /// The device's offset from UTC in minutes, east positive.
    pub offset_min: i16,
    /// Which start of the device this is; a new value after each reboot.
    pub boot: u64,
    /// Milliseconds since that start, counted on while the device sleeps and untouched by
    /// changes of the wall clock.
    pub since_boot_ms: u64,
    /// Proof that the system itself vouches for, if it does.
    pub vouched: Option<TimeProof>,
}

/// Clock and randomness for one device.
pub trait Env: Send + Sync {
    /// What the clocks say now.
    fn clock(&self) -> Clock;

    /// Fills `bytes` from a source fit for keys.
    fn random(&self, bytes: &mut [u8]);

    /// A UUID of version 7: time-ordered, from this environment's clock and randomness.
    fn new_uuid(&self) -> Uuid {
        let mut random = [0; 10];
        self.random(&mut random);
        let ms = u64::try_from(self.clock().utc_ms).unwrap_or(0);
        uuid::Builder::from_unix_timestamp_millis(ms, &random).into_uuid()
    }
}

impl<E: Env + ?Sized> Env for std::sync::Arc<E> {
    fn clock(&self) -> Clock {
        (**self).clock()
    }
    fn random(&self, bytes: &mut [u8]) {
        (**self).random(bytes);
    }
}
