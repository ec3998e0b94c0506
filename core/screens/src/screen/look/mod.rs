//! Look: is it the pest, and enough of them? Counts beside thresholds, and the full result
//! "not treated".
//!
//! Densities, thresholds and what follows from them are the rules' business.

mod count;
mod end;
mod key;
mod pest;
mod result;
#[cfg(test)]
mod tests;
mod warmth;

use maud::{Markup, html};
use sward_book::view::visit::VisitState;
use sward_rules::look::Decision;

use crate::ask::{Ask, Page, Place, Screen};
use crate::screen::visit::Here;
use crate::{Result, part};

pub(crate) use pest::pest_name;
use result::Look;

pub(crate) const SCREENS: &[Screen] = &[
    Screen {
        path: "/visit/{visit}/look",
        show,
        acts: &[("count", count::count)],
    },
    Screen {
        path: "/visit/{visit}/key",
        show: key::all,
        acts: &[],
    },
    Screen {
        path: "/visit/{visit}/key/{key}",
        show: key::one,
        acts: &[],
    },
    Screen {
        path: "/visit/{visit}/degree-days",
        show: warmth::show,
        acts: &[("sum", warmth::sum)],
    },
    Screen {
        path: "/visit/{visit}/end",
        show: end::show,
        acts: &[("not-treated", end::not_treated)],
    },
];

fn show(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let here = Here::read(book, ask.param("visit")?, ask.words)?;
    let looks = result::looks(book, &here.visit)?;
    Ok(Page {
        title: ask.t("look-title"),
        main: html! {
            @if let Some(last) = looks.last() {
                (result::newest(ask, here.words, last))
                (onwards(ask, &here, last))
            }
            (part::way(&format!("/visit/{}/key", here.visit.visit), &ask.t("look-key")))
            (count::form(ask, &here, &looks))
            @if here.visit.state == VisitState::Looking {
                (part::way(&format!("/visit/{}/end", here.visit.visit), &ask.t("look-end-here")))
            }
            p.note { (ask.t("look-ask-extension")) }
            (result::all_thresholds(ask))
            (part::way(&format!("/visit/{}/degree-days", here.visit.visit), &ask.t("look-warmth")))
            (result::earlier(ask, here.words, &looks))
            (not_known(ask))
        },
        place: Place::Today,
        back: Some(format!("/visit/{}", here.visit.visit)),
    })
}

/// The one next step after a count: measure, plan, or end here.
fn onwards(ask: &Ask<'_>, here: &Here, last: &Look) -> Markup {
    let id = here.visit.visit;
    if here.visit.state != VisitState::Looking {
        return part::next_step(&format!("/visit/{id}"), &ask.t("look-to-visit"));
    }
    if last.worst() == Decision::Leave {
        return part::next_step(&format!("/visit/{id}/end"), &ask.t("look-end-below"));
    }
    let sections = here.yard.iter().flat_map(|y| &y.sections);
    let mut shown = sections.filter(|s| !s.hidden).peekable();
    let is_measured = shown.peek().is_some() && shown.all(|s| s.outline.is_some());
    if is_measured {
        part::next_step(&format!("/visit/{id}/plan"), &ask.t("look-to-plan"))
    } else {
        part::next_step(&format!("/visit/{id}/measure"), &ask.t("look-to-measure"))
    }
}

/// What one would look for here and the program does not have.
fn not_known(ask: &Ask<'_>) -> Markup {
    let not_known = ask.t("frame-not-known");
    html! {
        dl {
            (part::row(&ask.t("look-preventive"), "", &not_known))
        }
    }
}
