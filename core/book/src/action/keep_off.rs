//! Keep-offs: what a person states about their end.

use sward_rules::label::KeepOffTerms;

use super::reason;
use crate::fact::{Fact, KeepOffClaimed, KeepOffReleased, LookedDry};
use crate::ids::{KeepOffId, VisitId};
use crate::refusal::KeepOffRefusal;
use crate::view::keep_off::KeepOffView;
use crate::{Book, BookError, Result};

impl Book {
    /// States anew what must be true before anyone comes back, in place of every claim known
    /// here: a longer time, a shorter one with its reason, or what an empty field of the label
    /// sheet should have said.
    ///
    /// # Errors
    /// [`BookError::Refused`] without a reason, [`BookError::NotFound`].
    pub fn claim_keep_off(
        &mut self,
        visit: VisitId,
        keep_off: KeepOffId,
        terms: KeepOffTerms,
        why: &str,
    ) -> Result<()> {
        let why = reason(why)?;
        let view = self.keep_off(visit, keep_off)?;
        let supersedes = view.standing_claims().map(|c| c.fact).collect();
        self.record(Fact::KeepOffClaimed(KeepOffClaimed {
            visit,
            keep_off,
            supersedes,
            terms,
            why,
        }))
    }

    /// Confirms the claims as they stand: another phone's shortening that did not see this one
    /// does not set it aside.
    ///
    /// # Errors
    /// [`BookError::Refused`] without a reason, [`BookError::NotFound`].
    pub fn confirm_keep_off(
        &mut self,
        visit: VisitId,
        keep_off: KeepOffId,
        why: &str,
    ) -> Result<()> {
        let why = reason(why)?;
        let view = self.keep_off(visit, keep_off)?;
        let facts: Vec<Fact> = view
            .standing_claims()
            .map(|claim| {
                Fact::KeepOffClaimed(KeepOffClaimed {
                    visit,
                    keep_off,
                    supersedes: Vec::new(),
                    terms: claim.terms.clone(),
                    why: why.clone(),
                })
            })
            .collect();
        self.write(|w| {
            for fact in facts {
                w.fact(fact);
            }
            Ok(())
        })
    }

    /// "I looked: it is dry", for these keep-offs and no other. Only for someone who looked.
    ///
    /// # Errors
    /// [`BookError::Refused`] when the look lies before the last application known here, before a
    /// finish, or still to come; [`BookError::NotFound`].
    pub fn looked_dry(
        &mut self,
        visit: VisitId,
        keep_offs: &[KeepOffId],
        looked_utc_ms: i64,
    ) -> Result<()> {
        if keep_offs.is_empty() {
            return Err(BookError::refused(KeepOffRefusal::NoSectionLookedAt));
        }
        self.must_not_be_to_come(looked_utc_ms)?;
        let views: Vec<KeepOffView> = keep_offs
            .iter()
            .map(|id| self.keep_off(visit, *id))
            .collect::<Result<_>>()?;
        let mut saw = Vec::new();
        for view in &views {
            let Some(last_ms) = view.last_applied_utc_ms else {
                return Err(BookError::refused(KeepOffRefusal::TreatingNotFinished {
                    section: view.name.clone(),
                }));
            };
            if looked_utc_ms < last_ms {
                return Err(BookError::refused(KeepOffRefusal::LookedTooEarly {
                    section: view.name.clone(),
                }));
            }
            saw.extend(view.applications.iter().copied());
        }
        saw.sort_unstable();
        saw.dedup();
        let keep_offs = keep_offs.to_vec();
        self.record(Fact::LookedDry(LookedDry {
            visit,
            keep_offs,
            looked_utc_ms,
            saw,
        }))
    }

    /// Lifts a keep-off: a crew lead's decision, with its reason.
    ///
    /// # Errors
    /// [`BookError::Refused`] when this device is no crew lead's or without a reason;
    /// [`BookError::NotFound`].
    pub fn release_keep_off(
        &mut self,
        visit: VisitId,
        keep_off: KeepOffId,
        why: &str,
    ) -> Result<()> {
        let why = reason(why)?;
        if !self.roster().is_lead(self.secret()?.stream()) {
            return Err(BookError::refused(KeepOffRefusal::OnlyCrewLeadLifts));
        }
        let view = self.keep_off(visit, keep_off)?;
        let mut supersedes: Vec<_> = view.standing_claims().map(|c| c.fact).collect();
        supersedes.extend(view.applications.iter().copied());
        supersedes.sort_unstable();
        supersedes.dedup();
        self.record(Fact::KeepOffReleased(KeepOffReleased {
            visit,
            keep_off,
            supersedes,
            why,
        }))
    }
}
