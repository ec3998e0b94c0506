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

fn day(text: &str, least: &str, most: &str) -> DayAir {
    DayAir {
        day: text.parse().unwrap(),
        least: Entered::parse(least).unwrap(),
        most: Entered::parse(most).unwrap(),
    }
}

#[test]
fn days_that_are_missing_are_named_and_the_sum_is_at_least() {
    let base = Entered::parse("50 F").unwrap();
    let start = "2026-04-01".parse().unwrap();
    // 4.444 and 26.667 °C are 40 and 80 °F to within what is typed.
    let days = [
        day("2026-04-04", "4.444 C", "26.667 C"),
        day("2026-04-01", "40 F", "80 F"),
        day("2026-03-31", "99 F", "99 F"),
    ];
    let sum = degree_days(&days, base, start, None).unwrap();
    assert!((sum.value.single_sine - 24.36).abs() < 0.01);
    assert!((sum.value.simple_average - 20.0).abs() < 0.01);
    let missing: Vec<String> = sum.value.missing.iter().map(ToString::to_string).collect();
    assert_eq!(missing, ["2026-04-02", "2026-04-03"]);
    assert!(sum.value.is_at_least());
    assert!(sum.working.notes.contains(&Note::DaysMissing { count: 2 }));
    let later = degree_days(&days, base, start, "2026-04-06".parse().ok())
        .unwrap()
        .value;
    assert_eq!(later.missing.len(), 4);
    let whole = degree_days(&days[1..2], base, start, None).unwrap();
    assert!(!whole.value.is_at_least());
    assert!(whole.working.inputs.contains(&("base", "50 °F".into())));
    assert!(
        whole
            .working
            .inputs
            .contains(&("start", "2026-04-01".into()))
    );
}

#[test]
fn temperatures_that_cannot_be_are_refused_by_day() {
    let base = Entered::parse("10 C").unwrap();
    let start = "2026-04-01".parse().unwrap();
    let refused = |days: &[DayAir]| degree_days(days, base, start, None).unwrap_err();
    let turned = refused(&[day("2026-04-02", "80 F", "10 C")]);
    assert!(
        turned.to_string().starts_with("2026-04-02: the lowest"),
        "{turned}"
    );
    let hot = refused(&[day("2026-04-02", "10 C", "61 C")]);
    assert!(hot.to_string().starts_with("2026-04-02: 61 °C"), "{hot}");
    let weight = refused(&[day("2026-04-02", "10 lb", "20 lb")]);
    assert!(weight.to_string().starts_with("2026-04-02: "), "{weight}");
    let one = day("2026-04-02", "10 C", "20 C");
    assert!(matches!(refused(&[one, one]), RuleError::DayTwice { .. }));
    assert!(matches!(refused(&[]), RuleError::NoDays));
    let before = day("2026-03-02", "10 C", "20 C");
    assert!(matches!(
        refused(&[before]),
        RuleError::EndBeforeStart { .. }
    ));
    let until = "2026-04-05".parse().ok();
    let none = degree_days(&[before], base, start, until).unwrap_err();
    assert!(matches!(none, RuleError::NoDays), "{none}");
    let year_on = day("2027-04-02", "10 C", "20 C");
    assert!(matches!(
        refused(&[one, year_on]),
        RuleError::TooMany { .. }
    ));
    let far = "9999-01-01".parse().ok();
    assert!(degree_days(&[one], base, start, far).is_err());
    let ell = Entered::parse("10 ft").unwrap();
    let no_base = degree_days(&[one], ell, start, None).unwrap_err();
    assert!(
        no_base.to_string().starts_with("the base temperature: "),
        "{no_base}"
    );
}

#[test]
fn few_of_one_worm_are_never_few_of_both() {
    let yard = Entered::parse("9 ft2").unwrap();
    let drench = |count| {
        let sample = Sample {
            method: SampleMethod::Area(yard),
            count,
        };
        density(&vec![sample; 4]).unwrap().unwrap().value
    };
    for pest in [Pest::Armyworm, Pest::Cutworm] {
        let threshold = threshold_for(pest)[0];
        let none = drench(0);
        let decided = decide(Some(&none), Some(threshold));
        assert_eq!(decided.decision, Decision::Watch);
        assert!(matches!(decided.reason, Because::Below(_)));
        assert!(decided.notes.contains(&Note::CountedTogether));
        assert_eq!(
            more_samples(Some(&none), Some(threshold)).value,
            More::NotKnown {
                because: MoreUnknown::CountedTogether
            }
        );
        // Many of one are many of both.
        let many = decide(Some(&drench(12)), Some(threshold)).decision;
        assert_eq!(many, Decision::TreatingMayPay);
    }
    let alone = threshold_for(Pest::SodWebworm)[0];
    assert_eq!(
        decide(Some(&drench(0)), Some(alone)).decision,
        Decision::Leave
    );
}

