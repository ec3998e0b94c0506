//! What must hold for any tank, dial, spot, watering and season.

use chrono::{Days, NaiveDate};
use proptest::prelude::*;
use rust_decimal::Decimal;
use sward_rules::finding::sum;
use sward_rules::label::{Ingredient, Label, LabelSays, Method};
use sward_rules::measure::AreaEstimate;
use sward_rules::mix::{
    Already, DialAsked, Draw, Leftover, Serving, Site, SpotJob, TankFill, TankMix, hose_end_dial,
    leftover_choices, rate_forms, serve, spots, tank_fill,
};
use sward_rules::plan::{SettingUse, TimesOver, Vessel, setting_used};
use sward_rules::season::{
    Interval, Lot, Others, PutOn, SeasonInput, SeasonMost, StockAsked, season_ingredients, stock,
};
use sward_rules::watering::{CanTest, RunAsked, can_test, watering_run};
use sward_rules::{Entered, RuleError, Verdict};

fn e(text: &str) -> Entered {
    Entered::parse(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

fn lawn(square_feet: u32) -> AreaEstimate {
    AreaEstimate::stated(&e(&format!("{square_feet} ft2")), &e("0 ft2")).expect("an area")
}

fn label(most: &Entered) -> Label {
    Label {
        rate_least: LabelSays::Nothing,
        rate_most: LabelSays::Value(*most),
        carrier_least: LabelSays::Nothing,
        ..Label::unfilled(Method::Drench)
    }
}

fn day(number: u32) -> NaiveDate {
    let first = NaiveDate::from_ymd_opt(2020, 1, 1).expect("a day");
    first
        .checked_add_days(Days::new(number.into()))
        .expect("a day")
}

/// Up to a million hundredths, never zero.
fn hundredths(most: u32) -> impl Strategy<Value = String> {
    (1..most).prop_map(|n| format!("{}.{:02}", n / 100, n % 100))
}

fn ratio(a: &Entered, b: &Entered) -> Decimal {
    let b = b.convert(a.unit()).expect("the same kind");
    a.amount().checked_div(b.amount()).expect("not zero")
}

/// Nine digits are shown of what is worked out.
fn hair() -> Decimal {
    Decimal::new(100_000_001, 8)
}

proptest! {
    #[test]
    fn a_tank_fill_never_exceeds_what_was_asked(
        rate in hundredths(1000),
        carrier in hundredths(1000),
        mix in hundredths(10_000),
        step in hundredths(200),
    ) {
        let rate = e(&format!("{rate} fl oz/1000 ft2"));
        let label = label(&rate);
        let vessel = Vessel { name: "cup".into(), least_step: e(&format!("{step} fl oz")) };
        let carrier = e(&format!("{carrier} gal/1000 ft2"));
        let mix = e(&format!("{mix} gal"));
        let filled = tank_fill(&TankFill {
            label: &label, rate, carrier, tank: mix, mix: None, vessel: &vessel,
        });
        let filled = match filled {
            Ok(filled) => filled.value,
            Err(RuleError::VesselTooCoarse { .. } | RuleError::ProductFillsTank { .. }) => {
                return Ok(());
            }
            Err(error) => return Err(TestCaseError::fail(error.to_string())),
        };
        prop_assert!(filled.product.change_percent <= 0.0);
        prop_assert!(filled.rate.compare(&rate).unwrap().is_le());
        prop_assert_ne!(filled.verdict(), Verdict::DontTreat);
        // Covering so much takes no more than there is.
        let square_feet = filled.covers.amount();
        let needed = square_feet * carrier.amount() / Decimal::from(1000);
        prop_assert!(needed <= mix.amount());
    }

    #[test]
    fn draws_and_what_is_left_are_what_was_mixed(
        draws in proptest::collection::vec(1..4000_u32, 0..8),
        area in 100..20_000_u32,
    ) {
        let label = label(&e("0.6 fl oz/1000 ft2"));
        let tank = TankMix { product: e("15 fl oz"), mix: e("50 gal") };
        let draws: Vec<Draw> = draws.iter().map(|hundredths| Draw {
            name: "yard".into(),
            drawn: e(&format!("{}.{:02} gal", hundredths / 100, hundredths % 100)),
            area: Some(lawn(area)),
        }).collect();
        let drawn: Decimal = draws.iter().map(|d| d.drawn.amount()).sum();
        let served = serve(&Serving {
            label: &label, tank: &tank, carrier: e("2 gal/1000 ft2"), draws: &draws, to_come: &[],
        });
        if drawn > Decimal::from(50) {
            let refused = matches!(served, Err(RuleError::DrawnMoreThanLeft { .. }));
            prop_assert!(refused);
            return Ok(());
        }
        let served = served.unwrap().value;
        prop_assert_eq!(served.left.amount() + drawn, Decimal::from(50));
        for draw in &served.draws {
            let most = e("0.6 fl oz/1000 ft2");
            let above = draw.rate.unwrap().compare(&most).unwrap().is_gt();
            prop_assert_eq!(above, sum(&draw.findings) == Verdict::DontTreat);
        }
    }

    #[test]
    fn a_site_never_takes_more_than_its_room(
        left in 1..5000_u32,
        area in 100..50_000_u32,
        already in 0..80_u32,
    ) {
        let most = e("0.6 fl oz/1000 ft2");
        let label = label(&most);
        let tank = TankMix { product: e("15 fl oz"), mix: e("50 gal") };
        let site = Site {
            name: "strip".into(),
            on_label: Some(true),
            area: lawn(area),
            already: Already::Rate(e(&format!("0.{already:02} fl oz/1000 ft2"))),
        };
        let choices = leftover_choices(&Leftover {
            label: &label, tank: &tank, left: e(&format!("{}.{:02} gal", left / 100, left % 100)),
            carrier: e("2 gal/1000 ft2"), sites: &[site],
        }).unwrap().value;
        let takes = &choices.sites[0];
        let Some(mix) = takes.takes else {
            prop_assert_eq!(takes.verdict(), Verdict::DontTreat);
            return Ok(());
        };
        prop_assert!(mix.amount() * Decimal::from(100) <= Decimal::from(left));
        // 0.3 fl oz in the gallon.
        let on = mix.amount() * Decimal::new(3, 1) * Decimal::from(1000) / Decimal::from(area)
            + Decimal::new(already.into(), 2);
        prop_assert!(on <= most.amount() * hair(), "{on}");
    }

    #[test]
    fn a_dial_never_gives_more_than_the_rate(
        rate in hundredths(3000),
        carrier in hundredths(2000),
        steps in proptest::collection::vec(hundredths(1000), 1..12),
    ) {
        let rate = e(&format!("{rate} fl oz/1000 ft2"));
        let label = label(&rate);
        let steps: Vec<Entered> = steps.iter().map(|s| e(&format!("{s} fl oz/gal"))).collect();
        let dial = hose_end_dial(&DialAsked {
            label: &label, rate, carrier: e(&format!("{carrier} gal/1000 ft2")), steps: &steps,
        });
        let Ok(dial) = dial else { return Ok(()) };
        let dial = dial.value;
        if let (Some(step), Some(given)) = (dial.step, dial.rate) {
            prop_assert!(step.amount() <= dial.needed.amount() * hair());
            prop_assert!(given.amount() <= rate.amount() * hair());
            prop_assert_ne!(sum(&dial.findings), Verdict::DontTreat);
        } else {
            prop_assert_eq!(sum(&dial.findings), Verdict::DontTreat);
        }
    }

    #[test]
    fn an_interval_is_never_short_and_keeps_the_order_of_days(
        count in 1..200_u32,
        unit in 0..3_u8,
        first in 0..3000_u32,
        later in 0..400_u32,
    ) {
        let unit = ["days", "weeks", "months"][usize::from(unit)];
        let interval = Interval::parse(&format!("{count} {unit}")).unwrap();
        let after = interval.after(day(first)).unwrap();
        let days = (after - day(first)).num_days();
        let least = match unit {
            "days" => i64::from(count),
            "weeks" => 7 * i64::from(count),
            _ => 28 * i64::from(count),
        };
        prop_assert!(days >= least);
        prop_assert!(interval.after(day(first + later)).unwrap() >= after);
    }

    #[test]
    fn runs_reach_the_depth_and_never_the_run_off(
        cans in proptest::collection::vec(0..100_u32, 4..30),
        depth in 1..200_u32,
        run_off in 3..60_u32,
    ) {
        prop_assume!(cans.iter().any(|c| *c > 0));
        let depths: Vec<Entered> =
            cans.iter().map(|c| e(&format!("0.{c:02} in"))).collect();
        let cans = can_test(&CanTest { depths: &depths, ran: e("20 min") }).unwrap().value;
        prop_assert!(cans.driest_quarter.compare(&cans.mean).unwrap().is_le());
        prop_assert!((0.0..=100.0).contains(&cans.uniformity_percent));
        let run = watering_run(&RunAsked {
            depth: e(&format!("{}.{:02} in", depth / 100, depth % 100)),
            cans: &cans,
            run_off_after: Some(e(&format!("{run_off} min"))),
            soak: None,
        });
        let Ok(run) = run else { return Ok(()) };
        let run = run.value;
        prop_assert!(run.minutes_each < run_off);
        prop_assert!(run.runs * run.minutes_each >= run.minutes_by_mean);
        prop_assert!(run.minutes_by_driest_quarter.is_none_or(|m| m >= run.minutes_by_mean));
    }

    #[test]
    fn taking_data_away_from_a_season_never_clears_it(
        amounts in proptest::collection::vec(proptest::option::of(1..400_u32), 1..6),
        told in any::<bool>(),
        limit in proptest::option::of(1..100_u32),
    ) {
        let treatments: Vec<PutOn> = amounts.iter().map(|amount| PutOn {
            ingredients: vec![Ingredient { name: "bifenthrin".into(), content: e("0.2 %") }],
            product: amount.map(|a| e(&format!("{a} lb"))),
            area: lawn(43_560),
        }).collect();
        let most = limit.map_or(LabelSays::Unfilled, |l| {
            LabelSays::Value(e(&format!("0.{l:02} lb/acre")))
        });
        let most = [SeasonMost { name: "bifenthrin".into(), most }];
        let one = |before: &[PutOn], others| {
            let input = SeasonInput { before, planned: None, most: &most, others };
            season_ingredients(&input).unwrap().value.remove(0)
        };
        let others = if told { Others::SaidNone } else { Others::NotKnown };
        let sum = one(&treatments, others);
        let all_known = amounts.iter().all(Option::is_some) && told && limit.is_some();
        let cleared = matches!(sum.finding.verdict, Verdict::Clear | Verdict::Caution);
        prop_assert!(!cleared || all_known);
        let mut less = treatments.clone();
        less[0].product = None;
        let verdict = one(&less, others).finding.verdict;
        prop_assert!(!matches!(verdict, Verdict::Clear | Verdict::Caution));
        if let Some(room) = sum.room {
            let on = sum.so_far.amount() + room.amount();
            let limit = Decimal::new(limit.unwrap_or(0).into(), 2);
            prop_assert!(on <= limit * hair() || room.is_zero());
        }
    }

    #[test]
    fn stock_gives_what_is_needed_or_says_what_is_missing(
        lots in proptest::collection::vec((proptest::option::of(0..500_u32), 0..60_u32), 0..10),
        needed in 1..2000_u32,
    ) {
        let lots: Vec<Lot> = lots.iter().enumerate().map(|(n, (there, last))| Lot {
            name: format!("lot {n}"),
            on_hand: there.map(|t| e(&format!("{t} lb"))),
            bought: None,
            opened: None,
            expires: LabelSays::Value(day(*last)),
        }).collect();
        let needed = e(&format!("{needed} lb"));
        let today = day(30);
        let plan = stock(&StockAsked { lots: &lots, needed, day: today }).unwrap().value;
        let taken: Decimal = plan.lots.iter().map(|l| l.take.amount()).sum();
        let short = plan.short.map_or(Decimal::ZERO, |s| s.amount());
        prop_assert_eq!(taken + short, needed.amount());
        for usage in &plan.lots {
            let lot = lots.iter().find(|l| l.name == usage.name).unwrap();
            prop_assert!(lot.expires.value().is_some_and(|last| *last >= today));
            let there = lot.on_hand.unwrap().amount();
            prop_assert_eq!(usage.take.amount() + usage.left_after.amount(), there);
        }
        let unknown = lots.iter().any(|l| l.on_hand.is_none() && *l.expires.value().unwrap() >= today);
        prop_assert_eq!(plan.verdict() == Verdict::Unknown, unknown && plan.short.is_some());
    }

    #[test]
    fn as_many_spots_as_are_allowed_stay_within_the_labels_most(
        dose in hundredths(500),
        count in 1..500_u32,
        area in 500..90_000_u32,
    ) {
        let vessel = Vessel { name: "scale".into(), least_step: e("0.01 oz") };
        let mut job = SpotJob {
            dose: e(&format!("{dose} oz")),
            mix: None,
            spot_most: LabelSays::Nothing,
            area_most: LabelSays::Value(e("2.5 lb/acre")),
            count,
            area: lawn(area),
            vessel: &vessel,
        };
        let plan = spots(&job).unwrap().value;
        let most = plan.spots_most.unwrap();
        let within = plan.over_area.amount() <= Decimal::new(25, 1) * hair();
        prop_assert_eq!(plan.findings[1].verdict == Verdict::Clear, count <= most);
        prop_assert!(within || plan.findings[1].verdict == Verdict::DontTreat);
        if most > 0 {
            job.count = most;
            prop_assert_eq!(spots(&job).unwrap().value.findings[1].verdict, Verdict::Clear);
        }
    }

    #[test]
    fn the_dose_goes_with_the_swath_over_the_spacing(swath in 1..40_u32, spacing in 1..40_u32) {
        let label = label(&e("2.5 lb/1000 ft2"));
        let used = setting_used(&SettingUse {
            label: &label,
            planned: e("2.5 lb/1000 ft2"),
            gives: e("2.5 lb/1000 ft2"),
            calibrated_swath: Some(e(&format!("{swath} ft"))),
            line_spacing: e(&format!("{spacing} ft")),
            times: TimesOver::Once,
        }).unwrap().value;
        let verdict = used.finding.verdict;
        prop_assert_eq!(verdict == Verdict::DontTreat, swath > spacing);
        prop_assert_eq!(verdict == Verdict::Clear, swath == spacing || {
            // Within 5 % below.
            swath < spacing && f64::from(swath) / f64::from(spacing) >= 0.95
        });
    }

    #[test]
    fn forms_of_a_rate_are_one_rate(rate in hundredths(100_000), liquid in any::<bool>()) {
        let unit = if liquid { "fl oz/1000 ft2" } else { "lb/acre" };
        let rate = e(&format!("{rate} {unit}"));
        for form in rate_forms(&rate).unwrap().value {
            let one = ratio(&form, &rate);
            prop_assert!(one <= hair() && one * hair() >= Decimal::ONE);
        }
    }
}
