//! Corrected mortality: how many a treatment killed of those that would have lived without it.
//!
//! For plots where the living are counted instead, see [`super::control`].

use super::control::{Control, around, noted};
use crate::error::{Allowed, ControlCount, Field, Result, RuleError};
use crate::note::Note;
use crate::working::{Answer, Working};

/// How many were dead among those looked at, in a treated and an untreated lot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DeadOf {
    /// Dead in the untreated check.
    pub check_dead: u32,
    /// Looked at in the check.
    pub check_total: u32,
    /// Dead in the treated lot.
    pub treated_dead: u32,
    /// Looked at in the treated lot.
    pub treated_total: u32,
}

/// Corrected mortality in percent by Schneider-Orelli, with its interval. Negative where fewer died
/// when treated than in the check.
///
/// ```
/// use sward_rules::look::{DeadOf, schneider_orelli};
/// let counts = DeadOf { check_dead: 10, check_total: 100, treated_dead: 80, treated_total: 100 };
/// let corrected = schneider_orelli(counts)?.value;
/// assert_eq!(format!("{:.2}", corrected.percent), "77.78");
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// [`RuleError::ControlUndefined`] when none was looked at in a lot, or all died in the check;
/// [`RuleError::NotAllowed`] when more died than were looked at.
pub fn schneider_orelli(counts: DeadOf) -> Result<Answer<Control>> {
    let check_alive = alive(
        (counts.check_dead, counts.check_total),
        Field::DeadInCheck,
        ControlCount::CheckLookedAt,
    )?;
    let treated_alive = alive(
        (counts.treated_dead, counts.treated_total),
        Field::DeadWhenTreated,
        ControlCount::TreatedLookedAt,
    )?;
    if check_alive == 0 {
        return Err(RuleError::ControlUndefined {
            missing: ControlCount::AliveInCheck,
        });
    }
    let share = |dead: u32, total: u32| 100.0 * f64::from(dead) / f64::from(total);
    let check_percent = share(counts.check_dead, counts.check_total);
    let treated_percent = share(counts.treated_dead, counts.treated_total);
    let percent = 100.0 * (treated_percent - check_percent) / (100.0 - check_percent);
    let working = Working::new(
        "Schneider-Orelli: (mortality treated - mortality in the check) / (100 - mortality in the check)",
        "Schneider-Orelli 1947, Entomologisches Praktikum (from memory)",
    )
    .input("dead in the check", of(counts.check_dead, counts.check_total))
    .input("dead when treated", of(counts.treated_dead, counts.treated_total));
    // Where nobody died, or everybody did, the formula would see no chance at work at all.
    let has_zero = [treated_alive, counts.treated_dead, counts.check_dead].contains(&0);
    let plus = if has_zero { 0.5 } else { 0.0 };
    let [treated, check] = [
        (treated_alive, counts.treated_dead),
        (check_alive, counts.check_dead),
    ]
    .map(|(alive, dead)| {
        let (alive, dead) = (f64::from(alive) + plus, f64::from(dead) + plus);
        (alive, alive + dead)
    });
    let ratio = (treated.0 / treated.1) / (check.0 / check.1);
    let log_variance = 1.0 / treated.0 - 1.0 / treated.1 + 1.0 / check.0 - 1.0 / check.1;
    let value = Control {
        percent,
        interval: Some(around(ratio, log_variance, treated_alive == 0)),
    };
    Ok(noted(working, Note::IntervalByLogShares, has_zero).gives(value))
}

fn of(dead: u32, total: u32) -> String {
    format!("{dead} / {total}")
}

fn alive((dead, total): (u32, u32), field: Field, looked_at: ControlCount) -> Result<u32> {
    if total == 0 {
        return Err(RuleError::ControlUndefined { missing: looked_at });
    }
    total
        .checked_sub(dead)
        .ok_or_else(|| RuleError::NotAllowed {
            field,
            given: format!("{dead} / {total}"),
            allowed: Allowed::AtMostLookedAt,
        })
}
