//! Corner cases of a plan; what must hold for any plan is in `properties`.

use super::*;
use crate::finding::Check;
use crate::label::{Ingredient, KeepOffTerms, LabelSays};

mod properties;
mod swath_and_rest;

fn e(text: &str) -> Entered {
    Entered::parse(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

fn label(method: Method, least: Option<&str>, most: Option<&str>) -> Label {
    let or = |empty, text: Option<&str>| text.map_or(empty, |t| LabelSays::Value(e(t)));
    Label {
        product: "Example".into(),
        registration: "000-0".into(),
        method,
        ingredients: vec![],
        rate_least: or(LabelSays::Nothing, least),
        rate_most: or(LabelSays::Unfilled, most),
        carrier_least: LabelSays::Nothing,
        wind_most: LabelSays::Unfilled,
        rain_free: LabelSays::Unfilled,
        temperature_least: LabelSays::Unfilled,
        temperature_most: LabelSays::Unfilled,
        keep_off: KeepOffTerms::default(),
        watering_in: LabelSays::Unfilled,
        repeat_after: LabelSays::Unfilled,
    }
}

fn section(name: &str, area: &str, uncertainty: &str) -> Section {
    let area = AreaEstimate::stated(&e(area), &e(uncertainty)).unwrap();
    Section {
        name: name.into(),
        area,
    }
}

fn scale(step: &str) -> Vessel {
    Vessel {
        name: "scale".into(),
        least_step: e(step),
    }
}

/// A granular job that a test then changes.
fn dry<'a>(sections: &'a [Section], label: &'a Label, vessel: &'a Vessel) -> PlanInput<'a> {
    PlanInput {
        sections,
        label,
        rate: e("2.5 lb/1000 ft2"),
        carrier: None,
        capacity: e("20 lb"),
        vessel,
        passes: Passes::One,
        swath: None,
        basis: AreaBasis::Best,
    }
}

fn granule() -> Label {
    label(Method::Granule, None, Some("2.5 lb/1000 ft2"))
}

fn verdicts(plan: &Plan) -> Vec<Verdict> {
    plan.findings.iter().map(|f| f.verdict).collect()
}

#[test]
fn an_amount_that_is_round_by_hand_does_not_fall_a_step_short() {
    let sections = [section("a", "12000 ft2", "1 ft2")];
    let plan = plan(&dry(&sections, &granule(), &scale("0.1 lb"))).unwrap();
    assert_eq!(plan.product.value.measured_out, e("30 lb"));
    assert!(plan.product.value.change_percent.abs() < 1e-12);
}

#[test]
fn one_rate_rounds_down_and_a_range_rounds_to_the_nearest() {
    // 2.98 lb by hand.
    let sections = [section("a", "1192 ft2", "1 ft2")];
    let vessel = scale("0.25 lb");
    let one = plan(&dry(&sections, &granule(), &vessel)).unwrap();
    assert_eq!(one.product.value.measured_out, e("2.75 lb"));
    // 2.75 / 2.98 is 7.7 % less: flagged, though nothing is above the label.
    assert_eq!(verdicts(&one), [Verdict::Clear, Verdict::Caution]);

    let range = label(
        Method::Granule,
        Some("2 lb/1000 ft2"),
        Some("3 lb/1000 ft2"),
    );
    let near = plan(&dry(&sections, &range, &vessel)).unwrap();
    assert_eq!(near.product.value.measured_out, e("3 lb"));
    assert_eq!(near.verdict(), Verdict::Clear);

    // At the range's most, up is off the label.
    let mut input = dry(&sections, &range, &vessel);
    input.rate = e("3 lb/1000 ft2");
    assert_eq!(
        plan(&input).unwrap().product.value.measured_out,
        e("3.5 lb")
    );
}

#[test]
fn an_uncertain_area_never_lets_rounding_go_up() {
    let range = label(
        Method::Granule,
        Some("2 lb/1000 ft2"),
        Some("2.6 lb/1000 ft2"),
    );
    let vessel = scale("0.25 lb");
    let sure = [section("a", "1192 ft2", "1 ft2")];
    assert_eq!(
        plan(&dry(&sure, &range, &vessel))
            .unwrap()
            .product
            .value
            .measured_out,
        e("3 lb")
    );
    // 2.6 lb over 1192 − 40 ft² is 2.995 lb.
    let unsure = [section("a", "1192 ft2", "40 ft2")];
    let plan = plan(&dry(&unsure, &range, &vessel)).unwrap();
    assert_eq!(plan.product.value.measured_out, e("2.75 lb"));
}

