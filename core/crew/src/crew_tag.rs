//! The crew tag: tells members, and nobody else, which crew a file or a greeting belongs to.

use sha2::{Digest, Sha256};
use sward_book::ids::Hash;

/// Bytes of the nonce and of the tag.
pub(crate) const TAG_BYTES: usize = 16;

/// The first 16 bytes of SHA-256 over a prefix, the crew's hash and a fresh nonce. Who does not
/// know the hash cannot tell two crews, or two files of one crew, apart.
pub(crate) fn crew_tag(crew: Hash, nonce: &[u8; TAG_BYTES]) -> [u8; TAG_BYTES] {
    let mut sha = Sha256::new();
    sha.update(b"swardbook crew tag 1\0");
    sha.update(crew.0);
    sha.update(nonce);
    let mut tag = [0; TAG_BYTES];
    tag.copy_from_slice(&sha.finalize()[..TAG_BYTES]);
    tag
}
