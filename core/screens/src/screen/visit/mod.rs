//! A visit: where am I? What is done, what comes next, what is blocked and why.
//!
//! No rule and no record lives here; which step stands where is [`steps`].

mod history;
mod known;
mod steps;

use maud::{Markup, html};
use sward_book::ids::VisitId;
use sward_book::view::keep_off::KeepOffView;
use sward_book::view::visit::{ReturnDay, VisitState, VisitView};

use crate::ask::{Ask, Page, Place, Screen};
use crate::part::keep_off::{running_on, told};
use crate::words::{Clock, Words};
use crate::{Result, part};

pub(crate) use known::{Here, who};
use steps::{Block, Known, Stand, Step};

pub(crate) const SCREENS: &[Screen] = &[Screen {
    path: "/visit/{visit}",
    show,
    acts: &[],
}];

fn show(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let here = Here::read(book, ask.param("visit")?, ask.words)?;
    let known = here.known(book, ask.now)?;
    let running = match here.visit.yard {
        Some(yard) => running_on(book, yard)?,
        None => Vec::new(),
    };
    Ok(Page {
        title: ask.t("visit-title"),
        main: html! {
            (minded(ask, &here, &running))
            (place(ask, &here))
            (next(ask, &here.visit, &known))
            (all_steps(ask, &here.visit, &known))
            (questions(ask, &here.visit))
            (part::way(&format!("/records/{}", here.visit.visit), &ask.t("visit-record")))
            @if here.visit.state == VisitState::Looking {
                (part::way(&format!("/visit/{}/end", here.visit.visit), &ask.t("visit-end-here")))
            }
            (history::history(ask, &here)?)
        },
        place: Place::Today,
        back: Some(here.yard_path()),
    })
}

/// Who and where.
fn place(ask: &Ask<'_>, here: &Here) -> Markup {
    let not_known = ask.t("frame-not-known");
    let name = here.yard.as_ref().map_or("", |y| y.name.as_str());
    let address = here.yard.as_ref().map_or("", |y| y.address.as_str());
    let opened = here.visit.opened.map_or_else(String::new, |at| {
        let day = here.words.moment(at.utc_ms, Clock::DayAndTime);
        format!("{day} ({})", here.words.ago(at.utc_ms, ask.now.utc_ms))
    });
    html! {
        div.card {
            dl {
                (part::row(&ask.t("visit-yard"), name, &not_known))
                (part::row(&ask.t("visit-address"), address, &not_known))
                (part::row(&ask.t("visit-pest"), &crate::screen::look::pest_name(ask.words, &here.visit.target), &not_known))
                (part::row(&ask.t("visit-state"), &state_words(ask, here.visit.state), &not_known))
                (part::row(&ask.t("visit-opened"), &opened, &not_known))
                @if let Some(back) = &here.visit.return_day {
                    (part::row(&ask.t("visit-return"), &return_words(here.words, back), &not_known))
                }
                (part::row(&ask.t("visit-people"), &here.visit.people.join(", "), &not_known))
            }
        }
    }
}

/// The day of a planned return, with its note.
fn return_words(words: Words, back: &ReturnDay) -> String {
    let day = back
        .day
        .parse()
        .map_or_else(|_| back.day.clone(), |day| words.day(day));
    if back.note.is_empty() {
        day
    } else {
        format!("{day}: {}", back.note)
    }
}

fn state_words(ask: &Ask<'_>, state: VisitState) -> String {
    ask.t(match state {
        VisitState::Looking => "visit-state-looking",
        VisitState::Treating => "visit-state-treating",
        VisitState::Finished => "visit-state-finished",
        VisitState::NotTreated => "visit-state-not-treated",
    })
}

/// The keep-offs that run on this yard.
fn minded(ask: &Ask<'_>, here: &Here, running: &[KeepOffView]) -> Markup {
    html! {
        @if !running.is_empty() {
            div.card {
                h2 { (ask.t("visit-mind")) }
                ul.list {
                    @for keep_off in running {
                        li {
                            strong { (keep_off.name) } ": " (told(here.words, keep_off.standing(ask.now), ask.now).until)
                            " (" (keep_off.product) ")"
                        }
                    }
                }
                (part::way(&format!("/visit/{}/keep-off", of_visit(running, here.visit.visit)), &ask.t("visit-to-keep-offs")))
            }
        }
    }
}

/// This visit where one of its own runs, else that of the first.
fn of_visit(running: &[KeepOffView], own: VisitId) -> VisitId {
    if running.iter().any(|k| k.visit == own) {
        return own;
    }
    running.first().map_or(own, |k| k.visit)
}

