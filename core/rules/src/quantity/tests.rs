//! What parsing must accept, and what it must refuse.

use super::*;

fn canonical(text: &str) -> String {
    Entered::parse(text)
        .unwrap_or_else(|e| panic!("{text}: {e}"))
        .to_string()
}

#[test]
fn what_a_person_types_has_one_stored_form() {
    for (typed, stored) in [
        ("2.5 lb/1000 ft2", "2.5 [lb_av]/(1000.[ft_i]2)"),
        ("2.5 lb/1000ft²", "2.5 [lb_av]/(1000.[ft_i]2)"),
        ("2.5 lbs per 1,000 sq. ft.", "2.5 [lb_av]/(1000.[ft_i]2)"),
        ("2.5 [lb_av]/(1000.[ft_i]2)", "2.5 [lb_av]/(1000.[ft_i]2)"),
        ("2.50lb/1000 ft^2", "2.50 [lb_av]/(1000.[ft_i]2)"),
        ("0.6 fl oz/1000 ft2", "0.6 [foz_us]/(1000.[ft_i]2)"),
        ("3.6 pt/acre", "3.6 [pt_us]/(43560.[ft_i]2)"),
        ("3.6 pints per acre", "3.6 [pt_us]/(43560.[ft_i]2)"),
        ("3.5 acres", "3.5 43560.[ft_i]2"),
        ("12345 ft2", "12345 [ft_i]2"),
        ("10 mph", "10 [mi_i]/h"),
        ("12 km/h", "12 km/h"),
        ("7 kts", "7 [kn_i]"),
        ("24 h", "24 h"),
        ("24 hours", "24 h"),
        ("45 min", "45 min"),
        ("85 F", "85 [degF]"),
        ("85 °F", "85 [degF]"),
        ("-4 C", "-4 Cel"),
        ("0.2 %", "0.2 %"),
        ("0.2%", "0.2 %"),
        ("20 kg/ha", "20 kg/har"),
        ("1.5 in", "1.5 [in_i]"),
        ("12 ft 6 in", "150 [in_i]"),
        ("12' 6.5\"", "150.5 [in_i]"),
        ("40 psi", "40 [psi]"),
        ("2 lb/gal", "2 [lb_av]/[gal_us]"),
        ("2 lb/100 gal", "2 [lb_av]/(100.[gal_us])"),
        ("1.5 fl oz/gal", "1.5 [foz_us]/[gal_us]"),
        ("8 per ft2", "8 1/[ft_i]2"),
        ("8 /ft2", "8 1/[ft_i]2"),
        (".5 gal", "0.5 [gal_us]"),
        ("007 d", "7 d"),
        ("-0 F", "0 [degF]"),
    ] {
        assert_eq!(canonical(typed), stored, "{typed}");
    }
}

#[test]
fn what_could_be_misread_is_refused() {
    use RuleError as E;
    let refused = |text: &str| Entered::parse(text).expect_err(text);
    assert!(matches!(refused("2,5 lb"), E::Comma { .. }));
    assert!(matches!(refused("12,345 ft2"), E::Comma { .. }));
    assert!(matches!(refused("1e3 ft"), E::NotANumber { .. }));
    assert!(matches!(refused("1E-3 ft"), E::NotANumber { .. }));
    assert!(matches!(refused("NaN ft"), E::NotANumber { .. }));
    assert!(matches!(refused("inf ft"), E::NotANumber { .. }));
    assert!(matches!(refused("-inf ft"), E::NotANumber { .. }));
    assert!(matches!(refused("1.2.3 ft"), E::NotANumber { .. }));
    assert!(matches!(refused("5. ft"), E::NotANumber { .. }));
    assert!(matches!(refused(". ft"), E::NotANumber { .. }));
    assert!(matches!(refused("- ft"), E::NotANumber { .. }));
    assert!(matches!(refused("+5 ft"), E::NotANumber { .. }));
    assert!(matches!(refused("5-10 mph"), E::NotANumber { .. }));
    assert!(matches!(refused("٣ ft"), E::NotANumber { .. }));
    assert!(matches!(
        refused("1234567890123 ft"),
        E::TooManyDigits { .. }
    ));
    assert!(matches!(
        refused(&format!("{} ft", "9".repeat(60))),
        E::TooManyDigits { .. }
    ));
    assert!(matches!(
        refused("0.0000000000001 ft"),
        E::TooManyDigits { .. }
    ));
    assert!(matches!(refused("5"), E::NoUnit { .. }));
    assert!(matches!(refused("5 smoots"), E::UnknownUnit { .. }));
    assert!(matches!(refused("5 lb/mph"), E::UnknownUnit { .. }));
    assert!(matches!(refused("5 ft 13 in"), E::UnknownUnit { .. }));
    assert!(matches!(refused("5 1"), E::UnknownUnit { .. }));
    assert!(matches!(refused("5 [acr_us]"), E::SurveyAcre));
    assert!(matches!(refused("-5 ft"), E::Negative { .. }));
    assert!(matches!(refused(""), E::Empty));
    assert!(matches!(refused("  "), E::Empty));
    assert!(matches!(refused("5\u{0} ft"), E::ControlCharacter));
    assert!(matches!(refused("5 ft\n"), E::ControlCharacter));
    assert!(matches!(refused(&"5".repeat(1000)), E::TooLong));
}

