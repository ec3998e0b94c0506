//! What can go wrong with a book, each with what the person can do about it.

use std::path::PathBuf;

/// An error of the book. Whatever it is, nothing of the action it belongs to was stored.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum BookError {
    /// There is no book in the folder.
    #[error("there is no book in {0}: found one, or ask to join a crew, first")]
    NoBook(PathBuf),
    /// There is a book in the folder already.
    #[error("{0} holds a book already: choose an empty folder, or use the book that is there")]
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
    DiskFails(String),
    /// The folder or file cannot be written.
    #[error("{path} cannot be written ({source}): check its permissions, nothing was stored")]
    NotWritable {
        /// The folder or file.
        path: PathBuf,
        /// What the system said.
        source: std::io::Error,
    },
    /// A file could not be read.
    #[error("{path} cannot be read: {source}")]
    NotReadable {
        /// The file.
        path: PathBuf,
        /// What the system said.
        source: std::io::Error,
    },
    /// Something was written by a newer program.
    #[error(
        "{what} was written by a newer version (format {found}, this program knows {known}): update this program, nothing was changed"
    )]
    Newer {
        /// Store, entry, locked file and the like.
        what: &'static str,
        /// The format found.
        found: u64,
        /// The newest format this program knows.
        known: u64,
    },
    /// Bytes that are not what they should be.
    #[error("not a valid {0}")]
    Format(String),
    /// A signature that does not fit.
    #[error("the signature of an entry does not fit: it was altered, or not written by its device")]
    BadSignature,
    /// An action the person cannot do in this state.
    #[error("{0}")]
    Refused(String),
    /// Something named was not found.
    #[error("no {what} called {name}: list them to see the names")]
    NotFound {
        /// Yard, section, label sheet, visit and the like.
        what: &'static str,
        /// What was asked for.
        name: String,
    },
    /// A name fits several things.
    #[error("{name} fits more than one {what}: give more of its name")]
    Ambiguous {
        /// Yard, section, label sheet, visit and the like.
        what: &'static str,
        /// What was asked for.
        name: String,
    },
    /// The store on disk is damaged.
    #[error(
        "the book on disk is damaged ({0}): do not delete it; run verify, then restore a backup into a new folder and swap records with the crew"
    )]
    Damaged(String),
    /// A rule refused what was entered.
    #[error(transparent)]
    Rule(#[from] sward_rules::RuleError),
}

impl BookError {
    /// A [`BookError::Format`] with its words.
    pub fn format(what: impl Into<String>) -> Self {
        Self::Format(what.into())
    }

    /// A [`BookError::Refused`] with its words.
    pub fn refused(what: impl Into<String>) -> Self {
        Self::Refused(what.into())
    }
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
        Self::Format(format!("encoding: {error}"))
    }
}

/// Result with a [`BookError`].
pub type Result<T, E = BookError> = std::result::Result<T, E>;
