//! The history of a visit: every fact, with who wrote it and when, what was corrected too.
//!
//! The record as a law may ask for it is shown with the records.

use maud::{Markup, html};
use sward_book::Book;
use sward_book::fact::Fact;
use sward_book::view::visit::Line;

use super::known::{Here, who};
use crate::Result;
use crate::ask::Ask;
use crate::words::{Clock, Words};

/// The whole history, folded away.
pub(super) fn history(ask: &Ask<'_>, here: &Here) -> Result<Markup> {
    let book = ask.book()?;
    let lines = here
        .visit
        .history
        .iter()
        .map(|line| one(book, here.words, line))
        .collect::<Result<Vec<_>>>()?;
    Ok(html! {
        details {
            summary { (ask.words.t_with("visit-history", &[("n", lines.len().into())])) }
            ul.list { @for line in lines { (line) } }
        }
    })
}

fn one(book: &Book, words: Words, line: &Line) -> Result<Markup> {
    let (_, fact) = book.fact(line.fact)?;
    let at = words.moment(line.at.utc_ms, Clock::DayAndTime);
    Ok(html! {
        li {
            p { (at) ", " (who(book, line.by)) ": " strong { (what(words, &fact)) } }
            @if let Some(more) = more(words, &fact) { p.note { (more) } }
            @if line.superseded_by.is_some() { p.note { (words.t("visit-superseded")) } }
            @if !line.of_the_crew { p.note { (words.t("visit-not-of-the-crew")) } }
        }
    })
}

/// What a fact is.
fn what(words: Words, fact: &Fact) -> String {
    // words: visit-fact-*
    let tag = serde_json::to_value(fact).ok();
    let tag = tag.as_ref().and_then(|v| v.get("fact")?.as_str());
    let key = format!("visit-fact-{}", tag.unwrap_or_default().replace('_', "-"));
    if words.has(&key) {
        words.t(&key)
    } else {
        words.t("visit-fact-newer")
    }
}

/// The numbers and words of it that a person looks for first.
fn more(words: Words, fact: &Fact) -> Option<String> {
    let text = match fact {
        Fact::VisitOpened(f) => crate::screen::look::pest_name(words, &f.target),
        Fact::Counted(f) => {
            let counts: Vec<String> = f.samples.iter().map(|s| s.count.to_string()).collect();
            let pest = crate::screen::look::pest_name(words, &f.pest);
            format!("{pest}: {}. {}", counts.join(", "), f.note)
        }
        Fact::Started(f) => format!("{}, {}", f.label.product, words.amount(&f.rate)),
        Fact::Loaded(f) => words.amount(&f.product),
        Fact::NotTreated(f) => f.note.clone(),
        Fact::KeepOffClaimed(f) => f.why.clone(),
        Fact::KeepOffReleased(f) => f.why.clone(),
        Fact::Corrected(f) => f.why.clone(),
        Fact::FinishChosen(f) => f.why.clone(),
        Fact::LateSettled(f) => f.why.clone(),
        _ => return None,
    };
    (!text.trim().is_empty()).then_some(text)
}
