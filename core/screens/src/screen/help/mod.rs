//! Help now: someone was exposed, something spilled. The label's first aid, whom to call, what to
//! do with a spill, and filing the incident.
//!
//! No medical advice stands here: the label and the lines do that. It works without a network.

mod incident;
mod lines;

use maud::{Markup, html};
use sward_book::Book;
use sward_book::ids::SheetId;

use crate::Result;
use crate::ask::{Ask, Page, Place, Screen};
use crate::part;

pub(crate) const SCREENS: &[Screen] = &[
    Screen {
        path: "/help",
        show,
        acts: &[],
    },
    incident::NEW,
    incident::ONE,
    lines::SCREEN,
];

/// Label sheets shown at once: those in use now, then the newest.
const LABELS_MOST: usize = 6;

fn show(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    Ok(Page {
        title: ask.t("help-title"),
        main: html! {
            p.lead { (ask.t("help-first")) }
            (lines::calls(ask, book)?)
            (part::next_step("/help/incident", &ask.t("help-file")))
            h2 { (ask.t("help-label-title")) }
            @for label in labels(book)? { (label_card(ask, book, label)?) }
            h2 { (ask.t("help-spill-title")) }
            ol.list {
                li { (ask.t("help-spill-people")) }
                li { (ask.t("help-spill-stop")) }
                li { (ask.t("help-spill-hold")) }
                li { (ask.t("help-spill-water")) }
                li { (ask.t("help-spill-clean")) }
                li { (ask.t("help-spill-tell")) }
            }
            p.note { (ask.t("help-spill-source")) }
            (incident::all(ask, book)?)
            (part::way("/help/lines", &ask.t("help-edit-lines")))
        },
        place: Place::Today,
        back: Some("/".to_owned()),
    })
}

/// What is on a lawn or being put on now stands first: that is what someone was exposed to.
fn labels(book: &Book) -> Result<Vec<SheetId>> {
    let (_, running) = book.keep_offs_to_watch()?;
    let all = book.labels()?;
    let in_use = |product: &str| running.iter().any(|view| view.product == product);
    let mut ordered: Vec<_> = all.iter().rev().collect();
    ordered.sort_by_key(|label| !in_use(&label.product));
    Ok(ordered
        .iter()
        .take(LABELS_MOST)
        .map(|label| label.sheet)
        .collect())
}

fn label_card(ask: &Ask<'_>, book: &Book, label: SheetId) -> Result<Markup> {
    let words = book.label_words(label)?;
    let row = book.label(label)?;
    let not_known = ask.t("help-look-on-label");
    Ok(html! {
        section.card {
            h3 { (row.product) }
            dl {
                (part::row(&ask.t("help-registration"), &row.registration, &not_known))
                (part::row(&ask.t("help-first-aid"), &words.first_aid, &not_known))
                (part::row(&ask.t("help-emergency-phone"), &words.emergency_phone, &not_known))
                (part::row(&ask.t("help-spill"), &words.spill, &not_known))
            }
        }
    })
}
