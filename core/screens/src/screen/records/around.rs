//! What stands around the results of a visit: late loads, half-way checks, cleaning up, who was
//! told, incidents, the return, and counts before and after.
//!
//! Nothing here changes a figure of a record.

use std::collections::BTreeSet;

use maud::{Markup, html};
use sward_book::Book;
use sward_book::fact::Fact;

use super::fact;
use super::told::{Known, Told};
use crate::Result;
use crate::ask::Ask;
use crate::part::how::how;
use crate::screen::visit::who;
use crate::words::Clock;
use sward_rules::look::henderson_tilton;

/// Everything around the results.
pub(super) fn around(ask: &Ask<'_>, told: &Told) -> Result<Markup> {
    let book = ask.book()?;
    let words = told.words();
    let half_way = of_kind(book, told, |f| matches!(f, Fact::HalfWayChecked(_)));
    let aftercare = of_kind(book, told, |f| matches!(f, Fact::Aftercare(_)));
    let whom = of_kind(book, told, |f| matches!(f, Fact::KeepOffTold(_)));
    let back = told.visit().return_day.as_ref();
    Ok(html! {
        (late(ask, book, told))
        (list(ask, "records-half-way", &half_way, "records-no-half-way"))
        (list(ask, "records-aftercare", &aftercare, "frame-not-known"))
        (list(ask, "records-told", &whom, "records-nobody-told"))
        (incidents(ask, book, told)?)
        h2 { (ask.t("records-return")) }
        @if let Some(back) = back {
            p { (fact::day(words, &back.day)) @if !back.note.is_empty() { ": " (back.note) } }
        } @else { p { (ask.t("records-no-return")) } }
        (controls(ask, told))
    })
}

fn of_kind(book: &Book, told: &Told, is: fn(&Fact) -> bool) -> Vec<String> {
    told.standing()
        .filter(|k| is(&k.fact))
        .map(|k| line(book, told, k))
        .collect()
}

/// When, who, and what a fact holds.
fn line(book: &Book, told: &Told, known: &Known) -> String {
    let at = told.words().moment(known.line.at.utc_ms, Clock::DayAndTime);
    let text = fact::text(told, &known.fact);
    format!("{at}, {}: {text}", who(book, known.line.by))
}

fn list(ask: &Ask<'_>, title: &str, lines: &[String], none: &str) -> Markup {
    html! {
        h2 { (ask.t(title)) }
        @if lines.is_empty() { p.unknown { (ask.t(none)) } }
        ul.list { @for line in lines { li { (line) } } }
    }
}

/// Loads that no result takes into account.
fn late(ask: &Ask<'_>, book: &Book, told: &Told) -> Markup {
    let words = told.words();
    let late: Vec<(String, String)> = told
        .visit()
        .late
        .iter()
        .filter_map(|l| {
            let known = told.find(l.fact)?;
            let load = known.load()?;
            let said = format!("{}: {}", who(book, l.by), fact::loaded(told, load));
            Some((said, fact::counts(words, l.counts)))
        })
        .collect();
    html! {
        @if !late.is_empty() {
            h2 { (ask.t("records-late")) }
            p.note { (ask.t("records-late-help")) }
            ul.list { @for (load, counts) in &late { li { p { (load) } p.note { (counts) } } } }
        }
    }
}

fn incidents(ask: &Ask<'_>, book: &Book, told: &Told) -> Result<Markup> {
    // words: help-what-*
    let words = told.words();
    let names: BTreeSet<_> = told
        .facts
        .iter()
        .filter_map(|k| match &k.fact {
            Fact::IncidentFiled(f) => Some(f.incident),
            _ => None,
        })
        .collect();
    let incidents = names
        .into_iter()
        .map(|name| Ok(book.incident(name)?))
        .collect::<Result<Vec<_>>>()?;
    Ok(html! {
        h2 { (ask.t("records-incidents")) }
        @if incidents.is_empty() { p { (ask.t("records-no-incidents")) } }
        ul.list {
            @for incident in &incidents {
                li {
                    a href=(format!("/help/incident/{}", incident.incident)) {
                        (words.said("help-what", &incident.what)) ", "
                        (words.moment(incident.happened_utc_ms, Clock::DayAndTime))
                    }
                    @for filed in &incident.lines {
                        p {
                            (who(book, filed.by)) ": " (filed.told)
                            @if !filed.done.is_empty() { "; " (filed.done) }
                            @if !filed.who_called.is_empty() { "; " (filed.who_called) }
                        }
                    }
                }
            }
        }
    })
}

/// Counts before and after with the percentage that follows, and how.
fn controls(ask: &Ask<'_>, told: &Told) -> Markup {
    let found: Vec<_> = told
        .standing()
        .filter_map(|k| match &k.fact {
            Fact::ControlCounted(f) => Some(f),
            _ => None,
        })
        .collect();
    html! {
        h2 { (ask.t("records-control")) }
        @if found.is_empty() { p.unknown { (ask.t("frame-not-known")) } }
        @for control in found {
            p { (fact::control(told.words(), control)) }
            @match henderson_tilton(control.counts) {
                Ok(answer) => {
                    p { (ask.words.t_with("records-control-percent", &[("percent", format!("{:.0}", answer.value.percent).into())])) }
                    (how(ask, &answer.working))
                },
                Err(error) => p.unknown { (ask.words.said("error", &error)) },
            }
        }
    }
}
