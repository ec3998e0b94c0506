//! The rain finding: what the forecast says for the time that must stay dry.
//!
//! The chance is the highest of any step that touches the window, and the amount the sum of every
//! step that touches it, whole: all of a step's rain may fall in the part that counts.

use super::SkyInputs;
use super::advice::SkyAdvice;
use super::forecast::Forecast;
use crate::finding::{
    Check, Finding, LabelField, RainLayer, Reason, Shown, Source, Verdict, Whose,
};
use crate::label::{Label, LabelSays};
use crate::quantity::{Unit, near};

/// How long it must stay dry once the treatment is done, and by whose word.
pub(super) struct DryWindow {
    pub(super) after_ms: i64,
    pub(super) whose: Whose,
    pub(super) limit: Shown,
    /// The same as a sentence, for looking ahead.
    pub(super) held: Reason,
}

/// What a forecast says of rain over some time.
pub(super) struct RainOver {
    pub(super) verdict: Verdict,
    pub(super) reason: Reason,
    pub(super) value: Option<Shown>,
}

pub(super) fn finding(inputs: &SkyInputs<'_>) -> Finding {
    let window = match dry_window(inputs.label, inputs.advice) {
        Ok(window) => window,
        Err(why) => return Finding::unknown(Check::Rain, why),
    };
    let limit = |f: Finding| {
        f.with_limit(window.limit.clone(), window.whose)
            .with_source(Source::Rain)
    };
    let Some(forecast) = inputs.forecast else {
        return limit(Finding::unknown(Check::Rain, Reason::NoForecast));
    };
    let age_min = match forecast.age_min(inputs.now, inputs.advice) {
        Ok(age_min) => age_min,
        Err(why) => return limit(Finding::unknown(Check::Rain, why)),
    };
    let from = inputs.now.utc_ms;
    let to = from
        .saturating_add(inputs.job_ms())
        .saturating_add(window.after_ms);
    let over = rain_over(forecast, from, to, inputs.advice);
    let mut finding = Finding::new(Check::Rain, over.verdict, over.reason).with_age_min(age_min);
    finding.value = over.value;
    limit(finding)
}

/// The time that must stay dry. A label that sets none still is not applied during rain, so a
/// silent label is held to the shortest window of the advice.
///
/// # Errors
/// Why it is not known.
pub(super) fn dry_window(label: &Label, advice: &SkyAdvice) -> Result<DryWindow, Reason> {
    let (minutes, field) = (advice.rain_window_least_min, LabelField::RainFree);
    let least_ms = i64::from(minutes) * super::MIN_MS;
    let by_advice = || DryWindow {
        after_ms: least_ms,
        whose: Whose::Advice,
        limit: Shown::NotDuringRain { minutes },
        held: Reason::DryHeldToAdvice { minutes },
    };
    match &label.rain_free {
        LabelSays::Unfilled => Err(Reason::LabelFieldEmpty { field }),
        LabelSays::Nothing => Ok(by_advice()),
        LabelSays::Value(entered) => {
            let seconds = entered
                .to_seconds_up()
                .map_err(|_| Reason::LabelFieldUnusable {
                    field,
                    given: *entered,
                })?;
            let after_ms = seconds.saturating_mul(1000);
            if after_ms < least_ms {
                return Ok(by_advice());
            }
            Ok(DryWindow {
                after_ms,
                whose: Whose::Label,
                limit: Shown::DryFor { time: *entered },
                held: Reason::DryHeldToLabel { time: *entered },
            })
        }
    }
}

pub(super) fn rain_over(forecast: &Forecast, from: i64, to: i64, advice: &SkyAdvice) -> RainOver {
    let (chances, amounts) = (&forecast.rain_chance_percent, &forecast.rain_mm);
    let chance = chances.touching(from, to).reduce(f64::max);
    let amount = amounts.touching(from, to).reduce(|sum, mm| sum + mm);
    let value = chance.zip(amount).map(|(chance, mm)| Shown::Rain {
        chance_percent: whole_percent(chance),
        amount: near(mm, 2, Unit::MILLIMETRE),
    });
    let answer = |verdict, reason| RainOver {
        verdict,
        reason,
        value: value.clone(),
    };

    let stop_mm = f64::from(advice.rain_stop_hundredths_mm) / 100.0;
    let is_likely = chance.is_some_and(|c| c >= f64::from(advice.rain_stop_percent));
    if is_likely && amount.is_some_and(|a| a >= stop_mm) {
        let expected = Reason::RainExpected {
            amount: near(stop_mm, 2, Unit::MILLIMETRE),
            chance_percent: advice.rain_stop_percent,
        };
        return answer(Verdict::DontTreat, expected);
    }
    for (layer, name) in [(chances, RainLayer::Chance), (amounts, RainLayer::Amount)] {
        if !layer.covers(from, to) {
            return answer(
                Verdict::Unknown,
                missing(layer.ends_utc_ms(), name, from, to),
            );
        }
    }
    let is_possible = chance.is_some_and(|c| c >= f64::from(advice.rain_care_percent));
    if is_possible || amount.is_some_and(|a| a > 0.0) {
        let chance_percent = advice.rain_care_percent;
        return answer(Verdict::Caution, Reason::RainPossible { chance_percent });
    }
    answer(Verdict::Clear, Reason::NoRainExpected)
}

fn missing(ends_utc_ms: Option<i64>, layer: RainLayer, from: i64, to: i64) -> Reason {
    match ends_utc_ms {
        None => Reason::ForecastLacks { layer },
        Some(end) if end <= from => {
            let hours = from.saturating_sub(end) / (60 * super::MIN_MS);
            Reason::ForecastEnded {
                layer,
                hours_ago: u32::try_from(hours).unwrap_or(u32::MAX),
            }
        }
        Some(end) if end < to => Reason::ForecastEndsTooSoon { layer },
        Some(_) => Reason::ForecastHasGap { layer },
    }
}

#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "casts from f64 saturate"
)]
fn whole_percent(percent: f64) -> u32 {
    percent.round() as u32
}
