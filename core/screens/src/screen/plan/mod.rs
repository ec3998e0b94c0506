//! Plan: what do I bring and set? Product and water, passes and loads, and what the label says to it.
//!
//! Every amount is worked out by the rules; here it is asked for, prefilled and shown.

mod bring;
mod calibration;
mod form;
mod label;
mod lines;
mod prefill;
mod result;
mod season;
mod work;

use maud::{Markup, html};
use sward_book::Book;
use sward_book::ids::SheetId;
use sward_book::view::visit::VisitState;

use crate::ask::{Ask, Page, Place, Screen};
use crate::screen::visit::Here;
use crate::{Result, part};

/// Whether a visit's kept plan holds all it needs and its amounts come out: a step of the vessel
/// that is too coarse, or a tank that one load's product fills, do not.
pub(crate) fn comes_out(book: &Book, here: &Here, label: SheetId) -> bool {
    work::Job::read(book, here, label).is_ok_and(|job| matches!(job.worked, Some(Ok(_))))
}

pub(crate) const SCREENS: &[Screen] = &[Screen {
    path: "/visit/{visit}/plan",
    show,
    acts: &[("keep", form::keep)],
}];

fn show(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let here = Here::read(book, ask.param("visit")?, ask.words)?;
    let chosen = label::chosen(ask, &here)?;
    Ok(Page {
        title: ask.t("plan-title"),
        main: match chosen {
            None => label::choose(ask, &here)?,
            Some(label) => planned(ask, &here, label)?,
        },
        place: Place::Today,
        back: Some(format!("/visit/{}", here.visit.visit)),
    })
}

fn planned(ask: &Ask<'_>, here: &Here, label: SheetId) -> Result<Markup> {
    let book = ask.book()?;
    let job = work::Job::read(book, here, label)?;
    let plan = job.worked.as_ref().and_then(|w| w.as_ref().ok());
    let refused = job.worked.as_ref().and_then(|w| w.as_ref().err());
    let is_kept = plan.is_some() && ask.again.is_none();
    let has_started = matches!(
        here.visit.state,
        VisitState::Treating | VisitState::Finished
    );
    let form = form::form(ask, here, &job)?;
    Ok(html! {
        @if has_started { p.note { (ask.t("plan-started")) } }
        (label::card(ask, &job))
        @if let Some(error) = refused { (result::refused(ask, error)) }
        @if let Some(plan) = plan {
            (result::in_short(ask, here, &job, plan)?)
            @if !has_started { (onwards(ask, here, &job)) }
        }
        @if !has_started && is_kept {
            details { summary { (ask.t("plan-change")) } (form) }
        } @else if !has_started {
            (form)
        }
        @if let Some(plan) = plan { (result::in_full(ask, here, &job, plan)?) }
        @if !has_started { (label::others(ask, here, label)?) }
    })
}

/// The one next step once amounts could be worked out.
fn onwards(ask: &Ask<'_>, here: &Here, job: &work::Job) -> Markup {
    html! {
        @if job.is_read_back {
            (part::next_step(&format!("/visit/{}/ready", here.visit.visit), &ask.t("plan-to-ready")))
        } @else {
            p.note { (ask.t("plan-not-read-back")) }
            (part::next_step(&format!("/things/labels/{}", job.label_id), &ask.t("plan-to-label")))
        }
        p.note { (ask.t("frame-label-is-the-law")) }
    }
}