#[test]
fn more_samples_are_not_made_up_where_it_cannot_be_said() {
    let japanese = threshold_for(Pest::JapaneseBeetle)[0];
    let chinch = threshold_for(Pest::ChinchBug)[1];
    let look = |counts: &[u32]| {
        let samples: Vec<Sample> = counts.iter().map(|c| sod("6 in", *c)).collect();
        density(&samples).unwrap().unwrap().value
    };
    let because =
        |density: Option<&Density>, threshold| match more_samples(density, threshold).value {
            More::NotKnown { because } => because,
            said => panic!("{said:?}"),
        };
    assert_eq!(because(None, Some(japanese)), MoreUnknown::NoSample);
    assert_eq!(
        because(Some(&look(&[1])), Some(japanese)),
        MoreUnknown::OneSample
    );
    assert_eq!(because(Some(&look(&[1])), None), MoreUnknown::NoThreshold);
    // 12 per ft², within 8 to 15.
    assert_eq!(
        because(Some(&look(&[3, 3, 3])), Some(japanese)),
        MoreUnknown::BetweenLimits
    );
    // 15.2 per ft² against 15: hundreds would be needed.
    assert_eq!(
        because(Some(&look(&[4, 4, 4, 4, 3])), Some(chinch)),
        MoreUnknown::TooMany
    );
}

#[test]
fn mortality_that_cannot_be_is_refused() {
    let counts = |check_dead, check_total, treated_dead, treated_total| DeadOf {
        check_dead,
        check_total,
        treated_dead,
        treated_total,
    };
    let refused = |c| schneider_orelli(c).unwrap_err();
    for (undefined, missing) in [
        (counts(0, 0, 1, 2), "looked at in the check"),
        (counts(0, 5, 0, 0), "looked at when treated"),
        (counts(5, 5, 1, 2), "what lives in the check"),
    ] {
        assert!(
            refused(undefined).to_string().contains(missing),
            "{missing}"
        );
    }
    let more_dead = refused(counts(1, 5, 3, 2)).to_string();
    assert!(
        more_dead.starts_with("dead when treated is 3 / 2"),
        "{more_dead}"
    );
}

#[test]
fn where_no_pest_is_left_full_control_is_not_ruled_out() {
    let counts = BeforeAfter {
        treated_before: 30,
        treated_after: 0,
        check_before: 28,
        check_after: 26,
    };
    let answer = henderson_tilton(counts).unwrap();
    let interval = answer.value.interval.unwrap();
    assert_eq!(
        (answer.value.percent, interval.upper_percent),
        (100.0, 100.0)
    );
    // One half added to each: 100 (1 - 0.5·28.5 / (30.5·26.5) · exp(1.96 √variance)).
    assert!((interval.lower_percent - 69.701_297_926_803_89).abs() < 1e-9);
    assert!(answer.working.notes.contains(&Note::HalfAdded));
    let held_none = henderson_tilton(BeforeAfter {
        check_before: 0,
        ..counts
    })
    .unwrap();
    assert_eq!(held_none.value.interval, None);
    assert!(held_none.working.notes.contains(&Note::CheckHeldNone));
}

