//! What is inside a locked file: frames, written and read one at a time.
//!
//! Neither side holds more than one frame in memory, however long the file is.

use std::io::{self, Read, Write};

use ed25519_dalek::Signer as _;
use ed25519_dalek::{Signature, SigningKey, VerifyingKey};
use minicbor::bytes::{ByteArray, ByteVec};
use minicbor::{Decode, Encode};
use sha2::{Digest, Sha256};
use sward_book::ids::{Hash, StreamId};
use sward_book::log::{ENTRY_BYTES_MAX, Stamp};

use super::MAGIC;
use super::header::read_fault;
use super::pad::padded_length;
use crate::crew_tag::TAG_BYTES;
use crate::{CHUNK_BYTES_MAX, CrewError, Result};

/// The most branch ends a manifest lists.
pub(super) const HEADS_MAX: usize = 4096;
/// The longest frame: one entry of the greatest length, and what is around it.
const FRAME_BYTES_MAX: usize = ENTRY_BYTES_MAX + 64;

/// One frame.
#[derive(Debug, Clone, PartialEq, Encode, Decode)]
pub(super) enum Frame {
    #[n(0)]
    Manifest(#[n(0)] Manifest),
    #[n(1)]
    Entries(#[n(0)] Vec<ByteVec>),
    #[n(2)]
    End(#[n(0)] End),
}

/// Who made the file and when.
#[derive(Debug, Clone, PartialEq, Encode, Decode)]
pub(super) struct Manifest {
    /// The device that made it.
    #[n(0)]
    pub(super) sender: StreamId,
    /// When, by its clock.
    #[n(1)]
    pub(super) made: Stamp,
    /// Ends of the branches it holds, whether or not the file has them.
    #[n(2)]
    pub(super) heads: Vec<Hash>,
}

/// Shows that nothing is missing, and who made it.
#[derive(Debug, Clone, PartialEq, Encode, Decode)]
pub(super) struct End {
    #[n(0)]
    pub(super) entries: u64,
    #[n(1)]
    pub(super) signature: ByteArray<64>,
}

/// What the signature of the end covers.
pub(super) struct Whole {
    pub(super) crew: Hash,
    pub(super) nonce: [u8; TAG_BYTES],
    pub(super) entries: u64,
    pub(super) sha256: [u8; 32],
}

impl Whole {
    fn message(&self) -> Vec<u8> {
        [
            b"swardbook locked file 1\0".as_slice(),
            &self.crew.0,
            &self.nonce,
            &self.entries.to_be_bytes(),
            &self.sha256,
        ]
        .concat()
    }

    pub(super) fn sign(&self, key: &SigningKey) -> End {
        let signature = key.sign(&self.message()).to_bytes().into();
        End {
            entries: self.entries,
            signature,
        }
    }

    pub(super) fn is_signed_by(&self, sender: StreamId, end: &End) -> bool {
        let signature = Signature::from_bytes(&end.signature);
        end.entries == self.entries
            && VerifyingKey::from_bytes(&sender.0)
                .is_ok_and(|key| key.verify_strict(&self.message(), &signature).is_ok())
    }
}

/// Writes frames, then padding.
pub(super) struct FrameWriter<W> {
    out: W,
    sha: Sha256,
    bytes: u64,
}

impl<W: Write> FrameWriter<W> {
    pub(super) fn new(out: W) -> Self {
        Self {
            out,
            sha: Sha256::new(),
            bytes: 0,
        }
    }

    pub(super) fn write(&mut self, frame: &Frame) -> io::Result<()> {
        let inner = minicbor::to_vec(frame).expect("a vector takes every write");
        let outer = minicbor::to_vec(ByteVec::from(inner)).expect("a vector takes every write");
        self.sha.update(&outer);
        self.bytes += outer.len() as u64;
        self.out.write_all(&outer)
    }

    /// SHA-256 of everything written so far.
    pub(super) fn sha256(&self) -> [u8; 32] {
        self.sha.clone().finalize().into()
    }

    /// Pads; hands back what was written to, and how many bytes of padding that took.
    pub(super) fn pad(mut self) -> io::Result<(W, u64)> {
        let zeroes = padded_length(self.bytes) - self.bytes;
        io::copy(&mut io::repeat(0).take(zeroes), &mut self.out)?;
        Ok((self.out, zeroes))
    }
}

/// Reads frames, then padding.
pub(super) struct FrameReader<R> {
    inside: R,
    sha: Sha256,
    bytes: u64,
}

impl<R: Read> FrameReader<R> {
    pub(super) fn new(inside: R) -> Self {
        Self {
            inside,
            sha: Sha256::new(),
            bytes: 0,
        }
    }

    /// The manifest, which comes first.
    pub(super) fn manifest(&mut self) -> Result<Manifest> {
        match self.next()? {
            Frame::Manifest(manifest) if manifest.heads.len() <= HEADS_MAX => Ok(manifest),
            _ => Err(damaged()),
        }
    }

    /// The next frame of entries, or the end.
    pub(super) fn entries(&mut self) -> Result<Result<Vec<Vec<u8>>, End>> {
        match self.next()? {
            Frame::Entries(wires) => {
                let bytes: usize = wires.iter().map(|w| w.len()).sum();
                if wires.is_empty() || (bytes > CHUNK_BYTES_MAX && wires.len() > 1) {
                    return Err(damaged());
                }
                Ok(Ok(wires.into_iter().map(Into::into).collect()))
            }
            Frame::End(end) => Ok(Err(end)),
            Frame::Manifest(_) => Err(damaged()),
        }
    }

    /// SHA-256 of every frame read so far, but for the end.
    pub(super) fn sha256(&self) -> [u8; 32] {
        self.sha.clone().finalize().into()
    }

    /// Reads the padding: as many zeroes as there must be, and nothing after them.
    pub(super) fn check_padding(&mut self) -> Result<()> {
        let mut left = padded_length(self.bytes) - self.bytes;
        let mut buffer = [0; 4096];
        loop {
            let read = self.inside.read(&mut buffer).map_err(read_fault)?;
            if read as u64 > left || buffer[..read].iter().any(|b| *b != 0) {
                return Err(damaged());
            }
            left -= read as u64;
            if read == 0 {
                return if left == 0 { Ok(()) } else { Err(damaged()) };
            }
        }
    }

    fn next(&mut self) -> Result<Frame> {
        let mut outer = vec![0; 1];
        self.fill(&mut outer, 0)?;
        let length_bytes = match outer[0] {
            0x40..=0x57 => 0,
            0x58 => 1,
            0x59 => 2,
            0x5a => 4,
            _ => return Err(damaged()),
        };
        outer.resize(1 + length_bytes, 0);
        self.fill(&mut outer, 1)?;
        let start = outer.len();
        let length = outer[1..].iter().fold(0, |n, b| n << 8 | usize::from(*b));
        let length = if length_bytes == 0 {
            usize::from(outer[0] - 0x40)
        } else {
            length
        };
        if length > FRAME_BYTES_MAX {
            return Err(damaged());
        }
        outer.resize(start + length, 0);
        self.fill(&mut outer, start)?;
        self.bytes += outer.len() as u64;
        let frame = minicbor::decode(&outer[start..]).map_err(|_| damaged())?;
        // One content, one spelling: this finds lengths not in their shortest form, and bytes
        // left over inside a frame.
        let inner = minicbor::to_vec(&frame).expect("a vector takes every write");
        let spelled = minicbor::to_vec(ByteVec::from(inner)).expect("a vector takes every write");
        if spelled != outer {
            return Err(damaged());
        }
        if !matches!(frame, Frame::End(_)) {
            self.sha.update(&outer);
        }
        Ok(frame)
    }

    fn fill(&mut self, buffer: &mut [u8], from: usize) -> Result<()> {
        self.inside
            .read_exact(&mut buffer[from..])
            .map_err(read_fault)
    }
}

fn damaged() -> CrewError {
    CrewError::Damaged(MAGIC.called)
}
