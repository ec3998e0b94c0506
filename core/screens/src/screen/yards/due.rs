//! What is due at a yard, and what it is too early for.
//!
//! The label's interval is copied into the record of the treatment; whether others treated too is
//! never known here.

use chrono::NaiveDate;
use maud::{Markup, html};
use sward_book::Book;
use sward_book::action::treatment_of;
use sward_book::fact::ReturnWhat;
use sward_book::ids::SheetId;
use sward_book::view::visit::VisitView;
use sward_rules::label::LabelSays;

use crate::Result;
use crate::ask::Ask;
use crate::words::{Clock, Words};

/// What is due, line by line, from the newest visits.
pub(super) fn lines(
    ask: &Ask<'_>,
    words: Words,
    yard: SheetId,
    visits: &[VisitView],
) -> Result<Markup> {
    let today = words.day_of(ask.now.utc_ms);
    let planned = visits.iter().find_map(|v| v.return_day.as_ref());
    let repeat = repeat(ask.book()?, yard, words, ask.now.utc_ms)?;
    Ok(html! {
        h2 { (words.t("yards-due")) }
        @if let Some(planned) = planned {
            @let day = NaiveDate::parse_from_str(&planned.day, "%Y-%m-%d").ok();
            p {
                (words.t(what(planned.what))) ": "
                (day.map_or_else(|| planned.day.clone(), |d| words.day(d)))
                @if day.is_some_and(|d| d <= today) { " " strong { (words.t("yards-due-now")) } }
                @if !planned.note.is_empty() { " · " (planned.note) }
            }
        }
        @for line in &repeat { p { (line) } }
        @if planned.is_none() && repeat.is_empty() { p.note { (words.t("yards-nothing-due")) } }
        p.note { (words.t("yards-others-unknown")) }
    })
}

fn what(what: ReturnWhat) -> &'static str {
    match what {
        ReturnWhat::ReCheck => "yards-return-re-check",
        ReturnWhat::Look => "yards-return-look",
        ReturnWhat::Repeat => "yards-return-repeat",
        ReturnWhat::Other => "yards-return-other",
    }
}

/// The earliest repeat by the label of the last treatment.
fn repeat(book: &Book, yard: SheetId, words: Words, now_ms: i64) -> Result<Vec<String>> {
    let Some(last) = book.last_treatment_of(yard)? else {
        return Ok(Vec::new());
    };
    let mut lines = Vec::new();
    for finish in last.finishes.iter().filter(|f| f.set_aside_by.is_none()) {
        let treatment = treatment_of(book, finish.fact)?;
        let product = treatment.label.product.clone();
        let applied_ms = treatment
            .sections
            .iter()
            .map(|s| s.last_applied_utc_ms)
            .max();
        let applied_ms = applied_ms.unwrap_or(treatment.finished.utc_ms);
        let seconds = match &treatment.label.repeat_after {
            LabelSays::Value(after) => after.to_seconds_up().ok(),
            LabelSays::Nothing => {
                lines.push(words.t_with("yards-repeat-nothing", &[("product", product.into())]));
                continue;
            }
            LabelSays::Unfilled => None,
        };
        let from_ms = seconds.and_then(|s| applied_ms.checked_add(s.checked_mul(1_000)?));
        lines.push(match from_ms {
            None => words.t_with("yards-repeat-unknown", &[("product", product.into())]),
            Some(from_ms) => {
                let key = if from_ms > now_ms {
                    "yards-too-early"
                } else {
                    "yards-repeat-since"
                };
                let day = words.moment(from_ms, Clock::DayAndTime);
                words.t_with(key, &[("product", product.into()), ("day", day.into())])
            }
        });
    }
    Ok(lines)
}
