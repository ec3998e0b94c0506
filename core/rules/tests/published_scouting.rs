//! Scouting values from outside the project: sample factors, thresholds, percent control.

use sward_rules::look::{
    BeforeAfter, DayAir, DeadOf, Decision, More, Pest, Sample, SampleMethod, abbott,
    abbott_percent, decide, degree_days, density, henderson_tilton, more_samples, per_ft2,
    schneider_orelli, single_sine, threshold_for, thresholds,
};
use sward_rules::{Entered, Note, RuleError};

fn entered(text: &str) -> Entered {
    Entered::parse(text).expect("a check value is an amount")
}

fn close(value: f64, expected: f64, within: f64) {
    assert!((value - expected).abs() <= within, "{value} for {expected}");
}

/// Computed from the areas of a square and circles.
#[test]
fn sample_factors() {
    let factor = |method| per_ft2(&method).expect("a sample's size");
    close(factor(SampleMethod::SodSquare(entered("6 in"))), 4.0, 1e-12);
    close(
        factor(SampleMethod::FloatingCan(entered("4 in"))),
        11.459,
        5e-4,
    );
    close(
        factor(SampleMethod::FloatingCan(entered("6 in"))),
        5.093,
        5e-4,
    );
    close(
        factor(SampleMethod::CupCutter(entered("4.25 in"))),
        10.151,
        5e-4,
    );
    // A square yard, on which a soap drench is poured (University of California, IPM).
    close(
        factor(SampleMethod::SoapDrench(entered("1 yd²"))),
        1.0 / 9.0,
        1e-12,
    );
}

/// University of Massachusetts Extension; University of California, IPM.
#[test]
fn thresholds_with_their_sources() {
    let umass = [
        (Pest::JapaneseBeetle, 8.0, 15.0),
        (Pest::OrientalBeetle, 8.0, 15.0),
        (Pest::MaskedChafer, 6.0, 15.0),
        (Pest::EuropeanChafer, 3.0, 8.0),
        (Pest::AsiaticGardenBeetle, 12.0, 20.0),
        (Pest::MayBeetle, 2.0, 4.0),
        (Pest::BlackTurfgrassAtaenius, 15.0, 80.0),
        (Pest::ChinchBug, 30.0, 50.0),
    ];
    for (pest, least, most) in umass {
        let of_umass = threshold_for(pest)
            .into_iter()
            .find(|t| t.source == "University of Massachusetts Extension")
            .expect("listed");
        close(of_umass.least_per_ft2, least, 0.0);
        close(of_umass.most_per_ft2, most, 0.0);
        let stage = if pest == Pest::ChinchBug {
            "nymphs"
        } else {
            "larvae"
        };
        assert_eq!(
            (of_umass.life_stage, of_umass.region),
            (stage, "Massachusetts")
        );
        assert_eq!(of_umass.published_per, "ft²");
    }
    for (pest, from) in [(Pest::ChinchBug, 15.0), (Pest::WhiteGrub, 6.0)] {
        let of_uc = threshold_for(pest)
            .into_iter()
            .find(|t| t.source == "University of California, IPM")
            .expect("listed");
        close(of_uc.least_per_ft2, from, 0.0);
        assert_eq!((of_uc.region, of_uc.published_per), ("California", "ft²"));
    }
    // Published for a square yard: 15 sod webworms, 5 armyworms and cutworms together.
    for (pest, per_yd2) in [
        (Pest::SodWebworm, 15.0),
        (Pest::Cutworm, 5.0),
        (Pest::Armyworm, 5.0),
    ] {
        // The University of Massachusetts Extension has no good estimate, so theirs is not made up.
        let [only] = threshold_for(pest)[..] else {
            panic!("{pest:?}: one source");
        };
        assert_eq!(only.source, "University of California, IPM");
        assert_eq!(only.published_per, "yd²");
        close(only.least_per_ft2 * 9.0, per_yd2, 1e-12);
        close(only.per_yd2().expect("per square yard"), per_yd2, 1e-12);
    }
    for pest in [Pest::MoleCricket, Pest::FireAnt, Pest::Billbug] {
        assert!(threshold_for(pest).is_empty());
    }
    assert!(
        thresholds()
            .iter()
            .all(|t| !t.source.is_empty() && t.least_per_ft2 <= t.most_per_ft2)
    );
}

