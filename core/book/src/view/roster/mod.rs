//! The roster: who belongs to the crew, with which role, and what an entry of theirs is worth.
//!
//! A pure function of the set of membership facts, equal on every phone that holds the same
//! entries, in whatever order they came. Nothing here stores, signs or reads a clock.
//!
//! # The rules, for another client
//!
//! **Order.** Facts are ordered by (Lamport number, hash of the entry, place in the entry).
//! Fact `e` is *before* `g` when its Lamport number is smaller, or when both stand in one entry
//! and `e` has the smaller place. A device that knows of a fact always writes later ones.
//!
//! **What gives the lead.** The founding (the `Founded` fact of the entry whose hash names the
//! crew, about its own author), a recovery (below), an admission as crew lead, and a role given
//! as crew lead. Each counts for its subject's facts that it is before; a role given, only for
//! those in entries that are not at or before its `last`.
//!
//! **What takes it.** A retirement, and a lower role given. Both have a *cut*: their `last`, or
//! none when `last` is not of the subject's stream. Of a device that does it to itself, the cut is
//! the entry that says so: nobody takes back what they wrote. They take the lead from all
//! entries of the subject that are not at or before the cut *in the same branch*; an entry of
//! another branch of a forked stream is always after it. A lower role does not touch a lead
//! given by a role or a recovery that comes later in the order; a retirement is final: a stream
//! once retired is not admitted again, its device asks anew with a new stream.
//!
//! **Recovery.** A `Recovered` fact about its own author counts when the founding's recovery key
//! signed it for this crew and device; then it always stands. Only a device's first one in the
//! order gives it the lead, so that repeating it later gains nothing. A retirement or lower role
//! whose cut is before every valid recovery of its subject falls, unless its author is itself
//! recovered, and later: who holds the code gets back in.
//!
//! **Seniority.** Recovered devices, the one whose first recovery is latest foremost (a
//! recovered phone may be stolen in its turn); then the founder; then by the first admission
//! in the order that stands. As an admission is after its author's own lead, no one lifts
//! anyone above themselves.
//!
//! **Which facts stand.**
//! 1. Go through the facts in order and keep the founding, each device's first valid recovery,
//!    and each `Admitted`, `RoleGiven` and `Retired` whose author was made lead by a kept fact
//!    before it. What an outsider or someone without the lead wrote is gone at this step, before
//!    it can weigh on anything. The founding and the recoveries stand; the others are open.
//! 2. Settle, until nothing changes. An open fact **falls** when a retirement that stands takes
//!    its author's lead, when each of its author's leads has fallen or is taken by a lower role
//!    that stands, or when it gives a role to someone all of whose admissions before it have
//!    fallen (founding and recovery are admissions too). It **stands** when no retirement that
//!    could take the author's lead is open or stands, some lead stands that no open or standing
//!    lower role takes, and, for a role given, an admission of its subject before it stands.
//! 3. If facts are still open, they form at least one knot. An open fact hangs on the open
//!    retirements against it; on the open leads and lower roles of its author, unless one
//!    lead is certain already; and on the open admissions of its subject, if it gives a role and
//!    none stands. A *knot* is a set of facts that all hang on each other and on nothing outside.
//!    Take the knot found from the facts in order ([the code](Roster::compute) marks, from each
//!    fact not yet marked, all that hang on it; the knot is what the last such fact hangs on,
//!    directly or through others). Among its facts whose author has a standing lead (and whose
//!    subject, for a role, a standing admission), the one of the most senior author, then the
//!    first in order, stands. The open facts that take its author's lead fall, except those that
//!    rest on it, that is, whose author would have no lead or whose subject no admission without
//!    it. Back to 2.
//!
//! Step 2 only adds decisions that no later one can contradict, so its order is free. Leads are
//! always given from smaller to larger Lamport numbers, so that a knot always has a fact to
//! choose. In a knot of two who retire each other, the senior's word stands; in one of three, the
//! senior is not retired by the third merely because the second fell.
//!
//! **Roles.** A device's role at an entry: the highest of its standing admissions, replaced by
//! each standing role given (and the first recovery, as crew lead) in order, unless the entry is
//! at or before that fact's cut. Every retirement that stands cuts; an entry has to be at or before
//! all cuts to count.
//!
//! **Keys and names.** The locked-file key is the device's own word, from its recovery or founding,
//! else its last request, else from its last standing admission. The person is a crew lead's
//! word: the last standing founding, recovery or admission, else the device's last request.

