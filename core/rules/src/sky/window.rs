//! When the weather may next allow a start, by the forecast.
//!
//! It says when to come back and measure, never that a start is allowed: the wind at the yard
//! decides then.

use serde::Serialize;

use super::forecast::Forecast;
use super::rain::{DryWindow, dry_window, rain_over};
use super::sun::{InversionHours, inversion_hours};
use super::wind::kmh_in_mph;
use super::{MIN_MS, SkyInputs, temperature, which_checks};
use crate::finding::{Check, LabelField, Reason, Verdict};
use crate::label::LabelSays;
use crate::quantity::{Unit, whole};
use uom::si::velocity::mile_per_hour;

const HOUR_MS: i64 = 60 * MIN_MS;

/// Most hours looked ahead; the service's forecasts reach about a week.
const HOURS_MOST: u16 = 14 * 24;

/// When a start may be possible.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case", tag = "window")]
pub enum NextWindow {
    /// Starts from `from` until `to` have wind, rain and temperature under the limits, by the
    /// forecast, and for sprays lie outside the hours of an inversion where the place is known.
    /// Measure at the yard then.
    MayOpen {
        /// First start, in milliseconds since 1970 UTC.
        from_utc_ms: i64,
        /// End of the last hour in which a start still is under the limits.
        to_utc_ms: i64,
        /// What it rests on.
        reasons: Vec<Reason>,
    },
    /// No such hour can be seen.
    NotSeen {
        /// Why not.
        reasons: Vec<Reason>,
    },
}

/// Why an hour is no time to start, by its first cause.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Stops {
    Wind,
    Rain,
    Temperature,
    Inversion,
    ForecastEnds,
}

/// The first hour from now on in which, by the forecast alone, wind, rain and temperature are under
/// the limits: for the length of the treatment, and for the label's dry time after it.
///
/// Without a wind limit on the label, the common advice stands in and is named. An hour with some
/// chance of rain that only asks for care counts.
pub fn next_window(inputs: &SkyInputs<'_>) -> NextWindow {
    match looked_ahead(inputs) {
        Ok(window) => window,
        Err(reason) => NextWindow::NotSeen {
            reasons: vec![reason],
        },
    }
}

fn looked_ahead(inputs: &SkyInputs<'_>) -> Result<NextWindow, Reason> {
    let forecast = inputs.forecast.ok_or(Reason::NoForecast)?;
    if !inputs.now.proven {
        return Err(Reason::TimeNotProven);
    }
    forecast.age_min(inputs.now, inputs.advice)?;
    let dry = dry_window(inputs.label, inputs.advice)?;
    let (wind_mph, wind_held) = wind_limit(inputs)?;

    let now = inputs.now.utc_ms;
    let next_full = now
        .div_euclid(HOUR_MS)
        .saturating_add(1)
        .saturating_mul(HOUR_MS);
    let full_hours = (0..).map(|i: i64| next_full.saturating_add(i.saturating_mul(HOUR_MS)));
    let starts = std::iter::once(now)
        .chain(full_hours)
        .take(usize::from(HOURS_MOST));

    let left_out = LeftOut::over(inputs);
    let mut first = None;
    let mut to_utc_ms = now;
    let mut stopped = [0_u32; 4];
    for start in starts {
        let hour_ends = start
            .div_euclid(HOUR_MS)
            .saturating_add(1)
            .saturating_mul(HOUR_MS);
        // Whoever starts at the hour's end treats for as long.
        let last_ends = hour_ends.saturating_add(inputs.job_ms());
        let stops = stops(start, forecast, &dry, wind_mph, inputs).or_else(|| {
            left_out
                .reaches((start, last_ends))
                .then_some(Stops::Inversion)
        });
        match (stops, first) {
            (None, _) => {
                first = first.or(Some(start));
                to_utc_ms = hour_ends;
            }
            (Some(_), Some(_)) | (Some(Stops::ForecastEnds), None) => break,
            (Some(Stops::Wind), None) => stopped[0] += 1,
            (Some(Stops::Rain), None) => stopped[1] += 1,
            (Some(Stops::Temperature), None) => stopped[2] += 1,
            (Some(Stops::Inversion), None) => stopped[3] += 1,
        }
    }
    let reasons = |why: Vec<Reason>| {
        let held = [wind_held, dry.held].into_iter().chain(sun_held(inputs));
        why.into_iter().chain(held).collect()
    };
    Ok(match first {
        Some(from_utc_ms) => NextWindow::MayOpen {
            from_utc_ms,
            to_utc_ms,
            reasons: reasons(vec![Reason::MayOpenByForecast]),
        },
        None => NextWindow::NotSeen {
            reasons: reasons(not_seen(stopped)),
        },
    })
}

