//! What can go wrong between phones, each with what the person can do about it.

use std::io;

use sward_book::BookError;

use crate::recovery::CodeFault;

/// An error of joining, locked files, recovery or the exchange.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum CrewError {
    /// The book could not do its part, or something was written by a newer version.
    #[error(transparent)]
    Book(#[from] BookError),
    /// The file is something else.
    #[error("this is not a {0}: choose the file that the other phone shared")]
    OtherFile(&'static str),
    /// The file was cut short or altered.
    #[error(
        "the {0} was cut short or altered on the way: nothing was taken from it, ask for it once more"
    )]
    Damaged(&'static str),
    /// A locked file of another crew.
    #[error(
        "this locked file belongs to another crew: nothing was taken from it, open it where that crew's records are"
    )]
    AnotherCrew,
    /// A locked file of this crew that this phone's key does not open.
    #[error(
        "this locked file is not locked for this phone: ask a crew lead to admit this phone, then ask for a file made after that"
    )]
    NotForThisPhone,
    /// A phone without a crew opened a file that does not admit it.
    #[error(
        "this locked file does not admit this phone to a crew: hand your request to a crew lead, then take the file they make after admitting it"
    )]
    DoesNotAdmit,
    /// A phone without a crew cannot do this.
    #[error("this phone belongs to no crew yet: found one, or ask to join one, first")]
    NoCrew,
    /// There is nobody to lock a file for.
    #[error("there is no other phone to lock a file for: admit one first")]
    NobodyToLockFor,
    /// More members than a locked file can be wrapped to.
    #[error("a locked file reaches at most {0} phones: retire those no longer used")]
    TooManyMembers(usize),
    /// Writing failed.
    #[error(
        "the locked file could not be written ({0}): make room or choose another place, and do not share the unfinished file"
    )]
    NotWritten(io::Error),
    /// Reading failed.
    #[error("the file could not be read ({0}): copy it to this device once more")]
    NotRead(io::Error),
    /// A key that cannot be one.
    #[error("{0} is not a key that files can be locked to: let that phone ask to join once more")]
    BadRecipient(&'static str),
    /// The device's own key file is damaged.
    #[error(
        "this phone's key for locked files is damaged: move the key file away, and this phone will ask to join anew"
    )]
    BadIdentity,
    /// The recovery code was mistyped.
    #[error("the recovery code has a slip: {0}")]
    RecoveryCode(#[from] CodeFault),
    /// A correct recovery code of another crew.
    #[error("this is the recovery code of another crew: look for the one printed by this crew")]
    RecoveryOfAnotherCrew,
    /// The phone at the other end belongs to another crew.
    #[error("the other phone belongs to another crew: nothing was exchanged")]
    PeerOfAnotherCrew,
    /// The phone at the other end broke the rules of the exchange.
    #[error(
        "the other phone sent {0}: the swap was ended, whole records that came before are kept; start it again, and update both programs if it happens again"
    )]
    Peer(&'static str),
    /// The exchange has ended, well or by an error.
    #[error("this swap has ended: start a new one")]
    Ended,
}

impl CrewError {
    pub(crate) fn newer(what: &'static str, found: u64, known: u64) -> Self {
        Self::Book(BookError::Newer { what, found, known })
    }
}

/// Result with a [`CrewError`].
pub type Result<T, E = CrewError> = std::result::Result<T, E>;
