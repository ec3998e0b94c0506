//! Proving a store whole: every entry checked anew, everything below the log made anew beside it
//! and compared.

use std::collections::BTreeMap;

use super::Book;
use super::take_in::Changes;
use crate::Result;
use crate::ids::StreamId;
use crate::log::Entry;
use crate::sheet::SheetDoc;
use crate::store::Store;
use crate::view::refresh_all;

/// What a check of a whole store found.
#[derive(Debug, Default, Clone, PartialEq, Eq, serde::Serialize)]
pub struct Verified {
    /// Entries checked.
    pub entries: u64,
    /// View rows that are as they must be.
    pub views: u64,
    /// Sheets that are as they must be.
    pub sheets: u64,
    /// Everything that is not as it must be; empty when the store is whole.
    pub faults: Vec<String>,
    /// Streams with an entry whose predecessor is not here, and how many: not a fault, but
    /// something to ask the crew for.
    pub waiting: Vec<(StreamId, u64)>,
    /// Streams with two branches: a device was copied or restored with its keys.
    pub forked: Vec<StreamId>,
}

impl Book {
    /// Checks the whole store: the file, every hash and signature, every chain, and that all
    /// sheets and views are what the log makes of them. `progress` is told how many entries
    /// are done, of how many.
    ///
    /// # Errors
    /// [`crate::BookError::Damaged`] when the file cannot be read at all.
    pub fn verify(&self, progress: &mut dyn FnMut(u64, u64)) -> Result<Verified> {
        let mut found = Verified {
            faults: self.store.integrity()?,
            ..Verified::default()
        };
        if !found.faults.is_empty() {
            return Ok(found);
        }
        let total = self.store.entry_count()?;
        let beside = Store::in_memory()?;
        let mut changes = Changes::default();
        beside.transaction(|beside| {
            self.store.each_entry(|id, hash, wire| {
                found.entries += 1;
                progress(found.entries, total);
                match Entry::check(&wire) {
                    Ok(entry) if entry.hash() != hash => {
                        found
                            .faults
                            .push(format!("entry in row {id}: not the one it is named"));
                    }
                    Ok(entry) => {
                        beside.add_entry(&entry, 0, None)?;
                        changes.add(&entry);
                    }
                    Err(error) => found.faults.push(format!("entry in row {id}: {error}")),
                }
                Ok(())
            })?;
            changes.apply(beside)?;
            refresh_all(beside, self.crew())
        })?;
        self.compare(&beside, &mut found)?;
        found.waiting = self.store.waiting()?;
        found.forked = self.store.forked_streams()?;
        Ok(found)
    }

    fn compare(&self, beside: &Store, found: &mut Verified) -> Result<()> {
        if self.store.tips()? != beside.tips()? {
            found
                .faults
                .push("the ends of the streams are not those of the log".to_owned());
        }
        let (here, anew) = (self.store.sheet_heads()?, beside.sheet_heads()?);
        found.sheets = here.iter().filter(|row| anew.contains(row)).count() as u64;
        if here != anew {
            found
                .faults
                .push("some sheet is not what the log makes of it".to_owned());
        }
        for (id, kind, heads) in &here {
            let saved = self.store.sheet(*id, *kind)?.unwrap_or_default();
            let matches = SheetDoc::load_checked(&saved).is_ok_and(|mut doc| doc.heads() == *heads);
            if !matches {
                found
                    .faults
                    .push(format!("sheet {id}: its document is damaged"));
            }
        }
        let (here, anew) = (self.store.all_views()?, beside.all_views()?);
        let rows: BTreeMap<_, _> = anew.iter().map(|(k, s, b)| ((k, s), b)).collect();
        for (kind, subject, body) in &here {
            if rows.get(&(kind, subject)) == Some(&body) {
                found.views += 1;
            } else {
                found.faults.push(format!(
                    "a view (kind {kind}) is not what the log makes of it"
                ));
            }
        }
        if self.store.all_found_by()? != beside.all_found_by()? {
            found
                .faults
                .push("some view is not found by what the log makes of it".to_owned());
        }
        if here.len() != anew.len() {
            found.faults.push(format!(
                "{} view rows, where the log makes {}",
                here.len(),
                anew.len()
            ));
        }
        Ok(())
    }

    /// Makes every sheet and view anew from the log, in one transaction: for a store that
    /// [`Book::verify`] found at odds with its log. The log itself is never changed.
    ///
    /// # Errors
    /// [`crate::BookError::ReadOnly`], [`crate::BookError::DiskFull`],
    /// [`crate::BookError::Damaged`].
    pub fn rebuild(&mut self) -> Result<()> {
        self.must_be_writable()?;
        let crew = self.crew();
        self.store.transaction(|store| {
            store.drop_derived()?;
            let mut changes = Changes::default();
            store.each_entry(|_, _, wire| {
                changes.add(&Entry::from_own_store(wire)?);
                Ok(())
            })?;
            changes.apply(store)?;
            refresh_all(store, crew)
        })?;
        self.reload()
    }
}
