//! Treating: start, load, finish. The keep-offs begin with the start.

use std::collections::BTreeSet;

use sward_rules::finding::{Check, Verdict};
use sward_rules::plan::rate_to_answer_for;
use sward_rules::{Entered, Finding};

use super::frozen::Gathered;
use super::{reason, words};
use crate::fact::{Fact, Finished, KeepOffOpened, Loaded, SectionDone, Started};
use crate::ids::{FactId, ItemId, KeepOffId, SheetId, VisitId};
use crate::log::Stamp;
use crate::refusal::{LoadPart, TreatRefusal, Typed};
use crate::view::visit::{VisitState, VisitView};
use crate::{Book, BookError, Result, Thing};

/// How old the findings may be that a start is made on, in minutes. Common practice, no source.
pub const JUDGED_AGE_MOST_MIN: i64 = 15;

/// What treating is started with.
#[derive(Debug, Clone)]
pub struct Start {
    /// The label sheet.
    pub label_sheet: SheetId,
    /// The rate chosen.
    pub rate: Entered,
    /// The sections; empty: all that are shown and measured.
    pub sections: Vec<ItemId>,
    /// Each check that is not known and that the person acknowledges by name.
    pub acknowledged: Vec<Check>,
    /// Why it is started against a "don't treat".
    pub against: Option<String>,
    /// What it is put on with, in words: name, setting, swath, the calibration's date.
    pub equipment: Option<String>,
    /// The product's lot.
    pub lot: Option<String>,
    /// Protective gear worn.
    pub gear: Option<String>,
}

impl Book {
    /// Starts treating. From here on the sections are kept off, until a finish and what the label
    /// asks for after it.
    ///
    /// Every check that was not known has to be acknowledged by name, and a "don't treat" needs a
    /// reason: both stand in the record. That holds for the rate of the start too, whichever was
    /// judged. Nothing else stops a start, because the record has to tell what was done.
    ///
    /// # Errors
    /// [`BookError::Refused`] naming what is missing, [`BookError::NotFound`].
    pub fn start(&mut self, visit: VisitId, start: Start) -> Result<Vec<KeepOffId>> {
        let view = self.visit(visit)?;
        if view.state != VisitState::Looking {
            return Err(BookError::refused(TreatRefusal::VisitNotOpen));
        }
        let (judged, mut findings) = self.last_judged(&view, start.label_sheet)?;
        let label = self.label_sheet(start.label_sheet)?.label;
        // Whoever starts may have chosen another rate since.
        findings.extend(rate_to_answer_for(&label, &start.rate));
        must_be_acknowledged(&findings, &start)?;
        let against = start.against.as_deref().map(reason).transpose()?;
        let copied = |what: Typed, text: &Option<String>| -> Result<Option<String>> {
            let text = text.as_deref().map(|t| words(what, t)).transpose()?;
            Ok(text.filter(|t| !t.is_empty()))
        };
        let equipment = copied(Typed::Equipment, &start.equipment)?;
        let lot = copied(Typed::Lot, &start.lot)?;
        let gear = copied(Typed::Gear, &start.gear)?;
        let sections = self.sections_to_treat(&view, &start.sections)?;
        let keep_offs: Vec<KeepOffOpened> = sections
            .into_iter()
            .map(|section| KeepOffOpened {
                keep_off: KeepOffId(self.env().new_uuid()),
                section: section.id,
                name: section.name,
                outline: section.outline.expect("only measured sections are treated"),
            })
            .collect();
        let ids = keep_offs.iter().map(|k| k.keep_off).collect();
        self.record(Fact::Started(Started {
            visit,
            label_sheet: start.label_sheet,
            label,
            rate: start.rate,
            keep_offs,
            acknowledged: start.acknowledged,
            against,
            judged: Some(judged),
            equipment,
            lot,
            gear,
        }))?;
        Ok(ids)
    }

    /// This device's last findings for the label sheet, if they are fresh enough to start on.
    fn last_judged(
        &self,
        view: &VisitView,
        label_sheet: SheetId,
    ) -> Result<(FactId, Vec<Finding>)> {
        let own = self.secret()?.stream();
        let now_ms = self.env().clock().utc_ms;
        for line in view.history.iter().rev().filter(|l| l.by == own) {
            let (at, Fact::Judged(judged)) = self.fact_of(line.fact)? else {
                continue;
            };
            if judged.label_sheet != label_sheet {
                continue;
            }
            // Wind and people move: what was fit a while ago says little about now. A time to come
            // means that the clock was set back.
            let age_ms = now_ms.saturating_sub(at.utc_ms);
            if !(0..=JUDGED_AGE_MOST_MIN * 60_000).contains(&age_ms) {
                return Err(BookError::refused(TreatRefusal::CheckedTooLongAgo {
                    age_min: age_ms / 60_000,
                    min_most: JUDGED_AGE_MOST_MIN,
                }));
            }
            return Ok((line.fact, judged.findings));
        }
        Err(BookError::refused(TreatRefusal::NotChecked))
    }

    pub(super) fn fact_of(&self, id: FactId) -> Result<(Stamp, Fact)> {
        let (entry, fact) = self.fact(id)?;
        Ok((entry.body().written, fact))
    }

    fn sections_to_treat(
        &self,
        view: &VisitView,
        wanted: &[ItemId],
    ) -> Result<Vec<crate::sheet::Section>> {
        let yard = view
            .yard
            .ok_or_else(|| BookError::refused(TreatRefusal::YardNotArrived))?;
        let mut sections = self.yard_sheet(yard)?.sections;
        if wanted.is_empty() {
            sections.retain(|s| !s.hidden && s.outline.is_some());
        } else {
            sections.retain(|s| wanted.contains(&s.id));
            if let Some(section) = sections.iter().find(|s| s.outline.is_none()) {
                return Err(BookError::refused(TreatRefusal::SectionNotMeasured {
                    section: section.name.clone(),
                }));
            }
            if sections.len() < wanted.iter().collect::<BTreeSet<_>>().len() {
                return Err(BookError::refused(TreatRefusal::SectionOfAnotherYard));
            }
        }
        if sections.is_empty() {
            return Err(BookError::refused(TreatRefusal::NothingMeasured));
        }
        Ok(sections)
    }

