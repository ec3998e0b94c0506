//! From a visit's view and facts to its records.
//!
//! A treatment is told by its frozen bytes, whatever was edited since. What came after it, and
//! who did not know of whom, is [`super::history`].

use sward_rules::Verdict;
use sward_rules::finding::sum;

use super::after::{self, After};
use super::history;
use super::looks::{Seen, count, temperatures, wind};
use super::record::{
    Load, Look, Mark, NotTreatedNote, Outcome, Record, SectionNote, TreatmentNote, Who, WindNote,
};
use super::words::{self, Clock};
use crate::env::TimeProof;
use crate::fact::{Fact, Finished, Loaded, NotTreated, Replacement};
use crate::ids::{FactId, KeepOffId};
use crate::log::Stamp;
use crate::record::{TreatedSection, Treatment};
use crate::view::keep_off::KeepOffView;
use crate::view::visit::{FinishVersion, Line, VisitView};
use crate::{Book, BookError, Malformed, Result};

/// One line of the history with its fact.
pub(super) struct Known {
    pub(super) line: Line,
    pub(super) fact: Fact,
}

impl Known {
    /// Whether it stands: nobody corrected it, and a correction is the crew's.
    pub(super) fn stands(&self) -> bool {
        self.line.superseded_by.is_none()
            && (self.line.of_the_crew || !matches!(self.fact, Fact::Corrected(_)))
    }

    fn not_treated(&self) -> Option<&NotTreated> {
        match &self.fact {
            Fact::NotTreated(f) => Some(f),
            Fact::Corrected(c) => match &c.new {
                Replacement::NotTreated(f) => Some(f),
                _ => None,
            },
            _ => None,
        }
    }

    fn finished(&self) -> Option<&Finished> {
        match &self.fact {
            Fact::Finished(f) => Some(f),
            Fact::Corrected(c) => match &c.new {
                Replacement::Finished(f) => Some(f),
                _ => None,
            },
            _ => None,
        }
    }
}

/// A visit with all that its records are made of.
pub(super) struct Visit<'a> {
    pub(super) book: &'a Book,
    pub(super) view: VisitView,
    pub(super) known: Vec<Known>,
    pub(super) keep_offs: Vec<KeepOffView>,
}

/// Every record of one visit.
pub(super) fn records_of(
    book: &Book,
    view: VisitView,
    keep_offs: Vec<KeepOffView>,
) -> Result<Vec<Record>> {
    let mut known = Vec::with_capacity(view.history.len());
    for line in &view.history {
        let (_, fact) = book.fact(line.fact)?;
        known.push(Known {
            line: line.clone(),
            fact,
        });
    }
    let visit = Visit {
        book,
        view,
        known,
        keep_offs,
    };
    let mut records = Vec::new();
    for version in &visit.view.finishes {
        records.push(visit.treated(version)?);
    }
    for known in visit.known.iter().filter(|k| k.stands()) {
        if let Some(not) = known.not_treated() {
            records.push(visit.not_treated(&known.line, not)?);
        }
    }
    records.sort_by_key(|r| r.fact);
    history::number_versions(&visit, &mut records);
    for record in &mut records {
        record.after = after::after(&visit, Clock::named(&record.zone))?;
    }
    Ok(records)
}

