//! Calibration: what a spreader or sprayer really puts on, how evenly, and whether that still holds.
//!
//! A file a method. Every answer is worked out from what was weighed, caught or timed; a setting
//! is never taken from a table. What a calibration found is held against the rate wanted and the
//! label's most by [`rate_found_finding`]: the label's side has no tolerance.

use rust_decimal::Decimal;

use crate::error::{Field, Result, RuleError};
use crate::quantity::{Dimension, Entered, Unit, exact, out_of_range, positive, to_f64};

mod against;
mod boxes;
mod chart;
mod droplets;
mod evenness;
mod holds;
mod next_setting;
mod nozzles;
mod pace;
mod pressure;
mod sprayer;
mod strip;
mod two_people;

pub use against::{ACCEPTED_PERCENT, rate_found_finding};
pub use boxes::{BOXES_MOST, CatchBoxes, Pattern, PatternPoint, pattern};
pub use chart::{svg_points, text_bar};
pub use droplets::{DropletClass, DropletUse, LabelDrops, droplets_finding};
pub use evenness::{
    EVEN_MOST_PERCENT, Evenness, EvennessPoint, STRIPES_PERCENT, Travel, evenness, evenness_finding,
};
pub use holds::{Calibrated, CalibrationAdvice, Part, SetUp, calibration_findings};
pub use next_setting::{SettingToTry, TRIES_MOST, Tried, setting_to_try};
pub use nozzles::{
    NOZZLE_OFF_PERCENT, NOZZLE_WORN_PERCENT, NOZZLES_MOST, Nozzle, NozzleCatches, NozzleResult,
    nozzle_test,
};
pub use pace::{PaceResult, PaceRun, PaceRuns, RUNS_MOST, course_time, pace};
pub use pressure::{flow_at_pressure, pressure_for_flow};
pub(crate) use sprayer::timed;
pub use sprayer::{
    SprayRate, TimedCatch, acre_128th_course, acre_128th_rate, boom_rate, spray_rate, timed_rate,
};
pub use strip::{StripRate, StripRun, Weighed, strip_length, strip_rate};
pub use two_people::{Person, two_people_finding};

/// An SI amount for showing in `unit`; `given` is named where it cannot be written.
fn in_unit(si: Option<Decimal>, unit: Unit, given: &Entered) -> Result<Entered> {
    si.and_then(|si| Entered::from_si(si, unit))
        .ok_or_else(|| out_of_range(given))
}

/// How far `found` is off `wanted`, in percent; exact, so that five percent by hand is five here.
pub(crate) fn percent_off(found: Decimal, wanted: Decimal) -> Option<Decimal> {
    let ratio = exact(found.checked_div(wanted)?)?;
    ratio
        .checked_sub(Decimal::ONE)?
        .checked_mul(Decimal::ONE_HUNDRED)
}

/// Mean of numbers, and their standard deviation with n - 1 in percent of it; none for fewer than
/// two, or where the mean is zero.
fn variation_percent(values: &[f64]) -> Option<f64> {
    let count = values.len() as f64;
    let mean = values.iter().sum::<f64>() / count;
    if values.len() < 2 || mean <= 0.0 {
        return None;
    }
    let squares: f64 = values.iter().map(|v| (v - mean).powi(2)).sum();
    Some(100.0 * (squares / (count - 1.0)).sqrt() / mean)
}

/// A decimal for arithmetic that needs no exactness.
fn si_f64(entered: &Entered, kind: Dimension, field: &Field) -> Result<f64> {
    positive(entered, kind, field).map(to_f64)
}

/// Refuses lists longer than a person makes.
fn at_most(count: usize, limit: usize, field: Field) -> Result<()> {
    if count > limit {
        return Err(RuleError::TooMany {
            field,
            count,
            limit,
        });
    }
    Ok(())
}

#[cfg(test)]
mod tests;