mod authority;
mod decide;
mod member;
#[cfg(test)]
mod tests;

use std::collections::BTreeMap;

use minicbor::{Decode, Encode};
use serde::Serialize;

use crate::fact::{Fact, Founded, Recovered, Role};
use crate::ids::{FactId, Hash, StreamId};
use crate::log::Head;

pub use member::{Member, MemberState};

use decide::Decision;

/// One membership fact with where it stands in the log.
#[derive(Debug, Clone, PartialEq)]
pub struct MembershipFact {
    /// Its name.
    pub id: FactId,
    /// Who wrote it.
    pub stream: StreamId,
    /// Number of its entry in that stream.
    pub seq: u64,
    /// Lamport number of its entry.
    pub lamport: u64,
    /// What it says. Facts that are not about membership are passed over.
    pub fact: Fact,
}

/// What the roster has to know about streams.
pub trait Chains {
    /// Whether `entry` is `last` itself or stands before it in the chain that ends in `last`. False
    /// for an entry of another branch, and while `last` has not arrived.
    fn is_at_or_before(&self, entry: Hash, last: Hash) -> bool;
}

/// Who belongs to the crew. Stored as a view and compared between phones.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct Roster {
    #[n(0)]
    crew: Hash,
    #[n(1)]
    founding: Option<Founding>,
    /// Sorted by stream.
    #[n(2)]
    members: Vec<Member>,
    /// Streams that a weighed fact retires or gives a role, whether it stands or not. Sorted.
    #[n(3)]
    #[serde(skip)]
    named_in_cuts: Vec<StreamId>,
}

#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
struct Founding {
    #[n(0)]
    name: String,
    #[n(1)]
    practice: bool,
    #[n(2)]
    recovery_key: StreamId,
}

/// What an entry of a stream is worth.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// It counts, with this role.
    Counts(Role),
    /// Its device asked to join and is not admitted yet: then it will count.
    Pending,
    /// Its device was retired, and the entry is not among those accepted.
    AfterRetirement,
    /// Nobody knows the device.
    Unknown,
}

/// The roster before anything has arrived, of no crew.
impl Default for Roster {
    fn default() -> Self {
        Self {
            crew: Hash::NONE,
            founding: None,
            members: Vec::new(),
            named_in_cuts: Vec::new(),
        }
    }
}

impl Roster {
    /// Computes the roster from all membership facts that have arrived; `crew` is the hash of the
    /// founding entry. The order of `facts` does not matter, nor do repetitions.
    ///
    /// To be computed anew when a membership fact arrives, and when an entry arrives of a stream
    /// that [is cut](Self::is_cut). Until the founding has arrived, everyone is pending.
    pub fn compute(crew: Hash, facts: &[MembershipFact], chains: &dyn Chains) -> Self {
        let mut ordered: Vec<&MembershipFact> = facts.iter().collect();
        ordered.sort_unstable_by_key(|f| f.order());
        ordered.dedup_by_key(|f| f.id);

        let Decision { weighed, standing } = decide::decide(crew, &ordered, chains);
        let mut roster = Self {
            crew,
            ..Self::default()
        };
        roster.named_in_cuts = cut_streams(&weighed);
        let mut members = BTreeMap::new();
        for fact in &standing {
            if let Fact::Founded(f) = &fact.fact {
                roster.founding = Some(Founding {
                    name: f.crew.clone(),
                    practice: f.practice,
                    recovery_key: f.recovery_key,
                });
            }
            member_in(&mut members, fact.subject()).take_in(fact);
        }
        for fact in ordered {
            if let Fact::JoinAsked(f) = &fact.fact
                && f.device.stream == fact.stream
            {
                member_in(&mut members, fact.stream).take_in_request(f);
            }
        }
        for fact in &standing {
            // A device's own word on its key outranks a lead's, who could lock it out unseen.
            if let Fact::Founded(Founded { device, .. })
            | Fact::Recovered(Recovered { device, .. }) = &fact.fact
            {
                member_in(&mut members, fact.stream).recipient = Some(device.recipient.clone());
            }
        }
        roster.members = members.into_values().map(Member::summed_up).collect();
        roster
    }

