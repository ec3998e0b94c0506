//! Which membership facts stand. The rules in words are in the module above.
//!
//! No members and no roles here: only which facts hold, fall, and why a knot is cut as it is.

use std::cmp::Reverse;
use std::collections::BTreeSet;

use super::authority::{Recoveries, Ties, ties_between, with_possible_authority};
use super::{Chains, MembershipFact};
use crate::fact::Fact;
use crate::ids::{FactId, Hash, StreamId};

/// What came of the facts.
#[derive(Debug, Default)]
pub(super) struct Decision<'a> {
    /// Those that could have stood, in order: no outsider's.
    pub(super) weighed: Vec<&'a MembershipFact>,
    /// Those that stand, in order.
    pub(super) standing: Vec<&'a MembershipFact>,
}

/// Decides on facts that are in order and without repetitions.
pub(super) fn decide<'a>(
    crew: Hash,
    facts: &[&'a MembershipFact],
    chains: &dyn Chains,
) -> Decision<'a> {
    let Some(mut case) = Case::open(crew, facts, chains) else {
        return Decision::default();
    };
    loop {
        case.settle();
        let knot = case.knot();
        if knot.is_empty() {
            break;
        }
        case.cut(&knot);
    }
    let standing = (0..case.facts.len())
        .filter(|&g| case.stands(g))
        .map(|g| case.facts[g]);
    Decision {
        standing: standing.collect(),
        weighed: case.facts,
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Verdict {
    Open,
    Stands,
    Falls,
}

/// Smaller is more senior.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Seniority {
    Recovered(Reverse<(u64, FactId)>),
    Founder,
    Admitted((u64, FactId)),
    /// Without an admission that stands.
    None,
}

struct Case<'a> {
    founder: StreamId,
    /// In order, and only those that could stand.
    facts: Vec<&'a MembershipFact>,
    ties: Vec<Ties>,
    verdicts: Vec<Verdict>,
}

