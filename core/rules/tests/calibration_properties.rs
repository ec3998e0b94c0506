//! What holds for every calibration, whatever was weighed, caught or timed.

use proptest::prelude::*;
use rust_decimal::Decimal;
use sward_rules::calibrate::{
    Calibrated, CalibrationAdvice, CatchBoxes, DropletClass, LabelDrops, NozzleCatches, PaceRuns,
    Part, Person, SetUp, StripRun, TimedCatch, Travel, Tried, Weighed, acre_128th_course,
    acre_128th_rate, boom_rate, calibration_findings, course_time, droplets_finding, evenness,
    evenness_finding, flow_at_pressure, nozzle_test, pace, pattern, pressure_for_flow,
    rate_found_finding, setting_to_try, spray_rate, strip_length, strip_rate, svg_points, text_bar,
    timed_rate, two_people_finding,
};
use sward_rules::finding::sum;
use sward_rules::label::LabelSays;
use sward_rules::plan::{Passes, Rest, for_the_rest};
use sward_rules::{Entered, RuleError, Verdict};

fn e(text: &str) -> Entered {
    Entered::parse(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

fn number(entered: &Entered) -> f64 {
    entered.amount().to_string().parse().expect("a number")
}

/// Hundredths with a unit.
fn amount(hundredths: u32, unit: &str) -> Entered {
    e(&format!("{} {unit}", Decimal::new(hundredths.into(), 2)))
}

/// Anything that can be typed, in any unit.
fn any_amount() -> impl Strategy<Value = Entered> {
    let units = prop::sample::select(vec![
        "ft",
        "in",
        "m",
        "lb",
        "oz",
        "kg",
        "fl oz",
        "gal",
        "mL",
        "s",
        "min",
        "h",
        "mph",
        "ft2",
        "acre",
        "psi",
        "%",
        "lb/1000 ft2",
        "lb/acre",
        "gal/acre",
        "fl oz/1000 ft2",
        "gal/min",
        "oz/s",
        "F",
        "lb/gal",
    ]);
    let numbers = prop_oneof![
        Just(0_u64),
        1_u64..1_000_000,
        900_000_000_000_u64..999_999_999_999,
    ];
    (numbers, 0_u32..=12, units).prop_map(|(digits, scale, unit)| {
        e(&format!(
            "{} {unit}",
            Decimal::from_i128_with_scale(digits.into(), scale)
        ))
    })
}

fn row() -> impl Strategy<Value = Vec<Entered>> {
    (
        2_usize..12,
        prop::collection::vec(0_u32..5_000, 25),
        1_u32..5_000,
    )
        .prop_map(|(half, mut catches, middle)| {
            catches.truncate(2 * half + 1);
            catches[half] = middle;
            catches.into_iter().map(|c| amount(c, "g")).collect()
        })
}

fn boxes(catches: &[Entered]) -> CatchBoxes<'_> {
    CatchBoxes {
        spacing: e("1 ft"),
        catches,
    }
}

fn part() -> impl Strategy<Value = Part<'static>> {
    prop::sample::select(vec![
        Part::NotKnown,
        Part::None,
        Part::Is("one"),
        Part::Is("other"),
        Part::Is(" "),
    ])
}

fn set_up() -> impl Strategy<Value = SetUp<'static>> {
    let swath = prop::option::of(prop::sample::select(vec![e("8 ft"), e("96 in"), e("9 ft")]));
    (part(), part(), part(), part(), part(), swath).prop_map(
        |(product, operator, machine, wheel, nozzle, swath)| SetUp {
            product,
            operator,
            machine,
            wheel,
            nozzle,
            swath,
        },
    )
}

