//! All yards, those first that somebody has to keep off; or the nearest first.

use std::collections::BTreeSet;

use maud::html;
use sward_book::ids::SheetId;

use crate::Result;
use crate::ask::{Ask, Page, Place};
use crate::part::{self, nearest};

/// So many on one page, which a slow phone still shows at once.
const PAGE: usize = 100;

pub(super) fn show(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let mut yards = book.yards()?;
    let from = ask.query("from").and_then(|n| n.parse::<usize>().ok());
    // Behind the last yard there is no page: then the first, as where no number stands.
    let from = from.filter(|from| *from < yards.len()).unwrap_or(0);
    let running: BTreeSet<SheetId> = book
        .keep_offs_running(ask.now)?
        .iter()
        .filter(|k| k.keeps_off(ask.now))
        .filter_map(|k| k.yard)
        .collect();
    yards.sort_by_cached_key(|y| (!running.contains(&y.yard), y.name.to_lowercase(), y.yard));
    nearest::sort(ask, &mut yards, |y| y.position);
    Ok(Page {
        title: ask.t("yards-title"),
        main: html! {
            @if yards.is_empty() {
                p { (ask.t("yards-none")) }
                (part::next_step("/yards/new", &ask.t("yards-add")))
            } @else {
                (nearest::button(ask, yards.iter().any(|y| y.position.is_some())))
                ul.list {
                    @for yard in yards.iter().skip(from).take(PAGE) {
                        li {
                            a.way href=(format!("/yards/{}", yard.yard)) {
                                strong { (yard.name) }
                                @if !yard.address.is_empty() { " " span.note { (yard.address) } }
                                @if running.contains(&yard.yard) { br; strong.warn { "\u{26d4} " (ask.t("yards-keep-off")) } }
                                @if !yard.conflicts.is_empty() { " " span.note { (ask.t("yards-conflicts")) } }
                            }
                        }
                    }
                }
                @if yards.len() > from + PAGE {
                    (part::way(&format!("/yards?from={}", from + PAGE), &ask.t("yards-more")))
                }
                (part::next_step("/yards/new", &ask.t("yards-add")))
            }
        },
        place: Place::Yards,
        back: None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::Scene;

    #[test]
    fn every_yard_is_on_one_of_the_pages() {
        let (scene, ()) = Scene::new(|book| {
            for number in 0..PAGE + 2 {
                book.add_yard(&format!("Lot {number:03}"), "", "UTC")?;
            }
            Ok(())
        });
        let page = |from: &str| scene.show(&format!("/yards?from={from}"));
        let (first, second) = (page("0"), page("100"));
        assert!(first.contains("Lot 000") && first.contains("Lot 099"));
        assert!(!first.contains("Lot 100") && first.contains("/yards?from=100"));
        assert!(second.contains("Lot 100") && second.contains("Lot 101"));
        assert!(!second.contains("/yards?from="));
        let behind_all = usize::MAX.to_string();
        for odd in ["-1", "many", "102", &behind_all, "99999999999999999999"] {
            assert!(page(odd).contains("Lot 000"), "{odd}");
        }
    }
}
