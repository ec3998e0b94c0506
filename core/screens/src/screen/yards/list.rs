//! All yards, those first that somebody has to keep off; the script brings the nearest to the top.

use std::collections::BTreeSet;

use maud::html;
use sward_book::ids::SheetId;
use sward_book::sheet::Position;

use crate::ask::{Ask, Page, Place};
use crate::{Result, part};

pub(super) fn show(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let mut yards = book.yards()?;
    let running: BTreeSet<SheetId> = book
        .keep_offs_running(ask.now)?
        .iter()
        .filter(|k| k.keeps_off(ask.now))
        .filter_map(|k| k.yard)
        .collect();
    yards.sort_by_cached_key(|y| (!running.contains(&y.yard), y.name.to_lowercase(), y.yard));
    Ok(Page {
        title: ask.t("yards-title"),
        main: html! {
            @if yards.is_empty() {
                p { (ask.t("yards-none")) }
                (part::next_step("/yards/new", &ask.t("yards-add")))
            } @else {
                (part::nearest_first(ask, yards.iter().any(|y| y.position.is_some())))
                ul.list data-nearest {
                    @for yard in &yards {
                        li data-lat=[yard.position.map(Position::lat_deg)] data-lon=[yard.position.map(Position::lon_deg)] {
                            a.way href=(format!("/yards/{}", yard.yard)) {
                                strong { (yard.name) }
                                @if !yard.address.is_empty() { " " span.note { (yard.address) } }
                                @if running.contains(&yard.yard) { br; strong.warn { "\u{26d4} " (ask.t("yards-keep-off")) } }
                                @if !yard.conflicts.is_empty() { " " span.note { (ask.t("yards-conflicts")) } }
                            }
                        }
                    }
                }
                (part::next_step("/yards/new", &ask.t("yards-add")))
            }
        },
        place: Place::Yards,
        back: None,
    })
}
