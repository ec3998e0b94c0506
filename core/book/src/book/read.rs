//! Reading: views, sheets, single facts, and where an entry came from.

use super::Book;
use crate::fact::Fact;
use crate::ids::{FactId, Hash, KeepOffId, SheetId, StreamId, VisitId};
use crate::log::{Entry, Head};
use crate::sheet::{LabelSheet, PlanSheet, SheetDoc, SheetKind, YardSheet};
use crate::store::{ComparedRow, FoundByRow, Store, ViewKind};
use crate::view::keep_off::KeepOffView;
use crate::view::roster::Roster;
use crate::view::sheets::{LabelView, YardView};
use crate::view::twice::TwiceView;
use crate::view::visit::VisitView;
use crate::view::{View, read_row};
use crate::{BookError, Result, Thing};

/// What a peer said it holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Peer {
    /// The peer.
    pub stream: StreamId,
    /// Its heads.
    pub heads: Vec<Head>,
    /// When it said so, by the own clock; milliseconds since 1970 in UTC.
    pub told_utc_ms: i64,
}

/// Everything that must be equal on two phones with the same entries.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Compared {
    /// One hash over all heads.
    pub digest: Hash,
    /// Every view row: kind, subject, content.
    pub views: Vec<ComparedRow>,
    /// What every view row is found by.
    pub found_by: Vec<FoundByRow>,
    /// Every sheet's document heads.
    pub sheets: Vec<(SheetId, SheetKind, Vec<u8>)>,
}

pub(super) fn roster(store: &Store) -> Result<Roster> {
    match store.view(ViewKind::Roster, &[])? {
        Some(body) => read_row(&body),
        None => Ok(Roster::default()),
    }
}

impl Book {
    pub(super) fn row<V: View>(&self, subject: &[u8]) -> Result<Option<V>> {
        self.store
            .view(V::KIND, subject)?
            .map(|body| read_row(&body))
            .transpose()
    }

    pub(super) fn rows<V: View>(&self) -> Result<Vec<V>> {
        self.store
            .views(V::KIND)?
            .iter()
            .map(|body| read_row(body))
            .collect()
    }

    pub(super) fn rows_of_yard<V: View>(&self, yard: SheetId) -> Result<Vec<V>> {
        self.store
            .views_of_yard(V::KIND, yard)?
            .iter()
            .map(|body| read_row(body))
            .collect()
    }

