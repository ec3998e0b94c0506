//! Making a locked file.

use std::collections::{BTreeMap, BTreeSet, HashSet};
use std::io::{self, Write};

use minicbor::bytes::ByteVec;
use sward_book::Env;
use sward_book::fact::DeviceKeys;
use sward_book::ids::{Hash, StreamId};
use sward_book::keys::DeviceSecret;
use sward_book::log::{Head, Stamp};

use super::MEMBERS_MAX;
use super::frame::{Frame, FrameWriter, HEADS_MAX, Manifest, Whole};
use super::header::Header;
use crate::crew_tag::TAG_BYTES;
use crate::log::name_of_own;
use crate::{CHUNK_BYTES_MAX, CrewError, Log, Result, keys};

/// For whom a file is locked, and what goes in.
pub struct Locking<'a> {
    /// The keys of the device that makes it.
    pub secret: &'a DeviceSecret,
    /// The members who can open it.
    pub members: &'a [DeviceKeys],
    /// Now, by this device's clock.
    pub made: Stamp,
    /// Hashes of entries that every one of them is known to hold with all before them: left out.
    /// Empty to put in everything.
    pub since: &'a [Hash],
}

/// What a made file holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Made {
    /// How many entries.
    pub entries: u64,
    /// Their own bytes.
    pub entry_bytes: u64,
    /// Bytes of padding.
    pub padding_bytes: u64,
    /// Members it could not be locked for, because the key they gave is none.
    pub left_out: Vec<StreamId>,
}

/// Writes a locked file with the log's entries to `out`. The file is whole only when this has
/// returned without an error. At most one frame is in memory; a stream with several branches
/// adds 32 bytes for each of its entries.
///
/// # Errors
/// [`CrewError::NoCrew`], [`CrewError::NobodyToLockFor`], [`CrewError::TooManyMembers`],
/// [`CrewError::NotWritten`], and what the log says.
pub fn make_locked_file<W: Write>(
    mut out: W,
    locking: &Locking<'_>,
    log: &dyn Log,
    env: &dyn Env,
) -> Result<Made> {
    let crew = log.crew()?.ok_or(CrewError::NoCrew)?;
    let (locked_for, left_out) = encryptor(locking.members)?;
    let mut nonce = [0; TAG_BYTES];
    env.random(&mut nonce);
    Header::new(crew, nonce)
        .write(&mut out)
        .map_err(CrewError::NotWritten)?;
    let inside = locked_for.wrap_output(out).map_err(CrewError::NotWritten)?;
    let (inside, mut made) = write_inside(inside, locking, log, crew, nonce)?;
    let mut out = inside.finish().map_err(CrewError::NotWritten)?;
    out.flush().map_err(CrewError::NotWritten)?;
    made.left_out = left_out;
    Ok(made)
}

fn encryptor(members: &[DeviceKeys]) -> Result<(age::Encryptor, Vec<StreamId>)> {
    let mut usable = BTreeMap::new();
    let mut left_out = BTreeSet::new();
    for member in members {
        match keys::recipient(&member.recipient) {
            Ok(recipient) => {
                usable.insert(&member.recipient, recipient);
            }
            Err(_) => {
                left_out.insert(member.stream);
            }
        }
    }
    if usable.is_empty() {
        return Err(CrewError::NobodyToLockFor);
    }
    if usable.len() > MEMBERS_MAX {
        return Err(CrewError::TooManyMembers(MEMBERS_MAX));
    }
    let recipients = usable.values().map(|r| r as &dyn age::Recipient);
    let encryptor = age::Encryptor::with_recipients(recipients)
        .map_err(|error| CrewError::NotWritten(io::Error::other(error)))?;
    Ok((encryptor, left_out.into_iter().collect()))
}

/// Writes manifest, entries, end and padding; says what went in.
pub(super) fn write_inside<W: Write>(
    inside: W,
    locking: &Locking<'_>,
    log: &dyn Log,
    crew: Hash,
    nonce: [u8; TAG_BYTES],
) -> Result<(W, Made)> {
    let heads = log.heads()?;
    let mut frames = FrameWriter::new(inside);
    let manifest = Manifest {
        sender: locking.secret.stream(),
        made: locking.made,
        heads: heads.iter().take(HEADS_MAX).map(|h| h.hash).collect(),
    };
    frames
        .write(&Frame::Manifest(manifest))
        .map_err(CrewError::NotWritten)?;
    let mut batch = Batch::new(&mut frames);
    for branches in heads.chunk_by(|a, b| a.stream == b.stream) {
        add_stream(&mut batch, branches, locking.since, log)?;
    }
    batch.flush()?;
    let (entries, entry_bytes) = (batch.entries, batch.entry_bytes);
    let whole = Whole {
        crew,
        nonce,
        entries,
        sha256: frames.sha256(),
    };
    let end = whole.sign(locking.secret.signing());
    frames
        .write(&Frame::End(end))
        .map_err(CrewError::NotWritten)?;
    let (inside, padding_bytes) = frames.pad().map_err(CrewError::NotWritten)?;
    Ok((
        inside,
        Made {
            entries,
            entry_bytes,
            padding_bytes,
            left_out: Vec::new(),
        },
    ))
}

/// Adds a stream, its shared beginning once however many branches it has.
fn add_stream<W: Write>(
    batch: &mut Batch<'_, W>,
    branches: &[Head],
    since: &[Hash],
    log: &dyn Log,
) -> Result<()> {
    let mut added = HashSet::new();
    for branch in branches {
        let mut stop_at = since.to_vec();
        loop {
            let wires = log.entries_up_to(branch.hash, &stop_at, CHUNK_BYTES_MAX)?;
            let Some(last) = wires.last() else { break };
            let last = name_of_own(last)?;
            for wire in wires {
                if branches.len() == 1 || added.insert(name_of_own(&wire)?) {
                    batch.add(wire)?;
                }
            }
            if last == branch.hash {
                break;
            }
            stop_at = vec![last];
        }
    }
    Ok(())
}

/// Entries on their way into a frame.
struct Batch<'a, W> {
    frames: &'a mut FrameWriter<W>,
    wires: Vec<ByteVec>,
    bytes: usize,
    entries: u64,
    entry_bytes: u64,
}

impl<'a, W: Write> Batch<'a, W> {
    fn new(frames: &'a mut FrameWriter<W>) -> Self {
        Self {
            frames,
            wires: Vec::new(),
            bytes: 0,
            entries: 0,
            entry_bytes: 0,
        }
    }

    fn add(&mut self, wire: Vec<u8>) -> Result<()> {
        if self.bytes + wire.len() > CHUNK_BYTES_MAX {
            self.flush()?;
        }
        self.bytes += wire.len();
        self.entries += 1;
        self.entry_bytes += wire.len() as u64;
        self.wires.push(wire.into());
        Ok(())
    }

    fn flush(&mut self) -> Result<()> {
        if !self.wires.is_empty() {
            let frame = Frame::Entries(std::mem::take(&mut self.wires));
            self.frames.write(&frame).map_err(CrewError::NotWritten)?;
        }
        self.bytes = 0;
        Ok(())
    }
}
