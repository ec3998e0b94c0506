//! The sky's findings: corner cases, and that taking data away never makes one look better.

mod applies;
mod down_wind;
mod fewer;
mod height;
mod inversion;
mod rain_and_air;
mod wind;

use super::*;
use crate::keep_off::Now;
use crate::label::{KeepOffTerms, LabelSays, Method};
use crate::quantity::Entered;

const HOUR_MS: i64 = 60 * MIN_MS;
const NOW: Now = Now {
    utc_ms: 500_000 * HOUR_MS,
    proven: true,
};

fn entered(text: &str) -> Entered {
    Entered::parse(text).unwrap()
}

fn value(text: &str) -> LabelSays<Entered> {
    LabelSays::Value(entered(text))
}

/// Wind to 10 mph, dry for 6 h, 40 to 85 °F.
fn label(method: Method) -> Label {
    Label {
        product: "Invented Lawn Product".to_owned(),
        registration: "00000-0".to_owned(),
        method,
        ingredients: Vec::new(),
        rate_least: LabelSays::Nothing,
        rate_most: LabelSays::Unfilled,
        carrier_least: LabelSays::Nothing,
        wind_most: value("10 mph"),
        rain_free: value("6 h"),
        temperature_least: value("40 F"),
        temperature_most: value("85 F"),
        keep_off: KeepOffTerms::default(),
        watering_in: LabelSays::Nothing,
        repeat_after: LabelSays::Nothing,
    }
}

/// Readings a minute apart up to now, each with a gust, at the height of weather reports.
fn readings(winds_and_gusts: &[(&str, &str)]) -> Vec<MeterReading> {
    let count = i64::try_from(winds_and_gusts.len()).unwrap();
    (0..count)
        .zip(winds_and_gusts)
        .map(|(i, (wind, gust))| MeterReading {
            at_utc_ms: NOW.utc_ms - (count - 1 - i) * MIN_MS,
            wind: entered(wind),
            gust: Some(entered(gust)),
            from_degrees: Some(320),
            height: Some(entered("10 m")),
        })
        .collect()
}

/// Hourly values from an hour ago on.
fn hourly(values: &[f64]) -> Layer {
    Layer::new(
        (-1..)
            .zip(values)
            .map(|(hour, value)| Step {
                from_utc_ms: NOW.utc_ms + hour * HOUR_MS,
                to_utc_ms: NOW.utc_ms + (hour + 1) * HOUR_MS,
                value: Some(*value),
            })
            .collect(),
    )
}

/// A day of light wind, 20 °C and no rain.
fn fair() -> Forecast {
    Forecast {
        updated_utc_ms: NOW.utc_ms - 2 * HOUR_MS,
        wind_kmh: hourly(&[8.0; 24]),
        gust_kmh: hourly(&[12.0; 24]),
        wind_from_degrees: hourly(&[320.0; 24]),
        humidity_percent: hourly(&[50.0; 24]),
        temperature_c: hourly(&[20.0; 24]),
        rain_chance_percent: hourly(&[0.0; 24]),
        rain_mm: hourly(&[0.0; 24]),
        cloud_percent: hourly(&[30.0; 24]),
    }
}

fn find(check: Check, inputs: &SkyInputs<'_>) -> Finding {
    outlook(inputs)
        .into_iter()
        .find(|f| f.check == check)
        .expect("the check is listed")
}

fn verdict(check: Check, inputs: &SkyInputs<'_>) -> Verdict {
    find(check, inputs).verdict
}

#[test]
fn nothing_looked_at_is_unknown_by_name_for_every_method() {
    let advice = SkyAdvice::default();
    for method in [
        Method::Granule,
        Method::FoliarSpray,
        Method::Drench,
        Method::Bait,
    ] {
        let label = label(method);
        let found = outlook(&SkyInputs::new(&label, NOW, &advice));
        assert_eq!(
            found.iter().map(|f| f.check).collect::<Vec<_>>(),
            which_checks(method)
        );
        assert!(
            found
                .iter()
                .all(|f| f.verdict == Verdict::Unknown && !f.why().is_empty())
        );
    }
}

#[test]
fn without_a_proven_time_no_reading_clears_anything() {
    let (label, advice) = (label(Method::FoliarSpray), SkyAdvice::default());
    let (meter, forecast) = (readings(&[("5 mph", "6 mph"); 3]), fair());
    let air = AirReading {
        at_utc_ms: NOW.utc_ms,
        temperature: entered("68 F"),
        humidity_percent: Some(50),
    };
    let mut inputs = SkyInputs::new(&label, NOW, &advice);
    inputs.yard_wind = Some(YardWind::Meter(&meter));
    inputs.forecast = Some(&forecast);
    inputs.air = Some(&air);
    for check in [
        Check::Wind,
        Check::Rain,
        Check::Temperature,
        Check::DryingSpeed,
    ] {
        assert_eq!(verdict(check, &inputs), Verdict::Clear, "{check:?}");
    }
    inputs.now.proven = false;
    assert!(
        outlook(&inputs)
            .iter()
            .all(|f| f.verdict == Verdict::Unknown)
    );
    assert!(matches!(next_window(&inputs), NextWindow::NotSeen { .. }));
}