impl Visit<'_> {
    pub(super) fn find(&self, fact: FactId) -> Option<&Known> {
        self.known.iter().find(|k| k.line.fact == fact)
    }

    pub(super) fn who(&self, line: &Line) -> Who {
        super::incident::who(self.book, line.by, line.of_the_crew)
    }

    pub(super) fn look(&self, line: &Line, clock: Clock, why: &str) -> Look {
        Look {
            at: clock.when(line.at.utc_ms),
            by: self.who(line),
            why: why.to_owned(),
        }
    }

    pub(super) fn load(&self, load: &Loaded, clock: Clock) -> Load {
        Load {
            product: words::amount(&load.product),
            water: load.water.as_ref().map(words::amount),
            applied: clock.when(load.applied_utc_ms),
            sections: load
                .keep_offs
                .iter()
                .map(|id| self.section_name(*id))
                .collect(),
        }
    }

    pub(super) fn section_name(&self, id: KeepOffId) -> String {
        let found = self.keep_offs.iter().find(|k| k.keep_off == id);
        found.map_or_else(|| format!("section {id}"), |k| k.name.clone())
    }

    fn treated(&self, version: &FinishVersion) -> Result<Record> {
        let known = self.find(version.fact).ok_or_else(|| {
            BookError::Damaged("a visit names a finish that is not in its history".to_owned())
        })?;
        let finished = known.finished().ok_or_else(|| {
            BookError::Damaged("a visit takes for a finish what is none".to_owned())
        })?;
        let thawed = Treatment::thaw(&finished.frozen, finished.frozen_hash).and_then(|t| {
            if t.visit == self.view.visit {
                Ok(t)
            } else {
                Err(BookError::format(Malformed::FinishOfAnotherVisit))
            }
        });
        let mut record = match &thawed {
            Ok(t) => self.as_frozen(&known.line, t),
            Err(error) => {
                let mut record = self.blank(Outcome::Treated, &known.line)?;
                record.marks.push(Mark::Unreadable {
                    why: error.to_string(),
                });
                record
            }
        };
        record.frozen = Some(finished.frozen_hash);
        let clock = Clock::named(&record.zone);
        history::add(self, &mut record, known, Some(&finished.covers), clock);
        Ok(record)
    }

    fn as_frozen(&self, line: &Line, t: &Treatment) -> Record {
        let clock = Clock::named(&t.zone);
        let label = &t.label;
        let mut marks = Vec::new();
        if t.practice || self.book.roster().practice() {
            marks.push(Mark::Practice);
        }
        if [t.started, t.finished]
            .iter()
            .any(|at| at.proof == TimeProof::Unproven)
        {
            marks.push(Mark::TimeUncertain);
        }
        let treatment = TreatmentNote {
            product: label.product.clone(),
            registration: label.registration.clone(),
            ingredients: label.ingredients.clone(),
            method: label.method,
            rate: words::amount(&t.rate),
            product_total: t.product_total.as_ref().map(words::amount),
            water_total: t.water_total.as_ref().map(words::amount),
            loads: t.loads.iter().map(|load| self.load(load, clock)).collect(),
            sections: t.sections.iter().map(|s| self.section(s, clock)).collect(),
            acknowledged: t.acknowledged.clone(),
            against: t.against.clone(),
            equipment: t.equipment.clone(),
            lot: t.lot.clone(),
            gear: t.gear.clone(),
        };
        Record {
            outcome: Outcome::Treated,
            marks,
            visit: t.visit,
            fact: line.fact,
            entry: line.fact.entry,
            frozen: None,
            crew: t.crew.clone(),
            yard: Some(t.yard),
            yard_name: t.yard_name.clone(),
            address: t.address.clone(),
            zone: t.zone.clone(),
            target: t.target.clone(),
            date: clock.day(t.started.utc_ms),
            started: Some(clock.when(t.started.utc_ms)),
            finished: clock.when(t.finished.utc_ms),
            applicator: Some(t.applicator.clone()),
            recorded_by: self.who(line),
            treatment: Some(treatment),
            not_treated: None,
            counts: t.counts.iter().map(count).collect(),
            wind: wind(t.wind.iter().flat_map(|w| &w.readings), &t.sky, clock),
            temperatures: temperatures(&t.sky),
            verdict: sum(&t.findings),
            findings: t.findings.clone(),
            note: t.note.clone(),
            late: Vec::new(),
            amendments: Vec::new(),
            after: After::default(),
        }
    }

    fn section(&self, section: &TreatedSection, clock: Clock) -> SectionNote {
        let keep_off = self
            .keep_offs
            .iter()
            .find(|k| k.keep_off == section.keep_off);
        SectionNote {
            name: section.name.clone(),
            area: section.area.clone(),
            last_applied: clock.when(section.last_applied_utc_ms),
            keep_off: keep_off.map(|k| history::keep_off(self, k, clock)),
        }
    }

    fn not_treated(&self, line: &Line, not: &NotTreated) -> Result<Record> {
        let mut record = self.blank(Outcome::NotTreated, line)?;
        record.not_treated = Some(NotTreatedNote {
            why: not.why,
            look_again: not.look_again.clone(),
        });
        record.note.clone_from(&not.note);
        let clock = Clock::named(&record.zone);
        let mut seen = Seen::default();
        for known in self.known.iter().filter(|k| k.stands()) {
            seen.add(&known.fact);
        }
        record.counts = seen.counts.iter().map(|c| count(c)).collect();
        record.wind = wind(seen.wind.into_iter(), &seen.sky, clock);
        record.temperatures = temperatures(&seen.sky);
        record.verdict = sum(&seen.findings);
        record.findings = seen.findings;
        let known = self
            .find(line.fact)
            .expect("the line comes from the history");
        history::add(self, &mut record, known, None, clock);
        Ok(record)
    }

    /// What is known of a result without frozen bytes: the yard is told as its sheet has it now.
    fn blank(&self, outcome: Outcome, line: &Line) -> Result<Record> {
        let sheet = match self.view.yard.map(|yard| self.book.yard_sheet(yard)) {
            Some(Ok(sheet)) => Some(sheet),
            None | Some(Err(BookError::NotFound { .. })) => None,
            Some(Err(error)) => return Err(error),
        };
        let zone = sheet.as_ref().and_then(|s| s.zone);
        let clock = Clock { zone };
        let (yard_name, address) = sheet.map(|s| (s.name, s.address)).unwrap_or_default();
        let roster = self.book.roster();
        let mut marks = Vec::new();
        if roster.practice() {
            marks.push(Mark::Practice);
        }
        if is_uncertain(line.at) {
            marks.push(Mark::TimeUncertain);
        }
        Ok(Record {
            outcome,
            marks,
            visit: self.view.visit,
            fact: line.fact,
            entry: line.fact.entry,
            frozen: None,
            crew: roster.crew_name().unwrap_or_default().to_owned(),
            yard: self.view.yard,
            yard_name,
            address,
            zone: zone.map(|z| z.name().to_owned()).unwrap_or_default(),
            target: self.view.target.clone(),
            date: clock.day(line.at.utc_ms),
            started: None,
            finished: clock.when(line.at.utc_ms),
            applicator: None,
            recorded_by: self.who(line),
            treatment: None,
            not_treated: None,
            counts: Vec::new(),
            wind: WindNote::default(),
            temperatures: Vec::new(),
            verdict: Verdict::Unknown,
            findings: Vec::new(),
            note: String::new(),
            late: Vec::new(),
            amendments: Vec::new(),
            after: After::default(),
        })
    }
}

fn is_uncertain(at: Stamp) -> bool {
    at.proof == TimeProof::Unproven
}
