//! Refusals about who belongs to the crew and what a device may do. The roster decides; here are
//! only the sentences.

use serde::Serialize;

use crate::error::names;

/// Who belongs, and what a device may do.
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
pub enum CrewRefusal {
    /// A name is empty.
    #[error("the {what} needs a name")]
    NameMissing {
        /// Whose name.
        what: Named,
    },
    /// A name that cannot stand in a record.
    #[error(
        "the {what}'s name is too long or holds a control character: give one line of at most {bytes_most} bytes"
    )]
    NameUnfit {
        /// Whose name.
        what: Named,
        /// The most bytes it may have.
        bytes_most: usize,
    },
    /// The founding device never asked to join.
    #[error("this device founded its crew: it need not ask to join")]
    FoundedItsCrew,
    /// Records were to be taken in before a crew is known.
    #[error(
        "this phone is not of a crew yet: take the first file that the crew lead made after admitting it"
    )]
    NotOfACrewYet,
    /// A file of another crew.
    #[error("this file is from another crew: this book stays with its own")]
    FileOfAnotherCrew,
    /// A first file without an admission of this device.
    #[error(
        "this file does not admit this phone to its crew: ask the crew lead to take this phone's request, then to make a new file"
    )]
    FileDoesNotAdmit,
    /// One of the two is for practice.
    #[error(
        "a practice crew and a real one do not mix: ask to join again in another folder, with or without practice"
    )]
    PracticeDoesNotMix,
    /// The keys turned up in an entry that was not written here.
    #[error(
        "this phone's keys are in use on another phone too: swap records once, which gives it new ones, then go on"
    )]
    KeysInUseElsewhere,
    /// A restored book that has not begun anew.
    #[error(
        "this book has no keys of its own: restore it with the restore command, which makes new ones"
    )]
    NoKeys,
    /// The role allows no writing.
    #[error("this device may only read (role office): ask a crew lead for another role")]
    MayOnlyRead,
    /// Something only a crew lead can do.
    #[error("only a crew lead's device can do this")]
    OnlyCrewLead,
    /// It was admitted before.
    #[error("this device belongs to the crew already")]
    BelongsAlready,
    /// It was admitted and retired.
    #[error("this device was retired: let it ask to join anew, from an empty folder")]
    WasRetired,
    /// A recovery that the roster does not accept.
    #[error("the recovery code is not this crew's: check the crew's name on the printed sheet")]
    RecoveryNotOfThisCrew,
}

names!(CrewRefusal);

/// Whose name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, strum::Display, strum::VariantNames)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
pub enum Named {
    /// The crew's.
    Crew,
    /// The person's who carries the device.
    Person,
    /// The licence's.
    Licence,
}

names!(Named);