    /// Whether someone who may have a say names an entry of this stream as the last one to count,
    /// or to keep a role: then any new entry of it can change what others are worth, and the
    /// roster with it.
    pub fn is_cut(&self, stream: StreamId) -> bool {
        self.named_in_cuts.binary_search(&stream).is_ok()
    }

    /// The hash that names the crew.
    pub fn crew(&self) -> Hash {
        self.crew
    }

    /// The crew's name; none while its founding has not arrived.
    pub fn crew_name(&self) -> Option<&str> {
        self.founding.as_ref().map(|f| f.name.as_str())
    }

    /// Whether this is known to be a practice crew.
    pub fn practice(&self) -> bool {
        self.founding.as_ref().is_some_and(|f| f.practice)
    }

    /// Public half of the recovery code; none while the founding has not arrived.
    pub fn recovery_key(&self) -> Option<StreamId> {
        self.founding.as_ref().map(|f| f.recovery_key)
    }

    /// Every device that asked to join or that a crew lead named, sorted by stream.
    pub fn members(&self) -> impl Iterator<Item = &Member> {
        self.members.iter()
    }

    /// One device.
    pub fn member(&self, stream: StreamId) -> Option<&Member> {
        let at = self
            .members
            .binary_search_by_key(&stream, |m| m.stream)
            .ok()?;
        Some(&self.members[at])
    }

    /// Whether the device is a crew lead now.
    pub fn is_lead(&self, stream: StreamId) -> bool {
        self.member(stream)
            .is_some_and(|m| m.state == MemberState::Member && m.role == Some(Role::CrewLead))
    }

    /// Whom locked files are wrapped to: devices admitted and not retired, sorted by stream.
    pub fn active_recipients(&self) -> Vec<(StreamId, String)> {
        self.members
            .iter()
            .filter(|m| m.state == MemberState::Member)
            .filter_map(|m| Some((m.stream, m.recipient.clone()?)))
            .collect()
    }

    /// What `entry`, which `stream` wrote, is worth. It is for facts other than those about
    /// membership, whose effect is in this roster already.
    pub fn standing(&self, stream: StreamId, entry: Hash, chains: &dyn Chains) -> Standing {
        self.member(stream)
            .map_or(Standing::Unknown, |m| m.standing(entry, chains))
    }
}

fn cut_streams(facts: &[&MembershipFact]) -> Vec<StreamId> {
    let mut streams: Vec<StreamId> = facts
        .iter()
        .filter(|f| matches!(f.fact, Fact::Retired(_) | Fact::RoleGiven(_)))
        .map(|f| f.subject())
        .collect();
    streams.sort_unstable();
    streams.dedup();
    streams
}

fn member_in(members: &mut BTreeMap<StreamId, Member>, stream: StreamId) -> &mut Member {
    members.entry(stream).or_insert_with(|| Member::new(stream))
}

fn is_within(entry: Hash, cut: Option<Hash>, chains: &dyn Chains) -> bool {
    cut.is_some_and(|last| chains.is_at_or_before(entry, last))
}

impl MembershipFact {
    /// The entry it names as the last one to count, or to keep its role.
    fn last(&self) -> Option<Head> {
        match &self.fact {
            Fact::Retired(f) => f.last,
            Fact::RoleGiven(f) => f.last,
            _ => None,
        }
    }

    /// Whom it is about.
    fn subject(&self) -> StreamId {
        match &self.fact {
            Fact::Admitted(f) => f.device.stream,
            Fact::Retired(f) => f.stream,
            Fact::RoleGiven(f) => f.stream,
            _ => self.stream,
        }
    }

    /// The last entry of the subject that it leaves as it was.
    fn cut(&self) -> Option<Head> {
        if self.subject() == self.stream {
            return Some(Head {
                stream: self.stream,
                seq: self.seq,
                hash: self.id.entry,
            });
        }
        self.last().filter(|head| head.stream == self.subject())
    }

    fn order(&self) -> (u64, FactId) {
        (self.lamport, self.id)
    }
}
