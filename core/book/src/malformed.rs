//! Bytes and names that are not what they should be, one sentence each. Who is told, and what
//! becomes of what came with them, is decided where they are read.

use serde::Serialize;

use crate::error::names;

/// What is not as its format wants it, with the way it fails.
///
/// `Display` is the English; in JSON the sentence's name stands under `malformed`, and beside it
/// what is put in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, thiserror::Error, strum::VariantNames)]
#[serde(tag = "malformed", rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[non_exhaustive]
pub enum Malformed {
    /// No CBOR, or not of the form that is read.
    #[error("encoding: {detail}")]
    Encoding {
        /// What the decoder said.
        detail: String,
    },
    /// A second spelling of an entry.
    #[error("entry: not in its deterministic encoding")]
    EntrySpelling,
    /// Longer than any entry may be.
    #[error("entry: over {bytes_most} bytes")]
    EntryTooLong {
        /// The most bytes.
        bytes_most: usize,
    },
    /// Not of two parts.
    #[error("entry: not a body and a signature")]
    EntryParts,
    /// A signature of another length.
    #[error("entry: the signature is not 64 bytes")]
    EntrySignatureLength,
    /// More after the entry.
    #[error("entry: bytes left over")]
    EntryBytesLeftOver,
    /// No format this program knows.
    #[error("entry: unknown format")]
    EntryFormat,
    /// Not the first, and nothing before it, or the other way round.
    #[error("entry: number and chain do not fit")]
    EntryChain,
    /// No place in the order of entries.
    #[error("entry: order number out of range")]
    EntryOrder,
    /// More than an entry may hold.
    #[error("entry: too many facts")]
    EntryTooManyFacts,
    /// Neither a fact nor a change.
    #[error("entry: it says nothing")]
    EntrySaysNothing,
    /// What was seen before it stands out of order.
    #[error("entry: frontier not sorted")]
    EntryFrontier,
    /// No clock on earth is so far from UTC.
    #[error("entry: offset out of range")]
    EntryOffset,
    /// No outline.
    #[error("outline")]
    Outline,
    /// Bytes of a change that cannot be read.
    #[error("sheet change: damaged")]
    SheetChangeDamaged,
    /// A change under another device's actor.
    #[error("sheet change: written in another device's name")]
    SheetChangeInAnothersName,
    /// A change that the sheet does not take.
    #[error("sheet change: {detail}")]
    SheetChangeUnfit {
        /// What Automerge said.
        detail: String,
    },
    /// A name of a device, entry or thing that is none.
    #[error("{name}: not {bytes} bytes")]
    IdLength {
        /// Which kind of name.
        name: &'static str,
        /// How many bytes it has.
        bytes: usize,
    },
    /// A hash or device that is not written in hexadecimal.
    #[error("{name}: not hexadecimal")]
    IdNotHex {
        /// Which kind of name.
        name: &'static str,
    },
    /// A thing that is not named by a UUID.
    #[error("{name}: not a UUID")]
    IdNotUuid {
        /// Which kind of name.
        name: &'static str,
    },
    /// A fact named without its place in its entry.
    #[error("fact: write entry.number")]
    FactForm,
    /// A fact's place that is none.
    #[error("fact: not a number after .")]
    FactNumber,
    /// The own first entry asks for nothing.
    #[error("request")]
    Request,
    /// A record that is not the one that was frozen.
    #[error("finish: its treatment is not what was frozen")]
    FinishNotAsFrozen,
    /// A record of another visit.
    #[error("finish: it is of another visit")]
    FinishOfAnotherVisit,
    /// The key file.
    #[error("device key: move the file away and this device will ask to join anew")]
    DeviceKey,
}

names!(Malformed);

impl From<minicbor::decode::Error> for Malformed {
    fn from(error: minicbor::decode::Error) -> Self {
        Self::Encoding {
            detail: error.to_string(),
        }
    }
}
