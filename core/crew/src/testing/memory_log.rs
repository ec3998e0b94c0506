//! A log in memory, which keeps the promises of [`Log`] and nothing else.

use std::collections::{BTreeMap, BTreeSet};

use sward_book::fact::Fact;
use sward_book::ids::{Hash, StreamId};
use sward_book::log::{Entry, Head};
use sward_book::refusal::CrewRefusal;
use sward_book::{BookError, Result, Thing};

use crate::{Log, Standing, TakenIn};

/// Entries in memory.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct MemoryLog {
    crew: Option<Hash>,
    /// Entries with all before them.
    linked: BTreeMap<Hash, Entry>,
    /// Entries whose predecessor has not arrived.
    waiting: BTreeMap<Hash, Entry>,
    tips: BTreeSet<Head>,
    lamport_max: u64,
    /// How many more batches are stored before the disk is full; none: any number.
    room: Option<usize>,
}

impl MemoryLog {
    /// Adds an entry of this device's own.
    pub fn add_own(&mut self, entry: Entry) {
        if entry
            .body()
            .facts
            .iter()
            .any(|f| matches!(f, Fact::Founded(_)))
        {
            self.crew = Some(entry.hash());
        }
        self.link(entry);
    }

    /// Lets `batches` more be stored, and refuses what comes after as on a full disk.
    pub fn fill_up_after(&mut self, batches: Option<usize>) {
        self.room = batches;
    }

    /// How many entries are held with all before them.
    pub fn len(&self) -> usize {
        self.linked.len()
    }

    /// Whether there is nothing.
    pub fn is_empty(&self) -> bool {
        self.linked.is_empty()
    }

    /// The greatest order number.
    pub fn lamport_max(&self) -> u64 {
        self.lamport_max
    }

    /// Every entry that is held with all before it.
    pub fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.linked.values()
    }

    fn facts(&self) -> impl Iterator<Item = &Fact> {
        self.linked.values().flat_map(|e| &e.body().facts)
    }

    /// `tip` and what is before it, newest first.
    fn chain(&self, tip: Hash) -> impl Iterator<Item = &Entry> {
        std::iter::successors(self.linked.get(&tip), |e| self.linked.get(&e.body().prev))
    }

    fn store(&mut self, entry: Entry) {
        let prev = entry.body().prev;
        if prev != Hash::NONE && !self.linked.contains_key(&prev) {
            self.waiting.insert(entry.hash(), entry);
            return;
        }
        let mut arrived = vec![entry];
        while let Some(entry) = arrived.pop() {
            let hash = entry.hash();
            self.waiting.remove(&hash);
            arrived.extend(
                self.waiting
                    .values()
                    .filter(|e| e.body().prev == hash)
                    .cloned(),
            );
            self.link(entry);
        }
    }

    fn link(&mut self, entry: Entry) {
        let body = entry.body();
        let before = Head {
            stream: body.stream,
            seq: body.seq - 1,
            hash: body.prev,
        };
        self.tips.remove(&before);
        self.tips.insert(Head {
            stream: body.stream,
            seq: body.seq,
            hash: entry.hash(),
        });
        self.lamport_max = self.lamport_max.max(body.lamport);
        self.linked.insert(entry.hash(), entry);
    }
}

impl Log for MemoryLog {
    fn crew(&self) -> Result<Option<Hash>> {
        Ok(self.crew)
    }

    fn standing(&self, stream: StreamId) -> Result<Standing> {
        let mut standing = Standing::Unknown;
        for fact in self.facts() {
            let found = match fact {
                Fact::Founded(f) if f.device.stream == stream => {
                    Standing::Member(sward_book::fact::Role::CrewLead)
                }
                Fact::Admitted(f) if f.device.stream == stream => Standing::Member(f.role),
                Fact::Retired(f) if f.stream == stream => return Ok(Standing::Retired),
                Fact::JoinAsked(f) if f.device.stream == stream => Standing::Pending,
                _ => continue,
            };
            if !standing.is_member() {
                standing = found;
            }
        }
        Ok(standing)
    }

    fn join(&mut self, crew: Hash, wires: &[Vec<u8>], from: StreamId) -> Result<TakenIn> {
        self.crew = Some(crew);
        self.take_in(wires, from)
    }

    fn heads(&self) -> Result<Vec<Head>> {
        Ok(self.tips.iter().copied().collect())
    }

    fn holds(&self, hash: Hash) -> Result<bool> {
        Ok(self.linked.contains_key(&hash))
    }

    fn locator(&self, stream: StreamId) -> Result<Vec<Hash>> {
        let mut locator = Vec::new();
        for head in self.heads()?.into_iter().filter(|h| h.stream == stream) {
            let chain: Vec<Hash> = self.chain(head.hash).map(Entry::hash).collect();
            let doubling = std::iter::successors(Some(1_usize), |n| n.checked_mul(2));
            locator.extend(doubling.map_while(|n| chain.get(n - 1)));
            locator.extend(chain.last());
        }
        locator.dedup();
        Ok(locator)
    }

    fn entries_up_to(&self, tip: Hash, stop_at: &[Hash], bytes_max: usize) -> Result<Vec<Vec<u8>>> {
        if !self.holds(tip)? {
            return Err(BookError::NotFound {
                what: Thing::Entry,
                name: tip.to_string(),
            });
        }
        let chain = self.chain(tip).take_while(|e| !stop_at.contains(&e.hash()));
        let mut chain: Vec<&Entry> = chain.collect();
        chain.reverse();
        let mut bytes = 0;
        let fits = |(n, entry): &(usize, &Entry)| {
            bytes += entry.wire().len();
            *n == 0 || bytes <= bytes_max
        };
        let chunk = chain.into_iter().enumerate().take_while(fits);
        Ok(chunk.map(|(_, entry)| entry.wire().to_vec()).collect())
    }

    fn take_in(&mut self, wires: &[Vec<u8>], _: StreamId) -> Result<TakenIn> {
        if self.crew.is_none() {
            return Err(BookError::refused(CrewRefusal::NotOfACrewYet));
        }
        match &mut self.room {
            Some(0) => return Err(BookError::DiskFull),
            Some(batches) => *batches -= 1,
            None => {}
        }
        let mut taken = TakenIn::default();
        for wire in wires {
            let claimed = Entry::claimed_stream(wire);
            let is_bad = |stream| taken.refused.iter().any(|(s, _)| *s == Some(stream));
            if claimed.is_some_and(is_bad) {
                continue;
            }
            match Entry::check(wire) {
                Ok(entry) => {
                    let hash = entry.hash();
                    if self.linked.contains_key(&hash) || self.waiting.contains_key(&hash) {
                        taken.known += 1;
                    } else {
                        taken.new += 1;
                        self.store(entry);
                    }
                }
                Err(reason) => taken.refused.push((claimed, reason)),
            }
        }
        Ok(taken)
    }
}
