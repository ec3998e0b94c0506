//! Product and water against published and independently computed values: rates in every form,
//! tanks, hose-end sprayers, passes, watering in, a season.

use chrono::NaiveDate;
use sward_rules::finding::{Reason, sum};
use sward_rules::label::{Ingredient, Label, LabelSays, Method, WateringIn};
use sward_rules::measure::AreaEstimate;
use sward_rules::mix::*;
use sward_rules::plan::{Section, SettingUse, TimesOver, Vessel, measure_out, setting_used};
use sward_rules::season::*;
use sward_rules::watering::*;
use sward_rules::{Entered, RuleError, Verdict};

fn e(text: &str) -> Entered {
    Entered::parse(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

fn number(entered: &Entered) -> f64 {
    entered.amount().to_string().parse().expect("a number")
}

fn near(entered: &Entered, expected: f64, tolerance: f64) {
    let value = number(entered);
    assert!(
        (value - expected).abs() <= tolerance,
        "{} is not {expected}",
        entered.for_person()
    );
}

fn lawn(text: &str) -> AreaEstimate {
    AreaEstimate::stated(&e(text), &e("0 ft2")).expect("an area")
}

fn day(y: i32, m: u32, d: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(y, m, d).expect("a day")
}

fn label(most: &str) -> Label {
    Label {
        rate_least: LabelSays::Nothing,
        rate_most: LabelSays::Value(e(most)),
        carrier_least: LabelSays::Nothing,
        ..Label::unfilled(Method::Drench)
    }
}

fn vessel(step: &str) -> Vessel {
    Vessel {
        name: "measure".into(),
        least_step: e(step),
    }
}

/// PNW Pest Management Handbooks: product on 1000 ft² for one pound of ingredient an acre, printed
/// 87, 43, 22 mL and 13, 21, 52 g; computed to a digit more.
#[test]
fn product_for_one_pound_of_ingredient_an_acre() {
    for (content, printed, exact, unit) in [
        ("1 lb/gal", 87.0, 86.9, "mL/1000 ft2"),
        ("2 lb/gal", 43.0, 43.45, "mL/1000 ft2"),
        ("4 lb/gal", 22.0, 21.7, "mL/1000 ft2"),
        ("80 %", 13.0, 13.0, "g/1000 ft2"),
        ("50 %", 21.0, 20.8, "g/1000 ft2"),
        ("20 %", 52.0, 52.1, "g/1000 ft2"),
    ] {
        let rate = product_for_ingredient(&e("1 lb/acre"), &e(content))
            .expect("a rate")
            .value;
        let on_1000 = rate.convert(e(&format!("1 {unit}")).unit()).unwrap();
        near(&on_1000, exact, 0.06);
        near(&on_1000, printed, 0.6);
    }
}

/// Common worked example: 2 lb of ingredient from an 80 % powder are 2.5 lb of it.
#[test]
fn two_pounds_of_ingredient_of_a_powder() {
    let rate = product_for_ingredient(&e("2 lb/acre"), &e("80 %")).unwrap();
    assert_eq!(rate.value, e("2.5 lb/acre"));
    // Computed: the same from 240 g/L (2.0029 lb/gal), in metric.
    let metric = product_for_ingredient(&e("0.24 kg/ha"), &e("240 g/L")).unwrap();
    assert_eq!(metric.value, e("1000 mL/ha"));
}

/// Pesticide Environmental Stewardship, Calculations for Mixing: 2 lb in 100 gal, so 6.4 oz in 20.
#[test]
fn product_per_hundred_gallons() {
    let product = product_in_mix(&e("2 lb/100 gal"), &e("20 gal"))
        .unwrap()
        .value;
    assert_eq!(product.compare(&e("6.4 oz")), Ok(std::cmp::Ordering::Equal));
    // Computed: at 2 gal on 1000 ft² that is 0.64 oz on 1000 ft², and back.
    let rate = rate_from_mix(&e("2 lb/100 gal"), &e("2 gal/1000 ft2"))
        .unwrap()
        .value;
    assert_eq!(
        rate.compare(&e("0.64 oz/1000 ft2")),
        Ok(std::cmp::Ordering::Equal)
    );
    let ratio = ratio_for_rate(&rate, &e("2 gal/1000 ft2")).unwrap().value;
    assert_eq!(
        ratio.compare(&e("2 lb/100 gal")),
        Ok(std::cmp::Ordering::Equal)
    );
}

/// Oklahoma State University-OKC, Calibrating Application Equipment; computed.
#[test]
fn rates_by_the_acre_on_a_thousand_square_feet() {
    let in_1000 = |rate: &str, unit: &str| {
        let forms = rate_forms(&e(rate)).unwrap().value;
        let unit = e(&format!("1 {unit}")).unit();
        *forms.iter().find(|f| f.unit() == unit).expect("that form")
    };
    near(&in_1000("40 gal/acre", "gal/1000 ft2"), 0.918, 0.0005);
    near(&in_1000("3.6 pt/acre", "fl oz/1000 ft2"), 1.322, 0.0005);
    // Computed with the Python library pint.
    near(&in_1000("1 lb/1000 ft2", "kg/ha"), 48.824_276_4, 1e-7);
    near(&in_1000("1 oz/1000 ft2", "g/m2"), 0.305_151_727, 1e-9);
    near(&in_1000("1 fl oz/1000 ft2", "L/ha"), 3.183_268_23, 1e-8);
    near(&in_1000("1 gal/acre", "L/ha"), 9.353_956_23, 1e-8);
}

/// Computed: odd areas that packs say they cover.
#[test]
fn packs_cover_odd_areas() {
    let rate = |pack, covers| rate_of_coverage(&e(pack), &e(covers)).unwrap().value;
    assert_eq!(rate("12.5 lb", "5000 ft2"), e("2.5 lb/1000 ft2"));
    assert_eq!(rate("15 lb", "12500 ft2"), e("1.2 lb/1000 ft2"));
    assert_eq!(rate("32 fl oz", "16000 ft2"), e("2 fl oz/1000 ft2"));
    assert_eq!(
        e("12.5 lb/5000 ft2").compare(&e("2.5 lb/1000 ft2")),
        Ok(std::cmp::Ordering::Equal)
    );
    assert_eq!(
        e("12.5 lb/5,000 sq ft").to_string(),
        "12.5 [lb_av]/(5000.[ft_i]2)"
    );
    assert_eq!(
        e("60 mL/100 m2").compare(&e("6 L/ha")),
        Ok(std::cmp::Ordering::Equal)
    );
}

/// Computed: 12,345 ft² at 0.6 fl oz and 2 gal per 1000 ft².
#[test]
fn product_and_mix_for_a_lawn() {
    let lawn = lawn("12345 ft2");
    let product = product_over(&e("0.6 fl oz/1000 ft2"), &lawn).unwrap().value;
    assert_eq!(product, e("7.407 fl oz"));
    let mix = product_over(&e("2 gal/1000 ft2"), &lawn).unwrap().value;
    assert_eq!(mix, e("24.69 gal"));
    let measured = measure_out(&product, &vessel("0.25 fl oz")).unwrap().value;
    assert_eq!(measured.measured_out, e("7.25 fl oz"));
    assert!((measured.change_percent + 2.1196).abs() < 1e-3);
    // Computed: 2.5 lb of a granule on the same lawn.
    let granule = product_over(&e("2.5 lb/1000 ft2"), &lawn).unwrap().value;
    assert_eq!(granule, e("30.8625 lb"));
}

/// Computed by hand: one tank of 50 gal for three yards.
#[test]
fn one_tank_for_several_yards() {
    let label = label("0.6 fl oz/1000 ft2");
    let cup = vessel("1 fl oz");
    let fill = tank_fill(&TankFill {
        label: &label,
        rate: e("0.6 fl oz/1000 ft2"),
        carrier: e("2 gal/1000 ft2"),
        tank: e("50 gal"),
        mix: None,
        vessel: &cup,
    })
    .unwrap()
    .value;
    assert_eq!(fill.product.measured_out, e("15 fl oz"));
    assert_eq!(fill.covers, e("25000 ft2"));
    assert_eq!(fill.water, Some(e("49.8828125 gal")));
    assert_eq!(fill.verdict(), Verdict::Clear);

    let tank = TankMix {
        product: fill.product.measured_out,
        mix: fill.mix,
    };
    let stops = [
        Draw {
            name: "Elm".into(),
            drawn: e("20 gal"),
            area: Some(lawn("10000 ft2")),
        },
        // 12 gal on 5000 ft² are 0.72 fl oz on 1000: above the label's most.
        Draw {
            name: "Oak".into(),
            drawn: e("12 gal"),
            area: Some(lawn("5000 ft2")),
        },
        Draw {
            name: "Fir".into(),
            drawn: e("48 qt"),
            area: None,
        },
    ];
    let to_come = [Stop {
        name: "Ash".into(),
        area: lawn("4000 ft2"),
    }];
    let mut serving = Serving {
        label: &label,
        tank: &tank,
        carrier: e("2 gal/1000 ft2"),
        draws: &stops,
        to_come: &to_come,
    };
    let served = serve(&serving).unwrap().value;
    let rates: Vec<_> = served.draws.iter().map(|d| d.rate).collect();
    assert_eq!(
        rates,
        [
            Some(e("0.6 fl oz/1000 ft2")),
            Some(e("0.72 fl oz/1000 ft2")),
            None
        ]
    );
    let verdicts: Vec<_> = served.draws.iter().map(|d| sum(&d.findings)).collect();
    assert_eq!(
        verdicts,
        [Verdict::Clear, Verdict::DontTreat, Verdict::Unknown]
    );
    assert_eq!(
        (served.left, served.left_covers),
        (e("6 gal"), e("3000 ft2"))
    );
    assert_eq!(served.product_left, e("1.8 fl oz"));
    assert_eq!(
        (served.to_come, served.short),
        (Some(e("8 gal")), Some(e("2 gal")))
    );

    let too_much = [
        stops[0].clone(),
        Draw {
            name: "Yew".into(),
            drawn: e("30.1 gal"),
            area: None,
        },
    ];
    serving.draws = &too_much;
    let refused = serve(&serving).unwrap_err();
    assert!(
        matches!(&refused, RuleError::DrawnMoreThanLeft { stop, left, .. }
            if stop == "Yew" && left == "30 gal"),
        "{refused}"
    );
}

/// Computed by hand: 3 gal left of 15 fl oz in 50 gal hold 0.9 fl oz.
#[test]
fn a_leftover_goes_only_where_the_label_has_room() {
    let label = label("0.6 fl oz/1000 ft2");
    let tank = TankMix {
        product: e("15 fl oz"),
        mix: e("50 gal"),
    };
    let site = |name: &str, on_label, area: &str, already| Site {
        name: name.into(),
        on_label,
        area: lawn(area),
        already,
    };
    let sites = [
        site("strip", Some(true), "1000 ft2", Already::Nothing),
        site(
            "half",
            Some(true),
            "1000 ft2",
            Already::Rate(e("0.3 fl oz/1000 ft2")),
        ),
        site(
            "full",
            Some(true),
            "1000 ft2",
            Already::Rate(e("0.6 fl oz/1000 ft2")),
        ),
        site("guess", Some(true), "1000 ft2", Already::NotKnown),
        site("beds", Some(false), "1000 ft2", Already::Nothing),
        site("ditch", None, "1000 ft2", Already::Nothing),
        site("field", Some(true), "9000 ft2", Already::Nothing),
    ];
    let choices = leftover_choices(&Leftover {
        label: &label,
        tank: &tank,
        left: e("3 gal"),
        carrier: e("2 gal/1000 ft2"),
        sites: &sites,
    })
    .unwrap()
    .value;
    assert_eq!(choices.product, e("0.9 fl oz"));
    assert_eq!(choices.covers, e("1500 ft2"));
    let takes: Vec<_> = choices.sites.iter().map(|s| s.takes).collect();
    assert_eq!(
        takes,
        [
            Some(e("2 gal")),
            Some(e("1 gal")),
            None,
            None,
            None,
            None,
            Some(e("3 gal"))
        ]
    );
    let verdicts: Vec<_> = choices.sites.iter().map(|s| s.finding.verdict).collect();

    assert_eq!(
        verdicts,
        [
            Verdict::Clear,
            Verdict::Clear,
            Verdict::DontTreat,
            Verdict::Unknown,
            Verdict::DontTreat,
            Verdict::Unknown,
            Verdict::Clear
        ]
    );
    assert_eq!(choices.sites[0].least_area, Some(e("1500 ft2")));
    assert_eq!(choices.sites[1].least_area, Some(e("3000 ft2")));
}

/// Pesticide Environmental Stewardship, Hose-end Sprayer Calibration; computed.
#[test]
fn a_hose_end_sprayer() {
    let mut test = HoseEndTest {
        area: e("250 ft2"),
        took: e("20 s"),
        caught: e("1.25 gal"),
        caught_in: None,
    };
    let carrier = hose_end_test(&test).unwrap().value;
    assert_eq!(carrier, e("5 gal/1000 ft2"));
    // Computed: caught for a minute, the same flow is 3.75 gal.
    test.caught = e("3.75 gal");
    test.caught_in = Some(e("1 min"));
    assert_eq!(hose_end_test(&test).unwrap().value, carrier);

    let steps = [e("1 fl oz/gal"), e("1.5 fl oz/gal"), e("4 tbsp/gal")];
    let label = label("3 fl oz/1000 ft2");
    let mut asked = DialAsked {
        label: &label,
        rate: e("3 fl oz/1000 ft2"),
        carrier,
        steps: &steps,
    };
    let none = hose_end_dial(&asked).unwrap().value;
    assert_eq!((none.needed, none.step), (e("0.6 fl oz/gal"), None));
    // Computed: 3 fl oz at 1 fl oz in the gallon want 3 gal; at 5 gal too much goes on.
    assert_eq!(none.carrier_for_lowest, Some(e("3 gal/1000 ft2")));
    assert_eq!(sum(&none.findings), Verdict::DontTreat);
    asked.carrier = e("2.5 gal/1000 ft2");
    let dial = hose_end_dial(&asked).unwrap().value;
    assert_eq!(dial.step, Some(e("1 fl oz/gal")));
    assert_eq!(dial.rate, Some(e("2.5 fl oz/1000 ft2")));
    assert_eq!(sum(&dial.findings), Verdict::Clear);
    asked.rate = e("3 oz/1000 ft2");
    assert!(hose_end_dial(&asked).is_err(), "a dial takes no powder");
}

/// Ohio State University, Bulletin 817: half rate at half swath, and state which swath a setting was
/// calibrated on, or the dose doubles or halves; computed.
#[test]
fn a_setting_on_another_swath_doubles_or_halves_the_dose() {
    let label = label("2.5 lb/1000 ft2");
    let used = |gives, swath: Option<&str>, spacing, times| {
        setting_used(&SettingUse {
            label: &label,
            planned: e("2.5 lb/1000 ft2"),
            gives: e(gives),
            calibrated_swath: swath.map(e),
            line_spacing: e(spacing),
            times,
        })
        .unwrap()
        .value
    };

    for (gives, swath, spacing, times, in_all, verdict) in [
        // Half the rate, in parallel lines half the swath apart.
        (
            "1.25 lb/1000 ft2",
            "12 ft",
            "6 ft",
            TimesOver::Once,
            "2.5 lb/1000 ft2",
            Verdict::Clear,
        ),
        // Half the rate, crosswise, lines a whole swath apart.
        (
            "1.25 lb/1000 ft2",
            "12 ft",
            "12 ft",
            TimesOver::TwiceAtRightAngles,
            "2.5 lb/1000 ft2",
            Verdict::Clear,
        ),
        // The setting for the whole rate, in lines half the swath apart: twice the dose.
        (
            "2.5 lb/1000 ft2",
            "12 ft",
            "6 ft",
            TimesOver::Once,
            "5 lb/1000 ft2",
            Verdict::DontTreat,
        ),
        // Calibrated on lines half the swath apart, used at the whole: half the dose.
        (
            "2.5 lb/1000 ft2",
            "6 ft",
            "12 ft",
            TimesOver::Once,
            "1.25 lb/1000 ft2",
            Verdict::Caution,
        ),
        // Both kinds of half passes at once: four times half.
        (
            "1.25 lb/1000 ft2",
            "12 ft",
            "6 ft",
            TimesOver::TwiceAtRightAngles,
            "5 lb/1000 ft2",
            Verdict::DontTreat,
        ),
    ] {
        let used = used(gives, Some(swath), spacing, times);
        assert_eq!(
            used.rate_in_all,
            Some(e(in_all)),
            "{gives} {swath} {spacing}"
        );
        assert_eq!(used.finding.verdict, verdict, "{gives} {swath} {spacing}");
    }
    // Either choice for a setting of half the rate: the lines it takes.
    let half = used("1.25 lb/1000 ft2", Some("12 ft"), "6 ft", TimesOver::Once);
    assert_eq!(
        (half.spacing_once, half.spacing_crosswise),
        (Some(e("6 ft")), Some(e("12 ft")))
    );
    let whole = used("2.5 lb/1000 ft2", Some("12 ft"), "12 ft", TimesOver::Once);
    assert_eq!(
        (whole.spacing_once, whole.spacing_crosswise),
        (Some(e("12 ft")), None)
    );
    let unknown = used("2.5 lb/1000 ft2", None, "12 ft", TimesOver::Once);
    assert_eq!(
        (unknown.rate_in_all, unknown.finding.verdict),
        (None, Verdict::Unknown)
    );
}

/// Computed: 231 cubic inches to the gallon.
#[test]
fn water_by_the_labels_depth() {
    let sections = [
        Section {
            name: "front".into(),
            area: lawn("1000 ft2"),
        },
        Section {
            name: "back".into(),
            area: lawn("3000 ft2"),
        },
    ];
    for (depth, gallons) in [
        ("0.1 in", 62.338),
        ("0.25 in", 155.844),
        ("0.5 in", 311.688),
        ("1 in", 623.377),
    ] {
        let asks = LabelSays::Value(WateringIn::Required(Some(e(depth))));
        let need = watering_need(&asks, &sections).unwrap().value;
        near(&need.per_1000_ft2.unwrap(), gallons, 0.0005);
        near(&need.sections[1].water, 3.0 * gallons, 0.002);
        near(&need.total.unwrap(), 4.0 * gallons, 0.002);
    }
}

/// Whether to water in is the label's word: common practice, no source.
#[test]
fn what_the_label_does_not_say_of_watering_is_not_known() {
    let says = |says: LabelSays<WateringIn>| watering_need(&says, &[]).unwrap().value;
    let not_filled = says(LabelSays::Unfilled);
    assert_eq!(not_filled.asked, WaterAsked::NotKnown);
    assert_eq!(not_filled.finding.verdict, Verdict::Unknown);
    let no_depth = says(LabelSays::Value(WateringIn::Required(None)));
    assert_eq!(
        (no_depth.total, no_depth.finding.verdict),
        (None, Verdict::Unknown)
    );
    let held = says(LabelSays::Value(WateringIn::Withheld(Some(e("24 h")))));
    assert_eq!(held.asked, WaterAsked::KeepOff(Some(e("24 h"))));
    let held = says(LabelSays::Value(WateringIn::Withheld(None)));
    assert_eq!(held.finding.verdict, Verdict::Unknown);
    assert_eq!(says(LabelSays::Nothing).asked, WaterAsked::LabelSilent);
}

/// Computed by hand: eight cans, half an hour.
#[test]
fn cans_tell_minutes_and_evenness() {
    let depths: Vec<Entered> = [
        "0.20 in", "0.30 in", "0.25 in", "0.35 in", "0.15 in", "0.25 in", "0.30 in", "0.20 in",
    ]
    .map(e)
    .to_vec();
    let cans = can_test(&CanTest {
        depths: &depths,
        ran: e("30 min"),
    })
    .unwrap()
    .value;
    assert_eq!(cans.mean, e("0.25 in"));
    assert_eq!(cans.driest_quarter, e("0.175 in"));
    assert!((cans.uniformity_percent - 70.0).abs() < 1e-9);
    let mut asked = RunAsked {
        depth: e("0.5 in"),
        cans: &cans,
        run_off_after: None,
        soak: None,
    };
    let run = watering_run(&asked).unwrap().value;
    // 0.5 at 0.25 in the half hour; the driest quarter needs 85.7 minutes.
    assert_eq!(
        (run.minutes_by_mean, run.minutes_by_driest_quarter),
        (60, Some(86))
    );
    assert_eq!((run.runs, run.in_all_min), (1, Some(60)));
    asked.run_off_after = Some(e("20 min"));
    let run = watering_run(&asked).unwrap().value;
    // Runs of at most 19 minutes: four of 15; how long in all is not known without a time to soak.
    assert_eq!((run.runs, run.minutes_each, run.in_all_min), (4, 15, None));
    asked.soak = Some(e("0.5 h"));
    let run = watering_run(&asked).unwrap().value;
    assert_eq!((run.soak_min, run.in_all_min), (Some(30), Some(150)));

    let dry = can_test(&CanTest {
        depths: &[e("0 in"), e("0 in"), e("0 in"), e("0 in")],
        ran: e("30 min"),
    });
    assert_eq!(dry.unwrap_err(), RuleError::CansEmpty);
    // Computed: 1 L on 1 m² is 1 mm; a can of 112.8379 mm across has 0.01 m².
    let depth = can_depth(&e("100 mL"), &e("112.837917 mm")).unwrap().value;
    near(&depth, 10.0, 1e-6);
}

/// Computed: a granule of 0.2 % at 2.5 lb on 1000 ft² puts 0.2178 lb of ingredient on an acre.
#[test]
fn ingredients_add_up_over_a_season() {
    let treatment = PutOn {
        ingredients: vec![Ingredient {
            name: "bifenthrin".into(),
            content: e("0.2 %"),
        }],
        product: Some(e("30.8625 lb")),
        area: lawn("12345 ft2"),
    };
    let most = [SeasonMost {
        name: "Bifenthrin".into(),
        most: LabelSays::Value(e("0.4 lb/acre")),
    }];
    let mut input = SeasonInput {
        before: &[treatment.clone()],
        planned: None,
        most: &most,
        others: Others::SaidNone,
    };
    let one = |input: &SeasonInput<'_>| season_ingredients(input).unwrap().value.remove(0);
    let first = one(&input);
    assert_eq!(first.so_far, e("0.2178 lb/acre"));
    assert_eq!(first.room, Some(e("0.1822 lb/acre")));
    assert_eq!(first.finding.verdict, Verdict::Clear);
    input.others = Others::NotKnown;
    let others = one(&input).finding;
    assert_eq!(others.verdict, Verdict::Unknown);
    assert!(others.reasons().any(|r| *r == Reason::OthersNotKnown));
    input.planned = Some(&treatment);
    let second = one(&input);
    assert_eq!(second.with_planned, Some(e("0.4356 lb/acre")));
    assert_eq!(second.finding.verdict, Verdict::DontTreat);
    assert!(
        second
            .finding
            .reasons()
            .any(|r| *r == Reason::OthersNotKnown)
    );
    // A volume of a product whose content is a share by weight: not known, and named.
    let liquid = PutOn {
        product: Some(e("10 fl oz")),
        ..treatment.clone()
    };
    input.planned = Some(&liquid);
    input.others = Others::SaidNone;
    let part = one(&input);
    assert_eq!(
        (part.not_known, part.finding.verdict),
        (1, Verdict::Unknown)
    );
    let nothing_listed = PutOn {
        ingredients: vec![],
        ..treatment.clone()
    };
    input.planned = Some(&nothing_listed);
    assert_eq!(one(&input).finding.verdict, Verdict::Unknown);
}

/// Computed with a calendar; clocks change on 2026-03-08 and 2026-11-01 in the United States.
#[test]
fn the_earliest_repeat_is_a_day_of_the_calendar() {
    for (interval, from, to) in [
        ("30 days", day(2026, 2, 20), day(2026, 3, 22)),
        ("6 weeks", day(2026, 9, 25), day(2026, 11, 6)),
        ("1 month", day(2026, 1, 31), day(2026, 3, 1)),
        ("1 month", day(2028, 1, 29), day(2028, 2, 29)),
        ("2 months", day(2026, 12, 31), day(2027, 3, 1)),
        ("12 months", day(2028, 2, 29), day(2029, 3, 1)),
        ("25 h", day(2026, 3, 7), day(2026, 3, 9)),
    ] {
        let interval = Interval::parse(interval).unwrap();
        assert_eq!(interval.after(from), Ok(to), "{}", interval.for_person());
    }
    for text in [
        "",
        "30",
        "soon",
        "0 days",
        "-3 days",
        "1.5 months",
        "1001 months",
        "30 lb",
    ] {
        assert!(Interval::parse(text).is_err(), "{text}");
    }

    let mut asked = RepeatAsked {
        shortest: LabelSays::Value(Interval::parse("30 days").unwrap()),
        season_most: LabelSays::Value(2),
        season_from: day(2026, 1, 1),
        before: LastPutOn::Days(vec![day(2026, 5, 1), day(2025, 9, 1)]),
        planned: day(2026, 5, 31),
    };
    let next = repeat(&asked).unwrap().value;
    assert_eq!(
        (next.earliest, next.this_season),
        (Some(day(2026, 5, 31)), Some(1))
    );
    assert_eq!(next.verdict(), Verdict::Clear);
    asked.planned = day(2026, 5, 30);
    assert_eq!(repeat(&asked).unwrap().value.verdict(), Verdict::DontTreat);
    asked.planned = day(2026, 8, 1);
    asked.before = LastPutOn::Days(vec![day(2026, 5, 1), day(2026, 6, 15)]);
    let reached = repeat(&asked).unwrap().value;
    assert_eq!(reached.findings[1].reason, Reason::SeasonCountReached);
    asked.before = LastPutOn::NotKnown;
    assert_eq!(repeat(&asked).unwrap().value.verdict(), Verdict::Unknown);
    asked.before = LastPutOn::Days(vec![day(2026, 8, 2)]);
    assert!(repeat(&asked).is_err());
}

/// Computed by hand.
#[test]
fn stock_is_taken_oldest_first_and_never_past_its_day() {
    let lot = |name: &str, on_hand: Option<&str>, opened, bought, expires| Lot {
        name: name.into(),
        on_hand: on_hand.map(e),
        bought,
        opened,
        expires,
    };
    let spring = Some(day(2026, 3, 1));
    let lots = [
        lot("new", Some("20 lb"), None, spring, LabelSays::Nothing),
        lot(
            "old",
            Some("10 lb"),
            None,
            Some(day(2025, 3, 1)),
            LabelSays::Nothing,
        ),
        lot("open", Some("64 oz"), spring, spring, LabelSays::Nothing),
        lot(
            "past",
            Some("50 lb"),
            spring,
            spring,
            LabelSays::Value(day(2026, 5, 31)),
        ),
        lot("guess", None, None, None, LabelSays::Nothing),
    ];
    let mut asked = StockAsked {
        lots: &lots,
        needed: e("15 lb"),
        day: day(2026, 6, 1),
    };
    let plan = stock(&asked).unwrap().value;
    let uses: Vec<_> = plan.lots.iter().map(|l| (&*l.name, l.take)).collect();
    assert_eq!(
        uses,
        [("open", e("4 lb")), ("old", e("10 lb")), ("new", e("1 lb"))]
    );
    assert_eq!((plan.on_hand, plan.short), (e("34 lb"), None));
    assert_eq!(
        plan.verdict(),
        Verdict::Caution,
        "a lot past its day is named"
    );
    asked.needed = e("40 lb");
    let short = stock(&asked).unwrap().value;
    assert_eq!(short.short, Some(e("6 lb")));
    assert_eq!(short.verdict(), Verdict::Unknown, "nobody measured one lot");
    asked.needed = e("3 fl oz");
    assert!(stock(&asked).is_err());
}

/// Computed by hand: mounds with tablespoons, and drenched.
#[test]
fn spots_are_held_against_the_labels_most_over_the_area() {
    let cup = vessel("0.5 tbsp");
    let job = SpotJob {
        dose: e("2 tbsp"),
        mix: None,
        spot_most: LabelSays::Value(e("1 fl oz")),
        area_most: LabelSays::Value(e("24 fl oz/acre")),
        count: 12,
        area: lawn("0.5 acre"),
        vessel: &cup,
    };
    let plan = spots(&job).unwrap().value;
    // 2 tbsp are 1 fl oz; 12 of them on half an acre are 24 fl oz an acre.
    assert_eq!(plan.product, e("24 tbsp"));
    assert_eq!(plan.spots_most, Some(12));
    assert_eq!(plan.verdict(), Verdict::Clear);
    let one_more = spots(&SpotJob {
        count: 13,
        ..job.clone()
    });
    assert_eq!(one_more.unwrap().value.verdict(), Verdict::DontTreat);
    let heavy = spots(&SpotJob {
        dose: e("2.5 tbsp"),
        ..job.clone()
    });
    assert_eq!(
        heavy.unwrap().value.findings[0].reason,
        Reason::RateAboveMost
    );

    let ounce = vessel("0.5 fl oz");
    let drench = spots(&SpotJob {
        dose: e("0.5 fl oz/gal"),
        mix: Some(e("1.5 gal")),
        spot_most: LabelSays::Unfilled,
        area_most: LabelSays::Unfilled,
        vessel: &ounce,
        ..job
    })
    .unwrap()
    .value;
    assert_eq!(drench.mix, Some(e("18 gal")));
    assert_eq!(drench.product, e("9 fl oz"));
    assert_eq!(drench.verdict(), Verdict::Unknown);
}

/// Common practice, no source.
#[test]
fn bait_wants_dry_ground_and_ants_out_for_food() {
    let look = BaitLook {
        fresh: Some(true),
        ground_dry: Some(true),
        stays_dry: Some(true),
        foraging: Some(Foraging::Ground(e("80 F"))),
        age_min: Some(10),
    };
    let verdict = |look: &BaitLook| sum(&bait_findings(look).unwrap());
    assert_eq!(verdict(&look), Verdict::Clear);
    let cold = BaitLook {
        foraging: Some(Foraging::Ground(e("55 F"))),
        ..look.clone()
    };
    assert_eq!(verdict(&cold), Verdict::Caution);
    let early = BaitLook {
        foraging: Some(Foraging::Chip {
            ants: false,
            minutes: 10,
        }),
        ..look.clone()
    };
    assert_eq!(verdict(&early), Verdict::Unknown);
    let wet = BaitLook {
        ground_dry: Some(false),
        ..look.clone()
    };
    assert_eq!(verdict(&wet), Verdict::Caution);
    let undated = BaitLook {
        age_min: None,
        ..look.clone()
    };
    assert_eq!(verdict(&undated), Verdict::Unknown);
    let absurd = BaitLook {
        foraging: Some(Foraging::Ground(e("500 F"))),
        ..look
    };
    assert!(bait_findings(&absurd).is_err());
}
