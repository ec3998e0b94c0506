//! The messages of the exchange and their encoding.
//!
//! A message is a CBOR array of the protocol's version and one of [`Message`]; version 1 is
//! unstable until a first release. How messages are kept apart on the wire is the transport's
//! business.

use minicbor::bytes::{ByteArray, ByteVec};
use minicbor::{Decode, Encode};
use sward_book::ids::{Hash, StreamId};
use sward_book::log::{ENTRY_BYTES_MAX, Head, Stamp};

use crate::crew_tag::TAG_BYTES;
use crate::{CrewError, Result};

/// Version of the messages.
const PROTOCOL: u64 = 1;
/// The longest message: one entry of the greatest length, and what is around it.
pub const MESSAGE_BYTES_MAX: usize = ENTRY_BYTES_MAX + 64;

/// The first message each way.
#[derive(Debug, Clone, PartialEq, Encode, Decode)]
pub(super) struct Hello {
    /// A nonce, and the crew tag over it.
    #[n(0)]
    pub(super) nonce: ByteArray<TAG_BYTES>,
    #[n(1)]
    pub(super) tag: ByteArray<TAG_BYTES>,
    /// Who speaks; the transport has proven it.
    #[n(2)]
    pub(super) stream: StreamId,
    /// Digest of the speaker's heads.
    #[n(3)]
    pub(super) digest: Hash,
    /// The speaker's clock when this was sent.
    #[n(4)]
    pub(super) clock: Stamp,
    /// Whether the speaker knows the other as a member, to whom records are handed.
    #[n(5)]
    pub(super) gives: bool,
}

/// One message.
#[derive(Debug, Clone, PartialEq, Encode, Decode)]
pub(super) enum Message {
    /// The greeting.
    #[n(0)]
    Hello(#[n(0)] Hello),
    /// Ends of branches, sorted, a page at a time; the first page comes unasked.
    #[n(1)]
    Heads {
        /// The speaker's clock when this was sent.
        #[n(0)]
        clock: Stamp,
        #[n(1)]
        heads: Vec<Head>,
        /// Whether there are more after these.
        #[n(2)]
        more: bool,
    },
    /// Asks for the next page of heads.
    #[n(2)]
    MoreHeads,
    /// Asks for the entries up to an announced head, from the nearest hash of the locator on. A
    /// want before the last one was served to its end gives that one up.
    #[n(3)]
    Want {
        #[n(0)]
        tip: Hash,
        #[n(1)]
        locator: Vec<Hash>,
    },
    /// The next entries of what was wanted.
    #[n(4)]
    Entries(#[n(0)] Vec<ByteVec>),
    /// What came is on disk, up to this number of the stream.
    #[n(5)]
    Stored(#[n(0)] u64),
    /// The speaker wants nothing more.
    #[n(6)]
    Done,
}

impl Message {
    pub(super) fn encode(&self) -> Vec<u8> {
        minicbor::to_vec((PROTOCOL, self)).expect("a vector takes every write")
    }

    pub(super) fn decode(message: &[u8]) -> Result<Self> {
        if message.len() > MESSAGE_BYTES_MAX {
            return Err(CrewError::Peer("too long a message"));
        }
        Self::decode_checked(message).map_err(|_| CrewError::Peer("something unreadable"))?
    }

    fn decode_checked(message: &[u8]) -> Result<Result<Self>, minicbor::decode::Error> {
        let mut d = minicbor::Decoder::new(message);
        let parts = d.array()?;
        let found = d.u64()?;
        if found > PROTOCOL {
            return Ok(Err(CrewError::newer("the other phone's message", found, PROTOCOL)));
        }
        if found != PROTOCOL || parts != Some(2) {
            return Err(minicbor::decode::Error::message("unknown form"));
        }
        let decoded = d.decode()?;
        if d.position() != message.len() {
            return Err(minicbor::decode::Error::message("bytes left over"));
        }
        Ok(Ok(decoded))
    }
}
