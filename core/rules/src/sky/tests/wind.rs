//! The wind at the yard against the label's limit.

use super::*;
use crate::finding::Whose;

fn by_meter(label: &Label, series: &[MeterReading]) -> Finding {
    let advice = SkyAdvice::default();
    let mut inputs = SkyInputs::new(label, NOW, &advice);
    inputs.yard_wind = Some(YardWind::Meter(series));
    find(Check::Wind, &inputs)
}

fn by_force(force: u8, age_min: i64, method: Method) -> Finding {
    let (label, advice) = (label(method), SkyAdvice::default());
    let seen = BeaufortSeen {
        at_utc_ms: NOW.utc_ms - age_min * MIN_MS,
        force,
    };
    let mut inputs = SkyInputs::new(&label, NOW, &advice);
    inputs.yard_wind = Some(YardWind::Seen(&seen));
    find(Check::Wind, &inputs)
}

#[test]
fn the_larger_of_mean_and_gust_is_held_against_the_limit() {
    let label = label(Method::Granule);
    let verdict = |series: &[(&str, &str)]| by_meter(&label, &readings(series)).verdict;
    assert_eq!(verdict(&[("5 mph", "7 mph"); 3]), Verdict::Clear);
    assert_eq!(verdict(&[("5 mph", "8 mph"); 3]), Verdict::Caution);
    assert_eq!(verdict(&[("5 mph", "10 mph"); 3]), Verdict::Caution);
    assert_eq!(verdict(&[("5 mph", "10.1 mph"); 3]), Verdict::DontTreat);
    // One reading over the limit is a gust, whatever was noted as one.
    assert_eq!(
        verdict(&[("5 mph", "6 mph"), ("11 mph", "6 mph"), ("5 mph", "6 mph")]),
        Verdict::DontTreat
    );
}

#[test]
fn one_speed_in_two_units_is_not_above_itself() {
    let mut label = label(Method::Granule);
    label.wind_most = value("16.09344 km/h");
    let finding = by_meter(&label, &readings(&[("10 mph", "10 mph"); 3]));
    assert_eq!(finding.verdict, Verdict::Caution, "{}", finding.why());
    assert_eq!(
        finding.value.map(|v| v.to_string()).as_deref(),
        Some("16.1 km/h")
    );
}

#[test]
fn a_value_over_the_limit_never_shows_as_the_limit() {
    let finding = by_meter(
        &label(Method::Granule),
        &readings(&[("10.01 mph", "10.01 mph"); 3]),
    );
    assert_eq!(finding.verdict, Verdict::DontTreat);
    assert_eq!(
        finding.value.map(|v| v.to_string()).as_deref(),
        Some("10.1 mph")
    );
    assert_eq!(
        (
            finding.limit.map(|l| l.to_string()).as_deref(),
            finding.whose
        ),
        (Some("10 mph"), Whose::Label)
    );
}

#[test]
fn a_series_must_be_long_enough_and_have_a_gust() {
    let label = label(Method::Granule);
    let fine = readings(&[("5 mph", "6 mph"); 3]);
    assert_eq!(by_meter(&label, &fine).verdict, Verdict::Clear);
    assert_eq!(by_meter(&label, &fine[1..]).verdict, Verdict::Unknown);
    let at_once: Vec<_> = fine
        .iter()
        .map(|r| MeterReading {
            at_utc_ms: NOW.utc_ms,
            ..r.clone()
        })
        .collect();
    assert_eq!(by_meter(&label, &at_once).verdict, Verdict::Unknown);
    let no_gust: Vec<_> = fine
        .iter()
        .map(|r| MeterReading {
            gust: None,
            ..r.clone()
        })
        .collect();
    let finding = by_meter(&label, &no_gust);
    assert_eq!(finding.verdict, Verdict::Unknown);
    assert!(finding.why().contains("no gust"), "{}", finding.why());
    // What is bad already needs no more readings.
    assert_eq!(
        by_meter(&label, &readings(&[("14 mph", "20 mph")])).verdict,
        Verdict::DontTreat
    );
}

#[test]
fn old_early_and_impossible_readings_do_not_count() {
    let label = label(Method::Granule);
    let moved = |by_ms: i64| -> Vec<MeterReading> {
        readings(&[("5 mph", "6 mph"); 3])
            .into_iter()
            .map(|r| MeterReading {
                at_utc_ms: r.at_utc_ms + by_ms,
                ..r
            })
            .collect()
    };
    assert_eq!(
        by_meter(&label, &moved(-8 * MIN_MS)).verdict,
        Verdict::Clear
    );
    assert_eq!(
        by_meter(&label, &moved(-9 * MIN_MS)).verdict,
        Verdict::Unknown
    );
    assert_eq!(
        by_meter(&label, &moved(-30 * MIN_MS)).verdict,
        Verdict::Unknown
    );
    assert_eq!(
        by_meter(&label, &moved(5 * MIN_MS)).verdict,
        Verdict::Unknown
    );
    assert_eq!(by_meter(&label, &[]).verdict, Verdict::Unknown);
    for odd in [
        MeterReading {
            wind: entered("5 lb"),
            ..moved(0)[0].clone()
        },
        MeterReading {
            from_degrees: Some(361),
            ..moved(0)[0].clone()
        },
        MeterReading {
            at_utc_ms: i64::MAX,
            ..moved(0)[0].clone()
        },
    ] {
        let mut series = moved(0);
        series.push(odd);
        assert_eq!(by_meter(&label, &series).verdict, Verdict::Unknown);
    }
}

