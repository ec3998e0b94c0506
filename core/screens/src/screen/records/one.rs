//! One record: every result of a visit with what it holds, what stands around it, which fields rules
//! ask for, and the whole history. On paper the same without what can be tapped.

use maud::{Markup, html};
use sward_book::Book;
use sward_book::export::Record;
use sward_book::fact::Fact;
use sward_book::view::visit::{FinishVersion, VisitState};

use super::content::{Content, frozen, so_far};
use super::sheet::{On, sheet};
use super::told::{Known, Told};
use super::{around, asked, fact, history};
use crate::ask::{Ask, Page, Place, Screen};
use crate::screen::visit::who;
use crate::words::Clock;
use crate::{Result, part};

pub(super) const SCREEN: Screen = Screen {
    path: "/records/{visit}",
    show,
    acts: &[],
};

pub(super) const PRINT: Screen = Screen {
    path: "/records/{visit}/print",
    show: print,
    acts: &[],
};

/// One finish with what it holds; none: it cannot be read.
struct Version<'a> {
    finish: &'a FinishVersion,
    known: &'a Known,
    content: Option<Content>,
}

fn versions<'a>(book: &Book, told: &'a Told) -> Vec<Version<'a>> {
    told.visit()
        .finishes
        .iter()
        .filter_map(|finish| {
            Some(Version {
                finish,
                known: told.find(finish.fact)?,
                content: frozen(book, told, finish.fact).ok(),
            })
        })
        .collect()
}

/// The version whose fields are looked at: the one that holds, else the first that can be read.
fn holding<'a>(told: &Told, versions: &'a [Version<'a>]) -> Option<&'a Version<'a>> {
    let holds = told.visit().finish();
    versions
        .iter()
        .find(|v| Some(v.finish.fact) == holds && v.content.is_some())
        .or_else(|| versions.iter().find(|v| v.content.is_some()))
}

fn show(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let told = Told::read(book, ask.param("visit")?, ask.words)?;
    let versions = versions(book, &told);
    let record = holding(&told, &versions).and_then(|v| {
        let content = v.content.as_ref()?;
        Some(asked::record_of(&told, &v.known.line, content))
    });
    let visit = told.visit().visit;
    Ok(Page {
        title: ask.t("records-one-title"),
        main: html! {
            (marks(ask, &told))
            (next(ask, &told, record.as_ref()))
            (results(ask, book, &told, &versions, On::Screen))
            (around::around(ask, &told)?)
            @if let Some(record) = &record { (asked::asked(ask, &told, record)) }
            (history::amendments(ask, book, &told))
            (part::way(&format!("/records/{visit}/correct"), &ask.t("records-correct")))
            (part::way(&format!("/records/{visit}/print"), &ask.t("records-print")))
            (part::way(&format!("/visit/{visit}"), &ask.t("records-to-visit")))
            (history::history(ask, book, &told))
            p.note { (ask.t("frame-label-is-the-law")) }
        },
        place: Place::Records,
        back: Some("/records".to_owned()),
    })
}

fn print(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let told = Told::read(book, ask.param("visit")?, ask.words)?;
    let versions = versions(book, &told);
    Ok(Page {
        title: ask.t("records-one-title"),
        main: html! {
            p.note { (ask.t("records-print-help")) }
            div.sheet {
                (marks(ask, &told))
                (results(ask, book, &told, &versions, On::Paper))
                (around::around(ask, &told)?)
                (history::amendments(ask, book, &told))
                p.note { (ask.t("rule-check-yours")) }
            }
            (part::way(&format!("/records/{}", told.visit().visit), &ask.t("frame-back")))
        },
        place: Place::Records,
        back: Some(format!("/records/{}", told.visit().visit)),
    })
}

/// What a reader must know first.
fn marks(ask: &Ask<'_>, told: &Told) -> Markup {
    let visit = told.visit();
    let started_again = told
        .facts
        .iter()
        .filter(|k| matches!(k.fact, Fact::Started(_)))
        .count()
        > 1;
    html! {
        @if told.practice { p.wrong { (ask.t("records-practice")) } }
        @if started_again { p.wrong { (ask.t("records-started-again")) } }
        @if !visit.questions.is_empty() {
            p.wrong { (ask.words.t_with("records-questions", &[("n", visit.questions.len().into())])) }
            (part::way(&format!("/visit/{}/settle", visit.visit), &ask.t("records-settle")))
        }
        @for other in &visit.one_job_with {
            p.note { a href=(format!("/records/{other}")) { (ask.t("records-one-job")) } }
        }
    }
}

