//! Keep-offs: who stays off the lawn, and until when.
//!
//! One rule stands above all others here: what is not known, not proven or not recorded never ends
//! a keep-off. Which facts stand, and which were superseded, is for the book to say.

mod ground;
mod place;
mod terms;

pub use ground::{Ground, Next, NextStep, Standing, Touch, Treatment, WaterIn, ground, reaching};
pub use place::{PlaceAsks, SiteKind, WorkerClaim, asks_longer, place_claim, worker_claim};
pub use terms::{DryNeed, Terms, Wait};

use serde::{Deserialize, Serialize};

/// How far the recording device's clock may have been off before the time counts as uncertain: up
/// to this a keep-off is lengthened by the difference. Ten minutes, by design of this book.
pub const LENGTHEN_MOST_MS: u64 = 10 * 60 * 1000;

/// The time now, and whether anything besides this device's clock vouches for it.
///
/// A caller that knows an earlier time to have been proven may ask with that one: what had ended
/// then has ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Now {
    /// Milliseconds since 1970 UTC by the device's clock.
    pub utc_ms: i64,
    /// Whether a location fix, a peer, the network or a person confirmed it since the last start
    /// or jump of the clock.
    pub proven: bool,
}

/// All that bears on one keep-off.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct KeepOff {
    /// The terms of every claim that nobody superseded. None at all is as open as an empty label.
    pub claims: Vec<Terms>,
    /// The first start, in milliseconds since 1970 UTC.
    pub started_utc_ms: i64,
    /// The last application, once a finish is recorded; of several finishes the latest.
    pub last_application_utc_ms: Option<i64>,
    /// The latest time at which a person who looked said that it is dry.
    pub dry_utc_ms: Option<i64>,
    /// By how much the clocks of the recording devices may have been off, whichever way.
    pub lengthen_ms: u64,
}

/// What ended a keep-off.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum EndedBy {
    /// The wait is over, and nothing more was asked.
    Time,
    /// A person saw it dry, and nothing more was asked.
    Dry,
    /// Both were asked, and both have come.
    Both,
}

/// Where a keep-off stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", tag = "state")]
pub enum State {
    /// No finish is recorded, so it has no end yet.
    RunsUntilFinish,
    /// Some claim is open until a person enters what the label says.
    RunsUntilLabelIsRead,
    /// The wait runs.
    Runs {
        /// When the wait is over, in milliseconds since 1970 UTC.
        until_utc_ms: i64,
        /// Whether a person still has to see it dry as well.
        then_dry: bool,
    },
    /// Any wait is over; a person has to look whether it is dry.
    WaitsForDry,
    /// The time is not proven, or that of the record is too far off: never shown as over.
    TimeUncertain {
        /// By the record's clock it cannot be over before this, where that can be said.
        not_before_utc_ms: Option<i64>,
        /// Whether a person still has to see it dry as well.
        then_dry: bool,
    },
    /// It is over.
    Ended {
        /// What ended it.
        by: EndedBy,
        /// When, in milliseconds since 1970 UTC.
        at_utc_ms: i64,
    },
}

impl State {
    /// Whether people and pets may come back, as far as this keep-off goes.
    pub fn is_over(self) -> bool {
        matches!(self, Self::Ended { .. })
    }
}

/// When a device should ring, and what for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Alarm {
    /// When, in milliseconds since 1970 UTC.
    pub at_utc_ms: i64,
    /// Whether the wait's end only means that a person should now look whether it is dry.
    pub then_look: bool,
}

enum WaitIs {
    Over(Option<i64>),
    Running(i64),
    Uncertain(Option<i64>),
}

