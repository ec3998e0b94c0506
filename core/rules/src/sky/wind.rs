//! The wind finding: what was measured at the yard, held against the label's limit.
//!
//! A station or a forecast can only forbid; it never clears, and without a measurement at the yard
//! the wind is Unknown.

use uom::si::f64::Velocity;
use uom::si::velocity::{kilometer_per_hour, mile_per_hour};

use super::height::assumed_height;
use super::reading::{WindSummary, YardWind, beaufort_mph, summarise};
use super::{SkyInputs, age_min};
use crate::finding::{Check, Finding, LabelField, Reason, Shown, Source, Verdict, Whose};
use crate::label::{LabelSays, Method};
use crate::quantity::{Entered, Unit, near, whole};

/// Two conversions of one speed may differ in the last bits; that is not above a limit.
const SAME: f64 = 1.0 + 1e-9;

/// Where the last force of the Beaufort scale begins; it has no end.
const BEAUFORT_LAST_MPH: u32 = 73;

/// Wind from one source, as far as a limit asks for it.
struct Measured {
    /// The larger of mean and gust.
    largest_mph: f64,
    /// What calm is judged by: the mean, or the lower end of an estimate.
    calmest_mph: f64,
    /// What a hand meter's reading may be at 10 m; scales and reports speak of that height already.
    at_10_m_mph: Option<f64>,
    age_min: u32,
    whence: Vec<Reason>,
    lacks: Option<Reason>,
}

/// What the wind is held against.
enum Limit<'a> {
    Label { mph: f64, entered: &'a Entered },
    NoneKnown { why: Reason },
    Unreadable { why: Reason },
}

pub(super) fn finding(inputs: &SkyInputs<'_>) -> Finding {
    let limit = limit(inputs);
    let yard = at_yard(inputs);
    if let Ok(measured) = &yard {
        let finding = hold(measured, &limit, inputs);
        if measured.lacks.is_none() || finding.verdict == Verdict::DontTreat {
            return finding;
        }
    }
    let lacks = match yard {
        Ok(Measured {
            lacks: Some(lacks), ..
        })
        | Err(lacks) => lacks,
        Ok(_) => Reason::WindNotMeasured,
    };
    if let Some(finding) = far_and_bad(inputs, &limit) {
        return finding;
    }
    let mut finding = Finding::unknown(Check::Wind, lacks);
    if inputs.station.is_some() || inputs.forecast.is_some() {
        finding = finding.and(Reason::FarWindNeverClears);
    }
    name_limit(finding, &limit)
}

fn limit<'a>(inputs: &SkyInputs<'a>) -> Limit<'a> {
    match &inputs.label.wind_most {
        LabelSays::Value(entered) => match entered.to_speed() {
            Ok(speed) => Limit::Label {
                mph: speed.get::<mile_per_hour>(),
                entered,
            },
            Err(_) => Limit::Unreadable {
                why: Reason::LabelFieldUnusable {
                    field: LabelField::WindMost,
                    given: *entered,
                },
            },
        },
        LabelSays::Unfilled => Limit::NoneKnown {
            why: Reason::LabelFieldEmpty {
                field: LabelField::WindMost,
            },
        },
        LabelSays::Nothing => Limit::NoneKnown {
            why: Reason::LabelSetsNoWind,
        },
    }
}

fn at_yard(inputs: &SkyInputs<'_>) -> Result<Measured, Reason> {
    match inputs.yard_wind {
        None => Err(Reason::WindNotMeasured),
        Some(YardWind::Meter(readings)) => summarise(readings, inputs.now, inputs.advice)
            .map(from_summary)
            .ok_or(Reason::NoRecentWindReading {
                within_min: inputs.advice.wind_age_most_min,
            }),
        Some(YardWind::Seen(seen)) => {
            let age_min = age_min(seen.at_utc_ms, inputs.now)?;
            if age_min > inputs.advice.wind_age_most_min {
                return Err(Reason::WindJudgedTooLongAgo { age_min });
            }
            let force = seen.force;
            let (calmest_mph, largest_mph) =
                beaufort_mph(force).map_err(|_| Reason::NoSuchBeaufortForce { force })?;
            Ok(Measured {
                largest_mph,
                calmest_mph,
                at_10_m_mph: None,
                age_min,
                whence: vec![Reason::ByBeaufort { force }],
                lacks: None,
            })
        }
    }
}

