//! The rain finding: what the forecast says for the time that must stay dry.
//!
//! The chance is the highest of any step that touches the window, and the amount the sum of every
//! step that touches it, whole: all of a step's rain may fall in the part that counts.

use super::SkyInputs;
use super::advice::{RAIN, SkyAdvice};
use super::forecast::Forecast;
use crate::finding::{Check, Finding, Verdict, Whose};
use crate::label::{Label, LabelSays};

/// How long it must stay dry once the treatment is done, and by whose word.
pub(super) struct DryWindow {
    pub(super) after_ms: i64,
    pub(super) whose: Whose,
    pub(super) text: String,
}

/// What a forecast says of rain over some time.
pub(super) struct RainOver {
    pub(super) verdict: Verdict,
    pub(super) reason: String,
    pub(super) value: Option<String>,
}

pub(super) fn finding(inputs: &SkyInputs<'_>) -> Finding {
    let window = match dry_window(inputs.label, inputs.advice) {
        Ok(window) => window,
        Err(why) => return Finding::unknown(Check::Rain, why),
    };
    let limit = |f: Finding| f.with_limit(&window.text, window.whose).with_source(RAIN);
    let Some(forecast) = inputs.forecast else {
        return limit(Finding::unknown(Check::Rain, "there is no forecast"));
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
/// A sentence why it is not known.
pub(super) fn dry_window(label: &Label, advice: &SkyAdvice) -> Result<DryWindow, String> {
    let least_ms = i64::from(advice.rain_window_least_min) * super::MIN_MS;
    let by_advice = || DryWindow {
        after_ms: least_ms,
        whose: Whose::Advice,
        text: format!(
            "not during rain: dry for {} min (the label sets no time; US EPA outdoor pyrethroid \
             label wording)",
            advice.rain_window_least_min
        ),
    };
    match &label.rain_free {
        LabelSays::Unfilled => Err("the label's rain-free time is not filled in".to_owned()),
        LabelSays::Nothing => Ok(by_advice()),
        LabelSays::Value(entered) => {
            let seconds = entered
                .to_seconds_up()
                .map_err(|e| format!("the rain-free time: {e}"))?;
            let after_ms = seconds.saturating_mul(1000);
            if after_ms < least_ms {
                return Ok(by_advice());
            }
            let text = format!("dry for {} after treating", entered.for_person());
            Ok(DryWindow {
                after_ms,
                whose: Whose::Label,
                text,
            })
        }
    }
}

pub(super) fn rain_over(forecast: &Forecast, from: i64, to: i64, advice: &SkyAdvice) -> RainOver {
    let (chances, amounts) = (&forecast.rain_chance_percent, &forecast.rain_mm);
    let chance = chances.touching(from, to).reduce(f64::max);
    let amount = amounts.touching(from, to).reduce(|sum, mm| sum + mm);
    let value = chance
        .zip(amount)
        .map(|(c, a)| format!("{c:.0} %, {a:.2} mm"));
    let answer = |verdict, reason: String| RainOver {
        verdict,
        reason,
        value: value.clone(),
    };

    let stop_mm = f64::from(advice.rain_stop_hundredths_mm) / 100.0;
    let is_likely = chance.is_some_and(|c| c >= f64::from(advice.rain_stop_percent));
    if is_likely && amount.is_some_and(|a| a >= stop_mm) {
        let percent = advice.rain_stop_percent;
        return answer(
            Verdict::DontTreat,
            format!("rain expected: {stop_mm} mm or more at {percent} % or more in that time"),
        );
    }
    for (layer, name) in [(chances, "chance"), (amounts, "amount")] {
        if !layer.covers(from, to) {
            return answer(
                Verdict::Unknown,
                missing(layer.ends_utc_ms(), name, from, to),
            );
        }
    }
    let is_possible = chance.is_some_and(|c| c >= f64::from(advice.rain_care_percent));
    if is_possible || amount.is_some_and(|a| a > 0.0) {
        let reason = format!(
            "some rain may fall: {} % or more, or some amount",
            advice.rain_care_percent
        );
        return answer(Verdict::Caution, reason);
    }
    answer(Verdict::Clear, "no rain expected in that time".to_owned())
}

fn missing(ends_utc_ms: Option<i64>, name: &str, from: i64, to: i64) -> String {
    match ends_utc_ms {
        None => format!("the forecast has no {name} of rain"),
        Some(end) if end <= from => {
            let hours = from.saturating_sub(end) / (60 * super::MIN_MS);
            format!("the forecast's {name} of rain ended {hours} h ago; download it again")
        }
        Some(end) if end < to => {
            format!("the forecast's {name} of rain ends before the time that must stay dry does")
        }
        Some(_) => format!("the forecast's {name} of rain has a gap in that time"),
    }
}
