//! The height of a meter: it may raise a wind, and never lowers one.

use proptest::prelude::*;

use super::*;

fn at_height(series: &[(&str, &str)], height: Option<&str>) -> Finding {
    let (label, advice) = (label(Method::Granule), SkyAdvice::default());
    let series: Vec<_> = readings(series)
        .into_iter()
        .map(|r| MeterReading {
            height: height.map(entered),
            ..r
        })
        .collect();
    let mut inputs = SkyInputs::new(&label, NOW, &advice);
    inputs.yard_wind = Some(YardWind::Meter(&series));
    find(Check::Wind, &inputs)
}

#[test]
fn the_height_is_said_and_may_raise_the_wind() {
    // 7 mph at 5 ft may be 10.4 mph at 10 m: over the label's 10 mph, if it means that height.
    let wind = [("6 mph", "7 mph"); 3];
    let finding = at_height(&wind, Some("5 ft"));
    assert_eq!(finding.verdict, Verdict::Caution);
    assert!(
        finding.why().contains("10.4 mph at 33 ft"),
        "{}",
        finding.why()
    );
    assert!(finding.why().contains("held at 5 ft"), "{}", finding.why());
    assert_eq!(at_height(&wind, Some("10 m")).verdict, Verdict::Clear);
    assert_eq!(at_height(&wind, Some("60 ft")).verdict, Verdict::Clear);
    // Nobody noted it: the lowest is assumed.
    let finding = at_height(&wind, None);
    assert_eq!(finding.verdict, Verdict::Caution);
    assert!(
        finding.why().contains("3 ft is assumed"),
        "{}",
        finding.why()
    );
    assert_eq!(
        at_height(&[("5 mph", "5.5 mph"); 3], None).verdict,
        Verdict::Clear
    );
}

#[test]
fn a_profile_never_lowers_a_wind() {
    let strong = [("9 mph", "11 mph"); 3];
    for height in [Some("100 ft"), Some("10 m"), Some("3 ft"), None] {
        assert_eq!(
            at_height(&strong, height).verdict,
            Verdict::DontTreat,
            "{height:?}"
        );
    }
    let raised = wind_at_10_m_mph(&entered("11 mph"), Some(&entered("100 ft")));
    assert!((raised.unwrap().value - 11.0).abs() < 1e-9);
}

#[test]
fn heights_and_winds_that_cannot_be_are_refused() {
    for height in ["1 ft", "0 ft", "101 ft", "5 lb", "5 mph"] {
        let finding = at_height(&[("5 mph", "6 mph"); 3], Some(height));
        assert_eq!(finding.verdict, Verdict::Unknown, "{height}");
        let error = wind_at_10_m_mph(&entered("5 mph"), Some(&entered(height))).unwrap_err();
        assert!(error.to_string().contains("height"), "{error}");
    }
    for wind in ["200 mph", "135 mph", "5 lb"] {
        let error = must_be_wind(&entered(wind)).unwrap_err().to_string();
        assert!(error.starts_with("the wind"), "{error}");
    }
    assert!(must_be_wind(&entered("134 mph")).is_ok());
}

#[test]
fn a_gust_counts_however_the_meter_was_held() {
    let mut series = readings(&[("5 mph", "6 mph"), ("5 mph", "14 mph"), ("5 mph", "6 mph")]);
    series[1].height = Some(entered("1 ft"));
    let sum = summarise(&series, NOW, &SkyAdvice::default()).unwrap();
    assert_eq!(sum.count, 3);
    assert_eq!(sum.gust_mph.map(f64::round), Some(14.0));
    // Taken for the lowest that a meter is held.
    let raised = wind_at_10_m_mph(&entered("14 mph"), None).unwrap().value;
    assert!((sum.at_10_m_mph - raised).abs() < 1e-9);
    assert_eq!(sum.height, None);
    let given = entered("1 ft");
    assert_eq!(sum.lacks, Some(Reason::MeterHeightUnusable { given }));
    // Above the label's 10 mph, which no doubt about the height takes back.
    let (label, advice) = (label(Method::FoliarSpray), SkyAdvice::default());
    let wind = |series: &[MeterReading]| {
        let inputs = SkyInputs {
            yard_wind: Some(YardWind::Meter(series)),
            ..SkyInputs::new(&label, NOW, &advice)
        };
        find(Check::Wind, &inputs)
    };
    assert_eq!(wind(&series).verdict, Verdict::DontTreat);
    series[1].gust = Some(entered("6 mph"));
    let doubtful = wind(&series);
    assert_eq!(doubtful.verdict, Verdict::Unknown);
    assert_eq!(doubtful.reason, Reason::MeterHeightUnusable { given });
}

#[test]
fn a_low_meter_among_high_ones_is_named() {
    let mut series = readings(&[("5 mph", "6 mph"); 3]);
    series[1].height = Some(entered("2 m"));
    let sum = summarise(&series, NOW, &SkyAdvice::default()).unwrap();
    assert_eq!(sum.height, Some(entered("2 m")));
    assert!(sum.at_10_m_mph > sum.largest_mph);
    series[1].height = None;
    assert_eq!(
        summarise(&series, NOW, &SkyAdvice::default())
            .unwrap()
            .height,
        None
    );
}

proptest! {
    #[test]
    fn the_lower_the_meter_the_higher_the_estimate(
        tenths in 1_u32..1_300, low_in in 36_u32..1_200, more_in in 0_u32..600,
    ) {
        let speed = entered(&format!("{}.{} mph", tenths / 10, tenths % 10));
        let high_in = (low_in + more_in).min(1_200);
        let at = |inches: u32| {
            wind_at_10_m_mph(&speed, Some(&entered(&format!("{inches} in")))).unwrap().value
        };
        let unnoted = wind_at_10_m_mph(&speed, None).unwrap().value;
        let measured = f64::from(tenths) / 10.0;
        prop_assert!(at(low_in) >= at(high_in) && at(high_in) >= measured - 1e-9);
        prop_assert!(unnoted >= at(low_in) - 1e-9);
    }
}