#[test]
fn an_uncertain_area_is_flagged_and_can_be_planned_smaller() {
    let sections = [section("slope", "10000 ft2", "1000 ft2")];
    let (label, vessel) = (granule(), scale("0.1 lb"));
    let best = plan(&dry(&sections, &label, &vessel)).unwrap();
    assert_eq!(best.product.value.exact, e("25 lb"));
    assert_eq!(best.verdict(), Verdict::Caution);
    let mut input = dry(&sections, &label, &vessel);
    input.basis = AreaBasis::LessUncertainty;
    assert_eq!(plan(&input).unwrap().product.value.exact, e("22.5 lb"));
    let nothing_sure = [section("slope", "1000 ft2", "1000 ft2")];
    input.sections = &nothing_sure;
    assert!(matches!(
        plan(&input),
        Err(RuleError::In { field: Field::Section { .. }, inner })
            if matches!(*inner, RuleError::NotAllowed { field: Field::Area, .. })
    ));
}

#[test]
fn the_rate_is_held_against_the_label() {
    let range = label(
        Method::Granule,
        Some("2 lb/1000 ft2"),
        Some("3 lb/1000 ft2"),
    );
    let verdict = |label: &Label, rate: &str| sum(&rate_findings(label, &e(rate)).unwrap());
    assert_eq!(verdict(&range, "3 lb/1000 ft2"), Verdict::Clear);
    assert_eq!(verdict(&range, "3.001 lb/1000 ft2"), Verdict::DontTreat);
    assert_eq!(verdict(&range, "48 oz/1000 ft2"), Verdict::Clear);
    assert_eq!(verdict(&range, "48.1 oz/1000 ft2"), Verdict::DontTreat);
    assert_eq!(verdict(&range, "130.68 lb/acre"), Verdict::Clear);
    assert_eq!(verdict(&range, "130.69 lb/acre"), Verdict::DontTreat);
    assert_eq!(verdict(&range, "1.9 lb/1000 ft2"), Verdict::Caution);
    assert_eq!(
        verdict(&label(Method::Granule, None, None), "2 lb/1000 ft2"),
        Verdict::Unknown
    );
    let mut silent = granule();
    silent.rate_most = LabelSays::Nothing;
    assert_eq!(verdict(&silent, "2 lb/1000 ft2"), Verdict::Unknown);
    let mut empty = range.clone();
    empty.rate_least = LabelSays::Unfilled;
    assert_eq!(verdict(&empty, "1.9 lb/1000 ft2"), Verdict::Unknown);
    assert_eq!(verdict(&empty, "3.1 lb/1000 ft2"), Verdict::DontTreat);
    // A least alone must not make an unknown most look better.
    let least_only = label(Method::Granule, Some("2 lb/1000 ft2"), None);
    assert_eq!(verdict(&least_only, "1 lb/1000 ft2"), Verdict::Unknown);
}

#[test]
fn a_sheet_that_contradicts_itself_is_an_error() {
    let wrong = label(
        Method::Granule,
        Some("3 lb/1000 ft2"),
        Some("2 lb/1000 ft2"),
    );
    let error = rate_findings(&wrong, &e("2 lb/1000 ft2")).unwrap_err();
    assert!(matches!(error, RuleError::LeastAboveMost { .. }));
    let kinds = label(
        Method::Granule,
        Some("3 oz/1000 ft2"),
        Some("4 fl oz/1000 ft2"),
    );
    assert!(rate_findings(&kinds, &e("3 fl oz/1000 ft2")).is_err());
}

