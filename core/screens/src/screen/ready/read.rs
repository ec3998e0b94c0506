//! Reading what may be said here and now: the findings as they stand, and those a start may be
//! made on.
//!
//! What they mean is the rules'; which facts they are given is the book's.

use sward_book::Book;
use sward_book::action::{JUDGED_AGE_MOST_MIN, ReadyInputs, judge};
use sward_book::fact::{Fact, Replacement};
use sward_book::ids::{SheetId, VisitId};
use sward_book::sheet::PlanSheet;
use sward_rules::finding::{Check, Finding, Reason};
use sward_rules::label::Label;
use sward_rules::plan::{carrier_finding, rate_findings};
use sward_rules::sky::{MeterReading, NextWindow};
use sward_rules::walk_round::Answered;

use super::far;
use crate::screen::visit::Here;
use crate::sketch::around;
use crate::state::Shared;
use crate::words::Words;
use crate::{Result, Trouble};

/// For how long recorded findings carry a start.
pub(super) const HOLDS_MS: i64 = JUDGED_AGE_MOST_MIN * 60_000;

/// A visit on the point of being treated.
pub(super) struct Ready {
    pub(super) here: Here,
    pub(super) plan: PlanSheet,
    pub(super) label_id: SheetId,
    pub(super) label: Label,
    /// The findings as they stand this moment.
    pub(super) findings: Vec<Finding>,
    pub(super) window: NextWindow,
    /// What this device recorded last for the plan's label sheet.
    pub(super) recorded: Option<Recorded>,
    /// Wind readings and answers that stand, in their order.
    pub(super) readings: Vec<MeterReading>,
    pub(super) answers: Vec<Answered>,
}

/// Findings as they were recorded.
pub(super) struct Recorded {
    pub(super) findings: Vec<Finding>,
    pub(super) at_utc_ms: i64,
}

impl Recorded {
    /// Whether a start may still be made on them: not too old, and not from a time to come.
    pub(super) fn is_fresh(&self, clock_utc_ms: i64) -> bool {
        (0..=HOLDS_MS).contains(&clock_utc_ms.saturating_sub(self.at_utc_ms))
    }
}

impl Ready {
    /// Reads it.
    ///
    /// # Errors
    /// [`Trouble::NotFound`] while there is no plan with a label sheet: the screen leads there.
    pub(super) fn read(book: &Book, shared: &Shared, visit: VisitId, words: Words) -> Result<Self> {
        let here = Here::read(book, visit, words)?;
        let plan = book.plan(visit)?.ok_or(Trouble::NotFound)?;
        let label_id = plan.label.ok_or(Trouble::NotFound)?;
        let label = book.label_sheet(label_id)?.label;
        let station = far::report(shared, visit)?;
        let forecast = far::forecast(shared, visit)?;
        let around = here.yard.as_ref().map(|y| around(y, &plan.sections));
        let inputs = ReadyInputs {
            station: station.as_ref().map(|(_, report)| report),
            forecast: forecast.as_ref().map(|(_, forecast)| forecast),
            job_min: None,
            around: around.as_deref(),
        };
        let (mut findings, window) = judge(book, visit, label_id, inputs)?;
        findings.extend(of_plan(&label, &plan)?);
        let mut ready = Self {
            here,
            plan,
            label_id,
            label,
            findings,
            window,
            recorded: None,
            readings: Vec::new(),
            answers: Vec::new(),
        };
        ready.read_facts(book)?;
        Ok(ready)
    }

    fn read_facts(&mut self, book: &Book) -> Result<()> {
        let own = book.secret()?.stream();
        for line in &self.here.visit.history {
            let stands = line.superseded_by.is_none();
            match book.fact(line.fact)?.1 {
                Fact::Judged(judged) if line.by == own && judged.label_sheet == self.label_id => {
                    self.recorded = Some(Recorded {
                        findings: judged.findings,
                        at_utc_ms: line.at.utc_ms,
                    });
                }
                Fact::WindMeasured(wind) if stands => self.readings.extend(wind.readings),
                Fact::WalkedRound(walk) if stands => self.answers.extend(walk.answers),
                Fact::Corrected(c) if stands && line.of_the_crew => match c.new {
                    Replacement::WindMeasured(wind) => self.readings.extend(wind.readings),
                    Replacement::WalkedRound(walk) => self.answers.extend(walk.answers),
                    _ => {}
                },
                _ => {}
            }
        }
        Ok(())
    }

    /// The recorded findings a start may be made on: fresh, and saying what would be said now.
    pub(super) fn to_start_on(&self, clock_utc_ms: i64) -> Option<&Recorded> {
        self.recorded
            .as_ref()
            .filter(|r| r.is_fresh(clock_utc_ms) && says_the_same(&r.findings, &self.findings))
    }
}

/// The findings on rate and carrier.
fn of_plan(label: &Label, plan: &PlanSheet) -> Result<Vec<Finding>> {
    let mut findings = match &plan.rate {
        Some(rate) => rate_findings(label, rate)?,
        None => vec![Finding::unknown(Check::Rate, Reason::NoRateYet)],
    };
    if let Some(carrier) = &plan.carrier {
        findings.push(carrier_finding(label, carrier)?);
    }
    Ok(findings)
}

/// Whether two lists of findings answer alike. A rate is compared whole: another rate that is
/// within the label too was never held against it.
pub(super) fn says_the_same(before: &[Finding], now: &[Finding]) -> bool {
    let answers = |all: &[Finding]| -> Vec<_> {
        let mut answers: Vec<_> = all.iter().map(|f| (f.check, f.verdict)).collect();
        answers.sort_unstable();
        answers
    };
    let of_rate = |all: &[Finding]| -> Vec<Finding> {
        all.iter()
            .filter(|f| f.check == Check::Rate)
            .cloned()
            .collect()
    };
    answers(before) == answers(now) && of_rate(before) == of_rate(now)
}

#[cfg(test)]
mod tests {
    use super::*;
    use sward_rules::Entered;
    use sward_rules::finding::{Shown, Verdict};

    fn rate(amount: &str) -> Finding {
        let amount = Entered::parse(amount).unwrap();
        Finding::new(Check::Rate, Verdict::Clear, Reason::RateWithinMost)
            .with_value(Shown::Amount { amount })
    }

    #[test]
    fn another_age_changes_nothing_another_answer_or_rate_does() {
        let wind = |age| {
            Finding::new(Check::Wind, Verdict::Clear, Reason::WindUnderLabel).with_age_min(age)
        };
        let unknown = Finding::unknown(Check::Wind, Reason::WindNotMeasured);
        let two = rate("2 lb/1000 ft2");
        assert!(says_the_same(
            &[wind(1), two.clone()],
            &[two.clone(), wind(5)]
        ));
        assert!(!says_the_same(&[wind(1)], &[unknown]));
        assert!(!says_the_same(&[two], &[rate("2.5 lb/1000 ft2")]));
        assert!(!says_the_same(&[wind(1)], &[]));
    }

    #[test]
    fn findings_carry_a_start_for_a_quarter_of_an_hour() {
        let recorded = Recorded {
            findings: Vec::new(),
            at_utc_ms: 1_000_000,
        };
        assert!(recorded.is_fresh(1_000_000));
        assert!(recorded.is_fresh(1_000_000 + 15 * 60_000));
        assert!(!recorded.is_fresh(1_000_001 + 15 * 60_000));
        assert!(!recorded.is_fresh(999_999), "the clock was set back");
    }
}
