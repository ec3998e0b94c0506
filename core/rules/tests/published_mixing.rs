//! Doses, loads and water against published and independently computed values.

use sward_rules::label::{Ingredient, KeepOffTerms, Label, LabelSays, Method};
use sward_rules::measure::AreaEstimate;
use sward_rules::plan::{
    AreaBasis, HalfWay, Passes, Plan, PlanInput, Section, Vessel, half_way_check, plan,
    watering_in_volume,
};
use sward_rules::{Entered, Verdict};

fn e(text: &str) -> Entered {
    Entered::parse(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

fn area(text: &str) -> AreaEstimate {
    AreaEstimate::stated(&e(text), &e("0 ft2")).expect("an area")
}

fn label(method: Method, most: &str, ingredient: Option<&str>) -> Label {
    let ingredients = ingredient
        .map(|content| Ingredient {
            name: "bifenthrin".into(),
            content: e(content),
        })
        .into_iter()
        .collect();
    Label {
        product: "Example".into(),
        registration: "000-0".into(),
        method,
        ingredients,
        rate_least: LabelSays::Nothing,
        rate_most: LabelSays::Value(e(most)),
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

struct Job<'a> {
    area: &'a str,
    rate: &'a str,
    carrier: Option<&'a str>,
    capacity: &'a str,
    step: &'a str,
    content: Option<&'a str>,
    passes: Passes,
}

impl Job<'_> {
    fn plan(&self) -> Plan {
        let method = if self.carrier.is_some() {
            Method::Drench
        } else {
            Method::Granule
        };
        let label = label(method, self.rate, self.content);
        let vessel = Vessel {
            name: "measure".into(),
            least_step: e(self.step),
        };
        plan(&PlanInput {
            sections: &[Section {
                name: "lawn".into(),
                area: area(self.area),
            }],
            label: &label,
            rate: e(self.rate),
            carrier: self.carrier.map(e),
            capacity: e(self.capacity),
            vessel: &vessel,
            passes: self.passes,
            swath: None,
            basis: AreaBasis::Best,
        })
        .expect("a job that can be planned")
    }
}

/// Active ingredient in pounds an acre.
fn per_acre(rate: &str, content: &str) -> f64 {
    let carrier = rate.contains("mL").then_some("2 gal/1000 ft2");
    let job = Job {
        area: "1000 ft2",
        rate,
        carrier,
        capacity: if carrier.is_some() { "4 gal" } else { "20 lb" },
        step: if carrier.is_some() { "0.1 mL" } else { "0.1 g" },
        content: Some(content),
        passes: Passes::One,
    };
    let dose = job
        .plan()
        .ingredients
        .remove(0)
        .value
        .per_acre
        .expect("a known dose");
    assert_eq!(dose.unit(), e("1 lb/acre").unit());
    dose.amount().to_string().parse().expect("a number")
}

/// PNW Pest Management Handbooks: product per 1000 ft² for one pound of ingredient an acre,
/// printed 87, 43, 22 mL and 13, 21, 52 g; computed to a digit more.
#[test]
fn one_pound_of_ingredient_an_acre() {
    for (rate, content) in [
        ("86.9 mL/1000 ft2", "1 lb/gal"),
        ("43.45 mL/1000 ft2", "2 lb/gal"),
        ("21.725 mL/1000 ft2", "4 lb/gal"),
        ("13.0 g/1000 ft2", "80 %"),
        ("20.8 g/1000 ft2", "50 %"),
        ("52.1 g/1000 ft2", "20 %"),
    ] {
        let pounds = per_acre(rate, content);
        assert!(
            (pounds - 1.0).abs() < 0.002,
            "{rate} of {content}: {pounds}"
        );
    }
}

/// Common worked example: 2 lb of ingredient from an 80 % powder are 2.5 lb of it.
#[test]
fn two_pounds_of_ingredient_from_a_powder() {
    assert!((per_acre("2.5 lb/acre", "80 %") - 2.0).abs() < 1e-9);
}

/// Common worked example: 3.5 acres at 15 gal an acre.
#[test]
fn carrier_for_acres() {
    let job = Job {
        area: "3.5 acres",
        rate: "2.5 lb/acre",
        carrier: Some("15 gal/acre"),
        capacity: "100 gal",
        step: "0.25 oz",
        content: None,
        passes: Passes::One,
    };
    assert_eq!(job.plan().carrier.unwrap().value, e("52.5 gal"));
}

/// Pesticide Environmental Stewardship, Calculations for Mixing: 2 lb in 100 gal, so 6.4 oz in 20.
#[test]
fn a_small_tank_of_a_large_recipe() {
    let job = Job {
        area: "10000 ft2",
        // 2 gal on 1000 ft² carry 2/100 of 2 lb.
        rate: "0.64 oz/1000 ft2",
        carrier: Some("2 gal/1000 ft2"),
        capacity: "20 gal",
        step: "0.1 oz",
        content: None,
        passes: Passes::One,
    };
    let loads = job.plan().loads.value;
    assert_eq!(loads.len(), 1);
    assert_eq!(loads[0].product, e("6.4 oz"));
}

/// Computed: 12,345 ft² at 0.6 fl oz and 2 gal per 1000 ft² from a 4-gal tank.
#[test]
fn a_liquid_with_an_odd_last_load() {
    let mut job = Job {
        area: "12345 ft2",
        rate: "0.6 fl oz/1000 ft2",
        carrier: Some("2 gal/1000 ft2"),
        capacity: "4 gal",
        step: "0.001 fl oz",
        content: None,
        passes: Passes::TwoAtRightAngles,
    };
    let fine = job.plan();
    assert_eq!(fine.product.value.exact, e("7.407 fl oz"));
    assert_eq!(fine.product.value.measured_out, e("7.407 fl oz"));
    assert_eq!(fine.carrier.as_ref().unwrap().value, e("24.69 gal"));
    let loads: Vec<_> = fine
        .loads
        .value
        .iter()
        .map(|l| (l.product, l.carrier.unwrap()))
        .collect();
    assert_eq!(loads.len(), 7);
    assert!(
        loads[..6]
            .iter()
            .all(|l| *l == (e("1.2 fl oz"), e("4 gal")))
    );
    assert_eq!(loads[6], (e("0.207 fl oz"), e("0.69 gal")));
    assert_eq!(fine.passes.value.rate_each, e("0.3 fl oz/1000 ft2"));
    assert_eq!(
        fine.passes.value.carrier,
        [e("12.345 gal"), e("12.345 gal")]
    );

    job.step = "0.1 fl oz";
    let coarse = job.plan();
    assert_eq!(coarse.loads.value[6].product, e("0.2 fl oz"));
    assert_eq!(coarse.product.value.measured_out, e("7.4 fl oz"));
    assert_eq!(coarse.verdict(), Verdict::Clear);
}

/// Computed: 2.5 lb per 1000 ft² on the same lawn, 0.2 % of ingredient.
#[test]
fn a_granular_product() {
    let job = Job {
        area: "12345 ft2",
        rate: "2.5 lb/1000 ft2",
        carrier: None,
        capacity: "15 lb",
        step: "0.1 lb",
        content: Some("0.2 %"),
        passes: Passes::TwoAtRightAngles,
    };
    let plan = job.plan();
    assert_eq!(plan.product.value.exact, e("30.8625 lb"));
    assert_eq!(plan.product.value.measured_out, e("30.8 lb"));
    assert_eq!(
        plan.ingredients[0].value.per_acre,
        Some(e("0.2178 lb/acre"))
    );
    // Two passes at half the rate each (UMass Extension, Rotary Spreader Calibration Procedures).
    assert_eq!(plan.passes.value.rate_each, e("1.25 lb/1000 ft2"));
    assert_eq!(plan.passes.value.product, [e("15.4 lb"), e("15.4 lb")]);
}

/// Computed: 231 cubic inches to the gallon.
#[test]
fn watering_in() {
    for (depth, gallons) in [
        ("0.1 in", "62.338"),
        ("0.25 in", "155.844"),
        ("0.5 in", "311.688"),
        ("1 in", "623.377"),
    ] {
        let water = watering_in_volume(&e(depth), &area("1000 ft2"))
            .unwrap()
            .value;
        assert_eq!(water.amount().round_dp(3).to_string(), gallons);
    }
    let litre = watering_in_volume(&e("1 mm"), &area("1 m2")).unwrap().value;
    assert_eq!(
        litre.convert(e("1 L").unit()).unwrap().amount().round_dp(6),
        1.into()
    );
    assert!(watering_in_volume(&e("0 in"), &area("1 m2")).is_err());
    assert!(watering_in_volume(&e("2 m"), &area("1 m2")).is_err());
    assert!(watering_in_volume(&e("1 gal"), &area("1 m2")).is_err());
}

/// Computed: 10 lb at the start for 10 lb planned, half done, 4.2 lb left.
#[test]
fn half_way() {
    let label = label(Method::Granule, "2.5 lb/1000 ft2", None);
    let found = half_way_check(&HalfWay {
        label: &label,
        rate: e("2.5 lb/1000 ft2"),
        planned: e("10 lb"),
        filled: e("10 lb"),
        left: e("4.2 lb"),
        done: e("50 %"),
    })
    .unwrap()
    .value;
    assert_eq!((found.used, found.due), (e("5.8 lb"), e("5 lb")));
    assert!((found.off_percent - 16.0).abs() < 1e-9);
    // The other half still gets the label's rate.
    assert_eq!(found.for_the_rest, e("5 lb"));
    assert_eq!(found.finding.verdict, Verdict::DontTreat);
    assert!(
        found.finding.why().starts_with("stop"),
        "{}",
        found.finding.why()
    );
}
