//! The check half-way: the rate on the part that is done, and what the rest gets.
//!
//! The rules work it out; what is overdosed stays so, and the rest gets the label's rate.

use maud::{Markup, html};
use sward_book::BookError;
use sward_book::ids::VisitId;
use sward_rules::plan::{HalfWay, HalfWayResult, Rest, RestNeeds, for_the_rest, half_way_check};
use sward_rules::{Answer, Field, RuleError, Verdict};

use super::read::Treating;
use crate::ask::{Ask, Doing, Next};
use crate::part::finding::finding;
use crate::part::form::NumberField;
use crate::part::how::how;
use crate::screen::visit::Here;
use crate::{Result, Trouble, part};

/// Fields whose amounts the check asks for.
const ASKED: [(&str, &str); 2] = [("filled", "treat-half-filled"), ("left", "treat-half-left")];

pub(super) fn form(ask: &Ask<'_>, treating: &Treating) -> Markup {
    let form = ask.form("half");
    let unit = treating.product_unit(ask.words.units);
    let number = |name, label, unit: &str| {
        form.number(&NumberField {
            name,
            label,
            unit,
            filled: None,
            from: String::new(),
        })
    };
    form.wrap(html! {
        p.note { (ask.t("treat-half-how")) }
        @if treating.is_wet() { p.note { (ask.t("treat-half-mix")) } }
        @if treating.planned.is_none() { (number("planned", "treat-half-planned", &unit)) }
        @for (name, label) in ASKED { (number(name, label, &unit)) }
        (number("done", "treat-half-done", "%"))
        (form.quiet_submit("treat-half-check"))
    })
}

/// Checks, and records what was read and what the check said.
pub(super) fn check(doing: &mut Doing<'_>) -> Result<Next> {
    let visit: VisitId = doing.param("visit")?;
    let words = doing.words;
    let form = doing.form;
    let book = doing.book()?;
    let treating = Treating::read(book, Here::read(book, visit, words)?)?;
    let planned = treating.and_then(|t| t.planned);
    let mut wrong = Vec::new();
    let mut asked = |name: &str| match form.amount_needed(name) {
        Ok(amount) => Some(amount),
        Err(error) => {
            wrong.push(error);
            None
        }
    };
    let planned = planned.or_else(|| asked("planned"));
    let (filled, left, done) = (asked("filled"), asked("left"), asked("done"));
    let (Some(planned), Some(filled), Some(left), Some(done)) = (planned, filled, left, done)
    else {
        return Err(Trouble::Fields(wrong));
    };
    book.record_half_way(visit, planned, filled, left, done)
        .map_err(beside_its_field)?;
    Ok(Next::Go(format!("/visit/{visit}/treat")))
}

/// What the rules refuse, beside the field that they name.
fn beside_its_field(error: BookError) -> Trouble {
    let BookError::Rule(
        RuleError::NotPositive { field, .. }
        | RuleError::NotAllowed { field, .. }
        | RuleError::In { field, .. },
    ) = &error
    else {
        return error.into();
    };
    let name = match field {
        Field::PlannedProduct => "planned",
        Field::FilledProduct => "filled",
        Field::ProductLeft => "left",
        Field::ShareDone => "done",
        _ => return error.into(),
    };
    Trouble::in_field(name, error)
}

/// What the last check found.
pub(super) fn result(ask: &Ask<'_>, treating: &Treating) -> Markup {
    let Some((read, at_ms)) = &treating.half_way else {
        return html! {
            p { (ask.t("treat-on-rate")) ": " span.unknown { (ask.t("frame-not-known")) } " " (ask.t("treat-half-none")) }
        };
    };
    let checked = half_way_check(&HalfWay {
        label: &treating.started.label,
        rate: treating.started.rate,
        planned: read.planned,
        filled: read.filled,
        left: read.left,
        done: read.done,
    });
    // What another program recorded may be no check that the rules take.
    let Ok(answer) = checked else {
        return html! { p { span.unknown { (ask.t("frame-not-known")) } } };
    };
    let words = treating.here.words;
    let not_known = ask.t("frame-not-known");
    let found = &answer.value;
    let row = |key: &str, amount: &sward_rules::Entered| {
        part::row(&ask.t(key), &words.worked_out(amount), &not_known)
    };
    html! {
        section {
            h2 { (words.t_with("treat-half-at", &[("ago", words.ago(*at_ms, ask.now.utc_ms).into())])) }
            (finding(ask, &found.finding))
            dl {
                (row("treat-half-rate-done", &found.rate_done))
                (row("treat-half-used", &found.used))
                (row("treat-half-due", &found.due))
                (row("treat-half-rest", &found.for_the_rest))
                @if let Some(missing) = &found.missing { (row("treat-half-missing", missing)) }
            }
            (how(ask, &answer.working))
            @if let Some(needs) = pace_for_the_rest(treating, found) {
                @if let Some(pace) = &needs.value.pace {
                    dl { (row("treat-half-pace", pace)) }
                    (how(ask, &needs.working))
                }
            }
        }
    }
}

/// The pace at which the same setting gives what is left its planned rate; none where the pace that
/// was calibrated is not known, or where the part done was on rate.
fn pace_for_the_rest(treating: &Treating, found: &HalfWayResult) -> Option<Answer<RestNeeds>> {
    if found.finding.verdict == Verdict::Clear {
        return None;
    }
    let rest = Rest {
        rate: treating.started.rate,
        most: treating.started.label.rate_most.value().copied(),
        rate_done: found.rate_done,
        pace: Some(treating.pace?),
        setting: None,
        tried: &[],
    };
    // Rates that do not go together were refused by the check itself.
    for_the_rest(&rest).ok()
}