proptest! {
    #[test]
    fn what_was_used_is_the_rate_times_the_area(
        start in 2_u32..1_000_000, share in 0_u32..100, length in 100_u32..100_000, swath in 10_u32..5_000,
    ) {
        let left = u32::try_from(u64::from(start) * u64::from(share) / 100).unwrap();
        let run = StripRun {
            weighed: Weighed::StartAndLeft { start: amount(start, "lb"), left: amount(left, "lb") },
            length: amount(length, "ft"),
            swath: amount(swath, "ft"),
        };
        let found = strip_rate(&run, None).unwrap().value;
        let area = number(&amount(length, "ft")) * number(&amount(swath, "ft"));
        let used = f64::from(start - left) / 100.0;
        prop_assert!((number(&found.rate) * area / 1000.0 - used).abs() <= used * 1e-6);
        // A strip for the same area is as long as this one.
        let again = strip_length(&found.area, &run.swath).unwrap().value;
        prop_assert!((number(&again) - number(&run.length)).abs() <= number(&run.length) * 1e-6);
    }

    #[test]
    fn nothing_above_the_labels_most_is_ever_clear(
        found in 1_u32..2_000, wanted in 1_u32..2_000, most in 1_u32..2_000,
    ) {
        let unit = "lb/1000 ft2";
        let (found_at, wanted_at) = (amount(found, unit), amount(wanted, unit));
        let most_at = LabelSays::Value(amount(most, unit));
        let finding = rate_found_finding(&found_at, &wanted_at, &most_at, Passes::One).unwrap();
        prop_assert_eq!(finding.verdict == Verdict::DontTreat, found > most);
        let twice = rate_found_finding(&found_at, &wanted_at, &most_at, Passes::HalfSwath);
        prop_assert_eq!(twice.unwrap().verdict == Verdict::DontTreat, 2 * found > most);
        if finding.verdict == Verdict::Clear {
            prop_assert!(20 * found.abs_diff(wanted) <= wanted);
        }
        for silent in [LabelSays::Unfilled, LabelSays::Nothing] {
            let finding = rate_found_finding(&found_at, &wanted_at, &silent, Passes::One).unwrap();
            prop_assert_eq!(finding.verdict, Verdict::Unknown);
        }
    }

    #[test]
    fn a_setting_to_try_never_gives_more_than_is_wanted(
        first in 1_u32..200, second in 1_u32..200, slope in 1_u32..50, base in 1_u32..300, wanted in 1_u32..10_000,
    ) {
        prop_assume!(first != second);
        let rate = |setting: u32| base + slope * setting;
        let unit = "lb/1000 ft2";
        let tries = [first, second].map(|setting| Tried {
            setting: setting.into(),
            rate: amount(rate(setting), unit),
        });
        prop_assert_eq!(setting_to_try(&tries[..1], &amount(wanted, unit), None, Passes::One).unwrap(), None);
        if let Ok(Some(next)) = setting_to_try(&tries, &amount(wanted, unit), None, Passes::One) {
            let setting = next.value.setting;
            let gives = Decimal::from(base) + Decimal::from(slope) * setting;
            prop_assert!(gives <= wanted.into(), "{setting} gives {gives}");
            prop_assert!(Decimal::from(wanted) - gives < slope.into());
            let most = amount(wanted.div_ceil(2), unit);
            if let Ok(Some(less)) = setting_to_try(&tries, &amount(wanted, unit), Some(&most), Passes::One) {
                prop_assert!(less.value.setting <= setting);
            }
        }
    }

    #[test]
    fn evenness_depends_on_the_shape_alone(catches in row(), times in 2_u32..50) {
        let curve = evenness(&boxes(&catches)).unwrap().value;
        let mirrored: Vec<Entered> = catches.iter().rev().copied().collect();
        let scaled: Vec<Entered> = catches
            .iter()
            .map(|c| Entered::new(c.amount() * Decimal::from(times), c.unit()).unwrap())
            .collect();
        for other in [mirrored, scaled] {
            let other = evenness(&boxes(&other)).unwrap().value;
            for (a, b) in curve.points.iter().zip(&other.points) {
                for travel in [Travel::OneWay, Travel::BackAndForth] {
                    prop_assert!(a.percent(travel).is_finite() && a.percent(travel) >= 0.0);
                    prop_assert!((a.percent(travel) - b.percent(travel)).abs() < 1e-6);
                }
            }
        }
        let shape = pattern(&boxes(&catches)).unwrap().value;
        prop_assert_eq!(shape.points.len(), catches.len());
        if let Some(swath) = shape.effective_swath {
            prop_assert!(number(&swath) <= catches.len() as f64);
        }
        let beyond = curve.beyond_boxes;
        prop_assert!(!beyond || curve.best_one_way.is_none() && curve.best_back_and_forth.is_none());
        for best in [curve.best_one_way, curve.best_back_and_forth].into_iter().flatten() {
            let travel = if Some(best) == curve.best_one_way { Travel::OneWay } else { Travel::BackAndForth };
            prop_assert_eq!(evenness_finding(&curve, &best, travel).unwrap().verdict, Verdict::Clear);
        }
    }

    #[test]
    fn three_ways_to_a_sprayers_rate_agree(
        flow in 1_u32..500, speed in 50_u32..1_000, spacing in 500_u32..10_000,
    ) {
        let (flow, speed) = (amount(flow, "gal/min"), amount(speed, "mph"));
        let spacing = amount(spacing, "in");
        let by_flow = number(&boom_rate(&flow, &speed, &spacing).unwrap().value.per_acre);
        let course = acre_128th_course(&spacing).unwrap().value;
        let feet_a_minute = number(&speed) * 88.0;
        let caught_oz = number(&course) / feet_a_minute * number(&flow) * 128.0;
        let caught = e(&format!("{caught_oz:.6} fl oz"));
        let by_course = number(&acre_128th_rate(&caught).unwrap().value.per_acre);
        prop_assert!((by_flow - by_course).abs() <= by_flow * 1e-4, "{by_flow} {by_course}");
        let feet = e(&format!("{} ft2", (feet_a_minute * number(&spacing) / 12.0).round()));
        let run = TimedCatch {
            area: feet,
            area_time: e("1 min"),
            caught: e(&format!("{} gal", number(&flow))),
            catch_time: e("60 s"),
        };
        let by_time = number(&timed_rate(&run).unwrap().value.per_acre);
        // The area was rounded to whole feet.
        let slack = by_flow / number(&feet) + by_flow * 1e-6;
        prop_assert!((by_flow - by_time).abs() <= slack, "{by_flow} {by_time}");
        let back = spray_rate(&amount(4_000, "gal/acre")).unwrap();
        prop_assert!((number(&spray_rate(&back.per_1000_ft2).unwrap().per_acre) - 40.0).abs() < 1e-6);
    }

    #[test]
    fn pressure_and_flow_lead_back_to_each_other(
        flow in 1_u32..1_000, at in 100_u32..30_000, to in 100_u32..30_000,
    ) {
        let (flow, at, to) = (amount(flow, "gal/min"), amount(at, "psi"), amount(to, "psi"));
        let then = flow_at_pressure(&flow, &at, &to).unwrap().value;
        let back = pressure_for_flow(&flow, &at, &then).unwrap().value;
        prop_assert!((number(&back) - number(&to)).abs() <= number(&to) * 1e-6);
    }

    #[test]
    fn deviations_of_nozzles_cancel_out(catches in prop::collection::vec(1_u32..5_000, 1..20)) {
        let caught: Vec<Entered> = catches.iter().map(|c| amount(*c, "fl oz")).collect();
        let test = NozzleCatches { catches: &caught, time: e("30 s"), new_flow: None };
        let result = nozzle_test(&test).unwrap().value;
        let sum_off: f64 = result.nozzles.iter().map(|n| n.off_mean_percent).sum();
        prop_assert!(sum_off.abs() < 1e-6);
        // Without the flow of a new one wear is not known, and so neither is the whole.
        prop_assert_eq!(sum(&result.findings), Verdict::Unknown);
    }

    #[test]
    fn a_steady_walk_changes_the_rate_by_its_time(seconds in 100_u32..100_000, runs in 2_usize..10) {
        let times = vec![amount(seconds, "s"); runs];
        let input = PaceRuns { length: e("100 ft"), target: e("3 mph"), times: &times };
        let result = pace(&input).unwrap().value;
        let wanted = 100.0 / 264.0 * 60.0;
        let expected = 100.0 * (f64::from(seconds) / 100.0 / wanted - 1.0);
        prop_assert!((result.rate_change_percent - expected).abs() < 1e-6);
        prop_assert!(result.spread_percent.unwrap() < 1e-6);
        let one = PaceRuns { times: &times[..1], ..input };
        prop_assert_eq!(pace(&one).unwrap().value.finding.verdict, Verdict::Unknown);
    }

    #[test]
    fn it_does_not_matter_which_person_was_first(a in 1_u32..1_000, b in 1_u32..1_000) {
        let (a, b) = (
            Person { name: "Ann", found: amount(a, "lb/1000 ft2") },
            Person { name: "Ben", found: amount(b, "lb/1000 ft2") },
        );
        let found = two_people_finding(&a, Some(&b)).unwrap();
        prop_assert_eq!(&found, &two_people_finding(&b, Some(&a)).unwrap());
        let twice = Person { name: " ANN", ..b };
        for alone in [None, Some(&twice)] {
            prop_assert_eq!(two_people_finding(&a, alone).unwrap().verdict, Verdict::Unknown);
        }
    }

    #[test]
    fn what_is_taken_away_never_makes_a_calibration_look_better(
        then in set_up(), now in set_up(), age_days in prop::option::of(-2_i64..100), which in 0_usize..7,
    ) {
        let advice = CalibrationAdvice::default();
        let verdict = |made: &Calibrated<'_>, now: &SetUp<'_>| {
            sum(&calibration_findings(Some(made), now, advice).unwrap())
        };
        let made = Calibrated { age_days, on: then };
        let whole = verdict(&made, &now);
        let (mut less, mut less_now) = (made, now);
        match which {
            0 => less.age_days = None,
            1 => less.on.product = Part::NotKnown,
            2 => less_now.operator = Part::NotKnown,
            3 => less.on.machine = Part::Is(""),
            4 => less_now.wheel = Part::NotKnown,
            5 => less.on.nozzle = Part::NotKnown,
            _ => less_now.swath = None,
        }
        let lacking = verdict(&less, &less_now);
        prop_assert!(lacking >= whole);
        prop_assert_eq!(lacking, Verdict::Unknown);
        prop_assert_eq!(sum(&calibration_findings(None, &now, advice).unwrap()), Verdict::Unknown);
    }

    #[test]
    fn whatever_is_typed_is_answered_or_refused(
        given in prop::collection::vec(any_amount(), 7), setting in 0_u32..2_000,
    ) {
        let [a, b, c, d, f, g, h] = <[Entered; 7]>::try_from(given).unwrap();
        let list = [a, b, c, d, f];
        let mut refused: Vec<RuleError> = Vec::new();
        macro_rules! tries {
            ($($call:expr),+ $(,)?) => { $( if let Err(error) = $call { refused.push(error); } )+ };
        }
        let boxes = CatchBoxes { spacing: a, catches: &list };
        let tried = [
            Tried { setting: setting.into(), rate: a },
            Tried { setting: 7.into(), rate: b },
        ];
        tries!(
            strip_rate(&StripRun { weighed: Weighed::StartAndLeft { start: a, left: b }, length: c, swath: d }, None),
            strip_rate(&StripRun { weighed: Weighed::Caught(a), length: b, swath: c }, Some(d.unit())),
            strip_length(&a, &b),
            rate_found_finding(&a, &b, &LabelSays::Value(c), Passes::HalfSwath),
            setting_to_try(&tried, &c, Some(&d), Passes::TwoAtRightAngles),
            pattern(&boxes),
            evenness(&boxes),
            boom_rate(&a, &b, &c),
            timed_rate(&TimedCatch { area: a, area_time: b, caught: c, catch_time: d }),
            acre_128th_course(&a),
            acre_128th_rate(&a),
            spray_rate(&a),
            nozzle_test(&NozzleCatches { catches: &list, time: g, new_flow: Some(h) }),
            flow_at_pressure(&a, &b, &c),
            pressure_for_flow(&a, &b, &c),
            course_time(&a, &b),
            pace(&PaceRuns { length: a, target: b, times: &list }),
            two_people_finding(&Person { name: "", found: a }, Some(&Person { name: "x", found: b })),
            for_the_rest(&Rest {
                rate: a, most: Some(b), rate_done: c, pace: Some(d), setting: Some(setting.into()), tried: &tried,
            }),
        );
        for error in refused {
            prop_assert!(!error.to_string().is_empty());
        }
    }

    #[test]
    fn charts_stay_in_their_picture(points in prop::collection::vec((any::<f64>(), any::<f64>()), 0..8), most in any::<f64>()) {
        for pair in svg_points(&points, most, 100.0, 50.0).split_whitespace() {
            let (x, y) = pair.split_once(',').unwrap();
            for (text, limit) in [(x, 100.0), (y, 50.0)] {
                let at: f64 = text.parse().unwrap();
                prop_assert!(!at.is_infinite() && (at.is_nan() || (0.0..=limit).contains(&at)));
            }
        }
        for (value, _) in points {
            prop_assert!(text_bar(value, most, 20).len() <= 20);
        }
    }

    #[test]
    fn drops_outside_the_labels_classes_are_never_clear(finest in 0_usize..8, wider in 0_usize..8, nozzle in 0_usize..8) {
        let coarsest = (finest + wider).min(7);
        let all = DropletClass::ALL;
        let label = LabelSays::Value(LabelDrops { finest: all[finest], coarsest: all[coarsest] });
        let found = droplets_finding(&label, Some(all[nozzle])).unwrap();
        prop_assert_eq!(found.verdict == Verdict::Clear, (finest..=coarsest).contains(&nozzle));
        prop_assert_eq!(droplets_finding(&label, None).unwrap().verdict, Verdict::Unknown);
        let unread = droplets_finding(&LabelSays::Unfilled, Some(all[nozzle])).unwrap();
        prop_assert_eq!(unread.verdict, Verdict::Unknown);
    }
}
