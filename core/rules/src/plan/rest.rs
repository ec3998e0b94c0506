//! After the check half-way: how to go on with what is left, by pace or by setting.
//!
//! What is left gets the planned rate and nothing else. Where the part done was light, the rest is
//! not made heavy for it.

use rust_decimal::Decimal;
use serde::Serialize;

use super::passes::Passes;
use crate::calibrate::{SettingToTry, Tried, setting_to_try};
use crate::error::{Field, Result};
use crate::note::Note;
use crate::quantity::{Dimension, Entered, out_of_range, positive, shown_up};
use crate::working::{Answer, Working};

/// Digits to which a pace is raised.
const PACE_DIGITS: u32 = 6;

/// How it went on so far.
#[derive(Debug, Clone)]
pub struct Rest<'a> {
    /// The planned rate.
    pub rate: Entered,
    /// The label's most, where it is known: the rest is never brought above it.
    pub most: Option<Entered>,
    /// The rate on the part that is done, by the check half-way.
    pub rate_done: Entered,
    /// The pace so far, where it is known.
    pub pace: Option<Entered>,
    /// The setting so far, where it is known.
    pub setting: Option<Decimal>,
    /// Settings that were tried when calibrating, with what each gave.
    pub tried: &'a [Tried],
}

/// What to change for the rest: the pace or the setting, not both.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RestNeeds {
    /// The pace at which the same setting gives the rate, rounded up; none where the pace is not
    /// known.
    pub pace: Option<Entered>,
    /// The setting to try at the same pace; none where it, or two settings tried, are not known.
    pub setting: Option<SettingToTry>,
}

/// The pace, or else the setting, for what is left at the planned rate.
///
/// A steady flow puts on the less, the faster it goes. A setting is taken to give as much more or
/// less than when it was tried as the present one does.
///
/// ```
/// use sward_rules::{Entered, plan::{Rest, for_the_rest}};
/// let e = |t: &str| Entered::parse(t).unwrap();
/// let needs = for_the_rest(&Rest {
///     rate: e("5 lb/1000 ft2"),
///     most: None,
///     rate_done: e("5.8 lb/1000 ft2"),
///     pace: Some(e("3 mph")),
///     setting: None,
///     tried: &[],
/// })?;
/// assert_eq!(needs.value.pace.expect("it was known").for_person(), "3.48 mph");
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When rates are of different kinds or zero, the pace is none, or a setting is absurd.
pub fn for_the_rest(rest: &Rest<'_>) -> Result<Answer<RestNeeds>> {
    let kind = rest.rate.dimension();
    let (planned, done) = (
        positive(&rest.rate, kind, &Field::Rate)?,
        positive(&rest.rate_done, kind, &Field::FoundRate)?,
    );
    let target = match &rest.most {
        Some(most) => planned.min(positive(most, kind, &Field::Rate)?),
        None => planned,
    };
    let too_much = done
        .checked_div(target)
        .ok_or_else(|| out_of_range(&rest.rate_done))?;
    let pace = match &rest.pace {
        Some(pace) => {
            positive(pace, Dimension::Speed, &Field::Speed)?;
            let needed = pace.amount().checked_mul(too_much);
            // A pace shown a hair slower would put on a hair more.
            let needed = needed.and_then(|amount| shown_up(amount, pace.unit(), PACE_DIGITS));
            Some(needed.ok_or_else(|| out_of_range(pace))?)
        }
        None => None,
    };
    let mut working = Working::new(
        "pace × rate on the part done / planned rate",
        "common practice, no source",
    )
    .input("rate", rest.rate.for_person())
    .input("rate on the part done", rest.rate_done.for_person());
    if let Some(pace) = &rest.pace {
        working = working.input("pace", pace.for_person());
    }
    if let Some(setting) = rest.setting {
        working = working.input("setting", setting);
    }
    let setting = setting(rest, target)?;
    working = working
        .note(Note::RestAtPlannedRate)
        .note(Note::SettingOrPace)
        .note(Note::SteadyFlow);
    if setting.is_some() {
        working = working.note(Note::TrySettingAgain);
    }
    Ok(working.gives(RestNeeds { pace, setting }))
}

/// Where the present setting is one of those tried, each of them gives now as much more or less as
/// it does.
fn setting(rest: &Rest<'_>, target: Decimal) -> Result<Option<SettingToTry>> {
    let Some(now) = rest.setting else {
        return Ok(None);
    };
    let Some(tried) = rest.tried.iter().find(|t| t.setting == now) else {
        return Ok(None);
    };
    let kind = rest.rate.dimension();
    let gave = positive(&tried.rate, kind, &Field::SettingNow)?;
    let done = positive(&rest.rate_done, kind, &Field::FoundRate)?;
    let then = target
        .checked_mul(gave)
        .and_then(|t| t.checked_div(done))
        .and_then(|si| Entered::from_si(si, rest.rate.unit()))
        .ok_or_else(|| out_of_range(&rest.rate))?;
    Ok(setting_to_try(rest.tried, &then, None, Passes::One)?.map(|answer| answer.value))
}
