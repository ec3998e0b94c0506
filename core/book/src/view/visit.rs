//! A visit: its history, how far it has come, and what has to be settled.

use std::collections::{BTreeMap, BTreeSet};

use minicbor::{Decode, Encode};
use serde::Serialize;

use super::after;
use super::roster::Standing;
use crate::fact::{Fact, Finished, Loaded, NotTreated, Replacement, ReturnWhat, Role};
use crate::ids::{FactId, SheetId, StreamId, VisitId};
use crate::log::Stamp;

/// How far a visit has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Encode, Decode, Serialize)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum VisitState {
    /// Nothing has been put on yet.
    #[n(0)]
    Looking,
    /// Treating has started.
    #[n(1)]
    Treating,
    /// The treatment is finished.
    #[n(2)]
    Finished,
    /// It ended without a treatment.
    #[n(3)]
    NotTreated,
}

impl VisitState {
    /// The number that rows are found by; below 2 the visit is open.
    pub(crate) fn number(self) -> i64 {
        match self {
            Self::Looking => 0,
            Self::Treating => 1,
            Self::Finished => 2,
            Self::NotTreated => 3,
        }
    }
}

/// One line of a visit's history.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct Line {
    /// The fact.
    #[n(0)]
    pub fact: FactId,
    /// Who wrote it.
    #[n(1)]
    pub by: StreamId,
    /// When, by their clock.
    #[n(2)]
    pub at: Stamp,
    /// Whether the writer is of the crew.
    #[n(3)]
    pub of_the_crew: bool,
    /// The fact that supersedes it; none while it stands.
    #[n(4)]
    pub superseded_by: Option<FactId>,
}

/// One finish that nobody corrected.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct FinishVersion {
    /// The fact.
    #[n(0)]
    pub fact: FactId,
    /// Who finished.
    #[n(1)]
    pub by: StreamId,
    /// When, by their clock.
    #[n(2)]
    pub at: Stamp,
    /// Set aside by a person who saw both.
    #[n(3)]
    pub set_aside_by: Option<FactId>,
}

/// A load that no finish has taken into account.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct LateAddition {
    /// The fact.
    #[n(0)]
    pub fact: FactId,
    /// Who wrote it.
    #[n(1)]
    pub by: StreamId,
    /// What a person said of it: whether it was really put on.
    #[n(2)]
    pub counts: Option<bool>,
}

/// Something a person has to settle.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Encode, Decode, Serialize)]
#[serde(tag = "question", rename_all = "snake_case")]
pub enum Question {
    /// Several finishes stand: which one holds?
    #[n(0)]
    WhichFinish {
        /// The finishes.
        #[n(0)]
        finishes: Vec<FactId>,
    },
    /// A load was added without knowing of the finish: was it put on?
    #[n(1)]
    LateLoad {
        /// The load.
        #[n(0)]
        addition: FactId,
    },
    /// A device that is not (any more) of the crew wrote here.
    #[n(2)]
    NotOfTheCrew {
        /// The device.
        #[n(0)]
        device: StreamId,
    },
    /// One phone treated, another recorded that nothing was.
    #[n(3)]
    TreatedOrNot {
        /// The record that nothing was.
        #[n(0)]
        not_treated: FactId,
    },
}

/// A planned return.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct ReturnDay {
    /// The fact that plans it.
    #[n(0)]
    pub fact: FactId,
    /// The day, as year-month-day.
    #[n(1)]
    pub day: String,
    /// What for.
    #[n(2)]
    pub what: ReturnWhat,
    /// In the person's own words.
    #[n(3)]
    pub note: String,
}

/// A product that treating was started with.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct ProductUsed {
    /// Product as printed on the label.
    #[n(0)]
    pub product: String,
    /// Registration number as printed.
    #[n(1)]
    pub registration: String,
}

/// A visit as it stands.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct VisitView {
    /// The visit.
    #[n(0)]
    pub visit: VisitId,
    /// The yard; none while the visit's opening has not arrived.
    #[n(1)]
    pub yard: Option<SheetId>,
    /// The pest it is about.
    #[n(2)]
    pub target: String,
    /// When it was opened; none while the opening has not arrived.
    #[n(3)]
    pub opened: Option<Stamp>,
    /// How far it has come.
    #[n(4)]
    pub state: VisitState,
    /// All facts in their order.
    #[n(5)]
    pub history: Vec<Line>,
    /// Finishes that nobody corrected.
    #[n(6)]
    pub finishes: Vec<FinishVersion>,
    /// Loads that no finish has taken into account.
    #[n(7)]
    pub late: Vec<LateAddition>,
    /// What has to be settled.
    #[n(8)]
    pub questions: Vec<Question>,
    /// Visits that a person said are the same job.
    #[n(9)]
    pub one_job_with: Vec<VisitId>,
    /// Visits that a person said are another job.
    #[n(10)]
    pub other_job_than: Vec<VisitId>,
    /// The return that is planned: the latest that stands, whether it was planned with a "not
    /// treated" or by itself.
    #[n(11)]
    pub return_day: Option<ReturnDay>,
    /// What treating was started with, each product once.
    #[n(12)]
    pub products: Vec<ProductUsed>,
    /// The people whose devices wrote any of it, each once.
    #[n(13)]
    pub people: Vec<String>,
    /// Pests that were counted, each once.
    #[n(14)]
    pub pests: Vec<String>,
}

