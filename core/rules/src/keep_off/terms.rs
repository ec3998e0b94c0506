//! What a keep-off's claims ask for: a wait, dryness, or an answer that nobody has given yet.
//!
//! Reading the label's words is here; when the keep-off ends is in [`super`].

use serde::{Deserialize, Serialize};

use crate::label::{KeepOffTerms, LabelSays};
use crate::quantity::Entered;

/// The wait after the last application.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Wait {
    /// Nobody knows: the label sheet's field is empty, or holds no time that can be waited for.
    Open,
    /// The label sets no wait; only ever beside a need to be dry.
    NotNeeded,
    /// This long in real elapsed time, in milliseconds.
    LastsMs(u64),
}

/// Whether a person must see the lawn dry.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum DryNeed {
    /// Nobody knows: the label sheet's field is empty.
    Open,
    /// The label does not ask for it; only ever beside a wait.
    NotNeeded,
    /// A person has to look and say so.
    Needed,
}

/// What one claim asks for before people and pets may come back.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Terms {
    /// The wait.
    pub wait: Wait,
    /// Dryness.
    pub dry: DryNeed,
}

impl Terms {
    /// Terms that nobody has settled yet: the keep-off runs until a person reads the label.
    pub const OPEN: Self = Self {
        wait: Wait::Open,
        dry: DryNeed::Open,
    };

    /// Reads a label sheet's two fields. It cannot fail: what is empty, silent on both points, or
    /// cannot be waited for, is open, because a keep-off must never end on a misreading.
    ///
    /// A wait is rounded up to a whole second. A silent label still asks for dryness or a wait by
    /// somebody's word, so a label read as saying nothing (or "no" and zero) on both is open.
    ///
    /// ```
    /// use sward_rules::keep_off::{DryNeed, Terms, Wait};
    /// use sward_rules::label::{KeepOffTerms, LabelSays};
    /// let mut label = KeepOffTerms::default();
    /// assert_eq!(Terms::from_label(&label), Terms::OPEN);
    /// label.until_dry = LabelSays::Value(true);
    /// label.wait = LabelSays::Nothing;
    /// let terms = Terms::from_label(&label);
    /// assert_eq!(terms, Terms { wait: Wait::NotNeeded, dry: DryNeed::Needed });
    /// ```
    pub fn from_label(label: &KeepOffTerms) -> Self {
        let wait = match &label.wait {
            LabelSays::Unfilled => Wait::Open,
            LabelSays::Nothing => Wait::NotNeeded,
            LabelSays::Value(entered) => wait_from(entered),
        };
        let dry = match &label.until_dry {
            LabelSays::Unfilled => DryNeed::Open,
            LabelSays::Nothing | LabelSays::Value(false) => DryNeed::NotNeeded,
            LabelSays::Value(true) => DryNeed::Needed,
        };
        let terms = Self { wait, dry };
        if terms.asks_nothing() {
            Self::OPEN
        } else {
            terms
        }
    }

    /// Whether a person has to read the label before this claim can end.
    pub fn is_open(self) -> bool {
        self.wait == Wait::Open || self.dry == DryNeed::Open || self.asks_nothing()
    }

    /// The strictest of all claims: the longest wait, dryness if any claim needs it, open if any
    /// claim is open. No claim at all is open.
    pub fn strictest(claims: &[Self]) -> Self {
        if claims.is_empty() || claims.iter().any(|c| c.is_open()) {
            return Self::OPEN;
        }
        let wait = claims
            .iter()
            .filter_map(|c| c.wait_ms())
            .max()
            .map_or(Wait::NotNeeded, Wait::LastsMs);
        let needs_dry = claims.iter().any(|c| c.dry == DryNeed::Needed);
        Self {
            wait,
            dry: if needs_dry {
                DryNeed::Needed
            } else {
                DryNeed::NotNeeded
            },
        }
    }

    /// The wait in milliseconds, where one is set.
    pub(super) fn wait_ms(self) -> Option<u64> {
        match self.wait {
            Wait::LastsMs(ms) => Some(ms),
            Wait::Open | Wait::NotNeeded => None,
        }
    }

    fn asks_nothing(self) -> bool {
        matches!(self.wait, Wait::NotNeeded | Wait::LastsMs(0)) && self.dry == DryNeed::NotNeeded
    }
}

fn wait_from(entered: &Entered) -> Wait {
    let seconds = entered
        .to_seconds_up()
        .ok()
        .and_then(|s| u64::try_from(s).ok());
    match seconds.and_then(|s| s.checked_mul(1000)) {
        None => Wait::Open,
        Some(0) => Wait::NotNeeded,
        Some(ms) => Wait::LastsMs(ms),
    }
}
