//! The earliest day for the next treatment: by the label's shortest time, and by its most in a
//! season.

use chrono::NaiveDate;
use serde::Serialize;

use super::interval::{Interval, IntervalUnit};
use super::{Others, TREATMENTS_MOST, day_text};
use crate::error::{Field, Result, RuleError};
use crate::finding::{Check, Finding, Reason, Shown, Verdict, Whose, sum};
use crate::label::LabelSays;
use crate::note::Note;
use crate::working::{Answer, Working};

/// When the product was last put on, on this ground.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LastPutOn {
    /// On these days of this season or before, in any order.
    Days(Vec<NaiveDate>),
    /// Nobody knows.
    NotKnown,
}

/// What is asked.
#[derive(Debug, Clone)]
pub struct RepeatAsked {
    /// The label's shortest time between two treatments.
    pub shortest: LabelSays<Interval>,
    /// The label's most treatments of a season.
    pub season_most: LabelSays<u32>,
    /// The season's first day.
    pub season_from: NaiveDate,
    /// When it was put on before.
    pub before: LastPutOn,
    /// What others put on this season; the label's most counts theirs too.
    pub others: Others,
    /// The day in question.
    pub planned: NaiveDate,
}

/// When the next treatment may be.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Repeat {
    /// The last treatment known.
    pub last: Option<NaiveDate>,
    /// The first day the label's shortest time allows; none where that is not known, or nothing was
    /// put on.
    pub earliest: Option<NaiveDate>,
    /// Treatments known of this season.
    pub this_season: Option<u32>,
    /// What the label says to the day in question.
    pub findings: Vec<Finding>,
}

impl Repeat {
    /// The findings in one word.
    pub fn verdict(&self) -> Verdict {
        sum(&self.findings)
    }
}

/// Works out the earliest repeat, on dates.
///
/// ```
/// # use chrono::NaiveDate;
/// # use sward_rules::{Verdict, label::LabelSays, season::*};
/// # let day = |m, d| NaiveDate::from_ymd_opt(2026, m, d).unwrap();
/// let next = repeat(&RepeatAsked {
///     shortest: LabelSays::Value(Interval::parse("8 weeks")?),
///     season_most: LabelSays::Value(2),
///     season_from: day(1, 1),
///     before: LastPutOn::Days(vec![day(2, 20)]),
///     others: Others::SaidNone,
///     planned: day(4, 16),
/// })?.value;
/// // Over the change of clocks, eight weeks are eight weeks.
/// assert_eq!(next.earliest, Some(day(4, 17)));
/// assert_eq!(next.verdict(), Verdict::DontTreat);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a day of before, or the season's first, lies after the day in question, or there are too many.
pub fn repeat(asked: &RepeatAsked) -> Result<Answer<Repeat>> {
    not_after(asked.season_from, asked.planned)?;
    let mut working = Working::new("last treatment + shortest time, in days", "calendar")
        .input("planned for", day_text(asked.planned));
    let days = match &asked.before {
        LastPutOn::NotKnown => None,
        LastPutOn::Days(days) => Some(checked(days, asked.planned)?),
    };
    let last = days.and_then(|days| days.iter().max().copied());
    if let Some(last) = last {
        working = working.input("last treatment", day_text(last));
    }
    if let Some(shortest) = asked.shortest.value() {
        working = working.input("shortest time", shortest.for_person());
        working = match shortest.unit {
            IntervalUnit::Months => working.note(Note::DayCarriedOver),
            IntervalUnit::Days | IntervalUnit::Weeks => working.note(Note::WholeDays),
        };
    }
    let earliest = match (last, asked.shortest.value()) {
        (Some(last), Some(shortest)) => Some(shortest.after(last)?),
        _ => None,
    };
    let this_season = days.map(|days| {
        let in_season = days.iter().filter(|day| **day >= asked.season_from);
        u32::try_from(in_season.count()).unwrap_or(u32::MAX)
    });
    let findings = vec![
        by_time(asked, days.is_some(), last, earliest),
        by_count(asked, this_season),
    ];
    Ok(working.gives(Repeat {
        last,
        earliest,
        this_season,
        findings,
    }))
}

fn checked(days: &[NaiveDate], planned: NaiveDate) -> Result<&[NaiveDate]> {
    if days.len() > TREATMENTS_MOST {
        return Err(RuleError::TooMany {
            field: Field::Treatments,
            count: days.len(),
            limit: TREATMENTS_MOST,
        });
    }
    days.iter().try_for_each(|day| not_after(*day, planned))?;
    Ok(days)
}

/// A day after the planned one is a slip, and what was put on before would be counted out.
fn not_after(day: NaiveDate, planned: NaiveDate) -> Result<()> {
    if day <= planned {
        return Ok(());
    }
    Err(RuleError::DayAfter {
        day: day_text(day),
        planned: day_text(planned),
    })
}

fn by_time(
    asked: &RepeatAsked,
    days_known: bool,
    last: Option<NaiveDate>,
    earliest: Option<NaiveDate>,
) -> Finding {
    let check = Check::Repeat;
    let on = |finding: Finding| match last {
        Some(last) => finding.with_value(Shown::Day {
            day: day_text(last),
        }),
        None => finding,
    };
    match &asked.shortest {
        LabelSays::Unfilled => return on(Finding::unknown(check, Reason::RepeatEmpty)),
        LabelSays::Nothing => {
            return on(Finding::new(
                check,
                Verdict::Clear,
                Reason::LabelSetsNoLimit,
            ));
        }
        LabelSays::Value(_) => {}
    }
    if !days_known {
        return Finding::unknown(check, Reason::LastTreatmentNotKnown);
    }
    let Some(earliest) = earliest else {
        return Finding::new(check, Verdict::Clear, Reason::NoTreatmentKnown);
    };
    let (verdict, reason) = if asked.planned < earliest {
        (Verdict::DontTreat, Reason::TreatedTooRecently)
    } else {
        (Verdict::Clear, Reason::TreatedLongAgo)
    };
    on(Finding::new(check, verdict, reason)).with_limit(
        Shown::NotBefore {
            day: day_text(earliest),
        },
        Whose::Label,
    )
}

fn by_count(asked: &RepeatAsked, this_season: Option<u32>) -> Finding {
    let check = Check::Repeat;
    let with = |finding: Finding| match this_season {
        Some(count) => finding.with_value(Shown::Treatments { count }),
        None => finding,
    };
    let most = match &asked.season_most {
        LabelSays::Unfilled => return with(Finding::unknown(check, Reason::SeasonCountEmpty)),
        // A person read the label: there is no such limit.
        LabelSays::Nothing => {
            return with(Finding::new(
                check,
                Verdict::Clear,
                Reason::LabelSetsNoLimit,
            ));
        }
        LabelSays::Value(most) => *most,
    };
    let Some(count) = this_season else {
        return Finding::unknown(check, Reason::LastTreatmentNotKnown);
    };
    let finding = if count >= most {
        Finding::new(check, Verdict::DontTreat, Reason::SeasonCountReached)
    } else if asked.others == Others::SaidNone {
        Finding::new(check, Verdict::Clear, Reason::SeasonCountWithin).and(Reason::OthersSaidNone)
    } else {
        Finding::unknown(check, Reason::OthersNotKnown).and(Reason::SeasonCountWithin)
    };
    with(finding).with_limit(Shown::Treatments { count: most }, Whose::Label)
}
