//! Swapping records by locked files: making one for the crew, taking one in, and how far that is.

use std::fs::{File, OpenOptions};
use std::io::{BufReader, BufWriter, Read as _, Write as _};
use std::path::Path;
use std::sync::PoisonError;

use sward_book::ids::StreamId;
use sward_book::{Book, BookError};
use sward_crew::locked::Progress;
use sward_crew::swap::{lock_for_crew, take_into_book_telling};
use sward_screens::Trouble;

use crate::handle::Open;
use crate::{Result, Swardbook};

/// A locked file that was made.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct LockedFile {
    /// How many entries are in it.
    pub entries: u64,
    /// Members it could not be locked for: they have to ask to join once more.
    pub left_out: Vec<String>,
}

/// What a locked file brought.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct TakenFile {
    /// Entries that were not here before.
    pub new_entries: u64,
    /// Entries that were here already.
    pub known_entries: u64,
    /// Who made it.
    pub made_by: String,
    /// Whether that device is of the crew. Its records are here in any case; a person should know.
    pub maker_is_of_the_crew: bool,
    /// The crew's digits, when this phone belongs to it only since this file: to be compared.
    pub joined: Option<String>,
    /// What was refused, and why; everything else arrived.
    pub refused: Vec<String>,
    /// Whether the other phone's clock was seen to be ahead: keep-offs are lengthened by it.
    pub clock_noted: bool,
}

/// How far a locked file is taken in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Enum)]
pub enum SwapProgress {
    /// The file is checked; nothing is stored yet.
    Checking {
        /// Entries so far.
        entries: u64,
    },
    /// Entries are taken in; those so far are on disk, whatever comes of the rest.
    Taking {
        /// Entries so far.
        entries: u64,
        /// Of how many.
        of: u64,
    },
}

#[uniffi::export]
impl Swardbook {
    /// Writes every record to a new locked file at `path`, which only the crew's phones can open.
    /// Nothing is overwritten; where it fails, no file is left.
    pub fn make_locked_file(&self, path: String) -> Result<LockedFile> {
        self.with(|open| {
            open.books.reading(|book| {
                let made = write_file(Path::new(&path), |file| {
                    let mut out = BufWriter::new(file);
                    let made = lock_for_crew(book, &[], &mut out)?;
                    out.flush().map_err(Trouble::System)?;
                    Ok(made)
                })?;
                let left_out = made.left_out.iter().map(|stream| who(book, *stream));
                Ok(LockedFile {
                    entries: made.entries,
                    left_out: left_out.collect(),
                })
            })
        })
    }

    /// Takes a locked file in. One for another crew is `Refused`, one that was cut short or altered
    /// `Damaged`; either way nothing that was here is lost.
    pub fn take_locked_file(&self, path: String) -> Result<TakenFile> {
        self.with(|open| {
            let not_readable = |source| not_readable(Path::new(&path), source);
            let file = File::open(&path).map_err(not_readable)?;
            let taken = open.books.writing(|book| {
                let mut tell = |progress: Progress| open.tell(progress.try_into().ok());
                let swapped = take_into_book_telling(book, BufReader::new(file), &mut tell)?;
                let taken = swapped.taken;
                let refused = taken.refused.into_iter().map(|(stream, error)| {
                    let why = open.books.say(&error.into(), &open.languages);
                    stream.map_or_else(|| why.clone(), |s| format!("{}: {why}", who(book, s)))
                });
                Ok(TakenFile {
                    new_entries: taken.new_entries,
                    known_entries: taken.known_entries,
                    made_by: who(book, taken.from),
                    maker_is_of_the_crew: taken.standing.is_member(),
                    joined: taken.joined.map(sward_crew::crew_check_digits),
                    refused: refused.collect(),
                    clock_noted: swapped.clock_noted,
                })
            });
            open.tell(None);
            taken
        })
    }

    /// How far the file is that is being taken in now; none while none is.
    pub fn swap_progress(&self) -> Result<Option<SwapProgress>> {
        self.with(|open| {
            let progress = open.swapping.lock();
            Ok(*progress.unwrap_or_else(PoisonError::into_inner))
        })
    }
}

impl TryFrom<Progress> for SwapProgress {
    type Error = ();

    /// A step that this version does not know is told as none.
    fn try_from(progress: Progress) -> std::result::Result<Self, ()> {
        match progress {
            Progress::Checked { entries } => Ok(Self::Checking { entries }),
            Progress::Taken { entries, of } => Ok(Self::Taking { entries, of }),
            _ => Err(()),
        }
    }
}

impl Open {
    fn tell(&self, progress: Option<SwapProgress>) {
        *self.swapping.lock().unwrap_or_else(PoisonError::into_inner) = progress;
    }
}

/// Who carries a device: the name, else the device's own short one.
fn who(book: &Book, stream: StreamId) -> String {
    let member = book.roster().member(stream);
    member
        .and_then(|m| m.person.as_ref())
        .map_or_else(|| stream.short(), |person| person.name.clone())
}

/// Reads a small file; one that is longer than `bytes_most` is told as cut off would be.
pub(crate) fn read_file(path: &Path, bytes_most: usize) -> sward_screens::Result<Vec<u8>> {
    let file = File::open(path).map_err(|source| not_readable(path, source))?;
    let mut bytes = Vec::new();
    let most = u64::try_from(bytes_most).unwrap_or(u64::MAX);
    file.take(most.saturating_add(1))
        .read_to_end(&mut bytes)
        .map_err(|source| not_readable(path, source))?;
    if bytes.len() > bytes_most {
        return Err(Trouble::TooLarge);
    }
    Ok(bytes)
}

/// Fills a new file, or leaves none.
pub(crate) fn write_file<T>(
    path: &Path,
    fill: impl FnOnce(&mut File) -> sward_screens::Result<T>,
) -> sward_screens::Result<T> {
    let not_writable = |source| BookError::NotWritable {
        path: path.to_owned(),
        source,
    };
    let opened = OpenOptions::new().write(true).create_new(true).open(path);
    let mut file = opened.map_err(not_writable)?;
    let filled = fill(&mut file).and_then(|value| {
        file.sync_all().map_err(not_writable)?;
        Ok(value)
    });
    if filled.is_err() {
        // What could not be filled is no file; that it cannot go either changes nothing.
        let _ = std::fs::remove_file(path);
    }
    filled
}

fn not_readable(path: &Path, source: std::io::Error) -> Trouble {
    Trouble::Book(BookError::NotReadable {
        path: path.to_owned(),
        source,
    })
}
