//! Scouting values from outside the project: sample factors, thresholds, percent control.

use sward_rules::look::{
    BeforeAfter, Decision, Pest, Sample, SampleMethod, abbott_percent, decide, density,
    henderson_tilton_percent, per_ft2, threshold_for, thresholds,
};
use sward_rules::{Entered, RuleError};

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
        (Pest::ChinchBug, 30.0, 50.0),
    ];
    for (pest, least, most) in umass {
        let of_umass = threshold_for(pest)
            .into_iter()
            .find(|t| t.source == "University of Massachusetts Extension")
            .expect("listed");
        close(of_umass.least_per_ft2, least, 0.0);
        close(of_umass.most_per_ft2, most, 0.0);
    }
    for (pest, from) in [(Pest::ChinchBug, 15.0), (Pest::WhiteGrub, 6.0)] {
        let of_uc = threshold_for(pest)
            .into_iter()
            .find(|t| t.source == "University of California, IPM")
            .expect("listed");
        close(of_uc.least_per_ft2, from, 0.0);
    }
    // No good estimate exists (University of Massachusetts Extension), so none is made up.
    assert!(threshold_for(Pest::SodWebworm).is_empty());
    assert!(threshold_for(Pest::Cutworm).is_empty());
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
fn abbott() {
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
fn henderson_tilton() {
    let counts = |treated_before, treated_after, check_before, check_after| BeforeAfter {
        treated_before,
        treated_after,
        check_before,
        check_after,
    };
    let percent = |c| henderson_tilton_percent(c).map(|answer| answer.value);
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
    close(
        abbott_percent(26.0, 6.0).expect("defined").value,
        76.9231,
        5e-5,
    );
    for undefined in [counts(0, 0, 28, 26), counts(30, 6, 28, 0)] {
        let error = percent(undefined).expect_err("nothing to divide by");
        assert!(
            matches!(error, RuleError::ControlUndefined { .. }),
            "{error}"
        );
    }
}