#[test]
fn a_weight_for_a_volume_is_named() {
    let liquid = label(Method::FoliarSpray, None, Some("0.6 fl oz/1000 ft2"));
    assert_eq!(
        rate_findings(&liquid, &e("0.6 oz/1000 ft2"))
            .unwrap_err()
            .to_string(),
        "rate: 0.6 oz/1000 ft² is a weight per area, where a volume per area is needed; an ounce \
         of weight is not a fluid ounce: write fl oz if that is meant"
    );
    let sections = [section("a", "1000 ft2", "1 ft2")];
    let (label, cup) = (
        granule(),
        Vessel {
            name: "cup".into(),
            least_step: e("1 fl oz"),
        },
    );
    let error = plan(&dry(&sections, &label, &cup)).unwrap_err();
    assert!(
        error
            .to_string()
            .starts_with("step of the vessel: 1 fl oz is a volume"),
        "{error}"
    );
}

#[test]
fn a_hopper_is_filled_in_whole_steps() {
    let sections = [
        section("front", "7000 ft2", "1 ft2"),
        section("back", "12345 ft2", "1 ft2"),
    ];
    let plan = plan(&dry(&sections, &granule(), &scale("0.1 lb"))).unwrap();
    // 17.5 and 30.8625 lb, measured 17.5 and 30.8.
    assert_eq!(plan.product.value.measured_out, e("48.3 lb"));
    let loads: Vec<Entered> = plan.loads.value.iter().map(|l| l.product).collect();
    assert_eq!(loads, [e("20 lb"), e("20 lb"), e("8.3 lb")]);
    assert!(plan.carrier.is_none() && plan.sections.iter().all(|s| s.carrier.is_none()));
}

#[test]
fn two_passes_sum_to_the_whole() {
    let sections = [section("a", "12345 ft2", "1 ft2")];
    let (label, vessel) = (granule(), scale("0.1 lb"));
    let mut input = dry(&sections, &label, &vessel);
    input.passes = Passes::TwoAtRightAngles;
    input.swath = Some(e("8 ft"));
    let passes = plan(&input).unwrap().passes.value;
    assert_eq!(passes.rate_each, e("1.25 lb/1000 ft2"));
    assert_eq!(passes.product, [e("15.4 lb"), e("15.4 lb")]);
    assert_eq!(passes.line_spacing, Some(e("8 ft")));
    input.passes = Passes::HalfSwath;
    let passes = plan(&input).unwrap().passes.value;
    assert_eq!(
        (passes.line_spacing, passes.product),
        (Some(e("4 ft")), vec![e("30.8 lb")])
    );
    input.swath = Some(e("8 lb"));
    assert!(plan(&input).is_err());
}

#[test]
fn a_powder_in_water_is_weighed_and_the_tank_is_a_volume() {
    let powder = label(Method::FoliarSpray, None, Some("2 oz/1000 ft2"));
    let sections = [section("a", "3000 ft2", "1 ft2")];
    let vessel = scale("0.1 oz");
    let mut input = dry(&sections, &powder, &vessel);
    input.rate = e("2 oz/1000 ft2");
    input.carrier = Some(e("2 gal/1000 ft2"));
    input.capacity = e("4 gal");
    let plan = plan(&input).unwrap();
    let loads: Vec<_> = plan
        .loads
        .value
        .iter()
        .map(|l| (l.product, l.carrier))
        .collect();
    assert_eq!(
        loads,
        [(e("4 oz"), Some(e("4 gal"))), (e("2 oz"), Some(e("2 gal")))]
    );
    assert_eq!(plan.verdict(), Verdict::Clear);
    input.capacity = e("4 lb");
    assert!(
        super::plan(&input)
            .unwrap_err()
            .to_string()
            .starts_with("tank: 4 lb is a weight")
    );
}

#[test]
fn a_tank_that_divides_the_job_has_no_odd_load() {
    let liquid = label(Method::Drench, None, Some("1 fl oz/1000 ft2"));
    let sections = [section("a", "8000 ft2", "1 ft2")];
    let vessel = Vessel {
        name: "cup".into(),
        least_step: e("0.5 fl oz"),
    };
    let mut input = dry(&sections, &liquid, &vessel);
    input.rate = e("1 fl oz/1000 ft2");
    input.carrier = Some(e("2 gal/1000 ft2"));
    input.capacity = e("4 gal");
    assert_eq!(plan(&input).unwrap().loads.value.len(), 4);
}

