//! The wind finding: what was measured at the yard, held against the label's limit.
//!
//! A station or a forecast can only forbid; it never clears, and without a measurement at the yard
//! the wind is Unknown.

use uom::si::f64::Velocity;
use uom::si::velocity::{kilometer_per_hour, mile_per_hour};

use super::advice::{PRACTICE, VICTORIA};
use super::reading::{WindSummary, YardWind, beaufort_mph, summarise};
use super::{SkyInputs, age_min};
use crate::finding::{Check, Finding, Verdict, Whose};
use crate::label::{LabelSays, Method};
use crate::quantity::Entered;

/// Two conversions of one speed may differ in the last bits; that is not above a limit.
const SAME: f64 = 1.0 + 1e-9;

/// Wind from one source, as far as a limit asks for it.
struct Measured {
    /// The larger of mean and gust.
    largest_mph: f64,
    /// What calm is judged by: the mean, or the lower end of an estimate.
    calmest_mph: f64,
    age_min: u32,
    whence: String,
    lacks: Option<String>,
}

/// What the wind is held against.
enum Limit<'a> {
    Label { mph: f64, entered: &'a Entered },
    NoneKnown { why: &'static str },
    Unreadable { why: String },
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
        Ok(_) => "no wind was measured at the yard".to_owned(),
    };
    if let Some(finding) = far_and_bad(inputs, &limit) {
        return finding;
    }
    let told = if inputs.station.is_some() || inputs.forecast.is_some() {
        "; a station or forecast alone never clears the wind at a yard"
    } else {
        ""
    };
    name_limit(
        Finding::unknown(Check::Wind, format!("{lacks}{told}")),
        &limit,
    )
}

fn limit<'a>(inputs: &SkyInputs<'a>) -> Limit<'a> {
    match &inputs.label.wind_most {
        LabelSays::Value(entered) => match entered.to_speed() {
            Ok(speed) => Limit::Label {
                mph: speed.get::<mile_per_hour>(),
                entered,
            },
            Err(error) => Limit::Unreadable {
                why: error.to_string(),
            },
        },
        LabelSays::Unfilled => Limit::NoneKnown {
            why: "the label's wind limit is not filled in",
        },
        LabelSays::Nothing => Limit::NoneKnown {
            why: "the label sets no wind limit",
        },
    }
}

fn at_yard(inputs: &SkyInputs<'_>) -> Result<Measured, String> {
    match inputs.yard_wind {
        None => Err("no wind was measured at the yard".to_owned()),
        Some(YardWind::Meter(readings)) => summarise(readings, inputs.now, inputs.advice)
            .map(from_summary)
            .ok_or_else(|| {
                let most = inputs.advice.wind_age_most_min;
                format!("no meter reading of the last {most} min; measure again")
            }),
        Some(YardWind::Seen(seen)) => {
            let age_min = age_min(seen.at_utc_ms, inputs.now)?;
            if age_min > inputs.advice.wind_age_most_min {
                return Err(format!("the wind was judged {age_min} min ago; look again"));
            }
            let (calmest_mph, largest_mph) =
                beaufort_mph(seen.force).map_err(|error| error.to_string())?;
            let whence = format!("Beaufort force {}, counted as its upper end", seen.force);
            Ok(Measured {
                largest_mph,
                calmest_mph,
                age_min,
                whence,
                lacks: None,
            })
        }
    }
}

fn from_summary(summary: WindSummary) -> Measured {
    let gust = summary
        .gust_mph
        .map_or_else(String::new, |g| format!(", gust {g:.1} mph"));
    let whence = format!(
        "{} meter readings, mean {:.1} mph{gust}",
        summary.count, summary.mean_mph
    );
    Measured {
        largest_mph: summary.largest_mph,
        calmest_mph: summary.mean_mph,
        age_min: summary.age_min,
        whence,
        lacks: summary.lacks,
    }
}

