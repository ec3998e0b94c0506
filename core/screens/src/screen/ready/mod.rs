//! Ready: may I, here and now? The sky, the yard, label and rate, each finding with its reason,
//! and the start.
//!
//! The rules judge and the book records; here a person is asked for what is missing, and shown.

mod far;
mod form;
mod read;
mod show;
mod start;
mod walk;

use sward_rules::sky::NextWindow;

use crate::Result;
use crate::ask::{Doing, Next, Screen};

pub(crate) const SCREENS: &[Screen] = &[
    Screen {
        path: "/visit/{visit}/ready",
        show: show::show,
        acts: &[
            ("check", check),
            ("seen", form::keep),
            ("report", far::keep_report),
            ("forecast", far::keep_forecast),
            ("start", start::start),
        ],
    },
    walk::SCREEN,
];

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
