//! The drying speed finding, for sprays left to dry on the leaves.
//!
//! Published bands are soft and methods for the wet bulb differ near them, so each band is entered
//! a little early, on the safe side.

use super::advice::DELTA_T;
use super::air::delta_t_c;
use super::{SkyInputs, age_min};
use crate::finding::{Check, Finding, Verdict, Whose};

/// By how much wet bulb methods differ, in °C: the largest difference between Stull's formula and
/// a psychrometer's over the project's check values is 0.27.
const DEAD_BAND_C: f64 = 0.3;

pub(super) fn finding(inputs: &SkyInputs<'_>) -> Finding {
    match delta_t(inputs) {
        Err(why) => Finding::unknown(Check::DryingSpeed, why),
        Ok((delta_t, age_min)) => banded(delta_t, inputs)
            .with_age_min(age_min)
            .with_source(DELTA_T),
    }
}

fn delta_t(inputs: &SkyInputs<'_>) -> Result<(f64, u32), String> {
    let Some(air) = inputs.air else {
        return Err("the air at the yard was not measured".to_owned());
    };
    let age_min = age_min(air.at_utc_ms, inputs.now)?;
    if age_min > inputs.advice.air_age_most_min {
        return Err(format!(
            "the air was measured {age_min} min ago; measure again"
        ));
    }
    let humidity = air
        .humidity_percent
        .ok_or("no humidity was measured at the yard")?;
    let temperature = air
        .temperature
        .to_temperature()
        .map_err(|e| e.to_string())?;
    let answer = delta_t_c(temperature, f64::from(humidity)).map_err(|e| e.to_string())?;
    Ok((answer.value, age_min))
}

fn banded(delta_t: f64, inputs: &SkyInputs<'_>) -> Finding {
    let advice = inputs.advice;
    let [least, care, stop] = [
        advice.delta_t_least_c,
        advice.delta_t_care_c,
        advice.delta_t_stop_c,
    ];
    let (verdict, reason) = if delta_t >= f64::from(stop) - DEAD_BAND_C {
        (
            Verdict::DontTreat,
            "drops dry too fast: they shrink, drift, and dry before they work",
        )
    } else if delta_t >= f64::from(care) - DEAD_BAND_C {
        (
            Verdict::Caution,
            "drops dry fast: use coarser drops, or wait for cooler air",
        )
    } else if delta_t < f64::from(least) + DEAD_BAND_C {
        (
            Verdict::Caution,
            "drops dry slowly and hang about; it may be an inversion",
        )
    } else {
        (Verdict::Clear, "drops dry neither too fast nor too slowly")
    };
    Finding::new(Check::DryingSpeed, verdict, reason)
        .with_value(format!("Delta T {delta_t:.1} °C"))
        .with_limit(
            format!("{least} to {care} °C, not from {stop} °C"),
            Whose::Advice,
        )
}
