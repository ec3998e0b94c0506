//! A piece of ground that several treatments may have reached: whether anyone may be there, why
//! not, and when somebody has to look next.
//!
//! One treatment's own end is in [`super`]. The ground is free when all of them have ended.

use serde::{Deserialize, Serialize};

use super::{KeepOff, Now, State, Terms};
use crate::finding::Reason;
use crate::label::{LabelSays, WateringIn};

/// Whether the label wants the product watered in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WaterIn {
    /// Nobody knows: the label sheet's field is empty. There is no default.
    Open,
    /// The label does not ask for it, or asks to keep water off.
    NotAsked,
    /// The label asks for it.
    Asked,
}

impl WaterIn {
    /// Reads a label sheet's field.
    pub fn from_label(label: &LabelSays<WateringIn>) -> Self {
        match label {
            LabelSays::Unfilled => Self::Open,
            LabelSays::Nothing | LabelSays::Value(WateringIn::Withheld(_)) => Self::NotAsked,
            LabelSays::Value(WateringIn::Required(_)) => Self::Asked,
        }
    }
}

/// One treatment of a piece of ground, with the water that belongs to it.
///
/// "Dry" is a look after any watering in: for granules that the dust has settled, or that they
/// were watered in and are dry again.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Treatment {
    /// Its keep-off.
    pub keep_off: KeepOff,
    /// Whether it has to be watered in before a look can count.
    pub water_in: WaterIn,
    /// When watering it in ended, whether asked for or not, in milliseconds since 1970 UTC; the
    /// latest of several. An irrigation long after it was over is none.
    pub watered_utc_ms: Option<i64>,
}

/// What somebody has to do, or what passes, at the next moment that matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum NextStep {
    /// The clocks behind the times have to be confirmed, or compared.
    ConfirmTime,
    /// The finish has to be recorded.
    RecordFinish,
    /// The label has to be read.
    ReadLabel,
    /// It has to be watered in.
    WaterIn,
    /// Somebody has to look whether it is dry.
    Look,
    /// The wait is over, or what was noted for that moment holds from then on.
    WaitOver,
}

/// The next moment at which a state may change, or somebody has to do something; a moment that is
/// not after "now" means at once.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Next {
    /// When, in milliseconds since 1970 UTC.
    pub at_utc_ms: i64,
    /// What for.
    pub step: NextStep,
}

/// Where one treatment stands.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Standing {
    /// Its state.
    pub state: State,
    /// Why it is not over; none once it is.
    pub why: Option<Reason>,
    /// What comes next; none once it is over.
    pub next: Option<Next>,
}

/// Where a piece of ground stands.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Ground {
    /// Each treatment that still keeps people off, by its place in the list, and why.
    pub held_by: Vec<(usize, Standing)>,
    /// When the last of the treatments ended, in milliseconds since 1970 UTC, once all have.
    pub over_since_utc_ms: Option<i64>,
    /// The next moment that matters; none once all are over.
    pub next: Option<Next>,
}

impl Ground {
    /// Whether people and pets may be there, as far as the treatments that are known go.
    pub fn is_free(&self) -> bool {
        self.held_by.is_empty()
    }
}

impl Treatment {
    /// Where it stands at `now`, why, and what comes next.
    ///
    /// A look from before the watering in does not count: the watering starts "dry" anew.
    ///
    /// ```
    /// use sward_rules::finding::Reason;
    /// use sward_rules::keep_off::{DryNeed, KeepOff, Now, Terms, Treatment, Wait, WaterIn};
    /// let hour_ms = 3_600_000;
    /// let mut granules = Treatment {
    ///     keep_off: KeepOff {
    ///         claims: vec![Terms { wait: Wait::NotNeeded, dry: DryNeed::Needed }],
    ///         started_utc_ms: 0,
    ///         last_application_utc_ms: Some(hour_ms),
    ///         dry_utc_ms: Some(2 * hour_ms),
    ///         lengthen_ms: 0,
    ///     },
    ///     water_in: WaterIn::Asked,
    ///     watered_utc_ms: None,
    /// };
    /// let now = Now { utc_ms: 9 * hour_ms, proven: true };
    /// assert_eq!(granules.standing(now).why, Some(Reason::KeepOffNotWateredIn));
    /// granules.watered_utc_ms = Some(3 * hour_ms);
    /// assert_eq!(granules.standing(now).why, Some(Reason::KeepOffWetAgain));
    /// granules.keep_off.dry_utc_ms = Some(8 * hour_ms);
    /// assert!(granules.standing(now).state.is_over());
    /// ```
    pub fn standing(&self, now: Now) -> Standing {
        let counted = self.counted(now);
        let state = match counted.state(now) {
            State::RunsUntilFinish => State::RunsUntilFinish,
            _ if self.water_in == WaterIn::Open && self.needs_dry() => State::RunsUntilLabelIsRead,
            state => state,
        };
        let why = self.why(state, now);
        let next = match state {
            State::Ended { .. } => None,
            State::Runs {
                until_utc_ms,
                then_dry,
            } => Some(self.next_while_running(until_utc_ms, then_dry, now)),
            State::RunsUntilFinish => Some(NextStep::RecordFinish.at_once(now)),
            State::RunsUntilLabelIsRead => Some(NextStep::ReadLabel.at_once(now)),
            State::TimeUncertain { .. } => Some(NextStep::ConfirmTime.at_once(now)),
            State::WaitsForDry if why == Some(Reason::KeepOffNotWateredIn) => {
                Some(NextStep::WaterIn.at_once(now))
            }
            State::WaitsForDry => Some(NextStep::Look.at_once(now)),
        };
        Standing { state, why, next }
    }

