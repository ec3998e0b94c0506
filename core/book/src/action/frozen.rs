//! What a finish freezes: the standing facts of a visit, gathered into one treatment.
//!
//! Only what holds goes in: nothing superseded, no correction by someone who is not of the crew,
//! and the weather of the treatment rather than of the whole day.

use sward_rules::Finding;

use crate::fact::{
    Aftercare, Counted, Fact, HalfWayChecked, Loaded, Person, Replacement, SectionDone, SkySeen,
    Started, WindMeasured,
};
use crate::ids::{FactId, KeepOffId, VisitId};
use crate::log::Stamp;
use crate::record::{TREATMENT_FORMAT, TreatedSection, Treatment, add_up};
use crate::refusal::TreatRefusal;
use crate::view::visit::VisitView;
use crate::{Book, BookError, Result, Thing};

/// Readings older than this when treating starts are the visit's history, not the treatment's
/// weather, in minutes. No reading is accepted for longer by any check.
const WEATHER_BEFORE_START_MIN: i64 = 60;

/// The standing facts of a visit that a record is made of.
#[derive(Default)]
pub(super) struct Gathered {
    pub(super) covers: Vec<FactId>,
    started: Option<(Stamp, Started)>,
    loads: Vec<Loaded>,
    counts: Vec<Counted>,
    wind: Vec<WindMeasured>,
    sky: Vec<SkySeen>,
    half_way: Vec<HalfWayChecked>,
    aftercare: Vec<Aftercare>,
    findings: Vec<Finding>,
}

impl Gathered {
    pub(super) fn from(book: &Book, view: &VisitView) -> Result<Self> {
        let mut gathered = Self::default();
        let mut judged = Vec::new();
        for line in view.history.iter().filter(|l| l.superseded_by.is_none()) {
            let (at, fact) = book.fact_of(line.fact)?;
            let not_put_on = view
                .late
                .iter()
                .any(|l| l.fact == line.fact && l.counts == Some(false));
            // A correction that is not the crew's supersedes nothing, so it must add nothing.
            let no_correction = matches!(fact, Fact::Corrected(_)) && !line.of_the_crew;
            if not_put_on || no_correction {
                continue;
            }
            gathered.covers.push(line.fact);
            match fact {
                Fact::Started(f) => {
                    gathered.started.get_or_insert((at, f));
                }
                Fact::Loaded(f) => gathered.loads.push(f),
                Fact::Counted(f) => gathered.counts.push(f),
                Fact::WindMeasured(f) => gathered.wind.push(f),
                Fact::SkySeen(f) => gathered.sky.push(f),
                Fact::HalfWayChecked(f) => gathered.half_way.push(f),
                Fact::Aftercare(f) => gathered.aftercare.push(f),
                Fact::Judged(f) => judged.push((line.fact, f.findings)),
                Fact::Corrected(c) => match c.new {
                    Replacement::Loaded(f) => gathered.loads.push(f),
                    Replacement::Counted(f) => gathered.counts.push(f),
                    Replacement::WindMeasured(f) => gathered.wind.push(f),
                    _ => {}
                },
                _ => {}
            }
        }
        // Another phone may have judged again in between: what counts is what this start saw.
        let on = gathered
            .started
            .as_ref()
            .and_then(|(_, start)| start.judged);
        if let Some((_, findings)) = judged.into_iter().find(|(id, _)| Some(*id) == on) {
            gathered.findings = findings;
        }
        if let Some((at, _)) = &gathered.started {
            let from_ms = at.utc_ms - WEATHER_BEFORE_START_MIN * 60_000;
            gathered.wind = weather_since(gathered.wind, from_ms);
            gathered.sky.retain(|seen| last_look_ms(seen) >= from_ms);
        }
        Ok(gathered)
    }

    pub(super) fn last_load_on(&self, keep_off: KeepOffId) -> Option<i64> {
        self.loads
            .iter()
            .filter(|l| l.keep_offs.is_empty() || l.keep_offs.contains(&keep_off))
            .map(|l| l.applied_utc_ms)
            .max()
    }
}

