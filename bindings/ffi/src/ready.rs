//! May I treat, here and now: wind readings, and every finding that comes of what is known.

use sward_book::action::{ReadyInputs, judge};
use sward_book::ids::VisitId;
use sward_rules::Field;
use sward_rules::finding;
use sward_rules::plan::rate_findings;
use sward_rules::sky::{MeterReading, NextWindow};

use crate::handle::Open;
use crate::names::{check_name, entered, id};
use crate::{Result, Swardbook};

/// One look at a hand meter.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct WindReading {
    /// When; milliseconds since 1970 in UTC.
    pub at_utc_ms: i64,
    /// The speed the meter showed: "6 mph".
    pub wind: String,
    /// The highest speed since the reading before; none where it was not noted.
    pub gust: Option<String>,
    /// Where the wind comes from, in degrees clockwise from north; 360 is north.
    pub from_degrees: Option<u16>,
    /// How high above the lawn the meter was held: "2 m"; none where it was not noted.
    pub height: Option<String>,
}

/// The answer of a check, from best to worst. `Unknown` is never as good as allowed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, uniffi::Enum)]
pub enum Verdict {
    /// No limit is hit.
    Clear,
    /// Allowed, with care.
    Caution,
    /// Not checked, too old, or no limit known: to be acknowledged by name before a start.
    Unknown,
    /// A limit is hit: a start needs a reason.
    DontTreat,
}

/// What one check says.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct Finding {
    /// The check's own name, the same in every language: what is acknowledged.
    pub check: String,
    /// Its name in the person's language.
    pub name: String,
    /// Its answer.
    pub verdict: Verdict,
    /// Why, in the person's language.
    pub reasons: Vec<String>,
}

/// Every finding for a visit, and their sum.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct Ready {
    /// The worst of them.
    pub verdict: Verdict,
    /// One for each check that the label's method asks for.
    pub findings: Vec<Finding>,
    /// When it may open next by the forecast; none where none can be told.
    pub opens_next_utc_ms: Option<i64>,
}

#[uniffi::export]
impl Swardbook {
    /// Begins a visit to a yard, with the pest it is for; its id.
    pub fn open_visit(&self, yard: String, target: String) -> Result<String> {
        self.with(|open| {
            open.books
                .writing(|book| Ok(book.open_visit(id(&yard)?, &target)?.to_string()))
        })
    }

    /// Records readings with a hand meter at the yard.
    pub fn measure_wind(&self, visit: String, readings: Vec<WindReading>) -> Result<()> {
        self.with(|open| {
            let read = readings.iter().map(reading);
            let readings = read.collect::<sward_screens::Result<Vec<_>>>()?;
            open.books
                .writing(|book| Ok(book.measure_wind(id(&visit)?, readings)?))
        })
    }

    /// Every finding for treating with this label sheet at this rate ("2 lb/1000 ft2") now, by what
    /// was measured, seen and answered on this visit. It is written down: a start is made on it,
    /// within 15 minutes.
    pub fn check_ready(&self, visit: String, label: String, rate: String) -> Result<Ready> {
        self.with(|open| {
            let rate = entered(&rate, Field::Rate)?;
            open.books.writing(|book| {
                let (visit, label) = (id::<VisitId>(&visit)?, id(&label)?);
                let yard = book.visit(visit)?.yard;
                let yard = yard.map(|yard| book.yard_sheet(yard)).transpose()?;
                let plan = book.plan(visit)?;
                let sections = plan.map(|plan| plan.sections).unwrap_or_default();
                let around = yard.map(|yard| sward_screens::around(&yard, &sections));
                let inputs = ReadyInputs {
                    around: around.as_deref(),
                    ..ReadyInputs::default()
                };
                let (mut findings, window) = judge(book, visit, label, inputs)?;
                findings.extend(rate_findings(&book.label_sheet(label)?.label, &rate)?);
                let opens = match window {
                    NextWindow::MayOpen { from_utc_ms, .. } => Some(from_utc_ms),
                    NextWindow::NotSeen { .. } => None,
                };
                book.record_findings(visit, label, findings.clone(), opens)?;
                Ok(Ready {
                    verdict: finding::sum(&findings).into(),
                    findings: findings.iter().map(|f| said(open, f)).collect(),
                    opens_next_utc_ms: opens,
                })
            })
        })
    }
}

fn reading(told: &WindReading) -> sward_screens::Result<MeterReading> {
    let optional =
        |text: &Option<String>, field| text.as_deref().map(|text| entered(text, field)).transpose();
    Ok(MeterReading {
        at_utc_ms: told.at_utc_ms,
        wind: entered(&told.wind, Field::WindSpeed)?,
        gust: optional(&told.gust, Field::WindSpeed)?,
        from_degrees: told.from_degrees,
        height: optional(&told.height, Field::MeterHeight)?,
    })
}

fn said(open: &Open, finding: &finding::Finding) -> Finding {
    let (name, reasons) = open.books.say_finding(finding, &open.languages);
    Finding {
        check: check_name(finding.check),
        name,
        verdict: finding.verdict.into(),
        reasons,
    }
}

impl From<finding::Verdict> for Verdict {
    fn from(verdict: finding::Verdict) -> Self {
        match verdict {
            finding::Verdict::Clear => Self::Clear,
            finding::Verdict::Caution => Self::Caution,
            finding::Verdict::Unknown => Self::Unknown,
            finding::Verdict::DontTreat => Self::DontTreat,
        }
    }
}