fn from_summary(summary: WindSummary) -> Measured {
    let mph = |value| near(value, 1, Unit::MILE_PER_HOUR);
    let by_meter = Reason::ByMeter {
        count: u32::try_from(summary.count).unwrap_or(u32::MAX),
        mean: mph(summary.mean_mph),
        gust: summary.gust_mph.map(mph),
    };
    let held = match summary.height {
        Some(height) => Reason::MeterHeldAt { height },
        None => Reason::MeterHeightNotNoted {
            height: assumed_height(),
        },
    };
    Measured {
        largest_mph: summary.largest_mph,
        calmest_mph: summary.mean_mph,
        at_10_m_mph: Some(summary.at_10_m_mph),
        age_min: summary.age_min,
        whence: vec![by_meter, held],
        lacks: summary.lacks,
    }
}

/// Holds a measurement against the limit, as if it were whole.
fn hold(measured: &Measured, limit: &Limit<'_>, inputs: &SkyInputs<'_>) -> Finding {
    let mph = measured.largest_mph;
    let about = |verdict, what| {
        let mut finding = Finding::new(Check::Wind, verdict, what);
        finding.also.extend(measured.whence.iter().cloned());
        finding
            .with_value(speed_shown(mph, limit))
            .with_age_min(measured.age_min)
    };
    match limit {
        Limit::Unreadable { why } => about(Verdict::Unknown, why.clone()),
        Limit::NoneKnown { why } => held_to_advice(mph, why, inputs, about),
        Limit::Label { mph: most, entered } => {
            let (verdict, what, advised) = held_to_label(measured, *most, inputs);
            match advised {
                Some(limit) => about(verdict, what)
                    .with_limit(limit, Whose::Advice)
                    .with_source(Source::Victoria),
                None => about(verdict, what)
                    .with_limit(Shown::Amount { amount: **entered }, Whose::Label),
            }
        }
    }
}

/// Without a limit of the label's, advice can forbid and never clears.
fn held_to_advice(
    mph: f64,
    why: &Reason,
    inputs: &SkyInputs<'_>,
    about: impl Fn(Verdict, Reason) -> Finding,
) -> Finding {
    let advice = inputs.advice;
    if mph >= kmh_in_mph(f64::from(advice.wind_stop_kmh)) {
        return about(Verdict::DontTreat, why.clone())
            .and(Reason::WindAboveAdvised)
            .with_limit(kmh(advice.wind_stop_kmh), Whose::Advice)
            .with_source(Source::Victoria);
    }
    let speed = whole(advice.wind_common_mph, Unit::MILE_PER_HOUR);
    about(Verdict::Unknown, why.clone())
        .and(Reason::WindCommonAdvice { speed })
        .with_source(Source::Practice)
}

/// The answer beside the label's limit, and the advised limit where that decides.
fn held_to_label(
    measured: &Measured,
    most_mph: f64,
    inputs: &SkyInputs<'_>,
) -> (Verdict, Reason, Option<Shown>) {
    let (advice, mph) = (inputs.advice, measured.largest_mph);
    let is_calm = measured.calmest_mph < kmh_in_mph(f64::from(advice.wind_calm_kmh));
    if mph > most_mph * SAME {
        (Verdict::DontTreat, Reason::WindAboveLabel, None)
    } else if drifts_when_calm(inputs.label.method) && is_calm {
        let least = whole(advice.wind_calm_kmh, Unit::KILOMETRE_PER_HOUR);
        let least = Shown::AtLeast { least };
        (Verdict::Caution, Reason::WindCalm, Some(least))
    } else if mph >= most_mph * f64::from(advice.wind_near_percent) / 100.0 {
        (Verdict::Caution, Reason::WindNearLabel, None)
    } else if mph >= kmh_in_mph(f64::from(advice.wind_stop_kmh)) {
        let stop = kmh(advice.wind_stop_kmh);
        let what = Reason::WindUnderLabelAboveAdvised;
        (Verdict::Caution, what, Some(stop))
    } else if let Some(higher_up) = measured.at_10_m_mph.filter(|up| *up > most_mph * SAME) {
        let speed = rounded_up(higher_up, Unit::MILE_PER_HOUR);
        (
            Verdict::Caution,
            Reason::WindAboveLabelHigherUp { speed },
            None,
        )
    } else {
        (Verdict::Clear, Reason::WindUnderLabel, None)
    }
}

