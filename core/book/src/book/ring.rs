//! When this device has to ring for the keep-offs that run, and what for.

use serde::Serialize;
use sward_rules::keep_off::{Now, State};

use super::Book;
use crate::Result;
use crate::env::TimeProof;
use crate::refusal::StoreRefusal;
use crate::view::keep_off::{KeepOffView, Standing};

/// What a person is called for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum RingFor {
    /// The wait is over then, and nothing more is asked.
    WaitOver,
    /// The wait is over then: somebody has to look whether it is dry.
    Look,
    /// It cannot be over before then, but the time is not proven: somebody has to confirm it.
    ConfirmTime,
}

/// One call.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Ring {
    /// When this device's own wall clock shows that time, in milliseconds since 1970 in UTC. It
    /// runs behind by what the clock is known to be ahead of others: a call never comes early.
    pub at_device_utc_ms: i64,
    /// What for.
    pub what: RingFor,
}

/// What came of a time that somebody told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum TimeHeard {
    /// It confirms the device's clock, which was not proven before.
    Confirmed,
    /// It fits a clock that was proven already; nothing was written down.
    ConfirmedBefore,
    /// The device's clock shows another time: from now on it counts as not proven.
    Differs,
}

impl Book {
    /// When to ring for a keep-off, judged at `now`; none when it is over, and when no time ends
    /// it but a person has to act first.
    ///
    /// # Errors
    /// [`crate::BookError::Damaged`].
    pub fn ring_for(&self, keep_off: &KeepOffView, now: Now) -> Result<Option<Ring>> {
        // One reading: the same keep-off must not be called for at two times that differ by nothing.
        let clock = self.env.clock();
        let ahead_ms = clock.utc_ms.saturating_sub(self.now_at(clock)?.utc_ms);
        let ring = |at_utc_ms: i64, what| Ring {
            at_device_utc_ms: at_utc_ms.saturating_add(ahead_ms.max(0)),
            what,
        };
        Ok(match keep_off.standing(now) {
            Standing::ByClaims(State::TimeUncertain {
                not_before_utc_ms, ..
            }) => not_before_utc_ms.map(|at_utc_ms| ring(at_utc_ms, RingFor::ConfirmTime)),
            Standing::ByClaims(_) => {
                let alarm = keep_off.for_rules().next_alarm(now);
                let what = |then_look| {
                    if then_look {
                        RingFor::Look
                    } else {
                        RingFor::WaitOver
                    }
                };
                alarm.map(|alarm| ring(alarm.at_utc_ms, what(alarm.then_look)))
            }
            Standing::Released => None,
        })
    }

    /// Holds the device's clock against a time that a network or satellites told: `told_utc_ms`
    /// was right when the device had run for `told_since_boot_ms`. A clock that fits is proven
    /// from now on; one that differs is not, whoever vouched for it before.
    ///
    /// # Errors
    /// [`crate::BookError::Refused`] for a time that nobody tells, or from before this start of the
    /// device or still to come; as [`Book::confirm_time`].
    pub fn hear_time(
        &mut self,
        how: TimeProof,
        told_utc_ms: i64,
        told_since_boot_ms: u64,
    ) -> Result<TimeHeard> {
        let clock = self.env.clock();
        let Some(age_ms) = clock.since_boot_ms.checked_sub(told_since_boot_ms) else {
            return Err(crate::BookError::refused(StoreRefusal::TimeToldToCome));
        };
        let should_show_ms = told_utc_ms.saturating_add_unsigned(age_ms);
        if clock.utc_ms.abs_diff(should_show_ms) > super::time::JUMP_MS {
            self.doubt_time()?;
            return Ok(TimeHeard::Differs);
        }
        if self.time_proof()? != TimeProof::Unproven {
            return Ok(TimeHeard::ConfirmedBefore);
        }
        self.confirm_time(how)?;
        Ok(TimeHeard::Confirmed)
    }
}
