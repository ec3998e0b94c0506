//! Bait works only where ants find it fresh and dry and are out for food.
//!
//! The figures are common practice without a source; the label's own words come before them.

use serde::{Deserialize, Serialize};

use crate::error::{Allowed, Field, Result, RuleError};
use crate::finding::{Check, Finding, Reason, Shown, Source, Verdict, Whose};
use crate::quantity::{Dimension, Entered, Unit, near, to_f64, whole};

/// Lowest temperature of the ground at which ants forage well, in °F (common practice, no source).
pub const GROUND_LEAST_F: u32 = 70;
/// Highest temperature of the ground at which ants forage well, in °F (common practice, no source).
pub const GROUND_MOST_F: u32 = 90;
/// Within so many minutes ants should be on a chip (common practice, no source).
const CHIP_WITHIN_MIN: u32 = 30;
const CHIP_MOST_MIN: u32 = 240;
/// A look at ants or ground is good for so many minutes (common practice, no source).
const LOOK_GOOD_MIN: u32 = 60;

/// What a person saw before putting out bait. What nobody looked at stays none.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct BaitLook {
    /// The bait is fresh: neither stale nor damp nor rancid.
    pub fresh: Option<bool>,
    /// Ground and grass are dry.
    pub ground_dry: Option<bool>,
    /// Neither rain nor watering is to come in the time the label gives.
    pub stays_dry: Option<bool>,
    /// Whether ants are out for food.
    pub foraging: Option<Foraging>,
    /// Age of the look, in minutes; none where the time is not proven.
    pub age_min: Option<u32>,
}

/// How it was told whether ants are out for food.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Foraging {
    /// A greasy chip beside a mound, looked at after so many minutes.
    Chip {
        /// Ants were on it.
        ants: bool,
        /// Minutes it lay there.
        minutes: u32,
    },
    /// The temperature of the ground.
    Ground(Entered),
}

/// What bait needs: fresh, dry ground and weather, ants out for food.
///
/// A look that is too old or not dated, and what was not looked at, is `Unknown`.
///
/// ```
/// use sward_rules::{finding::{Verdict, sum}, mix::{BaitLook, Foraging, bait_findings}};
/// let look = BaitLook {
///     fresh: Some(true),
///     ground_dry: Some(true),
///     stays_dry: Some(true),
///     foraging: Some(Foraging::Chip { ants: true, minutes: 15 }),
///     age_min: Some(5),
/// };
/// assert_eq!(sum(&bait_findings(&look)?), Verdict::Clear);
/// assert_eq!(sum(&bait_findings(&BaitLook::default())?), Verdict::Unknown);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When the temperature is none, or no ground's, or a chip lay for no time or for hours.
pub fn bait_findings(look: &BaitLook) -> Result<Vec<Finding>> {
    let dated = |finding| dated(look.age_min, finding);
    let fresh = match look.fresh {
        None => Finding::unknown(Check::Bait, Reason::NotLookedAt),
        Some(true) => dated(Finding::new(Check::Bait, Verdict::Clear, Reason::BaitFresh)),
        Some(false) => dated(advised(Check::Bait, Reason::BaitNotFresh)),
    };
    let dry = match (look.ground_dry, look.stays_dry) {
        (Some(false), _) | (_, Some(false)) => dated(advised(Check::Bait, Reason::BaitWet)),
        (Some(true), Some(true)) => {
            dated(Finding::new(Check::Bait, Verdict::Clear, Reason::BaitDry))
        }
        _ => Finding::unknown(Check::Bait, Reason::NotLookedAt),
    };
    let ants = match &look.foraging {
        None => Finding::unknown(Check::AntsForaging, Reason::NotLookedAt),
        Some(Foraging::Chip { ants, minutes }) => dated(chip(*ants, *minutes)?),
        Some(Foraging::Ground(temperature)) => dated(ground(temperature)?),
    };
    Ok(vec![fresh, dry, ants])
}

fn chip(ants: bool, minutes: u32) -> Result<Finding> {
    if minutes == 0 || minutes > CHIP_MOST_MIN {
        return Err(RuleError::NotAllowed {
            field: Field::ChipMinutes,
            given: minutes.to_string(),
            allowed: Allowed::ChipMinutes,
        });
    }
    let limit = Shown::AntsWithin {
        minutes: CHIP_WITHIN_MIN,
    };
    let finding = match (ants, minutes <= CHIP_WITHIN_MIN) {
        (true, true) => Finding::new(Check::AntsForaging, Verdict::Clear, Reason::AntsForage),
        // Too soon to say.
        (false, true) if minutes < CHIP_WITHIN_MIN => {
            Finding::unknown(Check::AntsForaging, Reason::AntsDoNotForage)
        }
        _ => advised(Check::AntsForaging, Reason::AntsDoNotForage),
    };
    let value = if ants {
        Shown::AntsAfter { minutes }
    } else {
        Shown::NoAntsAfter { minutes }
    };
    Ok(finding
        .with_value(value)
        .with_limit(limit, Whose::Advice)
        .with_source(Source::Practice))
}

fn ground(temperature: &Entered) -> Result<Finding> {
    let field = || Field::GroundTemperature;
    temperature
        .must_be(Dimension::Temperature)
        .map_err(|e| e.of(field()))?;
    let not_allowed = || RuleError::NotAllowed {
        field: field(),
        given: temperature.for_person(),
        allowed: Allowed::GroundTemperature,
    };
    let degrees_f = temperature
        .in_unit(Unit::FAHRENHEIT)
        .map(to_f64)
        .filter(|f| (20.0..=160.0).contains(f))
        .ok_or_else(not_allowed)?;
    let band = f64::from(GROUND_LEAST_F)..=f64::from(GROUND_MOST_F);
    let finding = if band.contains(&degrees_f) {
        Finding::new(Check::AntsForaging, Verdict::Clear, Reason::AntsForage)
    } else {
        advised(Check::AntsForaging, Reason::AntsDoNotForage)
    };
    Ok(finding
        .with_value(Shown::Amount {
            amount: near(degrees_f, 1, Unit::FAHRENHEIT),
        })
        .with_limit(
            Shown::Between {
                least: whole(GROUND_LEAST_F, Unit::FAHRENHEIT),
                most: whole(GROUND_MOST_F, Unit::FAHRENHEIT),
            },
            Whose::Advice,
        )
        .with_source(Source::Practice))
}

/// Only a look of late says what is there now; what an older one saw stays named.
fn dated(age_min: Option<u32>, mut finding: Finding) -> Finding {
    finding.age_min = age_min;
    let why = match age_min {
        None => Reason::TimeNotProven,
        Some(age_min) if age_min > LOOK_GOOD_MIN => Reason::LookedTooLongAgo { age_min },
        Some(_) => return finding,
    };
    finding.verdict = Verdict::Unknown;
    let saw = std::mem::replace(&mut finding.reason, why);
    finding.also.insert(0, saw);
    finding
}

fn advised(check: Check, reason: Reason) -> Finding {
    Finding::new(check, Verdict::Caution, reason).with_source(Source::Practice)
}