/// The one next step: fill what is missing, else what the state of the visit leaves to do.
fn next(ask: &Ask<'_>, told: &Told, record: Option<&Record>) -> Markup {
    let visit = told.visit();
    let id = visit.visit;
    if matches!(visit.state, VisitState::Looking | VisitState::Treating) {
        return html! {
            p.note { (ask.t("records-not-finished")) }
            (part::next_step(&format!("/visit/{id}"), &ask.t("records-go-on")))
        };
    }
    let state = asked::state_of(ask, told);
    if let Some(missing) = record.and_then(|record| asked::first_missing(record, state)) {
        let field = asked::field_name(ask.words, missing.field);
        return html! {
            (part::next_step(&missing.href, &ask.words.t_with("records-fill", &[("field", field.into())])))
            @if missing.href.starts_with("/yards/") { p.note { (ask.t("records-fill-then")) } }
        };
    }
    html! { (part::next_step(&format!("/records/{id}/print"), &ask.t("records-print"))) }
}

/// Every result: each finish, each "not treated", or what is told so far.
fn results(ask: &Ask<'_>, book: &Book, told: &Told, versions: &[Version<'_>], on: On) -> Markup {
    let standing = versions
        .iter()
        .filter(|v| v.finish.set_aside_by.is_none())
        .count();
    let not_treated: Vec<&Known> = told
        .standing()
        .filter(|k| k.not_treated().is_some())
        .collect();
    html! {
        @for (number, version) in versions.iter().enumerate() {
            section.card {
                @if versions.len() > 1 {
                    h2 { (ask.words.t_with("records-version", &[("n", (number + 1).into()), ("of", versions.len().into())])) }
                }
                (version_marks(ask, book, told, version, standing))
                @match &version.content {
                    Some(content) => {
                        (sheet(ask, told, content, on))
                        p.note { (ask.words.t_with("records-frozen", &[("hash", content.frozen.clone().into())])) }
                    },
                    None => p.wrong { (ask.t("records-unreadable")) },
                }
            }
        }
        @for known in not_treated {
            section.card {
                h2 { (ask.t("records-not-treated")) }
                p { (written(ask, book, told, known)) }
                @if let Some(not) = known.not_treated() { p { (fact::not_treated(told.words(), not)) } }
            }
        }
        @if versions.is_empty() { section.card { (sheet(ask, told, &so_far(told), on)) } }
    }
}

fn version_marks(
    ask: &Ask<'_>,
    book: &Book,
    told: &Told,
    version: &Version<'_>,
    standing: usize,
) -> Markup {
    let set_aside = version.finish.set_aside_by.and_then(|by| told.find(by));
    html! {
        p.note { (written(ask, book, told, version.known)) }
        @if let Some(by) = set_aside {
            p.wrong { (ask.words.t_with("records-set-aside", &[
                ("who", who(book, by.line.by).into()),
                ("why", fact::text(told, &by.fact).into()),
            ])) }
        } @else if standing > 1 {
            p.wrong { (ask.t("records-to-settle")) }
        }
        @if !version.known.line.of_the_crew { p.wrong { (ask.t("visit-not-of-the-crew")) } }
        @if amended(told, version) { p.wrong { (ask.t("records-amended")) } }
    }
}

/// Whether a correction that counts came after this finish and is not in its figures.
fn amended(told: &Told, version: &Version<'_>) -> bool {
    let Some(finish) = version.known.finish() else {
        return false;
    };
    told.standing().any(|k| {
        matches!(k.fact, Fact::Corrected(_))
            && k.line.of_the_crew
            && k.line.fact != version.finish.fact
            && k.finish().is_none()
            && !finish.covers.contains(&k.line.fact)
    })
}

fn written(ask: &Ask<'_>, book: &Book, told: &Told, known: &Known) -> String {
    ask.words.t_with(
        "records-written",
        &[
            ("who", who(book, known.line.by).into()),
            (
                "at",
                told.words()
                    .moment(known.line.at.utc_ms, Clock::DayAndTime)
                    .into(),
            ),
        ],
    )
}
