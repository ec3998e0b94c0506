//! An incident: everything that was filed under its name, in order.
//!
//! Nothing filed is ever taken away or set aside; whoever is not of the crew is marked.

use minicbor::{Decode, Encode};
use serde::Serialize;

use super::visit::Told;
use crate::fact::{Fact, IncidentWhat, Role};
use crate::ids::{FactId, IncidentId, SheetId, StreamId, VisitId};
use crate::log::Stamp;

/// One filing.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct IncidentLine {
    /// The fact.
    #[n(0)]
    pub fact: FactId,
    /// Who filed it.
    #[n(1)]
    pub by: StreamId,
    /// When, by their clock.
    #[n(2)]
    pub at: Stamp,
    /// Whether the writer is of the crew.
    #[n(3)]
    pub of_the_crew: bool,
    /// What kind they said it is.
    #[n(4)]
    pub what: IncidentWhat,
    /// What happened.
    #[n(5)]
    pub told: String,
    /// What was done about it.
    #[n(6)]
    pub done: String,
    /// Who was called, and by whom.
    #[n(7)]
    pub who_called: String,
    /// When they said it happened; milliseconds since 1970 in UTC.
    #[n(8)]
    pub happened_utc_ms: i64,
}

/// An incident as it stands.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct IncidentView {
    /// The incident.
    #[n(0)]
    pub incident: IncidentId,
    /// The yard, by the first filing that names one.
    #[n(1)]
    pub yard: Option<SheetId>,
    /// The visit, by the first filing that names one.
    #[n(2)]
    pub visit: Option<VisitId>,
    /// What kind, by the first filing.
    #[n(3)]
    pub what: IncidentWhat,
    /// The earliest time at which anyone said it happened; milliseconds since 1970 in UTC.
    #[n(4)]
    pub happened_utc_ms: i64,
    /// Everything that was filed, in order.
    #[n(5)]
    pub lines: Vec<IncidentLine>,
}

/// Computes an incident from everything filed under its name; none when nothing was.
pub(crate) fn incident_of(incident: IncidentId, told: &[Told<'_>]) -> Option<IncidentView> {
    let mut view: Option<IncidentView> = None;
    for t in told {
        let Fact::IncidentFiled(f) = t.fact else {
            continue;
        };
        let view = view.get_or_insert_with(|| IncidentView {
            incident,
            yard: None,
            visit: None,
            what: f.what,
            happened_utc_ms: f.happened_utc_ms,
            lines: Vec::new(),
        });
        view.yard = view.yard.or(f.yard);
        view.visit = view.visit.or(f.visit);
        view.happened_utc_ms = view.happened_utc_ms.min(f.happened_utc_ms);
        view.lines.push(IncidentLine {
            fact: t.id,
            by: t.by,
            at: t.at,
            of_the_crew: t.counts(Role::Applicator),
            what: f.what,
            told: f.told.clone(),
            done: f.done.clone(),
            who_called: f.who_called.clone(),
            happened_utc_ms: f.happened_utc_ms,
        });
    }
    view
}
