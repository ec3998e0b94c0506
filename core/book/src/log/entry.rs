//! One entry: what one action wrote, signed by its device and chained to the entry before it.
//!
//! Wire form: CBOR array of two byte strings, the encoded body and its Ed25519 signature. The
//! entry's name is the hash of that wire form, so that the signature is part of the name.

use ed25519_dalek::{Signature, Signer, SigningKey, VerifyingKey};
use minicbor::{Decode, Encode};
use serde::Serialize;
use sha2::{Digest, Sha256};

use crate::env::TimeProof;
use crate::fact::Fact;
use crate::ids::{FactId, Hash, SheetId, StreamId};
use crate::sheet::{SheetKind, actor_of, check_change};
use crate::{BookError, Malformed, Result, Written};

/// Format of an entry's body; stands first in it. Unstable until a first release.
pub const ENTRY_FORMAT: u64 = 3;
/// The longest entry that is taken, in bytes. A day's largest, a finish, is about 4 KB.
pub const ENTRY_BYTES_MAX: usize = 1 << 20;
/// The most facts in one entry.
pub const FACTS_MAX: usize = 64;

const SIGNED_PREFIX: &[u8] = b"swardbook entry 1\0";
const NAMED_PREFIX: &[u8] = b"swardbook entry name 1\0";

/// When a device says it wrote something, and how far that can be relied on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct Stamp {
    /// Milliseconds since 1970 in UTC, by the device's wall clock.
    #[n(0)]
    pub utc_ms: i64,
    /// The device's offset from UTC in minutes, east positive.
    #[n(1)]
    pub offset_min: i16,
    /// How the time was proven, if it was.
    #[n(2)]
    pub proof: TimeProof,
}

/// Automerge changes to one sheet.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode)]
pub struct SheetChange {
    /// The sheet.
    #[n(0)]
    pub sheet: SheetId,
    /// What kind of sheet it is.
    #[n(1)]
    pub kind: SheetKind,
    /// Which start of the writer's program this is: with the stream it gives the Automerge actor.
    #[n(2)]
    pub nonce: u64,
    /// One Automerge change in its own binary form.
    #[cbor(n(3), with = "minicbor::bytes")]
    pub change: Vec<u8>,
}

/// What an entry says, before it is signed.
#[derive(Debug, Clone, PartialEq, Encode, Decode)]
pub struct Body {
    /// [`ENTRY_FORMAT`], or an earlier one where an earlier program wrote it.
    #[n(0)]
    pub format: u64,
    /// The stream, which is the key that signs.
    #[n(1)]
    pub stream: StreamId,
    /// Counted from 1 without gaps.
    #[n(2)]
    pub seq: u64,
    /// The entry before it in this stream; [`Hash::NONE`] for the first.
    #[n(3)]
    pub prev: Hash,
    /// Heads of other streams that this device has taken in since its last entry, sorted.
    #[n(4)]
    pub seen: Vec<Hash>,
    /// Greater than that of every entry the device had seen.
    #[n(5)]
    pub lamport: u64,
    /// When it was written.
    #[n(6)]
    pub written: Stamp,
    /// What happened or was stated.
    #[n(7)]
    pub facts: Vec<Fact>,
    /// What was edited.
    #[n(8)]
    pub changes: Vec<SheetChange>,
}

/// A signed entry whose signature has been checked, or that was read from the own store.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    hash: Hash,
    body: Body,
    wire: Vec<u8>,
}

impl Entry {
    /// The entry's name.
    pub fn hash(&self) -> Hash {
        self.hash
    }

    /// What it says.
    pub fn body(&self) -> &Body {
        &self.body
    }

    /// Its bytes as stored and sent.
    pub fn wire(&self) -> &[u8] {
        &self.wire
    }

    /// Name of its `index`th fact.
    pub fn fact_id(&self, index: usize) -> FactId {
        FactId {
            entry: self.hash,
            index: u8::try_from(index).expect("at most FACTS_MAX facts"),
        }
    }

    /// Reads and checks an entry from a peer or a file. Everything is checked before anything
    /// is believed: size, encoding, format, signature, bounds.
    ///
    /// # Errors
    /// [`BookError::Newer`] for a newer format, [`BookError::BadSignature`],
    /// [`BookError::Format`] for everything else.
    pub fn check(wire: &[u8]) -> Result<Self> {
        let (body_bytes, signature) = Self::split(wire)?;
        let body = Self::decode_body(body_bytes)?;
        let key = VerifyingKey::from_bytes(&body.stream.0).map_err(|_| BookError::BadSignature)?;
        key.verify_strict(
            &signed_message(body_bytes),
            &Signature::from_bytes(&signature),
        )
        .map_err(|_| BookError::BadSignature)?;
        // One value has one encoding: a second spelling of the same entry would be a second name.
        if minicbor::to_vec(&body).expect("a vector takes every write") != body_bytes {
            return Err(BookError::format(Malformed::EntrySpelling));
        }
        body.check_bounds()?;
        for change in &body.changes {
            check_change(&change.change, actor_of(body.stream, change.nonce))?;
        }
        Ok(Self {
            hash: name_of(wire),
            body,
            wire: wire.to_vec(),
        })
    }

