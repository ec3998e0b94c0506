//! The part of a locked file that anyone can read, and the way from it to what is inside.

use std::io::{BufRead, BufReader, Chain, Cursor, ErrorKind, Read, Write};

use age::stream::StreamReader;
use sward_book::ids::Hash;

use super::MAGIC;
use super::frame::FrameReader;
use crate::crew_tag::{TAG_BYTES, crew_tag};
use crate::magic::LINE_BYTES_MAX;
use crate::{CrewError, Result};

/// The longest list of stanzas that is read: [`super::MEMBERS_MAX`] of 98 bytes and age's own.
const AGE_HEADER_BYTES_MAX: usize = 64 * 1024;
/// The last line of an age header: "--- ", 43 characters, line feed.
const AGE_LAST_LINE_BYTES: usize = 48;

/// The public header.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Header {
    pub(super) nonce: [u8; TAG_BYTES],
    pub(super) tag: [u8; TAG_BYTES],
}

impl Header {
    pub(super) fn new(crew: Hash, nonce: [u8; TAG_BYTES]) -> Self {
        Self {
            nonce,
            tag: crew_tag(crew, &nonce),
        }
    }

    /// Whether the file is for this crew.
    pub(super) fn is_for(&self, crew: Hash) -> bool {
        self.tag == crew_tag(crew, &self.nonce)
    }

    pub(super) fn write(&self, out: &mut impl Write) -> std::io::Result<()> {
        out.write_all(MAGIC.line().as_bytes())?;
        out.write_all(&self.nonce)?;
        out.write_all(&self.tag)
    }

    pub(super) fn read(file: &mut impl BufRead) -> Result<Self> {
        let mut line = Vec::new();
        let line_max = LINE_BYTES_MAX as u64;
        file.take(line_max)
            .read_until(b'\n', &mut line)
            .map_err(read_fault)?;
        MAGIC.check(&line)?;
        let mut header = Self {
            nonce: [0; TAG_BYTES],
            tag: [0; TAG_BYTES],
        };
        file.read_exact(&mut header.nonce).map_err(read_fault)?;
        file.read_exact(&mut header.tag).map_err(read_fault)?;
        Ok(header)
    }
}

/// The frames of a locked file that is being read from `R`.
pub(super) type Frames<R> = FrameReader<StreamReader<Chain<Cursor<Vec<u8>>, BufReader<R>>>>;

/// Opens a locked file with a device's identity. `crew` is the own crew, if there is one.
pub(super) fn open<R: Read>(
    file: R,
    identity: &age::x25519::Identity,
    crew: Option<Hash>,
) -> Result<(Header, Frames<R>)> {
    let mut file = BufReader::new(file);
    let header = Header::read(&mut file)?;
    if crew.is_some_and(|crew| !header.is_for(crew)) {
        return Err(CrewError::AnotherCrew);
    }
    let stanzas = read_age_header(&mut file)?;
    let inside = age::Decryptor::new_buffered(Cursor::new(stanzas).chain(file))
        .and_then(|locked| locked.decrypt([identity as &dyn age::Identity].into_iter()))
        .map_err(|fault| match fault {
            age::DecryptError::NoMatchingKeys => CrewError::NotForThisPhone,
            age::DecryptError::Io(error) => read_fault(error),
            _ => CrewError::Damaged(MAGIC.called),
        })?;
    Ok((header, FrameReader::new(inside)))
}

/// Reads the age header by itself, because age would read one of any length into memory.
fn read_age_header(file: &mut impl BufRead) -> Result<Vec<u8>> {
    let damaged = || CrewError::Damaged(MAGIC.called);
    let mut header = Vec::new();
    loop {
        let start = header.len();
        let room = (AGE_HEADER_BYTES_MAX - start) as u64;
        file.take(room)
            .read_until(b'\n', &mut header)
            .map_err(read_fault)?;
        let line = &header[start..];
        if !line.ends_with(b"\n") {
            return Err(damaged());
        }
        if line.starts_with(b"---") {
            return if line.len() == AGE_LAST_LINE_BYTES {
                Ok(header)
            } else {
                Err(damaged())
            };
        }
    }
}

/// What a failed read of a locked file means: that it was cut or altered, or that the disk failed.
pub(super) fn read_fault(error: std::io::Error) -> CrewError {
    match error.kind() {
        ErrorKind::UnexpectedEof | ErrorKind::InvalidData => CrewError::Damaged(MAGIC.called),
        _ => CrewError::NotRead(error),
    }
}
