//! What nobody should type into product and water: refused by name, or answered.

use chrono::{Days, NaiveDate};
use sward_rules::calibrate::TimedCatch;
use sward_rules::label::{Ingredient, Label, LabelSays, Method, WateringIn};
use sward_rules::measure::AreaEstimate;
use sward_rules::mix::{
    Already, BaitLook, DIAL_STEPS_MOST, DialAsked, Draw, Foraging, Leftover, Serving, Site,
    SpotJob, TankFill, TankMix, bait_findings, hose_end_dial, hose_end_test, leftover_choices,
    product_for_ingredient, product_in_mix, product_over, rate_forms, rate_from_mix,
    rate_of_coverage, serve, spots, tank_fill,
};
use sward_rules::plan::{Section, SettingUse, TimesOver, Vessel, measure_out, setting_used};
use sward_rules::season::{
    Interval, Lot, Others, PutOn, SeasonInput, StockAsked, season_ingredients, stock,
};
use sward_rules::watering::{CANS_MOST, CanTest, can_depth, can_test, watering_need};
use sward_rules::{Entered, RuleError};

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

/// Amounts of every kind, and of sizes that nobody means.
const HOSTILE: [&str; 25] = [
    "0 lb",
    "0.000000000001 lb",
    "999999999999 lb",
    "0 gal",
    "999999999999 gal",
    "0.000000000001 mL",
    "0 ft2",
    "999999999999 ha",
    "0.000000000001 in2",
    "0 s",
    "999999999999 wk",
    "0.000000000001 s",
    "0 %",
    "100 %",
    "999999999999 %",
    "999999999999 lb/in2",
    "0.000000000001 mg/ha",
    "999999999999 gal/in2",
    "0.000000000001 mL/ha",
    "999999999999 gal/mL",
    "0.000000000001 mg/100 gal",
    "-40 C",
    "0 in",
    "999999999999 mi",
    "0.000000000001 mm",
];

/// How many of the answers are none of a refusal.
fn answered(all: &[bool]) -> usize {
    all.iter().filter(|ok| **ok).count()
}

#[test]
fn one_hostile_amount_is_refused_or_answered() {
    let mut all = Vec::new();
    for a in HOSTILE.map(e) {
        let look = BaitLook {
            foraging: Some(Foraging::Ground(a)),
            ..BaitLook::default()
        };
        let asks = LabelSays::Value(WateringIn::Required(Some(a)));
        let section = Section {
            name: "x".into(),
            area: lawn(1000),
        };
        all.extend([
            rate_forms(&a).is_ok(),
            product_over(&a, &lawn(1000)).is_ok(),
            bait_findings(&look).is_ok(),
            Interval::from_entered(&a).is_ok(),
            watering_need(&asks, &[section]).is_ok(),
        ]);
    }
    assert!(answered(&all) * 3 < all.len());
}

#[test]
fn two_hostile_amounts_are_refused_or_answered() {
    let mut all = Vec::new();
    for (a, b) in HOSTILE.iter().flat_map(|a| HOSTILE.map(|b| (e(a), e(b)))) {
        let vessel = Vessel {
            name: "x".into(),
            least_step: b,
        };
        let cans = CanTest {
            depths: &[a; 4],
            ran: b,
        };
        all.extend([
            rate_of_coverage(&a, &b).is_ok(),
            product_for_ingredient(&a, &b).is_ok(),
            product_in_mix(&a, &b).is_ok(),
            rate_from_mix(&a, &b).is_ok(),
            can_depth(&a, &b).is_ok(),
            measure_out(&a, &vessel).is_ok(),
            can_test(&cans).is_ok(),
            stock_of(a, b),
            season_of(a, b),
        ]);
    }
    assert!(answered(&all) * 3 < all.len());
}

fn stock_of(on_hand: Entered, needed: Entered) -> bool {
    let lot = Lot {
        name: "x".into(),
        on_hand: Some(on_hand),
        bought: None,
        opened: None,
        expires: LabelSays::Unfilled,
    };
    let asked = StockAsked {
        lots: &[lot],
        needed,
        day: day(0),
    };
    stock(&asked).is_ok()
}

fn season_of(content: Entered, product: Entered) -> bool {
    let treatment = PutOn {
        ingredients: vec![Ingredient {
            name: "x".into(),
            content,
        }],
        product: Some(product),
        area: lawn(1),
    };
    let input = SeasonInput {
        before: &[treatment],
        planned: None,
        most: &[],
        others: Others::NotKnown,
    };
    season_ingredients(&input).is_ok()
}

