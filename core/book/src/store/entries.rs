//! Entries, their facts and the ends of their branches.

use rusqlite::OptionalExtension as _;

use super::Store;
use super::sheets::{kind_number, kind_of};
use crate::Result;
use crate::fact::Subject;
use crate::ids::{Hash, IncidentId, SheetId, StreamId, VisitId};
use crate::log::{Entry, Head};

/// Where one fact about a subject lies.
pub(crate) struct FactRow {
    /// The entry's row.
    pub(crate) entry: i64,
    /// The fact's place in the entry.
    pub(crate) place: u8,
}

/// A subject's key in the table `fact`.
pub(crate) fn subject_key(subject: &Subject) -> (i64, Vec<u8>) {
    match subject {
        Subject::Crew => (0, Vec::new()),
        Subject::Device(stream) => (1, stream.0.to_vec()),
        Subject::Visit(visit) => (2, visit.0.as_bytes().to_vec()),
        Subject::Incident(incident) => (-1, incident.0.as_bytes().to_vec()),
        // Whatever sheets come after, theirs are the numbers from here up.
        Subject::Sheet(kind, sheet) => (3 + kind_number(*kind), sheet.0.as_bytes().to_vec()),
    }
}

fn subject_of(kind: i64, key: &[u8]) -> Result<Subject> {
    Ok(match kind {
        0 => Subject::Crew,
        1 => Subject::Device(StreamId::from_slice(key)?),
        2 => Subject::Visit(VisitId::from_slice(key)?),
        -1 => Subject::Incident(IncidentId::from_slice(key)?),
        _ => Subject::Sheet(kind_of(kind - 3)?, SheetId::from_slice(key)?),
    })
}

fn place_of(place: usize) -> u8 {
    u8::try_from(place).expect("an entry holds at most FACTS_MAX facts")
}

fn to_sql(number: u64) -> i64 {
    i64::try_from(number).expect("entries are bounded below 2^53")
}

impl Store {
    /// Adds an entry with its facts and edits, and when it arrived from whom (none: written here).
    /// Says whether it is new.
    pub(crate) fn add_entry(
        &self,
        entry: &Entry,
        received_ms: i64,
        source: Option<StreamId>,
    ) -> Result<bool> {
        let body = entry.body();
        let hash = entry.hash();
        if self.holds(hash)? {
            return Ok(false);
        }
        let stream = self.stream_row(body.stream)?;
        let linked = body.seq == 1 || self.is_linked(body.prev)?;
        let mut insert = self.conn.prepare_cached(
            "INSERT INTO entry (hash, stream, seq, prev, lamport, linked, wire, received_ms, source)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)",
        )?;
        let id = insert.insert((
            hash.0,
            stream,
            to_sql(body.seq),
            body.prev.0,
            to_sql(body.lamport),
            linked,
            entry.wire(),
            received_ms,
            source.map(|s| s.0),
        ))?;
        self.index_facts(id, entry)?;
        if linked {
            self.link(stream, entry)?;
        }
        Ok(true)
    }

    fn index_facts(&self, id: i64, entry: &Entry) -> Result<()> {
        let body = entry.body();
        let mut fact = self.conn.prepare_cached(
            "INSERT OR IGNORE INTO fact (kind, subject, entry, place) VALUES (?1, ?2, ?3, ?4)",
        )?;
        for (place, f) in body.facts.iter().enumerate() {
            for subject in f.subjects(body.stream) {
                let (kind, key) = subject_key(&subject);
                fact.execute((kind, key, id, place_of(place)))?;
            }
        }
        let mut edit = self.conn.prepare_cached(
            "INSERT INTO edit (sheet, kind, entry, place) VALUES (?1, ?2, ?3, ?4)",
        )?;
        for (place, change) in body.changes.iter().enumerate() {
            edit.execute((
                change.sheet.0.as_bytes(),
                kind_number(change.kind),
                id,
                place_of(place),
            ))?;
        }
        Ok(())
    }

    /// Moves the end of a branch forward to `entry`, and on over what was waiting for it.
    fn link(&self, stream: i64, entry: &Entry) -> Result<()> {
        let mut ends = vec![(entry.hash(), entry.body().prev, entry.body().seq)];
        while let Some((hash, prev, seq)) = ends.pop() {
            self.conn
                .prepare_cached("DELETE FROM tip WHERE hash = ?1")?
                .execute([prev.0])?;
            self.conn
                .prepare_cached("INSERT INTO tip (hash, stream, seq) VALUES (?1, ?2, ?3)")?
                .execute((hash.0, stream, to_sql(seq)))?;
            let mut waiting = self.conn.prepare_cached(
                "SELECT id, hash FROM entry WHERE stream = ?1 AND seq = ?2 AND prev = ?3 AND linked = 0",
            )?;
            let rows = waiting.query_map((stream, to_sql(seq + 1), hash.0), |r| {
                Ok((r.get::<_, i64>(0)?, r.get::<_, [u8; 32]>(1)?))
            })?;
            for row in rows.collect::<rusqlite::Result<Vec<_>>>()? {
                self.conn
                    .prepare_cached("UPDATE entry SET linked = 1 WHERE id = ?1")?
                    .execute([row.0])?;
                ends.push((Hash(row.1), hash, seq + 1));
            }
        }
        Ok(())
    }

