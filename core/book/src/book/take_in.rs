//! Taking in what a peer or a file brings: checked before believed, whole batches or nothing.

use std::collections::{BTreeMap, BTreeSet};

use super::{Book, CREW, NEW_KEYS};
use crate::fact::Fact;
use crate::ids::{Hash, SheetId, StreamId};
use crate::log::Entry;
use crate::refusal::CrewRefusal;
use crate::sheet::{SheetDoc, SheetKind};
use crate::store::Store;
use crate::view::{self, Touched};
use crate::{BookError, Result};

/// A stream of which something was refused, and why.
#[derive(Debug)]
pub struct Refused {
    /// The stream; none when not even that could be read.
    pub stream: Option<StreamId>,
    /// Why.
    pub error: BookError,
}

/// What a batch brought.
#[derive(Debug, Default)]
pub struct TakenIn {
    /// Entries that were not here before.
    pub new: u64,
    /// Entries that were here already.
    pub known: u64,
    /// What was refused. Everything else arrived all the same.
    pub refused: Vec<Refused>,
}

impl Book {
    /// Takes in entries from `source`, in one transaction: when this returns, they are on disk.
    /// A bad entry is refused with its reason, and with it the rest of its stream in this batch;
    /// all other streams arrive.
    ///
    /// A book that is not bound to a crew yet takes nothing in: see [`Book::join_crew`].
    ///
    /// # Errors
    /// [`BookError::DiskFull`], [`BookError::ReadOnly`], [`BookError::Damaged`]: then none of the
    /// batch was stored.
    pub fn take_in(&mut self, wires: &[Vec<u8>], source: Option<StreamId>) -> Result<TakenIn> {
        self.must_be_writable()?;
        let Some(crew) = self.crew else {
            return Err(BookError::refused(CrewRefusal::NotOfACrewYet));
        };
        let (entries, taken) = check_all(wires);
        self.store_checked(&entries, taken, crew, source)
    }

    fn store_checked(
        &mut self,
        entries: &[Entry],
        mut taken: TakenIn,
        crew: Hash,
        source: Option<StreamId>,
    ) -> Result<TakenIn> {
        let received_ms = self.env.clock().utc_ms;
        let own = self.secret.as_ref().map(crate::keys::DeviceSecret::stream);
        let bind = self.crew.is_none();
        let mut membership = bind;
        let mut lamport_max = self.lamport_max;
        let (new, known) = self.store.transaction(|store| {
            let mut touched = Touched::default();
            let mut changes = Changes::default();
            let (mut new, mut known) = (0, 0);
            if bind {
                store.set_local(CREW, &crew.0)?;
            }
            for entry in entries {
                if !store.add_entry(entry, received_ms, source)? {
                    known += 1;
                    continue;
                }
                new += 1;
                if Some(entry.body().stream) == own {
                    // Our own key wrote this, but not here: the store or the keys were copied.
                    store.set_local(NEW_KEYS, &[1])?;
                }
                membership |= entry.body().facts.iter().any(Fact::is_membership);
                lamport_max = lamport_max.max(entry.body().lamport);
                touched.add(entry);
                changes.add(entry);
            }
            changes.apply(store)?;
            view::refresh(store, Some(crew), touched)?;
            Ok((new, known))
        })?;
        self.lamport_max = lamport_max;
        if membership {
            self.reload()?;
        }
        taken.new = new;
        taken.known = known;
        Ok(taken)
    }

    /// Binds a book that asked to join to the crew whose founding and own admission are among
    /// `wires`, and takes all of them in.
    ///
    /// # Errors
    /// [`BookError::Refused`] when this book is of a crew already, or the entries do not hold
    /// the founding and an admission of this device; then nothing was stored.
    pub fn join_crew(
        &mut self,
        crew: Hash,
        wires: &[Vec<u8>],
        source: Option<StreamId>,
    ) -> Result<TakenIn> {
        self.must_be_writable()?;
        if self.crew.is_some_and(|own| own != crew) {
            return Err(BookError::refused(CrewRefusal::FileOfAnotherCrew));
        }
        let own = self.secret()?.stream();
        let (entries, taken) = check_all(wires);
        let practice = entries.iter().find(|e| e.hash() == crew).and_then(|e| {
            e.body().facts.iter().find_map(|f| match f {
                Fact::Founded(founded) => Some(founded.practice),
                _ => None,
            })
        });
        let admits_us = |fact: &Fact| matches!(fact, Fact::Admitted(a) if a.device.stream == own);
        let admitted = entries.iter().any(|e| e.body().facts.iter().any(admits_us));
        let Some(practice) = practice.filter(|_| admitted) else {
            return Err(BookError::refused(CrewRefusal::FileDoesNotAdmit));
        };
        if practice != self.is_practice()? {
            return Err(BookError::refused(CrewRefusal::PracticeDoesNotMix));
        }
        self.store_checked(&entries, taken, crew, source)
    }
}

/// Checks every entry; of a stream with a bad one, nothing after it in this batch.
fn check_all(wires: &[Vec<u8>]) -> (Vec<Entry>, TakenIn) {
    let mut taken = TakenIn::default();
    let mut bad: BTreeSet<StreamId> = BTreeSet::new();
    let mut entries = Vec::with_capacity(wires.len());
    for wire in wires {
        match Entry::check(wire) {
            Ok(entry) if bad.contains(&entry.body().stream) => {}
            Ok(entry) => entries.push(entry),
            Err(error) => {
                let stream = Entry::claimed_stream(wire);
                if stream.is_none_or(|s| bad.insert(s)) {
                    taken.refused.push(Refused { stream, error });
                }
            }
        }
    }
    (entries, taken)
}

/// Sheet changes of many entries, gathered so that each sheet is loaded and saved once.
#[derive(Default)]
pub(super) struct Changes {
    by_sheet: BTreeMap<(SheetId, SheetKind), Vec<Vec<u8>>>,
}

impl Changes {
    pub(super) fn add(&mut self, entry: &Entry) {
        for change in &entry.body().changes {
            self.by_sheet
                .entry((change.sheet, change.kind))
                .or_default()
                .push(change.change.clone());
        }
    }

    pub(super) fn apply(self, store: &Store) -> Result<()> {
        for ((id, kind), changes) in self.by_sheet {
            let mut doc = match store.sheet(id, kind)? {
                Some(saved) => SheetDoc::load(&saved)?,
                None => SheetDoc::default(),
            };
            doc.apply_each(changes);
            let bytes = doc.save();
            store.set_sheet(id, kind, &bytes, &doc.heads())?;
        }
        Ok(())
    }
}
