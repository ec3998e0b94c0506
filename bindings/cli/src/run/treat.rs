//! Treating: start, load, finish.

use serde_json::{Value, json};
use sward_book::Book;
use sward_book::action::Start;
use sward_book::fact::Fact;
use sward_book::ids::{KeepOffId, VisitId};
use sward_rules::finding::{Check, Finding, Verdict, sum};

use crate::app::App;
use crate::args::{FinishArgs, LoadArgs, LoadedArgs, SectionDoneArgs, StartArgs};
use crate::error::{CliError, Result};
use crate::names;
use crate::print::{Answer, Page};
use crate::times::when;
use crate::words::{CAUTION, verdict};

use super::plan::{planned, rate_findings};
use super::{last_own_fact, yard_name};

/// Runs `sward start`.
pub(super) fn start(app: &App, args: &StartArgs) -> Result<Answer> {
    let mut book = app.writing()?;
    let visit = names::visit(&book, &args.visit)?;
    let planned = planned(&book, visit)?;
    let (Some(label_sheet), Some(rate)) = (planned.sheet.label, planned.sheet.rate) else {
        return Err(CliError::Refused(
            "the plan has no rate yet: sward plan VISIT --rate ..., then ready".into(),
        ));
    };
    let judged = judged(&book, visit)?;
    if let Some(findings) = &judged {
        must_be_of_this_rate(findings, &rate_findings(&planned)?)?;
    }
    let sections = match book.visit(visit)?.yard {
        Some(yard) => names::sections(&book.yard_sheet(yard)?, &args.sections)?,
        None => Vec::new(),
    };
    let start = Start {
        label_sheet,
        rate,
        sections,
        acknowledged: args.acknowledge.clone(),
        against: args.against.clone(),
        equipment: None,
        lot: None,
        gear: None,
    };
    let keep_offs = book.start(visit, start)?;
    let mut page = Page::of(format!(
        "Started: {} at {}. From now on keep off:",
        planned.label.label.product,
        rate.for_person()
    ));
    let json = kept_off(&book, visit, &keep_offs, &mut page)?;
    let now = sum(&judged.unwrap_or_default());
    page.line(format!("Checks before the start: {}.", verdict(now)));
    if now <= Verdict::Caution {
        page.line(CAUTION);
    }
    page.line("Next: sward load for each load, then sward finish.");
    let fact = last_own_fact(&book, visit)?;
    Ok(Answer::new(
        page,
        json!({ "visit": visit, "fact": fact, "keep_offs": json }),
    ))
}

/// The findings that were recorded last; none when nothing was checked yet.
fn judged(book: &Book, visit: VisitId) -> Result<Option<Vec<Finding>>> {
    for line in book.visit(visit)?.history.iter().rev() {
        if let (_, Fact::Judged(judged)) = book.fact(line.fact)? {
            return Ok(Some(judged.findings));
        }
    }
    Ok(None)
}

/// A rate changed after the check was never held against the label before the start.
fn must_be_of_this_rate(judged: &[Finding], now: &[Finding]) -> Result<()> {
    let of_rate = |findings: &[Finding]| -> Vec<Finding> {
        findings
            .iter()
            .filter(|f| f.check == Check::Rate)
            .cloned()
            .collect()
    };
    if of_rate(judged) == of_rate(now) {
        Ok(())
    } else {
        Err(CliError::Refused(
            "the plan or the label sheet was changed since it was checked: run sward ready again, then start".into(),
        ))
    }
}

fn kept_off(book: &Book, visit: VisitId, ids: &[KeepOffId], page: &mut Page) -> Result<Vec<Value>> {
    let mut json = Vec::new();
    for id in ids {
        let view = book.keep_off(visit, *id)?;
        page.item(format!("{} ({})", view.name, names::short(id.0)));
        json.push(json!({ "keep_off": id, "section": view.section, "name": view.name }));
    }
    Ok(json)
}

/// Runs `sward load`.
pub(super) fn load(app: &App, args: &LoadArgs) -> Result<Answer> {
    let mut book = app.writing()?;
    let visit = names::visit(&book, &args.visit)?;
    let loaded = loaded(app, &book, visit, &args.loaded)?;
    let text = loaded.product.for_person();
    book.load(
        visit,
        loaded.keep_offs,
        loaded.product,
        loaded.water,
        loaded.applied_utc_ms,
    )?;
    let page = Page::of(format!("Load recorded: {text}."));
    Ok(Answer::new(
        page,
        json!({ "visit": visit, "fact": last_own_fact(&book, visit)? }),
    ))
}

/// A load as given on the command line.
pub(super) fn loaded(
    app: &App,
    book: &Book,
    visit: VisitId,
    args: &LoadedArgs,
) -> Result<sward_book::fact::Loaded> {
    let now = app.now_utc_ms();
    let applied_utc_ms = match &args.at {
        Some(at) => when(at, app.zone_of_visit(book, visit)?, now)?,
        None => now,
    };
    let keep_offs = names::keep_offs(book, visit, &args.sections)?;
    let (product, water) = (args.product, args.water);
    Ok(sward_book::fact::Loaded {
        visit,
        keep_offs,
        product,
        water,
        applied_utc_ms,
    })
}

/// Runs `sward finish`.
pub(super) fn finish(app: &App, args: &FinishArgs) -> Result<Answer> {
    let mut book = app.writing()?;
    let visit = names::visit(&book, &args.visit)?;
    let done = sections_done(app, &book, visit, &args.done)?;
    book.finish(visit, &done, &args.done.note)?;
    finished(app, &book, visit)
}

/// When each section was done, as given on the command line.
pub(super) fn sections_done(
    app: &App,
    book: &Book,
    visit: VisitId,
    args: &SectionDoneArgs,
) -> Result<Vec<(KeepOffId, i64)>> {
    let zone = app.zone_of_visit(book, visit)?;
    args.sections
        .iter()
        .map(|text| {
            let (section, at) = text.rsplit_once('=').ok_or_else(|| {
                CliError::Usage(format!(
                    "--section {text}: write it like --section front=09:10"
                ))
            })?;
            let keep_off = names::keep_off(book, visit, section)?.keep_off;
            Ok((keep_off, when(at, zone, app.now_utc_ms())?))
        })
        .collect()
}

/// What a finish answers.
pub(super) fn finished(app: &App, book: &Book, visit: VisitId) -> Result<Answer> {
    let view = book.visit(visit)?;
    let yard = yard_name(book, view.yard);
    let mut page = Page::of(format!("Finished: {yard}. The record is frozen."));
    let keep_offs = super::keep_off::of_visit(app, book, visit, &mut page)?;
    let fact = last_own_fact(book, visit)?;
    Ok(Answer::new(
        page,
        json!({ "visit": visit, "fact": fact, "keep_offs": keep_offs }),
    ))
}
