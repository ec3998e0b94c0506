//! What has to be watched: the time, running keep-offs, product, licences, and what exists on this
//! phone alone.

use chrono::{Days, NaiveDate};
use maud::{Markup, html};
use sward_book::Book;
use sward_book::env::TimeProof;
use sward_book::view::keep_off::Standing;
use sward_rules::keep_off::State;

use super::Yards;
use crate::ask::Ask;
use crate::part::keep_off::{card, told};
use crate::{Result, part};

/// A licence that runs out within so many days is named. Common practice, no source.
const LICENCE_DAYS: u64 = 60;

/// The time, where nothing vouches for it: no keep-off can then be told as over.
pub(super) fn time_uncertain(ask: &Ask<'_>, book: &Book) -> Result<Markup> {
    let unproven = book.time_proof()? == TimeProof::Unproven;
    Ok(html! {
        @if unproven || !ask.now.proven {
            section.card {
                p { strong { (ask.t("today-time-uncertain")) } }
                (part::way("/crew/time", &ask.t("today-confirm-time")))
            }
        }
    })
}

/// So many keep-offs are shown whole; of the rest each is still told, in a line that leads to it.
const WHOLE_MOST: usize = 40;

/// Every keep-off that runs, those that wait for a look first.
pub(super) fn keep_offs(ask: &Ask<'_>, book: &Book, yards: &mut Yards<'_>) -> Result<Markup> {
    let (now, mut running) = book.keep_offs_to_watch()?;
    running.sort_by_key(|view| view.standing(now) != Standing::ByClaims(State::WaitsForDry));
    Ok(html! {
        h2 { (ask.t("today-keep-offs")) }
        @if running.is_empty() { p.note { (ask.t("today-no-keep-offs")) } }
        @for (number, view) in running.iter().enumerate() {
            @let (name, words) = yards.get(view.yard);
            @let open = format!("/visit/{}/keep-off", view.visit);
            @if number < WHOLE_MOST {
                section.card {
                    p { strong { (name) } }
                    (card(ask, words, view))
                    (part::way(&open, &ask.t("today-keep-off-open")))
                }
            } @else {
                @let standing = told(words, view.standing(now), now);
                (part::way(&open, &format!("\u{26d4} {name}: {}: {}: {}", view.name, standing.state, standing.until)))
            }
        }
    })
}

/// Product that is short and licences that run out.
pub(super) fn things(ask: &Ask<'_>, book: &Book, today: NaiveDate) -> Result<Markup> {
    let soon = today
        .checked_add_days(Days::new(LICENCE_DAYS))
        .unwrap_or(today);
    let short: Vec<String> = book
        .stock()?
        .into_iter()
        .filter(|(_, lot)| !lot.hidden && lot.is_short() == Some(true))
        .map(|(_, lot)| {
            let product = lot
                .label
                .and_then(|l| book.label(l).ok())
                .map(|l| l.product)
                .unwrap_or_default();
            let left = lot
                .on_hand
                .map(|a| ask.words.amount(&a))
                .unwrap_or_default();
            ask.words.t_with(
                "today-short",
                &[
                    ("product", product.into()),
                    ("lot", lot.lot.into()),
                    ("left", left.into()),
                ],
            )
        })
        .collect();
    let licences: Vec<String> = book
        .people()?
        .into_iter()
        .filter(|(_, person)| !person.hidden)
        .filter_map(|(_, person)| {
            let until = person.licence_until.filter(|day| *day <= soon)?;
            let key = if until < today {
                "today-licence-over"
            } else {
                "today-licence"
            };
            Some(ask.words.t_with(
                key,
                &[
                    ("name", person.name.into()),
                    ("day", ask.words.day(until).into()),
                ],
            ))
        })
        .collect();
    Ok(html! {
        @if !short.is_empty() || !licences.is_empty() {
            h2 { (ask.t("today-things")) }
            ul.list { @for line in short.iter().chain(&licences) { li { (line) } } }
            (part::way("/things", &ask.t("today-to-things")))
        }
    })
}

/// What exists only here, and when records were last swapped with whom.
pub(super) fn alone_here(ask: &Ask<'_>, book: &Book) -> Result<Markup> {
    let alone = book.alone_here()?;
    let members = book.roster().members().count();
    let who = |stream| {
        book.roster()
            .member(stream)
            .and_then(|m| m.person.as_ref())
            .map_or_else(|| stream.short(), |p| p.name.clone())
    };
    Ok(html! {
        h2 { (ask.t("today-alone")) }
        p { (ask.words.t_with("today-alone-entries", &[("n", alone.entries.into())])) }
        ul.list {
            @for swap in alone.swapped.iter().take(3) {
                li { (ask.words.t_with("today-swapped", &[
                    ("who", who(swap.stream).into()),
                    ("ago", ask.words.ago(swap.told_utc_ms, ask.now.utc_ms).into()),
                ])) }
            }
        }
        @if members > 1 { (part::way("/crew/swap", &ask.t("today-swap"))) }
        @else { (part::way("/things/backup", &ask.t("today-backup"))) }
    })
}

#[cfg(test)]
mod tests {
    use super::WHOLE_MOST;
    use crate::testing::{Scene, lawn, read_back, treat};

    #[test]
    fn the_last_of_many_keep_offs_still_says_until_when_and_what_needs_a_look_stands_first() {
        let (scene, ()) = Scene::new(|book| {
            let label = |until_dry| {
                [
                    ("product", "Example Bait"),
                    ("method", "granule"),
                    ("rate_most", "3 lb/1000 ft2"),
                    ("keep_off_until_dry", until_dry),
                    (
                        "keep_off_wait",
                        if until_dry == "yes" { "nothing" } else { "4 h" },
                    ),
                ]
            };
            let [by_time, until_dry] = [
                book.add_label(&label("no"))?,
                book.add_label(&label("yes"))?,
            ];
            for label in [by_time, until_dry] {
                read_back(book, label)?;
            }
            let yard = lawn(book, "Corner")?;
            for number in 0..=WHOLE_MOST {
                let label = if number == WHOLE_MOST {
                    until_dry
                } else {
                    by_time
                };
                let visit = book.open_visit(yard, "white grub")?;
                treat(book, visit, label)?;
            }
            Ok(())
        });
        let page = scene.show("/");
        assert_eq!(page.matches("class=\"stay\"").count(), WHOLE_MOST);
        let first = page.find("class=\"big\"").unwrap();
        assert!(
            page[first..].starts_with("class=\"big\">until someone sees it dry"),
            "{page}"
        );
        let line = page.split("\u{26d4} Corner: front: ").nth(1).unwrap();
        assert!(line.starts_with("Keep off: until "), "{line}");
    }
}
