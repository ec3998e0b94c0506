//! Names of things in a book: hashes, streams, facts, and UUIDs for what people create.
//!
//! Nothing here knows what the named thing is.

use std::fmt;
use std::str::FromStr;

use data_encoding::HEXLOWER;
use minicbor::bytes::ByteArray;
use minicbor::{Decode, Decoder, Encode, Encoder};
use serde::{Serialize, Serializer};
use uuid::Uuid;

use crate::{BookError, Malformed};

fn not_so_long(name: &'static str, bytes: usize) -> BookError {
    BookError::format(Malformed::IdLength { name, bytes })
}

/// Defines a 32-byte name that is written as a CBOR byte string and shown as hexadecimal.
macro_rules! name_of_32_bytes {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(pub [u8; 32]);

        impl $name {
            /// All zeroes, standing for "none".
            pub const NONE: Self = Self([0; 32]);

            /// The first eight hexadecimal digits, enough for a person to tell two apart.
            pub fn short(&self) -> String {
                HEXLOWER.encode(&self.0[..4])
            }

            /// Reads 32 bytes.
            ///
            /// # Errors
            /// [`BookError::Format`] when the length differs.
            pub fn from_slice(bytes: &[u8]) -> Result<Self, BookError> {
                <[u8; 32]>::try_from(bytes)
                    .map(Self)
                    .map_err(|_| not_so_long(stringify!($name), 32))
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&HEXLOWER.encode(&self.0))
            }
        }

        impl fmt::Debug for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, concat!(stringify!($name), "({})"), self.short())
            }
        }

        impl FromStr for $name {
            type Err = BookError;
            fn from_str(text: &str) -> Result<Self, BookError> {
                let bytes = HEXLOWER.decode(text.as_bytes()).map_err(|_| {
                    BookError::format(Malformed::IdNotHex { name: stringify!($name) })
                })?;
                Self::from_slice(&bytes)
            }
        }

        impl<C> Encode<C> for $name {
            fn encode<W: minicbor::encode::Write>(
                &self,
                e: &mut Encoder<W>,
                _: &mut C,
            ) -> Result<(), minicbor::encode::Error<W::Error>> {
                e.bytes(&self.0)?.ok()
            }
        }

        impl<'b, C> Decode<'b, C> for $name {
            fn decode(d: &mut Decoder<'b>, _: &mut C) -> Result<Self, minicbor::decode::Error> {
                d.decode::<ByteArray<32>>().map(|b| Self(b.into()))
            }
        }

        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
                s.collect_str(self)
            }
        }
    };
}

name_of_32_bytes! {
    /// The SHA-256 of an entry, signature included, under the project's own prefix.
    Hash
}
name_of_32_bytes! {
    /// One stream of entries: the Ed25519 public key that signs it. A device that has to begin
    /// anew (restored, copied) takes a new key and so a new stream.
    StreamId
}

/// Defines a UUID that is written as a CBOR byte string.
macro_rules! name_of_uuid {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
        #[serde(transparent)]
        pub struct $name(pub Uuid);

        impl $name {
            /// Reads 16 bytes.
            ///
            /// # Errors
            /// [`BookError::Format`] when the length differs.
            pub fn from_slice(bytes: &[u8]) -> Result<Self, BookError> {
                Uuid::from_slice(bytes)
                    .map(Self)
                    .map_err(|_| not_so_long(stringify!($name), 16))
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                self.0.fmt(f)
            }
        }

        impl fmt::Debug for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, concat!(stringify!($name), "({})"), self.0)
            }
        }

        impl FromStr for $name {
            type Err = BookError;
            fn from_str(text: &str) -> Result<Self, BookError> {
                text.parse().map(Self).map_err(|_| {
                    BookError::format(Malformed::IdNotUuid { name: stringify!($name) })
                })
            }
        }

        impl<C> Encode<C> for $name {
            fn encode<W: minicbor::encode::Write>(
                &self,
                e: &mut Encoder<W>,
                _: &mut C,
            ) -> Result<(), minicbor::encode::Error<W::Error>> {
                e.bytes(self.0.as_bytes())?.ok()
            }
        }

        impl<'b, C> Decode<'b, C> for $name {
            fn decode(d: &mut Decoder<'b>, _: &mut C) -> Result<Self, minicbor::decode::Error> {
                d.decode::<ByteArray<16>>().map(|b| Self(Uuid::from_bytes(b.into())))
            }
        }
    };
}

name_of_uuid! {
    /// One sheet: a yard, a label sheet, a plan.
    SheetId
}
name_of_uuid! {
    /// One visit to a yard.
    VisitId
}
name_of_uuid! {
    /// One keep-off: a section of one treatment that people and pets stay off.
    KeepOffId
}
name_of_uuid! {
    /// One incident.
    IncidentId
}
name_of_uuid! {
    /// One item of a list inside a sheet, such as a section of a yard.
    ItemId
}

/// One fact: the entry that carries it, and its place among that entry's facts.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Encode, Decode)]
pub struct FactId {
    /// The entry's hash.
    #[n(0)]
    pub entry: Hash,
    /// Counted from zero.
    #[n(1)]
    pub index: u8,
}

impl fmt::Display for FactId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}.{}", self.entry, self.index)
    }
}

impl FromStr for FactId {
    type Err = BookError;
    fn from_str(text: &str) -> Result<Self, BookError> {
        let (entry, index) = text
            .split_once('.')
            .ok_or_else(|| BookError::format(Malformed::FactForm))?;
        let index = index
            .parse()
            .map_err(|_| BookError::format(Malformed::FactNumber))?;
        Ok(Self {
            entry: entry.parse()?,
            index,
        })
    }
}

impl Serialize for FactId {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.collect_str(self)
    }
}