proptest! {
    #[test]
    fn the_interval_holds_the_mean_and_more_counts_never_lower_it(
        count in 0_u32..40, samples in 1_usize..12,
    ) {
        // Alike, so that how much they differ plays no part.
        let look = |count| density(&vec![sod("6 in", count); samples]).unwrap().unwrap().value;
        let (d, m) = (look(count), look(count + 1));
        prop_assert!(d.lower_per_ft2 <= d.mean_per_ft2 && d.mean_per_ft2 < d.upper_per_ft2);
        prop_assert!(m.lower_per_ft2 > d.lower_per_ft2 && m.upper_per_ft2 > d.upper_per_ft2);
        for threshold in thresholds() {
            let rank = |density: &Density| decide(Some(density), Some(threshold)).decision as u8;
            prop_assert!(rank(&m) >= rank(&d));
        }
    }

    #[test]
    fn samples_that_differ_more_never_make_a_count_surer(
        counts in proptest::collection::vec(0_u32..40, 2..12),
    ) {
        let samples: Vec<Sample> = counts.iter().map(|c| sod("6 in", *c)).collect();
        let found = density(&samples).unwrap().unwrap();
        let d = found.value;
        prop_assert!(d.lower_per_ft2 <= d.mean_per_ft2 && d.mean_per_ft2 < d.upper_per_ft2);
        // The same total as one sample of the same size in all.
        let area = Entered::parse(&format!("{} ft2", 0.25 * f64::from(u32::try_from(counts.len()).unwrap()))).unwrap();
        let count = counts.iter().sum();
        let plain = density(&[Sample { method: SampleMethod::Area(area), count }]).unwrap().unwrap().value;
        let near = 1e-9 * (1.0 + plain.upper_per_ft2);
        prop_assert!(d.lower_per_ft2 <= plain.lower_per_ft2 + near);
        prop_assert!(d.upper_per_ft2 >= plain.upper_per_ft2 - near);
        let is_named = found.working.notes.iter().any(|n| matches!(n, Note::MoreThanChance { .. }));
        prop_assert_eq!(is_named, d.dispersion.is_some_and(|d| d > 1.0));
    }

    #[test]
    fn more_samples_are_said_only_where_the_count_does_not_decide(
        counts in proptest::collection::vec(0_u32..12, 2..8), which in 0_usize..13,
    ) {
        let samples: Vec<Sample> = counts.iter().map(|c| sod("6 in", *c)).collect();
        let d = density(&samples).unwrap().unwrap().value;
        let threshold = &thresholds()[which];
        let now = decide(Some(&d), Some(threshold)).decision;
        match more_samples(Some(&d), Some(threshold)).value {
            More::None => prop_assert!(now != Decision::Watch),
            More::Samples { samples, toward } => {
                prop_assert_eq!(now, Decision::Watch);
                prop_assert!((1..=more::MORE_MOST).contains(&samples));
                let is_above = d.mean_per_ft2 >= threshold.most_per_ft2;
                prop_assert_eq!(toward == Decision::TreatingMayPay, is_above);
                prop_assert!(toward != Decision::Watch && toward != Decision::Unknown);
            }
            More::NotKnown { .. } => prop_assert_eq!(now, Decision::Watch),
        }
    }

    #[test]
    fn corrected_mortality_is_abbott_on_the_survivors(
        check in 1_u32..200, treated in 0_u32..200,
    ) {
        let counts = DeadOf {
            check_dead: 200 - check, check_total: 200,
            treated_dead: 200 - treated, treated_total: 200,
        };
        let left = schneider_orelli(counts).unwrap().value;
        let right = abbott_percent(f64::from(check), f64::from(treated)).unwrap().value;
        prop_assert!((left.percent - right).abs() <= 1e-9 * (1.0 + right.abs()));
        let interval = left.interval.unwrap();
        prop_assert!(interval.lower_percent <= left.percent + 1e-9);
        prop_assert!(left.percent <= interval.upper_percent + 1e-9);
    }

    #[test]
    fn a_warmer_day_or_a_lower_base_never_has_fewer_degree_days(
        least in -20.0_f64..90.0, swing in 0.0_f64..50.0, base in 30.0_f64..60.0, more in 0.0_f64..20.0,
    ) {
        let most = least + swing;
        let sum = single_sine(least, most, base);
        let average = (f64::midpoint(least, most) - base).max(0.0);
        prop_assert!(sum >= average - 1e-9 && sum <= (most - base).max(0.0) + 1e-9);
        prop_assert!(single_sine(least, most + more, base) >= sum - 1e-9);
        prop_assert!(single_sine(least, most, base - more) >= sum - 1e-9);
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
        let left = henderson_tilton(counts).unwrap().value;
        let right = abbott(check, treated).unwrap().value;
        prop_assert!((left.percent - right.percent).abs() <= 1e-9 * (1.0 + right.percent.abs()));
        prop_assert!(left.percent <= 100.0);
        // Two more counts, each with its own chance, never make it surer.
        let (left, right) = (left.interval.unwrap(), right.interval.unwrap());
        prop_assert!(left.lower_percent <= right.lower_percent);
        prop_assert!(left.upper_percent >= right.upper_percent || treated == 0);
    }
}
