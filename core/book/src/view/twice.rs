//! Visits to one yard that may be one job, entered on two phones.
//!
//! A row is a pair, so that a new visit looks only at the visits of the same day, however many a
//! yard has had.

use minicbor::{Decode, Encode};
use serde::Serialize;

use super::visit::{VisitState, VisitView};
use crate::ids::{SheetId, VisitId};

/// Two visits opened within this time may be one job: a working day.
pub(crate) const ONE_JOB_WITHIN_MS: i64 = 12 * 60 * 60 * 1000;

/// Two visits to one yard of which a person should say whether they are one job.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct TwiceView {
    /// The yard.
    #[n(0)]
    pub yard: SheetId,
    /// The visit that was opened earlier.
    #[n(1)]
    pub earlier: VisitId,
    /// The other.
    #[n(2)]
    pub later: VisitId,
}

/// The row of two visits to `yard`; none when there is nothing to ask.
pub(crate) fn twice_of(yard: SheetId, a: &VisitView, b: &VisitView) -> Option<TwiceView> {
    let (at_a, at_b) = (a.opened?.utc_ms, b.opened?.utc_ms);
    let near = at_a.abs_diff(at_b) <= ONE_JOB_WITHIN_MS.unsigned_abs();
    let (earlier, later) = in_order(a, b);
    (near && may_be_one_job(a, b)).then_some(TwiceView {
        yard,
        earlier,
        later,
    })
}

/// What names the row of two visits.
pub(crate) fn pair_key(a: &VisitView, b: &VisitView) -> Vec<u8> {
    let (earlier, later) = in_order(a, b);
    [*earlier.0.as_bytes(), *later.0.as_bytes()].concat()
}

fn in_order(a: &VisitView, b: &VisitView) -> (VisitId, VisitId) {
    let at = |v: &VisitView| (v.opened.map(|o| o.utc_ms), v.visit);
    if at(a) <= at(b) {
        (a.visit, b.visit)
    } else {
        (b.visit, a.visit)
    }
}

fn may_be_one_job(a: &VisitView, b: &VisitView) -> bool {
    let opener = |v: &VisitView| v.history.first().map(|line| line.by);
    let done = |v: &VisitView| matches!(v.state, VisitState::Treating | VisitState::Finished);
    let said = a.one_job_with.contains(&b.visit)
        || b.one_job_with.contains(&a.visit)
        || a.other_job_than.contains(&b.visit)
        || b.other_job_than.contains(&a.visit);
    done(a) && done(b) && opener(a) != opener(b) && !said
}
