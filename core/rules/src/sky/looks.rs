//! What only a person can see: signs of an inversion, the state of the soil, blooms and bees.
//!
//! "Looked and saw none" and "did not look" are two things; only the first can be Clear.

use minicbor::{Decode, Encode};
use serde::{Deserialize, Serialize};

use super::temperature::scales;
use super::{SkyInputs, age_min};
use crate::finding::{Check, Finding, Reason, Shown, Source, Verdict, Whose};
use crate::label::{Label, LabelSays, Method, WateringIn};
use crate::quantity::{Entered, Unit, whole};

/// Wind above which to keep away from blooms, how near beekeepers are told, and how long before
/// (NC State University, pollinator practices in turf).
const BEES_WIND_MPH: u32 = 5;
const BEEKEEPERS_WITHIN_MILES: u32 = 2;
const BEEKEEPERS_TOLD_BEFORE_H: u32 = 48;

/// Something seen that tells of air that does not mix.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Encode, Decode, Serialize, Deserialize,
)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum InversionSign {
    /// Smoke or dust hangs in a layer, or creeps sideways.
    #[n(0)]
    HangingSmoke,
    /// Fog or mist over the ground.
    #[n(1)]
    Fog,
    /// Dew or frost on the grass.
    #[n(2)]
    Dew,
    /// Still air.
    #[n(3)]
    StillAir,
    /// A clear sky from one or two hours before sunset to one hour after sunrise.
    #[n(4)]
    ClearSkyLowSun,
}

/// A person's look for signs of an inversion. No sign means that none was seen.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize, Deserialize)]
pub struct InversionLook {
    /// When, in milliseconds since 1970 UTC.
    #[n(0)]
    pub at_utc_ms: i64,
    /// The signs seen.
    #[n(1)]
    pub signs: Vec<InversionSign>,
}

/// State of the soil.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Encode, Decode, Serialize, Deserialize)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum Soil {
    /// Moist to dry, takes water.
    #[n(0)]
    Fit,
    /// Dust-dry: product stays on top, or water runs off it.
    #[n(1)]
    DustDry,
    /// Soaked: what goes on runs off.
    #[n(2)]
    Soaked,
    /// Frozen: what goes on runs off.
    #[n(3)]
    Frozen,
    /// Turf gone dormant from drought: brown, and no longer growing.
    #[n(4)]
    DroughtDormant,
}

/// A person's look at the soil.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Encode, Decode, Serialize, Deserialize)]
pub struct SoilLook {
    /// When, in milliseconds since 1970 UTC.
    #[n(0)]
    pub at_utc_ms: i64,
    /// What was seen.
    #[n(1)]
    pub soil: Soil,
    /// Its temperature, where a thermometer was put in: shown, as no label sheet sets one.
    #[n(2)]
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature: Option<Entered>,
}

/// Blooms on the lawn and beside it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Encode, Decode, Serialize, Deserialize)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum Bloom {
    /// None, or mown off.
    #[n(0)]
    None,
    /// Blooms beside the lawn, in reach of drift.
    #[n(1)]
    Beside,
    /// Blooms on the lawn, such as clover.
    #[n(2)]
    OnLawn,
}

/// A person's look for blooms.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Encode, Decode, Serialize, Deserialize)]
pub struct BloomLook {
    /// When, in milliseconds since 1970 UTC.
    #[n(0)]
    pub at_utc_ms: i64,
    /// What was seen.
    #[n(1)]
    pub bloom: Bloom,
}

pub(super) fn soil(inputs: &SkyInputs<'_>) -> Finding {
    let check = Check::Soil;
    let look = inputs.soil.map(|l| (l.at_utc_ms, l));
    let (look, age_min) = match recent(look, inputs) {
        Ok(seen) => seen,
        Err(why) => return Finding::unknown(check, why),
    };
    let soil = look.soil;
    let (verdict, reason) = match soil {
        Soil::Fit => (Verdict::Clear, Reason::SoilTakesWater),
        Soil::DustDry => (Verdict::Caution, Reason::SoilDustDry),
        Soil::Soaked => (Verdict::DontTreat, Reason::SoilSoaked),
        Soil::Frozen => (Verdict::DontTreat, Reason::SoilFrozen),
        Soil::DroughtDormant => (Verdict::Caution, Reason::TurfDormant),
    };
    let mut finding = Finding::new(check, verdict, reason);
    finding.also.extend(look.temperature.map(soil_temperature));
    finding
        .with_value(Shown::SoilSeen { soil })
        .with_limit(Shown::SoilThatTakesWater, Whose::Advice)
        .with_age_min(age_min)
        .with_source(Source::Practice)
}

/// What the thermometer in the soil showed, on both scales.
fn soil_temperature(given: Entered) -> Reason {
    match given.to_temperature() {
        Ok(temperature) => {
            let (fahrenheit, celsius) = scales(temperature);
            Reason::SoilTemperatureWas {
                fahrenheit,
                celsius,
            }
        }
        Err(_) => Reason::SoilTemperatureUnusable { given },
    }
}

pub(super) fn bloom(inputs: &SkyInputs<'_>) -> Finding {
    let check = Check::Bloom;
    let (bloom, age_min) = match recent(inputs.bloom.map(|l| (l.at_utc_ms, l.bloom)), inputs) {
        Ok(seen) => seen,
        Err(why) => return Finding::unknown(check, why),
    };
    let (verdict, reason) = match bloom {
        Bloom::None => (Verdict::Clear, Reason::NoBlooms),
        Bloom::Beside => (Verdict::Caution, Reason::BloomsBeside),
        Bloom::OnLawn => (Verdict::DontTreat, Reason::BloomsOnLawn),
    };
    let mut finding = Finding::new(check, verdict, reason);
    if bloom != Bloom::None {
        finding.also = for_bees(inputs.label);
    }
    finding
        .with_value(Shown::BloomsSeen { bloom })
        .with_limit(Shown::NoBloomsInReach, Whose::Advice)
        .with_age_min(age_min)
        .with_source(Source::Bees)
}

/// What spares bees where blooms are in reach. Bait is never watered in, and neither is what the
/// label wants left dry.
fn for_bees(label: &Label) -> Vec<Reason> {
    let into_the_soil = matches!(label.method, Method::Granule | Method::Drench);
    let left_dry = matches!(label.watering_in, LabelSays::Value(WateringIn::Withheld(_)));
    let mut advice = Vec::new();
    if into_the_soil && !left_dry {
        advice.push(Reason::BeesWaterIn);
    }
    advice.push(Reason::BeesWindBelow {
        speed: whole(BEES_WIND_MPH, Unit::MILE_PER_HOUR),
    });
    advice.push(Reason::BeesTellBeekeepers {
        miles: BEEKEEPERS_WITHIN_MILES,
        hours: BEEKEEPERS_TOLD_BEFORE_H,
    });
    advice
}

/// What was seen and how many minutes ago, unless nobody looked or it is too long ago.
pub(super) fn recent<T>(
    look: Option<(i64, T)>,
    inputs: &SkyInputs<'_>,
) -> Result<(T, u32), Reason> {
    let (at_utc_ms, seen) = look.ok_or(Reason::NotLookedAt)?;
    let age_min = age_min(at_utc_ms, inputs.now)?;
    if age_min > inputs.advice.look_age_most_min {
        return Err(Reason::LookedTooLongAgo { age_min });
    }
    Ok((seen, age_min))
}
