//! The temperature finding: the air at the yard against the label's least and most.
//!
//! As with wind, a station or forecast can only forbid. A label that a person read and that sets no
//! limit leaves nothing to check; for wind that would not do, since drift harms whatever it says.

use uom::si::f64::ThermodynamicTemperature;
use uom::si::thermodynamic_temperature::degree_celsius;

use super::{SkyInputs, age_min};
use crate::finding::{Check, Finding, LabelField, Reason, Shown, Source, Verdict, Whose};
use crate::label::LabelSays;
use crate::quantity::{Entered, Unit, near};

/// Two conversions of one temperature may differ in the last bits; that is not beyond a limit.
const SAME_C: f64 = 1e-6;

/// One end of the label's range.
enum End<'a> {
    At(f64, &'a Entered),
    None,
    Unknown(Reason),
}

struct Range<'a> {
    least: End<'a>,
    most: End<'a>,
}

pub(super) fn finding(inputs: &SkyInputs<'_>) -> Finding {
    let range = range_of(inputs);
    if matches!((&range.least, &range.most), (End::None, End::None)) {
        return Finding::new(
            Check::Temperature,
            Verdict::Clear,
            Reason::LabelSetsNoTemperature,
        );
    }
    match at_yard(inputs) {
        Ok((celsius, age_min)) => hold(celsius, &Reason::AtYard, &range, inputs)
            .with_value(both_scales(celsius))
            .with_age_min(age_min),
        Err(why) => far_and_bad(inputs, &range)
            .unwrap_or_else(|| limits(Finding::unknown(Check::Temperature, why), &range)),
    }
}

/// Whether a temperature is beyond the label's limits, as far as they are filled in. For looking
/// ahead, where an empty field has its own finding already.
pub(super) fn is_beyond(celsius: f64, inputs: &SkyInputs<'_>) -> bool {
    beyond(celsius, &range_of(inputs)).is_some()
}

/// Whether the label sets a temperature at all.
pub(super) fn has_limit(inputs: &SkyInputs<'_>) -> bool {
    let label = inputs.label;
    label.temperature_least.value().is_some() || label.temperature_most.value().is_some()
}

fn range_of<'a>(inputs: &SkyInputs<'a>) -> Range<'a> {
    let end = |says: &'a LabelSays<Entered>, field| match says {
        LabelSays::Unfilled => End::Unknown(Reason::LabelFieldEmpty { field }),
        LabelSays::Nothing => End::None,
        LabelSays::Value(entered) => match entered.to_temperature() {
            Ok(t) => End::At(t.get::<degree_celsius>(), entered),
            Err(_) => End::Unknown(Reason::LabelFieldUnusable {
                field,
                given: *entered,
            }),
        },
    };
    Range {
        least: end(
            &inputs.label.temperature_least,
            LabelField::TemperatureLeast,
        ),
        most: end(&inputs.label.temperature_most, LabelField::TemperatureMost),
    }
}

fn at_yard(inputs: &SkyInputs<'_>) -> Result<(f64, u32), Reason> {
    let Some(air) = inputs.air else {
        return Err(Reason::AirNotMeasured);
    };
    let age_min = age_min(air.at_utc_ms, inputs.now)?;
    if age_min > inputs.advice.air_age_most_min {
        return Err(Reason::AirMeasuredTooLongAgo { age_min });
    }
    let celsius = air
        .temperature
        .to_temperature()
        .map_err(|_| Reason::AirReadingUnusable {
            given: air.temperature,
        })?;
    Ok((celsius.get::<degree_celsius>(), age_min))
}

fn beyond(celsius: f64, range: &Range<'_>) -> Option<Reason> {
    match (&range.least, &range.most) {
        (End::At(least, _), _) if celsius < least - SAME_C => Some(Reason::TemperatureBelowLabel),
        (_, End::At(most, _)) if celsius > most + SAME_C => Some(Reason::TemperatureAboveLabel),
        _ => None,
    }
}

fn hold(celsius: f64, whence: &Reason, range: &Range<'_>, inputs: &SkyInputs<'_>) -> Finding {
    let about = |verdict, what| {
        let finding = Finding::new(Check::Temperature, verdict, what);
        limits(finding.and(whence.clone()), range)
    };
    if let Some(what) = beyond(celsius, range) {
        return about(Verdict::DontTreat, what);
    }
    for end in [&range.least, &range.most] {
        if let End::Unknown(why) = end {
            return about(Verdict::Unknown, why.clone());
        }
    }
    let near = f64::from(inputs.advice.temperature_near_c) + SAME_C;
    let is_near = |end: &End<'_>| matches!(end, End::At(at, _) if (celsius - at).abs() <= near);
    if is_near(&range.least) || is_near(&range.most) {
        return about(Verdict::Caution, Reason::TemperatureNearLabel).with_source(Source::Practice);
    }
    about(Verdict::Clear, Reason::TemperatureWithinLabel)
}

fn far_and_bad(inputs: &SkyInputs<'_>, range: &Range<'_>) -> Option<Finding> {
    let (from, to) = (
        inputs.now.utc_ms,
        inputs.now.utc_ms.saturating_add(inputs.job_ms()),
    );
    let station = inputs.station.and_then(|report| {
        let age_min = age_min(report.at_utc_ms(from).ok()?, inputs.now).unwrap_or(0);
        let celsius = report
            .temperature
            .as_ref()?
            .to_temperature()
            .ok()?
            .get::<degree_celsius>();
        let is_fresh = age_min <= inputs.advice.station_age_most_min;
        is_fresh.then(|| {
            let station = report.station.clone();
            (celsius, age_min, Reason::ByStation { station, age_min })
        })
    });
    let forecast = inputs.forecast.into_iter().flat_map(|forecast| {
        let age_min = forecast.age_min(inputs.now, inputs.advice).ok();
        let steps = forecast.temperature_c.touching(from, to);
        steps.filter_map(move |c| Some((c, age_min?, Reason::ByForecast)))
    });
    station
        .into_iter()
        .chain(forecast)
        .find_map(|(celsius, age_min, whence)| {
            beyond(celsius, range)?;
            let finding = hold(celsius, &whence, range, inputs);
            Some(
                finding
                    .with_value(both_scales(celsius))
                    .with_age_min(age_min),
            )
        })
}

fn limits(finding: Finding, range: &Range<'_>) -> Finding {
    let limit = match (&range.least, &range.most) {
        (End::At(_, least), End::At(_, most)) => Shown::Between {
            least: **least,
            most: **most,
        },
        (End::At(_, least), _) => Shown::AtLeast { least: **least },
        (_, End::At(_, most)) => Shown::AtMost { most: **most },
        _ => return finding,
    };
    finding.with_limit(limit, Whose::Label)
}

fn both_scales(celsius: f64) -> Shown {
    let (fahrenheit, celsius) = scales(ThermodynamicTemperature::new::<degree_celsius>(celsius));
    Shown::BothScales {
        fahrenheit,
        celsius,
    }
}

/// A temperature in °F and °C, to a tenth.
pub(super) fn scales(temperature: ThermodynamicTemperature) -> (Entered, Entered) {
    let celsius = temperature.get::<degree_celsius>();
    (
        near(celsius * 1.8 + 32.0, 1, Unit::FAHRENHEIT),
        near(celsius, 1, Unit::CELSIUS),
    )
}