/// Holds a measurement against the limit, as if it were whole.
fn hold(measured: &Measured, limit: &Limit<'_>, inputs: &SkyInputs<'_>) -> Finding {
    let advice = inputs.advice;
    let mph = measured.largest_mph;
    let stop_mph = kmh_in_mph(f64::from(advice.wind_stop_kmh));
    let about = |verdict, what: &str| {
        let reason = format!("{what} ({})", measured.whence);
        Finding::new(Check::Wind, verdict, reason)
            .with_value(speed_text(mph, limit))
            .with_age_min(measured.age_min)
    };
    match limit {
        Limit::Unreadable { why } => about(Verdict::Unknown, why),
        Limit::NoneKnown { why } if mph >= stop_mph => about(
            Verdict::DontTreat,
            &format!("{why}, and this is above what is advised"),
        )
        .with_limit(format!("{} km/h", advice.wind_stop_kmh), Whose::Advice)
        .with_source(VICTORIA),
        Limit::NoneKnown { why } => {
            let common = advice.wind_common_mph;
            about(
                Verdict::Unknown,
                &format!("{why}; {common} mph is common advice"),
            )
            .with_source(PRACTICE)
        }
        Limit::Label { mph: most, entered } => {
            let share = f64::from(advice.wind_near_percent) / 100.0;
            let finding = if mph > most * SAME {
                about(Verdict::DontTreat, "above the label's limit")
            } else if drifts_when_calm(inputs.label.method)
                && measured.calmest_mph < kmh_in_mph(f64::from(advice.wind_calm_kmh))
            {
                let what = "calm: fine drops hang in the air and wander";
                return about(Verdict::Caution, what)
                    .with_limit(
                        format!("at least {} km/h", advice.wind_calm_kmh),
                        Whose::Advice,
                    )
                    .with_source(VICTORIA);
            } else if mph >= most * share {
                about(Verdict::Caution, "close to the label's limit")
            } else if mph >= stop_mph {
                return about(
                    Verdict::Caution,
                    "under the label's limit, above what is advised",
                )
                .with_limit(format!("{} km/h", advice.wind_stop_kmh), Whose::Advice)
                .with_source(VICTORIA);
            } else {
                about(Verdict::Clear, "under the label's limit")
            };
            finding.with_limit(entered.for_person(), Whose::Label)
        }
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
    let whence = format!("station {}, {age_min} min ago", report.station);
    let largest_mph = mph(&report.gust).map_or(mean, |gust| gust.max(mean));
    Some(Measured {
        largest_mph,
        calmest_mph: mean,
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
    let whence = "forecast for the time of the treatment".to_owned();
    Some(Measured {
        largest_mph,
        calmest_mph: largest_mph,
        age_min,
        whence,
        lacks: None,
    })
}

fn drifts_when_calm(method: Method) -> bool {
    matches!(method, Method::FoliarSpray | Method::Drench)
}

fn name_limit(finding: Finding, limit: &Limit<'_>) -> Finding {
    match limit {
        Limit::Label { entered, .. } => finding.with_limit(entered.for_person(), Whose::Label),
        Limit::NoneKnown { .. } | Limit::Unreadable { .. } => finding,
    }
}

/// The speed in the unit of the limit, so that the two can be compared at a glance; rounded up,
/// so that a value over the limit never shows as the limit itself.
fn speed_text(mph: f64, limit: &Limit<'_>) -> String {
    let metric =
        matches!(limit, Limit::Label { entered, .. } if entered.for_person().ends_with("km/h"));
    let (value, unit) = if metric {
        (
            Velocity::new::<mile_per_hour>(mph).get::<kilometer_per_hour>(),
            "km/h",
        )
    } else {
        (mph, "mph")
    };
    if value.is_finite() {
        format!("{:.1} {unit}", (value * 10.0 - 1e-6).ceil().max(0.0) / 10.0)
    } else {
        "73 mph or more".to_owned()
    }
}

pub(super) fn kmh_in_mph(kmh: f64) -> f64 {
    Velocity::new::<kilometer_per_hour>(kmh).get::<mile_per_hour>()
}
