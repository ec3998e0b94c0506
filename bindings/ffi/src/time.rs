//! The time, and what proves it. A keep-off is never told as over by a time that nothing proves.

use sward_book::book::TimeHeard;
use sward_book::env;

use crate::{Result, Swardbook};

/// What vouches for the device's clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Enum)]
pub enum TimeProof {
    /// Nothing: it was started anew or jumped. Keep-offs are "time uncertain".
    Unproven,
    /// A person confirmed it.
    Person,
    /// A network or satellites.
    Network,
    /// Another phone of the crew.
    Peer,
}

/// The time to compute with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Record)]
pub struct TimeNow {
    /// Milliseconds since 1970 in UTC, set back by what this clock is known to be ahead.
    pub utc_ms: i64,
    /// Whether it may be relied on.
    pub proven: bool,
    /// What vouches for the device's clock.
    pub proof: TimeProof,
}

/// Who told a time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Enum)]
pub enum TimeSource {
    /// The phone's network.
    Network,
    /// A location fix by satellites.
    Satellites,
}

/// What came of a time that was told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Enum)]
pub enum TimeAnswer {
    /// It confirms the device's clock, which was not proven before.
    Confirmed,
    /// It fits a clock that was proven already.
    ConfirmedBefore,
    /// The device's clock shows another time, and counts as not proven from now on: tell the
    /// person to set it.
    ClockDiffers,
}

#[uniffi::export]
impl Swardbook {
    /// The time to compute with, and what proves it.
    pub fn time(&self) -> Result<TimeNow> {
        self.with(|open| {
            open.books.reading(|book| {
                let now = book.now()?;
                Ok(TimeNow {
                    utc_ms: now.utc_ms,
                    proven: now.proven,
                    proof: book.time_proof()?.into(),
                })
            })
        })
    }

    /// Holds the device's clock against a time that was told from outside: `utc_ms` was right when
    /// the device had run for `since_boot_ms`, sleep included.
    pub fn time_told(&self, by: TimeSource, utc_ms: i64, since_boot_ms: u64) -> Result<TimeAnswer> {
        // Both are a clock that somebody keeps; the book knows them as one kind of proof.
        let (TimeSource::Network | TimeSource::Satellites) = by;
        self.with(|open| {
            open.books.writing(|book| {
                let heard = book.hear_time(env::TimeProof::Network, utc_ms, since_boot_ms)?;
                Ok(heard.into())
            })
        })
    }

    /// The person compared the device's clock with another and says that it is right. It holds
    /// until the clock jumps or the device is started anew.
    pub fn person_confirms_time(&self) -> Result<()> {
        self.with(|open| {
            let confirm = |book: &mut sward_book::Book| {
                book.confirm_time(env::TimeProof::Person)?;
                Ok(())
            };
            open.books.writing(confirm)
        })
    }
}

impl From<env::TimeProof> for TimeProof {
    fn from(proof: env::TimeProof) -> Self {
        match proof {
            env::TimeProof::Unproven => Self::Unproven,
            env::TimeProof::Person => Self::Person,
            env::TimeProof::Network => Self::Network,
            env::TimeProof::Peer => Self::Peer,
        }
    }
}

impl From<TimeHeard> for TimeAnswer {
    fn from(heard: TimeHeard) -> Self {
        match heard {
            TimeHeard::Confirmed => Self::Confirmed,
            TimeHeard::ConfirmedBefore => Self::ConfirmedBefore,
            TimeHeard::Differs => Self::ClockDiffers,
        }
    }
}
