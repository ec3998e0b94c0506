//! Progress: how far this book has come, and which entries another one lacks.

use super::{Book, Peer};
use crate::Result;
use crate::ids::{Hash, StreamId};
use crate::log::{Head, digest_of_heads};
use crate::view::StoreChains;
use crate::view::roster::Chains as _;

impl Book {
    /// The ends of all branches of all streams, sorted.
    ///
    /// # Errors
    /// [`crate::BookError::Damaged`].
    pub fn heads(&self) -> Result<Vec<Head>> {
        self.store.tips()
    }

    /// One hash over all heads: equal on two phones exactly when they hold the same entries.
    ///
    /// # Errors
    /// [`crate::BookError::Damaged`].
    pub fn digest(&self) -> Result<Hash> {
        Ok(digest_of_heads(&self.store.tips()?))
    }

    /// Whether an entry is here.
    ///
    /// # Errors
    /// [`crate::BookError::Damaged`].
    pub fn holds(&self, hash: Hash) -> Result<bool> {
        self.store.holds(hash)
    }

    /// Whether an entry is here with every entry before it in its branch. One that waits for an
    /// earlier one is not held whole, and still has to be asked for.
    ///
    /// # Errors
    /// [`crate::BookError::Damaged`].
    pub fn holds_whole(&self, hash: Hash) -> Result<bool> {
        self.store.holds_whole(hash)
    }

    /// Whether `entry` is `last`, or stands before it in the same branch.
    ///
    /// # Errors
    /// [`crate::BookError::Damaged`].
    pub fn is_at_or_before(&self, entry: Hash, last: Hash) -> Result<bool> {
        Ok(StoreChains::new(&self.store).is_at_or_before(entry, last))
    }

    /// Names of entries of a stream, newest first and ever farther apart: enough for a peer to
    /// find the last one that both hold.
    ///
    /// # Errors
    /// [`crate::BookError::Damaged`].
    pub fn locator(&self, stream: StreamId) -> Result<Vec<Hash>> {
        let mut names = Vec::new();
        for tip in self
            .store
            .tips()?
            .into_iter()
            .filter(|t| t.stream == stream)
        {
            let mut step = 1;
            let mut seq = tip.seq;
            names.push(tip.hash);
            while seq > step {
                seq -= step;
                step *= 2;
                names.extend(self.store.hashes_at(stream, seq)?);
            }
        }
        Ok(names)
    }

    /// Bytes of the entries from just after `after` (or the stream's first) up to `tip`, oldest
    /// first, as many as fit into `bytes_max` but at least one. `after` must be of `tip`'s branch.
    ///
    /// # Errors
    /// [`crate::BookError::Damaged`].
    pub fn wires_up_to(
        &self,
        tip: Hash,
        after: Option<Hash>,
        bytes_max: usize,
    ) -> Result<Vec<Vec<u8>>> {
        let Some((_, tip_seq)) = self.store.link_of(tip)? else {
            return Ok(Vec::new());
        };
        let Some(stream) = self.store.stream_of(tip)? else {
            return Ok(Vec::new());
        };
        let after_seq = match after {
            Some(hash) => self.store.link_of(hash)?.map_or(0, |(_, seq)| seq),
            None => 0,
        };
        if !self.store.forked_streams()?.contains(&stream) {
            return self
                .store
                .wires_between(stream, after_seq, tip_seq, bytes_max);
        }
        // On a forked stream the numbers are not enough: walk the branch back.
        let mut branch = Vec::new();
        let mut here = tip;
        while Some(here) != after {
            branch.push(here);
            match self.store.link_of(here)? {
                Some((prev, seq)) if seq > 1 => here = prev,
                _ => break,
            }
        }
        let mut wires = Vec::new();
        let mut bytes = 0;
        for hash in branch.into_iter().rev() {
            let Some(wire) = self.store.wire_of(hash)? else {
                break;
            };
            bytes += wire.len();
            if !wires.is_empty() && bytes > bytes_max {
                break;
            }
            wires.push(wire);
        }
        Ok(wires)
    }

    /// What each peer said it holds, and when.
    ///
    /// # Errors
    /// [`crate::BookError::Damaged`].
    pub fn peers(&self) -> Result<Vec<Peer>> {
        let rows = self.store.peers()?;
        Ok(rows
            .into_iter()
            .map(|row| Peer {
                stream: row.stream,
                heads: row.heads,
                told_utc_ms: row.told_ms,
            })
            .collect())
    }

    /// Notes what a peer said it holds, by the own clock now.
    ///
    /// # Errors
    /// [`crate::BookError::ReadOnly`], [`crate::BookError::DiskFull`].
    pub fn note_peer(&mut self, stream: StreamId, heads: &[Head]) -> Result<()> {
        self.must_be_writable()?;
        self.store.set_peer(stream, heads, self.env.clock().utc_ms)
    }

    /// Streams of which an entry is here whose predecessor is not, and how many such entries:
    /// "waiting for entries from".
    ///
    /// # Errors
    /// [`crate::BookError::Damaged`].
    pub fn waiting_for(&self) -> Result<Vec<(StreamId, u64)>> {
        self.store.waiting()
    }
}
