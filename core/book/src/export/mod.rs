//! Export of records: what was done and what was left, for inspectors, customers and other tools.
//!
//! Computed from the set of entries alone, so that every phone with the same entries writes the
//! same bytes. Nothing of this device, of arrival or of the present time is in it. What is on
//! screen is made elsewhere; nothing is stored here.

mod after;
mod gather;
mod history;
mod incident;
mod json;
mod looks;
mod record;
mod rule;
mod table;
mod words;

use std::collections::BTreeMap;

use chrono::NaiveDate;

pub use after::{
    After, AftercareNote, HalfWayNote, IncidentNote, IncidentSaid, ReturnNote, TaskNote, ToldNote,
};
pub use incident::{IncidentRecord, incidents};
pub use json::to_json;
pub use record::{
    Amendment, Amount, BeaufortNote, Count, KeepOffNote, LateLoad, Load, Look, Mark,
    NotTreatedNote, Outcome, Record, SectionNote, TreatmentNote, When, Who, WindNote, WindReading,
};
pub use rule::fields_asked;
pub use table::{incidents_to_csv, to_csv};

use crate::ids::{SheetId, VisitId};
use crate::view::keep_off::KeepOffView;
use crate::view::visit::{VisitState, VisitView};
use crate::{Book, Result};

/// Format of the exported records, in CSV and JSON. Unstable until a first release.
pub const EXPORT_FORMAT: u64 = 3;

/// Which records to export; empty: all.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct RecordFilter {
    /// Only of this yard.
    pub yard: Option<SheetId>,
    /// Only treatments whose product's name or registration number holds this text, in upper or
    /// lower case.
    pub product: Option<String>,
    /// Only what a person of this name (or part of it) applied or recorded.
    pub person: Option<String>,
    /// Only from this day on, by the yard's own calendar.
    pub from: Option<NaiveDate>,
    /// Only up to and with this day.
    pub to: Option<NaiveDate>,
}

impl RecordFilter {
    fn takes(&self, record: &Record) -> bool {
        let holds = |text: &str, part: &str| text.to_lowercase().contains(&part.to_lowercase());
        let product = self.product.as_ref().is_none_or(|part| {
            record
                .treatment
                .as_ref()
                .is_some_and(|t| holds(&t.product, part) || holds(&t.registration, part))
        });
        let person = self.person.as_ref().is_none_or(|part| {
            let applicator = record
                .applicator
                .as_ref()
                .is_some_and(|p| holds(&p.name, part));
            applicator || holds(&record.recorded_by.name, part)
        });
        product && person && self.takes_day(record.date)
    }

    /// Whether the day is among those asked for. What has no readable date is shown rather than
    /// lost.
    fn takes_day(&self, day: Option<NaiveDate>) -> bool {
        day.is_none_or(|day| {
            self.from.is_none_or(|from| from <= day) && self.to.is_none_or(|to| day <= to)
        })
    }
}

/// One record for each result: every finish that nobody corrected, and every "not treated" that
/// stands. Versions that have to be settled, late additions and amendments are in it, marked.
/// Ordered by when the visit was opened, then by visit, then by fact.
///
/// # Errors
/// [`crate::BookError::Damaged`]. A finish whose frozen record cannot be read is no error: it is a
/// record with [`Mark::Unreadable`].
pub fn records(book: &Book, filter: &RecordFilter) -> Result<Vec<Record>> {
    let mut keep_offs: BTreeMap<VisitId, Vec<KeepOffView>> = BTreeMap::new();
    for keep_off in book.keep_offs()? {
        keep_offs.entry(keep_off.visit).or_default().push(keep_off);
    }
    let mut visits = visits(book, filter.yard)?;
    visits.sort_by_key(|v| (v.opened.map(|at| at.utc_ms), v.visit));
    let mut records = Vec::new();
    for view in visits {
        let keep_offs = keep_offs.remove(&view.visit).unwrap_or_default();
        let mut of_visit = gather::records_of(book, view, keep_offs)?;
        of_visit.sort_by_key(|r| r.fact);
        records.extend(of_visit.into_iter().filter(|r| filter.takes(r)));
    }
    Ok(records)
}

/// Visits on which treating was started and no finish is recorded: they have no record yet, and
/// whoever exports should be told.
///
/// # Errors
/// [`crate::BookError::Damaged`].
pub fn unfinished(book: &Book, yard: Option<SheetId>) -> Result<Vec<VisitId>> {
    let mut visits = visits(book, yard)?;
    visits.retain(|v| v.state == VisitState::Treating);
    visits.sort_by_key(|v| (v.opened.map(|at| at.utc_ms), v.visit));
    Ok(visits.into_iter().map(|v| v.visit).collect())
}

fn visits(book: &Book, yard: Option<SheetId>) -> Result<Vec<VisitView>> {
    match yard {
        Some(yard) => book.visits_to(yard),
        None => book.visits(),
    }
}
