//! Corner cases of counting and deciding.

use proptest::prelude::*;

use super::*;
use crate::error::RuleError;
use crate::note::Note;
use crate::quantity::Entered;

fn sod(side: &str, count: u32) -> Sample {
    Sample {
        method: SampleMethod::SodSquare(Entered::parse(side).unwrap()),
        count,
    }
}

#[test]
fn no_sample_is_not_none_found() {
    assert_eq!(density(&[]).unwrap(), None);
    let none_found = density(&[sod("6 in", 0)]).unwrap().unwrap();
    assert_eq!(none_found.value.count, 0);
    assert!(none_found.value.upper_per_ft2 > 14.0);
    let decided = decide(None, threshold_for(Pest::JapaneseBeetle).first().copied());
    assert_eq!(decided.decision, Decision::Unknown);
    assert!(decided.notes.contains(&Note::AskExtension));
}

#[test]
fn sizes_that_are_no_sample_are_refused() {
    for side in ["0 in", "100 ft", "0.1 mm"] {
        let error = density(&[sod("6 in", 1), sod(side, 1)]).unwrap_err();
        assert!(error.to_string().starts_with("sample 2: "), "{error}");
    }
    let weight = SampleMethod::SodSquare(Entered::parse("6 lb").unwrap());
    assert!(matches!(per_ft2(&weight), Err(RuleError::WrongKind { .. })));
}

#[test]
fn counts_nobody_could_make_are_refused() {
    assert!(density(&[sod("6 in", 100_000)]).is_ok());
    assert!(density(&[sod("6 in", 100_000), sod("6 in", 1)]).is_err());
    assert!(density(&[sod("6 in", u32::MAX), sod("6 in", u32::MAX)]).is_err());
    assert!(density(&vec![sod("6 in", 0); 1_001]).is_err());
}

#[test]
fn a_single_sample_is_allowed_and_named() {
    let one = density(&[sod("1 ft", 100)]).unwrap().unwrap();
    assert!(one.working.notes.contains(&Note::OneSample));
    let threshold = threshold_for(Pest::JapaneseBeetle)[0];
    let decided = decide(Some(&one.value), Some(threshold));
    assert_eq!(decided.decision, Decision::TreatingMayPay);
    assert!(decided.notes.contains(&Note::OneSample));
}

#[test]
fn a_density_that_is_none_decides_nothing() {
    let threshold = threshold_for(Pest::WhiteGrub)[0];
    let sound = density(&[sod("6 in", 9)]).unwrap().unwrap().value;
    for broken in [f64::NAN, f64::INFINITY, -1.0] {
        let density = Density {
            mean_per_ft2: broken,
            ..sound.clone()
        };
        assert_eq!(
            decide(Some(&density), Some(threshold)).decision,
            Decision::Unknown
        );
    }
}

#[test]
fn abbott_refuses_what_is_no_count() {
    for (check, treated) in [
        (f64::NAN, 1.0),
        (1.0, f64::INFINITY),
        (-1.0, 1.0),
        (1.0, -1.0),
    ] {
        let error = abbott_percent(check, treated).unwrap_err();
        assert!(matches!(error, RuleError::NotAllowed { .. }), "{error}");
    }
}

proptest! {
    #[test]
    fn the_interval_holds_the_mean_and_more_counts_never_lower_it(
        counts in proptest::collection::vec(0_u32..40, 1..12),
    ) {
        let samples: Vec<Sample> = counts.iter().map(|c| sod("6 in", *c)).collect();
        let d = density(&samples).unwrap().unwrap().value;
        prop_assert!(d.lower_per_ft2 <= d.mean_per_ft2 && d.mean_per_ft2 < d.upper_per_ft2);
        let mut more = samples.clone();
        more[0].count += 1;
        let m = density(&more).unwrap().unwrap().value;
        prop_assert!(m.lower_per_ft2 > d.lower_per_ft2 && m.upper_per_ft2 > d.upper_per_ft2);
        for threshold in thresholds() {
            let rank = |density: &Density| decide(Some(density), Some(threshold)).decision as u8;
            prop_assert!(rank(&m) >= rank(&d));
        }
    }

    #[test]
    fn where_both_plots_began_alike_the_two_formulas_agree(
        before in 1_u32..500, treated in 0_u32..500, check in 1_u32..500,
    ) {
        let counts = BeforeAfter {
            treated_before: before,
            treated_after: treated,
            check_before: before,
            check_after: check,
        };
        let left = henderson_tilton_percent(counts).unwrap().value;
        let right = abbott_percent(f64::from(check), f64::from(treated)).unwrap().value;
        prop_assert!((left - right).abs() <= 1e-9 * (1.0 + right.abs()));
        prop_assert!(left <= 100.0);
    }
}
