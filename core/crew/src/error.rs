//! What can go wrong between phones, each with what the person can do about it.

use std::io;

use serde::ser::SerializeStruct as _;
use serde::{Serialize, Serializer};
use sward_book::{BookError, Written};

use crate::recovery::CodeFault;

/// An error of joining, locked files, recovery or the exchange.
///
/// `Display` is the English. In JSON the name stands under `crew`, and beside it what is put in:
/// `file`, `phones`, `detail` (what the system said, in its words). With `recovery-code` the
/// slip's own name stands under `slip`, with `peer` under `sent`; an error of the book stands there
/// as the book gives it, under `error`.
///
/// ```
/// use sward_crew::{CrewError, FileKind, PeerFault};
///
/// let error = CrewError::Damaged(FileKind::LockedFile);
/// let told = serde_json::to_value(&error)?;
/// assert_eq!(told, serde_json::json!({ "crew": "damaged", "file": "locked-file" }));
///
/// let told = serde_json::to_value(CrewError::Peer(PeerFault::TooLong))?;
/// assert_eq!(told, serde_json::json!({ "crew": "peer", "sent": "too-long" }));
/// assert!(CrewError::NAMES.contains(&"peer"));
/// # Ok::<(), serde_json::Error>(())
/// ```
#[derive(Debug, Serialize, thiserror::Error, strum::VariantNames)]
#[serde(tag = "crew", rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[non_exhaustive]
pub enum CrewError {
    /// The file is something else.
    #[error("this is not a {0}: choose the file that the other phone shared")]
    #[serde(serialize_with = "file")]
    OtherFile(FileKind),
    /// The file was cut short or altered.
    #[error(
        "the {0} was cut short or altered on the way: nothing was taken from it, ask for it once more"
    )]
    #[serde(serialize_with = "file")]
    Damaged(FileKind),
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
    #[serde(serialize_with = "phones")]
    TooManyMembers(usize),
    /// Writing failed.
    #[error(
        "the locked file could not be written ({0}): make room or choose another place, and do not share the unfinished file"
    )]
    #[serde(serialize_with = "detail")]
    NotWritten(io::Error),
    /// Reading failed.
    #[error("the file could not be read ({0}): copy it to this device once more")]
    #[serde(serialize_with = "detail")]
    NotRead(io::Error),
    /// A key that cannot be one.
    #[error(
        "what the other phone gave is not a key that files can be locked to: let that phone ask to join once more"
    )]
    BadRecipient,
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
    #[serde(serialize_with = "sent")]
    Peer(PeerFault),
    /// The exchange has ended, well or by an error.
    #[error("this swap has ended: start a new one")]
    Ended,
    /// The book could not do its part, or something was written by a newer version.
    #[error(transparent)]
    #[serde(untagged)]
    Book(#[from] BookError),
}

/// A closed list of words that stand in these sentences; JSON has the name in kebab case.
macro_rules! words {
    ($(#[$meta:meta])* $enum:ident; $($variant:ident => $text:literal;)+) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, thiserror::Error, strum::VariantNames)]
        #[serde(rename_all = "kebab-case")]
        #[strum(serialize_all = "kebab-case")]
        #[non_exhaustive]
        pub enum $enum {
            $(
                #[doc = concat!("“", $text, "”")]
                #[error($text)]
                $variant,
            )+
        }

        impl $enum {
            /// Every name, as JSON has it, in the order of this enum.
            pub const NAMES: &'static [&'static str] = <Self as strum::VariantNames>::VARIANTS;
        }
    };
}

words! {
    /// A kind of file that phones share.
    FileKind;

    LockedFile => "locked file";
    JoinRequest => "request to join";
}

words! {
    /// What the phone at the other end sent against the rules of the exchange.
    PeerFault;

    TooLong => "too long a message";
    Unreadable => "something unreadable";
    NoGreeting => "no greeting first";
    SecondGreeting => "a second greeting";
    AnothersName => "another phone's name";
    HeadsNotAskedFor => "heads that nobody asked for";
    HeadsOutOfOrder => "heads out of order or too many";
    NoHeads => "an empty page of heads";
    HeadsBeyondEnd => "a question for more heads than there are";
    RecordsNotAskedFor => "records that nobody asked for";
    OtherRecordsThanAnnounced => "other records than it had announced";
    OtherRecordsThanAskedFor => "other records than were asked for";
    TooMuchOrNothing => "too much or nothing at once";
    WantNotOffered => "a want for records it was not offered";
    WantNotThere => "a want for what is not there";
    WantTwice => "the same want twice";
    WantOfItsOwn => "a want for what it says it has";
    ThanksForNothing => "thanks for what it was not sent";
    SecondFarewell => "a second farewell";
}

impl CrewError {
    /// Every name, as JSON has it under `crew`, in the order of this enum.
    pub const NAMES: &'static [&'static str] = <Self as strum::VariantNames>::VARIANTS;

    pub(crate) fn newer(what: Written, found: u64, known: u64) -> Self {
        Self::Book(BookError::Newer { what, found, known })
    }
}

impl From<FileKind> for Written {
    fn from(file: FileKind) -> Self {
        match file {
            FileKind::LockedFile => Self::LockedFile,
            FileKind::JoinRequest => Self::JoinRequest,
        }
    }
}

fn file<S: Serializer>(file: &impl Serialize, serializer: S) -> Result<S::Ok, S::Error> {
    one(serializer, "file", file)
}

fn phones<S: Serializer>(phones: &impl Serialize, serializer: S) -> Result<S::Ok, S::Error> {
    one(serializer, "phones", phones)
}

fn detail<S: Serializer>(detail: &io::Error, serializer: S) -> Result<S::Ok, S::Error> {
    one(serializer, "detail", &detail.to_string())
}

fn sent<S: Serializer>(sent: &impl Serialize, serializer: S) -> Result<S::Ok, S::Error> {
    one(serializer, "sent", sent)
}

fn one<S: Serializer>(
    serializer: S,
    name: &'static str,
    value: &impl Serialize,
) -> Result<S::Ok, S::Error> {
    let mut fields = serializer.serialize_struct("Arguments", 1)?;
    fields.serialize_field(name, value)?;
    fields.end()
}

/// Result with a [`CrewError`].
pub type Result<T, E = CrewError> = std::result::Result<T, E>;

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    fn told(error: impl Into<CrewError>) -> serde_json::Value {
        serde_json::to_value(error.into()).expect("errors are plain data")
    }

    #[test]
    fn what_is_put_in_stands_beside_the_name() {
        assert_eq!(
            told(CrewError::TooManyMembers(500)),
            json!({ "crew": "too-many-members", "phones": 500 })
        );
        assert_eq!(
            told(CrewError::NotRead(io::Error::other("gone"))),
            json!({ "crew": "not-read", "detail": "gone" })
        );
        assert_eq!(told(CrewError::Ended), json!({ "crew": "ended" }));
        assert_eq!(
            told(CodeFault::Group { group: 4 }),
            json!({ "crew": "recovery-code", "slip": "group", "group": 4 })
        );
    }

    #[test]
    fn an_error_of_the_book_stands_as_the_book_gives_it() {
        assert_eq!(told(BookError::Busy), json!({ "error": "busy" }));
        assert_eq!(
            told(CrewError::newer(FileKind::JoinRequest.into(), 2, 1)),
            json!({ "error": "newer", "what": "join-request", "found": 2, "known": 1 })
        );
    }
}
