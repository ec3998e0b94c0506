//! What can go wrong at the terminal, each with what the person can do about it, and the exit
//! codes that scripts rely on. What the book, the crew and the rules say is passed on as it is.

use std::path::PathBuf;
use std::process::ExitCode;

use sward_book::BookError;
use sward_crew::CrewError;
use sward_rules::RuleError;

/// An error of a command. Whatever it is, nothing of the step that failed was stored.
#[derive(Debug, thiserror::Error)]
pub(crate) enum CliError {
    /// The book refused, or cannot be used.
    #[error(transparent)]
    Book(#[from] BookError),
    /// Joining, recovery or a locked file failed.
    #[error(transparent)]
    Crew(CrewError),
    /// A rule refused what was entered.
    #[error(transparent)]
    Rule(#[from] RuleError),
    /// The command line lacks something, or says two things at once.
    #[error("{0}")]
    Usage(String),
    /// What was asked cannot be done as things stand.
    #[error("{0}")]
    Refused(String),
    /// Some of it was done, and some could not be; the answer was shown.
    #[error("{0}")]
    InPart(String),
    /// The store is not whole; the answer was shown.
    #[error("{0}")]
    NotWhole(String),
    /// A file given on the command line cannot be read.
    #[error("{path} cannot be read ({source}): check the name and its permissions")]
    NotReadable {
        /// The file.
        path: PathBuf,
        /// What the system said.
        source: std::io::Error,
    },
    /// A file given on the command line cannot be written.
    #[error("{path} cannot be written ({source}): check the folder, its permissions and its room")]
    NotWritable {
        /// The file.
        path: PathBuf,
        /// What the system said.
        source: std::io::Error,
    },
    /// Standard output was closed by whoever read it; no more is to be said.
    #[error("the output was closed")]
    OutputClosed,
    /// Standard output cannot be written.
    #[error("the answer cannot be written ({0}): make room where the output goes")]
    Output(std::io::Error),
}

/// Result with a [`CliError`].
pub(crate) type Result<T, E = CliError> = std::result::Result<T, E>;

impl From<CrewError> for CliError {
    fn from(error: CrewError) -> Self {
        match error {
            CrewError::Book(book) => Self::Book(book),
            other => Self::Crew(other),
        }
    }
}

/// How the program ends. The numbers are promised in the help text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Exit {
    /// Done.
    Done = 0,
    /// Refused or failed.
    Refused = 1,
    /// The command line cannot be followed.
    Usage = 2,
    /// `ready`: don't treat, or something is not known.
    NotReady = 3,
    /// Another program has the book open for writing.
    Busy = 4,
    /// Written by a newer version.
    Newer = 5,
    /// The book or a file is damaged.
    Damaged = 6,
    /// A file or folder cannot be read or written, or the disk is full.
    Disk = 7,
}

/// The exit codes, as the help text gives them.
pub(crate) const EXIT_CODES: &str = "\
Exit codes:
  0  done
  1  refused or failed; the sentence says what to do
  2  the command line cannot be followed
  3  `ready`: don't treat, or something is not known
  4  another program has the book open for writing
  5  written by a newer version of this program
  6  the book, or a file, is damaged
  7  a file or folder cannot be read or written, or the disk is full";

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        Self::from(exit as u8)
    }
}

impl CliError {
    /// The exit code that goes with it.
    pub(crate) fn exit(&self) -> Exit {
        match self {
            Self::Book(error) => book_exit(error),
            Self::Crew(error) => crew_exit(error),
            Self::Rule(_) | Self::Refused(_) | Self::InPart(_) => Exit::Refused,
            Self::Usage(_) => Exit::Usage,
            Self::NotWhole(_) => Exit::Damaged,
            Self::NotReadable { .. } | Self::NotWritable { .. } | Self::Output(_) => Exit::Disk,
            Self::OutputClosed => Exit::Done,
        }
    }
}

fn book_exit(error: &BookError) -> Exit {
    match error {
        BookError::Busy => Exit::Busy,
        BookError::Newer { .. } => Exit::Newer,
        BookError::Damaged(_) | BookError::Format(_) | BookError::BadSignature => Exit::Damaged,
        BookError::DiskFull
        | BookError::DiskFails(_)
        | BookError::ReadOnly
        | BookError::NotWritable { .. }
        | BookError::NotReadable { .. } => Exit::Disk,
        _ => Exit::Refused,
    }
}

fn crew_exit(error: &CrewError) -> Exit {
    match error {
        CrewError::Damaged(_) | CrewError::BadIdentity => Exit::Damaged,
        CrewError::NotWritten(_) | CrewError::NotRead(_) => Exit::Disk,
        _ => Exit::Refused,
    }
}