fn not_seen([wind_h, rain_h, temperature_h, sun_h]: [u32; 4]) -> Vec<Reason> {
    let mut why = Vec::new();
    if wind_h + rain_h + temperature_h > 0 {
        why.push(Reason::NoHourWillDo {
            wind_h,
            rain_h,
            temperature_h,
        });
    }
    if sun_h > 0 {
        why.push(Reason::NoHourByTheSun { hours: sun_h });
    }
    if why.is_empty() {
        why.push(Reason::ForecastTooShort);
    }
    why
}

/// Whether evening, night and morning are left out: only where drops drift, and only where it is
/// known when the sun rises and sets.
fn sun_held(inputs: &SkyInputs<'_>) -> Option<Reason> {
    let asked = which_checks(inputs.label.method).contains(&Check::Inversion);
    let held = match inputs.place {
        Some(_) => Reason::OutsideInversionHours {
            before_min: inputs.advice.sunset_before_min,
            after_min: inputs.advice.sunrise_after_min,
        },
        None => Reason::HoursNotLeftOut,
    };
    asked.then_some(held)
}

/// The hours in which no start is offered, because air commonly does not mix then.
enum LeftOut {
    /// None: nothing drifts, or nobody knows where the yard lies.
    Nothing,
    /// From before each sunset to after the sunrise.
    Nights(Vec<InversionHours>),
    /// They cannot be told, so no hour is offered.
    NotTold,
}

impl LeftOut {
    /// Over all hours that are looked at, with the treatment that may begin in the last.
    fn over(inputs: &SkyInputs<'_>) -> Self {
        let asked = which_checks(inputs.label.method).contains(&Check::Inversion);
        let Some(place) = inputs.place.filter(|_| asked) else {
            return Self::Nothing;
        };
        let from = inputs.now.utc_ms;
        let ahead_ms = (i64::from(HOURS_MOST) + 1) * HOUR_MS;
        let to = from
            .saturating_add(ahead_ms)
            .saturating_add(inputs.job_ms());
        match inversion_hours(place, (from, to), inputs.advice) {
            Ok(nights) => Self::Nights(nights.value),
            Err(_) => Self::NotTold,
        }
    }

    fn reaches(&self, (from, to): (i64, i64)) -> bool {
        match self {
            Self::Nothing => false,
            Self::Nights(nights) => nights.iter().any(|night| {
                night.from_utc_ms.is_none_or(|begins| begins <= to)
                    && night.to_utc_ms.is_none_or(|ends| from <= ends)
            }),
            Self::NotTold => true,
        }
    }
}

fn wind_limit(inputs: &SkyInputs<'_>) -> Result<(f64, Reason), Reason> {
    match &inputs.label.wind_most {
        LabelSays::Value(entered) => {
            let speed = entered.to_speed().map_err(|_| Reason::LabelFieldUnusable {
                field: LabelField::WindMost,
                given: *entered,
            })?;
            let held = Reason::WindHeldToLabel { speed: *entered };
            Ok((speed.get::<mile_per_hour>(), held))
        }
        LabelSays::Unfilled | LabelSays::Nothing => {
            let mph = inputs.advice.wind_common_mph;
            let speed = whole(mph, Unit::MILE_PER_HOUR);
            Ok((f64::from(mph), Reason::WindHeldToAdvice { speed }))
        }
    }
}

fn stops(
    start: i64,
    forecast: &Forecast,
    dry: &DryWindow,
    wind_mph: f64,
    inputs: &SkyInputs<'_>,
) -> Option<Stops> {
    let end = start.saturating_add(inputs.job_ms());
    for layer in [&forecast.wind_kmh, &forecast.gust_kmh] {
        if !layer.covers(start, end) {
            return Some(Stops::ForecastEnds);
        }
        if layer
            .touching(start, end)
            .any(|kmh| kmh_in_mph(kmh) > wind_mph)
        {
            return Some(Stops::Wind);
        }
    }
    if temperature::has_limit(inputs) {
        let layer = &forecast.temperature_c;
        if !layer.covers(start, end) {
            return Some(Stops::ForecastEnds);
        }
        if layer
            .touching(start, end)
            .any(|celsius| temperature::is_beyond(celsius, inputs))
        {
            return Some(Stops::Temperature);
        }
    }
    let rain = rain_over(
        forecast,
        start,
        end.saturating_add(dry.after_ms),
        inputs.advice,
    );
    match rain.verdict {
        Verdict::Clear | Verdict::Caution => None,
        Verdict::Unknown => Some(Stops::ForecastEnds),
        Verdict::DontTreat => Some(Stops::Rain),
    }
}
