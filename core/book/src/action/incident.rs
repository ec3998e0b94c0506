//! Filing an incident, and adding to one.
//!
//! Nothing but an empty record is refused: whoever stands beside an accident has no time for more.

use super::words;
use crate::fact::{Fact, IncidentFiled, IncidentWhat};
use crate::ids::{IncidentId, SheetId, VisitId};
use crate::refusal::{AfterRefusal, Typed};
use crate::{Book, BookError, Result};

/// An incident as it is filed.
#[derive(Debug, Clone)]
pub struct Incident {
    /// The incident that this adds to; none: a new one.
    pub adds_to: Option<IncidentId>,
    /// The yard; none where it was in none, or where the visit names it.
    pub yard: Option<SheetId>,
    /// The visit.
    pub visit: Option<VisitId>,
    /// What kind it is.
    pub what: IncidentWhat,
    /// What happened; may be empty where it adds to an incident.
    pub told: String,
    /// What was done about it.
    pub done: String,
    /// Who was called, and by whom.
    pub who_called: String,
    /// When it happened: milliseconds since 1970 in UTC.
    pub happened_utc_ms: i64,
}

impl Book {
    /// Files an incident, or adds to one. Answers its name.
    ///
    /// # Errors
    /// [`BookError::Refused`] without a word of what happened, for a time to come, or for a visit
    /// to another yard; [`BookError::NotFound`] for an unknown yard, visit or incident.
    pub fn file_incident(&mut self, filed: Incident) -> Result<IncidentId> {
        let Incident {
            adds_to,
            yard,
            visit,
            what,
            told,
            done,
            who_called,
            happened_utc_ms,
        } = filed;
        let told = words(Typed::Happened, &told)?;
        let done = words(Typed::DoneAboutIt, &done)?;
        let who_called = words(Typed::WhoCalled, &who_called)?;
        let nothing_new = done.is_empty() && who_called.is_empty();
        if told.is_empty() && (adds_to.is_none() || nothing_new) {
            return Err(BookError::refused(AfterRefusal::IncidentNotTold));
        }
        self.must_not_be_to_come(happened_utc_ms)?;
        let yard = self.yard_of_incident(yard, visit)?;
        let incident = match adds_to {
            Some(incident) => self.incident(incident)?.incident,
            None => IncidentId(self.env().new_uuid()),
        };
        self.record(Fact::IncidentFiled(IncidentFiled {
            incident,
            yard,
            visit,
            what,
            told,
            done,
            who_called,
            happened_utc_ms,
        }))?;
        Ok(incident)
    }

    fn yard_of_incident(
        &self,
        yard: Option<SheetId>,
        visit: Option<VisitId>,
    ) -> Result<Option<SheetId>> {
        if let Some(yard) = yard {
            self.yard(yard)?;
        }
        let of_visit = match visit {
            Some(visit) => self.visit(visit)?.yard,
            None => None,
        };
        match (yard, of_visit) {
            (Some(yard), Some(of_visit)) if yard != of_visit => {
                Err(BookError::refused(AfterRefusal::IncidentYardDiffers))
            }
            _ => Ok(yard.or(of_visit)),
        }
    }
}
