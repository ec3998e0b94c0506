//! What one result holds: the bytes that its finish froze, or what is told so far.
//!
//! How it is shown is [`super::sheet`].

use sward_book::Book;
use sward_book::action::treatment_of;
use sward_book::fact::{Counted, Fact, Loaded, Person, Replacement, SkySeen};
use sward_book::ids::{FactId, KeepOffId};
use sward_book::record::{Treatment, add_up};
use sward_rules::Entered;
use sward_rules::finding::{Check, Finding};
use sward_rules::label::Label;
use sward_rules::measure::Outline;
use sward_rules::sky::MeterReading;

use super::told::{Known, Told};
use crate::Result;

/// A section that was treated.
pub(super) struct Section {
    pub(super) keep_off: KeepOffId,
    pub(super) name: String,
    pub(super) outline: Outline,
    /// The last application; none before a finish.
    pub(super) last_ms: Option<i64>,
}

/// What one result holds. None and empty: not told.
#[derive(Default)]
pub(super) struct Content {
    pub(super) practice: bool,
    pub(super) crew: String,
    pub(super) yard_name: String,
    pub(super) address: String,
    /// The yard's zone by name; empty where none is set.
    pub(super) zone: String,
    pub(super) target: String,
    pub(super) label: Option<Label>,
    pub(super) rate: Option<Entered>,
    pub(super) sections: Vec<Section>,
    pub(super) loads: Vec<Loaded>,
    pub(super) product_total: Option<Entered>,
    pub(super) water_total: Option<Entered>,
    pub(super) started_ms: Option<i64>,
    pub(super) finished_ms: Option<i64>,
    /// A clock was not proven at the start or the end.
    pub(super) time_uncertain: bool,
    pub(super) applicator: Option<Person>,
    pub(super) counts: Vec<Counted>,
    pub(super) wind: Vec<MeterReading>,
    pub(super) sky: Vec<SkySeen>,
    pub(super) findings: Vec<Finding>,
    pub(super) acknowledged: Vec<Check>,
    pub(super) against: Option<String>,
    pub(super) note: String,
    pub(super) equipment: Option<String>,
    pub(super) lot: Option<String>,
    pub(super) gear: Option<String>,
    /// Hash of the frozen bytes; empty before a finish.
    pub(super) frozen: String,
}

/// What a finish froze.
pub(super) fn frozen(book: &Book, told: &Told, finish: FactId) -> Result<Content> {
    let treatment = treatment_of(book, finish)?;
    let hash = told.find(finish).and_then(Known::finish);
    Ok(Content {
        frozen: hash.map_or_else(String::new, |f| f.frozen_hash.to_string()),
        ..of_treatment(treatment)
    })
}

fn of_treatment(t: Treatment) -> Content {
    let unproven = sward_book::env::TimeProof::Unproven;
    Content {
        practice: t.practice,
        crew: t.crew,
        yard_name: t.yard_name,
        address: t.address,
        zone: t.zone,
        target: t.target,
        label: Some(t.label),
        rate: Some(t.rate),
        sections: t
            .sections
            .into_iter()
            .map(|s| Section {
                keep_off: s.keep_off,
                name: s.name,
                outline: s.outline,
                last_ms: Some(s.last_applied_utc_ms),
            })
            .collect(),
        loads: t.loads,
        product_total: t.product_total,
        water_total: t.water_total,
        started_ms: Some(t.started.utc_ms),
        finished_ms: Some(t.finished.utc_ms),
        time_uncertain: t.started.proof == unproven || t.finished.proof == unproven,
        applicator: Some(t.applicator),
        counts: t.counts,
        wind: t.wind.into_iter().flat_map(|w| w.readings).collect(),
        sky: t.sky,
        findings: t.findings,
        acknowledged: t.acknowledged,
        against: t.against,
        note: t.note,
        equipment: t.equipment,
        lot: t.lot,
        gear: t.gear,
        frozen: String::new(),
    }
}

/// What stands so far on a visit without a finish.
pub(super) fn so_far(told: &Told) -> Content {
    let yard = told.here.yard.as_ref();
    let mut content = Content {
        practice: told.practice,
        crew: told.crew.clone(),
        yard_name: yard.map(|y| y.name.clone()).unwrap_or_default(),
        address: yard.map(|y| y.address.clone()).unwrap_or_default(),
        zone: yard
            .and_then(|y| y.zone)
            .map(|z| z.name().to_owned())
            .unwrap_or_default(),
        target: told.visit().target.clone(),
        sections: told
            .keep_offs
            .iter()
            .map(|k| Section {
                keep_off: k.keep_off,
                name: k.name.clone(),
                outline: k.outline.clone(),
                last_ms: k.last_applied_utc_ms,
            })
            .collect(),
        ..Content::default()
    };
    for known in told.standing() {
        content.add(known);
    }
    content.product_total = add_up(content.loads.iter().map(|l| &l.product));
    content.water_total = add_up(content.loads.iter().filter_map(|l| l.water.as_ref()));
    content
}

impl Content {
    fn add(&mut self, known: &Known) {
        match &known.fact {
            Fact::Started(f) if self.label.is_none() => {
                self.started_ms = Some(known.line.at.utc_ms);
                self.label = Some(f.label.clone());
                self.rate = Some(f.rate);
                self.acknowledged.clone_from(&f.acknowledged);
                self.against.clone_from(&f.against);
                self.equipment.clone_from(&f.equipment);
                self.lot.clone_from(&f.lot);
                self.gear.clone_from(&f.gear);
            }
            Fact::Loaded(f) => self.loads.push(f.clone()),
            Fact::Counted(f) => self.counts.push(f.clone()),
            Fact::WindMeasured(f) => self.wind.extend(f.readings.iter().cloned()),
            Fact::SkySeen(f) => self.sky.push(f.clone()),
            Fact::Judged(f) => self.findings.clone_from(&f.findings),
            Fact::NotTreated(f) => self.note.clone_from(&f.note),
            Fact::Corrected(c) => match &c.new {
                Replacement::Loaded(f) => self.loads.push(f.clone()),
                Replacement::Counted(f) => self.counts.push(f.clone()),
                Replacement::WindMeasured(f) => self.wind.extend(f.readings.iter().cloned()),
                Replacement::NotTreated(f) => self.note.clone_from(&f.note),
                _ => {}
            },
            _ => {}
        }
    }
}
