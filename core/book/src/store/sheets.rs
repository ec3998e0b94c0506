//! The present state of sheets.

use rusqlite::OptionalExtension as _;

use super::Store;
use crate::ids::SheetId;
use crate::sheet::SheetKind;
use crate::{BookError, Result};

pub(super) fn kind_number(kind: SheetKind) -> i64 {
    match kind {
        SheetKind::Yard => 0,
        SheetKind::Label => 1,
        SheetKind::Plan => 2,
        SheetKind::Equipment => 3,
        SheetKind::Stock => 4,
        SheetKind::Person => 5,
        SheetKind::HelpLines => 6,
    }
}

pub(super) fn kind_of(number: i64) -> Result<SheetKind> {
    match number {
        0 => Ok(SheetKind::Yard),
        1 => Ok(SheetKind::Label),
        2 => Ok(SheetKind::Plan),
        3 => Ok(SheetKind::Equipment),
        4 => Ok(SheetKind::Stock),
        5 => Ok(SheetKind::Person),
        6 => Ok(SheetKind::HelpLines),
        _ => Err(BookError::Damaged(format!("unknown sheet kind {number}"))),
    }
}

impl Store {
    /// A sheet's saved document.
    pub(crate) fn sheet(&self, id: SheetId, kind: SheetKind) -> Result<Option<Vec<u8>>> {
        let mut find = self
            .conn
            .prepare_cached("SELECT doc FROM sheet WHERE id = ?1 AND kind = ?2")?;
        Ok(find
            .query_row((id.0.as_bytes(), kind_number(kind)), |r| r.get(0))
            .optional()?)
    }

    /// Every sheet of a kind with its saved document, by id: the order in which they were made.
    pub(crate) fn sheets_of(&self, kind: SheetKind) -> Result<Vec<(SheetId, Vec<u8>)>> {
        let mut find = self
            .conn
            .prepare_cached("SELECT id, doc FROM sheet WHERE kind = ?1 ORDER BY id")?;
        let rows = find.query_map([kind_number(kind)], |r| {
            Ok((r.get::<_, Vec<u8>>(0)?, r.get::<_, Vec<u8>>(1)?))
        })?;
        rows.map(|row| {
            let (id, doc) = row?;
            Ok((SheetId::from_slice(&id)?, doc))
        })
        .collect()
    }

    /// Stores a sheet's document.
    pub(crate) fn set_sheet(
        &self,
        id: SheetId,
        kind: SheetKind,
        doc: &[u8],
        heads: &[u8],
    ) -> Result<()> {
        let mut set = self.conn.prepare_cached(
            "INSERT OR REPLACE INTO sheet (id, kind, doc, heads) VALUES (?1, ?2, ?3, ?4)",
        )?;
        set.execute((id.0.as_bytes(), kind_number(kind), doc, heads))?;
        Ok(())
    }

    /// Every sheet with the heads of its document: what is compared between phones.
    pub(crate) fn sheet_heads(&self) -> Result<Vec<(SheetId, SheetKind, Vec<u8>)>> {
        let mut find = self
            .conn
            .prepare_cached("SELECT id, kind, heads FROM sheet ORDER BY id, kind")?;
        let rows = find.query_map([], |r| {
            Ok((r.get::<_, Vec<u8>>(0)?, r.get::<_, i64>(1)?, r.get(2)?))
        })?;
        rows.map(|row| {
            let (id, kind, heads) = row?;
            Ok((SheetId::from_slice(&id)?, kind_of(kind)?, heads))
        })
        .collect()
    }
}
