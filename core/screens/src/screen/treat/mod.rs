//! Treat: am I on rate? Sections with their state, loads, the check half-way, and one finish.
//!
//! Nothing has to be tapped between start and finish. No rule and no record lives here.

mod aftercare;
mod finish;
mod half_way;
mod load;
mod read;

use maud::{Markup, html};
use sward_book::view::keep_off::KeepOffView;
use sward_book::view::visit::VisitState;

use crate::ask::{Ask, Page, Place, Screen};
use crate::part::amounts;
use crate::part::keep_off::told;
use crate::screen::visit::Here;
use crate::{Result, part};

use read::Treating;

pub(crate) const SCREENS: &[Screen] = &[Screen {
    path: "/visit/{visit}/treat",
    show,
    acts: &[
        ("load", load::load),
        ("half", half_way::check),
        ("finish", finish::finish),
        ("care", aftercare::keep),
    ],
}];

fn show(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let here = Here::read(book, ask.param("visit")?, ask.words)?;
    let visit = here.visit.visit;
    let state = here.visit.state;
    let main = match Treating::read(book, here)? {
        Some(treating) if state == VisitState::Treating => under_way(ask, &treating),
        Some(treating) => done(ask, &treating),
        None => not_started(ask, visit, state),
    };
    Ok(Page {
        title: ask.t("treat-title"),
        main,
        place: Place::Today,
        back: Some(format!("/visit/{visit}")),
    })
}

fn not_started(ask: &Ask<'_>, visit: sward_book::ids::VisitId, state: VisitState) -> Markup {
    html! {
        @if state == VisitState::NotTreated {
            p { (ask.t("treat-ended")) }
            (part::next_step(&format!("/visit/{visit}"), &ask.t("treat-to-visit")))
        } @else {
            p { (ask.t("treat-not-started")) }
            (part::next_step(&format!("/visit/{visit}/ready"), &ask.t("treat-to-ready")))
        }
    }
}

fn under_way(ask: &Ask<'_>, treating: &Treating) -> Markup {
    html! {
        (by_outsiders(ask, treating))
        (half_way::result(ask, treating))
        p { (ask.t("treat-no-taps")) }
        (what(ask, treating))
        (sections(ask, treating))
        details { summary { (ask.t("treat-half-title")) } (half_way::form(ask, treating)) }
        details { summary { (ask.t("treat-load-title")) } (load::form(ask, treating)) }
        (part::way("/help/incident", &ask.t("treat-spill")))
        (finish::form(ask, treating))
        p.note { (ask.t("frame-label-is-the-law")) }
    }
}

fn done(ask: &Ask<'_>, treating: &Treating) -> Markup {
    let visit = treating.here.visit.visit;
    html! {
        p.big { (ask.t("treat-finished")) }
        (by_outsiders(ask, treating))
        (part::next_step(&format!("/visit/{visit}/keep-off"), &ask.t("treat-to-keep-off")))
        (what(ask, treating))
        (sections(ask, treating))
        (half_way::result(ask, treating))
        (aftercare::rest(ask, treating))
        (part::way("/help/incident", &ask.t("treat-spill")))
        (part::way(&format!("/records/{visit}"), &ask.t("treat-to-record")))
    }
}

/// Says that somebody who is not of the crew wrote here; the crew lead settles it.
fn by_outsiders(ask: &Ask<'_>, treating: &Treating) -> Markup {
    let visit = treating.here.visit.visit;
    html! {
        @if treating.has_outsiders {
            p.note { (ask.t("treat-by-outsiders")) }
            (part::way(&format!("/visit/{visit}/settle"), &ask.t("treat-to-settle")))
        }
    }
}

/// With what, at which rate, since when, and how much so far.
fn what(ask: &Ask<'_>, treating: &Treating) -> Markup {
    let not_known = ask.t("frame-not-known");
    let words = treating.here.words;
    let start = &treating.started;
    let since = words.moment_near(treating.started_utc_ms, ask.now.utc_ms);
    let row = |key: &str, value: &str| part::row(&ask.t(key), value, &not_known);
    let amount = |amount: Option<sward_rules::Entered>| {
        amount.map_or_else(String::new, |a| words.worked_out(&a))
    };
    html! {
        div.card {
            dl {
                (row("treat-product", &start.label.product))
                (row("treat-rate", &words.amount(&start.rate)))
                (row("treat-since", &since))
                (row("treat-planned", &amount(treating.planned)))
                (row("treat-put-on", &amount(treating.put_on())))
                (row("treat-equipment", start.equipment.as_deref().unwrap_or_default()))
                (row("treat-lot", start.lot.as_deref().unwrap_or_default()))
                (row("treat-gear", start.gear.as_deref().unwrap_or_default()))
            }
        }
    }
}

fn sections(ask: &Ask<'_>, treating: &Treating) -> Markup {
    html! {
        h2 { (ask.t("treat-sections")) }
        @for keep_off in &treating.keep_offs { (section(ask, treating, keep_off)) }
    }
}

fn section(ask: &Ask<'_>, treating: &Treating, keep_off: &KeepOffView) -> Markup {
    let words = treating.here.words;
    let not_known = ask.t("frame-not-known");
    let area = keep_off
        .outline
        .area()
        .map_or_else(|_| String::new(), |a| amounts::area(ask.words, &a.value));
    let at = |utc_ms: i64| words.moment_near(utc_ms, ask.now.utc_ms);
    let loads = treating.loads_on(keep_off.keep_off);
    let state = match (keep_off.last_applied_utc_ms, loads.last()) {
        (Some(last), _) => words.t_with("treat-section-done", &[("at", at(last).into())]),
        (None, Some(load)) => words.t_with(
            "treat-section-loaded",
            &[
                ("n", i64::try_from(loads.len()).unwrap_or(i64::MAX).into()),
                ("at", at(load.applied_utc_ms).into()),
            ],
        ),
        (None, None) => ask.t("treat-section-open"),
    };
    html! {
        div.card {
            p { strong { (keep_off.name) } }
            dl {
                (part::row(&ask.t("treat-area"), &area, &not_known))
                (part::row(&ask.t("treat-state"), &state, &not_known))
                (part::row(&ask.t("treat-keep-off"), &told(words, keep_off.standing(ask.now), ask.now).until, &not_known))
            }
        }
    }
}

#[cfg(test)]
pub(in crate::screen) mod tests;
