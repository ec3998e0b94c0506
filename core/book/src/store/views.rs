//! Rows of views: bytes under a subject, and the two columns they are found by.

use rusqlite::OptionalExtension as _;

use super::Store;
use crate::Result;
use crate::ids::SheetId;

/// Which view a row belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[repr(i64)]
pub(crate) enum ViewKind {
    /// The crew's members; one row.
    Roster = 0,
    /// A device's clock.
    Device = 1,
    /// A yard.
    Yard = 2,
    /// A label sheet.
    Label = 3,
    /// A visit.
    Visit = 4,
    /// A keep-off.
    KeepOff = 5,
    /// Visits to one yard that may be one job.
    Twice = 6,
}

/// A row as it is compared between phones: kind, subject, content.
pub type ComparedRow = (i64, Vec<u8>, Vec<u8>);

/// One row of a view.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct ViewRow {
    /// The yard it belongs to, if any.
    pub(crate) yard: Option<SheetId>,
    /// What it is sorted by: milliseconds since 1970 in UTC.
    pub(crate) at_ms: Option<i64>,
    /// The row's content in deterministic CBOR.
    pub(crate) body: Vec<u8>,
}

impl Store {
    /// One row.
    pub(crate) fn view(&self, kind: ViewKind, subject: &[u8]) -> Result<Option<Vec<u8>>> {
        let mut find = self
            .conn
            .prepare_cached("SELECT body FROM view WHERE kind = ?1 AND subject = ?2")?;
        Ok(find
            .query_row((kind as i64, subject), |r| r.get(0))
            .optional()?)
    }

    /// Sets one row.
    pub(crate) fn set_view(&self, kind: ViewKind, subject: &[u8], row: &ViewRow) -> Result<()> {
        let mut set = self.conn.prepare_cached(
            "INSERT OR REPLACE INTO view (kind, subject, yard, at_ms, body)
             VALUES (?1, ?2, ?3, ?4, ?5)",
        )?;
        let yard = row.yard.as_ref().map(|y| y.0.as_bytes());
        set.execute((kind as i64, subject, yard, row.at_ms, &row.body))?;
        Ok(())
    }

    /// Removes one row.
    pub(crate) fn drop_view(&self, kind: ViewKind, subject: &[u8]) -> Result<()> {
        self.conn
            .prepare_cached("DELETE FROM view WHERE kind = ?1 AND subject = ?2")?
            .execute((kind as i64, subject))?;
        Ok(())
    }

    /// All rows of one view, by time and then subject.
    pub(crate) fn views(&self, kind: ViewKind) -> Result<Vec<Vec<u8>>> {
        let mut find = self
            .conn
            .prepare_cached("SELECT body FROM view WHERE kind = ?1 ORDER BY at_ms, subject")?;
        let rows = find.query_map([kind as i64], |r| r.get(0))?;
        Ok(rows.collect::<rusqlite::Result<_>>()?)
    }

    /// The rows of one view that belong to a yard, by time and then subject.
    pub(crate) fn views_of_yard(&self, kind: ViewKind, yard: SheetId) -> Result<Vec<Vec<u8>>> {
        let mut find = self.conn.prepare_cached(
            "SELECT body FROM view WHERE yard = ?1 AND kind = ?2 ORDER BY at_ms, subject",
        )?;
        let rows = find.query_map((yard.0.as_bytes(), kind as i64), |r| r.get(0))?;
        Ok(rows.collect::<rusqlite::Result<_>>()?)
    }

    /// The rows of one view that belong to a yard and to a span of time, its ends included.
    pub(crate) fn views_between(
        &self,
        kind: ViewKind,
        yard: SheetId,
        from_ms: i64,
        to_ms: i64,
    ) -> Result<Vec<Vec<u8>>> {
        let mut find = self.conn.prepare_cached(
            "SELECT body FROM view WHERE yard = ?1 AND kind = ?2 AND at_ms BETWEEN ?3 AND ?4
             ORDER BY at_ms, subject",
        )?;
        let rows = find.query_map((yard.0.as_bytes(), kind as i64, from_ms, to_ms), |r| {
            r.get(0)
        })?;
        Ok(rows.collect::<rusqlite::Result<_>>()?)
    }

    /// The rows of one view whose subject begins with a UUID, in the order of subjects.
    pub(crate) fn views_under(&self, kind: ViewKind, uuid: &[u8; 16]) -> Result<Vec<Vec<u8>>> {
        let last = [uuid.as_slice(), &[0xff; 17]].concat();
        let mut find = self.conn.prepare_cached(
            "SELECT body FROM view WHERE kind = ?1 AND subject BETWEEN ?2 AND ?3 ORDER BY subject",
        )?;
        let rows = find.query_map((kind as i64, uuid, last), |r| r.get(0))?;
        Ok(rows.collect::<rusqlite::Result<_>>()?)
    }

    /// Every row of every view as it is compared between phones and with a rebuild.
    pub(crate) fn all_views(&self) -> Result<Vec<ComparedRow>> {
        let mut find = self
            .conn
            .prepare("SELECT kind, subject, body FROM view ORDER BY kind, subject")?;
        let rows = find.query_map([], |r| Ok((r.get(0)?, r.get(1)?, r.get(2)?)))?;
        Ok(rows.collect::<rusqlite::Result<_>>()?)
    }
}
