//! Tests of the roster, and the small crew in memory that they share.
//!
//! No storage and no real hashes: an entry's hash here is a number written large.

mod orders;
mod power;
mod quarrel;
mod random;
mod recovery;
mod retirement;
mod rows;

use std::collections::{BTreeMap, BTreeSet};

use ed25519_dalek::{Signer, SigningKey};

use super::{Chains, Member, MemberState, MembershipFact, Roster, Standing};
use crate::fact::{
    Admitted, DeviceKeys, Fact, Founded, JoinAsked, Person, Recovered, Retired, Role, RoleGiven,
    recovery_message,
};
use crate::ids::{FactId, Hash, StreamId};
use crate::log::Head;

/// A device, by a number; seniority in most tests follows it. 1 is the founder.
type Device = u8;

const FOUNDER: Device = 1;

fn stream(device: Device) -> StreamId {
    StreamId([device; 32])
}

fn keys(device: Device) -> DeviceKeys {
    DeviceKeys {
        stream: stream(device),
        recipient: format!("age1device{device}"),
    }
}

fn person(device: Device) -> Person {
    Person {
        name: format!("Person {device}"),
        licence: String::new(),
    }
}

fn recovery_key() -> SigningKey {
    SigningKey::from_bytes(&[77; 32])
}

fn founded(device: Device) -> Fact {
    Fact::Founded(Founded {
        crew: "Clover crew".to_owned(),
        practice: true,
        recovery_key: StreamId(recovery_key().verifying_key().to_bytes()),
        device: keys(device),
        person: person(device),
    })
}

fn asked(device: Device) -> Fact {
    Fact::JoinAsked(JoinAsked {
        device: keys(device),
        person: person(device),
        was: None,
    })
}

fn admitted(device: Device, role: Role) -> Fact {
    Fact::Admitted(Admitted {
        device: keys(device),
        person: person(device),
        role,
    })
}

fn retired(device: Device, last: Option<Head>) -> Fact {
    Fact::Retired(Retired {
        stream: stream(device),
        last,
        why: "lost".to_owned(),
    })
}

fn given(device: Device, role: Role, last: Option<Head>) -> Fact {
    Fact::RoleGiven(RoleGiven {
        stream: stream(device),
        role,
        last,
    })
}

fn recovered(crew: Hash, device: Device) -> Fact {
    let message = recovery_message(crew, &keys(device));
    let signature = recovery_key().sign(&message).to_bytes().to_vec();
    Fact::Recovered(Recovered {
        device: keys(device),
        person: person(device),
        signature,
    })
}

/// Membership facts and the chains they stand in.
#[derive(Debug, Clone, Default)]
struct Log {
    facts: Vec<MembershipFact>,
    prev: BTreeMap<Hash, Hash>,
    heads: BTreeMap<Device, Head>,
    lamport: u64,
}

impl Log {
    /// A log with the founding in it.
    fn founded() -> Self {
        let mut log = Self::default();
        log.say(FOUNDER, founded(FOUNDER));
        log
    }

    /// A founder who admitted `leads` as crew leads, in order.
    fn with_leads(leads: impl IntoIterator<Item = Device>) -> Self {
        let mut log = Self::founded();
        for lead in leads {
            log.say(FOUNDER, admitted(lead, Role::CrewLead));
        }
        log
    }

    fn crew(&self) -> Hash {
        self.facts[0].id.entry
    }

    /// An entry by someone who has seen all the others.
    fn say(&mut self, by: Device, fact: Fact) -> Head {
        self.say_at(self.lamport + 1, by, fact)
    }

    fn say_at(&mut self, lamport: u64, by: Device, fact: Fact) -> Head {
        self.say_after(self.head(by), lamport, by, vec![fact])
    }

    /// An entry after any other of the stream, so that it may fork.
    fn say_after(
        &mut self,
        prev: Option<Head>,
        lamport: u64,
        by: Device,
        facts: Vec<Fact>,
    ) -> Head {
        let mut hash = [0; 32];
        hash[0] = by;
        hash[24..].copy_from_slice(&(self.prev.len() as u64 + 1).to_be_bytes());
        let head = Head {
            stream: stream(by),
            seq: prev.map_or(1, |p| p.seq + 1),
            hash: Hash(hash),
        };
        self.prev
            .insert(head.hash, prev.map_or(Hash::NONE, |p| p.hash));
        self.heads.insert(by, head);
        self.lamport = self.lamport.max(lamport);
        for (index, fact) in (0..).zip(facts) {
            self.facts.push(MembershipFact {
                id: FactId {
                    entry: head.hash,
                    index,
                },
                stream: head.stream,
                seq: head.seq,
                lamport,
                fact,
            });
        }
        head
    }

    /// The entry that the device wrote last.
    fn head(&self, device: Device) -> Option<Head> {
        self.heads.get(&device).copied()
    }

    fn roster(&self) -> Roster {
        Roster::compute(self.crew(), &self.facts, self)
    }

    fn standing(&self, device: Device, entry: Head) -> Standing {
        self.roster().standing(stream(device), entry.hash, self)
    }
}

impl Chains for Log {
    fn is_at_or_before(&self, entry: Hash, last: Hash) -> bool {
        let mut here = last;
        while here != entry {
            match self.prev.get(&here) {
                Some(prev) => here = *prev,
                None => return false,
            }
        }
        self.prev.contains_key(&here)
    }
}

fn is_retired(roster: &Roster, device: Device) -> bool {
    matches!(
        roster.member(stream(device)).map(|m| &m.state),
        Some(MemberState::Retired { .. })
    )
}

/// The device's role, if it belongs to the crew.
fn role(roster: &Roster, device: Device) -> Option<Role> {
    let member = roster
        .member(stream(device))
        .filter(|m| m.state == MemberState::Member);
    member.and_then(|m| m.role)
}

fn leads(roster: &Roster) -> BTreeSet<Device> {
    let current = roster.members().filter(|m| roster.is_lead(m.stream));
    current.map(|m: &Member| m.stream.0[0]).collect()
}
