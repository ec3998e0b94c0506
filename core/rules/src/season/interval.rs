//! A time between two treatments as labels give it: in days, weeks or months of the calendar.
//!
//! Early is the dangerous side: parts of a day count as a day, and a day that a month lacks counts to
//! the first of the next.

use chrono::{Datelike, Days, Months, NaiveDate};
use rust_decimal::prelude::ToPrimitive;
use serde::{Deserialize, Serialize};

use super::day_text;
use crate::error::{Field, Result, RuleError};
use crate::quantity::{Dimension, Entered};

/// Longest time between two treatments, in days or the like.
const COUNT_MOST: u32 = 1000;
const DAY_S: i64 = 86_400;

/// In what a label counts the time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum IntervalUnit {
    /// Days.
    Days,
    /// Weeks.
    Weeks,
    /// Months of the calendar.
    Months,
}

/// A time between two treatments.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Interval {
    /// How many.
    pub count: u32,
    /// Of what.
    pub unit: IntervalUnit,
}

impl Interval {
    /// Reads `30 days`, `6 weeks` or `2 months`. Hours are taken too, and count up to whole days.
    ///
    /// ```
    /// use chrono::NaiveDate;
    /// use sward_rules::season::Interval;
    /// let day = |y, m, d| NaiveDate::from_ymd_opt(y, m, d).unwrap();
    /// let month = Interval::parse("1 month")?;
    /// // February has no 31st: the first of March, never the 28th.
    /// assert_eq!(month.after(day(2026, 1, 31))?, day(2026, 3, 1));
    /// assert_eq!(Interval::parse("30 days")?.after(day(2026, 3, 1))?, day(2026, 3, 31));
    /// # Ok::<(), sward_rules::RuleError>(())
    /// ```
    ///
    /// # Errors
    /// When it is no such time, zero, or longer than a thousand of its unit.
    pub fn parse(text: &str) -> Result<Self> {
        let unclear = || RuleError::IntervalUnclear {
            text: text.chars().take(80).collect(),
        };
        let plain = text.trim().to_lowercase();
        let end = plain.find(|c: char| !c.is_ascii_digit());
        let (count, unit) = plain.split_at(end.unwrap_or(plain.len()));
        if matches!(unit.trim(), "month" | "months" | "mo" | "mos") {
            let count = count.parse().map_err(|_| unclear())?;
            return Self::new(count, IntervalUnit::Months).ok_or_else(unclear);
        }
        Self::from_entered(&Entered::parse(text)?).map_err(|_| unclear())
    }

    /// A time as a label sheet holds it: whole weeks stay weeks, anything else becomes whole days.
    ///
    /// # Errors
    /// When it is no time, zero, or too long.
    pub fn from_entered(entered: &Entered) -> Result<Self> {
        let in_field = |e: RuleError| e.of(Field::RepeatAfter);
        entered.must_be(Dimension::Time).map_err(in_field)?;
        let seconds = entered.to_seconds_up().map_err(in_field)?;
        let days = (seconds + DAY_S - 1) / DAY_S;
        let range = || {
            in_field(RuleError::OutOfRange {
                given: entered.for_person(),
            })
        };
        let days = days.to_u32().ok_or_else(range)?;
        let of_weeks = entered.unit() == crate::quantity::Unit::parse("weeks")? && days % 7 == 0;
        let interval = if of_weeks {
            Self::new(days / 7, IntervalUnit::Weeks)
        } else {
            Self::new(days, IntervalUnit::Days)
        };
        interval.ok_or_else(range)
    }

    fn new(count: u32, unit: IntervalUnit) -> Option<Self> {
        let sane = 1..=COUNT_MOST;
        sane.contains(&count).then_some(Self { count, unit })
    }

    /// The first day on which it has passed since `day`.
    ///
    /// # Errors
    /// When that leaves the calendar.
    pub fn after(&self, day: NaiveDate) -> Result<NaiveDate> {
        let after = match self.unit {
            IntervalUnit::Days => day.checked_add_days(Days::new(self.count.into())),
            IntervalUnit::Weeks => day.checked_add_days(Days::new(u64::from(self.count) * 7)),
            IntervalUnit::Months => months_after(day, self.count),
        };
        after.ok_or_else(|| RuleError::DayOutOfCalendar { day: day_text(day) })
    }

    /// As a person reads it: `6 weeks`.
    pub fn for_person(&self) -> String {
        let unit = match (self.unit, self.count) {
            (IntervalUnit::Days, 1) => "day",
            (IntervalUnit::Days, _) => "days",
            (IntervalUnit::Weeks, 1) => "week",
            (IntervalUnit::Weeks, _) => "weeks",
            (IntervalUnit::Months, 1) => "month",
            (IntervalUnit::Months, _) => "months",
        };
        format!("{} {unit}", self.count)
    }
}

fn months_after(day: NaiveDate, months: u32) -> Option<NaiveDate> {
    // The calendar cuts a day that a month lacks down to the month's last.
    let cut = day.checked_add_months(Months::new(months))?;
    if cut.day() == day.day() {
        Some(cut)
    } else {
        cut.succ_opt()
    }
}
