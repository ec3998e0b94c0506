//! Whether a treatment worked: percent control against a check that was left untreated.
//!
//! Counting is [`mod@super::density`]'s; here are only the formulas, their intervals, and where they
//! are undefined. From the dead among those looked at, the formula is in [`super::mortality`].

use minicbor::{Decode, Encode};
use serde::{Deserialize, Serialize};

use crate::error::{Allowed, ControlCount, Field, Result, RuleError};
use crate::note::Note;
use crate::working::{Answer, Working};

/// The normal distribution's quantile that leaves 2.5 % above it.
const NORMAL_975: f64 = 1.959_963_984_540_054;

/// Counts of the living in a treated and an untreated plot, before and after treating.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Encode, Decode, Serialize, Deserialize)]
pub struct BeforeAfter {
    /// Treated plot, before.
    #[n(0)]
    pub treated_before: u32,
    /// Treated plot, after.
    #[n(1)]
    pub treated_after: u32,
    /// Untreated check, before.
    #[n(2)]
    pub check_before: u32,
    /// Untreated check, after.
    #[n(3)]
    pub check_after: u32,
}

/// Percent control by Abbott: what is alive in the treated plot beside what is alive in the check,
/// as counts or as shares, both alike. Negative when more live on the treated plot. Counts have an
/// interval too: [`abbott`].
///
/// ```
/// use sward_rules::look::abbott_percent;
/// // Check 50 % dead, treated 98 % dead (Abbott 1925).
/// let control = abbott_percent(50.0, 2.0)?;
/// assert!((control.value - 96.0).abs() < 1e-9);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// [`RuleError::ControlUndefined`] when nothing lives in the check; [`RuleError::NotAllowed`] for
/// what is no count.
pub fn abbott_percent(check_alive: f64, treated_alive: f64) -> Result<Answer<f64>> {
    for (field, value) in [
        (Field::AliveInCheck, check_alive),
        (Field::AliveWhenTreated, treated_alive),
    ] {
        if !value.is_finite() || value < 0.0 {
            let (given, allowed) = (value.to_string(), Allowed::ZeroOrMore);
            return Err(RuleError::NotAllowed {
                field,
                given,
                allowed,
            });
        }
    }
    if check_alive <= 0.0 {
        return Err(RuleError::ControlUndefined {
            missing: ControlCount::AliveInCheck,
        });
    }
    let percent = 100.0 * (1.0 - treated_alive / check_alive);
    Ok(
        Working::new("Abbott", "Abbott 1925, J. Econ. Entomol. 18, 265")
            .input("alive in the check", check_alive)
            .input("alive when treated", treated_alive)
            .note(Note::SameBefore)
            .gives(percent),
    )
}

/// Percent control with its interval at 95 %.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Control {
    /// Percent control; negative where the treated plot did worse than the check.
    pub percent: f64,
    /// Its interval; none where the counts do not give one, which the working says.
    pub interval: Option<PercentInterval>,
}

/// Lower and upper bound in percent.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PercentInterval {
    /// Lower bound.
    pub lower_percent: f64,
    /// Upper bound.
    pub upper_percent: f64,
}

/// Percent control by Abbott from counts of the living on areas of one size, with its interval.
///
/// ```
/// use sward_rules::look::abbott;
/// let control = abbott(26, 6)?.value;
/// assert_eq!(format!("{:.1}", control.percent), "76.9");
/// assert!(control.interval.is_some_and(|i| i.lower_percent < 50.0));
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// [`RuleError::ControlUndefined`] when nothing lives in the check.
pub fn abbott(check_alive: u32, treated_alive: u32) -> Result<Answer<Control>> {
    let answer = abbott_percent(f64::from(check_alive), f64::from(treated_alive))?;
    let percent = answer.value;
    let (interval, working) = ratio_interval([treated_alive], [check_alive], answer.working);
    Ok(working.gives(Control {
        percent,
        interval: Some(interval),
    }))
}

/// Percent control by Henderson and Tilton, for plots that did not start alike, with its interval.
/// Negative when the treated plot did worse than the check.
///
/// # Errors
/// [`RuleError::ControlUndefined`] when a count that is divided by is zero: the treated plot
/// before, or the check after.
pub fn henderson_tilton(counts: BeforeAfter) -> Result<Answer<Control>> {
    if counts.treated_before == 0 {
        return Err(RuleError::ControlUndefined {
            missing: ControlCount::BeforeTreating,
        });
    }
    if counts.check_after == 0 {
        return Err(RuleError::ControlUndefined {
            missing: ControlCount::CheckAfter,
        });
    }
    let left = f64::from(counts.treated_after) * f64::from(counts.check_before);
    let expected = f64::from(counts.treated_before) * f64::from(counts.check_after);
    let percent = 100.0 * (1.0 - left / expected);
    let working = Working::new(
        "Henderson-Tilton",
        "Henderson and Tilton 1955, J. Econ. Entomol. 48, 157",
    )
    .input("treated, before", counts.treated_before)
    .input("treated, after", counts.treated_after)
    .input("check, before", counts.check_before)
    .input("check, after", counts.check_after);
    if counts.check_before == 0 {
        return Ok(working.note(Note::CheckHeldNone).gives(Control {
            percent,
            interval: None,
        }));
    }
    let (interval, working) = ratio_interval(
        [counts.treated_after, counts.check_before],
        [counts.treated_before, counts.check_after],
        working,
    );
    Ok(working.gives(Control {
        percent,
        interval: Some(interval),
    }))
}

/// The interval of `100 (1 - product of above / product of below)` for independent Poisson counts:
/// the logarithm's variance is the sum of the counts' reciprocals (delta method).
fn ratio_interval<const N: usize>(
    above: [u32; N],
    below: [u32; N],
    working: Working,
) -> (PercentInterval, Working) {
    let has_zero = above.iter().chain(&below).any(|n| *n == 0);
    let plus = if has_zero { 0.5 } else { 0.0 };
    let counts = |of: [u32; N]| of.map(|n| f64::from(n) + plus);
    let (above_plus, below_plus) = (counts(above), counts(below));
    let ratio = above_plus.iter().product::<f64>() / below_plus.iter().product::<f64>();
    let variance: f64 = above_plus.iter().chain(&below_plus).map(|n| 1.0 / n).sum();
    let interval = around(ratio, variance, above.contains(&0));
    (interval, noted(working, Note::IntervalByLogRatio, has_zero))
}

/// Notes how an interval was reached.
pub(super) fn noted(working: Working, method: Note, has_zero: bool) -> Working {
    let working = working.note(method);
    if has_zero {
        working.note(Note::HalfAdded)
    } else {
        working
    }
}

/// The interval in percent around a ratio that is left, on the log scale. Where none was left, full
/// control is not ruled out.
pub(super) fn around(ratio: f64, log_variance: f64, none_left: bool) -> PercentInterval {
    let factor = (NORMAL_975 * log_variance.max(0.0).sqrt()).exp();
    PercentInterval {
        lower_percent: 100.0 * (1.0 - ratio * factor),
        upper_percent: if none_left {
            100.0
        } else {
            100.0 * (1.0 - ratio / factor)
        },
    }
}
