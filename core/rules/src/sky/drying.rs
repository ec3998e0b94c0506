//! The drying speed finding, for sprays left to dry on the leaves.
//!
//! Published bands are soft and methods for the wet bulb differ near them, so each band is entered
//! a little early, on the safe side.

use super::air::delta_t_c;
use super::{SkyInputs, age_min};
use crate::finding::{Check, Finding, Reason, Shown, Source, Verdict, Whose};
use crate::quantity::{Unit, near, whole};

/// By how much wet bulb methods differ near the limits, in °C. At sea level, from 1 to 50 °C and
/// from 5 to 99 %: where ASHRAE's Delta T is on the other side of 2, 8 or 10 °C, Stull's is within
/// 0.66 of that limit (`tests/differential` asks so in random cases). A psychrometer's differs by 0.27
/// at most over the project's check values.
const DEAD_BAND_C: f64 = 0.7;

pub(super) fn finding(inputs: &SkyInputs<'_>) -> Finding {
    match delta_t(inputs) {
        Err(why) => Finding::unknown(Check::DryingSpeed, why),
        Ok((delta_t, age_min)) => banded(delta_t, inputs)
            .with_age_min(age_min)
            .with_source(Source::DeltaT),
    }
}

fn delta_t(inputs: &SkyInputs<'_>) -> Result<(f64, u32), Reason> {
    let Some(air) = inputs.air else {
        return Err(Reason::AirNotMeasured);
    };
    let age_min = age_min(air.at_utc_ms, inputs.now)?;
    if age_min > inputs.advice.air_age_most_min {
        return Err(Reason::AirMeasuredTooLongAgo { age_min });
    }
    let humidity = air.humidity_percent.ok_or(Reason::NoHumidity)?;
    let temperature = air
        .temperature
        .to_temperature()
        .map_err(|_| Reason::AirReadingUnusable {
            given: air.temperature,
        })?;
    let answer =
        delta_t_c(temperature, f64::from(humidity)).map_err(|_| Reason::OutsideWetBulbRange)?;
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
        (Verdict::DontTreat, Reason::DropsDryTooFast)
    } else if delta_t >= f64::from(care) - DEAD_BAND_C {
        (Verdict::Caution, Reason::DropsDryFast)
    } else if delta_t < f64::from(least) + DEAD_BAND_C {
        (Verdict::Caution, Reason::DropsDrySlowly)
    } else {
        (Verdict::Clear, Reason::DropsDryWell)
    };
    let finding = Finding::new(Check::DryingSpeed, verdict, reason);
    let methods_differ = [least, care, stop]
        .iter()
        .any(|limit| (delta_t - f64::from(*limit)).abs() <= DEAD_BAND_C);
    let finding = if methods_differ {
        finding.and(Reason::WetBulbMethodsDiffer {
            celsius: near(DEAD_BAND_C, 1, Unit::CELSIUS),
        })
    } else {
        finding
    };
    finding
        .with_value(Shown::DeltaT {
            celsius: near(delta_t, 1, Unit::CELSIUS),
        })
        .with_limit(
            Shown::DeltaTBand {
                least: whole(least, Unit::CELSIUS),
                care: whole(care, Unit::CELSIUS),
                stop: whole(stop, Unit::CELSIUS),
            },
            Whose::Advice,
        )
}