#[test]
fn counts_above_between_and_below_a_threshold() {
    let threshold = threshold_for(Pest::JapaneseBeetle)[0];
    let look = |counts: &[u32]| {
        let square = SampleMethod::SodSquare(entered("6 in"));
        let samples: Vec<Sample> = counts
            .iter()
            .map(|c| Sample {
                method: square.clone(),
                count: *c,
            })
            .collect();
        let density = density(&samples)
            .expect("sound samples")
            .expect("some samples")
            .value;
        (
            density.mean_per_ft2,
            decide(Some(&density), Some(threshold)).decision,
        )
    };
    assert_eq!(look(&[4, 6, 5, 4, 7, 4]), (20.0, Decision::TreatingMayPay));
    assert_eq!(look(&[3, 2, 3, 4, 3, 3]), (12.0, Decision::Watch));
    assert_eq!(look(&[1, 0, 0, 1, 0, 1]), (2.0, Decision::Leave));
    assert_eq!(decide(None, Some(threshold)).decision, Decision::Unknown);
}

/// Abbott 1925, J. Econ. Entomol. 18, 265: check 50 % dead, treated 98 % dead.
#[test]
fn abbotts_example() {
    let control = abbott_percent(100.0 - 50.0, 100.0 - 98.0).expect("a check with survivors");
    close(control.value, 96.0, 1e-9);
    // Subtracting the shares, as is often done, would give 48 %.
    assert!((control.value - 48.0).abs() > 40.0);
    assert!(matches!(
        abbott_percent(0.0, 3.0),
        Err(RuleError::ControlUndefined { .. })
    ));
}

/// Henderson and Tilton 1955, J. Econ. Entomol. 48, 157; numbers computed.
#[test]
fn control_against_a_check() {
    let counts = |treated_before, treated_after, check_before, check_after| BeforeAfter {
        treated_before,
        treated_after,
        check_before,
        check_after,
    };
    let percent = |c| henderson_tilton(c).map(|answer| answer.value.percent);
    close(
        percent(counts(30, 6, 28, 26)).expect("defined"),
        78.4615,
        5e-5,
    );
    close(
        percent(counts(40, 50, 45, 30)).expect("defined"),
        -87.5,
        1e-9,
    );
    close(abbott(26, 6).expect("defined").value.percent, 76.9231, 5e-5);
    for undefined in [counts(0, 0, 28, 26), counts(30, 6, 28, 0)] {
        let error = percent(undefined).expect_err("nothing to divide by");
        assert!(
            matches!(error, RuleError::ControlUndefined { .. }),
            "{error}"
        );
    }
}

/// Intervals at 95 %: computed apart, in Python's floating point, from the delta method on the
/// logarithm of the ratio.
#[test]
fn intervals_of_control() {
    let interval = |control: sward_rules::look::Control| {
        let interval = control.interval.expect("defined");
        (interval.lower_percent, interval.upper_percent)
    };
    let check = |(lower, upper): (f64, f64), expected: (f64, f64)| {
        close(lower, expected.0, 1e-9);
        close(upper, expected.1, 1e-9);
    };
    let counts = |treated_before, treated_after, check_before, check_after| BeforeAfter {
        treated_before,
        treated_after,
        check_before,
        check_after,
    };
    let of = |c| interval(henderson_tilton(c).expect("defined").value);
    check(
        of(counts(30, 6, 28, 26)),
        (39.893_818_247_056_94, 92.281_903_259_957_57),
    );
    check(
        of(counts(40, 50, 45, 30)),
        (-249.077_215_652_013_8, -0.711_958_339_459_117_8),
    );
    check(
        interval(abbott(26, 6).expect("defined").value),
        (43.934_424_307_052_19, 90.501_401_758_276_94),
    );
}

/// Abbott's own example as dead of a hundred each (1925): 50 and 98 are corrected to 96. The second
/// is computed. Schneider-Orelli's formula is from memory; it is Abbott's on the survivors.
#[test]
fn corrected_mortality() {
    let of = |check_dead, treated_dead| {
        let counts = DeadOf {
            check_dead,
            check_total: 100,
            treated_dead,
            treated_total: 100,
        };
        schneider_orelli(counts).expect("defined").value
    };
    for ((check, treated), percent, (lower, upper)) in [
        (
            (50, 98),
            96.0,
            (84.006_247_368_330_46, 98.999_609_386_960_37),
        ),
        (
            (10, 80),
            77.777_777_777_777_77,
            (66.934_427_388_101_91, 85.065_216_734_923_02),
        ),
    ] {
        let control = of(check, treated);
        close(control.percent, percent, 1e-9);
        let interval = control.interval.expect("defined");
        close(interval.lower_percent, lower, 1e-9);
        close(interval.upper_percent, upper, 1e-9);
    }
    assert!(of(50, 20).percent < 0.0);
}

