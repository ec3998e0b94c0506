//! Rain in the label's window, the air, what a person sees, and when it may open next.

use super::*;

fn rain(label: &Label, forecast: &Forecast) -> Finding {
    let advice = SkyAdvice::default();
    let mut inputs = SkyInputs::new(label, NOW, &advice);
    inputs.forecast = Some(forecast);
    find(Check::Rain, &inputs)
}

/// Rain in the hour that starts so many hours from now.
fn rain_in(hour: usize, percent: f64, mm: f64) -> Forecast {
    let (mut chances, mut amounts) = ([0.0; 24], [0.0; 24]);
    (chances[hour + 1], amounts[hour + 1]) = (percent, mm);
    Forecast {
        rain_chance_percent: hourly(&chances),
        rain_mm: hourly(&amounts),
        ..fair()
    }
}

#[test]
fn rain_is_held_against_amount_and_chance() {
    let label = label(Method::Granule);
    let verdict = |percent, mm| rain(&label, &rain_in(3, percent, mm)).verdict;
    assert_eq!(verdict(50.0, 0.25), Verdict::DontTreat);
    assert_eq!(verdict(49.0, 0.25), Verdict::Caution);
    assert_eq!(verdict(50.0, 0.24), Verdict::Caution);
    assert_eq!(verdict(20.0, 0.0), Verdict::Caution);
    assert_eq!(verdict(0.0, 0.01), Verdict::Caution);
    assert_eq!(verdict(19.0, 0.0), Verdict::Clear);
}

#[test]
fn the_window_is_the_treatment_and_the_labels_time_after_it() {
    let label = label(Method::Granule);
    // An hour's treatment and six hours dry: hours 0 to 6 count, hour 7 does not.
    assert_eq!(
        rain(&label, &rain_in(6, 90.0, 5.0)).verdict,
        Verdict::DontTreat
    );
    assert_eq!(rain(&label, &rain_in(7, 90.0, 5.0)).verdict, Verdict::Clear);
}

#[test]
fn amounts_add_up_and_a_step_that_touches_counts_whole() {
    let label = label(Method::Granule);
    let mut amounts = [0.0; 24];
    amounts[2..5].fill(0.1);
    let forecast = Forecast {
        rain_chance_percent: hourly(&[60.0; 24]),
        rain_mm: hourly(&amounts),
        ..fair()
    };
    assert_eq!(rain(&label, &forecast).verdict, Verdict::DontTreat);
    let from_utc_ms = NOW.utc_ms + 6 * HOUR_MS;
    let long = Step {
        from_utc_ms,
        to_utc_ms: from_utc_ms + 12 * HOUR_MS,
        value: Some(0.3),
    };
    let mut steps = hourly(&[0.0; 7]).steps().to_vec();
    steps.push(long);
    let forecast = Forecast {
        rain_mm: Layer::new(steps),
        ..forecast
    };
    assert_eq!(rain(&label, &forecast).verdict, Verdict::DontTreat);
}

#[test]
fn a_forecast_that_is_old_short_or_has_gaps_is_unknown() {
    let label = label(Method::Granule);
    let unknown = |forecast: &Forecast, word: &str| {
        let finding = rain(&label, forecast);
        assert_eq!(finding.verdict, Verdict::Unknown, "{}", finding.why());
        assert!(finding.why().contains(word), "{}", finding.why());
    };
    unknown(
        &Forecast {
            updated_utc_ms: NOW.utc_ms - 13 * HOUR_MS,
            ..fair()
        },
        "13 h old",
    );
    unknown(
        &Forecast {
            updated_utc_ms: NOW.utc_ms + 2 * HOUR_MS,
            ..fair()
        },
        "still to come",
    );
    unknown(
        &Forecast {
            rain_mm: hourly(&[0.0; 7]),
            ..fair()
        },
        "ends before",
    );
    unknown(
        &Forecast {
            rain_chance_percent: Layer::default(),
            ..fair()
        },
        "no chance",
    );
    let mut gap = hourly(&[0.0; 24]).steps().to_vec();
    gap.remove(4);
    unknown(
        &Forecast {
            rain_mm: Layer::new(gap.clone()),
            ..fair()
        },
        "gap",
    );
    gap[4].value = None;
    unknown(
        &Forecast {
            rain_mm: Layer::new(gap),
            ..fair()
        },
        "gap",
    );
    let yesterday: Vec<Step> = hourly(&[0.0; 10])
        .steps()
        .iter()
        .map(|s| Step {
            from_utc_ms: s.from_utc_ms - 34 * HOUR_MS,
            to_utc_ms: s.to_utc_ms - 34 * HOUR_MS,
            ..*s
        })
        .collect();
    unknown(
        &Forecast {
            rain_chance_percent: Layer::new(yesterday),
            ..fair()
        },
        "ended 25 h ago",
    );
    // Bad news in the part that is there still is bad news.
    let short = Forecast {
        rain_chance_percent: hourly(&[80.0; 4]),
        rain_mm: hourly(&[1.0; 4]),
        ..fair()
    };
    assert_eq!(rain(&label, &short).verdict, Verdict::DontTreat);
}

