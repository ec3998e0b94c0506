//! Visits to one yard that may be one job, entered on two phones.

use minicbor::{Decode, Encode};
use serde::Serialize;

use super::visit::{VisitState, VisitView};
use crate::ids::{SheetId, VisitId};

/// Two visits opened within this time may be one job: a working day.
const ONE_JOB_WITHIN_MS: u64 = 12 * 60 * 60 * 1000;

/// Pairs of visits to one yard of which a person should say whether they are one job.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct TwiceView {
    /// The yard.
    #[n(0)]
    pub yard: SheetId,
    /// Each pair, the earlier visit first.
    #[n(1)]
    pub pairs: Vec<(VisitId, VisitId)>,
}

/// `visits` are all visits to the yard.
pub(crate) fn twice_of(yard: SheetId, visits: &[VisitView]) -> Option<TwiceView> {
    let mut opened: Vec<(i64, &VisitView)> = visits
        .iter()
        .filter_map(|v| Some((v.opened?.utc_ms, v)))
        .collect();
    opened.sort_by_key(|(at, v)| (*at, v.visit));
    let mut pairs = Vec::new();
    for (i, (at, a)) in opened.iter().enumerate() {
        for (later, b) in &opened[i + 1..] {
            if later.abs_diff(*at) > ONE_JOB_WITHIN_MS {
                break;
            }
            if may_be_one_job(a, b) {
                pairs.push((a.visit, b.visit));
            }
        }
    }
    (!pairs.is_empty()).then_some(TwiceView { yard, pairs })
}

fn may_be_one_job(a: &VisitView, b: &VisitView) -> bool {
    let openers = |v: &VisitView| v.history.first().map(|line| line.by);
    let done = |v: &VisitView| matches!(v.state, VisitState::Treating | VisitState::Finished);
    let said = a.one_job_with.contains(&b.visit)
        || b.one_job_with.contains(&a.visit)
        || a.other_job_than.contains(&b.visit)
        || b.other_job_than.contains(&a.visit);
    done(a) && done(b) && openers(a) != openers(b) && !said
}
