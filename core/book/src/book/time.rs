//! Time: whether the own clock is proven, and what is learnt of others' clocks.
//!
//! A wall clock alone proves nothing. Once something vouches for it, it stays proven as long as
//! it runs on beside the clock that counts from the device's start.

use minicbor::{Decode, Encode};
use sward_rules::keep_off::{LENGTHEN_MOST_MS, Now};

use super::{ANCHOR, Book};
use crate::Result;
use crate::env::{Clock, TimeProof};
use crate::fact::{ClockSeen, Fact, TimeConfirmed};
use crate::ids::StreamId;
use crate::log::Stamp;
use crate::refusal::StoreRefusal;
use crate::view::device::DeviceView;

/// How far the wall clock may drift from the one that counts on before it has jumped.
pub(super) const JUMP_MS: u64 = 30_000;
/// A difference between two clocks is written down when it widens what is known by more.
const WIDENS_MS: u64 = 30_000;

/// When the clock was last vouched for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Encode, Decode)]
struct Anchor {
    #[n(0)]
    boot: u64,
    #[n(1)]
    since_boot_ms: u64,
    #[n(2)]
    utc_ms: i64,
    #[n(3)]
    proof: TimeProof,
}

impl Anchor {
    fn proof_at(&self, clock: Clock) -> TimeProof {
        let ran_ms = clock.since_boot_ms.checked_sub(self.since_boot_ms);
        let told_ms = clock.utc_ms.checked_sub(self.utc_ms);
        match (ran_ms, told_ms) {
            (Some(ran), Some(told))
                if self.boot == clock.boot && told.abs_diff(ran.cast_signed()) <= JUMP_MS =>
            {
                self.proof
            }
            _ => TimeProof::Unproven,
        }
    }
}

/// What two clocks side by side show of another device's clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ClockDifference {
    /// The other device.
    pub stream: StreamId,
    /// Its last entry, as told with the time.
    pub seq: u64,
    /// Ahead of the own clock by at least this many milliseconds.
    pub ahead_ms_least: Option<i64>,
    /// Ahead by at most this (negative: behind); known only where both were asked.
    pub ahead_ms_most: Option<i64>,
}

impl Book {
    /// How the own clock is proven now.
    ///
    /// # Errors
    /// [`crate::BookError::Damaged`].
    pub fn time_proof(&self) -> Result<TimeProof> {
        self.proof_at(self.env.clock())
    }

    fn proof_at(&self, clock: Clock) -> Result<TimeProof> {
        if let Some(proof) = clock.vouched {
            return Ok(proof);
        }
        let anchor = self.store.local(ANCHOR)?;
        Ok(anchor
            .and_then(|bytes| minicbor::decode::<Anchor>(&bytes).ok())
            .map_or(TimeProof::Unproven, |anchor| anchor.proof_at(clock)))
    }

    /// The time for computing with: set back by what the own clock is known to be ahead, and
    /// unproven when nobody vouches for it or others saw it far off.
    ///
    /// # Errors
    /// [`crate::BookError::Damaged`].
    pub fn now(&self) -> Result<Now> {
        self.now_at(self.env.clock())
    }

    /// The same for one reading of the clock.
    pub(super) fn now_at(&self, clock: Clock) -> Result<Now> {
        let proven = self.proof_at(clock)? != TimeProof::Unproven;
        let doubt_ms = match &self.secret {
            Some(secret) => self
                .row::<DeviceView>(&secret.stream().0)?
                .map_or(0, |device| device.doubt_now_ms()),
            None => 0,
        };
        Ok(Now {
            // Early is the dangerous side: a keep-off may only ever look longer.
            utc_ms: clock
                .utc_ms
                .saturating_sub_unsigned(doubt_ms.min(LENGTHEN_MOST_MS)),
            proven: proven && doubt_ms <= LENGTHEN_MOST_MS,
        })
    }

    pub(crate) fn stamp(&self) -> Result<Stamp> {
        let clock = self.env.clock();
        Ok(Stamp {
            utc_ms: clock.utc_ms,
            offset_min: clock.offset_min,
            proof: self.time_proof()?,
        })
    }

    /// Vouches for the own clock: a person who compared it, a network's time, a peer's proven
    /// clock. It is written down, and holds until the clock jumps or the device starts anew.
    ///
    /// # Errors
    /// [`crate::BookError::Refused`] for `Unproven`; as [`Book::write`].
    pub fn confirm_time(&mut self, how: TimeProof) -> Result<()> {
        if how == TimeProof::Unproven {
            return Err(crate::BookError::refused(
                StoreRefusal::TimeConfirmedByNobody,
            ));
        }
        self.must_be_writable()?;
        let clock = self.env.clock();
        let anchor = Anchor {
            boot: clock.boot,
            since_boot_ms: clock.since_boot_ms,
            utc_ms: clock.utc_ms,
            proof: how,
        };
        let bytes = minicbor::to_vec(anchor).expect("a vector takes every write");
        self.store.set_local(ANCHOR, &bytes)?;
        self.write(|w| {
            w.fact(Fact::TimeConfirmed(TimeConfirmed { how }));
            Ok(())
        })
    }

    /// Nothing vouches for the own clock any more, until it is confirmed again.
    pub(super) fn doubt_time(&mut self) -> Result<()> {
        self.must_be_writable()?;
        self.store.remove_local(ANCHOR)
    }

    /// Writes down what was seen of another device's clock, if that widens what is known by more
    /// than 30 seconds. Returns whether it did.
    ///
    /// # Errors
    /// As [`Book::write`].
    pub fn note_clock(&mut self, difference: ClockDifference) -> Result<bool> {
        let least = difference.ahead_ms_least.unwrap_or(0);
        let most = difference.ahead_ms_most.unwrap_or(least);
        let differs_ms = least.unsigned_abs().max(most.unsigned_abs());
        let known_ms = self
            .row::<DeviceView>(&difference.stream.0)?
            .and_then(|d| {
                let touching = d.looks.iter().filter(|l| l.up_to_seq >= difference.seq);
                touching.map(|l| l.differs_ms).max()
            })
            .unwrap_or(0);
        if differs_ms <= known_ms.saturating_add(WIDENS_MS) {
            return Ok(false);
        }
        self.write(|w| {
            w.fact(Fact::ClockSeen(ClockSeen {
                stream: difference.stream,
                seq: difference.seq,
                ahead_ms_least: difference.ahead_ms_least,
                ahead_ms_most: difference.ahead_ms_most,
            }));
            Ok(())
        })?;
        Ok(true)
    }
}
