//! Label sheets: the list of them, and beginning one with the label in hand.
//!
//! One sheet, writing in it and reading it back have files of their own.

mod edit;
mod ingredients;
mod one;
mod read_back;

use maud::html;

use super::fields::{self, Group};
use super::typed;
use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::trouble::Wrong;
use crate::{Result, Trouble, part};
use sward_book::sheet::SheetKind;

const KIND: SheetKind = SheetKind::Label;

pub(super) const SCREENS: [Screen; 5] = [
    Screen {
        path: "/things/labels",
        show: list,
        acts: &[],
    },
    Screen {
        path: "/things/labels/new",
        show: new,
        acts: &[("add", add)],
    },
    one::SCREEN,
    edit::SCREEN,
    read_back::SCREEN,
];

/// The fields of a label sheet, in the order of a label.
pub(super) const GROUPS: &[Group] = &[
    Group {
        heading: "",
        keys: &["product", "registration", "method"],
    },
    Group {
        heading: "label-rates",
        keys: &["rate_least", "rate_most", "carrier_least", "season_most"],
    },
    Group {
        heading: "label-sky",
        keys: &[
            "wind_most",
            "rain_free",
            "temperature_least",
            "temperature_most",
        ],
    },
    Group {
        heading: "label-after",
        keys: &[
            "keep_off_until_dry",
            "keep_off_wait",
            "watering_in",
            "repeat_after",
        ],
    },
    Group {
        heading: "label-help",
        keys: &["first_aid", "emergency_phone", "spill"],
    },
    Group {
        heading: "label-words",
        keys: &[
            "mixing_order",
            "protective_gear",
            "leftovers",
            "forbids",
            "sites",
            "pests",
        ],
    },
];

fn list(ask: &Ask<'_>) -> Result<Page> {
    let mut labels = ask.book()?.labels()?;
    labels.sort_by(|a, b| a.product.cmp(&b.product));
    Ok(Page {
        title: ask.t("label-list-title"),
        main: html! {
            @if labels.is_empty() {
                p { (ask.t("label-none")) }
            } @else {
                ul.list {
                    @for label in &labels {
                        li {
                            a.way href=(format!("/things/labels/{}", label.sheet)) {
                                span {
                                    @if label.product.is_empty() { (ask.t("frame-not-known")) } @else { strong { (label.product) } }
                                    br;
                                    @if label.registration.is_empty() { (ask.t("label-no-registration")) } @else { (label.registration) }
                                    br;
                                    @match &label.read_back {
                                        Some(done) => (ask.words.t_with("label-read-back-by", &[("person", done.person.clone().into())])),
                                        None => (ask.t("label-not-read-back")),
                                    }
                                    @if !label.conflicts.is_empty() { br; (ask.t("label-has-conflicts")) }
                                }
                            }
                        }
                    }
                }
            }
            (part::next_step("/things/labels/new", &ask.t("label-new")))
        },
        place: Place::Things,
        back: Some("/things".to_owned()),
    })
}

fn new(ask: &Ask<'_>) -> Result<Page> {
    // Before a book is open there is nothing to write in.
    ask.book()?;
    let form = ask.form("add");
    Ok(Page {
        title: ask.t("label-new-title"),
        main: html! {
            p { (ask.t("label-new-how")) }
            (form.wrap(html! {
                (fields::groups(ask, &form, KIND, None, &GROUPS[..1])?)
                (form.submit("label-begin"))
            }))
            p.note { (ask.t("frame-label-is-the-law")) }
        },
        place: Place::Things,
        back: Some("/things/labels".to_owned()),
    })
}

fn add(doing: &mut Doing<'_>) -> Result<Next> {
    let missing: Vec<Trouble> = ["product", "method"]
        .into_iter()
        .filter(|key| doing.text(key).is_empty())
        .map(|key| Trouble::field(key, Wrong::Missing))
        .collect();
    if !missing.is_empty() {
        return Err(Trouble::Fields(missing));
    }
    let typed = typed::changed(doing.form, KIND, &GROUPS[..1])?;
    let label = doing.book()?.add_label(&typed::borrowed(&typed))?;
    Ok(Next::Go(format!("/things/labels/{label}/edit")))
}