impl<'a> Case<'a> {
    fn open(crew: Hash, facts: &[&'a MembershipFact], chains: &dyn Chains) -> Option<Self> {
        let (founding, recovery_key) = facts.iter().find_map(|fact| match &fact.fact {
            Fact::Founded(f) if fact.id.entry == crew && f.device.stream == fact.stream => {
                Some((*fact, f.recovery_key))
            }
            _ => None,
        })?;
        let recoveries = Recoveries::find(crew, recovery_key, facts);
        let facts = with_possible_authority(founding, &recoveries, facts);
        let verdicts = facts
            .iter()
            .map(|fact| match &fact.fact {
                Fact::Founded(_) | Fact::Recovered(_) => Verdict::Stands,
                _ if recoveries.outrank(fact, chains) => Verdict::Falls,
                _ => Verdict::Open,
            })
            .collect();
        let ties = ties_between(&facts, chains);
        Some(Self {
            founder: founding.stream,
            facts,
            ties,
            verdicts,
        })
    }

    fn is_open(&self, g: usize) -> bool {
        self.verdicts[g] == Verdict::Open
    }

    fn stands(&self, g: usize) -> bool {
        self.verdicts[g] == Verdict::Stands
    }

    fn falls(&self, g: usize) -> bool {
        self.verdicts[g] == Verdict::Falls
    }

    /// Whether lower role `f` takes what `e` gave to the same device.
    fn takes(&self, f: usize, e: usize) -> bool {
        match self.facts[e].fact {
            Fact::RoleGiven(_) | Fact::Recovered(_) => f > e,
            _ => true,
        }
    }

    /// Decides every fact that no later decision can contradict.
    fn settle(&mut self) {
        loop {
            let mut changed = false;
            for g in 0..self.facts.len() {
                if self.is_open(g) {
                    self.verdicts[g] = self.settled(g);
                    changed |= !self.is_open(g);
                }
            }
            if !changed {
                return;
            }
        }
    }

    fn settled(&self, g: usize) -> Verdict {
        let ties = &self.ties[g];
        let admissions = ties.admissions.as_deref();
        if ties.retirements.iter().any(|&r| self.stands(r))
            || ties.leads.iter().all(|&e| self.lead_is_lost(g, e))
            || admissions.is_some_and(|a| a.iter().all(|&a| self.falls(a)))
        {
            Verdict::Falls
        } else if ties.retirements.iter().all(|&r| self.falls(r))
            && self.lead_is_certain(g)
            && self.subject_is_certain(g)
        {
            Verdict::Stands
        } else {
            Verdict::Open
        }
    }

    fn lead_is_lost(&self, g: usize, e: usize) -> bool {
        let taken = |&f: &usize| self.stands(f) && self.takes(f, e);
        self.falls(e) || self.ties[g].lower_roles.iter().any(taken)
    }

    fn lead_is_certain(&self, g: usize) -> bool {
        let ties = &self.ties[g];
        ties.leads.iter().any(|&e| {
            self.stands(e)
                && ties
                    .lower_roles
                    .iter()
                    .all(|&f| self.falls(f) || !self.takes(f, e))
        })
    }

    fn subject_is_certain(&self, g: usize) -> bool {
        self.ties[g]
            .admissions
            .as_ref()
            .is_none_or(|a| a.iter().any(|&a| self.stands(a)))
    }

    /// Whether its author has a lead and its subject an admission already, open attacks apart.
    fn can_be_chosen(&self, g: usize) -> bool {
        let has_lead = |&e: &usize| self.stands(e) && !self.lead_is_lost(g, e);
        self.ties[g].leads.iter().any(has_lead) && self.subject_is_certain(g)
    }

    /// The open facts that could give `g` what it needs.
    fn supports(&self, g: usize) -> impl Iterator<Item = usize> {
        let ties = &self.ties[g];
        let leads = if self.lead_is_certain(g) {
            &[]
        } else {
            ties.leads.as_slice()
        };
        let admissions = ties
            .admissions
            .as_deref()
            .filter(|_| !self.subject_is_certain(g));
        leads
            .iter()
            .chain(admissions.unwrap_or_default())
            .copied()
            .filter(|&e| self.is_open(e))
    }

    /// The open facts that could make `g` fall.
    fn attackers(&self, g: usize) -> impl Iterator<Item = usize> {
        let ties = &self.ties[g];
        let lower_roles = if self.lead_is_certain(g) {
            &[]
        } else {
            ties.lower_roles.as_slice()
        };
        lower_roles
            .iter()
            .chain(&ties.retirements)
            .copied()
            .filter(|&f| self.is_open(f))
    }

    /// Facts that all hang on each other and on no other open fact; empty when none is open.
    fn knot(&self) -> BTreeSet<usize> {
        let count = self.facts.len();
        let mut hangs_on = vec![Vec::new(); count];
        let mut holds_up = vec![Vec::new(); count];
        for g in (0..count).filter(|&g| self.is_open(g)) {
            hangs_on[g] = self.supports(g).chain(self.attackers(g)).collect();
            for &e in &hangs_on[g] {
                holds_up[e].push(g);
            }
        }
        // The last fact that nothing marked before holds up: were there one outside its knot that
        // holds it up, that one would have been met earlier and have marked it.
        let mut marked = BTreeSet::new();
        let mut last = None;
        for g in (0..count).filter(|&g| self.is_open(g)) {
            if !marked.contains(&g) {
                marked.extend(reach(g, |e| holds_up[e].iter().copied(), &marked));
                last = Some(g);
            }
        }
        last.map(|g| reach(g, |e| hangs_on[e].iter().copied(), &BTreeSet::new()))
            .unwrap_or_default()
    }

    /// Lets the most senior word in the knot stand, and what contradicts it fall.
    fn cut(&mut self, knot: &BTreeSet<usize>) {
        let chosen = knot
            .iter()
            .copied()
            .filter(|&g| self.can_be_chosen(g))
            .min_by_key(|&g| (self.seniority(self.facts[g].stream), g))
            .expect("the first fact of a knot in order hangs on no lead or admission inside it");
        let contradicting: Vec<usize> = self
            .attackers(chosen)
            .filter(|&f| !self.rests_on(f, chosen))
            .collect();
        self.verdicts[chosen] = Verdict::Stands;
        for f in contradicting {
            self.verdicts[f] = Verdict::Falls;
        }
    }

    /// Whether `f` might not stand without `g`: someone admitted by a lead may retire that lead,
    /// though it reaches the own admission.
    fn rests_on(&self, f: usize, g: usize) -> bool {
        reach(f, |e| self.supports(e), &BTreeSet::new()).contains(&g)
    }

    fn seniority(&self, stream: StreamId) -> Seniority {
        let first = |wanted: fn(&Fact) -> bool| {
            (0..self.facts.len())
                .find(|&g| {
                    let fact = self.facts[g];
                    self.stands(g) && fact.subject() == stream && wanted(&fact.fact)
                })
                .map(|g| self.facts[g].order())
        };
        if let Some(order) = first(|f| matches!(f, Fact::Recovered(_))) {
            Seniority::Recovered(Reverse(order))
        } else if stream == self.founder {
            Seniority::Founder
        } else {
            first(|f| matches!(f, Fact::Admitted(_))).map_or(Seniority::None, Seniority::Admitted)
        }
    }
}

/// `from` and all that is reached from it, except what is `known`.
fn reach<I: Iterator<Item = usize>>(
    from: usize,
    next: impl Fn(usize) -> I,
    known: &BTreeSet<usize>,
) -> BTreeSet<usize> {
    let mut reached = BTreeSet::from([from]);
    let mut pending = vec![from];
    while let Some(g) = pending.pop() {
        pending.extend(next(g).filter(|e| !known.contains(e) && reached.insert(*e)));
    }
    reached
}
