//! One action, one entry, one transaction.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry as MapEntry;

use super::{Book, CREW, SEEN};
use crate::fact::{Fact, Role};
use crate::ids::{Hash, ItemId, SheetId};
use crate::log::{
    Body, ENTRY_BYTES_MAX, ENTRY_FORMAT, Entry, FACTS_MAX, LAMPORT_MAX, SheetChange, sign_entry,
};
use crate::refusal::{CrewRefusal, StoreRefusal};
use crate::sheet::{FieldValue, SheetDoc, SheetKind, actor_of, check_text, schema};
use crate::view::{self, Touched};
use crate::{BookError, Result, Thing};

struct Editing {
    doc: SheetDoc,
}

/// Collects what one action writes. It reads the book as it was before the action.
pub struct Writer<'a> {
    book: &'a Book,
    facts: Vec<Fact>,
    sheets: BTreeMap<(SheetId, SheetKind), Editing>,
}

impl Writer<'_> {
    /// The book as it was before the action.
    pub fn book(&self) -> &Book {
        self.book
    }

    /// Adds a fact.
    pub fn fact(&mut self, fact: Fact) {
        self.facts.push(fact);
    }

    /// Begins a new sheet.
    ///
    /// # Errors
    /// As [`Writer::begin_sheet`].
    pub fn new_sheet(&mut self, kind: SheetKind) -> Result<SheetId> {
        let id = SheetId(self.book.env.new_uuid());
        self.begin_sheet(id, kind)?;
        Ok(id)
    }

    /// Begins a sheet under a given name, if it is not there yet.
    ///
    /// # Errors
    /// [`BookError::Damaged`] for a sheet that is there and cannot be read.
    pub fn begin_sheet(&mut self, id: SheetId, kind: SheetKind) -> Result<()> {
        let actor = self.actor()?;
        if let MapEntry::Vacant(place) = self.sheets.entry((id, kind)) {
            let mut doc = SheetDoc::default();
            match self.book.store.sheet(id, kind)? {
                Some(saved) => {
                    doc = SheetDoc::load(&saved)?;
                    doc.set_actor(actor);
                }
                None => doc.begin(kind, actor)?,
            }
            place.insert(Editing { doc });
        }
        Ok(())
    }

    fn actor(&self) -> Result<[u8; 16]> {
        Ok(actor_of(self.book.secret()?.stream(), self.book.nonce))
    }

    fn editing(&mut self, id: SheetId, kind: SheetKind) -> Result<&mut SheetDoc> {
        if !self.sheets.contains_key(&(id, kind)) {
            if self.book.store.sheet(id, kind)?.is_none() {
                return Err(BookError::NotFound {
                    what: Thing::Sheet,
                    name: id.to_string(),
                });
            }
            self.begin_sheet(id, kind)?;
        }
        Ok(&mut self.sheets.get_mut(&(id, kind)).expect("just begun").doc)
    }

    /// Writes what a person typed into a field of a sheet.
    ///
    /// # Errors
    /// [`BookError::NotFound`] for an unknown field or sheet; what [`check_text`] refuses.
    pub fn set(&mut self, id: SheetId, kind: SheetKind, key: &str, typed: &str) -> Result<()> {
        let field = schema::field(kind, key).ok_or_else(|| BookError::NotFound {
            what: Thing::Field,
            name: key.to_owned(),
        })?;
        let value = check_text(field, typed)?;
        self.editing(id, kind)?.set(key, &value)
    }

    /// A name for a new item of a list.
    pub fn new_item(&self) -> ItemId {
        ItemId(self.book.env.new_uuid())
    }

    /// Writes what a person typed into a field of an item of a list.
    ///
    /// # Errors
    /// As [`Writer::set`].
    pub fn set_item(
        &mut self,
        (id, kind): (SheetId, SheetKind),
        list: &str,
        item: ItemId,
        key: &str,
        typed: &str,
    ) -> Result<()> {
        let field = schema::lists(kind)
            .iter()
            .find(|l| l.key == list)
            .and_then(|l| l.fields.iter().find(|f| f.key == key))
            .ok_or_else(|| BookError::NotFound {
                what: Thing::Field,
                name: key.to_owned(),
            })?;
        let value = check_text(field, typed)?;
        self.editing(id, kind)?.set_item(list, item, key, &value)
    }

    /// Writes a checked value into a field of an item of a list: an outline, a mark.
    ///
    /// # Errors
    /// [`BookError::NotFound`] for an unknown sheet or list.
    pub fn set_item_value(
        &mut self,
        (id, kind): (SheetId, SheetKind),
        list: &str,
        item: ItemId,
        key: &str,
        value: &FieldValue,
    ) -> Result<()> {
        self.editing(id, kind)?.set_item(list, item, key, value)
    }

    fn changes(&mut self, utc_ms: i64) -> Vec<SheetChange> {
        let nonce = self.book.nonce;
        let mut changes = Vec::new();
        for ((sheet, kind), editing) in &mut self.sheets {
            if let Some(change) = editing.doc.finish_edit(utc_ms) {
                changes.push(SheetChange {
                    sheet: *sheet,
                    kind: *kind,
                    nonce,
                    change,
                });
            }
        }
        changes
    }
}

