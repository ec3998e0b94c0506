//! The messages of the exchange and their encoding.
//!
//! A message is a CBOR array of the protocol's version and one of [`Message`]; version 1 is
//! unstable until a first release. How messages are kept apart on the wire is the transport's
//! business.

use minicbor::bytes::{ByteArray, ByteVec};
use minicbor::{Decode, Encode};
use sward_book::Written;
use sward_book::ids::{Hash, StreamId};
use sward_book::log::{ENTRY_BYTES_MAX, Head, Stamp};

use crate::crew_tag::TAG_BYTES;
use crate::{CrewError, PeerFault, Result};

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
            return Err(CrewError::Peer(PeerFault::TooLong));
        }
        Self::decode_checked(message).map_err(|_| CrewError::Peer(PeerFault::Unreadable))?
    }

    fn decode_checked(message: &[u8]) -> Result<Result<Self>, minicbor::decode::Error> {
        let mut d = minicbor::Decoder::new(message);
        let parts = d.array()?;
        let found = d.u64()?;
        if found > PROTOCOL {
            return Ok(Err(CrewError::newer(Written::Message, found, PROTOCOL)));
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

#[cfg(test)]
mod tests {
    use sward_book::env::TimeProof;

    use super::*;
    use crate::testing::in_lines;

    fn clock() -> Stamp {
        Stamp {
            utc_ms: 1_781_524_800_000,
            offset_min: -240,
            proof: TimeProof::Network,
        }
    }

    fn head(n: u8) -> Head {
        Head {
            stream: StreamId([n; 32]),
            seq: u64::from(n) * 100,
            hash: Hash([n + 1; 32]),
        }
    }

    fn every_message() -> [(&'static str, Message); 7] {
        [
            (
                "hello",
                Message::Hello(Hello {
                    nonce: [1; TAG_BYTES].into(),
                    tag: [2; TAG_BYTES].into(),
                    stream: StreamId([3; 32]),
                    digest: Hash([4; 32]),
                    clock: clock(),
                    gives: true,
                }),
            ),
            (
                "heads",
                Message::Heads {
                    clock: clock(),
                    heads: vec![head(1), head(3)],
                    more: true,
                },
            ),
            ("more_heads", Message::MoreHeads),
            (
                "want",
                Message::Want {
                    tip: Hash([5; 32]),
                    locator: vec![Hash([6; 32]), Hash([7; 32])],
                },
            ),
            (
                "entries",
                Message::Entries(vec![b"one".to_vec().into(), b"two".to_vec().into()]),
            ),
            ("stored", Message::Stored(1000)),
            ("done", Message::Done),
        ]
    }

    /// The bytes that go over the line. A change here is a new version of the protocol.
    #[test]
    fn wire_forms() {
        for (name, message) in every_message() {
            insta::assert_snapshot!(name, in_lines(&message.encode()));
        }
    }

    #[test]
    fn what_is_encoded_is_decoded() {
        for (name, message) in every_message() {
            assert_eq!(
                Message::decode(&message.encode()).unwrap(),
                message,
                "{name}"
            );
        }
    }

    #[test]
    fn other_versions_forms_and_left_over_bytes_are_refused() {
        for (name, message) in every_message() {
            let mut left_over = message.encode();
            left_over.push(0);
            assert!(
                matches!(Message::decode(&left_over), Err(CrewError::Peer(_))),
                "{name}"
            );
            let mut older = message.encode();
            older[1] = 0;
            assert!(
                matches!(Message::decode(&older), Err(CrewError::Peer(_))),
                "{name}"
            );
        }
        // An unknown message of this version.
        assert!(matches!(
            Message::decode(&[0x82, 1, 0x82, 7, 0x80]),
            Err(CrewError::Peer(_))
        ));
    }
}