#[test]
fn calm_is_a_risk_for_sprays_only() {
    let calm = readings(&[("1 mph", "2 mph"); 3]);
    for (method, expected) in [
        (Method::FoliarSpray, Verdict::Caution),
        (Method::Drench, Verdict::Caution),
        (Method::Granule, Verdict::Clear),
        (Method::Bait, Verdict::Clear),
    ] {
        assert_eq!(
            by_meter(&label(method), &calm).verdict,
            expected,
            "{method:?}"
        );
    }
}

#[test]
fn without_a_limit_the_wind_is_unknown_and_common_advice_is_named() {
    for says in [LabelSays::Unfilled, LabelSays::Nothing] {
        let mut label = label(Method::Granule);
        label.wind_most = says;
        let light = by_meter(&label, &readings(&[("4 mph", "5 mph"); 3]));
        assert_eq!(
            (light.verdict, light.whose),
            (Verdict::Unknown, Whose::Nobody)
        );
        assert!(
            light.why().contains("10 mph is common advice"),
            "{}",
            light.why()
        );
        let strong = by_meter(&label, &readings(&[("11 mph", "13 mph"); 3]));
        assert_eq!(
            (strong.verdict, strong.whose),
            (Verdict::DontTreat, Whose::Advice)
        );
    }
    let mut label = label(Method::Granule);
    label.wind_most = value("10 lb");
    assert_eq!(
        by_meter(&label, &readings(&[("4 mph", "5 mph"); 3])).verdict,
        Verdict::Unknown
    );
}

#[test]
fn above_what_is_advised_asks_for_care_even_under_a_generous_label() {
    let mut label = label(Method::Granule);
    label.wind_most = value("25 mph");
    let finding = by_meter(&label, &readings(&[("13 mph", "15 mph"); 3]));
    assert_eq!(
        (finding.verdict, finding.whose),
        (Verdict::Caution, Whose::Advice)
    );
}

#[test]
fn an_estimate_counts_as_its_upper_end() {
    assert_eq!(by_force(2, 0, Method::Granule).verdict, Verdict::Clear);
    assert_eq!(by_force(3, 0, Method::Granule).verdict, Verdict::DontTreat);
    assert_eq!(by_force(12, 0, Method::Granule).verdict, Verdict::DontTreat);
    assert_eq!(
        by_force(1, 0, Method::FoliarSpray).verdict,
        Verdict::Caution
    );
    assert_eq!(by_force(2, 11, Method::Granule).verdict, Verdict::Unknown);
    assert_eq!(by_force(13, 0, Method::Granule).verdict, Verdict::Unknown);
}

#[test]
fn a_station_or_forecast_alone_forbids_but_never_clears() {
    let (label, advice) = (label(Method::Granule), SkyAdvice::default());
    // 500,000 hours after 1970 is 08:00 on a 15th.
    let station = |wind| StationReport::parse(&format!("KXYZ 150751Z {wind} 10SM CLR 20/10 A2992"));
    let (light, strong) = (station("32004KT").unwrap(), station("32012G20KT").unwrap());
    let fine = readings(&[("5 mph", "6 mph"); 3]);

    let mut inputs = SkyInputs::new(&label, NOW, &advice);
    inputs.station = Some(&light);
    assert_eq!(verdict(Check::Wind, &inputs), Verdict::Unknown);
    inputs.station = Some(&strong);
    let finding = find(Check::Wind, &inputs);
    assert_eq!(
        (finding.verdict, finding.age_min),
        (Verdict::DontTreat, Some(9))
    );
    inputs.yard_wind = Some(YardWind::Meter(&fine));
    assert_eq!(verdict(Check::Wind, &inputs), Verdict::Clear);

    let nothing = SkyInputs::new(&label, NOW, &advice);
    let by = |forecast: &Forecast| {
        verdict(
            Check::Wind,
            &SkyInputs {
                forecast: Some(forecast),
                ..nothing
            },
        )
    };
    assert_eq!(by(&fair()), Verdict::Unknown);
    let gusty = Forecast {
        gust_kmh: hourly(&[30.0; 24]),
        ..fair()
    };
    assert_eq!(by(&gusty), Verdict::DontTreat);
    let old = Forecast {
        updated_utc_ms: NOW.utc_ms - 13 * HOUR_MS,
        ..gusty
    };
    assert_eq!(by(&old), Verdict::Unknown);
}

#[test]
fn a_series_is_summed_up_with_its_direction() {
    let mut series = readings(&[("4 mph", "6 mph"), ("5 mph", "9 mph"), ("6 mph", "7 mph")]);
    for (reading, degrees) in series.iter_mut().zip([350, 10, 360]) {
        reading.from_degrees = Some(degrees);
    }
    let sum = summarise(&series, NOW, &SkyAdvice::default()).unwrap();
    assert!((sum.mean_mph - 5.0).abs() < 1e-9);
    assert!((sum.largest_mph - 9.0).abs() < 1e-9);
    assert_eq!((sum.count, sum.span_s, sum.age_min), (3, 120, 0));
    assert_eq!((sum.from_degrees, sum.lacks), (Some(360), None));
    for (reading, degrees) in series.iter_mut().zip([0, 120, 240]) {
        reading.from_degrees = Some(degrees);
    }
    let sum = summarise(&series, NOW, &SkyAdvice::default()).unwrap();
    assert_eq!(sum.from_degrees, None);
}