    /// The keep-off with its look, where that look counts.
    fn counted(&self, now: Now) -> KeepOff {
        let mut counted = self.keep_off.clone();
        if !self.watering_allows_a_look(now) {
            counted.dry_utc_ms = None;
        }
        counted
    }

    fn watering_allows_a_look(&self, now: Now) -> bool {
        !self.is_looked_at_before_water()
            && (self.water_in == WaterIn::NotAsked || self.is_watered_in(now))
    }

    /// Whether the look may have come before the water ended: the two may be told by two clocks, and
    /// a moment is not long enough to look.
    fn is_looked_at_before_water(&self) -> bool {
        match (self.watered_utc_ms, self.keep_off.dry_utc_ms) {
            (Some(watered), Some(dry)) => {
                dry <= watered.saturating_add_unsigned(self.keep_off.lengthen_ms)
            }
            _ => false,
        }
    }

    /// Whether it was watered in after the last application. What is noted for later is not done.
    fn is_watered_in(&self, now: Now) -> bool {
        let counts_from = self.keep_off.counts_from_utc_ms();
        self.watered_utc_ms
            .is_some_and(|at| counts_from.is_some_and(|from| from <= at) && at <= now.utc_ms)
    }

    fn needs_dry(&self) -> bool {
        Terms::strictest(&self.keep_off.claims).dry == super::DryNeed::Needed
    }

    fn why(&self, state: State, now: Now) -> Option<Reason> {
        match state {
            State::Ended { .. } => None,
            State::RunsUntilFinish => Some(Reason::KeepOffNoFinish),
            State::RunsUntilLabelIsRead if Terms::strictest(&self.keep_off.claims).is_open() => {
                Some(Reason::KeepOffLabelNotRead)
            }
            State::RunsUntilLabelIsRead => Some(Reason::KeepOffWateringNotRead),
            State::Runs { .. } => Some(Reason::KeepOffWaits),
            State::TimeUncertain { .. } if now.proven => Some(Reason::KeepOffClocksApart),
            State::TimeUncertain { .. } => Some(Reason::KeepOffTimeNotProven),
            State::WaitsForDry if self.water_in == WaterIn::Asked && !self.is_watered_in(now) => {
                Some(Reason::KeepOffNotWateredIn)
            }
            State::WaitsForDry if self.is_looked_at_before_water() => Some(Reason::KeepOffWetAgain),
            State::WaitsForDry => Some(Reason::KeepOffLook),
        }
    }

    /// A look or a watering that bears a time still to come changes what is asked for before the
    /// wait is over.
    fn next_while_running(&self, until_utc_ms: i64, then_dry: bool, now: Now) -> Next {
        let noted = [self.keep_off.dry_utc_ms, self.watered_utc_ms];
        let sooner = noted
            .into_iter()
            .flatten()
            .filter(|at| (now.utc_ms.saturating_add(1)..until_utc_ms).contains(at))
            .min();
        match sooner {
            Some(at_utc_ms) => Next {
                at_utc_ms,
                step: NextStep::WaitOver,
            },
            None => Next {
                at_utc_ms: until_utc_ms,
                step: if then_dry {
                    NextStep::Look
                } else {
                    NextStep::WaitOver
                },
            },
        }
    }
}

impl NextStep {
    fn at_once(self, now: Now) -> Next {
        Next {
            at_utc_ms: now.utc_ms,
            step: self,
        }
    }
}

/// Where a piece of ground stands at `now`, given every treatment that may have reached it. It is
/// free when all have ended; no treatment at all keeps nobody off.
pub fn ground<'a>(treatments: impl IntoIterator<Item = &'a Treatment>, now: Now) -> Ground {
    let mut ground = Ground {
        held_by: Vec::new(),
        over_since_utc_ms: None,
        next: None,
    };
    for (number, treatment) in treatments.into_iter().enumerate() {
        let standing = treatment.standing(now);
        if let State::Ended { at_utc_ms, .. } = standing.state {
            ground.over_since_utc_ms = ground.over_since_utc_ms.max(Some(at_utc_ms));
            continue;
        }
        ground.next = match (ground.next, standing.next) {
            (Some(a), Some(b)) => Some(a.min(b)),
            (a, b) => a.or(b),
        };
        ground.held_by.push((number, standing));
    }
    if !ground.is_free() {
        ground.over_since_utc_ms = None;
    }
    ground
}

/// Whether two sections share ground.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Touch {
    /// They lie apart.
    Apart,
    /// They overlap.
    Overlap,
    /// Nobody knows: counts as overlapping.
    NotKnown,
}

/// The treatments that may have reached `section`: its own, and those of every section that is not
/// known to lie apart from it.
///
/// ```
/// use sward_rules::keep_off::{Touch, reaching};
/// let treated = [("front", 1), ("back", 2), ("side", 3)];
/// let touch = |a: &&str, b: &&str| match (*a, *b) {
///     ("front", "back") => Touch::Apart,
///     _ => Touch::NotKnown,
/// };
/// let reached: Vec<_> = reaching(&"front", &treated, touch).collect();
/// assert_eq!(reached, [&1, &3]);
/// ```
pub fn reaching<'a, S: PartialEq, T>(
    section: &'a S,
    treated: &'a [(S, T)],
    touch: impl Fn(&S, &S) -> Touch + 'a,
) -> impl Iterator<Item = &'a T> {
    treated
        .iter()
        .filter(move |(on, _)| on == section || touch(section, on) != Touch::Apart)
        .map(|(_, treatment)| treatment)
}

#[cfg(test)]
mod tests;
