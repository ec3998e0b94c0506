//! Rows of views: bytes under a subject, and the columns they are found by.
//!
//! Questions that cross subjects are in [`super::find`]; what a row means is [`crate::view`].

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
    /// An incident.
    Incident = 7,
}

/// A row as it is compared between phones: kind, subject, content.
pub type ComparedRow = (i64, Vec<u8>, Vec<u8>);
/// What a row is found by, as it is compared between phones: kind, subject, the columns in words.
pub type FoundByRow = (i64, Vec<u8>, String);

/// One row of a view.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct ViewRow {
    /// The yard it belongs to, if any.
    pub(crate) yard: Option<SheetId>,
    /// What it is sorted by: milliseconds since 1970 in UTC.
    pub(crate) at_ms: Option<i64>,
    /// How far a visit has come; below 2 it is open.
    pub(crate) state: Option<i64>,
    /// From when on a keep-off is over.
    pub(crate) until_ms: Option<i64>,
    /// The day of a planned return, counted from 0001-01-01 as 1.
    pub(crate) returns: Option<i64>,
    /// Whether there is something to settle.
    pub(crate) asks: bool,
    /// What a person may search for, folded.
    pub(crate) words: Option<String>,
    /// The row's content in deterministic CBOR.
    pub(crate) body: Vec<u8>,
}

/// A row that is found elsewhere than before.
pub(crate) struct Moved {
    /// The yard that it belonged to before.
    pub(crate) was_in: Option<SheetId>,
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

    /// Sets one row. Where it is to be found at another place than before, or for the first time,
    /// answers the yard that it belonged to until now.
    pub(crate) fn set_view(
        &self,
        kind: ViewKind,
        subject: &[u8],
        row: &ViewRow,
    ) -> Result<Option<Moved>> {
        let yard = row.yard.as_ref().map(|y| y.0.as_bytes());
        let asks = row.asks.then_some(1);
        // An action changes what a row says far more often than where it is found, and an index
        // whose columns are not named here costs nothing.
        let mut update = self.conn.prepare_cached(
            "UPDATE view SET body = ?6, state = ?7, until_ms = ?8, returns = ?9,
                    due = CASE WHEN due IS NULL THEN NULL ELSE ?9 END, asks = ?10
             WHERE kind = ?1 AND subject = ?2 AND yard IS ?3 AND at_ms IS ?4 AND words IS ?5",
        )?;
        let values = rusqlite::params![
            kind as i64,
            subject,
            yard,
            row.at_ms,
            row.words.as_deref().map(str::as_bytes),
            row.body,
            row.state,
            row.until_ms,
            row.returns,
            asks
        ];
        if update.execute(values)? > 0 {
            return Ok(None);
        }
        let was_in = self.yard_of_view(kind, subject)?;
        let mut set = self.conn.prepare_cached(
            "INSERT OR REPLACE INTO view
             (kind, subject, yard, at_ms, words, body, state, until_ms, returns, asks)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)",
        )?;
        set.execute(values)?;
        Ok(Some(Moved { was_in }))
    }

    fn yard_of_view(&self, kind: ViewKind, subject: &[u8]) -> Result<Option<SheetId>> {
        let mut find = self
            .conn
            .prepare_cached("SELECT yard FROM view WHERE kind = ?1 AND subject = ?2")?;
        let yard: Option<Option<Vec<u8>>> = find
            .query_row((kind as i64, subject), |r| r.get(0))
            .optional()?;
        yard.flatten()
            .map(|yard| SheetId::from_slice(&yard))
            .transpose()
    }

    /// Marks the planned return of a yard's newest visit as due, and no other's there: whoever
    /// came later has returned.
    pub(crate) fn mark_due(&self, yard: SheetId) -> Result<()> {
        let yard = yard.0.as_bytes();
        let mut newest = self.conn.prepare_cached(
            "SELECT subject FROM view WHERE yard = ?1 AND kind = 4
             ORDER BY at_ms DESC, subject DESC LIMIT 1",
        )?;
        let newest: Option<Vec<u8>> = newest.query_row([yard], |r| r.get(0)).optional()?;
        self.conn
            .prepare_cached(
                "UPDATE view SET due = NULL
                 WHERE yard = ?1 AND due IS NOT NULL AND subject IS NOT ?2",
            )?
            .execute((yard, &newest))?;
        self.conn
            .prepare_cached("UPDATE view SET due = returns WHERE kind = 4 AND subject = ?1")?
            .execute([&newest])?;
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

    /// What every row is found by, as it is compared between phones and with a rebuild.
    pub(crate) fn all_found_by(&self) -> Result<Vec<FoundByRow>> {
        let mut find = self.conn.prepare(
            "SELECT kind, subject, concat_ws('|', quote(yard), quote(at_ms), quote(state),
                    quote(until_ms), quote(returns), quote(due), quote(asks), quote(words))
             FROM view ORDER BY kind, subject",
        )?;
        let rows = find.query_map([], |r| Ok((r.get(0)?, r.get(1)?, r.get(2)?)))?;
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
