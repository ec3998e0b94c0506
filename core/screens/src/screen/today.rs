//! Today: what must I watch, where do I go? Before a book is open, the first start.
//!
//! Running keep-offs stand first: a child stands behind each of them.

use maud::html;

use super::first;
use crate::ask::{Ask, Page, Place, Screen};
use crate::{Result, Trouble, part};

pub(crate) const SCREENS: &[Screen] = &[Screen {
    path: "/",
    show,
    acts: &[],
}];

fn show(ask: &Ask<'_>) -> Result<Page> {
    match ask.book() {
        Ok(_) => today(ask),
        Err(Trouble::NoBook) => Ok(first::welcome(ask)),
        Err(trouble) => Err(trouble),
    }
}

fn today(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let yards = book.yards()?;
    Ok(Page {
        title: ask.t("today-title"),
        main: html! {
            @if yards.is_empty() {
                p { (ask.t("today-no-yard")) }
                (part::next_step("/yards/new", &ask.t("today-first-yard")))
            }
        },
        place: Place::Today,
        back: None,
    })
}
