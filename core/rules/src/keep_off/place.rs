//! What a place, or the federal worker rule at a sod farm, adds to a label's keep-off.
//!
//! Both only ever add a claim, and the strictest claim decides: so neither can shorten.

use serde::Serialize;

use super::terms::{DryNeed, Terms, Wait};
use crate::finding::Reason;
use crate::label::{KeepOffTerms, LabelSays};
use crate::quantity::Entered;

/// What a place's own rule asks for before people and pets come back, as a person read it. By
/// default it asks for nothing of its own.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct PlaceAsks {
    /// A time to wait after the last application.
    pub wait: Option<Entered>,
    /// Whether the lawn must be seen dry.
    pub until_dry: bool,
}

/// The claim that a place's rule makes beside the label's; none where it asks for nothing of its
/// own. A wait that cannot be waited for leaves the keep-off open, like a misread label.
///
/// ```
/// use sward_rules::Entered;
/// use sward_rules::keep_off::{PlaceAsks, Terms, Wait, place_claim};
/// use sward_rules::label::{KeepOffTerms, LabelSays};
/// let hours = |text| Entered::parse(text).ok();
/// let label = Terms::from_label(&KeepOffTerms {
///     until_dry: LabelSays::Nothing,
///     wait: LabelSays::Value(Entered::parse("24 h")?),
/// });
/// let with = |wait| {
///     let place = place_claim(&PlaceAsks { wait, until_dry: false });
///     let claims: Vec<Terms> = std::iter::once(label).chain(place).collect();
///     Terms::strictest(&claims).wait
/// };
/// assert_eq!(with(hours("72 h")), Wait::LastsMs(72 * 3_600_000));
/// assert_eq!(with(hours("1 h")), Wait::LastsMs(24 * 3_600_000));
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
pub fn place_claim(asks: &PlaceAsks) -> Option<Terms> {
    if asks.wait.is_none() && !asks.until_dry {
        return None;
    }
    if !asks.until_dry && asks.wait.is_some_and(|wait| is_no_wait(&wait)) {
        return None;
    }
    let wait = asks.wait.map_or(LabelSays::Nothing, LabelSays::Value);
    let until_dry = LabelSays::Value(asks.until_dry);
    Some(Terms::from_label(&KeepOffTerms { until_dry, wait }))
}

/// A time of nothing asks for nothing. An amount of another kind was misread, and is no such time.
fn is_no_wait(wait: &Entered) -> bool {
    wait.is_zero() && wait.to_time().is_ok()
}

/// Whether a place's claim keeps people off for longer than the label's claims do.
pub fn asks_longer(label: &[Terms], place: Terms) -> bool {
    let alone = Terms::strictest(label);
    let mut both = label.to_vec();
    both.push(place);
    !label.is_empty() && Terms::strictest(&both) != alone
}

/// What kind of place is treated, as far as the federal worker rule asks (40 CFR 170.103, text of
/// 2007; the part runs from 170.301 now, from memory).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum SiteKind {
    /// Nobody has said.
    #[default]
    NotSaid,
    /// A lawn kept for looks, a home's or a park's: the worker rule leaves it out.
    Lawn,
    /// A farm that grows sod: inside the worker rule.
    SodFarm,
}

/// What the federal worker rule adds.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct WorkerClaim {
    /// The claim it makes; none for a lawn, whatever interval the label prints for workers.
    pub claim: Option<Terms>,
    /// Why.
    pub reason: Reason,
}

/// What the label's interval for farm workers means here. On a lawn it is never shown as the
/// lawn's rule; at a sod farm it counts, and an interval that nobody read leaves it open.
///
/// ```
/// use sward_rules::Entered;
/// use sward_rules::keep_off::{SiteKind, Terms, worker_claim};
/// use sward_rules::label::LabelSays;
/// let interval = LabelSays::Value(Entered::parse("12 h")?);
/// assert_eq!(worker_claim(SiteKind::Lawn, &interval).claim, None);
/// assert!(worker_claim(SiteKind::SodFarm, &interval).claim.is_some());
/// assert_eq!(worker_claim(SiteKind::NotSaid, &interval).claim, Some(Terms::OPEN));
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
pub fn worker_claim(site: SiteKind, interval: &LabelSays<Entered>) -> WorkerClaim {
    let (claim, reason) = match site {
        SiteKind::Lawn => (None, Reason::WorkerIntervalNotForLawns),
        SiteKind::NotSaid => (Some(Terms::OPEN), Reason::WorkerSiteNotSaid),
        SiteKind::SodFarm => {
            let terms = Terms::from_label(&KeepOffTerms {
                until_dry: LabelSays::Nothing,
                wait: interval.clone(),
            });
            let counts = matches!(terms.wait, Wait::LastsMs(_)) && terms.dry == DryNeed::NotNeeded;
            // A label that prints none falls under the federal one, which is not here.
            let claim = if counts { terms } else { Terms::OPEN };
            (Some(claim), Reason::WorkerIntervalAtSodFarm)
        }
    };
    WorkerClaim { claim, reason }
}
