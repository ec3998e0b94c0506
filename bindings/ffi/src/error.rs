//! The few errors a phone has to tell apart. Each carries a sentence in the person's language that
//! says what to do; whatever went wrong, nothing of the call was stored.

use sward_book::BookError;
use sward_crew::CrewError;
use sward_screens::Trouble;

/// What went wrong, as the program around the core has to tell it apart. `message` is a whole
/// sentence for the person, in their language, that says what to do. Nothing of the call that
/// failed was stored, but for what a locked file brought before it broke off.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error, uniffi::Error)]
#[uniffi(flat_error)]
#[non_exhaustive]
pub enum SwardError {
    /// The book was shut: open it again.
    #[error("the book was shut in this program: open it again")]
    Closed,
    /// The person has no book yet: found a crew, or ask to join one.
    #[error("{0}")]
    NoBook(String),
    /// Another program, or another handle, writes this book: shut that one.
    #[error("{0}")]
    Busy(String),
    /// A newer version wrote this: update, nothing was changed.
    #[error("{0}")]
    Newer(String),
    /// The book or the file is damaged: never delete it; the sentence says how to go on.
    #[error("{0}")]
    Damaged(String),
    /// The disk is full or fails: make room and do it once more.
    #[error("{0}")]
    Disk(String),
    /// The core does not do this as things stand: the sentence says what is missing.
    #[error("{0}")]
    Refused(String),
    /// What was handed over cannot be read, or names nothing: correct it.
    #[error("{0}")]
    BadInput(String),
    /// The core stopped in the middle: nothing of this call was stored. Shut the book, open it again.
    #[error(
        "the core stopped in the middle of this, and nothing of it was stored: open the book again"
    )]
    Broken,
}

/// Result with a [`SwardError`].
pub type Result<T, E = SwardError> = std::result::Result<T, E>;

/// The kind of an error, with the sentence that tells it.
pub(crate) fn told(trouble: &Trouble, say: impl FnOnce(&Trouble) -> String) -> SwardError {
    kind(trouble)(say(trouble))
}

fn kind(trouble: &Trouble) -> fn(String) -> SwardError {
    match trouble {
        Trouble::NoBook => SwardError::NoBook,
        Trouble::Book(error) | Trouble::Crew(CrewError::Book(error)) => of_book(error),
        Trouble::Crew(error) => of_crew(error),
        Trouble::Desk(_) | Trouble::Port(_) | Trouble::System(_) => SwardError::Disk,
        _ => SwardError::BadInput,
    }
}

fn of_book(error: &BookError) -> fn(String) -> SwardError {
    match error {
        BookError::NoBook(_) => SwardError::NoBook,
        BookError::Busy => SwardError::Busy,
        BookError::Newer { .. } => SwardError::Newer,
        BookError::Damaged(_) | BookError::Format(_) | BookError::BadSignature => {
            SwardError::Damaged
        }
        BookError::DiskFull
        | BookError::DiskFails(_)
        | BookError::ReadOnly
        | BookError::NotWritable { .. }
        | BookError::NotReadable { .. } => SwardError::Disk,
        BookError::NotFound { .. } | BookError::Ambiguous { .. } | BookError::Rule(_) => {
            SwardError::BadInput
        }
        // What was typed into one field does not fit it.
        _ if error.field().is_some() => SwardError::BadInput,
        _ => SwardError::Refused,
    }
}

fn of_crew(error: &CrewError) -> fn(String) -> SwardError {
    match error {
        CrewError::Damaged(_) | CrewError::BadIdentity => SwardError::Damaged,
        CrewError::NotWritten(_) | CrewError::NotRead(_) => SwardError::Disk,
        _ => SwardError::Refused,
    }
}
