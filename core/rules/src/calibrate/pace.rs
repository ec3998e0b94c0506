//! The walking pace: how long a marked distance takes, and what runs off that do to the rate.

use rust_decimal::Decimal;
use serde::Serialize;

use super::against::within;
use super::variation_percent;
use super::{ACCEPTED_PERCENT, at_most, in_unit, out_of_range, percent_off, positive};
use crate::error::{Allowed, Field, Result, RuleError};
use crate::finding::{Check, Finding, Reason, Shown, Source, Tenths, Verdict, Whose};
use crate::note::Note;
use crate::quantity::{Dimension, Entered, Unit, near, to_f64};
use crate::working::{Answer, Working};

/// Most runs of one series.
pub const RUNS_MOST: usize = 100;

/// Speeds at which anybody walks or drives on a lawn, in metres a second: 0.1 and 25 mph.
const SPEED_M_S: std::ops::Range<f64> = 0.044_704..11.176;

/// How long a distance takes at a speed: 88 feet a minute are one mile an hour.
///
/// ```
/// use sward_rules::{Entered, calibrate::course_time};
/// let time = course_time(&Entered::parse("100 ft")?, &Entered::parse("3 mph")?)?;
/// assert_eq!(time.value.for_person(), "22.73 s");
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a measure is zero or of the wrong kind, or nobody walks or drives so.
pub fn course_time(length: &Entered, speed: &Entered) -> Result<Answer<Entered>> {
    let metres = positive(length, Dimension::Length, &Field::CourseLength)?;
    let metres_a_second = sane_speed(speed, &Field::TargetSpeed)?;
    let seconds = metres
        .checked_div(metres_a_second)
        .ok_or_else(|| out_of_range(length))?;
    let working = Working::new(
        "distance / speed, 88 ft a minute being 1 mph",
        "University of Nebraska, Math for Pesticide Applicators",
    )
    .input("marked distance", length.for_person())
    .input("speed", speed.for_person());
    Ok(working.gives(near(to_f64(seconds), 2, Unit::SECOND)))
}

/// Timed runs over a marked distance.
#[derive(Debug, Clone, Copy)]
pub struct PaceRuns<'a> {
    /// The marked distance.
    pub length: Entered,
    /// The speed wanted, at which the setting was calibrated.
    pub target: Entered,
    /// How long each run took, in order.
    pub times: &'a [Entered],
}

/// One run.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PaceRun {
    /// Its number, the first being 1.
    pub number: u32,
    /// Its speed in the unit of the speed wanted.
    pub speed: Entered,
    /// What it does to the rate, in percent: above zero is heavy, from going too slow.
    pub rate_change_percent: f64,
}

/// What the runs show.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PaceResult {
    /// How long the distance should take.
    pub target_time: Entered,
    /// How long it took on average.
    pub mean_time: Entered,
    /// Standard deviation of the times with n - 1, in percent of their mean; none for one run.
    pub spread_percent: Option<f64>,
    /// What the mean does to the rate, in percent.
    pub rate_change_percent: f64,
    /// Each run.
    pub runs: Vec<PaceRun>,
    /// What it comes to.
    pub finding: Finding,
}

