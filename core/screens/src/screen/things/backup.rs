//! Backup and proof: a file with the whole book, and whether the book is whole.
//!
//! What a backup holds and how a store is proven, the book knows.

use std::fs;
use std::path::Path;
use std::sync::Arc;

use maud::html;
use sward_book::Book;
use sward_book::book::Verified;

use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::screen::jobs::Ended;
use crate::words::Words;
use crate::{Result, Trouble};

pub(super) const SCREEN: Screen = Screen {
    path: "/things/backup",
    show,
    acts: &[("back-up", back_up), ("prove", prove)],
};

/// The most faults that are shown; the number of all is always said.
const FAULTS_SHOWN_MOST: usize = 20;

fn show(ask: &Ask<'_>) -> Result<Page> {
    ask.book()?;
    let (copy, proof) = (ask.form("back-up"), ask.form("prove"));
    Ok(Page {
        title: ask.t("things-backup"),
        main: html! {
            section.card {
                h2 { (ask.t("things-backup-file")) }
                p { (ask.t("things-backup-holds")) }
                p { strong { (ask.t("things-backup-no-keys")) } }
                p { (ask.t("things-backup-readable")) }
                (copy.wrap(html! { (copy.submit("things-backup-make")) }))
                p.note { (ask.t("things-backup-restore")) }
            }
            section.card {
                h2 { (ask.t("things-proof")) }
                p { (ask.t("things-proof-what")) }
                (proof.wrap(html! { (proof.quiet_submit("things-proof-begin")) }))
            }
        },
        place: Place::Things,
        back: Some("/things".to_owned()),
    })
}

fn back_up(doing: &mut Doing<'_>) -> Result<Next> {
    let day = doing.words.day_of(doing.now_ms());
    let book = doing.book()?;
    // Always the same name: what a killed program left behind is removed the next time.
    let file = book.folder().join("backup-unfinished");
    remove(&file)?;
    let bytes = copied(book, &file);
    // Whatever happened, no second copy of the book stays behind.
    remove(&file)?;
    Ok(Next::File {
        name: format!("swardbook-{day}.backup"),
        kind: "application/octet-stream",
        bytes: bytes?,
    })
}

fn remove(file: &Path) -> Result<()> {
    if file.exists() {
        fs::remove_file(file).map_err(Trouble::System)?;
    }
    Ok(())
}

fn copied(book: &Book, file: &Path) -> Result<Vec<u8>> {
    book.back_up(file)?;
    fs::read(file).map_err(Trouble::System)
}

fn prove(doing: &mut Doing<'_>) -> Result<Next> {
    let which = doing.shared.which().ok_or(Trouble::NoBook)?;
    let folder = doing.shared.folder_of(which);
    let env = Arc::clone(&doing.shared.setting.env);
    let words = doing.words;
    let id = env.new_uuid();
    let working = doing
        .shared
        .jobs
        .begin(id, "things-proof-running", move |teller| {
            // A book of its own for reading: screens and writing go on meanwhile.
            let verified = Book::open_reading(&folder, env)
                .and_then(|book| book.verify(&mut |done, of| teller.tell(done, of)));
            let (well, lines) = match verified {
                Ok(found) => (found.faults.is_empty(), said(words, &found)),
                Err(error) => {
                    let trouble = Trouble::from(error);
                    let lines = vec![words.t("things-proof-failed"), words.trouble(&trouble)];
                    (false, lines)
                }
            };
            Ended {
                lines,
                well,
                then_go: "/things/backup".to_owned(),
            }
        })?;
    Ok(Next::Go(working))
}

/// What the proof found, line by line.
fn said(words: Words, found: &Verified) -> Vec<String> {
    let count = |key: &str, n: u64| words.t_with(key, &[("n", n.into())]);
    let mut lines = Vec::new();
    if found.faults.is_empty() {
        lines.push(words.t("things-proof-whole"));
    } else {
        lines.push(count("things-proof-faults", found.faults.len() as u64));
        lines.push(words.t("things-proof-what-now"));
        lines.extend(found.faults.iter().take(FAULTS_SHOWN_MOST).cloned());
    }
    lines.push(count("things-proof-entries", found.entries));
    lines.push(count("things-proof-sheets", found.sheets));
    lines.push(count("things-proof-views", found.views));
    let waiting: u64 = found.waiting.iter().map(|(_, n)| n).sum();
    if waiting > 0 {
        lines.push(count("things-proof-waiting", waiting));
    }
    if !found.forked.is_empty() {
        lines.push(count("things-proof-forked", found.forked.len() as u64));
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::{Language, Units};

    const WORDS: Words = Words {
        language: Language::English,
        units: Units::Us,
        zone: chrono_tz::Tz::America__New_York,
    };

    #[test]
    fn a_whole_book_is_called_whole_and_a_damaged_one_never() {
        let whole = Verified {
            entries: 12,
            ..Verified::default()
        };
        let lines = said(WORDS, &whole);
        assert_eq!(lines[0], WORDS.t("things-proof-whole"));
        assert!(lines.iter().any(|line| line.contains("12")));
        let damaged = Verified {
            faults: vec!["entry in row 3: damaged".to_owned(); 30],
            ..whole
        };
        let lines = said(WORDS, &damaged);
        assert!(lines[0].contains("30"), "{}", lines[0]);
        assert!(!lines.contains(&WORDS.t("things-proof-whole")));
        let shown = lines.iter().filter(|line| line.contains("row 3")).count();
        assert_eq!(shown, FAULTS_SHOWN_MOST);
    }

    #[test]
    fn what_is_missing_from_others_is_said() {
        let found = Verified {
            waiting: vec![(sward_book::ids::StreamId([1; 32]), 7)],
            ..Verified::default()
        };
        assert!(said(WORDS, &found).iter().any(|line| line.contains('7')));
    }
}