    fn stream_row(&self, stream: StreamId) -> Result<i64> {
        let mut find = self
            .conn
            .prepare_cached("SELECT id FROM stream WHERE key = ?1")?;
        if let Some(id) = find.query_row([stream.0], |r| r.get(0)).optional()? {
            return Ok(id);
        }
        let mut insert = self
            .conn
            .prepare_cached("INSERT INTO stream (key) VALUES (?1)")?;
        Ok(insert.insert([stream.0])?)
    }

    fn is_linked(&self, hash: Hash) -> Result<bool> {
        let mut find = self
            .conn
            .prepare_cached("SELECT linked FROM entry WHERE hash = ?1")?;
        Ok(find
            .query_row([hash.0], |r| r.get(0))
            .optional()?
            .unwrap_or(false))
    }

    /// Whether the entry is here.
    pub(crate) fn holds(&self, hash: Hash) -> Result<bool> {
        let mut find = self
            .conn
            .prepare_cached("SELECT 1 FROM entry WHERE hash = ?1")?;
        Ok(find.exists([hash.0])?)
    }

    /// Whether the entry is here with every entry before it in its branch.
    pub(crate) fn holds_whole(&self, hash: Hash) -> Result<bool> {
        self.is_linked(hash)
    }

    /// The entry called `hash`.
    pub(crate) fn entry(&self, hash: Hash) -> Result<Option<Entry>> {
        self.wire_of(hash)?.map(Entry::from_own_store).transpose()
    }

    /// The entry in a row.
    pub(crate) fn entry_in(&self, id: i64) -> Result<Entry> {
        let mut find = self
            .conn
            .prepare_cached("SELECT wire FROM entry WHERE id = ?1")?;
        Entry::from_own_store(find.query_row([id], |r| r.get(0))?)
    }

    /// The hash before one entry, and its number.
    pub(crate) fn link_of(&self, hash: Hash) -> Result<Option<(Hash, u64)>> {
        let mut find = self
            .conn
            .prepare_cached("SELECT prev, seq FROM entry WHERE hash = ?1")?;
        let row = find
            .query_row([hash.0], |r| Ok((Hash(r.get(0)?), r.get::<_, i64>(1)?)))
            .optional()?;
        Ok(row.map(|(prev, seq)| (prev, seq.unsigned_abs())))
    }

    /// The stream of one entry.
    pub(crate) fn stream_of(&self, hash: Hash) -> Result<Option<StreamId>> {
        let mut find = self.conn.prepare_cached(
            "SELECT s.key FROM entry e JOIN stream s ON s.id = e.stream WHERE e.hash = ?1",
        )?;
        Ok(find
            .query_row([hash.0], |r| Ok(StreamId(r.get(0)?)))
            .optional()?)
    }

    /// The wire bytes of one entry.
    pub(crate) fn wire_of(&self, hash: Hash) -> Result<Option<Vec<u8>>> {
        let mut find = self
            .conn
            .prepare_cached("SELECT wire FROM entry WHERE hash = ?1")?;
        Ok(find.query_row([hash.0], |r| r.get(0)).optional()?)
    }

    /// The linked entries of a stream with one number: one, or one a branch.
    pub(crate) fn hashes_at(&self, stream: StreamId, seq: u64) -> Result<Vec<Hash>> {
        let mut find = self.conn.prepare_cached(
            "SELECT e.hash FROM stream s JOIN entry e ON e.stream = s.id
             WHERE s.key = ?1 AND e.seq = ?2 AND e.linked = 1 ORDER BY e.hash",
        )?;
        let rows = find.query_map((stream.0, to_sql(seq)), |r| Ok(Hash(r.get(0)?)))?;
        Ok(rows.collect::<rusqlite::Result<_>>()?)
    }

    /// Wire bytes of a stream's linked entries after one number and up to another, in order, as
    /// many as fit but at least one. Only for streams with a single branch.
    pub(crate) fn wires_between(
        &self,
        stream: StreamId,
        after_seq: u64,
        up_to_seq: u64,
        bytes_max: usize,
    ) -> Result<Vec<Vec<u8>>> {
        let mut find = self.conn.prepare_cached(
            "SELECT e.wire FROM stream s JOIN entry e ON e.stream = s.id
             WHERE s.key = ?1 AND e.seq > ?2 AND e.seq <= ?3 AND e.linked = 1 ORDER BY e.seq",
        )?;
        let mut rows = find.query((stream.0, to_sql(after_seq), to_sql(up_to_seq)))?;
        let mut wires: Vec<Vec<u8>> = Vec::new();
        let mut bytes = 0;
        while let Some(row) = rows.next()? {
            let wire: Vec<u8> = row.get(0)?;
            bytes += wire.len();
            if !wires.is_empty() && bytes > bytes_max {
                break;
            }
            wires.push(wire);
        }
        Ok(wires)
    }

