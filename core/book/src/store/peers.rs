//! What peers said they hold, local to the device and never compared.
//!
//! When an entry came and from whom stands beside the entry itself, see `schema.sql`.

use super::Store;
use crate::ids::StreamId;
use crate::log::Head;
use crate::{BookError, Result};

/// What a peer said it holds, when it was last heard.
pub(crate) struct PeerRow {
    /// The peer.
    pub(crate) stream: StreamId,
    /// Its heads.
    pub(crate) heads: Vec<Head>,
    /// When it said so, by the own clock.
    pub(crate) told_ms: i64,
}

impl Store {
    /// Notes what a peer said it holds.
    pub(crate) fn set_peer(&self, stream: StreamId, heads: &[Head], told_ms: i64) -> Result<()> {
        let heads = minicbor::to_vec(heads).expect("a vector takes every write");
        self.conn
            .prepare_cached(
                "INSERT OR REPLACE INTO peer (stream, heads, told_ms) VALUES (?1, ?2, ?3)",
            )?
            .execute((stream.0, heads, told_ms))?;
        Ok(())
    }

    /// What every peer said it holds.
    pub(crate) fn peers(&self) -> Result<Vec<PeerRow>> {
        let mut find = self
            .conn
            .prepare_cached("SELECT stream, heads, told_ms FROM peer ORDER BY stream")?;
        let rows = find.query_map([], |r| {
            Ok((r.get::<_, [u8; 32]>(0)?, r.get::<_, Vec<u8>>(1)?, r.get(2)?))
        })?;
        rows.map(|row| {
            let (stream, heads, told_ms) = row?;
            let heads = minicbor::decode(&heads)
                .map_err(|_| BookError::Damaged("what a peer said it holds".into()))?;
            Ok(PeerRow {
                stream: StreamId(stream),
                heads,
                told_ms,
            })
        })
        .collect()
    }
}
