//! Reading from the book what the steps of a visit hang on, and what has to be minded meanwhile.
//!
//! What follows from it is [`super::steps`].

use sward_book::Book;
use sward_book::action::JUDGED_AGE_MOST_MIN;
use sward_book::fact::{Fact, Replacement};
use sward_book::ids::{StreamId, VisitId};
use sward_book::sheet::{PlanSheet, YardSheet};
use sward_book::view::visit::VisitView;
use sward_rules::keep_off::Now;
use sward_rules::label::Method;

use super::steps::Known;
use crate::Result;
use crate::screen::plan::comes_out;
use crate::words::Words;

/// A visit with its yard, and words in the yard's time zone.
pub(crate) struct Here {
    pub(crate) visit: VisitView,
    /// None while it has not arrived on this device.
    pub(crate) yard: Option<YardSheet>,
    pub(crate) words: Words,
}

impl Here {
    /// Reads them.
    pub(crate) fn read(book: &Book, visit: VisitId, words: Words) -> Result<Self> {
        let visit = book.visit(visit)?;
        let yard = match visit.yard {
            Some(yard) => book.yard_sheet(yard).ok(),
            None => None,
        };
        let zone = yard.as_ref().and_then(|y| y.zone);
        Ok(Self {
            visit,
            yard,
            words: words.in_zone(zone),
        })
    }

    /// Reads what the steps hang on.
    pub(crate) fn known(&self, book: &Book, now: Now) -> Result<Known> {
        let id = self.visit.visit;
        let plan = book.plan(id)?;
        let told = Told::read(book, &self.visit, plan.as_ref())?;
        let keep_offs = book.keep_offs_of(id)?;
        let sections = self.yard.iter().flat_map(|y| &y.sections);
        let shown: Vec<_> = sections.filter(|s| !s.hidden).collect();
        let labels = book.labels()?;
        let age_ms = told.judged_ms.map(|at| now.utc_ms - at);
        let plan_label = plan.as_ref().and_then(|p| p.label);
        Ok(Known {
            state: self.visit.state,
            yard_is_here: self.yard.is_some(),
            counts: told.counts,
            counted_after: told.counted_after,
            sections: shown.len(),
            measured: shown.iter().filter(|s| s.outline.is_some()).count(),
            labels: labels.len(),
            labels_read: labels.iter().filter(|l| l.read_back.is_some()).count(),
            plan_is_whole: plan.as_ref().is_some_and(|p| is_whole(book, self, p)),
            plan_label_read: labels
                .iter()
                .any(|l| Some(l.sheet) == plan_label && l.read_back.is_some()),
            judged_now: age_ms.is_some_and(|age| (0..=JUDGED_AGE_MOST_MIN * 60_000).contains(&age)),
            keep_offs: keep_offs.len(),
            running: keep_offs.iter().filter(|k| k.keeps_off(now)).count(),
        })
    }

    /// Where the yard's own screen is; today's where the yard is not known.
    pub(crate) fn yard_path(&self) -> String {
        self.visit
            .yard
            .map_or_else(|| "/".to_owned(), |yard| format!("/yards/{yard}"))
    }
}

/// What the facts of a visit tell of its steps.
struct Told {
    counts: usize,
    counted_after: bool,
    judged_ms: Option<i64>,
}

impl Told {
    fn read(book: &Book, visit: &VisitView, plan: Option<&PlanSheet>) -> Result<Self> {
        let finished_ms = visit.finishes.iter().map(|f| f.at.utc_ms).min();
        let label = plan.and_then(|p| p.label);
        let mut told = Self {
            counts: 0,
            counted_after: false,
            judged_ms: None,
        };
        let standing = visit.history.iter().filter(|l| l.superseded_by.is_none());
        for line in standing {
            let (_, fact) = book.fact(line.fact)?;
            match fact {
                Fact::Counted(_) => told.count(line.at.utc_ms, finished_ms),
                Fact::Corrected(c) if line.of_the_crew => {
                    if matches!(c.new, Replacement::Counted(_)) {
                        told.count(line.at.utc_ms, finished_ms);
                    }
                }
                Fact::Judged(j) if Some(j.label_sheet) == label => {
                    told.judged_ms = told.judged_ms.max(Some(line.at.utc_ms));
                }
                _ => {}
            }
        }
        Ok(told)
    }

    fn count(&mut self, at_ms: i64, finished_ms: Option<i64>) {
        self.counts += 1;
        self.counted_after |= finished_ms.is_some_and(|finished| finished < at_ms);
    }
}

/// Whether a plan has everything that its amounts are worked out from.
fn is_whole(book: &Book, here: &Here, plan: &PlanSheet) -> bool {
    let Some(label) = plan.label.and_then(|l| book.label_sheet(l).ok()) else {
        return false;
    };
    let wet = matches!(label.label.method, Method::FoliarSpray | Method::Drench);
    plan.rate.is_some()
        && plan.holds.is_some()
        && plan.vessel.is_some()
        && plan.carrier.is_some() == wet
        && plan.label.is_some_and(|id| comes_out(book, here, id))
}

/// Who carries a device: their name, or the device's short name where none is known.
pub(crate) fn who(book: &Book, device: StreamId) -> String {
    book.roster()
        .member(device)
        .and_then(|m| m.person.as_ref())
        .map(|p| p.name.clone())
        .filter(|name| !name.is_empty())
        .unwrap_or_else(|| device.short())
}
