//! What can go wrong with a book, each with what the person can do about it.

use std::fmt;
use std::path::{Path, PathBuf};

use serde::ser::SerializeStruct as _;
use serde::{Serialize, Serializer};

use crate::malformed::Malformed;
use crate::refusal::Refusal;
use crate::thing::{Thing, Written};

/// An error of the book. Whatever it is, nothing of the action it belongs to was stored.
///
/// `Display` is the English. In JSON the name stands under `error`, and beside it what is put in:
/// `folder`, `path`, `detail` (what the system or SQLite said, in its words), `what`, `name`.
/// With `refused` the sentence's own name stands under `refusal`, with `format` under `malformed`;
/// a rule's error stands there as the rules give it.
///
/// ```
/// use sward_book::refusal::TreatRefusal;
/// use sward_book::{BookError, Thing};
///
/// let error = BookError::refused(TreatRefusal::StillToCome);
/// let told = serde_json::to_value(&error)?;
/// assert_eq!((&told["error"], &told["refusal"]), (&"refused".into(), &"still-to-come".into()));
///
/// let error = BookError::NotFound { what: Thing::LabelSheet, name: "Mix".into() };
/// let told = serde_json::to_value(&error)?;
/// assert_eq!((&told["error"], &told["what"]), (&"not-found".into(), &"label-sheet".into()));
/// assert!(BookError::NAMES.contains(&"not-found"));
/// # Ok::<(), serde_json::Error>(())
/// ```
#[derive(Debug, Serialize, thiserror::Error, strum::VariantNames)]
#[serde(tag = "error", rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[non_exhaustive]
pub enum BookError {
    /// There is no book in the folder.
    #[error("there is no book in {0}: found one, or ask to join a crew, first")]
    #[serde(serialize_with = "folder")]
    NoBook(PathBuf),
    /// There is a book in the folder already.
    #[error("{0} holds a book already: choose an empty folder, or use the book that is there")]
    #[serde(serialize_with = "folder")]
    AlreadyABook(PathBuf),
    /// Another program has the book open for writing.
    #[error(
        "another program has this book open for writing: close it and try again (reading is still possible)"
    )]
    Busy,
    /// The book was opened for reading.
    #[error("this book was opened for reading only")]
    ReadOnly,
    /// The disk or the book's allowance is full.
    #[error("the disk is full: make room and do it once more, the last action was not stored")]
    DiskFull,
    /// The disk did not take or give what it should.
    #[error(
        "the disk could not be written or read ({0}): check the folder and its permissions, make room, and do it once more; the last action was not stored"
    )]
    #[serde(serialize_with = "detail")]
    DiskFails(String),
    /// The folder or file cannot be written.
    #[error("{path} cannot be written ({source}): check its permissions, nothing was stored")]
    NotWritable {
        /// The folder or file.
        #[serde(serialize_with = "shown_path")]
        path: PathBuf,
        /// What the system said.
        #[serde(rename = "detail", serialize_with = "shown")]
        source: std::io::Error,
    },
    /// A file could not be read.
    #[error("{path} cannot be read: {source}")]
    NotReadable {
        /// The file.
        #[serde(serialize_with = "shown_path")]
        path: PathBuf,
        /// What the system said.
        #[serde(rename = "detail", serialize_with = "shown")]
        source: std::io::Error,
    },
    /// Something was written by a newer program.
    #[error(
        "{what} was written by a newer version (format {found}, this program knows {known}): update this program, nothing was changed"
    )]
    Newer {
        /// What it is.
        what: Written,
        /// The format found.
        found: u64,
        /// The newest format this program knows.
        known: u64,
    },
    /// Bytes that are not what they should be.
    #[error("not a valid {0}")]
    Format(Malformed),
    /// A signature that does not fit.
    #[error("the signature of an entry does not fit: it was altered, or not written by its device")]
    BadSignature,
    /// An action the person cannot do in this state.
    #[error("{0}")]
    Refused(Refusal),
    /// Something named was not found.
    #[error("no {what} called {name}: list them to see the names")]
    NotFound {
        /// What was looked for.
        what: Thing,
        /// What was asked for.
        name: String,
    },
    /// A name fits several things.
    #[error("{name} fits more than one {what}: give more of its name")]
    Ambiguous {
        /// What was looked for.
        what: Thing,
        /// What was asked for.
        name: String,
    },
    /// The store on disk is damaged.
    #[error(
        "the book on disk is damaged ({0}): do not delete it; run verify, then restore a backup into a new folder and swap records with the crew"
    )]
    #[serde(serialize_with = "detail")]
    Damaged(String),
    /// A rule refused what was entered.
    #[error(transparent)]
    #[serde(untagged)]
    Rule(#[from] sward_rules::RuleError),
}

impl BookError {
    /// A [`BookError::Format`].
    pub fn format(what: impl Into<Malformed>) -> Self {
        Self::Format(what.into())
    }

    /// The key of the field of a sheet that it is about, so that a form can say it there; none:
    /// it is about the whole.
    pub fn field(&self) -> Option<&str> {
        match self {
            Self::Refused(why) => why.field(),
            _ => None,
        }
    }

    /// A [`BookError::Refused`].
    pub fn refused(why: impl Into<Refusal>) -> Self {
        Self::Refused(why.into())
    }
}

/// `NAMES` for an enum that derives strum's `VariantNames`.
macro_rules! names {
    ($enum:ident) => {
        impl $enum {
            /// Every name, as JSON has it, in the order of this enum.
            pub const NAMES: &'static [&'static str] = <Self as strum::VariantNames>::VARIANTS;
        }
    };
}

pub(crate) use names;

names!(BookError);

fn folder<S: Serializer>(folder: &Path, serializer: S) -> Result<S::Ok, S::Error> {
    one(serializer, "folder", &folder.display().to_string())
}

fn detail<S: Serializer>(detail: &str, serializer: S) -> Result<S::Ok, S::Error> {
    one(serializer, "detail", detail)
}

fn one<S: Serializer>(serializer: S, name: &'static str, value: &str) -> Result<S::Ok, S::Error> {
    let mut fields = serializer.serialize_struct("Arguments", 1)?;
    fields.serialize_field(name, value)?;
    fields.end()
}

fn shown_path<S: Serializer>(path: &Path, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_str(&path.display())
}

fn shown<S: Serializer>(shown: &impl fmt::Display, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_str(shown)
}

impl From<rusqlite::Error> for BookError {
    fn from(error: rusqlite::Error) -> Self {
        use rusqlite::ErrorCode;
        match error.sqlite_error_code() {
            Some(ErrorCode::DiskFull) => Self::DiskFull,
            Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => Self::Busy,
            Some(ErrorCode::ReadOnly) => Self::ReadOnly,
            // Also what a quota says, or a limit on the size of files.
            Some(ErrorCode::SystemIoFailure | ErrorCode::CannotOpen) => {
                Self::DiskFails(error.to_string())
            }
            _ => Self::Damaged(error.to_string()),
        }
    }
}

impl From<minicbor::decode::Error> for BookError {
    fn from(error: minicbor::decode::Error) -> Self {
        Self::format(error)
    }
}

/// Result with a [`BookError`].
pub type Result<T, E = BookError> = std::result::Result<T, E>;

/// What has not arrived yet is not there; any other trouble stays one.
pub(crate) fn known<T>(found: Result<T>) -> Result<Option<T>> {
    match found {
        Ok(found) => Ok(Some(found)),
        Err(BookError::NotFound { .. }) => Ok(None),
        Err(error) => Err(error),
    }
}
