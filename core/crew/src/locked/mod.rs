//! Locked files: entries for the crew's phones, on any way that carries a file.
//!
//! Only members can open one, and only members can tell which crew it is for. Nothing in it is
//! believed before all of it was read and checked.
//!
//! # Format 1, unstable until a first release
//!
//! | Part | Bytes |
//! | --- | --- |
//! | `swardbook locked file 1` and a line feed | 24 |
//! | nonce, fresh for each file | 16 |
//! | crew tag: the first 16 bytes of SHA-256 over `swardbook crew tag 1\0`, the crew's hash, the nonce | 16 |
//! | an age file (age-encryption.org/v1) with one X25519 stanza a member | the rest |
//!
//! Inside the age file is a CBOR sequence of byte strings, each of which holds one frame in
//! deterministic CBOR, and after the last frame zero bytes up to the padded length (Padmé):
//!
//! 1. a manifest: the sender's stream, when it was made by the sender's clock, and the ends of the
//!    branches that the sender holds (at most 4,096 of them);
//! 2. any number of frames with the wire bytes of entries, each stream's oldest first, in each
//!    frame 256 KiB or one longer entry;
//! 3. an end: the number of entries, and the sender's Ed25519 signature over
//!    `swardbook locked file 1\0`, the crew's hash, the nonce, the number of entries (64 bits, most
//!    significant byte first) and the SHA-256 of all bytes inside before the end frame.

mod frame;
mod header;
mod make;
mod pad;
mod take;
#[cfg(test)]
mod tests;

pub use make::{Locking, Made, make_locked_file};
pub use take::{Opener, Progress, REFUSED_MAX, Taken, take_locked_file, take_locked_file_telling};

use crate::FileKind;
use crate::magic::Magic;

/// The most phones a locked file is wrapped to.
pub const MEMBERS_MAX: usize = 500;

pub(crate) const MAGIC: Magic = Magic {
    words: "swardbook locked file",
    called: FileKind::LockedFile,
    format: 1,
};