#[test]
fn carrier_and_method_go_together() {
    let sections = [section("a", "1000 ft2", "1 ft2")];
    let (granule, vessel) = (granule(), scale("0.1 lb"));
    let mut input = dry(&sections, &granule, &vessel);
    input.carrier = Some(e("2 gal/1000 ft2"));
    assert!(matches!(plan(&input), Err(RuleError::CarrierForDry { .. })));
    let mut spray = label(Method::FoliarSpray, None, Some("2.5 lb/1000 ft2"));
    input = dry(&sections, &spray, &vessel);
    assert!(matches!(plan(&input), Err(RuleError::CarrierNeeded)));

    let carrier = |label: &Label, text: &str| carrier_finding(label, &e(text)).unwrap().verdict;
    assert_eq!(carrier(&spray, "2 gal/1000 ft2"), Verdict::Clear);
    spray.carrier_least = LabelSays::Unfilled;
    assert_eq!(carrier(&spray, "2 gal/1000 ft2"), Verdict::Unknown);
    spray.carrier_least = LabelSays::Value(e("2 gal/1000 ft2"));
    assert_eq!(carrier(&spray, "2 gal/1000 ft2"), Verdict::Clear);
    assert_eq!(carrier(&spray, "1.9 gal/1000 ft2"), Verdict::DontTreat);
    assert!(carrier_finding(&spray, &e("2 lb/1000 ft2")).is_err());
    assert!(carrier_finding(&spray, &e("0 gal/1000 ft2")).is_err());
}

#[test]
fn what_cannot_be_planned_is_said() {
    let sections = [section("a", "1000 ft2", "1 ft2")];
    let (label, vessel) = (granule(), scale("0.1 lb"));
    let input = dry(&sections, &label, &vessel);
    let with = |change: &dyn Fn(&mut PlanInput<'_>)| {
        let mut changed = input.clone();
        change(&mut changed);
        plan(&changed).unwrap_err()
    };
    let coarse = scale("5 lb");
    let zero = scale("0 lb");
    assert!(matches!(with(&|i| i.sections = &[]), RuleError::NoSections));
    assert!(matches!(
        with(&|i| i.rate = e("0 lb/1000 ft2")),
        RuleError::NotPositive { .. }
    ));
    assert!(matches!(
        with(&|i| i.rate = e("5 lb")),
        RuleError::NotAllowed {
            field: Field::Rate,
            ..
        }
    ));
    assert!(matches!(
        with(&|i| i.capacity = e("0 lb")),
        RuleError::NotPositive { .. }
    ));
    assert!(matches!(
        with(&|i| i.capacity = e("0.05 lb")),
        RuleError::VesselTooCoarse { .. }
    ));
    assert!(matches!(
        with(&|i| i.rate = e("999999999 lb/ft2")),
        RuleError::TooManyLoads { .. }
    ));
    let twice = [sections[0].clone(), sections[0].clone()];
    let mut same = input.clone();
    same.sections = &twice;
    assert!(matches!(plan(&same), Err(RuleError::SameName { .. })));
    for vessel in [&coarse, &zero] {
        let mut changed = input.clone();
        changed.vessel = vessel;
        assert!(plan(&changed).is_err());
    }
    // The ends of what can be entered give errors, never a panic.
    let finest = scale("0.000000000001 lb");
    let mut extreme = input.clone();
    extreme.vessel = &finest;
    extreme.rate = e("999999999999 lb/ft2");
    assert!(plan(&extreme).is_err());
    let mut area = sections[0].area;
    for value in [f64::NAN, f64::INFINITY, -1.0, 0.0, 1e300] {
        area.area.value = value;
        let bad = [Section {
            name: "a".into(),
            area,
        }];
        let mut changed = input.clone();
        changed.sections = &bad;
        assert!(plan(&changed).is_err(), "{value}");
    }
}

