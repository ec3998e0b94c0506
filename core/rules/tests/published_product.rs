//! Rates in every form, hose-end sprayers and swaths against published and independently computed
//! values.

use sward_rules::calibrate::TimedCatch;
use sward_rules::finding::sum;
use sward_rules::label::{Label, LabelSays, Method};
use sward_rules::measure::AreaEstimate;
use sward_rules::mix::{
    DialAsked, hose_end_dial, hose_end_test, product_for_ingredient, product_in_mix, product_over,
    rate_forms, rate_from_mix, rate_of_coverage,
};
use sward_rules::plan::{SettingUse, TimesOver, Vessel, measure_out, setting_used};
use sward_rules::{Entered, Verdict};

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

/// Pesticide Environmental Stewardship, Hose-end Sprayer Calibration; computed.
#[test]
fn a_hose_end_sprayer() {
    let mut test = TimedCatch {
        area: e("250 ft2"),
        area_time: e("20 s"),
        caught: e("1.25 gal"),
        catch_time: e("20 s"),
    };
    let carrier = hose_end_test(&test).unwrap().value;
    assert_eq!(carrier, e("5 gal/1000 ft2"));
    // Computed: caught for a minute, the same flow is 3.75 gal.
    test.caught = e("3.75 gal");
    test.catch_time = e("1 min");
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
    // The label's most is higher than what was asked for: more than planned, but allowed.
    let room = Label {
        rate_most: LabelSays::Value(e("6 fl oz/1000 ft2")),
        ..label.clone()
    };
    let allowed = DialAsked {
        label: &room,
        ..asked.clone()
    };
    let allowed = hose_end_dial(&allowed).unwrap().value;
    assert_eq!(sum(&allowed.findings), Verdict::Caution);
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
