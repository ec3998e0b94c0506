//! Words for the household and for a sign: what was put on, who stays off until when, how to see
//! whether it is dry. In both languages, on one page to print or to read out.

use maud::{Markup, html};
use sward_book::ids::VisitId;
use sward_book::view::keep_off::KeepOffView;

use super::words_of;
use crate::Result;
use crate::ask::{Ask, Page, Place, Screen};
use crate::part::keep_off::told;
use crate::words::{Clock, Language, Words};

pub(super) const SCREEN: Screen = Screen {
    path: "/visit/{visit}/keep-off/words",
    show,
    acts: &[],
};

fn show(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let visit: VisitId = ask.param("visit")?;
    let own = words_of(book, ask.words, visit)?;
    let all = book.keep_offs_of(visit)?;
    // The language on screen stands first: who prints it reads it.
    let mut languages = Language::ALL;
    languages.sort_by_key(|language| *language != own.language);
    Ok(Page {
        title: ask.t("keep-words-title"),
        main: html! {
            p.note { (ask.t("keep-words-help")) }
            div.sheet {
                @for language in languages {
                    (said(ask, Words { language, ..own }, &all))
                }
            }
        },
        place: Place::Today,
        back: Some(format!("/visit/{visit}/keep-off")),
    })
}

fn said(ask: &Ask<'_>, words: Words, all: &[KeepOffView]) -> Markup {
    html! {
        section.card lang=(words.language.code()) {
            h2 { (words.t("keep-sign-title")) }
            @for view in all {
                @let now = told(words, view.standing(ask.now), ask.now);
                p.big { strong { (now.state) } ": " (view.name) }
                p.big { (now.until) }
                p { (words.t_with("keep-sign-applied", &[
                    ("product", view.product.clone().into()),
                    ("at", words.moment(view.last_applied_utc_ms.unwrap_or(view.started_utc_ms), Clock::DayAndTime).into()),
                ])) }
            }
            p { (words.t("keep-sign-dry")) }
            p { (words.t("keep-sign-children")) }
        }
    }
}
