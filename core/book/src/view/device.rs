//! A device's clock, as the others have seen it.

use minicbor::{Decode, Encode};
use serde::Serialize;

use crate::env::TimeProof;
use crate::fact::ClockSeen;
use crate::ids::StreamId;
use crate::log::Stamp;

/// One look at two clocks side by side.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct ClockLook {
    /// The device whose clock it is about: entries up to this number are touched by it.
    #[n(0)]
    pub up_to_seq: u64,
    /// The other device.
    #[n(1)]
    pub beside: StreamId,
    /// By how much the two differ at least, in milliseconds.
    #[n(2)]
    pub differs_ms: u64,
}

/// What is known of a device's clock.
#[derive(Debug, Clone, Default, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct DeviceView {
    /// Looks that put this device's clock in doubt.
    #[n(0)]
    pub looks: Vec<ClockLook>,
    /// The last entry in which the device confirmed its clock; 0 when it never did.
    #[n(1)]
    pub confirmed_seq: u64,
}

/// One look as recorded: who looked, in which entry, and how sure of the own clock.
pub(crate) struct Look<'a> {
    pub(crate) by: StreamId,
    pub(crate) seq: u64,
    pub(crate) at: Stamp,
    pub(crate) seen: &'a ClockSeen,
}

impl DeviceView {
    /// Computes what the looks say about `device`, and its own confirmations.
    ///
    /// The one who is looked at is in doubt. So is the one who looks, unless its own time was
    /// proven when it did.
    pub(crate) fn compute(device: StreamId, looks: &[Look<'_>], confirmed_seq: u64) -> Self {
        let mut found = Vec::new();
        for look in looks {
            let least = look.seen.ahead_ms_least.unwrap_or(0);
            let most = look.seen.ahead_ms_most.unwrap_or(least);
            let differs_ms = least.unsigned_abs().max(most.unsigned_abs());
            if look.seen.stream == device {
                found.push(ClockLook {
                    up_to_seq: look.seen.seq,
                    beside: look.by,
                    differs_ms,
                });
            } else if look.by == device && look.at.proof == TimeProof::Unproven {
                found.push(ClockLook {
                    up_to_seq: look.seq,
                    beside: look.seen.stream,
                    differs_ms,
                });
            }
        }
        Self {
            looks: found,
            confirmed_seq,
        }
    }

    /// By how many milliseconds the time of one of its entries may be off.
    ///
    /// A look touches the entries before it; and later ones too while their time is unproven,
    /// because nobody has set the clock right.
    pub fn doubt_ms(&self, seq: u64, at: Stamp) -> u64 {
        self.looks
            .iter()
            .filter(|l| seq <= l.up_to_seq || at.proof == TimeProof::Unproven)
            .map(|l| l.differs_ms)
            .max()
            .unwrap_or(0)
    }

    /// By how many milliseconds the device's clock may be off now: looks after its last
    /// confirmation.
    pub fn doubt_now_ms(&self) -> u64 {
        self.looks
            .iter()
            .filter(|l| l.up_to_seq >= self.confirmed_seq)
            .map(|l| l.differs_ms)
            .max()
            .unwrap_or(0)
    }
}
