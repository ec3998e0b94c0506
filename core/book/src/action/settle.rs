//! Corrections, and settling what two phones recorded differently.

use super::{is_of_visit, reason};
use crate::fact::{Corrected, Fact, FinishChosen, LateSettled, OneJob, Replacement};
use crate::ids::{FactId, KeepOffId, VisitId};
use crate::refusal::SettleRefusal;
use crate::{Book, BookError, Result, Thing};

impl Book {
    /// Supersedes facts of a visit by what holds instead. They stay in the history. A finish is
    /// corrected by [`Book::correct_finish`]; what ends a keep-off by a claim.
    ///
    /// # Errors
    /// [`BookError::Refused`] without a reason or when the replacement does not fit,
    /// [`BookError::NotFound`] for a fact that is not of the visit.
    pub fn correct(
        &mut self,
        visit: VisitId,
        supersedes: Vec<FactId>,
        new: Replacement,
        why: &str,
    ) -> Result<()> {
        let why = reason(why)?;
        if supersedes.is_empty() {
            return Err(BookError::refused(SettleRefusal::NothingToCorrect));
        }
        for fact in &supersedes {
            is_of_visit(self, visit, *fact)?;
            let (_, old) = self.fact(*fact)?;
            if !fits(&old, &new) {
                return Err(BookError::refused(SettleRefusal::NotLikeByLike));
            }
        }
        if visit_of(&new).is_some_and(|of| of != visit) {
            return Err(BookError::refused(SettleRefusal::OfAnotherVisit));
        }
        match &new {
            Replacement::Loaded(load) => self.check_load(load)?,
            Replacement::Counted(count) => {
                sward_rules::look::density(&count.samples)?;
            }
            Replacement::WindMeasured(wind) => super::check_readings(&wind.readings)?,
            _ => {}
        }
        self.write(|w| {
            w.fact(Fact::Corrected(Corrected {
                visit,
                supersedes,
                why,
                new,
            }));
            Ok(())
        })
    }

    /// Supersedes the finishes known here by one made anew from the facts as they stand now.
    ///
    /// # Errors
    /// [`BookError::Refused`] when there is no finish, or without a reason.
    pub fn correct_finish(
        &mut self,
        visit: VisitId,
        done: &[(KeepOffId, i64)],
        note: &str,
        why: &str,
    ) -> Result<()> {
        let why = reason(why)?;
        let supersedes: Vec<FactId> = self.visit(visit)?.finishes.iter().map(|f| f.fact).collect();
        if supersedes.is_empty() {
            return Err(BookError::refused(SettleRefusal::NoFinishToCorrect));
        }
        let finish = self.finish_fact(visit, done, note)?;
        let new = Replacement::Finished(finish);
        self.write(|w| {
            w.fact(Fact::Corrected(Corrected {
                visit,
                supersedes,
                why,
                new,
            }));
            Ok(())
        })
    }

    /// Of several finishes known here, says which holds. The others stay, marked.
    ///
    /// # Errors
    /// [`BookError::NotFound`] when it is no finish of the visit, [`BookError::Refused`].
    pub fn choose_finish(&mut self, visit: VisitId, chosen: FactId, why: &str) -> Result<()> {
        let why = reason(why)?;
        let finishes = self.visit(visit)?.finishes;
        if !finishes.iter().any(|f| f.fact == chosen) {
            return Err(BookError::NotFound {
                what: Thing::Finish,
                name: chosen.to_string(),
            });
        }
        let over = finishes
            .iter()
            .map(|f| f.fact)
            .filter(|f| *f != chosen)
            .collect();
        self.write(|w| {
            w.fact(Fact::FinishChosen(FinishChosen {
                visit,
                chosen,
                over,
                why,
            }));
            Ok(())
        })
    }

    /// Says whether a late addition was really put on.
    ///
    /// # Errors
    /// [`BookError::NotFound`] when it is none of the visit's, [`BookError::Refused`].
    pub fn settle_late(
        &mut self,
        visit: VisitId,
        addition: FactId,
        counts: bool,
        why: &str,
    ) -> Result<()> {
        let why = reason(why)?;
        if !self.visit(visit)?.late.iter().any(|l| l.fact == addition) {
            return Err(BookError::NotFound {
                what: Thing::LateAddition,
                name: addition.to_string(),
            });
        }
        self.write(|w| {
            w.fact(Fact::LateSettled(LateSettled {
                visit,
                addition,
                counts,
                why,
            }));
            Ok(())
        })
    }

    /// Says whether two visits to a yard were one job. Both stay; a link joins them.
    ///
    /// # Errors
    /// [`BookError::Refused`] when they are of two yards or the same visit,
    /// [`BookError::NotFound`].
    pub fn settle_one_job(&mut self, a: VisitId, b: VisitId, same: bool) -> Result<()> {
        if a == b || self.visit(a)?.yard != self.visit(b)?.yard {
            return Err(BookError::refused(SettleRefusal::NotOneYard));
        }
        self.write(|w| {
            w.fact(Fact::OneJob(OneJob {
                visits: vec![a, b],
                same,
            }));
            Ok(())
        })
    }
}

/// The visit that a replacement is about.
fn visit_of(new: &Replacement) -> Option<VisitId> {
    match new {
        Replacement::Nothing => None,
        Replacement::Counted(f) => Some(f.visit),
        Replacement::WindMeasured(f) => Some(f.visit),
        Replacement::WalkedRound(f) => Some(f.visit),
        Replacement::Loaded(f) => Some(f.visit),
        Replacement::Finished(f) => Some(f.visit),
        Replacement::NotTreated(f) => Some(f.visit),
    }
}

/// Whether `new` may stand in the place of `old`.
fn fits(old: &Fact, new: &Replacement) -> bool {
    let kind = |r: &Replacement| std::mem::discriminant(r);
    match (old, new) {
        (
            Fact::Counted(_)
            | Fact::WindMeasured(_)
            | Fact::WalkedRound(_)
            | Fact::SkySeen(_)
            | Fact::ReturnPlanned(_)
            | Fact::KeepOffTold(_)
            | Fact::Aftercare(_)
            | Fact::HalfWayChecked(_)
            | Fact::ControlCounted(_)
            | Fact::Loaded(_)
            | Fact::LookedDry(_)
            | Fact::NotTreated(_),
            Replacement::Nothing,
        )
        | (Fact::Counted(_), Replacement::Counted(_))
        | (Fact::WindMeasured(_), Replacement::WindMeasured(_))
        | (Fact::WalkedRound(_), Replacement::WalkedRound(_))
        | (Fact::Loaded(_), Replacement::Loaded(_))
        | (Fact::NotTreated(_), Replacement::NotTreated(_)) => true,
        (Fact::Corrected(c), _) if matches!(c.new, Replacement::Finished(_)) => false,
        (Fact::Corrected(c), new) => kind(&c.new) == kind(new) || *new == Replacement::Nothing,
        _ => false,
    }
}
