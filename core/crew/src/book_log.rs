//! A book as the log of locked files and of the exchange.

use sward_book::ids::{Hash, StreamId};
use sward_book::log::Head;
use sward_book::view::roster::MemberState;
use sward_book::{Book, BookError, Result, Thing};

use crate::{Log, Standing, TakenIn};

impl Log for Book {
    fn crew(&self) -> Result<Option<Hash>> {
        Ok(Self::crew(self))
    }

    fn standing(&self, stream: StreamId) -> Result<Standing> {
        let Some(member) = self.roster().member(stream) else {
            return Ok(Standing::Unknown);
        };
        Ok(match (&member.state, member.role) {
            (MemberState::Member, Some(role)) => Standing::Member(role),
            (MemberState::Retired { .. }, _) => Standing::Retired,
            (MemberState::Pending | MemberState::Member, _) => Standing::Pending,
        })
    }

    fn join(&mut self, crew: Hash, wires: &[Vec<u8>], from: StreamId) -> Result<TakenIn> {
        self.join_crew(crew, wires, Some(from)).map(taken_in)
    }

    fn heads(&self) -> Result<Vec<Head>> {
        Self::heads(self)
    }

    fn holds(&self, hash: Hash) -> Result<bool> {
        self.holds_whole(hash)
    }

    fn locator(&self, stream: StreamId) -> Result<Vec<Hash>> {
        let mut locator = Self::locator(self, stream)?;
        locator.truncate(crate::log::LOCATOR_MAX);
        Ok(locator)
    }

    fn entries_up_to(&self, tip: Hash, stop_at: &[Hash], bytes_max: usize) -> Result<Vec<Vec<u8>>> {
        if !Log::holds(self, tip)? {
            return Err(BookError::NotFound {
                what: Thing::Entry,
                name: tip.to_string(),
            });
        }
        let mut nearest: Option<(u64, Hash)> = None;
        for hash in stop_at {
            if *hash == tip {
                return Ok(Vec::new());
            }
            if Self::holds(self, *hash)? && self.is_at_or_before(*hash, tip)? {
                nearest = nearest.max(Some((self.entry(*hash)?.body().seq, *hash)));
            }
        }
        self.wires_up_to(tip, nearest.map(|(_, hash)| hash), bytes_max)
    }

    fn take_in(&mut self, wires: &[Vec<u8>], from: StreamId) -> Result<TakenIn> {
        Self::take_in(self, wires, Some(from)).map(taken_in)
    }
}

fn taken_in(taken: sward_book::book::TakenIn) -> TakenIn {
    TakenIn {
        new: taken.new,
        known: taken.known,
        refused: taken
            .refused
            .into_iter()
            .map(|r| (r.stream, r.error))
            .collect(),
    }
}