/// A third of all triples: a build for tests takes its time.
#[test]
fn three_hostile_amounts_are_refused_or_answered() {
    let mut all = Vec::new();
    for (a, b) in HOSTILE.iter().flat_map(|a| HOSTILE.map(|b| (e(a), e(b)))) {
        for c in HOSTILE.into_iter().step_by(3).map(e) {
            all.extend(on_the_way(a, b, c));
            all.extend(on_the_lawn(a, b, c));
        }
    }
    assert!(answered(&all) * 3 < all.len());
}

fn on_the_way(a: Entered, b: Entered, c: Entered) -> [bool; 3] {
    let label = label(&e("2.5 lb/1000 ft2"));
    let vessel = Vessel {
        name: "x".into(),
        least_step: e("0.01 lb"),
    };
    let fill = TankFill {
        label: &label,
        rate: a,
        carrier: b,
        tank: c,
        mix: None,
        vessel: &vessel,
    };
    let tank = TankMix { product: a, mix: b };
    let draw = Draw {
        name: "x".into(),
        drawn: c,
        area: Some(lawn(1)),
    };
    let serving = Serving {
        label: &label,
        tank: &tank,
        carrier: e("2 gal/1000 ft2"),
        draws: &[draw],
        to_come: &[],
    };
    let site = Site {
        name: "x".into(),
        on_label: Some(true),
        area: lawn(1),
        already: Already::Nothing,
    };
    let leftover = Leftover {
        label: &label,
        tank: &tank,
        left: c,
        carrier: e("2 gal/1000 ft2"),
        sites: &[site],
    };
    [
        tank_fill(&fill).is_ok(),
        serve(&serving).is_ok(),
        leftover_choices(&leftover).is_ok(),
    ]
}

fn on_the_lawn(a: Entered, b: Entered, c: Entered) -> [bool; 4] {
    let label = label(&e("2.5 lb/1000 ft2"));
    let setting = SettingUse {
        label: &label,
        planned: a,
        gives: a,
        calibrated_swath: Some(b),
        line_spacing: c,
        times: TimesOver::Once,
    };
    let dial = DialAsked {
        label: &label,
        rate: a,
        carrier: b,
        steps: &[c],
    };
    let test = TimedCatch {
        area: a,
        area_time: b,
        caught: c,
        catch_time: b,
    };
    let vessel = Vessel {
        name: "x".into(),
        least_step: c,
    };
    let job = SpotJob {
        dose: a,
        mix: Some(b),
        spot_most: LabelSays::Unfilled,
        area_most: LabelSays::Unfilled,
        count: 3,
        area: lawn(1),
        vessel: &vessel,
    };
    [
        setting_used(&setting).is_ok(),
        hose_end_dial(&dial).is_ok(),
        hose_end_test(&test).is_ok(),
        spots(&job).is_ok(),
    ]
}

#[test]
fn lists_have_bounds() {
    let many = vec![e("0.1 in"); CANS_MOST + 1];
    let ran = e("10 min");
    let few = can_test(&CanTest {
        depths: &many[..3],
        ran,
    });
    assert_eq!(
        few.unwrap_err(),
        RuleError::TooFewCans {
            count: 3,
            needed: 4
        }
    );
    assert!(can_test(&CanTest { depths: &many, ran }).is_err());
    let label = label(&e("0.6 fl oz/1000 ft2"));
    let steps = vec![e("1 fl oz/gal"); DIAL_STEPS_MOST + 1];
    for steps in [&steps[..], &[]] {
        let asked = DialAsked {
            label: &label,
            rate: e("0.6 fl oz/1000 ft2"),
            carrier: e("2 gal/1000 ft2"),
            steps,
        };
        assert!(hose_end_dial(&asked).is_err());
    }
    let lot = Lot {
        name: "A".into(),
        on_hand: None,
        bought: None,
        opened: None,
        expires: LabelSays::Unfilled,
    };
    let twice = [lot.clone(), lot];
    let asked = StockAsked {
        lots: &twice,
        needed: e("1 lb"),
        day: day(0),
    };
    let name = "A".into();
    assert_eq!(stock(&asked).unwrap_err(), RuleError::SameLot { name });
}
