//! One device of the roster, as the facts about it add up.
//!
//! Which of them stand was decided before; here they are only taken in, in order.

use minicbor::{Decode, Encode};
use serde::Serialize;

use super::{Chains, MembershipFact, Standing, is_within};
use crate::fact::{Fact, JoinAsked, Person, Role};
use crate::ids::{FactId, Hash, StreamId};
use crate::log::Head;

/// One device that asked to join or that a crew lead named.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct Member {
    /// Its stream.
    #[n(0)]
    pub stream: StreamId,
    /// The key that locked files are wrapped to; none while nobody has stated it.
    #[n(1)]
    pub recipient: Option<String>,
    /// Who carries it; none while nobody has stated it.
    #[n(2)]
    pub person: Option<Person>,
    /// The stream it says it wrote before, when it was restored or copied. Its own word only.
    #[n(3)]
    pub was: Option<StreamId>,
    /// The role it has now, or had when it was retired; none while not admitted.
    #[n(4)]
    pub role: Option<Role>,
    /// Whether it belongs.
    #[n(5)]
    pub state: MemberState,
    #[n(6)]
    #[serde(skip)]
    admitted_as: Option<Role>,
    #[n(7)]
    #[serde(skip)]
    roles_given: Vec<RoleStep>,
    /// All retirements that stand, in order; `state` shows the first.
    #[n(8)]
    #[serde(skip)]
    cuts: Vec<Option<Hash>>,
}

#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode)]
struct RoleStep {
    #[n(0)]
    role: Role,
    /// Entries up to here keep the role before; none when there is no such entry.
    #[n(1)]
    cut: Option<Hash>,
}

/// Whether a device belongs to the crew.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
#[serde(tag = "state", rename_all = "snake_case")]
pub enum MemberState {
    /// It asked, and no crew lead has admitted it.
    #[n(0)]
    Pending,
    /// It was admitted.
    #[n(1)]
    Member,
    /// It was retired. The first retirement that stands is named; others may cut earlier.
    #[n(2)]
    Retired {
        /// The last entry that counts; none when not one does.
        #[n(0)]
        last: Option<Head>,
        /// The retirement.
        #[n(1)]
        by: FactId,
    },
}

impl Member {
    /// A device of which nothing is known.
    pub(super) fn new(stream: StreamId) -> Self {
        Self {
            stream,
            recipient: None,
            person: None,
            was: None,
            role: None,
            state: MemberState::Pending,
            admitted_as: None,
            roles_given: Vec::new(),
            cuts: Vec::new(),
        }
    }

    /// What an entry it wrote is worth.
    pub(super) fn standing(&self, entry: Hash, chains: &dyn Chains) -> Standing {
        if !self.cuts.iter().all(|cut| is_within(entry, *cut, chains)) {
            return Standing::AfterRetirement;
        }
        let step = self
            .roles_given
            .iter()
            .rev()
            .find(|s| !is_within(entry, s.cut, chains));
        match step.map(|s| s.role).or(self.admitted_as) {
            Some(role) => Standing::Counts(role),
            None => Standing::Pending,
        }
    }

    /// Takes in a fact about it that stands. Called in order.
    pub(super) fn take_in(&mut self, fact: &MembershipFact) {
        match &fact.fact {
            Fact::Founded(f) => self.admit(&f.person, Role::CrewLead),
            Fact::Recovered(f) => {
                self.person = Some(f.person.clone());
                self.roles_given.push(RoleStep {
                    role: Role::CrewLead,
                    cut: None,
                });
            }
            Fact::Admitted(f) => {
                self.recipient = Some(f.device.recipient.clone());
                self.admit(&f.person, f.role);
            }
            Fact::RoleGiven(f) => {
                self.roles_given.push(RoleStep {
                    role: f.role,
                    cut: fact.cut().map(|h| h.hash),
                });
            }
            Fact::Retired(_) => {
                let last = fact.cut();
                self.cuts.push(last.map(|h| h.hash));
                if !matches!(self.state, MemberState::Retired { .. }) {
                    self.state = MemberState::Retired { last, by: fact.id };
                }
            }
            _ => {}
        }
    }

    fn admit(&mut self, person: &Person, role: Role) {
        self.person = Some(person.clone());
        self.admitted_as = self.admitted_as.max(Some(role));
    }

    /// Takes in its own request. Called in order, after all facts that stand.
    pub(super) fn take_in_request(&mut self, request: &JoinAsked) {
        self.recipient = Some(request.device.recipient.clone());
        self.was = request.was;
        if self.admitted_as.is_none() && self.roles_given.is_empty() {
            self.person = Some(request.person.clone());
        }
    }

    pub(super) fn summed_up(mut self) -> Self {
        self.role = self.roles_given.last().map(|s| s.role).or(self.admitted_as);
        if self.role.is_some() && self.state == MemberState::Pending {
            self.state = MemberState::Member;
        }
        self
    }
}