/// The next open step, or what stands in its way.
fn next(ask: &Ask<'_>, visit: &VisitView, known: &Known) -> Markup {
    let id = visit.visit;
    html! {
        @if let Some(step) = known.next() {
            (part::next_step(&path_of(id, step), &next_words(ask, step)))
        } @else if let Some(block) = known.blocked_by() {
            p.note { (block_words(ask, block)) }
            @if let Some((href, key)) = remedy(block, visit) { (part::next_step(&href, &ask.t(key))) }
        } @else {
            p.note { (ask.t("visit-nothing-left")) }
        }
    }
}

/// Every step with where it stands.
fn all_steps(ask: &Ask<'_>, visit: &VisitView, known: &Known) -> Markup {
    html! {
        h2 { (ask.t("visit-steps")) }
        ul.list {
            @for step in Step::ALL {
                li { (one_step(ask, visit, step, known.stand(step), known.next() == Some(step))) }
            }
        }
    }
}

fn one_step(ask: &Ask<'_>, visit: &VisitView, step: Step, stand: Stand, is_next: bool) -> Markup {
    let name = step_words(ask, step);
    let href = path_of(visit.visit, step);
    html! {
        @match stand {
            Stand::Done => {
                a.way href=(href) { (name) span { " \u{2713} " (ask.t("visit-step-done")) } }
            }
            Stand::Open => {
                a.way href=(href) {
                    (name)
                    span { @if is_next { " \u{25b6} " } @else { " \u{25cb} " } (ask.t(if is_next { "visit-step-next" } else { "visit-step-open" })) }
                }
            }
            Stand::NotNeeded => { (name) " \u{2013} " (ask.t("visit-step-not-needed")) }
            Stand::Blocked(block) => {
                (name) " \u{2298} " (ask.t("visit-step-blocked")) ": " (block_words(ask, block))
            }
        }
    }
}

fn step_words(ask: &Ask<'_>, step: Step) -> String {
    ask.t(match step {
        Step::Look => "visit-step-look",
        Step::Measure => "visit-step-measure",
        Step::Plan => "visit-step-plan",
        Step::Ready => "visit-step-ready",
        Step::Treat => "visit-step-treat",
        Step::KeepOff => "visit-step-keep-off",
        Step::Recheck => "visit-step-recheck",
    })
}

fn next_words(ask: &Ask<'_>, step: Step) -> String {
    ask.t(match step {
        Step::Look => "visit-go-look",
        Step::Measure => "visit-go-measure",
        Step::Plan => "visit-go-plan",
        Step::Ready => "visit-go-ready",
        Step::Treat => "visit-go-treat",
        Step::KeepOff => "visit-go-keep-off",
        Step::Recheck => "visit-go-recheck",
    })
}

fn path_of(visit: VisitId, step: Step) -> String {
    let part = match step {
        Step::Look => "/look",
        Step::Measure => "/measure",
        Step::Plan => "/plan",
        Step::Ready => "/ready",
        Step::Treat => "/treat",
        Step::KeepOff => "/keep-off",
        Step::Recheck => "/recheck",
    };
    format!("/visit/{visit}{part}")
}

fn block_words(ask: &Ask<'_>, block: Block) -> String {
    ask.t(match block {
        Block::YardNotHere => "visit-blocked-yard",
        Block::NothingMeasured => "visit-blocked-measure",
        Block::NoLabel => "visit-blocked-label",
        Block::LabelNotReadBack => "visit-blocked-read-back",
        Block::PlanFirst => "visit-blocked-plan",
        Block::ReadyFirst => "visit-blocked-ready",
        Block::NotStarted => "visit-blocked-start",
        Block::NotFinished => "visit-blocked-finish",
    })
}

/// What helps against what blocks, where that lies outside the visit's own steps.
fn remedy(block: Block, visit: &VisitView) -> Option<(String, &'static str)> {
    match block {
        Block::YardNotHere => Some(("/crew".to_owned(), "visit-to-crew")),
        Block::NothingMeasured => Some((path_of(visit.visit, Step::Measure), "visit-go-measure")),
        Block::NoLabel | Block::LabelNotReadBack => {
            Some(("/things/labels".to_owned(), "visit-to-labels"))
        }
        Block::PlanFirst => Some((path_of(visit.visit, Step::Plan), "visit-go-plan")),
        Block::ReadyFirst => Some((path_of(visit.visit, Step::Ready), "visit-go-ready")),
        Block::NotStarted | Block::NotFinished => None,
    }
}

/// What somebody has to settle on this visit.
fn questions(ask: &Ask<'_>, visit: &VisitView) -> Markup {
    let count = visit.questions.len();
    html! {
        @if count > 0 {
            div.card {
                h2 { (ask.t("visit-questions")) }
                p { (ask.words.t_with("visit-to-settle", &[("n", count.into())])) }
                (part::way(&format!("/visit/{}/settle", visit.visit), &ask.t("visit-settle")))
            }
        }
    }
}

#[cfg(test)]
mod tests;
