//! Looking, planning and getting ready: counts, readings, answers, and the result of a visit that
//! treats nothing.

use chrono::NaiveDate;
use sward_rules::finding::Finding;
use sward_rules::look::Sample;
use sward_rules::sky::MeterReading;
use sward_rules::walk_round::Answered;

use super::words;
use crate::fact::{
    Counted, Fact, Judged, NotTreated, NotTreatedWhy, SkySeen, StationHeard, VisitOpened,
    WalkedRound, WindMeasured,
};
use crate::ids::{Hash, SheetId, VisitId};
use crate::refusal::{Series, Typed, VisitRefusal};
use crate::sheet::SheetKind;
use crate::view::visit::VisitState;
use crate::{Book, BookError, Result};

/// The most samples or readings in one fact.
const SERIES_MOST: usize = 500;

impl Book {
    /// Begins a visit to a yard.
    ///
    /// # Errors
    /// [`BookError::NotFound`] for an unknown yard.
    pub fn open_visit(&mut self, yard: SheetId, target: &str) -> Result<VisitId> {
        self.yard(yard)?;
        let target = words(Typed::Pest, target)?;
        let visit = VisitId(self.env().new_uuid());
        self.write(|w| {
            w.fact(Fact::VisitOpened(VisitOpened {
                visit,
                yard,
                target,
            }));
            Ok(())
        })?;
        Ok(visit)
    }

    /// Records a count.
    ///
    /// # Errors
    /// [`BookError::Refused`] without a sample, [`BookError::Rule`] for a sample that has no area,
    /// [`BookError::NotFound`] for an unknown visit.
    pub fn count(
        &mut self,
        visit: VisitId,
        pest: &str,
        samples: Vec<Sample>,
        note: &str,
    ) -> Result<()> {
        self.visit(visit)?;
        series(samples.len(), Series::Sample)?;
        sward_rules::look::density(&samples)?;
        let pest = words(Typed::Pest, pest)?;
        let note = words(Typed::Note, note)?;
        self.record(Fact::Counted(Counted {
            visit,
            pest,
            samples,
            note,
        }))
    }

    /// Records a series of wind readings by hand meter.
    ///
    /// # Errors
    /// [`BookError::Refused`] without a reading, [`BookError::Rule`] for a reading that cannot be,
    /// [`BookError::NotFound`].
    pub fn measure_wind(&mut self, visit: VisitId, readings: Vec<MeterReading>) -> Result<()> {
        self.visit(visit)?;
        series(readings.len(), Series::Reading)?;
        super::check_readings(&readings)?;
        self.record(Fact::WindMeasured(WindMeasured { visit, readings }))
    }

    /// Records what was read or seen of the air, the soil and the blooms.
    ///
    /// # Errors
    /// [`BookError::NotFound`].
    pub fn see_sky(&mut self, seen: SkySeen) -> Result<()> {
        self.visit(seen.visit)?;
        self.record(Fact::SkySeen(seen))
    }

    /// Records that a station's report or a forecast was taken in. `whole` is its SHA-256.
    ///
    /// # Errors
    /// [`BookError::NotFound`].
    pub fn hear_station(
        &mut self,
        visit: VisitId,
        from: &str,
        text: &str,
        whole: Hash,
    ) -> Result<()> {
        self.visit(visit)?;
        let from = words(Typed::Source, from)?;
        let text = words(Typed::Report, text)?;
        self.record(Fact::StationHeard(StationHeard {
            visit,
            from,
            text,
            whole,
        }))
    }

    /// Records answers of the walk round the yard.
    ///
    /// # Errors
    /// [`BookError::Refused`] without an answer, [`BookError::NotFound`].
    pub fn walk_round(&mut self, visit: VisitId, answers: Vec<Answered>) -> Result<()> {
        self.visit(visit)?;
        series(answers.len(), Series::Answer)?;
        self.record(Fact::WalkedRound(WalkedRound { visit, answers }))
    }

    /// Records the findings for treating with a label sheet, as they were shown before a start.
    ///
    /// # Errors
    /// [`BookError::NotFound`].
    pub fn record_findings(
        &mut self,
        visit: VisitId,
        label_sheet: SheetId,
        findings: Vec<Finding>,
        opens_next_utc_ms: Option<i64>,
    ) -> Result<()> {
        self.visit(visit)?;
        self.label(label_sheet)?;
        self.record(Fact::Judged(Judged {
            visit,
            findings,
            opens_next_utc_ms,
            label_sheet,
        }))
    }

    /// Ends a visit without a treatment: a full result. `look_again` is a day as year-month-day.
    ///
    /// # Errors
    /// [`BookError::Refused`] when treating has started or a day cannot be read,
    /// [`BookError::NotFound`].
    pub fn not_treated(
        &mut self,
        visit: VisitId,
        why: NotTreatedWhy,
        note: &str,
        look_again: Option<&str>,
    ) -> Result<()> {
        let state = self.visit(visit)?.state;
        if matches!(state, VisitState::Treating | VisitState::Finished) {
            return Err(BookError::refused(VisitRefusal::TreatingHasStarted));
        }
        let note = words(Typed::Note, note)?;
        if why == NotTreatedWhy::Other && note.is_empty() {
            return Err(BookError::refused(VisitRefusal::NotTreatedNoteMissing));
        }
        let look_again = look_again
            .map(|day| {
                day.parse::<NaiveDate>()
                    .map(|d| d.to_string())
                    .map_err(|_| {
                        BookError::refused(VisitRefusal::NotADay {
                            typed: day.to_owned(),
                        })
                    })
            })
            .transpose()?;
        self.record(Fact::NotTreated(NotTreated {
            visit,
            why,
            note,
            look_again,
        }))
    }

    /// Writes fields of a visit's plan, making the plan if there is none.
    ///
    /// # Errors
    /// [`BookError::NotFound`] for an unknown visit or field; what does not fit is refused.
    pub fn set_plan(&mut self, visit: VisitId, typed: &[(&str, &str)]) -> Result<()> {
        self.visit(visit)?;
        let sheet = SheetId(visit.0);
        self.write(|w| {
            w.begin_sheet(sheet, SheetKind::Plan)?;
            for (key, text) in typed {
                w.set(sheet, SheetKind::Plan, key, text)?;
            }
            Ok(())
        })
    }

    /// Writes one fact as one entry.
    pub(super) fn record(&mut self, fact: Fact) -> Result<()> {
        self.write(|w| {
            w.fact(fact);
            Ok(())
        })
    }
}

fn series(len: usize, what: Series) -> Result<()> {
    if len == 0 {
        return Err(BookError::refused(VisitRefusal::SeriesEmpty { what }));
    }
    if len > SERIES_MOST {
        return Err(BookError::refused(VisitRefusal::SeriesTooLong {
            what,
            most: SERIES_MOST,
        }));
    }
    Ok(())
}
