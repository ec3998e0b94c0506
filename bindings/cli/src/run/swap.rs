//! Swapping records by locked files.

use std::io::Write as _;
use std::path::{Path, PathBuf};

use serde_json::{Value, json};
use sward_book::Book;
use sward_crew::swap::{Swapped, lock_for_crew, take_into_book};
use sward_crew::{Standing, crew_check_digits};

use crate::app::{App, begin_anew_if_needed};
use crate::args::{SwapArgs, SwapCommand};
use crate::error::{CliError, Result};
use crate::print::{Answer, Page};

use super::{Filling, new_file, who};

/// Runs `sward swap`.
pub(super) fn run(app: &App, args: &SwapArgs) -> Result<Answer> {
    match &args.command {
        SwapCommand::Make { file } => make(app, file),
        SwapCommand::Take { files } => take(app, files),
    }
}

fn make(app: &App, path: &Path) -> Result<Answer> {
    let book = app.reading()?;
    let bar = super::store::bar(0, "locking");
    let made = new_file(path, |file| {
        let mut out = std::io::BufWriter::new(bar.wrap_write(file));
        let made = lock_for_crew(&book, &[], &mut out)?;
        out.flush()?;
        Ok::<_, Filling>(made)
    })?;
    bar.finish_and_clear();
    let mut page = Page::of(format!(
        "{} entries locked in {}.",
        made.entries,
        path.display()
    ));
    page.line("Only the crew's phones can open it; send it any way you like.");
    for stream in &made.left_out {
        page.item(format!(
            "not for {}: its key is none; let it ask to join once more",
            who(&book, *stream)
        ));
    }
    let json = json!({
        "file": path,
        "entries": made.entries,
        "entry_bytes": made.entry_bytes,
        "left_out": made.left_out,
    });
    Ok(Answer::new(page, json))
}

fn take(app: &App, paths: &[PathBuf]) -> Result<Answer> {
    let mut book = app.writing()?;
    let mut page = Page::default();
    let mut json = Vec::new();
    let mut refused = 0;
    for path in paths {
        let swapped = match take_one(&mut book, path) {
            Ok(swapped) => swapped,
            // What came before is stored, and is told together with what went wrong.
            Err(error) if !json.is_empty() => {
                let mut answer = Answer::new(page, json!({ "files": json }));
                answer.but = Some(error);
                return Ok(answer);
            }
            Err(error) => return Err(error),
        };
        let began_anew = begin_anew_if_needed(&mut book)?;
        refused += swapped.taken.refused.len();
        told(&book, path, &swapped, &mut page);
        json.push(taken_json(path, &swapped, began_anew));
    }
    for (stream, count) in book.waiting_for()? {
        page.item(format!(
            "waiting for entries from {} ({count})",
            who(&book, stream)
        ));
    }
    let mut answer = Answer::new(page, json!({ "files": json }));
    if refused > 0 {
        answer.but = Some(CliError::InPart(format!(
            "{refused} of the streams were refused and the rest was taken in: ask the sender for a new file, and tell a crew lead"
        )));
    }
    Ok(answer)
}

fn take_one(book: &mut Book, path: &Path) -> Result<Swapped> {
    let not_readable = |source| CliError::NotReadable {
        path: path.to_owned(),
        source,
    };
    let file = std::fs::File::open(path).map_err(not_readable)?;
    let length = file.metadata().map_err(not_readable)?.len();
    let bar = super::store::bar(length, "taking in");
    let swapped = take_into_book(book, bar.wrap_read(std::io::BufReader::new(file)))?;
    bar.finish_and_clear();
    Ok(swapped)
}

fn told(book: &Book, path: &Path, swapped: &Swapped, page: &mut Page) {
    let taken = &swapped.taken;
    page.line(format!(
        "{}: from {}, {} new entries, {} known already.",
        path.display(),
        who(book, taken.from),
        taken.new_entries,
        taken.known_entries
    ));
    if let Some(crew) = taken.joined {
        page.item(format!(
            "This phone now belongs to {}. Compare these digits with the crew lead's (sward crew): {}",
            book.roster().crew_name().unwrap_or("the crew"),
            crew_check_digits(crew)
        ));
    }
    let doubt = match taken.standing {
        Standing::Member(_) => None,
        Standing::Retired => {
            Some("its device was retired: what it wrote since is marked, and a crew lead decides")
        }
        Standing::Pending => {
            Some("its device is not admitted yet: what it wrote is marked until then")
        }
        Standing::Unknown => Some(
            "nobody in the crew knows its device: what it wrote is marked, and a crew lead decides",
        ),
    };
    if let Some(doubt) = doubt {
        page.item(format!("mind: {doubt}"));
    }
    for (stream, error) in &taken.refused {
        let of = stream.map_or_else(|| "a stream".to_owned(), |s| who(book, s));
        page.item(format!("refused from {of}: {error}"));
    }
    if swapped.clock_noted {
        page.item("mind: its clock is ahead of this device's; that is written down. If yours is the wrong one, set it and sward confirm-time.");
    }
}

fn taken_json(path: &Path, swapped: &Swapped, began_anew: bool) -> Value {
    let taken = &swapped.taken;
    let refused: Vec<Value> = taken
        .refused
        .iter()
        .map(|(stream, error)| json!({ "stream": stream, "why": error.to_string() }))
        .collect();
    let standing = match taken.standing {
        Standing::Member(_) => "member",
        Standing::Retired => "retired",
        Standing::Pending => "pending",
        Standing::Unknown => "unknown",
    };
    json!({
        "file": path,
        "from": taken.from,
        "standing": standing,
        "new": taken.new_entries,
        "known": taken.known_entries,
        "joined": taken.joined,
        "refused": refused,
        "clock_noted": swapped.clock_noted,
        "began_anew": began_anew,
    })
}