/// Computed with one half added to each number: where nobody died, or nobody lived, few animals
/// still leave much open.
#[test]
fn corrected_mortality_of_few_is_never_sure() {
    let check_total = 20;
    for (check_dead, treated_dead, lower, upper) in [
        (0, 0, -9.906_844_404_783_065, 9.013_855_741_591_946),
        (0, 18, 60.888_385_722_924_16, 96.197_523_366_037_98),
        (0, 20, 62.248_556_017_906_93, 100.0),
        // No number is zero: nothing is added.
        (2, 16, 45.961_007_624_949_66, 90.861_651_211_656_82),
    ] {
        let answer = schneider_orelli(DeadOf {
            check_dead,
            check_total,
            treated_dead,
            treated_total: 20,
        })
        .expect("defined");
        let interval = answer.value.interval.expect("defined");
        close(interval.lower_percent, lower, 1e-9);
        close(interval.upper_percent, upper, 1e-9);
        let is_noted = answer.working.notes.contains(&Note::HalfAdded);
        assert_eq!(is_noted, check_dead == 0);
    }
}

/// Computed: base 50 °F, no upper cut-off.
#[test]
fn degree_days_by_single_sine() {
    close(single_sine(40.0, 80.0, 50.0), 12.18, 5e-3);
    close(single_sine(45.0, 75.0, 50.0), 10.8816, 5e-5);
    // Above the base all day: the plain mean.
    close(single_sine(55.0, 75.0, 50.0), 15.0, 1e-12);
    close(single_sine(30.0, 50.0, 50.0), 0.0, 0.0);
    let day = |text: &str, least, most| DayAir {
        day: text.parse().expect("a day"),
        least: entered(least),
        most: entered(most),
    };
    let days = [
        day("2026-04-01", "40 F", "80 F"),
        day("2026-04-02", "45 F", "75 F"),
    ];
    let start = days[0].day;
    let sum = degree_days(&days, entered("50 F"), start, None)
        .expect("sound days")
        .value;
    close(sum.single_sine, 12.18 + 10.8816, 5e-3);
    // By the mean of lowest and highest, as other sources sum: 10 a day.
    close(sum.simple_average, 20.0, 1e-9);
    assert_eq!((sum.base.as_str(), sum.start), ("50 °F", start));
    // The same air in °C to a base of 10 °C is five ninths of it.
    let celsius = degree_days(&days, entered("10 C"), start, None)
        .expect("sound days")
        .value;
    close(celsius.single_sine, sum.single_sine * 5.0 / 9.0, 1e-6);
}

/// Bounds of the mean of a count: Garwood 1936; the values are those of a gamma function of 40
/// digits. Ten found in ten samples of a square foot.
#[test]
fn intervals_of_density() {
    let look = |counts: &[u32]| {
        let method = SampleMethod::SodSquare(entered("1 ft"));
        let samples: Vec<Sample> = counts
            .iter()
            .map(|count| Sample {
                method: method.clone(),
                count: *count,
            })
            .collect();
        density(&samples).expect("sound").expect("samples").value
    };
    let even = look(&[1; 10]);
    close(even.lower_per_ft2, 0.479_538_869_613_243, 1e-9);
    close(even.upper_per_ft2, 1.839_035_604_201_78, 1e-9);
    assert_eq!(even.dispersion, Some(0.0));
    // All in one sample: chi-square 90 over 9 is a dispersion of 10, so that each bound lies √10
    // times as far on the log scale.
    let patch = look(&[10, 0, 0, 0, 0, 0, 0, 0, 0, 0]);
    close(patch.dispersion.expect("some found"), 10.0, 1e-9);
    let root = 10_f64.sqrt();
    close(
        patch.lower_per_ft2,
        0.479_538_869_613_243_f64.powf(root),
        1e-9,
    );
    close(
        patch.upper_per_ft2,
        1.839_035_604_201_78_f64.powf(root),
        1e-9,
    );
    close(patch.mean_per_ft2, 1.0, 1e-12);
}

/// Worked out by hand from Garwood's table: at 2 per 6 in square (8 per ft²), European chafers'
/// 3 to 8 is passed once the lower bound is at 3.
#[test]
fn more_samples_decide() {
    let threshold = threshold_for(Pest::EuropeanChafer)[0];
    let method = SampleMethod::SodSquare(entered("6 in"));
    let look = |samples: usize| {
        let sample = Sample {
            method: method.clone(),
            count: 2,
        };
        density(&vec![sample; samples])
            .expect("sound")
            .expect("samples")
            .value
    };
    // Four found on half a square foot: at least 1.0899 in all, which is 2.18 per ft².
    let two = look(2);
    assert_eq!(
        decide(Some(&two), Some(threshold)).decision,
        Decision::Watch
    );
    let said = more_samples(Some(&two), Some(threshold)).value;
    let More::Samples { samples, toward } = said else {
        panic!("{said:?}");
    };
    assert_eq!(toward, Decision::TreatingMayPay);
    let more = usize::try_from(samples).expect("few");
    assert_eq!(
        decide(Some(&look(2 + more)), Some(threshold)).decision,
        toward
    );
    assert_eq!(
        decide(Some(&look(1 + more)), Some(threshold)).decision,
        Decision::Watch
    );
}
