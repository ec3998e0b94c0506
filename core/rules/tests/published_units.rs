//! Units against values that are exact by definition, and against published rates.
//!
//! "Definition": international yard and pound of 1959, US gallon of 231 cubic inches, knot of
//! 1852 m an hour. "pint": computed with the Python library of that name.

use std::cmp::Ordering;

use sward_rules::Entered;
use sward_rules::quantity::Unit;
use uom::si::{
    area::square_meter, length::millimeter, mass::gram, pressure::kilopascal,
    thermodynamic_temperature::degree_celsius, time::hour, velocity::meter_per_second,
    volume::milliliter,
};

fn e(text: &str) -> Entered {
    Entered::parse(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

fn near(value: f64, expected: f64) {
    assert!(
        (value / expected - 1.0).abs() < 1e-11,
        "{value} is not {expected}"
    );
}

fn equal(a: &str, b: &str) {
    assert_eq!(e(a).compare(&e(b)), Ok(Ordering::Equal), "{a} and {b}");
}

#[test]
fn exact_by_definition() {
    near(
        e("1 ft2").to_area().unwrap().get::<square_meter>(),
        0.092_903_04,
    );
    near(
        e("1 acre").to_area().unwrap().get::<square_meter>(),
        4_046.856_422_4,
    );
    near(
        e("1 gal").to_volume().unwrap().get::<milliliter>(),
        3_785.411_784,
    );
    near(
        e("1 fl oz").to_volume().unwrap().get::<milliliter>(),
        29.573_529_562_5,
    );
    near(e("1 lb").to_mass().unwrap().get::<gram>(), 453.592_37);
    near(e("1 oz").to_mass().unwrap().get::<gram>(), 28.349_523_125);
    near(
        e("1 psi").to_pressure().unwrap().get::<kilopascal>(),
        6.894_757_293_168,
    );
    near(
        e("1 mph").to_speed().unwrap().get::<meter_per_second>(),
        0.447_04,
    );
    near(
        e("1 kn").to_speed().unwrap().get::<meter_per_second>(),
        0.514_444_444_444_4,
    );
    near(e("1 in").to_length().unwrap().get::<millimeter>(), 25.4);
    near(e("1 wk").to_time().unwrap().get::<hour>(), 168.0);
    let celsius = |text: &str| e(text).to_temperature().unwrap().get::<degree_celsius>();
    assert!((celsius("32 F")).abs() < 1e-9);
    near(celsius("212 F"), 100.0);
    near(celsius("-40 F"), celsius("-40 C"));
}

#[test]
fn whole_numbers_of_one_unit_in_another_are_exact() {
    equal("1 acre", "43560 ft2");
    equal("1 gal", "128 fl oz");
    equal("1 gal", "4 qt");
    equal("1 qt", "2 pt");
    equal("1 pt", "2 cups");
    equal("1 cup", "8 fl oz");
    equal("1 lb", "16 oz");
    equal("1 mi", "5280 ft");
    equal("1 yd2", "9 ft2");
    equal("1 ha", "10000 m2");
    equal("100 gal", "1 100 gal");
    // University of Nebraska, Math for Pesticide Applicators.
    equal("2 tbsp", "1 fl oz");
    equal("6 tsp", "1 fl oz");
    equal("88 ft/min", "1 mph");
}

#[test]
fn rates_agree_with_pint() {
    let convert = |from: &str, to: &str| e(from).convert(Unit::parse(to).unwrap()).unwrap();
    // 48.8242763638, 0.305151727, 3.18326822917, 9.35395622817, 119.826427317 to nine digits.
    assert_eq!(convert("1 lb/1000 ft2", "kg/ha"), e("48.8242764 kg/ha"));
    assert_eq!(convert("1 oz/1000 ft2", "g/m2"), e("0.305151727 g/m2"));
    assert_eq!(convert("1 fl oz/1000 ft2", "L/ha"), e("3.18326823 L/ha"));
    assert_eq!(convert("1 gal/acre", "L/ha"), e("9.35395623 L/ha"));
    assert_eq!(convert("1 lb/gal", "g/L"), e("119.826427 g/L"));
}

#[test]
fn label_rates_as_printed() {
    // Oklahoma State University-OKC, Calibrating Application Equipment.
    let to = |from: &str, to: &str| {
        e(from)
            .convert(Unit::parse(to).unwrap())
            .unwrap()
            .amount()
            .round_dp(3)
            .to_string()
    };
    assert_eq!(to("40 gal/acre", "gal/1000 ft2"), "0.918");
    assert_eq!(to("3.6 pt/acre", "fl oz/1000 ft2"), "1.322");
    // Pesticide Environmental Stewardship, Calculations for Mixing: 20 gal take 6.4 oz.
    assert_eq!(to("2 lb/100 gal", "oz/gal"), "0.32");
}

#[test]
fn the_acre_of_lawn_work_is_not_the_survey_acre() {
    assert_eq!(e("1 pt/acre").to_string(), "1 [pt_us]/(43560.[ft_i]2)");
    assert!(Entered::parse("1 [pt_us]/[acr_us]").is_err());
}

#[test]
fn no_ounce_of_weight_becomes_a_fluid_ounce() {
    for (weight, volume) in [
        ("8 oz", "fl oz"),
        ("8 oz/1000 ft2", "fl oz/1000 ft2"),
        ("1 lb", "pt"),
    ] {
        let error = e(weight)
            .convert(Unit::parse(volume).unwrap())
            .unwrap_err()
            .to_string();
        assert!(
            error.contains("an ounce of weight is not a fluid ounce"),
            "{error}"
        );
    }
}