/// A station's or forecast's wind, where it is above the limit already.
fn far_and_bad(inputs: &SkyInputs<'_>, limit: &Limit<'_>) -> Option<Finding> {
    [station(inputs), forecast(inputs)]
        .into_iter()
        .flatten()
        .map(|measured| hold(&measured, limit, inputs))
        .find(|finding| finding.verdict == Verdict::DontTreat)
}

fn station(inputs: &SkyInputs<'_>) -> Option<Measured> {
    let report = inputs.station?;
    let at = report.at_utc_ms(inputs.now.utc_ms).ok()?;
    let age_min = age_min(at, inputs.now).unwrap_or(0);
    if age_min > inputs.advice.station_age_most_min {
        return None;
    }
    let mph = |e: &Option<Entered>| Some(e.as_ref()?.to_speed().ok()?.get::<mile_per_hour>());
    let mean = mph(&report.wind)?;
    let whence = vec![Reason::ByStation {
        station: report.station.clone(),
        age_min,
    }];
    let largest_mph = mph(&report.gust).map_or(mean, |gust| gust.max(mean));
    Some(Measured {
        largest_mph,
        calmest_mph: mean,
        at_10_m_mph: None,
        age_min,
        whence,
        lacks: None,
    })
}

fn forecast(inputs: &SkyInputs<'_>) -> Option<Measured> {
    let forecast = inputs.forecast?;
    let age_min = forecast.age_min(inputs.now, inputs.advice).ok()?;
    let (from, to) = (
        inputs.now.utc_ms,
        inputs.now.utc_ms.saturating_add(inputs.job_ms()),
    );
    let gusts = forecast.gust_kmh.touching(from, to);
    let largest_kmh = forecast
        .wind_kmh
        .touching(from, to)
        .chain(gusts)
        .reduce(f64::max)?;
    let largest_mph = kmh_in_mph(largest_kmh);
    Some(Measured {
        largest_mph,
        calmest_mph: largest_mph,
        at_10_m_mph: None,
        age_min,
        whence: vec![Reason::ByForecast],
        lacks: None,
    })
}

fn drifts_when_calm(method: Method) -> bool {
    matches!(method, Method::FoliarSpray | Method::Drench)
}

fn name_limit(finding: Finding, limit: &Limit<'_>) -> Finding {
    match limit {
        Limit::Label { entered, .. } => {
            finding.with_limit(Shown::Amount { amount: **entered }, Whose::Label)
        }
        Limit::NoneKnown { .. } | Limit::Unreadable { .. } => finding,
    }
}

/// The speed in the unit of the limit, so that the two can be compared at a glance; rounded up,
/// so that a value over the limit never shows as the limit itself.
fn speed_shown(mph: f64, limit: &Limit<'_>) -> Shown {
    let metric =
        matches!(limit, Limit::Label { entered, .. } if entered.unit() == Unit::KILOMETRE_PER_HOUR);
    let (value, unit) = if metric {
        let speed = Velocity::new::<mile_per_hour>(mph);
        (speed.get::<kilometer_per_hour>(), Unit::KILOMETRE_PER_HOUR)
    } else {
        (mph, Unit::MILE_PER_HOUR)
    };
    if value.is_finite() {
        Shown::Amount {
            amount: rounded_up(value, unit),
        }
    } else {
        let least = whole(BEAUFORT_LAST_MPH, Unit::MILE_PER_HOUR);
        Shown::OrMore { least }
    }
}

fn rounded_up(value: f64, unit: Unit) -> Entered {
    near((value * 10.0 - 1e-6).ceil().max(0.0) / 10.0, 1, unit)
}

fn kmh(speed: u32) -> Shown {
    Shown::Amount {
        amount: whole(speed, Unit::KILOMETRE_PER_HOUR),
    }
}

pub(super) fn kmh_in_mph(kmh: f64) -> f64 {
    Velocity::new::<kilometer_per_hour>(kmh).get::<mile_per_hour>()
}
