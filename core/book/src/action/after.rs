//! What people do around a treatment: check half-way, clean up, tell people, plan the return.
//!
//! Treating itself is in [`super::treat`], what ends a keep-off in [`super::keep_off`].

use std::collections::BTreeSet;

use chrono::{DateTime, Days, Months, NaiveDate};
use sward_rules::Entered;
use sward_rules::look::BeforeAfter;
use sward_rules::plan::{HalfWay, HalfWayResult, half_way_check};
use sward_rules::working::Answer;

use super::words;
use crate::fact::{
    Aftercare, AftercareDone, ControlCounted, Fact, HalfWayChecked, KeepOffTold, ReturnPlanned,
    ReturnWhat, Started, ToldHow,
};
use crate::ids::{KeepOffId, VisitId};
use crate::refusal::{AfterRefusal, TreatRefusal, Typed, VisitRefusal};
use crate::{Book, BookError, Result};

/// No one plans farther ahead; a slip in the year does.
const RETURN_YEARS_MOST: u32 = 5;

impl Book {
    /// Plans a return to the yard of a visit. `day` is year-month-day. A later plan for the same
    /// visit takes the place of this one.
    ///
    /// # Errors
    /// [`BookError::Refused`] for a day that is none, that lies before the visit or more than five
    /// years after it, or for [`ReturnWhat::Other`] without a note; [`BookError::NotFound`].
    pub fn plan_return(
        &mut self,
        visit: VisitId,
        day: &str,
        what: ReturnWhat,
        note: &str,
    ) -> Result<()> {
        let opened = self.visit(visit)?.at_utc_ms();
        let day = return_day(day, opened)?;
        let note = words(Typed::Note, note)?;
        if what == ReturnWhat::Other && note.is_empty() {
            return Err(BookError::refused(AfterRefusal::ReturnNoteMissing));
        }
        self.record(Fact::ReturnPlanned(ReturnPlanned {
            visit,
            day: day.to_string(),
            what,
            note,
        }))
    }

    /// Records who was told of keep-offs, and whether they were told how to check that it is dry.
    /// It changes no end.
    ///
    /// # Errors
    /// [`BookError::Refused`] without a keep-off or without a name, [`BookError::NotFound`].
    pub fn tell_keep_off(
        &mut self,
        visit: VisitId,
        keep_offs: &[KeepOffId],
        who: &str,
        how: ToldHow,
        told_dry_check: bool,
    ) -> Result<()> {
        if keep_offs.is_empty() {
            return Err(BookError::refused(AfterRefusal::NoKeepOffTold));
        }
        let who = words(Typed::WhoTold, who)?;
        if who.is_empty() {
            return Err(BookError::refused(AfterRefusal::WhoMissing));
        }
        for keep_off in keep_offs {
            self.keep_off(visit, *keep_off)?;
        }
        let keep_offs: BTreeSet<KeepOffId> = keep_offs.iter().copied().collect();
        self.record(Fact::KeepOffTold(KeepOffTold {
            visit,
            keep_offs: keep_offs.into_iter().collect(),
            who,
            how,
            told_dry_check,
        }))
    }

    /// Records what was done after treating. Tasks that are not named stay open.
    ///
    /// # Errors
    /// [`BookError::Refused`] before a start, without an answer and a note, or for two answers to
    /// one task; [`BookError::NotFound`].
    pub fn record_aftercare(
        &mut self,
        visit: VisitId,
        done: Vec<AftercareDone>,
        note: &str,
    ) -> Result<()> {
        self.started_of(visit)?;
        let note = words(Typed::Note, note)?;
        if done.is_empty() && note.is_empty() {
            return Err(BookError::refused(AfterRefusal::NothingAnswered));
        }
        let tasks: BTreeSet<_> = done.iter().map(|d| d.task).collect();
        if tasks.len() < done.len() {
            return Err(BookError::refused(AfterRefusal::AnsweredTwice));
        }
        self.record(Fact::Aftercare(Aftercare { visit, done, note }))
    }

    /// Checks half-way whether the product goes on at the rate that treating was started with, and
    /// records what was read and what the check said. `done` is the share of the area done, such
    /// as `50 %`.
    ///
    /// # Errors
    /// [`BookError::Refused`] before a start; [`BookError::Rule`] for amounts that cannot be;
    /// [`BookError::NotFound`].
    pub fn record_half_way(
        &mut self,
        visit: VisitId,
        planned: Entered,
        filled: Entered,
        left: Entered,
        done: Entered,
    ) -> Result<Answer<HalfWayResult>> {
        let start = self.started_of(visit)?;
        let answer = half_way_check(&HalfWay {
            label: &start.label,
            rate: start.rate,
            planned,
            filled,
            left,
            done,
        })?;
        let told = &answer.value;
        self.record(Fact::HalfWayChecked(HalfWayChecked {
            visit,
            planned,
            filled,
            left,
            done,
            rate_done: told.rate_done,
            for_the_rest: told.for_the_rest,
            verdict: told.finding.verdict,
        }))?;
        Ok(answer)
    }

    /// Records the counts that tell whether a treatment worked. What they say is the rules' to
    /// work out: [`sward_rules::look::henderson_tilton`].
    ///
    /// # Errors
    /// [`BookError::Refused`] where nothing was treated; [`BookError::NotFound`].
    pub fn record_control(
        &mut self,
        visit: VisitId,
        counts: BeforeAfter,
        note: &str,
    ) -> Result<()> {
        self.started_of(visit)?;
        let note = words(Typed::Note, note)?;
        self.record(Fact::ControlCounted(ControlCounted {
            visit,
            counts,
            note,
        }))
    }

    /// The first start of a visit.
    fn started_of(&self, visit: VisitId) -> Result<Started> {
        for line in &self.visit(visit)?.history {
            if let (_, Fact::Started(start)) = self.fact_of(line.fact)? {
                return Ok(start);
            }
        }
        Err(BookError::refused(TreatRefusal::NotStarted))
    }
}

fn return_day(typed: &str, visit_utc_ms: i64) -> Result<NaiveDate> {
    let day: NaiveDate = typed.trim().parse().map_err(|_| {
        BookError::refused(VisitRefusal::NotADay {
            typed: typed.chars().take(40).collect(),
        })
    })?;
    let Some(visit) = DateTime::from_timestamp_millis(visit_utc_ms).map(|at| at.date_naive())
    else {
        return Ok(day);
    };
    // The visit's day by the yard's calendar may be a day before the one in UTC.
    if visit
        .checked_sub_days(Days::new(1))
        .is_some_and(|least| day < least)
    {
        let day = day.to_string();
        return Err(BookError::refused(AfterRefusal::ReturnBeforeVisit { day }));
    }
    let most = visit.checked_add_months(Months::new(12 * RETURN_YEARS_MOST));
    if most.is_some_and(|most| day > most) {
        return Err(BookError::refused(AfterRefusal::ReturnTooFar {
            day: day.to_string(),
            years_most: RETURN_YEARS_MOST,
        }));
    }
    Ok(day)
}
