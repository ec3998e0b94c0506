//! What only a person can see: signs of an inversion, the state of the soil, blooms and bees.
//!
//! "Looked and saw none" and "did not look" are two things; only the first can be Clear.

use minicbor::{Decode, Encode};
use serde::{Deserialize, Serialize};

use super::advice::{INVERSION, PRACTICE};
use super::{SkyInputs, age_min};
use crate::finding::{Check, Finding, Verdict, Whose};

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

const BEES: &str = "NC State University, pollinator practices in turf";

pub(super) fn inversion(inputs: &SkyInputs<'_>) -> Finding {
    let check = Check::Inversion;
    let look = inputs.inversion.map(|l| (l.at_utc_ms, &l.signs));
    let (signs, age_min) = match recent(look, inputs) {
        Ok(seen) => seen,
        Err(why) => return Finding::unknown(check, format!("signs of an inversion: {why}")),
    };
    let (verdict, reason) = if signs.is_empty() {
        (Verdict::Clear, "no sign of an inversion was seen")
    } else if signs
        .iter()
        .any(|s| matches!(s, InversionSign::HangingSmoke | InversionSign::Fog))
    {
        (
            Verdict::DontTreat,
            "the air does not mix: fine drops hang in it and wander",
        )
    } else {
        (
            Verdict::Caution,
            "the air may not mix; watch smoke or dust before spraying",
        )
    };
    Finding::new(check, verdict, reason)
        .with_value(format!("{} signs", signs.len()))
        .with_limit("no sign of an inversion", Whose::Advice)
        .with_age_min(age_min)
        .with_source(INVERSION)
}

pub(super) fn soil(inputs: &SkyInputs<'_>) -> Finding {
    let check = Check::Soil;
    let (soil, age_min) = match recent(inputs.soil.map(|l| (l.at_utc_ms, l.soil)), inputs) {
        Ok(seen) => seen,
        Err(why) => return Finding::unknown(check, format!("the soil: {why}")),
    };
    let (verdict, value, reason) = match soil {
        Soil::Fit => (Verdict::Clear, "fit", "the soil takes water"),
        Soil::DustDry => (
            Verdict::Caution,
            "dust-dry",
            "on dust-dry soil product stays on top; water first if the label allows",
        ),
        Soil::Soaked => (
            Verdict::DontTreat,
            "soaked",
            "from soaked soil product runs off",
        ),
        Soil::Frozen => (
            Verdict::DontTreat,
            "frozen",
            "from frozen soil product runs off",
        ),
    };
    Finding::new(check, verdict, reason)
        .with_value(value)
        .with_limit("soil that takes water", Whose::Advice)
        .with_age_min(age_min)
        .with_source(PRACTICE)
}

pub(super) fn bloom(inputs: &SkyInputs<'_>) -> Finding {
    let check = Check::Bloom;
    let (bloom, age_min) = match recent(inputs.bloom.map(|l| (l.at_utc_ms, l.bloom)), inputs) {
        Ok(seen) => seen,
        Err(why) => return Finding::unknown(check, format!("blooms: {why}")),
    };
    let (verdict, value, reason) = match bloom {
        Bloom::None => (Verdict::Clear, "none", "no blooms for bees to come to"),
        Bloom::Beside => (
            Verdict::Caution,
            "beside the lawn",
            "bees visit blooms beside the lawn: keep drift off them",
        ),
        Bloom::OnLawn => (
            Verdict::DontTreat,
            "on the lawn",
            "bees visit blooms on the lawn: mow them off first",
        ),
    };
    Finding::new(check, verdict, reason)
        .with_value(value)
        .with_limit("no blooms in reach", Whose::Advice)
        .with_age_min(age_min)
        .with_source(BEES)
}

/// What was seen and how many minutes ago, unless nobody looked or it is too long ago.
fn recent<T>(look: Option<(i64, T)>, inputs: &SkyInputs<'_>) -> Result<(T, u32), String> {
    let (at_utc_ms, seen) = look.ok_or("not looked at yet")?;
    let age_min = age_min(at_utc_ms, inputs.now)?;
    if age_min > inputs.advice.look_age_most_min {
        return Err(format!("looked at {age_min} min ago; look again"));
    }
    Ok((seen, age_min))
}
