//! The start: each thing not known acknowledged by its own name, a reason where a limit is hit.
//!
//! The keep-offs begin with it. The book decides whether it is accepted.

use maud::{Markup, html};
use sward_book::Book;
use sward_book::action::Start;
use sward_book::ids::VisitId;
use sward_book::sheet::{EquipmentSheet, PlanSheet};
use sward_rules::finding::{Check, Finding, Verdict};

use super::read::{Ready, Recorded};
use crate::ask::{Ask, Doing, Next};
use crate::part::finding::check_name;
use crate::trouble::Wrong;
use crate::words::Words;
use crate::{Result, Trouble, part};

/// The field in which a check that is not known is acknowledged.
fn field_of(check: Check) -> String {
    // The core's own name of the check, which is the one in the record.
    format!("ack.{}", sward_book::refusal::check_name(check))
}

/// Each check among the findings that has this answer, once.
fn with_verdict(findings: &[Finding], verdict: Verdict) -> Vec<&Finding> {
    let mut once: Vec<&Finding> = Vec::new();
    for finding in findings.iter().filter(|f| f.verdict == verdict) {
        if !once.iter().any(|f| f.check == finding.check) {
            once.push(finding);
        }
    }
    once
}

/// What a start copies from the plan's sheets into the record.
struct Copied {
    equipment: Option<String>,
    lot: Option<String>,
    gear: Option<String>,
}

impl Copied {
    fn read(book: &Book, plan: &PlanSheet, words: Words) -> Self {
        let filled = |text: String| Some(text).filter(|t| !t.trim().is_empty());
        let equipment = plan.equipment.and_then(|id| book.equipment_sheet(id).ok());
        let stock = plan.stock.and_then(|id| book.stock_sheet(id).ok());
        Self {
            equipment: equipment.and_then(|sheet| filled(equipment_words(words, &sheet))),
            lot: stock.and_then(|sheet| filled(sheet.lot)),
            gear: filled(plan.gear.clone()),
        }
    }
}

/// Name, setting, swath and the calibration's day, as far as the sheet has them.
fn equipment_words(words: Words, sheet: &EquipmentSheet) -> String {
    let mut parts = vec![sheet.name.clone()];
    if !sheet.setting.is_empty() {
        parts.push(words.t_with(
            "ready-setting",
            &[("setting", sheet.setting.clone().into())],
        ));
    }
    if let Some(swath) = &sheet.swath {
        parts.push(words.t_with("ready-swath", &[("swath", words.amount(swath).into())]));
    }
    if let Some(day) = sheet.calibrated_on {
        parts.push(words.t_with("ready-calibrated", &[("day", words.day(day).into())]));
    }
    parts.retain(|part| !part.is_empty());
    parts.join(", ")
}

/// The form that starts.
pub(super) fn form(ask: &Ask<'_>, ready: &Ready, recorded: &Recorded) -> Result<Markup> {
    let unknown = with_verdict(&recorded.findings, Verdict::Unknown);
    let hit = with_verdict(&recorded.findings, Verdict::DontTreat);
    let Some(rate) = &ready.plan.rate else {
        let plan = format!("/visit/{}/plan", ready.here.visit.visit);
        return Ok(html! {
            p { (ask.t("ready-no-rate")) }
            (part::next_step(&plan, &ask.t("ready-to-plan")))
        });
    };
    let copied = Copied::read(ask.book()?, &ready.plan, ask.words);
    let not_known = ask.t("frame-not-known");
    let row = |key: &str, value: &Option<String>| {
        part::row(
            &ask.t(key),
            value.as_deref().unwrap_or_default(),
            &not_known,
        )
    };
    let form = ask.form("start");
    Ok(html! {
        section.card {
            dl {
                (part::row(&ask.t("ready-rate"), &ask.words.amount(rate), &not_known))
                (part::row(&ask.t("ready-sections"), &sections(ready), &not_known))
                (row("ready-equipment", &copied.equipment))
                (row("ready-lot", &copied.lot))
                (row("ready-gear", &copied.gear))
            }
            (form.wrap(html! {
                @if !unknown.is_empty() {
                    p { (ask.t("ready-acknowledge")) }
                    @for finding in &unknown {
                        (form.tick(&field_of(finding.check), &acknowledged_words(ask, finding), false))
                    }
                }
                @if !hit.is_empty() {
                    p { (ask.words.t_with("ready-against", &[("checks", names(ask, &hit).into())])) }
                    (form.lines("against", "ready-against-why", "ready-against-help", None))
                }
                p.note { (ask.t("ready-start-keeps-off")) }
                @if unknown.is_empty() && hit.is_empty() { (form.submit("ready-start")) }
                @else { (form.quiet_submit("ready-start-all-the-same")) }
            }))
        }
    })
}