impl Book {
    /// Runs one action: what `work` collects becomes one signed entry, stored in one transaction
    /// with the sheets and views that it touches. When `work` fails, or the disk does, nothing
    /// is stored.
    ///
    /// # Errors
    /// What `work` returns; [`BookError::DiskFull`], [`BookError::ReadOnly`]; and
    /// [`BookError::Refused`] where the device may only read.
    pub fn write<T>(&mut self, work: impl FnOnce(&mut Writer<'_>) -> Result<T>) -> Result<T> {
        self.must_be_writable()?;
        if self.must_begin_anew()? && !self.is_first_of_stream()? {
            return Err(BookError::refused(CrewRefusal::KeysInUseElsewhere));
        }
        self.must_be_allowed()?;
        // One transaction around reading and writing: the action sees one state of the book, and
        // SQLite takes its locks once.
        self.store.begin()?;
        let written = self.write_within(work);
        let (value, entry) = self.store.end(written)?;
        if let Some(entry) = entry {
            self.have_written(&entry)?;
        }
        Ok(value)
    }

    fn write_within<T>(
        &self,
        work: impl FnOnce(&mut Writer<'_>) -> Result<T>,
    ) -> Result<(T, Option<Entry>)> {
        let mut writer = Writer {
            book: self,
            facts: Vec::new(),
            sheets: BTreeMap::new(),
        };
        let value = work(&mut writer)?;
        let stamp = self.stamp()?;
        let changes = writer.changes(stamp.utc_ms);
        let Writer { facts, sheets, .. } = writer;
        if facts.is_empty() && changes.is_empty() {
            return Ok((value, None));
        }
        if facts.len() > FACTS_MAX || changes.len() > FACTS_MAX {
            return Err(BookError::refused(StoreRefusal::TooMuchAtOnce));
        }
        let entry = self.sign(facts, changes, stamp)?;
        let docs = sheets
            .into_iter()
            .map(|(key, editing)| (key, editing.doc))
            .collect();
        self.store_entry(&entry, docs, false)?;
        Ok((value, Some(entry)))
    }

    /// The founding entry names the crew, so the crew is bound in the same transaction.
    pub(super) fn write_founding(&mut self, fact: Fact) -> Result<()> {
        let stamp = self.stamp()?;
        let entry = self.sign(vec![fact], Vec::new(), stamp)?;
        self.store
            .transaction(|_| self.store_entry(&entry, Vec::new(), true))?;
        self.have_written(&entry)
    }

    fn must_be_allowed(&self) -> Result<()> {
        use crate::view::roster::MemberState;
        let Some(member) = self.roster.member(self.secret()?.stream()) else {
            return Ok(());
        };
        if member.state == MemberState::Member && member.role == Some(Role::Office) {
            return Err(BookError::refused(CrewRefusal::MayOnlyRead));
        }
        Ok(())
    }

    fn is_first_of_stream(&self) -> Result<bool> {
        let stream = self.secret()?.stream();
        Ok(!self.store.tips()?.iter().any(|tip| tip.stream == stream))
    }

    fn sign(
        &self,
        facts: Vec<Fact>,
        changes: Vec<SheetChange>,
        written: crate::log::Stamp,
    ) -> Result<Entry> {
        let secret = self.secret()?;
        let stream = secret.stream();
        let tips = self.store.tips()?;
        // Of a forked stream of our own, the branch this device has written goes on.
        let own = tips
            .iter()
            .filter(|t| t.stream == stream)
            .max_by_key(|t| t.seq);
        let (seq, prev) = own.map_or((1, Hash::NONE), |head| (head.seq + 1, head.hash));
        let known = self.store.local(SEEN)?.unwrap_or_default();
        let seen = tips
            .iter()
            .filter(|t| t.stream != stream && !known.chunks(32).any(|k| k == t.hash.0))
            .map(|t| t.hash)
            .collect::<std::collections::BTreeSet<_>>();
        let body = Body {
            format: ENTRY_FORMAT,
            stream,
            seq,
            prev,
            seen: seen.into_iter().collect(),
            lamport: (self.lamport_max + 1).min(LAMPORT_MAX),
            written,
            facts,
            changes,
        };
        let entry = sign_entry(body, secret.signing());
        if entry.wire().len() > ENTRY_BYTES_MAX {
            return Err(BookError::refused(StoreRefusal::TooMuchAtOnce));
        }
        Ok(entry)
    }

    /// Stores an entry with the sheets and views that it touches, within a transaction.
    fn store_entry(
        &self,
        entry: &Entry,
        docs: Vec<((SheetId, SheetKind), SheetDoc)>,
        founding: bool,
    ) -> Result<()> {
        let store = &self.store;
        let crew = if founding {
            Some(entry.hash())
        } else {
            self.crew
        };
        if !store.add_entry(entry, entry.body().written.utc_ms, None)? {
            return Err(BookError::Damaged(
                "the same entry was written twice".to_owned(),
            ));
        }
        if founding {
            store.set_local(CREW, &entry.hash().0)?;
        }
        for ((id, kind), mut doc) in docs {
            let bytes = doc.save();
            store.set_sheet(id, kind, &bytes, &doc.heads())?;
        }
        if !entry.body().seen.is_empty() {
            let tips = store.tips()?;
            let seen: Vec<u8> = tips.iter().flat_map(|t| t.hash.0).collect();
            store.set_local(SEEN, &seen)?;
        }
        let mut touched = Touched::default();
        touched.add(entry);
        view::refresh(store, crew, touched)
    }

    fn have_written(&mut self, entry: &Entry) -> Result<()> {
        self.lamport_max = self.lamport_max.max(entry.body().lamport);
        if entry.body().facts.iter().any(Fact::is_membership) {
            self.reload()?;
        }
        Ok(())
    }
}
