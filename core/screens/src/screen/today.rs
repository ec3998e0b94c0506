//! Today: what must I watch, where do I go? Before a book is open, the first start.
//!
//! Running keep-offs stand first: a child stands behind each of them.

mod watch;

use std::collections::BTreeMap;

use chrono::Days;
use maud::{Markup, html};
use sward_book::Book;
use sward_book::ids::SheetId;
use sward_book::sheet::Position;
use sward_book::view::visit::{VisitState, VisitView};

use super::first;
use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::part::{self, nearest};
use crate::screen::look::pest_name;
use crate::state::Which;
use crate::words::Words;
use crate::{Result, Trouble};

pub(crate) const SCREENS: &[Screen] = &[Screen {
    path: "/",
    show,
    acts: &[
        ("season", look_at_season),
        ("leave", leave_season),
        (nearest::ACT, nearest::act),
    ],
}];

/// The most stops and returns shown; the rest is counted.
const SHOWN_MOST: usize = 12;

fn show(ask: &Ask<'_>) -> Result<Page> {
    match ask.book() {
        Ok(book) => today(ask, book),
        Err(Trouble::NoBook) => Ok(first::welcome(ask)),
        Err(trouble) => Err(trouble),
    }
}

/// Names, time zones and places of yards, each read once.
pub(super) struct Yards<'a> {
    book: &'a Book,
    words: Words,
    known: BTreeMap<SheetId, (String, Words, Option<Position>)>,
}

impl<'a> Yards<'a> {
    pub(super) fn new(ask: &Ask<'a>, book: &'a Book) -> Self {
        Self {
            book,
            words: ask.words,
            known: BTreeMap::new(),
        }
    }

    /// A yard's name, and the words in its zone.
    pub(super) fn get(&mut self, yard: Option<SheetId>) -> (String, Words) {
        let (name, words, _) = self.known(yard);
        (name, words)
    }

    fn stop<'v>(&mut self, visit: &'v VisitView) -> Stop<'v> {
        let (name, words, position) = self.known(visit.yard);
        Stop {
            visit,
            name,
            words,
            position,
        }
    }

    fn known(&mut self, yard: Option<SheetId>) -> (String, Words, Option<Position>) {
        let Some(yard) = yard else {
            return (self.words.t("today-yard-missing"), self.words, None);
        };
        let (book, words) = (self.book, self.words);
        self.known
            .entry(yard)
            .or_insert_with(|| match book.yard(yard) {
                Ok(view) => (
                    view.name,
                    words.in_zone(view.zone.parse().ok()),
                    view.position,
                ),
                Err(_) => (words.t("today-yard-missing"), words, None),
            })
            .clone()
    }
}

fn today(ask: &Ask<'_>, book: &Book) -> Result<Page> {
    let mut yards = Yards::new(ask, book);
    let open = book.visits_open()?;
    let day = ask.words.day_of(ask.now.utc_ms);
    let due = book.returns_due(day.checked_add_days(Days::new(1)).unwrap_or(day))?;
    let has_yards = !book.yards()?.is_empty();
    let questions = super::crew::questions_open(book)?;
    // All of them only where the nearest is asked for.
    let looked_at = match ask.shared.stands_at() {
        Some(_) => open.len(),
        None => SHOWN_MOST,
    };
    let mut stops: Vec<Stop<'_>> = open.iter().take(looked_at).map(|v| yards.stop(v)).collect();
    nearest::sort(ask, &mut stops, |s| s.position);
    Ok(Page {
        title: ask.t("today-title"),
        main: html! {
            (watch::time_uncertain(ask, book)?)
            (watch::keep_offs(ask, book, &mut yards)?)
            @if questions > 0 {
                (part::way("/crew/settle", &ask.words.t_with("today-settle", &[("n", questions.into())])))
            }
            h2 { (ask.t("today-stops")) }
            @if open.is_empty() { p.note { (ask.t("today-no-stops")) } }
            (nearest::button(ask, stops.iter().any(|s| s.position.is_some())))
            ul.list { @for stop in stops.iter().take(SHOWN_MOST) { li { (stop.way(ask)) } } }
            @if open.len() > SHOWN_MOST {
                p.note { (ask.words.t_with("today-more", &[("n", (open.len() - SHOWN_MOST).into())])) }
            }
            @if has_yards { (part::next_step("/yards", &ask.t("today-start"))) }
            @else {
                p { (ask.t("today-no-yard")) }
                (part::next_step("/yards/new", &ask.t("today-first-yard")))
            }
            (returns(ask, &mut yards, &due))
            (watch::things(ask, book, day)?)
            (watch::alone_here(ask, book)?)
            (leave(ask))
        },
        place: Place::Today,
        back: None,
    })
}

/// A visit that is open, at its yard.
struct Stop<'a> {
    visit: &'a VisitView,
    name: String,
    words: Words,
    position: Option<Position>,
}

impl Stop<'_> {
    fn way(&self, ask: &Ask<'_>) -> Markup {
        let (visit, words) = (self.visit, self.words);
        let state = ask.t(match visit.state {
            VisitState::Treating => "today-treating",
            _ => "today-open",
        });
        html! {
            a.way href=(format!("/visit/{}", visit.visit)) {
                strong { (self.name) } br;
                span { (state) ", " (pest_name(words, &visit.target)) }
                @if let Some(opened) = visit.opened { ", " (words.moment_near(opened.utc_ms, ask.now.utc_ms)) }
            }
        }
    }
}

fn returns(ask: &Ask<'_>, yards: &mut Yards<'_>, due: &[VisitView]) -> Markup {
    html! {
        h2 { (ask.t("today-returns")) }
        @if due.is_empty() { p.note { (ask.t("today-no-returns")) } }
        ul.list {
            @for visit in due.iter().take(SHOWN_MOST) {
                @if let Some(planned) = &visit.return_day {
                    @let (name, words) = yards.get(visit.yard);
                    li {
                        a.way href=(format!("/visit/{}/recheck", visit.visit)) {
                            strong { (name) } br;
                            @match planned.day.parse() {
                                Ok(day) => span { (words.day(day)) ": " (pest_name(words, &visit.target)) },
                                Err(_) => span { (pest_name(words, &visit.target)) },
                            }
                        }
                    }
                }
            }
        }
        @if due.len() > SHOWN_MOST {
            p.note { (ask.words.t_with("today-more", &[("n", (due.len() - SHOWN_MOST).into())])) }
        }
    }
}

/// The way out of the invented season.
fn leave(ask: &Ask<'_>) -> Markup {
    html! {
        @if ask.shared.which() == Some(Which::Season) {
            (ask.form("leave").wrap(html! { (ask.form("leave").quiet_submit("today-leave-season")) }))
        }
    }
}

#[expect(clippy::unnecessary_wraps, reason = "the form that every screen has")]
fn leave_season(doing: &mut Doing<'_>) -> Result<Next> {
    doing.leave();
    Ok(Next::Go("/".to_owned()))
}

fn look_at_season(doing: &mut Doing<'_>) -> Result<Next> {
    crate::season::look(doing)
}
