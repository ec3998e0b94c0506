//! The whole history of a visit: who wrote what and when; of a correction the old, the new and why.

use maud::{Markup, html};
use sward_book::Book;
use sward_book::fact::{Corrected, Fact};

use super::fact;
use super::told::{Known, Told};
use crate::ask::Ask;
use crate::screen::visit::who;
use crate::words::Clock;

/// Every entry, in order.
pub(super) fn history(ask: &Ask<'_>, book: &Book, told: &Told) -> Markup {
    html! {
        details {
            summary { (ask.words.t_with("records-history", &[("n", told.facts.len().into())])) }
            ul.list { @for known in &told.facts { li { (entry(book, told, known)) } } }
        }
    }
}

/// The corrections alone: they are shown without a tap.
pub(super) fn amendments(ask: &Ask<'_>, book: &Book, told: &Told) -> Markup {
    let all: Vec<&Known> = told
        .facts
        .iter()
        .filter(|k| matches!(k.fact, Fact::Corrected(_)))
        .collect();
    html! {
        @if !all.is_empty() {
            h2 { (ask.t("records-amendments")) }
            ul.list { @for known in all { li { (entry(book, told, known)) } } }
        }
    }
}

fn entry(book: &Book, told: &Told, known: &Known) -> Markup {
    let words = told.words();
    let at = words.moment(known.line.at.utc_ms, Clock::DayAndTime);
    let text = fact::text(told, &known.fact);
    let by = known.line.superseded_by.map(|by| told.find(by));
    html! {
        p { (at) ", " (who(book, known.line.by)) ": " strong { (fact::name(words, &known.fact)) } }
        @if let Fact::Corrected(corrected) = &known.fact {
            (correction(told, corrected))
        } @else if !text.trim().is_empty() {
            p.note { (text) }
        }
        @if let Some(by) = by {
            p.note {
                @match by {
                    Some(by) => (words.t_with("records-superseded", &[
                        ("at", words.moment(by.line.at.utc_ms, Clock::DayAndTime).into()),
                        ("who", who(book, by.line.by).into()),
                    ])),
                    None => (words.t("visit-superseded")),
                }
            }
        }
        @if !known.line.of_the_crew { p.note { (words.t("visit-not-of-the-crew")) } }
    }
}

fn correction(told: &Told, corrected: &Corrected) -> Markup {
    let words = told.words();
    let old: Vec<String> = corrected
        .supersedes
        .iter()
        .map(|id| match told.find(*id) {
            Some(Known {
                fact: Fact::Corrected(before),
                ..
            }) => fact::replacement(told, before),
            Some(known) => match fact::text(told, &known.fact) {
                text if text.is_empty() => fact::name(words, &known.fact),
                text => text,
            },
            None => words.t("frame-not-known"),
        })
        .collect();
    let none = words.t("frame-not-known");
    html! {
        dl {
            (crate::part::row(&words.t("records-old"), &old.join("; "), &none))
            (crate::part::row(&words.t("records-new"), &fact::replacement(told, corrected), &none))
            (crate::part::row(&words.t("records-why"), &corrected.why, &none))
        }
    }
}
