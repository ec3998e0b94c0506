//! Incidents: somebody was exposed, something spilled. What happened and what was done.
//!
//! No advice here, and no view: what several filings add up to is [`crate::view::incident`].

use minicbor::{Decode, Encode};
use serde::Serialize;

use crate::ids::{IncidentId, SheetId, VisitId};

/// What kind of incident it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Encode, Decode, Serialize)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum IncidentWhat {
    /// A person was exposed.
    #[n(0)]
    Exposure,
    /// Product was spilled.
    #[n(1)]
    Spill,
    /// An animal was exposed.
    #[n(2)]
    Animal,
    /// Product went where it must not.
    #[n(3)]
    Drift,
    /// Equipment failed.
    #[n(4)]
    Equipment,
    /// Something else, told in words.
    #[n(5)]
    Other,
}

/// An incident is filed. A later filing under the same name adds to it; none takes anything away.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct IncidentFiled {
    /// The incident.
    #[n(0)]
    pub incident: IncidentId,
    /// The yard, where it was in one.
    #[n(1)]
    pub yard: Option<SheetId>,
    /// The visit, where it was on one.
    #[n(2)]
    pub visit: Option<VisitId>,
    /// What kind it is.
    #[n(3)]
    pub what: IncidentWhat,
    /// What happened.
    #[n(4)]
    pub told: String,
    /// What was done about it.
    #[n(5)]
    pub done: String,
    /// Who was called, and by whom.
    #[n(6)]
    pub who_called: String,
    /// When it happened: milliseconds since 1970 in UTC.
    #[n(7)]
    pub happened_utc_ms: i64,
}
