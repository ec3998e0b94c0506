//! Swapping records: a locked file for the crew, to hand over any way there is, and taking one in.
//!
//! Taking in is long work: it shows how far it is, and can be left.

use std::fmt::Write as _;
use std::io::Cursor;
use std::sync::Arc;

use maud::html;
use sward_book::Book;
use sward_crew::locked::Progress;
use sward_crew::swap::{Swapped, lock_for_crew, take_into_book_telling};

use super::who;
use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::screen::jobs::{Ended, Teller};
use crate::state::Shared;
use crate::words::Words;
use crate::{Result, Trouble, part};

pub(super) const SCREEN: Screen = Screen {
    path: "/crew/swap",
    show,
    acts: &[("make", make), ("take", take)],
};

fn show(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let make = ask.form("make");
    let take = ask.form("take").with_files();
    let others = book.roster().active_recipients().len().saturating_sub(1);
    let alone = book.alone_here()?;
    Ok(Page {
        title: ask.t("crew-swap-title"),
        main: html! {
            p { (ask.t("crew-swap-how")) }
            section.card {
                h2 { (ask.t("crew-swap-give")) }
                p { (ask.words.t_with("crew-swap-alone", &[("n", alone.entries.into())])) }
                @if others == 0 { p.note { (ask.t("crew-swap-nobody")) } }
                (make.wrap(html! { (make.submit("crew-swap-make")) }))
            }
            section.card {
                h2 { (ask.t("crew-swap-take-title")) }
                (take.wrap(html! {
                    (take.file("file", "crew-swap-file", "crew-swap-file-help", ".swlock"))
                    (take.submit("crew-swap-take"))
                }))
            }
            h2 { (ask.t("crew-swap-when")) }
            @if alone.swapped.is_empty() { p.unknown { (ask.t("crew-swap-never")) } }
            ul.list {
                @for swap in &alone.swapped {
                    li { (ask.words.t_with("crew-swapped", &[
                        ("who", who(book, swap.stream).into()),
                        ("ago", ask.words.ago(swap.told_utc_ms, ask.now.utc_ms).into()),
                    ])) }
                }
            }
            (part::way("/crew", &ask.t("crew-swap-done")))
        },
        place: Place::Crew,
        back: Some("/crew".to_owned()),
    })
}

fn make(doing: &mut Doing<'_>) -> Result<Next> {
    let day = doing.words.day_of(doing.now_ms());
    let book = doing.book()?;
    let mut bytes = Vec::new();
    lock_for_crew(book, &[], &mut bytes)?;
    let device = book.secret()?.stream().short();
    Ok(Next::File {
        name: format!("swardbook-{day}-{device}.swlock"),
        kind: "application/octet-stream",
        bytes,
    })
}

fn take(doing: &mut Doing<'_>) -> Result<Next> {
    let bytes = doing.form.file("file")?.to_vec();
    let shared = Arc::clone(doing.shared);
    let words = doing.words;
    let folder = doing.book()?.folder().to_owned();
    let id = doing.shared.setting.env.new_uuid();
    let path = doing.shared.jobs.begin(id, "crew-taking", move |teller| {
        let ended = taken(&shared, &folder, bytes, words, teller);
        shared.changed();
        ended
    })?;
    Ok(Next::Go(path))
}

fn taken(
    shared: &Shared,
    folder: &std::path::Path,
    bytes: Vec<u8>,
    words: Words,
    teller: &Teller,
) -> Ended {
    let mut slot = shared.writer();
    // The book may have been closed between the tap and now.
    let Some(book) = slot.as_mut().filter(|book| book.folder() == folder) else {
        return ended(vec![words.t("frame-no-book")], false);
    };
    let swapped = take_into_book_telling(book, Cursor::new(bytes), &mut |progress| {
        if let Progress::Taken { entries, of } = progress {
            teller.tell(entries, of);
        }
    });
    match swapped {
        Ok(swapped) => {
            let began_anew = begin_anew(book);
            let mut lines = told(book, words, &swapped);
            match began_anew {
                Ok(true) => lines.push(words.t("crew-took-began-anew")),
                Ok(false) => {}
                Err(error) => lines.push(words.trouble(&error)),
            }
            ended(lines, swapped.taken.refused.is_empty())
        }
        Err(error) => ended(vec![words.trouble(&Trouble::Crew(error))], false),
    }
}

fn ended(lines: Vec<String>, well: bool) -> Ended {
    Ended {
        lines,
        well,
        then_go: "/crew".to_owned(),
    }
}

/// A device whose keys turned out to be in use elsewhere takes new ones at once.
fn begin_anew(book: &mut Book) -> Result<bool> {
    if !book.must_begin_anew()? {
        return Ok(false);
    }
    let secret = sward_crew::keys::new_device_secret(book.env());
    let recipient = sward_crew::keys::device_keys(&secret)?.recipient;
    book.begin_anew(secret, recipient)?;
    Ok(true)
}

fn told(book: &Book, words: Words, swapped: &Swapped) -> Vec<String> {
    let taken = &swapped.taken;
    let mut lines = vec![words.t_with(
        "crew-took",
        &[
            ("who", who(book, taken.from).into()),
            ("new", taken.new_entries.into()),
            ("known", taken.known_entries.into()),
        ],
    )];
    if !taken.standing.is_member() {
        lines.push(words.t("crew-took-from-outsider"));
    }
    if taken.joined.is_some() {
        lines.push(words.t("crew-took-joined"));
    }
    if swapped.clock_noted {
        lines.push(words.t("crew-took-clock"));
    }
    for (stream, error) in &taken.refused {
        let mut line = stream.map_or_else(|| words.t("crew-took-unreadable"), |s| who(book, s));
        let _ = write!(line, ": {}", words.said("error", error));
        lines.push(line);
    }
    lines
}
