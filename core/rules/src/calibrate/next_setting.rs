//! The setting to try next, between two that were tried.
//!
//! An estimate and no setting: it is to be tried in its turn. Fewer than two tries give none.

use rust_decimal::{Decimal, RoundingStrategy};
use serde::Serialize;

use super::against::rate_kind;
use super::{at_most, out_of_range, positive};
use crate::error::{Allowed, Field, Result, RuleError};
use crate::note::{Note, Rounding};
use crate::plan::Passes;
use crate::quantity::{Entered, exact};
use crate::working::{Answer, Working};

/// Most tries that are looked at.
pub const TRIES_MOST: usize = 50;

/// Highest number on a dial that is taken for one.
const SETTING_MOST: Decimal = Decimal::ONE_THOUSAND;

/// A setting that was tried, and the rate that it gave.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tried {
    /// The number on the dial.
    pub setting: Decimal,
    /// The rate found.
    pub rate: Entered,
}

/// What to try next.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SettingToTry {
    /// The number on the dial, with no more decimals than the settings tried.
    pub setting: Decimal,
    /// Whether the rate wanted lies between the two rates it is worked out from.
    pub between: bool,
}

/// The setting to try for a rate, on the straight line between two settings that were tried; none
/// where fewer than two different settings were.
///
/// Of several tries the two nearest to the rate wanted count, one on either side where there is
/// one. Where `most`, the label's most, is below the rate wanted, it takes its place; both are in
/// all, and where the product goes on twice a setting has to give half. The number is rounded
/// towards less product.
///
/// ```
/// use rust_decimal::Decimal;
/// use sward_rules::{Entered, calibrate::*, plan::Passes};
/// let rate = |t: &str| Entered::parse(t);
/// let tries = [
///     Tried { setting: Decimal::from(10), rate: rate("2.8 lb/1000 ft2")? },
///     Tried { setting: Decimal::from(14), rate: rate("3.9 lb/1000 ft2")? },
/// ];
/// let wanted = rate("3.6 lb/1000 ft2")?;
/// let next = setting_to_try(&tries, &wanted, None, Passes::One)?.expect("two were tried");
/// assert_eq!(next.value.setting, Decimal::from(12));
/// assert_eq!(setting_to_try(&tries[..1], &wanted, None, Passes::One)?, None);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a rate is zero or of another kind, a setting is below zero or absurd, or both settings
/// gave the same rate.
pub fn setting_to_try(
    tries: &[Tried],
    wanted: &Entered,
    most: Option<&Entered>,
    passes: Passes,
) -> Result<Option<Answer<SettingToTry>>> {
    at_most(tries.len(), TRIES_MOST, Field::SettingsTried)?;
    let kind = rate_kind(wanted, &Field::WantedRate)?;
    let mut target = positive(wanted, kind, &Field::WantedRate)?;
    if let Some(most) = most {
        target = target.min(positive(most, kind, &Field::Rate)?);
    }
    target /= Decimal::from(passes.times());
    let mut points = Vec::with_capacity(tries.len());
    for (index, tried) in tries.iter().enumerate() {
        let field = Field::SettingTried { number: index + 1 };
        check_setting(tried.setting, &field)?;
        points.push((tried.setting, positive(&tried.rate, kind, &field)?));
    }
    let Some((first, second)) = nearest_two(&points, target) else {
        return Ok(None);
    };
    let slope_rate = second.1 - first.1;
    if slope_rate.is_zero() {
        return Err(RuleError::NotAllowed {
            field: Field::SettingsTried,
            given: format!("{} and {}", first.0, second.0),
            allowed: Allowed::RatesThatDiffer,
        });
    }
    let tried = (target - first.1)
        .checked_mul(second.0 - first.0)
        .and_then(|rise| rise.checked_div(slope_rate)?.checked_add(first.0))
        .and_then(exact)
        .ok_or_else(|| out_of_range(wanted))?;
    let opens = (slope_rate > Decimal::ZERO) == (second.0 > first.0);
    let setting = round_to_less(tried, first.0.scale().max(second.0.scale()), opens);
    if setting < Decimal::ZERO || setting > SETTING_MOST {
        return Err(out_of_range(wanted));
    }
    let between = (first.1.min(second.1)..=first.1.max(second.1)).contains(&target);
    Ok(Some(
        working(tries, wanted, between).gives(SettingToTry { setting, between }),
    ))
}

/// A dial's number that can be worked with.
pub(super) fn check_setting(setting: Decimal, field: &Field) -> Result<()> {
    if (Decimal::ZERO..=SETTING_MOST).contains(&setting) {
        return Ok(());
    }
    Err(RuleError::NotAllowed {
        field: field.clone(),
        given: setting.to_string(),
        allowed: Allowed::SettingNumber,
    })
}

type Point = (Decimal, Decimal);

/// The two tries to go by: the nearest on either side of the target, else the two nearest.
fn nearest_two(points: &[Point], target: Decimal) -> Option<(Point, Point)> {
    let off = |p: &&Point| (p.1 - target).abs();
    let below = points.iter().filter(|p| p.1 <= target).min_by_key(off);
    let above = points.iter().filter(|p| p.1 > target).min_by_key(off);
    if let (Some(below), Some(above)) = (below, above)
        && below.0 != above.0
    {
        return Some((*below, *above));
    }
    let first = points.iter().min_by_key(off)?;
    let others = points.iter().filter(|p| p.0 != first.0);
    Some((*first, *others.min_by_key(off)?))
}

/// Towards less product: down where a higher number opens the spreader, else up.
fn round_to_less(setting: Decimal, decimals: u32, opens: bool) -> Decimal {
    let strategy = if opens {
        RoundingStrategy::ToNegativeInfinity
    } else {
        RoundingStrategy::ToPositiveInfinity
    };
    setting
        .round_dp_with_strategy(decimals, strategy)
        .normalize()
}

fn working(tries: &[Tried], wanted: &Entered, between: bool) -> Working {
    let mut working = Working::new("straight line between two settings tried", "arithmetic")
        .input("rate wanted", wanted.for_person());
    for tried in tries {
        working = working.input(
            "setting tried",
            format!("{}: {}", tried.setting, tried.rate.for_person()),
        );
    }
    let working = working
        .rounded(Rounding::TowardsLess)
        .note(Note::TrySettingAgain);
    if between {
        working
    } else {
        working.note(Note::BeyondSettingsTried)
    }
}