#[test]
fn a_silent_label_still_is_not_applied_during_rain() {
    let mut label = label(Method::Granule);
    label.rain_free = LabelSays::Nothing;
    assert_eq!(
        rain(&label, &rain_in(1, 90.0, 5.0)).verdict,
        Verdict::DontTreat
    );
    assert_eq!(rain(&label, &rain_in(2, 90.0, 5.0)).verdict, Verdict::Clear);
    label.rain_free = value("0 h");
    assert_eq!(
        rain(&label, &rain_in(1, 90.0, 5.0)).verdict,
        Verdict::DontTreat
    );
    for says in [LabelSays::Unfilled, value("6 lb")] {
        label.rain_free = says;
        assert_eq!(rain(&label, &fair()).verdict, Verdict::Unknown);
    }
}

fn air(temperature: &str, humidity_percent: Option<u8>, age_min: i64) -> AirReading {
    let at_utc_ms = NOW.utc_ms - age_min * MIN_MS;
    AirReading {
        at_utc_ms,
        temperature: entered(temperature),
        humidity_percent,
    }
}

fn with_air(check: Check, label: &Label, air: &AirReading) -> Verdict {
    let advice = SkyAdvice::default();
    let mut inputs = SkyInputs::new(label, NOW, &advice);
    inputs.air = Some(air);
    verdict(check, &inputs)
}

#[test]
fn temperature_is_held_against_both_ends() {
    let label = label(Method::Granule);
    let at = |t| with_air(Check::Temperature, &label, &air(t, None, 0));
    assert_eq!(at("65 F"), Verdict::Clear);
    assert_eq!(at("40 F"), Verdict::Caution);
    assert_eq!(at("39.9 F"), Verdict::DontTreat);
    assert_eq!(at("84 F"), Verdict::Caution);
    assert_eq!(at("29.4444 Cel"), Verdict::Caution);
    assert_eq!(at("30 Cel"), Verdict::DontTreat);
    assert_eq!(at("65 mph"), Verdict::Unknown);
    assert_eq!(
        with_air(Check::Temperature, &label, &air("65 F", None, 31)),
        Verdict::Unknown
    );
}

#[test]
fn a_silent_label_has_no_temperature_to_check_and_an_empty_one_is_unknown() {
    let mut label = label(Method::Granule);
    label.temperature_least = LabelSays::Nothing;
    assert_eq!(
        with_air(Check::Temperature, &label, &air("20 F", None, 0)),
        Verdict::Clear
    );
    label.temperature_most = LabelSays::Nothing;
    let advice = SkyAdvice::default();
    assert_eq!(
        verdict(Check::Temperature, &SkyInputs::new(&label, NOW, &advice)),
        Verdict::Clear
    );
    label.temperature_most = LabelSays::Unfilled;
    assert_eq!(
        with_air(Check::Temperature, &label, &air("65 F", None, 0)),
        Verdict::Unknown
    );
    label.temperature_least = value("40 F");
    assert_eq!(
        with_air(Check::Temperature, &label, &air("39 F", None, 0)),
        Verdict::DontTreat
    );
}

#[test]
fn a_far_thermometer_forbids_but_never_clears() {
    let (label, advice) = (label(Method::Granule), SkyAdvice::default());
    let report =
        |t| StationReport::parse(&format!("KXYZ 150751Z 32004KT 10SM CLR {t} A2992")).unwrap();
    let nothing = SkyInputs::new(&label, NOW, &advice);
    for (station, expected) in [("20/10", Verdict::Unknown), ("31/10", Verdict::DontTreat)] {
        let station = report(station);
        let inputs = SkyInputs {
            station: Some(&station),
            ..nothing
        };
        assert_eq!(verdict(Check::Temperature, &inputs), expected);
    }
}

#[test]
fn drying_speed_has_bands_entered_early() {
    let label = label(Method::FoliarSpray);
    let at = |t, rh| with_air(Check::DryingSpeed, &label, &air(t, rh, 0));
    assert_eq!(at("20 Cel", Some(50)), Verdict::Clear);
    // The two published methods lie on both sides of a band's edge here; either way it is care.
    assert_eq!(at("30 Cel", Some(50)), Verdict::Caution);
    assert_eq!(at("15 Cel", Some(80)), Verdict::Caution);
    assert_eq!(at("25 Cel", Some(40)), Verdict::Caution);
    assert_eq!(at("35 Cel", Some(30)), Verdict::DontTreat);
    assert_eq!(at("20 Cel", None), Verdict::Unknown);
    assert_eq!(at("20 Cel", Some(4)), Verdict::Unknown);
    assert_eq!(at("20 Cel", Some(100)), Verdict::Unknown);
    assert_eq!(at("51 Cel", Some(50)), Verdict::Unknown);
}

