//! Heads: how far a log has come, stream by stream, comparable between phones.

use minicbor::{Decode, Encode};
use serde::Serialize;
use sha2::{Digest, Sha256};

use crate::ids::{Hash, StreamId};

/// The end of one branch of one stream. A stream has one, unless its device was restored or
/// copied and wrote the same numbers again: then it has one a branch.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Encode, Decode, Serialize)]
pub struct Head {
    /// The stream.
    #[n(0)]
    pub stream: StreamId,
    /// Number of the last entry.
    #[n(1)]
    pub seq: u64,
    /// Hash of the last entry; it stands for the whole branch before it.
    #[n(2)]
    pub hash: Hash,
}

/// One hash over all heads: equal on two phones exactly when they hold the same entries.
pub fn digest_of_heads(heads: &[Head]) -> Hash {
    let mut hashes: Vec<&Hash> = heads.iter().map(|h| &h.hash).collect();
    hashes.sort_unstable();
    let mut sha = Sha256::new();
    sha.update(b"swardbook heads 1\0");
    for hash in hashes {
        sha.update(hash.0);
    }
    Hash(sha.finalize().into())
}
