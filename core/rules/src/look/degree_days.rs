//! Degree-days: how much warmth above a base a pest has had since a day.
//!
//! A sum says nothing without its start and its base, so both go with it; what a sum of so many
//! means for a pest is its source's business, not ours.

use chrono::NaiveDate;
use serde::Serialize;

use crate::error::{Field, Result, RuleError};
use crate::note::Note;
use crate::quantity::{Entered, Unit, to_f64};
use crate::working::{Answer, Working};

/// Most days of one sum: a year.
const DAYS_MOST: usize = 366;
/// Coldest and hottest air that is taken, in degrees Celsius; beyond it lies a typing slip.
const AIR_C: std::ops::RangeInclusive<f64> = -60.0..=60.0;

/// The air of one day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DayAir {
    /// Which day.
    pub day: NaiveDate,
    /// Lowest temperature.
    pub least: Entered,
    /// Highest temperature.
    pub most: Entered,
}

/// A sum of degree-days with what it cannot be read without.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DegreeDays {
    /// By single sine, in degrees of the base's unit.
    pub single_sine: f64,
    /// By the mean of the day's lowest and highest, for comparison, in the same unit.
    pub simple_average: f64,
    /// Below this nothing develops.
    pub base: String,
    /// First day that counts.
    pub start: NaiveDate,
    /// Last day that counts.
    pub until: NaiveDate,
    /// Days with temperatures.
    pub days: usize,
    /// Days without; with any, both sums are what it is at least.
    pub missing: Vec<NaiveDate>,
}

impl DegreeDays {
    /// Whether days are missing, so that the sums are what it is at least.
    pub fn is_at_least(&self) -> bool {
        !self.missing.is_empty()
    }
}

/// Degree-days of one day by a single sine through its lowest and highest temperature, without an
/// upper cut-off. All in one unit of temperature.
///
/// Baskerville and Emin 1969, Ecology 50, 514.
///
/// ```
/// use sward_rules::look::single_sine;
/// assert!((single_sine(40.0, 80.0, 50.0) - 12.18).abs() < 0.005);
/// assert_eq!(single_sine(30.0, 50.0, 50.0), 0.0);
/// ```
pub fn single_sine(least: f64, most: f64, base: f64) -> f64 {
    let mean = f64::midpoint(least, most);
    if most <= base {
        return 0.0;
    }
    if least >= base {
        return mean - base;
    }
    let half_swing = (most - least) / 2.0;
    let crosses = ((base - mean) / half_swing).clamp(-1.0, 1.0).asin();
    let right = std::f64::consts::FRAC_PI_2 - crosses;
    ((mean - base) * right + half_swing * crosses.cos()) / std::f64::consts::PI
}

/// The sum of degree-days from `start` to `until`, both counted, or to the last day given.
///
/// Days before the start or after the end are left out. Every day between that is not given is
/// named, and the sums are then what it is at least. Amounts may be in °F and °C; the sum is in the
/// base's unit.
///
/// # Errors
/// When no day counts, a day stands twice, its lowest is above its highest, a temperature is none or
/// none of air, the end lies before the start, or there are more than 366 days.
pub fn degree_days(
    days: &[DayAir],
    base: Entered,
    start: NaiveDate,
    until: Option<NaiveDate>,
) -> Result<Answer<DegreeDays>> {
    if days.len() > 4 * DAYS_MOST {
        return Err(too_many(days.len()));
    }
    let unit = base.unit();
    let base_degrees = degrees(&base, unit).map_err(|e| e.of(Field::BaseTemperature))?;
    let until = match until.or_else(|| days.iter().map(|d| d.day).max()) {
        Some(until) if until >= start => until,
        Some(until) => {
            return Err(RuleError::EndBeforeStart {
                start: start.to_string(),
                end: until.to_string(),
            });
        }
        None => return Err(RuleError::NoDays),
    };
    let span = usize::try_from((until - start).num_days()).unwrap_or(usize::MAX);
    if span >= DAYS_MOST {
        return Err(too_many(span.saturating_add(1)));
    }
    let mut by_day = std::collections::BTreeMap::new();
    for air in days.iter().filter(|d| (start..=until).contains(&d.day)) {
        let of_day = |e: RuleError| {
            e.of(Field::Day {
                name: air.day.to_string(),
            })
        };
        let least = degrees(&air.least, unit).map_err(of_day)?;
        let most = degrees(&air.most, unit).map_err(of_day)?;
        if air.least.compare(&air.most)?.is_gt() {
            return Err(of_day(RuleError::ColdestAboveWarmest {
                least: air.least.for_person(),
                most: air.most.for_person(),
            }));
        }
        if by_day.insert(air.day, (least, most)).is_some() {
            return Err(RuleError::DayTwice {
                day: air.day.to_string(),
            });
        }
    }
    if by_day.is_empty() {
        return Err(RuleError::NoDays);
    }
    let value = DegreeDays {
        single_sine: by_day
            .values()
            .map(|(l, m)| single_sine(*l, *m, base_degrees))
            .sum(),
        simple_average: by_day
            .values()
            .map(|(l, m)| (f64::midpoint(*l, *m) - base_degrees).max(0.0))
            .sum(),
        base: base.for_person(),
        start,
        until,
        days: by_day.len(),
        missing: start
            .iter_days()
            .take_while(|day| *day <= until)
            .filter(|day| !by_day.contains_key(day))
            .collect(),
    };
    Ok(working(&value).gives(value))
}

fn working(value: &DegreeDays) -> Working {
    let mut working = Working::new(
        "single sine, no upper cut-off, summed over the days",
        "Baskerville and Emin 1969, Ecology 50, 514",
    )
    .input("base", &value.base)
    .input("start", value.start)
    .input("end", value.until)
    .input("days", value.days);
    if value.is_at_least() {
        working = working.note(Note::DaysMissing {
            count: value.missing.len(),
        });
    }
    working.note(Note::SameBaseAndStart)
}

fn too_many(count: usize) -> RuleError {
    RuleError::TooMany {
        field: Field::Days,
        count,
        limit: DAYS_MOST,
    }
}

/// A temperature of air in degrees of a unit.
fn degrees(entered: &Entered, unit: Unit) -> Result<f64> {
    if !AIR_C.contains(&to_f64(entered.convert(Unit::CELSIUS)?.amount())) {
        return Err(RuleError::OutOfRange {
            given: entered.for_person(),
        });
    }
    Ok(to_f64(entered.convert(unit)?.amount()))
}