    /// The ends of all linked branches, sorted.
    pub(crate) fn tips(&self) -> Result<Vec<Head>> {
        let mut find = self.conn.prepare_cached(
            "SELECT s.key, t.seq, t.hash FROM tip t JOIN stream s ON s.id = t.stream",
        )?;
        let rows = find.query_map([], |r| {
            Ok(Head {
                stream: StreamId(r.get(0)?),
                seq: r.get::<_, i64>(1)?.unsigned_abs(),
                hash: Hash(r.get(2)?),
            })
        })?;
        let mut tips = rows.collect::<rusqlite::Result<Vec<_>>>()?;
        tips.sort_unstable();
        Ok(tips)
    }

    /// The greatest order number so far.
    pub(crate) fn lamport_max(&self) -> Result<u64> {
        // Lamport numbers grow with the rows but for late arrivals; the table is scanned once,
        // when the book is opened.
        let max: Option<i64> = self
            .conn
            .query_row("SELECT max(lamport) FROM entry", [], |r| r.get(0))?;
        Ok(max.unwrap_or(0).unsigned_abs())
    }

    /// How many entries there are.
    pub(crate) fn entry_count(&self) -> Result<u64> {
        let n: i64 = self
            .conn
            .query_row("SELECT count(*) FROM entry", [], |r| r.get(0))?;
        Ok(n.unsigned_abs())
    }

    /// Entries whose predecessor is missing: the stream they belong to and how many.
    pub(crate) fn waiting(&self) -> Result<Vec<(StreamId, u64)>> {
        let mut find = self.conn.prepare_cached(
            "SELECT s.key, count(*) FROM entry e JOIN stream s ON s.id = e.stream
             WHERE e.linked = 0 GROUP BY s.key ORDER BY s.key",
        )?;
        let rows = find.query_map([], |r| {
            Ok((StreamId(r.get(0)?), r.get::<_, i64>(1)?.unsigned_abs()))
        })?;
        Ok(rows.collect::<rusqlite::Result<_>>()?)
    }

    /// Calls `each` for every entry in the order of the views: Lamport number, then hash.
    pub(crate) fn each_entry(
        &self,
        mut each: impl FnMut(i64, Hash, Vec<u8>) -> Result<()>,
    ) -> Result<()> {
        let mut find = self
            .conn
            .prepare("SELECT id, hash, wire FROM entry ORDER BY lamport, hash")?;
        let mut rows = find.query([])?;
        while let Some(row) = rows.next()? {
            each(row.get(0)?, Hash(row.get(1)?), row.get(2)?)?;
        }
        Ok(())
    }

    /// Where the facts about a subject lie, in the order of the views.
    pub(crate) fn facts_about(&self, subject: &Subject) -> Result<Vec<FactRow>> {
        let (kind, key) = subject_key(subject);
        let mut find = self.conn.prepare_cached(
            "SELECT f.entry, f.place FROM fact f JOIN entry e ON e.id = f.entry
             WHERE f.kind = ?1 AND f.subject = ?2 ORDER BY e.lamport, e.hash, f.place",
        )?;
        let rows = find.query_map((kind, key), |r| {
            Ok(FactRow {
                entry: r.get(0)?,
                place: r.get(1)?,
            })
        })?;
        Ok(rows.collect::<rusqlite::Result<_>>()?)
    }

    /// Every subject that a stream has written facts about.
    pub(crate) fn subjects_by(&self, stream: StreamId) -> Result<Vec<Subject>> {
        let mut find = self.conn.prepare_cached(
            "SELECT DISTINCT f.kind, f.subject FROM stream s JOIN entry e ON e.stream = s.id
             JOIN fact f ON f.entry = e.id WHERE s.key = ?1",
        )?;
        let rows = find.query_map([stream.0], |r| {
            Ok((r.get::<_, i64>(0)?, r.get::<_, Vec<u8>>(1)?))
        })?;
        rows.map(|row| {
            row.map_err(Into::into)
                .and_then(|(kind, key)| subject_of(kind, &key))
        })
        .collect()
    }

    /// Every subject there is.
    pub(crate) fn subjects(&self) -> Result<Vec<Subject>> {
        let mut find = self
            .conn
            .prepare_cached("SELECT DISTINCT kind, subject FROM fact")?;
        let rows = find.query_map([], |r| Ok((r.get::<_, i64>(0)?, r.get::<_, Vec<u8>>(1)?)))?;
        rows.map(|row| {
            row.map_err(Into::into)
                .and_then(|(kind, key)| subject_of(kind, &key))
        })
        .collect()
    }

    /// Whether two entries of one stream carry the same number.
    pub(crate) fn forked_streams(&self) -> Result<Vec<StreamId>> {
        let mut find = self.conn.prepare_cached(
            "SELECT s.key FROM tip t JOIN stream s ON s.id = t.stream
             GROUP BY s.key HAVING count(*) > 1 ORDER BY s.key",
        )?;
        let rows = find.query_map([], |r| Ok(StreamId(r.get(0)?)))?;
        Ok(rows.collect::<rusqlite::Result<_>>()?)
    }
}