#[test]
fn what_a_person_sees_of_an_inversion_soil_and_blooms() {
    let (label, advice) = (label(Method::FoliarSpray), SkyAdvice::default());
    let nothing = SkyInputs::new(&label, NOW, &advice);
    let at_utc_ms = NOW.utc_ms;
    for (signs, expected) in [
        // Where the yard lies is not known, so it may be evening.
        (vec![], Verdict::Caution),
        (vec![InversionSign::Dew], Verdict::Caution),
        (
            vec![InversionSign::Dew, InversionSign::StillAir],
            Verdict::Unknown,
        ),
        (
            vec![InversionSign::Dew, InversionSign::HangingSmoke],
            Verdict::DontTreat,
        ),
        (vec![InversionSign::Fog], Verdict::DontTreat),
    ] {
        let look = InversionLook { at_utc_ms, signs };
        let inputs = SkyInputs {
            inversion: Some(&look),
            ..nothing
        };
        assert_eq!(verdict(Check::Inversion, &inputs), expected);
        let old = InversionLook {
            at_utc_ms: at_utc_ms - 31 * MIN_MS,
            ..look.clone()
        };
        let inputs = SkyInputs {
            inversion: Some(&old),
            ..nothing
        };
        assert_eq!(verdict(Check::Inversion, &inputs), Verdict::Unknown);
    }
    for (soil, expected) in [
        (Soil::Fit, Verdict::Clear),
        (Soil::DustDry, Verdict::Caution),
        (Soil::Soaked, Verdict::DontTreat),
        (Soil::Frozen, Verdict::DontTreat),
        (Soil::DroughtDormant, Verdict::Caution),
    ] {
        let look = SoilLook {
            at_utc_ms,
            soil,
            temperature: None,
        };
        let inputs = SkyInputs {
            soil: Some(&look),
            ..nothing
        };
        assert_eq!(verdict(Check::Soil, &inputs), expected);
    }
    for (bloom, expected) in [
        (Bloom::None, Verdict::Clear),
        (Bloom::Beside, Verdict::Caution),
        (Bloom::OnLawn, Verdict::DontTreat),
    ] {
        let look = BloomLook { at_utc_ms, bloom };
        let inputs = SkyInputs {
            bloom: Some(&look),
            ..nothing
        };
        assert_eq!(verdict(Check::Bloom, &inputs), expected);
    }
}

#[test]
fn the_next_window_waits_for_wind_and_rain() {
    let (mut label, advice) = (label(Method::Granule), SkyAdvice::default());
    let mut gusts = [12.0; 24];
    gusts[..6].fill(25.0);
    gusts[12..].fill(25.0);
    let mut forecast = Forecast {
        gust_kmh: hourly(&gusts),
        ..fair()
    };
    let next = |label: &Label, forecast: &Forecast| {
        let mut inputs = SkyInputs::new(label, NOW, &advice);
        inputs.forecast = Some(forecast);
        match next_window(&inputs) {
            NextWindow::MayOpen {
                from_utc_ms,
                to_utc_ms,
                ..
            } => {
                let hours = |ms: i64| (ms - NOW.utc_ms) / HOUR_MS;
                Ok((hours(from_utc_ms), hours(to_utc_ms)))
            }
            NextWindow::NotSeen { reasons } => Err(crate::finding::in_english(&reasons)),
        }
    };
    // The layers start an hour ago: gusts fall below the limit in hour 5 and rise again in hour 11.
    assert_eq!(next(&label, &forecast), Ok((5, 11)));
    let (mut chances, mut amounts) = ([0.0; 24], [0.0; 24]);
    (chances[9], amounts[9]) = (80.0, 2.0);
    forecast.rain_chance_percent = hourly(&chances);
    forecast.rain_mm = hourly(&amounts);
    assert_eq!(next(&label, &forecast), Ok((9, 11)));
    label.temperature_most = value("60 F");
    assert!(next(&label, &forecast).unwrap_err().contains("temperature"));
    label.temperature_most = LabelSays::Unfilled;
    assert_eq!(next(&label, &forecast), Ok((9, 11)));
    label.wind_most = LabelSays::Unfilled;
    assert_eq!(next(&label, &forecast), Ok((9, 11)));
    forecast.gust_kmh = hourly(&[25.0; 24]);
    assert!(next(&label, &forecast).unwrap_err().contains("h of wind"));
    forecast.gust_kmh = Layer::default();
    assert!(
        next(&label, &forecast)
            .unwrap_err()
            .contains("forecast ends")
    );
    label.rain_free = LabelSays::Unfilled;
    assert!(next(&label, &fair()).unwrap_err().contains("not filled in"));
    assert!(matches!(
        next_window(&SkyInputs::new(&label, NOW, &advice)),
        NextWindow::NotSeen { .. }
    ));
}
