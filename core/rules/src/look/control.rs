//! Whether a treatment worked: percent control against a check that was left untreated.
//!
//! Counting is [`mod@super::density`]'s; here are only the two formulas and where they are undefined.

use minicbor::{Decode, Encode};
use serde::{Deserialize, Serialize};

use crate::error::{Allowed, ControlCount, Field, Result, RuleError};
use crate::note::Note;
use crate::working::{Answer, Working};

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
/// as counts or as shares, both alike. Negative when more live on the treated plot.
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

/// Percent control by Henderson and Tilton, for plots that did not start alike. Negative when the
/// treated plot did worse than the check.
///
/// # Errors
/// [`RuleError::ControlUndefined`] when a count that is divided by is zero: the treated plot
/// before, or the check after.
pub fn henderson_tilton_percent(counts: BeforeAfter) -> Result<Answer<f64>> {
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
    let mut working = Working::new(
        "Henderson-Tilton",
        "Henderson and Tilton 1955, J. Econ. Entomol. 48, 157",
    )
    .input("treated, before", counts.treated_before)
    .input("treated, after", counts.treated_after)
    .input("check, before", counts.check_before)
    .input("check, after", counts.check_after);
    if counts.check_before == 0 {
        working = working.note(Note::CheckHeldNone);
    }
    Ok(working.gives(100.0 * (1.0 - left / expected)))
}