#[test]
fn only_the_stored_form_is_decoded() {
    let rate = Entered::parse("2.50 lb/1000 ft2").unwrap();
    let bytes = minicbor::to_vec(rate).unwrap();
    assert_eq!(&bytes[..2], &[0x78, 27]);
    assert_eq!(&bytes[2..], b"2.50 [lb_av]/(1000.[ft_i]2)");
    assert_eq!(minicbor::decode::<Entered>(&bytes).unwrap(), rate);
    let other = minicbor::to_vec("2.50 lb/1000 ft2").unwrap();
    assert!(minicbor::decode::<Entered>(&other).is_err());

    let json = serde_json::to_string(&rate).unwrap();
    assert_eq!(json, "\"2.50 [lb_av]/(1000.[ft_i]2)\"");
    assert_eq!(serde_json::from_str::<Entered>(&json).unwrap(), rate);
    assert!(serde_json::from_str::<Entered>("\"2.5 lb\"").is_err());
    for bad in ["02 h", "2  h", " 2 h", "-0 h", ".5 h", "2 hours"] {
        assert!(Entered::from_canonical(bad).is_err(), "{bad}");
    }
}

#[test]
fn equality_is_exact_and_comparison_is_not() {
    let two_ways = (
        Entered::parse("2.5 lb").unwrap(),
        Entered::parse("2.50 lb").unwrap(),
    );
    assert_ne!(two_ways.0, two_ways.1);
    assert_eq!(
        two_ways.0.compare(&two_ways.1),
        Ok(std::cmp::Ordering::Equal)
    );
    let ounces = Entered::parse("40 oz").unwrap();
    assert_eq!(two_ways.0.compare(&ounces), Ok(std::cmp::Ordering::Equal));
    let fluid = Entered::parse("40 fl oz").unwrap();
    assert!(matches!(
        ounces.compare(&fluid),
        Err(RuleError::WrongKind { .. })
    ));
}

#[test]
fn an_ounce_of_weight_is_no_fluid_ounce() {
    let error = Entered::parse("6 oz").unwrap().to_volume().unwrap_err();
    assert_eq!(
        error.to_string(),
        "6 oz is a weight, where a volume is needed; an ounce of weight is not a fluid ounce: \
         write fl oz if that is meant"
    );
    assert!(
        Entered::parse("6 oz")
            .unwrap()
            .convert(Unit::FLUID_OUNCE)
            .is_err()
    );
}

#[test]
fn the_ends_of_the_range_are_errors_and_no_panics() {
    let large = Entered::parse("999999999999 mi").unwrap();
    assert!(large.to_length().is_ok());
    assert!(large.convert(Unit::parse("mm").unwrap()).is_err());
    let small = Entered::parse("0.000000000001 mm").unwrap();
    assert!(small.convert(Unit::parse("mi").unwrap()).is_err());
    assert!(Entered::parse("-500 F").unwrap().to_temperature().is_err());
    assert_eq!(Entered::parse("1.5 s").unwrap().to_seconds_up(), Ok(2));
    assert!(
        Entered::parse("999999999999 wk")
            .unwrap()
            .to_seconds_up()
            .is_ok()
    );
}

proptest::proptest! {
    #[test]
    fn any_amount_reads_back_from_both_forms(
        mantissa in 0_i64..1_000_000_000_000,
        scale in 0_u32..=12,
        unit in proptest::sample::select(vec![
            "lb/1000 ft2", "fl oz/acre", "ft", "in", "mph", "°F", "%", "lb/100 gal", "kg/ha", "h",
        ]),
    ) {
        let entered = Entered::new(Decimal::new(mantissa, scale), Unit::parse(unit).unwrap()).unwrap();
        proptest::prop_assert_eq!(Entered::parse(&entered.to_string()), Ok(entered));
        proptest::prop_assert_eq!(Entered::from_canonical(&entered.to_string()), Ok(entered));
        proptest::prop_assert_eq!(Entered::parse(&entered.for_person()), Ok(entered));
        let bytes = minicbor::to_vec(entered).unwrap();
        proptest::prop_assert_eq!(minicbor::decode::<Entered>(&bytes).unwrap(), entered);
    }

    #[test]
    fn a_conversion_comes_back(mantissa in 1_i64..1_000_000, scale in 0_u32..4) {
        let pairs = [("lb/1000 ft2", "kg/ha"), ("fl oz/acre", "mL/m2"), ("F", "C"), ("mph", "kn")];
        for (from, to) in pairs {
            let entered = Entered::new(Decimal::new(mantissa, scale), Unit::parse(from).unwrap()).unwrap();
            let there = entered.convert(Unit::parse(to).unwrap()).unwrap();
            let back = to_f64(there.convert(entered.unit()).unwrap().amount());
            let before = to_f64(entered.amount());
            proptest::prop_assert!((back - before).abs() <= 1e-6 * before.abs().max(1.0), "{back} {before}");
        }
    }

    #[test]
    fn any_text_is_read_or_refused(text in ".{0,40}") {
        if let Ok(entered) = Entered::parse(&text) {
            proptest::prop_assert_eq!(Entered::parse(&entered.to_string()), Ok(entered));
        }
    }

    #[test]
    fn near_misses_are_read_or_refused(text in "-?[0-9.,e ]{0,16} ?(lb|fl oz|ft|in|/|1000 |ft2|\\[|\\]|\\(|\\)|'|\"| ){0,4}") {
        if let Ok(entered) = Entered::parse(&text) {
            proptest::prop_assert_eq!(Entered::parse(&entered.to_string()), Ok(entered));
        }
    }
}
