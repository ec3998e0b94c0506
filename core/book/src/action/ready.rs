//! May I treat, here and now: all findings for a visit, from what its facts say.
//!
//! The rules judge; here is only which facts they are given: those that stand.

use sward_rules::finding::{Check, Finding, Reason, Shown, Verdict, Whose};
use sward_rules::keep_off::Now;
use sward_rules::label::Label;
use sward_rules::sky::{
    Forecast, MeterReading, Nearby, NextWindow, SkyAdvice, SkyInputs, StationReport, YardWind,
    next_window, outlook,
};
use sward_rules::walk_round::{self, Answered};

use crate::error::known;
use crate::fact::{Fact, Replacement, SkySeen};
use crate::ids::{SheetId, VisitId};
use crate::sheet::YardSheet;
use crate::view::visit::{VisitState, VisitView};
use crate::{Book, Result};

/// What is known beside the visit's own facts.
#[derive(Debug, Clone, Copy, Default)]
pub struct ReadyInputs<'a> {
    /// A station's report.
    pub station: Option<&'a StationReport>,
    /// A forecast for the place.
    pub forecast: Option<&'a Forecast>,
    /// How long treating will take, in minutes; none: as the advice assumes.
    pub job_min: Option<u32>,
    /// What lies around the sections to be treated, with its directions; none: the yard's marks,
    /// of which then nobody knows on which side they lie.
    pub around: Option<&'a [Nearby]>,
}

/// What the facts of a visit say about sky and yard.
#[derive(Default)]
struct Seen {
    wind: Vec<MeterReading>,
    sky: Vec<SkySeen>,
    answers: Vec<Answered>,
}

/// Every finding for treating `visit` with `label_sheet` at `now`, and when it may open next by
/// the forecast.
///
/// # Errors
/// [`crate::BookError::NotFound`], [`crate::BookError::Refused`] while the label sheet's method is
/// not filled in.
pub fn judge(
    book: &Book,
    visit: VisitId,
    label_sheet: SheetId,
    inputs: ReadyInputs<'_>,
) -> Result<(Vec<Finding>, NextWindow)> {
    let now = book.now()?;
    let sheet = book.label_sheet(label_sheet)?;
    let label = &sheet.label;
    let visit = &book.visit(visit)?;
    let seen = seen_in(book, visit)?;
    let advice = SkyAdvice::default();
    let mut sky = SkyInputs::new(label, now, &advice);
    if let Some(job_min) = inputs.job_min {
        sky.job_min = job_min;
    }
    sky.station = inputs.station;
    sky.forecast = inputs.forecast;
    // The latest look of each kind that stands.
    sky.air = seen.sky.iter().rev().find_map(|s| s.air.as_ref());
    sky.inversion = seen.sky.iter().rev().find_map(|s| s.inversion.as_ref());
    sky.soil = seen.sky.iter().rev().find_map(|s| s.soil.as_ref());
    sky.bloom = seen.sky.iter().rev().find_map(|s| s.bloom.as_ref());
    let estimate = seen.sky.iter().rev().find_map(|s| s.wind.as_ref());
    sky.yard_wind = if seen.wind.is_empty() {
        estimate.map(YardWind::Seen)
    } else {
        Some(YardWind::Meter(&seen.wind))
    };

    let sheet = match visit.yard {
        Some(yard) => known(book.yard_sheet(yard))?,
        None => None,
    };
    let marks = match inputs.around {
        None => sheet.as_ref().map(marks),
        Some(_) => None,
    };
    sky.around = inputs.around.or(marks.as_deref());
    sky.place = sheet.as_ref().and_then(YardSheet::place);

    let mut findings = vec![
        read_back(book, label_sheet)?,
        repeat(book, visit, label, now)?,
    ];
    findings.extend(outlook(&sky));
    findings.extend(walk_round::findings(label.method, &seen.answers, now));
    Ok((findings, next_window(&sky)))
}

/// What is marked around a yard, on sides that nobody knows.
fn marks(sheet: &YardSheet) -> Vec<Nearby> {
    let shown = sheet.marks.iter().filter(|m| !m.hidden);
    shown.filter_map(|mark| mark.nearby(None)).collect()
}

fn seen_in(book: &Book, visit: &VisitView) -> Result<Seen> {
    let mut seen = Seen::default();
    let stands = visit.history.iter().filter(|l| l.superseded_by.is_none());
    for line in stands {
        let (_, fact) = book.fact(line.fact)?;
        match fact {
            Fact::WindMeasured(f) => seen.wind.extend(f.readings),
            Fact::SkySeen(f) => seen.sky.push(f),
            Fact::WalkedRound(f) => seen.answers.extend(f.answers),
            // A correction that is not the crew's supersedes nothing, so it must add nothing.
            Fact::Corrected(c) if line.of_the_crew => match c.new {
                Replacement::WindMeasured(f) => seen.wind.extend(f.readings),
                Replacement::WalkedRound(f) => seen.answers.extend(f.answers),
                _ => {}
            },
            _ => {}
        }
    }
    Ok(seen)
}

fn read_back(book: &Book, label_sheet: SheetId) -> Result<Finding> {
    let check = Check::LabelReadBack;
    Ok(match book.label(label_sheet)?.read_back {
        Some(done) => Finding::new(
            check,
            Verdict::Clear,
            Reason::ReadBack {
                person: done.person,
            },
        ),
        None => Finding::unknown(check, Reason::NotReadBack),
    })
}

/// The label's earliest repeat, beside what this crew put on the yard with the same product.
fn repeat(book: &Book, visit: &VisitView, label: &Label, now: Now) -> Result<Finding> {
    let check = Check::Repeat;
    let Some(after) = label.repeat_after.value() else {
        return Ok(Finding::unknown(check, Reason::RepeatEmpty));
    };
    let Some(yard) = visit.yard else {
        return Ok(Finding::unknown(check, Reason::YardNotKnown));
    };
    let wait_ms = after.to_seconds_up()?.saturating_mul(1000);
    let mut last_ms: Option<i64> = None;
    for other in book.visits_to(yard)? {
        let treated = matches!(other.state, VisitState::Treating | VisitState::Finished);
        if other.visit == visit.visit || !treated {
            continue;
        }
        for keep_off in book.keep_offs_of(other.visit)? {
            if keep_off.product == label.product {
                let at = keep_off
                    .last_applied_utc_ms
                    .unwrap_or(keep_off.started_utc_ms);
                last_ms = last_ms.max(Some(at));
            }
        }
    }
    let finding = match last_ms {
        Some(at) if now.utc_ms < at.saturating_add(wait_ms) => {
            let days = now.utc_ms.saturating_sub(at) / 86_400_000;
            Finding::new(check, Verdict::DontTreat, Reason::TreatedTooRecently).with_value(
                Shown::DaysAgo {
                    days: u32::try_from(days).unwrap_or(0),
                },
            )
        }
        // What others put on, the owner or another firm, this book cannot know.
        Some(_) => Finding::new(check, Verdict::Clear, Reason::TreatedLongAgo),
        None => Finding::new(check, Verdict::Clear, Reason::NoTreatmentKnown),
    };
    Ok(finding.with_limit(Shown::Amount { amount: *after }, Whose::Label))
}