impl VisitView {
    /// What it is ordered by: when it was opened, or the first that is known of it while its
    /// opening has not arrived; milliseconds since 1970 in UTC.
    pub fn at_utc_ms(&self) -> i64 {
        self.opened
            .or_else(|| self.history.first().map(|line| line.at))
            .map_or(i64::MIN, |at| at.utc_ms)
    }

    /// The finish that holds: the only one that is not set aside.
    pub fn finish(&self) -> Option<FactId> {
        let mut standing = self.finishes.iter().filter(|f| f.set_aside_by.is_none());
        match (standing.next(), standing.next()) {
            (Some(only), None) => Some(only.fact),
            _ => None,
        }
    }
}

/// One fact with who told it and what that is worth.
pub(crate) struct Told<'a> {
    pub(crate) id: FactId,
    pub(crate) by: StreamId,
    pub(crate) at: Stamp,
    pub(crate) fact: &'a Fact,
    pub(crate) standing: Standing,
    /// By how many milliseconds the writer's clock may have been off.
    pub(crate) clock_doubt_ms: u64,
}

impl Told<'_> {
    /// Whether the writer is of the crew and may do what takes at least `role`.
    pub(crate) fn counts(&self, role: Role) -> bool {
        matches!(self.standing, Standing::Counts(own) if own >= role)
    }

    /// The load that it tells of, itself or as a correction.
    pub(crate) fn load(&self) -> Option<&Loaded> {
        match self.fact {
            Fact::Loaded(load) => Some(load),
            Fact::Corrected(c) => match &c.new {
                Replacement::Loaded(load) => Some(load),
                _ => None,
            },
            _ => None,
        }
    }

    /// The finish that it tells of, itself or as a correction.
    pub(crate) fn finish(&self) -> Option<&Finished> {
        match self.fact {
            Fact::Finished(finish) => Some(finish),
            Fact::Corrected(c) => match &c.new {
                Replacement::Finished(finish) => Some(finish),
                _ => None,
            },
            _ => None,
        }
    }

    /// The facts that it supersedes as a correction that counts; empty for any other fact.
    pub(crate) fn supersedes(&self) -> Vec<FactId> {
        match self.fact {
            Fact::Corrected(c) if self.counts(Role::Applicator) => c.supersedes.clone(),
            _ => Vec::new(),
        }
    }

    pub(crate) fn not_treated(&self) -> Option<&NotTreated> {
        match self.fact {
            Fact::NotTreated(not) => Some(not),
            Fact::Corrected(c) => match &c.new {
                Replacement::NotTreated(not) => Some(not),
                _ => None,
            },
            _ => None,
        }
    }
}

/// All facts of a visit in their order, with what supersedes what.
pub(crate) struct VisitFacts<'a> {
    pub(crate) yard: Option<SheetId>,
    pub(crate) told: Vec<Told<'a>>,
    superseded: BTreeMap<FactId, FactId>,
}

impl<'a> VisitFacts<'a> {
    /// Only the crew's corrections count, and only those about facts of this visit.
    pub(crate) fn new(told: Vec<Told<'a>>) -> Self {
        let here: BTreeSet<FactId> = told.iter().map(|t| t.id).collect();
        let mut superseded = BTreeMap::new();
        for t in &told {
            if let Fact::Corrected(c) = t.fact
                && t.counts(Role::Applicator)
            {
                for old in c
                    .supersedes
                    .iter()
                    .filter(|old| here.contains(old) && **old != t.id)
                {
                    superseded.entry(*old).or_insert(t.id);
                }
            }
        }
        // Of several openings the first holds; all name the same yard unless someone meddled.
        let yard = told.iter().find_map(|t| match t.fact {
            Fact::VisitOpened(o) => Some(o.yard),
            _ => None,
        });
        Self {
            yard,
            told,
            superseded,
        }
    }

    /// The correction that supersedes a fact.
    pub(crate) fn superseded_by(&self, fact: FactId) -> Option<FactId> {
        self.superseded.get(&fact).copied()
    }

    /// Facts that nobody corrected.
    pub(crate) fn standing(&self) -> impl Iterator<Item = &Told<'a>> {
        self.told
            .iter()
            .filter(|t| self.superseded_by(t.id).is_none())
    }

    /// Facts that nobody corrected, corrections that do not count left out.
    pub(crate) fn effective(&self) -> impl Iterator<Item = &Told<'a>> {
        self.standing()
            .filter(|t| !matches!(t.fact, Fact::Corrected(_)) || t.counts(Role::Applicator))
    }
}

/// Who carries a device, by name.
pub(crate) type Names<'a> = dyn Fn(StreamId) -> Option<String> + 'a;

