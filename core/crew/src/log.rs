//! What locked files and the exchange need of a log: a trait, so that both run against a book on
//! disk and against a log in memory.
//!
//! Also a quick look at an entry's outer fields, for what has to be known before it is checked.

use sward_book::fact::Role;
use sward_book::ids::{Hash, StreamId};
use sward_book::log::{ENTRY_FORMAT, Entry, Head};
use sward_book::{BookError, Result, Written};

/// The most bytes of entries that are handed over at once. An entry that is longer goes alone.
pub const CHUNK_BYTES_MAX: usize = 256 * 1024;

/// The most hashes in a locator: as many as there are doublings up to the greatest number of an
/// entry, for a stream with a few branches.
pub(crate) const LOCATOR_MAX: usize = 512;

/// What a device is to the crew, as the roster has it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// Admitted.
    Member(Role),
    /// Admitted once, and retired.
    Retired,
    /// It asked to join, and nobody has admitted it yet.
    Pending,
    /// Nothing is known of it.
    Unknown,
}

impl Standing {
    /// Whether records are handed to it.
    pub fn is_member(self) -> bool {
        matches!(self, Self::Member(_))
    }
}

/// What became of entries that were taken in.
#[derive(Debug, Default)]
pub struct TakenIn {
    /// Entries that were not there before.
    pub new: u64,
    /// Entries that were there already.
    pub known: u64,
    /// Streams of which an entry was refused, if that could be read, and why. With it goes what
    /// comes after it in its stream; all other streams arrive.
    pub refused: Vec<(Option<StreamId>, BookError)>,
}

/// A log of entries.
pub trait Log {
    /// The crew, by the hash of its founding; none before this device has joined one.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn crew(&self) -> Result<Option<Hash>>;

    /// What a device is to the crew.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn standing(&self, stream: StreamId) -> Result<Standing>;

    /// Makes a log without a crew one of `crew`. `wires` hold the founding and an admission of
    /// this device, and are taken in.
    ///
    /// # Errors
    /// When they do not fit this device, or cannot be stored; then nothing was changed.
    fn join(&mut self, crew: Hash, wires: &[Vec<u8>], from: StreamId) -> Result<TakenIn>;

    /// The ends of all branches that are held without gaps, sorted.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn heads(&self) -> Result<Vec<Head>>;

    /// Whether an entry is held, and everything before it in its stream.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn holds(&self, hash: Hash) -> Result<bool>;

    /// Hashes of what is held of a stream, on every branch, at doubling distances from its end
    /// back to the first: at most 512.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn locator(&self, stream: StreamId) -> Result<Vec<Hash>>;

    /// Wire bytes of the entries up to and including `tip`, oldest first, beginning after the
    /// nearest entry before it that is in `stop_at`, or with the first of the stream. As many as
    /// fit in `bytes_max`, and one at least; empty when `tip` itself is in `stop_at`.
    ///
    /// # Errors
    /// When `tip` is not held without gaps, or the store cannot be read.
    fn entries_up_to(&self, tip: Hash, stop_at: &[Hash], bytes_max: usize) -> Result<Vec<Vec<u8>>>;

    /// Checks entries, stores what is new and valid, whole and on disk, and says what became of
    /// them. `from` is the device that handed them over.
    ///
    /// # Errors
    /// When they cannot be stored; a bad entry is no error, but refused in the result.
    fn take_in(&mut self, wires: &[Vec<u8>], from: StreamId) -> Result<TakenIn>;
}

/// The outer fields of an entry, read without checking it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Outline {
    pub(crate) stream: StreamId,
    pub(crate) seq: u64,
    pub(crate) prev: Hash,
}

impl Outline {
    /// Reads the outer fields. Whatever they say, the entry is checked before it is stored.
    pub(crate) fn of(wire: &[u8]) -> Result<Self> {
        let mut outer = minicbor::Decoder::new(wire);
        outer.array()?;
        let mut body = minicbor::Decoder::new(outer.bytes()?);
        body.array()?;
        let found = body.u64()?;
        if found > ENTRY_FORMAT {
            return Err(BookError::Newer {
                what: Written::Entry,
                found,
                known: ENTRY_FORMAT,
            });
        }
        Ok(Self {
            stream: body.decode()?,
            seq: body.u64()?,
            prev: body.decode()?,
        })
    }
}

/// The name of an entry from the own log.
pub(crate) fn name_of_own(wire: &[u8]) -> Result<Hash> {
    Ok(Entry::from_own_store(wire.to_vec())?.hash())
}
