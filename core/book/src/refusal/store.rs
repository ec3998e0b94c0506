//! Refusals about files, disks and clocks that are no failure of theirs. Failures are
//! [`crate::BookError`]'s own.

use serde::Serialize;

use crate::error::names;

/// Files, disks and clocks.
#[derive(
    Debug,
    Clone,
    PartialEq,
    Eq,
    Serialize,
    strum::IntoStaticStr,
    strum::VariantNames,
    thiserror::Error,
)]
#[serde(tag = "refusal", rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[non_exhaustive]
pub enum StoreRefusal {
    /// The file of a backup exists.
    #[error("{file} is there already: give a new file name, a backup never overwrites")]
    BackupIsThere {
        /// The file.
        file: String,
    },
    /// An action would make an entry longer than any may be.
    #[error("too much in one step: do it in several")]
    TooMuchAtOnce,
    /// The disk cannot hold a store that is read while it is written.
    #[error(
        "this disk does not support the book's write-ahead log: choose a folder on an ordinary local disk"
    )]
    DiskUnsuited,
    /// A path that SQLite cannot be told.
    #[error("the path is not valid text")]
    PathNotText,
    /// An older book was to be opened for reading alone.
    #[error(
        "this book is of format {found}, which has to be brought up to date: open it once on its own device to write"
    )]
    WriteOnceFirst {
        /// Its format.
        found: u64,
    },
    /// An older book with entries that are no longer read.
    #[error(
        "this book is of format {found} and holds entries that this program no longer reads: nothing was changed; go on with the program that wrote it"
    )]
    NoLongerRead {
        /// Its format.
        found: u64,
    },
    /// The time was to be confirmed by nothing.
    #[error("say who or what confirms the time")]
    TimeConfirmedByNobody,
    /// A time was told as of a moment that the device's own running time has not reached.
    #[error("that time lies after the one this device's own clock counts to: tell it once more")]
    TimeToldToCome,
    /// A pretended clock on a book that counts.
    #[error("a pretended clock is for practice books only, and this is a real one")]
    PretendedClock,
}

names!(StoreRefusal);