impl KeepOff {
    /// Where the keep-off stands at `now`.
    ///
    /// The wait is real elapsed time from the last application, so that no change of clock or zone
    /// moves it. A "dry" from before the last application, or from after `now`, does not count.
    ///
    /// ```
    /// use sward_rules::keep_off::{DryNeed, EndedBy, KeepOff, Now, State, Terms, Wait};
    /// let hour_ms = 3_600_000;
    /// let keep_off = KeepOff {
    ///     claims: vec![Terms { wait: Wait::LastsMs(4 * 3_600_000), dry: DryNeed::Needed }],
    ///     started_utc_ms: 0,
    ///     last_application_utc_ms: Some(hour_ms),
    ///     dry_utc_ms: Some(3 * hour_ms),
    ///     lengthen_ms: 0,
    /// };
    /// let at = |h: i64| keep_off.state(Now { utc_ms: h * hour_ms, proven: true });
    /// assert_eq!(at(4), State::Runs { until_utc_ms: 5 * hour_ms, then_dry: false });
    /// assert_eq!(at(5), State::Ended { by: EndedBy::Both, at_utc_ms: 5 * hour_ms });
    /// ```
    pub fn state(&self, now: Now) -> State {
        let Some(counts_from) = self.counts_from_utc_ms() else {
            return State::RunsUntilFinish;
        };
        let terms = Terms::strictest(&self.claims);
        if terms.is_open() {
            return State::RunsUntilLabelIsRead;
        }
        let needs_dry = terms.dry == DryNeed::Needed;
        let dry_at = self
            .dry_utc_ms
            .filter(|at| needs_dry && (counts_from..=now.utc_ms).contains(at));
        let then_dry = needs_dry && dry_at.is_none();

        match self.wait_at(counts_from, terms, now) {
            WaitIs::Running(until_utc_ms) => State::Runs {
                until_utc_ms,
                then_dry,
            },
            WaitIs::Uncertain(not_before_utc_ms) => State::TimeUncertain {
                not_before_utc_ms,
                then_dry,
            },
            // Somebody said "dry", but the clocks are too far apart to tell that it came after.
            WaitIs::Over(_)
                if then_dry && self.dry_utc_ms.is_some() && self.lengthen_ms > LENGTHEN_MOST_MS =>
            {
                State::TimeUncertain {
                    not_before_utc_ms: None,
                    then_dry,
                }
            }
            WaitIs::Over(until) => match (until, dry_at) {
                _ if then_dry => State::WaitsForDry,
                (Some(until), Some(dry)) => State::Ended {
                    by: EndedBy::Both,
                    at_utc_ms: until.max(dry),
                },
                (Some(at_utc_ms), None) => State::Ended {
                    by: EndedBy::Time,
                    at_utc_ms,
                },
                (None, Some(at_utc_ms)) => State::Ended {
                    by: EndedBy::Dry,
                    at_utc_ms,
                },
                (None, None) => State::RunsUntilLabelIsRead,
            },
        }
    }

    /// When the device should ring next for this keep-off; none while no end can be told.
    pub fn next_alarm(&self, now: Now) -> Option<Alarm> {
        match self.state(now) {
            State::Runs {
                until_utc_ms,
                then_dry,
            } => Some(Alarm {
                at_utc_ms: until_utc_ms,
                then_look: then_dry,
            }),
            _ => None,
        }
    }

    fn counts_from_utc_ms(&self) -> Option<i64> {
        // A finish that bears a time before the start comes from a clock that was set back.
        let last = self.last_application_utc_ms?.max(self.started_utc_ms);
        Some(last.saturating_add_unsigned(self.lengthen_ms))
    }

    fn wait_at(&self, counts_from: i64, terms: Terms, now: Now) -> WaitIs {
        let Some(wait_ms) = terms.wait_ms() else {
            return WaitIs::Over(None);
        };
        let until = counts_from.saturating_add_unsigned(wait_ms);
        if self.lengthen_ms > LENGTHEN_MOST_MS {
            WaitIs::Uncertain(None)
        } else if !now.proven {
            WaitIs::Uncertain(Some(until))
        } else if now.utc_ms < until {
            WaitIs::Running(until)
        } else {
            WaitIs::Over(Some(until))
        }
    }
}

/// When the device should ring next for any of these keep-offs.
pub fn next_alarm(keep_offs: &[KeepOff], now: Now) -> Option<Alarm> {
    keep_offs.iter().filter_map(|k| k.next_alarm(now)).min()
}

#[cfg(test)]
mod tests;