/// The sections that the start is for.
fn sections(ready: &Ready) -> String {
    let chosen = &ready.plan.sections;
    let all = ready.here.yard.iter().flat_map(|y| &y.sections);
    let names: Vec<&str> = all
        .filter(|s| {
            if chosen.is_empty() {
                !s.hidden && s.outline.is_some()
            } else {
                chosen.contains(&s.id)
            }
        })
        .map(|s| s.name.as_str())
        .collect();
    names.join(", ")
}

fn names(ask: &Ask<'_>, findings: &[&Finding]) -> String {
    let names: Vec<String> = findings.iter().map(|f| check_name(ask, f.check)).collect();
    names.join(", ")
}

fn acknowledged_words(ask: &Ask<'_>, finding: &Finding) -> String {
    let args = [
        ("check", check_name(ask, finding.check).into()),
        ("why", ask.words.said("reason", &finding.reason).into()),
    ];
    ask.words.t_with("ready-acknowledge-one", &args)
}

/// Starts treating.
pub(super) fn start(doing: &mut Doing<'_>) -> Result<Next> {
    let visit: VisitId = doing.param("visit")?;
    let (words, shared) = (doing.words, doing.shared);
    let clock_ms = doing.now_ms();
    let ready = Ready::read(doing.book()?, shared, visit, words)?;
    let Some(rate) = ready.plan.rate else {
        return Err(Wrong::ChangedMeanwhile.into());
    };
    if let Some(recorded) = &ready.recorded
        && recorded.is_fresh(clock_ms)
    {
        // What was checked is another rate, or another yard by now.
        if ready.to_start_on(clock_ms).is_none() {
            return Err(Wrong::ChangedMeanwhile.into());
        }
        must_be_acknowledged(doing, &recorded.findings)?;
    }
    // Old findings, or none, the book refuses in its own words.
    let acknowledged = acknowledged(doing, &ready);
    let against = Some(doing.text("against").to_owned()).filter(|t| !t.is_empty());
    let copied = Copied::read(doing.book()?, &ready.plan, words);
    let start = Start {
        label_sheet: ready.label_id,
        rate,
        sections: ready.plan.sections.clone(),
        acknowledged,
        against,
        equipment: copied.equipment,
        lot: copied.lot,
        gear: copied.gear,
    };
    doing.book()?.start(visit, start)?;
    Ok(Next::Go(format!("/visit/{visit}/treat")))
}

fn acknowledged(doing: &Doing<'_>, ready: &Ready) -> Vec<Check> {
    let recorded = ready
        .recorded
        .iter()
        .flat_map(|r| with_verdict(&r.findings, Verdict::Unknown));
    recorded
        .map(|f| f.check)
        .filter(|check| doing.form.is_ticked(&field_of(*check)))
        .collect()
}

/// Every box that is not ticked and a reason that is missing, each said beside its field.
fn must_be_acknowledged(doing: &Doing<'_>, findings: &[Finding]) -> Result<()> {
    let mut wrong: Vec<Trouble> = with_verdict(findings, Verdict::Unknown)
        .into_iter()
        .map(|f| field_of(f.check))
        .filter(|field| !doing.form.is_ticked(field))
        .map(|field| Trouble::field(field, Wrong::Missing))
        .collect();
    let is_hit = findings.iter().any(|f| f.verdict == Verdict::DontTreat);
    if is_hit && doing.text("against").is_empty() {
        wrong.push(Trouble::field("against", Wrong::Missing));
    }
    if wrong.is_empty() {
        Ok(())
    } else {
        Err(Trouble::Fields(wrong))
    }
}
