//! The giving half of an exchange: tells heads, and hands over what is wanted.
//!
//! It never sends unasked, but for the first page of heads.

use minicbor::bytes::ByteVec;
use sward_book::ids::Hash;
use sward_book::log::{Head, Stamp};

use super::Outcome;
use super::message::Message;
use crate::log::{LOCATOR_MAX, Outline, name_of_own};
use crate::{CHUNK_BYTES_MAX, CrewError, Log, PeerFault, Result, Standing};

/// Heads on one page: about 150 KB.
pub(super) const PAGE_HEADS: usize = 2000;

#[derive(Default)]
pub(super) struct Give {
    told: bool,
    /// The last head told, while there are more.
    page_end: Option<Head>,
    serving: Option<Serving>,
    done: bool,
}

/// A want that is being served.
struct Serving {
    tip: Hash,
    /// The last entry that was sent and is not yet said to be on disk.
    sent: Hash,
    sent_seq: u64,
    entries: u64,
}

impl Give {
    pub(super) fn has_not_told(&self) -> bool {
        !self.told
    }

    pub(super) fn is_done(&self) -> bool {
        self.done
    }

    pub(super) fn end(&mut self) {
        self.told = true;
        self.done = true;
    }

    /// The first page of heads; an empty one for who is no member.
    pub(super) fn tell_heads(
        &mut self,
        standing: Standing,
        now: Stamp,
        log: &dyn Log,
    ) -> Result<Message> {
        self.told = true;
        if standing.is_member() {
            return self.page(None, now, log);
        }
        Ok(Message::Heads {
            clock: now,
            heads: Vec::new(),
            more: false,
        })
    }

    pub(super) fn on_more_heads(&mut self, now: Stamp, log: &dyn Log) -> Result<Message> {
        let Some(after) = self.page_end.filter(|_| !self.done) else {
            return Err(CrewError::Peer(PeerFault::HeadsBeyondEnd));
        };
        self.page(Some(after), now, log)
    }

    fn page(&mut self, after: Option<Head>, now: Stamp, log: &dyn Log) -> Result<Message> {
        let all = log.heads()?;
        let rest = all.partition_point(|head| after.is_some_and(|after| *head <= after));
        let page: Vec<Head> = all[rest..].iter().take(PAGE_HEADS).copied().collect();
        let more = rest + page.len() < all.len();
        self.page_end = page.last().copied().filter(|_| more);
        Ok(Message::Heads {
            clock: now,
            heads: page,
            more,
        })
    }

    pub(super) fn on_want(
        &mut self,
        tip: Hash,
        locator: &[Hash],
        standing: Standing,
        log: &dyn Log,
    ) -> Result<Message> {
        if self.done || !self.told || !standing.is_member() {
            return Err(CrewError::Peer(PeerFault::WantNotOffered));
        }
        if locator.len() > LOCATOR_MAX || !log.holds(tip)? {
            return Err(CrewError::Peer(PeerFault::WantNotThere));
        }
        if self
            .serving
            .as_ref()
            .is_some_and(|served| served.tip == tip)
        {
            return Err(CrewError::Peer(PeerFault::WantTwice));
        }
        let wires = log.entries_up_to(tip, locator, CHUNK_BYTES_MAX)?;
        self.send(tip, wires)
    }

    /// The next chunk, if what has been stored was not the last one.
    pub(super) fn on_stored(
        &mut self,
        seq: u64,
        log: &dyn Log,
        outcome: &mut Outcome,
    ) -> Result<Option<Message>> {
        let Some(served) = self.serving.take().filter(|s| s.sent_seq == seq) else {
            return Err(CrewError::Peer(PeerFault::ThanksForNothing));
        };
        outcome.given_entries += served.entries;
        if served.sent == served.tip {
            let whole = log
                .heads()?
                .into_iter()
                .find(|head| head.hash == served.tip);
            outcome.peer_holds.extend(whole);
            return Ok(None);
        }
        let wires = log.entries_up_to(served.tip, &[served.sent], CHUNK_BYTES_MAX)?;
        self.send(served.tip, wires).map(Some)
    }

    pub(super) fn on_done(&mut self) -> Result<()> {
        if self.done {
            return Err(CrewError::Peer(PeerFault::SecondFarewell));
        }
        self.serving = None;
        self.done = true;
        Ok(())
    }

    fn send(&mut self, tip: Hash, wires: Vec<Vec<u8>>) -> Result<Message> {
        let Some(last) = wires.last() else {
            return Err(CrewError::Peer(PeerFault::WantOfItsOwn));
        };
        self.serving = Some(Serving {
            tip,
            sent: name_of_own(last)?,
            sent_seq: Outline::of(last)?.seq,
            entries: wires.len() as u64,
        });
        Ok(Message::Entries(
            wires.into_iter().map(ByteVec::from).collect(),
        ))
    }
}