    /// Reads an entry that this store has checked before.
    ///
    /// # Errors
    /// [`BookError::Newer`] or [`BookError::Format`].
    pub fn from_own_store(wire: Vec<u8>) -> Result<Self> {
        let (body_bytes, _) = Self::split(&wire)?;
        let body = Self::decode_body(body_bytes)?;
        Ok(Self {
            hash: name_of(&wire),
            body,
            wire,
        })
    }

    /// The stream that a refused entry says it is of, to name it in a message; nothing of it has
    /// been proven.
    pub fn claimed_stream(wire: &[u8]) -> Option<StreamId> {
        let mut outer = minicbor::Decoder::new(wire.get(..ENTRY_BYTES_MAX.min(wire.len()))?);
        outer.array().ok()?;
        let mut body = minicbor::Decoder::new(outer.bytes().ok()?);
        body.array().ok()?;
        body.u64().ok()?;
        body.decode().ok()
    }

    fn split(wire: &[u8]) -> Result<(&[u8], [u8; 64])> {
        if wire.len() > ENTRY_BYTES_MAX {
            return Err(BookError::format(Malformed::EntryTooLong {
                bytes_most: ENTRY_BYTES_MAX,
            }));
        }
        let mut d = minicbor::Decoder::new(wire);
        if d.array()? != Some(2) {
            return Err(BookError::format(Malformed::EntryParts));
        }
        let body = d.bytes()?;
        let signature = <[u8; 64]>::try_from(d.bytes()?)
            .map_err(|_| BookError::format(Malformed::EntrySignatureLength))?;
        if d.position() != wire.len() {
            return Err(BookError::format(Malformed::EntryBytesLeftOver));
        }
        // The wrapper too has one spelling, or one entry could have several names.
        if wire_of(body, &signature) != wire {
            return Err(BookError::format(Malformed::EntrySpelling));
        }
        Ok((body, signature))
    }

    fn decode_body(bytes: &[u8]) -> Result<Body> {
        let mut d = minicbor::Decoder::new(bytes);
        d.array()?;
        let found = d.u64()?;
        if found > ENTRY_FORMAT {
            return Err(BookError::Newer {
                what: Written::Entry,
                found,
                known: ENTRY_FORMAT,
            });
        }
        Ok(minicbor::decode(bytes)?)
    }
}

impl Body {
    fn check_bounds(&self) -> Result<()> {
        let fault = if self.format == 0 || self.format > ENTRY_FORMAT {
            Malformed::EntryFormat
        } else if self.seq == 0 || (self.seq == 1) != (self.prev == Hash::NONE) {
            Malformed::EntryChain
        } else if self.lamport < self.seq || self.lamport > LAMPORT_MAX {
            Malformed::EntryOrder
        } else if self.facts.len() > FACTS_MAX || self.changes.len() > FACTS_MAX {
            Malformed::EntryTooManyFacts
        } else if self.facts.is_empty() && self.changes.is_empty() {
            Malformed::EntrySaysNothing
        } else if self.seen.windows(2).any(|w| w[0] >= w[1]) {
            Malformed::EntryFrontier
        } else if !(-18 * 60..=18 * 60).contains(&self.written.offset_min) {
            Malformed::EntryOffset
        } else {
            return Ok(());
        };
        Err(BookError::format(fault))
    }
}

/// The greatest order number. 2^53 stays exact everywhere. Once a hostile entry has reached it, all
/// later ones carry it too and are ordered by hash: worse, but none is refused.
pub(crate) const LAMPORT_MAX: u64 = 1 << 53;

/// Signs a body.
pub fn sign_entry(body: Body, key: &SigningKey) -> Entry {
    debug_assert_eq!(body.stream.0, key.verifying_key().to_bytes());
    let body_bytes = minicbor::to_vec(&body).expect("a vector takes every write");
    let signature = key.sign(&signed_message(&body_bytes));
    let wire = wire_of(&body_bytes, &signature.to_bytes());
    Entry {
        hash: name_of(&wire),
        body,
        wire,
    }
}

fn wire_of(body: &[u8], signature: &[u8; 64]) -> Vec<u8> {
    let mut wire = Vec::with_capacity(body.len() + 72);
    minicbor::Encoder::new(&mut wire)
        .array(2)
        .and_then(|e| e.bytes(body))
        .and_then(|e| e.bytes(signature))
        .expect("a vector takes every write");
    wire
}

fn signed_message(body: &[u8]) -> Vec<u8> {
    [SIGNED_PREFIX, body].concat()
}

fn name_of(wire: &[u8]) -> Hash {
    let mut sha = Sha256::new();
    sha.update(NAMED_PREFIX);
    sha.update(wire);
    Hash(sha.finalize().into())
}
