//! How long to run the water for a depth, in one run or in several with time to soak in.

use rust_decimal::prelude::ToPrimitive;
use rust_decimal::{Decimal, RoundingStrategy};
use serde::Serialize;

use super::CanTestResult;
use crate::error::{Field, Result};
use crate::mix::times_over;
use crate::note::Note;
use crate::quantity::{Dimension, Entered, out_of_range, positive, significant};
use crate::working::{Answer, Working};

/// Most runs in one watering.
pub const RUNS_MOST: u32 = 100;
/// Most minutes of one watering: two days.
const MINUTES_MOST: u32 = 2 * 24 * 60;
const SECONDS: Decimal = Decimal::from_parts(60, 0, 0, false, 0);

/// A depth to reach.
#[derive(Debug, Clone)]
pub struct RunAsked<'a> {
    /// The label's depth.
    pub depth: Entered,
    /// What the cans said.
    pub cans: &'a CanTestResult,
    /// How long the water ran until it stood or ran off, where that was seen.
    pub run_off_after: Option<Entered>,
    /// How long it took to soak in, where that was seen.
    pub soak: Option<Entered>,
}

/// How to run the water.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RunPlan {
    /// Minutes until the mean has the depth, rounded up.
    pub minutes_by_mean: u32,
    /// Minutes until the driest quarter has it, rounded up; none where that quarter stayed dry.
    pub minutes_by_driest_quarter: Option<u32>,
    /// Runs for the time by the mean; one where no run-off was seen.
    pub runs: u32,
    /// Minutes of each run, the longest; never as long as it took until water ran off.
    pub minutes_each: u32,
    /// Minutes between two runs, where a time to soak in was given and there are several.
    pub soak_min: Option<u32>,
    /// Minutes from first to last, where they can be told.
    pub in_all_min: Option<u32>,
}

/// Minutes to a depth, and cycle-and-soak where run-off was seen.
///
/// ```
/// # use sward_rules::{Entered, watering::*};
/// # let e = |t: &str| Entered::parse(t).unwrap();
/// let cans = [e("0.2 in"), e("0.3 in"), e("0.25 in"), e("0.25 in")];
/// let cans = can_test(&CanTest { depths: &cans, ran: e("15 min") })?.value;
/// let run = watering_run(&RunAsked {
///     depth: e("0.5 in"),
///     cans: &cans,
///     run_off_after: Some(e("12 min")),
///     soak: Some(e("30 min")),
/// })?.value;
/// assert_eq!((run.minutes_by_mean, run.minutes_by_driest_quarter), (30, Some(38)));
/// assert_eq!((run.runs, run.minutes_each, run.in_all_min), (3, 10, Some(90)));
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a value is of the wrong kind or zero, water runs off within two minutes, or it would take
/// more than two days or [`RUNS_MOST`] runs.
pub fn watering_run(asked: &RunAsked<'_>) -> Result<Answer<RunPlan>> {
    let depth_m = positive(&asked.depth, Dimension::Length, &Field::WateringDepth)?;
    let by_mean = minutes_up(depth_m, asked.cans.mean_m_s, &asked.depth)?;
    let by_driest = if asked.cans.driest_m_s.is_zero() {
        None
    } else {
        minutes_up(depth_m, asked.cans.driest_m_s, &asked.depth).ok()
    };
    let mut working = Working::new("depth ÷ depth a minute", "arithmetic")
        .input("depth", asked.depth.for_person())
        .input("mean of the cans", asked.cans.mean.for_person())
        .input("driest quarter", asked.cans.driest_quarter.for_person())
        .note(Note::DriestQuarter);
    let (mut runs, mut each) = (1, by_mean);
    if let Some(run_off) = &asked.run_off_after {
        let longest = longest_run(run_off)?;
        runs = by_mean.div_ceil(longest);
        if runs > RUNS_MOST {
            return Err(out_of_range(run_off).of(Field::RunOffTime));
        }
        each = by_mean.div_ceil(runs);
        working = working
            .input("until water ran off", run_off.for_person())
            .note(Note::RunOffCut)
            .note(Note::SoakUntilGone);
    }
    let soak_min = match &asked.soak {
        Some(soak) if runs > 1 => {
            working = working.input("to soak in", soak.for_person());
            Some(whole_minutes_up(soak)?)
        }
        Some(soak) => {
            whole_minutes_up(soak)?;
            None
        }
        None => None,
    };
    let pauses = soak_min.map(|soak| soak.saturating_mul(runs - 1));
    let in_all_min = match (runs, pauses) {
        (1, _) => Some(by_mean),
        (_, Some(pauses)) => Some(by_mean.saturating_add(pauses)),
        (_, None) => None,
    };
    Ok(working.gives(RunPlan {
        minutes_by_mean: by_mean,
        minutes_by_driest_quarter: by_driest,
        runs,
        minutes_each: each,
        soak_min,
        in_all_min,
    }))
}

fn minutes_up(depth_m: Decimal, m_s: Decimal, depth: &Entered) -> Result<u32> {
    let beyond = || out_of_range(depth).of(Field::WateringDepth);
    let minutes = times_over(depth_m, Decimal::ONE, m_s)
        .and_then(|seconds| seconds.checked_div(SECONDS))
        // What is a whole number by hand must not become the next one here.
        .and_then(|minutes| significant(minutes, 9, RoundingStrategy::MidpointNearestEven))
        .ok_or_else(beyond)?;
    let minutes = minutes.ceil().to_u32().filter(|m| *m <= MINUTES_MOST);
    minutes.ok_or_else(beyond)
}

/// Whole minutes before water ran off, so that no run reaches that time.
fn longest_run(run_off: &Entered) -> Result<u32> {
    let seconds = positive(run_off, Dimension::Time, &Field::RunOffTime)?;
    let minutes = (seconds / SECONDS).ceil() - Decimal::ONE;
    let minutes = minutes.to_u32().filter(|m| *m > 0 && *m <= MINUTES_MOST);
    minutes.ok_or_else(|| out_of_range(run_off).of(Field::RunOffTime))
}

fn whole_minutes_up(soak: &Entered) -> Result<u32> {
    let seconds = positive(soak, Dimension::Time, &Field::SoakTime)?;
    let minutes = (seconds / SECONDS).ceil().to_u32();
    let minutes = minutes.filter(|m| *m <= MINUTES_MOST);
    minutes.ok_or_else(|| out_of_range(soak).of(Field::SoakTime))
}