/// Computes a visit from all its facts.
pub(crate) fn visit_of(visit: VisitId, facts: &VisitFacts<'_>, names: &Names<'_>) -> VisitView {
    let opening = facts.told.iter().find_map(|t| match t.fact {
        Fact::VisitOpened(o) => Some((o.target.clone(), t.at)),
        _ => None,
    });
    let finishes = finishes(facts);
    let late = late_additions(facts, &finishes);
    let started = facts
        .told
        .iter()
        .any(|t| matches!(t.fact, Fact::Started(_)));
    let not_treated = facts.effective().find(|t| t.not_treated().is_some());
    let state = if !finishes.is_empty() {
        VisitState::Finished
    } else if started {
        VisitState::Treating
    } else if not_treated.is_some() {
        VisitState::NotTreated
    } else {
        VisitState::Looking
    };
    let mut questions = Vec::new();
    let standing: Vec<FactId> = finishes
        .iter()
        .filter(|f| f.set_aside_by.is_none())
        .map(|f| f.fact)
        .collect();
    if standing.len() > 1 {
        questions.push(Question::WhichFinish { finishes: standing });
    }
    for addition in late.iter().filter(|l| l.counts.is_none()) {
        questions.push(Question::LateLoad {
            addition: addition.fact,
        });
    }
    if let Some(not) = not_treated
        && started
    {
        questions.push(Question::TreatedOrNot {
            not_treated: not.id,
        });
    }
    let outsiders: BTreeSet<StreamId> = facts
        .told
        .iter()
        .filter(|t| !t.counts(Role::Applicator))
        .map(|t| t.by)
        .collect();
    questions.extend(
        outsiders
            .into_iter()
            .map(|device| Question::NotOfTheCrew { device }),
    );
    let (one_job_with, other_job_than) = jobs(visit, facts);

    VisitView {
        visit,
        yard: facts.yard,
        target: opening
            .as_ref()
            .map(|(target, _)| target.clone())
            .unwrap_or_default(),
        opened: opening.map(|(_, at)| at),
        state,
        history: facts
            .told
            .iter()
            .map(|t| Line {
                fact: t.id,
                by: t.by,
                at: t.at,
                of_the_crew: t.counts(Role::Applicator),
                superseded_by: facts.superseded_by(t.id),
            })
            .collect(),
        finishes,
        late,
        questions,
        one_job_with,
        other_job_than,
        return_day: after::return_day(facts),
        products: after::products(facts),
        people: after::people(facts, names),
        pests: after::pests(facts),
    }
}

fn finishes(facts: &VisitFacts<'_>) -> Vec<FinishVersion> {
    let mut versions: Vec<FinishVersion> = facts
        .effective()
        .filter(|t| t.finish().is_some())
        .map(|t| FinishVersion {
            fact: t.id,
            by: t.by,
            at: t.at,
            set_aside_by: None,
        })
        .collect();
    for told in facts.standing().filter(|t| t.counts(Role::Applicator)) {
        let Fact::FinishChosen(choice) = told.fact else {
            continue;
        };
        if !versions.iter().any(|v| v.fact == choice.chosen) {
            continue;
        }
        for version in &mut versions {
            if version.fact != choice.chosen && choice.over.contains(&version.fact) {
                version.set_aside_by = Some(told.id);
            } else if version.fact == choice.chosen {
                version.set_aside_by = None;
            }
        }
    }
    versions
}

fn late_additions(facts: &VisitFacts<'_>, finishes: &[FinishVersion]) -> Vec<LateAddition> {
    if finishes.is_empty() {
        return Vec::new();
    }
    let mut covered: BTreeSet<FactId> = BTreeSet::new();
    for told in facts.effective() {
        if let Some(finish) = told.finish() {
            covered.extend(&finish.covers);
        }
    }
    facts
        .effective()
        .filter(|t| t.load().is_some() && !covered.contains(&t.id))
        // A correction of a load that the finish had seen is an amendment, not an addition.
        .filter(|t| {
            let old = t.supersedes();
            old.is_empty() || !old.iter().all(|f| covered.contains(f))
        })
        .map(|t| LateAddition {
            fact: t.id,
            by: t.by,
            counts: late_verdict(facts, t.id),
        })
        .collect()
}

fn late_verdict(facts: &VisitFacts<'_>, addition: FactId) -> Option<bool> {
    facts
        .standing()
        .filter(|t| t.counts(Role::Applicator))
        .filter_map(|t| match t.fact {
            Fact::LateSettled(s) if s.addition == addition => Some(s.counts),
            _ => None,
        })
        .last()
}

fn jobs(visit: VisitId, facts: &VisitFacts<'_>) -> (Vec<VisitId>, Vec<VisitId>) {
    let mut verdicts: BTreeMap<VisitId, bool> = BTreeMap::new();
    for told in facts.standing().filter(|t| t.counts(Role::Applicator)) {
        if let Fact::OneJob(job) = told.fact {
            for other in job.visits.iter().filter(|v| **v != visit) {
                verdicts.insert(*other, job.same);
            }
        }
    }
    let with = |same: bool| {
        verdicts
            .iter()
            .filter(|(_, s)| **s == same)
            .map(|(v, _)| *v)
            .collect()
    };
    (with(true), with(false))
}
