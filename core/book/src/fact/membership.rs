//! Facts about who belongs to the crew, and about clocks.
//!
//! What they add up to is [`crate::view::roster`].

use minicbor::{Decode, Encode};
use serde::Serialize;

use crate::env::TimeProof;
use crate::ids::{Hash, StreamId};
use crate::log::Head;

/// What a device may do. Enforced by every receiver, in the views.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Encode, Decode, Serialize)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum Role {
    /// Reads only.
    #[n(0)]
    Office,
    /// Treats and records.
    #[n(1)]
    Applicator,
    /// Also admits, retires and decides.
    #[n(2)]
    CrewLead,
}

/// The person who carries a device, as records name them.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct Person {
    /// Name as it stands in records.
    #[n(0)]
    pub name: String,
    /// Applicator's licence or certificate number; empty when there is none.
    #[n(1)]
    pub licence: String,
}

/// A device's public keys.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct DeviceKeys {
    /// The key that signs its entries, which names its stream.
    #[n(0)]
    pub stream: StreamId,
    /// The X25519 key that locked files are wrapped to, as an age recipient ("age1…").
    #[n(1)]
    pub recipient: String,
}

/// The founding of a crew. The hash of its entry names the crew.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct Founded {
    /// The crew's name.
    #[n(0)]
    pub crew: String,
    /// A practice crew: its records are marked, and its clock may be pretended.
    #[n(1)]
    pub practice: bool,
    /// Public half of the recovery code.
    #[n(2)]
    pub recovery_key: StreamId,
    /// The founding device, which is a crew lead.
    #[n(3)]
    pub device: DeviceKeys,
    /// Who carries it.
    #[n(4)]
    pub person: Person,
}

/// A device introduces itself: the first entry of every stream but the founder's.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct JoinAsked {
    /// Its keys.
    #[n(0)]
    pub device: DeviceKeys,
    /// Who carries it.
    #[n(1)]
    pub person: Person,
    /// The stream it wrote before, when it was restored or copied.
    #[n(2)]
    pub was: Option<StreamId>,
}

/// A crew lead admits a device.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct Admitted {
    /// Its keys.
    #[n(0)]
    pub device: DeviceKeys,
    /// Who carries it.
    #[n(1)]
    pub person: Person,
    /// What it may do.
    #[n(2)]
    pub role: Role,
}

/// A crew lead retires a device.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct Retired {
    /// Its stream.
    #[n(0)]
    pub stream: StreamId,
    /// The last entry that still counts; none when not one does.
    #[n(1)]
    pub last: Option<Head>,
    /// Why.
    #[n(2)]
    pub why: String,
}

/// A crew lead gives a device another role.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct RoleGiven {
    /// Its stream.
    #[n(0)]
    pub stream: StreamId,
    /// The new role.
    #[n(1)]
    pub role: Role,
    /// The last entry for which the old role still holds; none when there is none.
    #[n(2)]
    pub last: Option<Head>,
}

/// Whoever holds the recovery code makes a device a crew lead. Written by that device itself.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct Recovered {
    /// Its keys.
    #[n(0)]
    pub device: DeviceKeys,
    /// Who carries it.
    #[n(1)]
    pub person: Person,
    /// The recovery key's signature over [`recovery_message`].
    #[cbor(n(2), with = "minicbor::bytes")]
    #[serde(skip)]
    pub signature: Vec<u8>,
}

/// What the recovery key signs to make a device a crew lead of one crew.
pub fn recovery_message(crew: Hash, device: &DeviceKeys) -> Vec<u8> {
    [
        b"swardbook recovery 1\0",
        crew.0.as_slice(),
        &device.stream.0,
        device.recipient.as_bytes(),
    ]
    .concat()
}

/// Another device's clock, seen beside the own one. Written only when it widens what is known
/// by more than 30 seconds, so that phones settle.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct ClockSeen {
    /// The other device.
    #[n(0)]
    pub stream: StreamId,
    /// Its last entry when this was seen: later entries may be by a clock set right.
    #[n(1)]
    pub seq: u64,
    /// The other clock was ahead of the own one by at least this many milliseconds.
    #[n(2)]
    pub ahead_ms_least: Option<i64>,
    /// The other clock was ahead by at most this (negative: it was behind). Known only when
    /// both were asked, not from a file.
    #[n(3)]
    pub ahead_ms_most: Option<i64>,
}

/// The own clock was confirmed against another.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct TimeConfirmed {
    /// By whom or what.
    #[n(0)]
    pub how: TimeProof,
}