/// The readings since a time. A morning that was too windy is in the visit's history; the record
/// of the evening's treatment has the evening's wind.
fn weather_since(series: Vec<WindMeasured>, from_ms: i64) -> Vec<WindMeasured> {
    series
        .into_iter()
        .filter_map(|mut wind| {
            wind.readings.retain(|r| r.at_utc_ms >= from_ms);
            (!wind.readings.is_empty()).then_some(wind)
        })
        .collect()
}

fn last_look_ms(seen: &SkySeen) -> i64 {
    [
        seen.air.as_ref().map(|l| l.at_utc_ms),
        seen.inversion.as_ref().map(|l| l.at_utc_ms),
        seen.soil.as_ref().map(|l| l.at_utc_ms),
        seen.bloom.as_ref().map(|l| l.at_utc_ms),
        seen.wind.as_ref().map(|l| l.at_utc_ms),
    ]
    .into_iter()
    .flatten()
    .max()
    .unwrap_or(i64::MIN)
}

impl Book {
    /// The treatment as it would be frozen now.
    pub(super) fn gather(
        &self,
        visit: VisitId,
        gathered: Gathered,
        done: &[SectionDone],
        note: String,
    ) -> Result<Treatment> {
        let view = self.visit(visit)?;
        let yard = view
            .yard
            .ok_or_else(|| BookError::refused(TreatRefusal::YardNotArrived))?;
        let sheet = self.yard_sheet(yard)?;
        let (started, start) = gathered
            .started
            .ok_or_else(|| BookError::refused(TreatRefusal::NotStarted))?;
        let keep_offs = self.keep_offs_of(visit)?;
        let sections = keep_offs
            .iter()
            .map(|k| TreatedSection {
                section: k.section,
                name: k.name.clone(),
                area: k
                    .outline
                    .area()
                    .map(|a| a.value.for_person())
                    .unwrap_or_default(),
                outline: k.outline.clone(),
                keep_off: k.keep_off,
                last_applied_utc_ms: done
                    .iter()
                    .find(|d| d.keep_off == k.keep_off)
                    .map_or(k.started_utc_ms, |d| d.last_applied_utc_ms),
            })
            .collect();
        let applicator = self
            .roster()
            .member(self.secret()?.stream())
            .and_then(|m| m.person.clone())
            .unwrap_or_else(|| Person {
                name: String::new(),
                licence: String::new(),
            });
        Ok(Treatment {
            format: TREATMENT_FORMAT,
            visit,
            crew: self.roster().crew_name().unwrap_or_default().to_owned(),
            practice: self.is_practice()?,
            yard,
            yard_name: sheet.name,
            address: sheet.address,
            zone: sheet.zone.map(|z| z.name().to_owned()).unwrap_or_default(),
            target: view.target,
            label_sheet: start.label_sheet,
            label: start.label,
            rate: start.rate,
            sections,
            product_total: add_up(gathered.loads.iter().map(|l| &l.product)),
            water_total: add_up(gathered.loads.iter().filter_map(|l| l.water.as_ref())),
            loads: gathered.loads,
            started,
            finished: self.stamp()?,
            applicator,
            counts: gathered.counts,
            wind: gathered.wind,
            sky: gathered.sky,
            findings: gathered.findings,
            acknowledged: start.acknowledged,
            against: start.against,
            note,
            equipment: start.equipment,
            lot: start.lot,
            gear: start.gear,
            half_way: (!gathered.half_way.is_empty()).then_some(gathered.half_way),
            aftercare: (!gathered.aftercare.is_empty()).then_some(gathered.aftercare),
        })
    }
}

/// The treatment that a finish froze.
///
/// # Errors
/// [`BookError::NotFound`] when the fact is no finish, [`BookError::Format`] when its bytes are
/// not those that were frozen.
pub fn treatment_of(book: &Book, finish: FactId) -> Result<Treatment> {
    let (_, fact) = book.fact(finish)?;
    let finished = match fact {
        Fact::Finished(f) => f,
        Fact::Corrected(c) => match c.new {
            Replacement::Finished(f) => f,
            _ => {
                return Err(BookError::NotFound {
                    what: Thing::Finish,
                    name: finish.to_string(),
                });
            }
        },
        _ => {
            return Err(BookError::NotFound {
                what: Thing::Finish,
                name: finish.to_string(),
            });
        }
    };
    Treatment::thaw(&finished.frozen, finished.frozen_hash)
}