#[test]
fn a_product_that_fills_the_tank_is_refused() {
    let liquid = label(Method::Drench, None, Some("3 gal/1000 ft2"));
    let sections = [section("a", "1000 ft2", "1 ft2")];
    let vessel = Vessel {
        name: "jug".into(),
        least_step: e("0.5 gal"),
    };
    let mut input = dry(&sections, &liquid, &vessel);
    input.rate = e("3 gal/1000 ft2");
    input.carrier = Some(e("2 gal/1000 ft2"));
    input.capacity = e("4 gal");
    assert!(matches!(
        plan(&input),
        Err(RuleError::ProductFillsTank { .. })
    ));
}

#[test]
fn a_share_by_weight_says_nothing_of_a_volume() {
    let mut liquid = label(Method::Drench, None, Some("1 fl oz/1000 ft2"));
    liquid.ingredients = vec![Ingredient {
        name: "imidacloprid".into(),
        content: e("21.4 %"),
    }];
    let dose = ingredients::doses(&liquid, &e("1 fl oz/1000 ft2"))
        .unwrap()
        .remove(0);
    assert_eq!(dose.value.per_acre, None);
    assert!(dose.working.notes.contains(&crate::Note::NoDensity));
    liquid.ingredients[0].content = e("101 %");
    assert!(ingredients::doses(&liquid, &e("1 fl oz/1000 ft2")).is_err());
    liquid.ingredients[0].content = e("5 ft");
    assert!(ingredients::doses(&liquid, &e("1 fl oz/1000 ft2")).is_err());
}

#[test]
fn half_way_stops_above_the_labels_most_and_never_averages() {
    let sheet = granule();
    let check = |rate: &str, left: &str, done: &str, label: &Label| {
        half_way_check(&HalfWay {
            label,
            rate: e(rate),
            planned: e("10 lb"),
            filled: e("10 lb"),
            left: e(left),
            done: e(done),
        })
    };
    let heavy = check("2.5 lb/1000 ft2", "4.2 lb", "50 %", &sheet)
        .unwrap()
        .value;
    assert_eq!(heavy.finding.verdict, Verdict::DontTreat);
    assert_eq!(
        (heavy.for_the_rest, heavy.missing),
        (e("5 lb"), Some(e("0.8 lb")))
    );
    assert_eq!(heavy.rate_done, e("2.9 lb/1000 ft2"));
    // The same excess under a higher most is only heavy.
    let range = label(
        Method::Granule,
        Some("2 lb/1000 ft2"),
        Some("3 lb/1000 ft2"),
    );
    let within = check("2.5 lb/1000 ft2", "4.2 lb", "50 %", &range)
        .unwrap()
        .value;
    assert_eq!(within.finding.verdict, Verdict::Caution);
    let light = check("2.5 lb/1000 ft2", "6 lb", "50 %", &sheet)
        .unwrap()
        .value;
    assert_eq!(
        (light.finding.verdict, light.missing),
        (Verdict::Caution, None)
    );
    let right = check("2.5 lb/1000 ft2", "5 lb", "50 %", &sheet)
        .unwrap()
        .value;
    assert_eq!(right.finding.verdict, Verdict::Clear);
    let unknown = label(Method::Granule, None, None);
    let unknown = check("2.5 lb/1000 ft2", "5 lb", "50 %", &unknown)
        .unwrap()
        .value;
    assert_eq!(unknown.finding.verdict, Verdict::Unknown);
    for (left, done) in [
        ("10.1 lb", "50 %"),
        ("5 lb", "0 %"),
        ("5 lb", "100 %"),
        ("5 oz", "5 ft"),
    ] {
        assert!(
            check("2.5 lb/1000 ft2", left, done, &sheet).is_err(),
            "{left} {done}"
        );
    }
    let hardly = check("2.5 lb/1000 ft2", "0 lb", "0.000000000001 %", &sheet);
    assert!(matches!(hardly, Err(RuleError::OutOfRange { .. })));
}

#[test]
fn every_finding_of_a_plan_is_about_the_rate() {
    let sections = [section("a", "1192 ft2", "300 ft2")];
    let plan = plan(&dry(&sections, &granule(), &scale("0.25 lb"))).unwrap();
    assert!(plan.findings.len() > 2);
    assert!(plan.findings.iter().all(|f| f.check == Check::Rate));
    let json = serde_json::to_value(&plan).unwrap();
    assert_eq!(json["product"]["value"]["measured_out"], "2.75 [lb_av]");
}
