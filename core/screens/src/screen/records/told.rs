//! Everything that is told of one visit, read once: its facts, its keep-offs, and who wrote what.
//!
//! What a result has frozen is [`super::content`].

use sward_book::Book;
use sward_book::fact::{Fact, Finished, Loaded, NotTreated, Replacement};
use sward_book::ids::{FactId, KeepOffId, VisitId};
use sward_book::view::keep_off::KeepOffView;
use sward_book::view::visit::{Line, VisitView};

use crate::Result;
use crate::screen::visit::Here;
use crate::words::Words;

/// One line of the history with its fact.
pub(super) struct Known {
    pub(super) line: Line,
    pub(super) fact: Fact,
}

impl Known {
    /// Whether it stands: nobody corrected it, and a correction is the crew's.
    pub(super) fn stands(&self) -> bool {
        self.line.superseded_by.is_none()
            && (self.line.of_the_crew || !matches!(self.fact, Fact::Corrected(_)))
    }

    /// The load that it tells of, itself or as a correction.
    pub(super) fn load(&self) -> Option<&Loaded> {
        match &self.fact {
            Fact::Loaded(load) => Some(load),
            Fact::Corrected(c) => match &c.new {
                Replacement::Loaded(load) => Some(load),
                _ => None,
            },
            _ => None,
        }
    }

    /// The finish that it tells of, itself or as a correction.
    pub(super) fn finish(&self) -> Option<&Finished> {
        match &self.fact {
            Fact::Finished(finish) => Some(finish),
            Fact::Corrected(c) => match &c.new {
                Replacement::Finished(finish) => Some(finish),
                _ => None,
            },
            _ => None,
        }
    }

    /// The "not treated" that it tells of, itself or as a correction.
    pub(super) fn not_treated(&self) -> Option<&NotTreated> {
        match &self.fact {
            Fact::NotTreated(not) => Some(not),
            Fact::Corrected(c) => match &c.new {
                Replacement::NotTreated(not) => Some(not),
                _ => None,
            },
            _ => None,
        }
    }
}

/// A visit with everything that is told of it.
pub(super) struct Told {
    pub(super) here: Here,
    pub(super) facts: Vec<Known>,
    pub(super) keep_offs: Vec<KeepOffView>,
    /// Of a practice crew: no record.
    pub(super) practice: bool,
    /// The crew's name.
    pub(super) crew: String,
}

impl Told {
    /// Reads it.
    pub(super) fn read(book: &Book, visit: VisitId, words: Words) -> Result<Self> {
        let here = Here::read(book, visit, words)?;
        let facts = here
            .visit
            .history
            .iter()
            .map(|line| {
                let (_, fact) = book.fact(line.fact)?;
                Ok(Known {
                    line: line.clone(),
                    fact,
                })
            })
            .collect::<Result<Vec<_>>>()?;
        let roster = book.roster();
        Ok(Self {
            here,
            facts,
            keep_offs: book.keep_offs_of(visit)?,
            practice: roster.practice(),
            crew: roster.crew_name().unwrap_or_default().to_owned(),
        })
    }

    pub(super) fn visit(&self) -> &VisitView {
        &self.here.visit
    }

    pub(super) fn words(&self) -> Words {
        self.here.words
    }

    pub(super) fn find(&self, fact: FactId) -> Option<&Known> {
        self.facts.iter().find(|k| k.line.fact == fact)
    }

    pub(super) fn standing(&self) -> impl Iterator<Item = &Known> {
        self.facts.iter().filter(|k| k.stands())
    }

    /// The sections of a load or a word to the household, by name; empty: all.
    pub(super) fn sections(&self, ids: &[KeepOffId]) -> String {
        let names: Vec<String> = ids
            .iter()
            .map(|id| {
                let found = self.keep_offs.iter().find(|k| k.keep_off == *id);
                found.map_or_else(|| id.to_string(), |k| k.name.clone())
            })
            .collect();
        names.join(", ")
    }

    /// The last load on a section among those that stand.
    pub(super) fn last_load_ms(&self, keep_off: KeepOffId) -> Option<i64> {
        self.standing()
            .filter_map(Known::load)
            .filter(|l| l.keep_offs.is_empty() || l.keep_offs.contains(&keep_off))
            .map(|l| l.applied_utc_ms)
            .max()
    }
}
