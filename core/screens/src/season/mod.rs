//! The invented season: a practice crew of three, ten weeks of visits up to today, to look at and
//! to practise in.
//!
//! People, places and products are made up, and every record is marked as practice. It is made by
//! the same calls of the book that a person's taps make, on three books that swap records.

mod clock;
mod phones;
mod places;
mod visits;

use std::sync::Arc;

use crate::Result;
use crate::ask::{Doing, Next};
use crate::screen::jobs::{Ended, Teller};
use crate::state::{Shared, Which};

/// Opens the invented season. Where it is not there yet it is made first, which takes a while.
pub(crate) fn look(doing: &mut Doing<'_>) -> Result<Next> {
    if let Ok(book) = doing.shared.open_book(Which::Season) {
        doing.opened(Which::Season, book);
        return Ok(Next::Go("/".to_owned()));
    }
    let shared = Arc::clone(doing.shared);
    let words = doing.words;
    let id = doing.shared.setting.env.new_uuid();
    let path = doing
        .shared
        .jobs
        .begin(id, "season-making", move |teller| {
            let (line, well) = match make_and_open(&shared, teller) {
                Ok(()) => (words.t("season-made"), true),
                Err(trouble) => (words.trouble(&trouble), false),
            };
            Ended {
                lines: vec![line],
                well,
                then_go: "/".to_owned(),
            }
        })?;
    Ok(Next::Go(path))
}

fn make_and_open(shared: &Shared, teller: &Teller) -> Result<()> {
    let folder = shared.folder_of(Which::Season);
    // Made beside its place and moved there whole: a season half-made is never opened.
    let making = folder.with_extension("making");
    if making.exists() {
        std::fs::remove_dir_all(&making).map_err(crate::Trouble::System)?;
    }
    make(shared, &making, teller)?;
    std::fs::rename(making.join("own"), &folder).map_err(crate::Trouble::System)?;
    std::fs::remove_dir_all(&making).map_err(crate::Trouble::System)?;
    shared.open(Which::Season)
}

fn make(shared: &Shared, folder: &std::path::Path, teller: &Teller) -> Result<()> {
    let mut phones = phones::Phones::begin(shared, folder)?;
    let places = places::fill(&mut phones)?;
    let steps = visits::STORY.len() as u64;
    for (step, told) in visits::STORY.iter().enumerate() {
        teller.tell(step as u64, steps);
        visits::make(&mut phones, &places, told)?;
    }
    phones.end()
}