    /// Records a load that was put on. `keep_offs` names the sections; empty: all of the visit.
    ///
    /// # Errors
    /// [`BookError::Refused`] before a start, for an amount that is none, or for a time to come.
    pub fn load(
        &mut self,
        visit: VisitId,
        keep_offs: Vec<KeepOffId>,
        product: Entered,
        water: Option<Entered>,
        applied_utc_ms: i64,
    ) -> Result<()> {
        let load = Loaded {
            visit,
            keep_offs,
            product,
            water,
            applied_utc_ms,
        };
        self.check_load(&load)?;
        self.record(Fact::Loaded(load))
    }

    pub(super) fn check_load(&self, load: &Loaded) -> Result<()> {
        use sward_rules::quantity::Dimension;
        let known: Vec<KeepOffId> = self
            .keep_offs_of(load.visit)?
            .iter()
            .map(|k| k.keep_off)
            .collect();
        if known.is_empty() {
            return Err(BookError::refused(TreatRefusal::NotStarted));
        }
        if let Some(other) = load.keep_offs.iter().find(|k| !known.contains(k)) {
            return Err(BookError::NotFound {
                what: Thing::KeepOff,
                name: other.to_string(),
            });
        }
        let amount = |what: LoadPart, e: &Entered, fits: &[Dimension]| {
            if e.is_zero() || e.amount().is_sign_negative() || !fits.contains(&e.dimension()) {
                return Err(BookError::refused(TreatRefusal::LoadCannotBe {
                    what,
                    amount: e.for_person(),
                    wanted: fits.to_vec(),
                }));
            }
            Ok(())
        };
        amount(
            LoadPart::Product,
            &load.product,
            &[Dimension::Mass, Dimension::Volume],
        )?;
        if let Some(water) = &load.water {
            amount(LoadPart::Water, water, &[Dimension::Volume])?;
        }
        self.must_not_be_to_come(load.applied_utc_ms)
    }

    pub(super) fn must_not_be_to_come(&self, at_utc_ms: i64) -> Result<()> {
        // Two minutes, for a clock read and typed by hand.
        if at_utc_ms > self.env().clock().utc_ms.saturating_add(120_000) {
            return Err(BookError::refused(TreatRefusal::StillToCome));
        }
        Ok(())
    }

    /// Finishes the treatment and freezes its record. `done` tells when each section was last
    /// applied; a section not told gets the last load's time, or else now.
    ///
    /// # Errors
    /// [`BookError::Refused`] before a start; [`BookError::NotFound`].
    pub fn finish(&mut self, visit: VisitId, done: &[(KeepOffId, i64)], note: &str) -> Result<()> {
        if !self.visit(visit)?.finishes.is_empty() {
            return Err(BookError::refused(TreatRefusal::FinishedAlready));
        }
        let finish = self.finish_fact(visit, done, note)?;
        self.record(Fact::Finished(finish))
    }

    /// The finish as it would be written now.
    pub(super) fn finish_fact(
        &self,
        visit: VisitId,
        done: &[(KeepOffId, i64)],
        note: &str,
    ) -> Result<Finished> {
        let note = words(Typed::Note, note)?;
        let keep_offs = self.keep_offs_of(visit)?;
        if keep_offs.is_empty() {
            return Err(BookError::refused(TreatRefusal::NotStarted));
        }
        for (keep_off, at) in done {
            if !keep_offs.iter().any(|k| k.keep_off == *keep_off) {
                return Err(BookError::NotFound {
                    what: Thing::KeepOff,
                    name: keep_off.to_string(),
                });
            }
            self.must_not_be_to_come(*at)?;
        }
        let now_ms = self.env().clock().utc_ms;
        let gathered = Gathered::from(self, &self.visit(visit)?)?;
        let sections: Vec<SectionDone> = keep_offs
            .iter()
            .map(|k| SectionDone {
                keep_off: k.keep_off,
                last_applied_utc_ms: done
                    .iter()
                    .find(|(id, _)| *id == k.keep_off)
                    .map(|(_, at)| *at)
                    .or_else(|| gathered.last_load_on(k.keep_off))
                    .unwrap_or(now_ms)
                    // Nothing was put on before the start.
                    .max(k.started_utc_ms),
            })
            .collect();
        let covers = gathered.covers.clone();
        let treatment = self.gather(visit, gathered, &sections, note)?;
        let (frozen, frozen_hash) = treatment.freeze();
        Ok(Finished {
            visit,
            covers,
            frozen,
            frozen_hash,
            sections,
        })
    }
}

fn must_be_acknowledged(findings: &[Finding], start: &Start) -> Result<()> {
    let open: Vec<Finding> = findings
        .iter()
        .filter(|f| f.verdict == Verdict::Unknown && !start.acknowledged.contains(&f.check))
        .cloned()
        .collect();
    if !open.is_empty() {
        return Err(BookError::refused(TreatRefusal::NotAcknowledged {
            findings: open,
        }));
    }
    let hit: Vec<Finding> = findings
        .iter()
        .filter(|f| f.verdict == Verdict::DontTreat)
        .cloned()
        .collect();
    if !hit.is_empty() && start.against.is_none() {
        return Err(BookError::refused(TreatRefusal::DontTreat {
            findings: hit,
        }));
    }
    Ok(())
}
