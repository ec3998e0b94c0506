//! Who may have the power to say something about membership, and what could take it from them.
//!
//! Nothing is decided here but what no other fact can change: signatures, and an outsider's word.

use std::collections::BTreeMap;

use ed25519_dalek::{Signature, VerifyingKey};

use super::{Chains, MembershipFact, is_within};
use crate::fact::{Fact, Recovered, Role, recovery_message};
use crate::ids::{FactId, Hash, StreamId};

/// What one fact hangs on, as indices of other facts.
#[derive(Debug, Default)]
pub(super) struct Ties {
    /// What makes its author a lead.
    pub(super) leads: Vec<usize>,
    /// Lower roles given to its author that reach it.
    pub(super) lower_roles: Vec<usize>,
    /// Retirements of its author that reach it.
    pub(super) retirements: Vec<usize>,
    /// For a role given: what admits its subject.
    pub(super) admissions: Option<Vec<usize>>,
}

/// Keeps what someone wrote who might be a lead. An outsider's word ends here, before it can
/// weigh on anything: in order, because a lead is always given before it is used.
pub(super) fn with_possible_authority<'a>(
    founding: &MembershipFact,
    recoveries: &Recoveries,
    facts: &[&'a MembershipFact],
) -> Vec<&'a MembershipFact> {
    let mut leads: BTreeMap<StreamId, Vec<&MembershipFact>> = BTreeMap::new();
    let mut kept = Vec::new();
    for &fact in facts {
        let keep = match &fact.fact {
            Fact::Founded(_) => fact.id == founding.id,
            Fact::Recovered(_) => recoveries.is_first(fact),
            Fact::Admitted(_) | Fact::RoleGiven(_) | Fact::Retired(_) => leads
                .get(&fact.stream)
                .is_some_and(|l| l.iter().any(|e| e.is_before(fact))),
            _ => false,
        };
        if keep {
            kept.push(fact);
            if fact.gives_lead() {
                leads.entry(fact.subject()).or_default().push(fact);
            }
        }
    }
    kept
}

/// What each fact hangs on.
pub(super) fn ties_between(facts: &[&MembershipFact], chains: &dyn Chains) -> Vec<Ties> {
    let mut about: BTreeMap<StreamId, Vec<usize>> = BTreeMap::new();
    for (e, fact) in facts.iter().enumerate() {
        about.entry(fact.subject()).or_default().push(e);
    }
    let about = |stream: StreamId| about.get(&stream).map(Vec::as_slice).unwrap_or_default();
    facts
        .iter()
        .map(|fact| {
            let mut ties = Ties::default();
            for &e in about(fact.stream) {
                let spared = || is_within(fact.id.entry, facts[e].cut().map(|h| h.hash), chains);
                match &facts[e].fact {
                    Fact::Retired(_) if !spared() => ties.retirements.push(e),
                    Fact::RoleGiven(r) if r.role < Role::CrewLead && !spared() => {
                        ties.lower_roles.push(e);
                    }
                    Fact::RoleGiven(_) if spared() => {}
                    _ if facts[e].gives_lead() && facts[e].is_before(fact) => ties.leads.push(e),
                    _ => {}
                }
            }
            if matches!(fact.fact, Fact::RoleGiven(_)) {
                let admits = |&e: &usize| facts[e].admits() && facts[e].is_before(fact);
                let admissions = about(fact.subject()).iter().copied().filter(admits);
                ties.admissions = Some(admissions.collect());
            }
            ties
        })
        .collect()
}

/// Recoveries whose signature holds.
pub(super) struct Recoveries {
    /// Of each device, in order.
    of: BTreeMap<StreamId, Vec<(u64, FactId)>>,
}

impl Recoveries {
    pub(super) fn find(crew: Hash, key: StreamId, facts: &[&MembershipFact]) -> Self {
        let mut of: BTreeMap<StreamId, Vec<_>> = BTreeMap::new();
        let Ok(key) = VerifyingKey::from_bytes(&key.0) else {
            return Self { of };
        };
        for fact in facts {
            if let Fact::Recovered(recovered) = &fact.fact
                && recovered.device.stream == fact.stream
                && is_signed(crew, &key, recovered)
            {
                of.entry(fact.stream).or_default().push(fact.order());
            }
        }
        Self { of }
    }

    fn of(&self, stream: StreamId) -> &[(u64, FactId)] {
        self.of.get(&stream).map(Vec::as_slice).unwrap_or_default()
    }

    fn is_first(&self, fact: &MembershipFact) -> bool {
        self.of(fact.stream).first() == Some(&fact.order())
    }

    /// Whether the fact would undo a recovery that it has no power over. Any one recovery before
    /// its cut shows that its author knew; so a later copy of the same signature shields nobody.
    pub(super) fn outrank(&self, fact: &MembershipFact, chains: &dyn Chains) -> bool {
        let of_subject = self.of(fact.subject());
        if !fact.takes_lead() || of_subject.is_empty() {
            return false;
        }
        let cut = fact.cut().map(|h| h.hash);
        let knew = of_subject
            .iter()
            .any(|(_, id)| is_within(id.entry, cut, chains));
        let outranks = self.of(fact.stream).first() > of_subject.first();
        !knew && !outranks
    }
}

fn is_signed(crew: Hash, key: &VerifyingKey, recovered: &Recovered) -> bool {
    let message = recovery_message(crew, &recovered.device);
    Signature::from_slice(&recovered.signature)
        .is_ok_and(|signature| key.verify_strict(&message, &signature).is_ok())
}

impl MembershipFact {
    /// Whether its author's later facts, or its subject's, can rest on it: same entry and before,
    /// or known to whoever wrote `other`.
    fn is_before(&self, other: &Self) -> bool {
        if self.id.entry == other.id.entry {
            self.id.index < other.id.index
        } else {
            self.lamport < other.lamport
        }
    }

    fn admits(&self) -> bool {
        matches!(
            self.fact,
            Fact::Founded(_) | Fact::Recovered(_) | Fact::Admitted(_)
        )
    }

    fn gives_lead(&self) -> bool {
        match &self.fact {
            Fact::Founded(_) | Fact::Recovered(_) => true,
            Fact::Admitted(f) => f.role == Role::CrewLead,
            Fact::RoleGiven(f) => f.role == Role::CrewLead,
            _ => false,
        }
    }

    fn takes_lead(&self) -> bool {
        match &self.fact {
            Fact::Retired(_) => true,
            Fact::RoleGiven(f) => f.role < Role::CrewLead,
            _ => false,
        }
    }
}