    /// All yards.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn yards(&self) -> Result<Vec<YardView>> {
        self.rows()
    }

    /// One yard's row.
    ///
    /// # Errors
    /// [`BookError::NotFound`], [`BookError::Damaged`].
    pub fn yard(&self, yard: SheetId) -> Result<YardView> {
        self.row(yard.0.as_bytes())?
            .ok_or_else(|| BookError::NotFound {
                what: Thing::Yard,
                name: yard.to_string(),
            })
    }

    /// All label sheets.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn labels(&self) -> Result<Vec<LabelView>> {
        self.rows()
    }

    /// All visits, the oldest first.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn visits(&self) -> Result<Vec<VisitView>> {
        self.rows()
    }

    /// The visits to one yard, the oldest first.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn visits_to(&self, yard: SheetId) -> Result<Vec<VisitView>> {
        self.rows_of_yard(yard)
    }

    /// One visit.
    ///
    /// # Errors
    /// [`BookError::NotFound`], [`BookError::Damaged`].
    pub fn visit(&self, visit: VisitId) -> Result<VisitView> {
        self.row(visit.0.as_bytes())?
            .ok_or_else(|| BookError::NotFound {
                what: Thing::Visit,
                name: visit.to_string(),
            })
    }

    /// All keep-offs there ever were, by start.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn keep_offs(&self) -> Result<Vec<KeepOffView>> {
        self.rows()
    }

    /// The keep-offs of one visit.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn keep_offs_of(&self, visit: VisitId) -> Result<Vec<KeepOffView>> {
        let rows = self
            .store
            .views_under(ViewKind::KeepOff, visit.0.as_bytes())?;
        rows.iter().map(|body| read_row(body)).collect()
    }

    /// One keep-off of a visit.
    ///
    /// # Errors
    /// [`BookError::NotFound`], [`BookError::Damaged`].
    pub fn keep_off(&self, visit: VisitId, keep_off: KeepOffId) -> Result<KeepOffView> {
        self.row(&[*visit.0.as_bytes(), *keep_off.0.as_bytes()].concat())?
            .ok_or_else(|| BookError::NotFound {
                what: Thing::KeepOff,
                name: keep_off.to_string(),
            })
    }

    /// Pairs of visits that may be one job.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn entered_twice(&self) -> Result<Vec<TwiceView>> {
        self.rows()
    }

    /// A sheet's document.
    ///
    /// # Errors
    /// [`BookError::NotFound`], [`BookError::Damaged`].
    pub fn sheet(&self, id: SheetId, kind: SheetKind) -> Result<SheetDoc> {
        match self.store.sheet(id, kind)? {
            Some(saved) => SheetDoc::load(&saved),
            None => Err(BookError::NotFound {
                what: Thing::Sheet,
                name: id.to_string(),
            }),
        }
    }

    /// What a yard sheet says.
    ///
    /// # Errors
    /// [`BookError::NotFound`], [`BookError::Damaged`].
    pub fn yard_sheet(&self, yard: SheetId) -> Result<YardSheet> {
        Ok(YardSheet::read(&self.sheet(yard, SheetKind::Yard)?))
    }

    /// What a label sheet says, merged to the safe side.
    ///
    /// # Errors
    /// [`BookError::NotFound`]; [`BookError::Refused`] while its method is not filled in.
    pub fn label_sheet(&self, label: SheetId) -> Result<LabelSheet> {
        LabelSheet::read(&self.sheet(label, SheetKind::Label)?)
    }

    /// A label sheet's row: its conflicts, and whether it has been read back.
    ///
    /// # Errors
    /// [`BookError::NotFound`], [`BookError::Damaged`].
    pub fn label(&self, label: SheetId) -> Result<LabelView> {
        self.row(label.0.as_bytes())?
            .ok_or_else(|| BookError::NotFound {
                what: Thing::LabelSheet,
                name: label.to_string(),
            })
    }

    /// A visit's plan; none while there is none.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn plan(&self, visit: VisitId) -> Result<Option<PlanSheet>> {
        let saved = self.store.sheet(SheetId(visit.0), SheetKind::Plan)?;
        saved
            .map(|saved| Ok(PlanSheet::read(&SheetDoc::load(&saved)?)))
            .transpose()
    }

    /// An entry by its name.
    ///
    /// # Errors
    /// [`BookError::NotFound`], [`BookError::Damaged`].
    pub fn entry(&self, hash: Hash) -> Result<Entry> {
        self.store.entry(hash)?.ok_or_else(|| BookError::NotFound {
            what: Thing::Entry,
            name: hash.to_string(),
        })
    }

    /// One fact with the entry that carries it.
    ///
    /// # Errors
    /// [`BookError::NotFound`], [`BookError::Damaged`].
    pub fn fact(&self, id: FactId) -> Result<(Entry, Fact)> {
        let entry = self.entry(id.entry)?;
        let fact = entry.body().facts.get(usize::from(id.index)).cloned();
        let fact = fact.ok_or_else(|| BookError::NotFound {
            what: Thing::Fact,
            name: id.to_string(),
        })?;
        Ok((entry, fact))
    }

    /// How many entries there are.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn entry_count(&self) -> Result<u64> {
        self.store.entry_count()
    }

    /// Everything that must be equal on two phones with the same entries.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn compared(&self) -> Result<Compared> {
        Ok(Compared {
            digest: self.digest()?,
            views: self.store.all_views()?,
            found_by: self.store.all_found_by()?,
            sheets: self.store.sheet_heads()?,
        })
    }
}
