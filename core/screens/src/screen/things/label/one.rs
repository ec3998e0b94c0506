//! One label sheet: what it says field by field, and whether its numbers were read back.
//!
//! What the numbers mean for a treatment, the rules decide.

use maud::{Markup, html};
use sward_book::fact::ReadBackHow;
use sward_book::ids::SheetId;
use sward_book::sheet::must_be_settled;
use sward_book::view::sheets::{LabelView, ReadBack};

use super::{GROUPS, KIND, ingredients};
use crate::Result;
use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::part;
use crate::screen::things::{said, two_values};
use crate::words::Clock;

pub(super) const SCREEN: Screen = Screen {
    path: "/things/labels/{label}",
    show,
    acts: &[
        ("settle", settle),
        ("add", ingredients::add),
        ("hide", ingredients::hide),
        ("bring-back", ingredients::bring_back),
    ],
};

/// What a label sheet waits for before it may be used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Waits {
    /// Its method is not filled in, or in doubt.
    Method,
    /// Two phones say different things where nobody can tell which is safe.
    Settling,
    /// Its numbers were not read back.
    ReadingBack,
    /// Nothing.
    Nothing,
}

/// What a label sheet waits for.
pub(super) fn waits(ask: &Ask<'_>, view: &LabelView) -> Result<Waits> {
    // A sheet without its method cannot be read at all.
    let Ok(read) = ask.book()?.label_sheet(view.sheet) else {
        return Ok(Waits::Method);
    };
    Ok(if read.conflicts.iter().any(must_be_settled) {
        Waits::Settling
    } else if view.read_back.is_none() {
        Waits::ReadingBack
    } else {
        Waits::Nothing
    })
}

fn show(ask: &Ask<'_>) -> Result<Page> {
    let label: SheetId = ask.param("label")?;
    let book = ask.book()?;
    let view = book.label(label)?;
    let doc = book.sheet(label, KIND)?;
    let conflicts = book.conflicts(label, KIND)?;
    let title = match view.product.as_str() {
        "" => ask.t("label-title"),
        product => product.to_owned(),
    };
    let mut groups = Vec::new();
    for group in GROUPS {
        groups.push((
            group.heading,
            said::rows(ask, KIND, &doc, &conflicts, group.keys)?,
        ));
    }
    let waits = waits(ask, &view)?;
    Ok(Page {
        title,
        main: html! {
            (status(ask, &view, waits)?)
            (two_values::cards(ask, KIND, &conflicts)?)
            @for (heading, rows) in &groups {
                @if !heading.is_empty() { h2 { (ask.t(heading)) } }
                (rows)
            }
            (ingredients::part(ask, &doc)?)
            @if waits != Waits::Method { (part::way(&format!("/things/labels/{label}/edit"), &ask.t("label-edit"))) }
            @if waits == Waits::Nothing { (part::way(&format!("/things/labels/{label}/read-back"), &ask.t("label-read-back-again"))) }
            p.note { (ask.t("label-empty-is-unknown")) }
            p.note { (ask.t("frame-label-is-the-law")) }
        },
        place: Place::Things,
        back: Some("/things/labels".to_owned()),
    })
}

/// Whether it may be used, and what comes next if not.
fn status(ask: &Ask<'_>, view: &LabelView, waits: Waits) -> Result<Markup> {
    let label = view.sheet;
    Ok(html! {
        section.card {
            @match waits {
                Waits::Method => {
                    p.big { (ask.t("label-waits-method")) }
                    (part::next_step(&format!("/things/labels/{label}/edit"), &ask.t("label-edit")))
                },
                Waits::Settling => p.big { (ask.t("label-waits-settling")) },
                Waits::ReadingBack => {
                    p.big { (ask.t("label-waits-reading")) }
                    p { (ask.t("label-why-read-back")) }
                    (part::next_step(&format!("/things/labels/{label}/read-back"), &ask.t("label-read-back")))
                },
                Waits::Nothing => @if let Some(done) = &view.read_back { p.big { (read_back_words(ask, done)?) } },
            }
        }
    })
}

fn read_back_words(ask: &Ask<'_>, done: &ReadBack) -> Result<String> {
    let (entry, _) = ask.book()?.fact(done.fact)?;
    let at = ask
        .words
        .moment(entry.body().written.utc_ms, Clock::DayAndTime);
    let key = match done.how {
        ReadBackHow::SecondPerson => "label-read-by-second",
        ReadBackHow::TypedTwice => "label-read-alone",
    };
    Ok(ask.words.t_with(
        key,
        &[("person", done.person.clone().into()), ("at", at.into())],
    ))
}

fn settle(doing: &mut Doing<'_>) -> Result<Next> {
    let label: SheetId = doing.param("label")?;
    two_values::settle(doing, label, KIND)
}
