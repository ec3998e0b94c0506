//! Ready: may I, here and now? The sky, the yard, label and rate, each finding with its reason,
//! and the start.
//!
//! The rules judge and the book records; here a person is asked for what is missing, and shown.

mod far;
mod form;
mod read;
mod show;
mod start;
mod sun;
mod walk;

use sward_book::ids::VisitId;
use sward_rules::sky::NextWindow;

use crate::Result;
use crate::ask::{Doing, Next, Screen};

pub(crate) const SCREENS: &[Screen] = &[
    Screen {
        path: "/visit/{visit}/ready",
        show: show::show,
        acts: &[
            ("check", check),
            ("seen", seen),
            ("report", far::keep_report),
            ("forecast", far::keep_forecast),
            ("start", start::start),
        ],
    },
    walk::SCREEN,
];

/// Keeps what was read and seen.
fn seen(doing: &mut Doing<'_>) -> Result<Next> {
    form::keep(doing)?;
    judged_once(doing)
}

/// The first time that nothing is left to look at, it is judged with the same tap; what changes
/// after a check asks for a new one.
fn judged_once(doing: &mut Doing<'_>) -> Result<Next> {
    let visit: VisitId = doing.param("visit")?;
    let (words, shared) = (doing.words, doing.shared);
    let ready = read::Ready::read(doing.book()?, shared, visit, words);
    if ready.is_ok_and(|r| r.recorded.is_none() && show::nothing_to_look_at(&r)) {
        return check(doing);
    }
    // Also where it cannot be judged yet: what was seen is kept, and the screen says what is missing.
    Ok(Next::Go(format!("/visit/{visit}/ready")))
}

/// Judges, and records the findings as they will be shown.
fn check(doing: &mut Doing<'_>) -> Result<Next> {
    let visit = doing.param("visit")?;
    let (words, shared) = (doing.words, doing.shared);
    let book = doing.book()?;
    let ready = read::Ready::read(book, shared, visit, words)?;
    let opens = match ready.window {
        NextWindow::MayOpen { from_utc_ms, .. } => Some(from_utc_ms),
        NextWindow::NotSeen { .. } => None,
    };
    book.record_findings(visit, ready.label_id, ready.findings, opens)?;
    Ok(Next::Go(format!("/visit/{visit}/ready")))
}

#[cfg(test)]
mod tests;
