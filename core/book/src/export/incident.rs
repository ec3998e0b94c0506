//! Every incident, whether a result stands beside it or not: one with no visit, or on a visit that
//! has no result yet, would be in no record.

use serde::Serialize;

use super::RecordFilter;
use super::after::{IncidentNote, IncidentSaid};
use super::record::Who;
use super::words::Clock;
use crate::error::known;
use crate::ids::{IncidentId, SheetId, StreamId, VisitId};
use crate::view::incident::IncidentView;
use crate::{Book, Result};

/// An incident with the place where it happened.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct IncidentRecord {
    /// The incident.
    #[serde(flatten)]
    pub incident: IncidentNote,
    /// The yard's sheet, where one was named.
    pub yard: Option<SheetId>,
    /// What people call the yard.
    pub yard_name: String,
    /// Its address.
    pub address: String,
    /// Its IANA time zone; empty where none is set.
    pub zone: String,
    /// The visit, where one was named.
    pub visit: Option<VisitId>,
}

/// Every incident, by when it happened. The filter's product is not asked for: an incident has
/// none.
///
/// # Errors
/// [`crate::BookError::Damaged`].
pub fn incidents(book: &Book, filter: &RecordFilter) -> Result<Vec<IncidentRecord>> {
    let mut views = book.incidents()?;
    views.sort_by_key(|v| (v.happened_utc_ms, v.incident));
    let mut records = Vec::with_capacity(views.len());
    for view in &views {
        let record = record_of(book, view)?;
        if takes(filter, &record, view.happened_utc_ms) {
            records.push(record);
        }
    }
    Ok(records)
}

fn record_of(book: &Book, view: &IncidentView) -> Result<IncidentRecord> {
    // A yard or visit that has not arrived yet takes nothing away from it. Filed on a visit, it
    // happened in the visit's yard.
    let yard = match (view.yard, view.visit) {
        (None, Some(visit)) => known(book.visit(visit))?.and_then(|v| v.yard),
        (yard, _) => yard,
    };
    let place = match yard {
        Some(yard) => known(book.yard(yard))?,
        None => None,
    };
    let (yard_name, address, zone) =
        place.map_or_else(Default::default, |y| (y.name, y.address, y.zone));
    Ok(IncidentRecord {
        incident: note(book, view, Clock::named(&zone)),
        yard,
        yard_name,
        address,
        zone,
        visit: view.visit,
    })
}

fn takes(filter: &RecordFilter, record: &IncidentRecord, happened_utc_ms: i64) -> bool {
    let person = filter.person.as_ref().is_none_or(|part| {
        let part = part.to_lowercase();
        let said = &record.incident.said;
        said.iter()
            .any(|s| s.by.name.to_lowercase().contains(&part))
    });
    let yard = filter.yard.is_none_or(|yard| record.yard == Some(yard));
    let day = Clock::named(&record.zone).day(happened_utc_ms);
    person && yard && filter.takes_day(day)
}

/// One incident by its name.
pub(super) fn by_name(book: &Book, incident: IncidentId, clock: Clock) -> Result<IncidentNote> {
    Ok(note(book, &book.incident(incident)?, clock))
}

fn note(book: &Book, view: &IncidentView, clock: Clock) -> IncidentNote {
    IncidentNote {
        incident: view.incident,
        what: view.what,
        happened: clock.when(view.happened_utc_ms),
        said: view
            .lines
            .iter()
            .map(|line| IncidentSaid {
                at: clock.when(line.at.utc_ms),
                by: who(book, line.by, line.of_the_crew),
                told: line.told.clone(),
                done: line.done.clone(),
                who_called: line.who_called.clone(),
            })
            .collect(),
    }
}

/// Who wrote something.
pub(super) fn who(book: &Book, stream: StreamId, of_the_crew: bool) -> Who {
    let member = book.roster().member(stream);
    let person = member
        .and_then(|m| m.person.as_ref())
        .filter(|p| !p.name.is_empty());
    Who {
        name: person.map_or_else(|| format!("device {}", stream.short()), |p| p.name.clone()),
        licence: person.map(|p| p.licence.clone()).unwrap_or_default(),
        device: stream,
        of_the_crew,
    }
}
