//! The taking half of an exchange: compares heads, asks for what is lacking, has it stored.
//!
//! One thing is asked for at a time, and only that is taken.

use std::collections::{BTreeSet, VecDeque};

use sward_book::BookError;
use sward_book::ids::{Hash, StreamId};
use sward_book::log::Head;

use super::Outcome;
use super::give::PAGE_HEADS;
use super::message::Message;
use crate::log::Outline;
use crate::{CHUNK_BYTES_MAX, CrewError, Log, PeerFault, Result};

/// The most heads that are compared in one exchange. A peer that tells more is not told apart
/// from one that never comes to an end.
const HEADS_MAX: usize = 100_000;

#[derive(Default)]
pub(super) struct Pull {
    state: State,
    /// Heads of this page that are lacking.
    lacking: VecDeque<Head>,
    /// The last head of this page.
    page_end: Option<Head>,
    more: bool,
    compared: usize,
    /// Streams that were refused; the rest of them is not asked for.
    refused: BTreeSet<StreamId>,
}

#[derive(Default)]
enum State {
    #[default]
    AwaitsHeads,
    AwaitsEntries(Wanted),
    Done,
}

/// The branch that was asked for.
struct Wanted {
    head: Head,
    locator: Vec<Hash>,
    /// The number of the last entry that is on disk; none before the first chunk.
    stored_seq: Option<u64>,
}

impl Pull {
    pub(super) fn is_done(&self) -> bool {
        matches!(self.state, State::Done)
    }

    pub(super) fn end(&mut self) {
        self.state = State::Done;
    }

    pub(super) fn on_heads(
        &mut self,
        heads: Vec<Head>,
        more: bool,
        log: &dyn Log,
        out: &mut Vec<Message>,
    ) -> Result<()> {
        if !matches!(self.state, State::AwaitsHeads) {
            return Err(CrewError::Peer(PeerFault::HeadsNotAskedFor));
        }
        let in_order = self
            .page_end
            .iter()
            .chain(&heads)
            .is_sorted_by(|a, b| a < b);
        self.compared += heads.len();
        if !in_order || heads.len() > PAGE_HEADS || self.compared > HEADS_MAX {
            return Err(CrewError::Peer(PeerFault::HeadsOutOfOrder));
        }
        if more && heads.is_empty() {
            return Err(CrewError::Peer(PeerFault::NoHeads));
        }
        self.page_end = heads.last().copied();
        self.more = more;
        for head in heads {
            if !log.holds(head.hash)? {
                self.lacking.push_back(head);
            }
        }
        self.ask_next(log, out)
    }

    pub(super) fn on_entries(
        &mut self,
        wires: &[Vec<u8>],
        from: StreamId,
        log: &mut dyn Log,
        outcome: &mut Outcome,
        out: &mut Vec<Message>,
    ) -> Result<()> {
        let State::AwaitsEntries(wanted) = &mut self.state else {
            return Err(CrewError::Peer(PeerFault::RecordsNotAskedFor));
        };
        let stream = wanted.head.stream;
        let last_seq = match wanted.check(wires)? {
            Ok(last_seq) => last_seq,
            Err(newer) => {
                outcome.refused.push((stream, newer));
                self.refused.insert(stream);
                return self.ask_next(log, out);
            }
        };
        wanted.stored_seq = Some(last_seq);
        let head = wanted.head;
        let taken = log.take_in(wires, from)?;
        outcome.new_entries += taken.new;
        outcome.known_entries += taken.known;
        if let Some((_, reason)) = taken.refused.into_iter().next() {
            outcome.refused.push((stream, reason));
            self.refused.insert(stream);
            return self.ask_next(log, out);
        }
        out.push(Message::Stored(last_seq));
        if last_seq < head.seq {
            return Ok(());
        }
        if !log.holds(head.hash)? {
            return Err(CrewError::Peer(PeerFault::OtherRecordsThanAnnounced));
        }
        self.ask_next(log, out)
    }

    /// Asks for the next branch that is lacking, for more heads, or says that it is done.
    fn ask_next(&mut self, log: &dyn Log, out: &mut Vec<Message>) -> Result<()> {
        while let Some(head) = self.lacking.pop_front() {
            if self.refused.contains(&head.stream) || log.holds(head.hash)? {
                continue;
            }
            let locator = log.locator(head.stream)?;
            out.push(Message::Want {
                tip: head.hash,
                locator: locator.clone(),
            });
            self.state = State::AwaitsEntries(Wanted {
                head,
                locator,
                stored_seq: None,
            });
            return Ok(());
        }
        if self.more {
            self.state = State::AwaitsHeads;
            out.push(Message::MoreHeads);
        } else {
            self.state = State::Done;
            out.push(Message::Done);
        }
        Ok(())
    }
}

impl Wanted {
    /// Checks that a chunk is the next piece of what was asked for, before any of it is looked at
    /// more closely. Gives the number of its last entry, or that a newer program wrote it.
    fn check(&self, wires: &[Vec<u8>]) -> Result<Result<u64, BookError>> {
        let bytes: usize = wires.iter().map(Vec::len).sum();
        if wires.is_empty() || (bytes > CHUNK_BYTES_MAX && wires.len() > 1) {
            return Err(CrewError::Peer(PeerFault::TooMuchOrNothing));
        }
        let mut last = self.stored_seq;
        for wire in wires {
            let outline = match Outline::of(wire) {
                Ok(outline) => outline,
                Err(newer @ BookError::Newer { .. }) => return Ok(Err(newer)),
                Err(_) => return Err(CrewError::Peer(PeerFault::Unreadable)),
            };
            let follows = match last {
                Some(last) => outline.seq.checked_sub(1) == Some(last),
                None => outline.seq == 1 || self.locator.contains(&outline.prev),
            };
            if !follows || outline.stream != self.head.stream || outline.seq > self.head.seq {
                return Err(CrewError::Peer(PeerFault::OtherRecordsThanAskedFor));
            }
            last = Some(outline.seq);
        }
        Ok(Ok(last.expect("not empty")))
    }
}