/// What a series of runs does to the rate.
///
/// The rate goes with the time over the distance, so times are averaged and not speeds.
///
/// ```
/// use sward_rules::{Entered, Verdict, calibrate::*};
/// let times = ["25 s", "25.2 s", "24.8 s"].map(|t| Entered::parse(t).unwrap());
/// let runs = PaceRuns {
///     length: Entered::parse("100 ft")?,
///     target: Entered::parse("3 mph")?,
///     times: &times,
/// };
/// let result = pace(&runs)?.value;
/// assert!((result.rate_change_percent - 10.0).abs() < 1e-9); // too slow, so a tenth heavy
/// assert_eq!(result.finding.verdict, Verdict::Caution);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When there is no run, or too many, or a measure is zero or of the wrong kind.
pub fn pace(runs: &PaceRuns<'_>) -> Result<Answer<PaceResult>> {
    at_most(runs.times.len(), RUNS_MOST, Field::Runs)?;
    let target_time = course_time(&runs.length, &runs.target)?.value;
    let metres = positive(&runs.length, Dimension::Length, &Field::CourseLength)?;
    let speed = sane_speed(&runs.target, &Field::TargetSpeed)?;
    let beyond = || out_of_range(&runs.length);
    let target_s = metres.checked_div(speed).ok_or_else(beyond)?;
    let mut each = Vec::with_capacity(runs.times.len());
    let mut seconds = Vec::with_capacity(runs.times.len());
    for (index, time) in runs.times.iter().enumerate() {
        let number = index + 1;
        let taken = positive(time, Dimension::Time, &Field::RunTime { number })?;
        seconds.push(taken);
        each.push(PaceRun {
            number: u32::try_from(number).expect("a series is short"),
            speed: in_unit(metres.checked_div(taken), runs.target.unit(), time)?,
            rate_change_percent: off(taken, target_s).ok_or_else(beyond)?,
        });
    }
    let sum = seconds
        .iter()
        .try_fold(Decimal::ZERO, |sum, s| sum.checked_add(*s));
    let mean = sum.and_then(|sum| sum.checked_div(Decimal::from(seconds.len())));
    let Some(mean) = mean else {
        return Err(RuleError::NotAllowed {
            field: Field::Runs,
            given: seconds.len().to_string(),
            allowed: Allowed::OneRunAtLeast,
        });
    };
    let spread_percent = variation_percent(&seconds.iter().map(|s| to_f64(*s)).collect::<Vec<_>>());
    let rate_change_percent = off(mean, target_s).ok_or_else(beyond)?;
    let mean_time = near(to_f64(mean), 2, Unit::SECOND);
    let working = Working::new(
        "mean time / time wanted",
        "University of Nebraska, Math for Pesticide Applicators",
    )
    .input("marked distance", runs.length.for_person())
    .input("speed wanted", runs.target.for_person())
    .input("time wanted", target_time.for_person())
    .input("mean time", mean_time.for_person())
    .note(Note::SteadyFlow);
    Ok(working.gives(PaceResult {
        finding: finding(&mean_time, rate_change_percent, spread_percent),
        target_time,
        mean_time,
        spread_percent,
        rate_change_percent,
        runs: each,
    }))
}

/// An even pace that is off can be put right; of an uneven one nothing is known.
fn finding(mean_time: &Entered, rate_change_percent: f64, spread: Option<f64>) -> Finding {
    let accepted = f64::from(ACCEPTED_PERCENT);
    let change = Tenths::nearest(rate_change_percent);
    let (verdict, reason) = match spread {
        None => (Verdict::Unknown, Reason::PaceOneRun),
        Some(spread) if spread > accepted => {
            let spread = near(spread, 1, Unit::PERCENT);
            (Verdict::Unknown, Reason::PaceVaries { spread })
        }
        Some(_) if rate_change_percent > accepted => {
            (Verdict::Caution, Reason::PaceSlow { change })
        }
        Some(_) if rate_change_percent < -accepted => {
            (Verdict::Caution, Reason::PaceFast { change })
        }
        Some(_) => (Verdict::Clear, Reason::PaceOnTarget),
    };
    let amount = *mean_time;
    Finding::new(Check::Pace, verdict, reason)
        .with_value(Shown::OffWanted { amount, change })
        .with_limit(within(), Whose::Advice)
        .with_source(Source::SpreaderCalibration)
}

fn off(taken: Decimal, target: Decimal) -> Option<f64> {
    percent_off(taken, target).map(to_f64)
}

fn sane_speed(speed: &Entered, field: &Field) -> Result<Decimal> {
    let si = positive(speed, Dimension::Speed, field)?;
    if SPEED_M_S.contains(&to_f64(si)) {
        return Ok(si);
    }
    Err(RuleError::NotAllowed {
        field: field.clone(),
        given: speed.for_person(),
        allowed: Allowed::SaneSpeed,
    })
}
