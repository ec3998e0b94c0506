//! What holds for every outline: a strip and what remains make up the lawn, a wider strip leaves
//! less, and no slope is a reason to plan for more. Hostile measures are refused, never a panic.

use proptest::prelude::*;
use rust_decimal::Decimal;
use sward_rules::measure::{
    AreaEstimate, DrawnCorner, Measured, OffsetRule, Outline, Shape, Slope, sloped_area,
};
use sward_rules::quantity::Unit;
use sward_rules::{Entered, RuleError};

fn length(unit: Unit) -> impl Strategy<Value = Entered> {
    prop_oneof![
        8 => (0_i64..20_000).prop_map(|n| Decimal::new(n, 2)),
        1 => (0_i64..999_999_999_999).prop_map(|n| Decimal::new(n, 6)),
        1 => Just(Decimal::ZERO),
    ]
    .prop_map(move |amount| Entered::new(amount, unit).expect("twelve digits at most"))
}

fn metres() -> impl Strategy<Value = Entered> {
    length(Unit::METRE)
}

fn shape() -> impl Strategy<Value = Shape> {
    let corner = (-4_000_i32..4_000, -4_000_i32..4_000)
        .prop_map(|(east_cm, north_cm)| DrawnCorner { east_cm, north_cm });
    let rule = prop_oneof![Just(OffsetRule::Trapezoid), Just(OffsetRule::Simpson)];
    prop_oneof![
        (metres(), metres()).prop_map(|(length, width)| Shape::Rectangle { length, width }),
        (metres(), metres()).prop_map(|(length, width)| Shape::Oval { length, width }),
        (metres(), metres()).prop_map(|(base, height)| Shape::TriangleHeight { base, height }),
        (metres(), metres(), metres()).prop_map(|(a, b, c)| Shape::TriangleSides { a, b, c }),
        (metres(), metres(), metres()).prop_map(|(a, b, height)| Shape::Trapezoid { a, b, height }),
        metres().prop_map(|diameter| Shape::Circle { diameter }),
        prop::collection::vec(metres(), 0..12).prop_map(|radii| Shape::MeanRadius { radii }),
        (metres(), prop::collection::vec(metres(), 0..12), rule).prop_map(
            |(spacing, offsets, rule)| Shape::Offsets {
                spacing,
                offsets,
                rule,
            }
        ),
        prop::collection::vec(corner, 0..7).prop_map(|corners| Shape::Drawn { corners }),
    ]
}

proptest! {
    #[test]
    fn a_strip_and_what_remains_make_up_the_lawn(
        shape in shape(),
        left_out in prop::collection::vec(shape(), 0..2),
        width in metres(),
        wider in metres(),
    ) {
        let outline = Outline { shape, left_out };
        let (Ok(whole), Ok(strip)) = (outline.area(), outline.strip_inside(&width)) else {
            return Ok(());
        };
        let (strip, rest) = (strip.value.strip, strip.value.rest);
        let (whole, strip_m2) = (whole.value.square_metres(), strip.square_metres());
        prop_assert!(strip_m2 > 0.0 && rest.square_metres() > 0.0);
        prop_assert!((strip_m2 + rest.square_metres() - whole).abs() < 1e-6 * whole + 1e-6);
        for error in [strip.uncertainty.value, rest.uncertainty.value] {
            prop_assert!(error.is_finite() && error > 0.0);
        }
        if width.compare(&wider) == Ok(std::cmp::Ordering::Less) {
            let less = outline.strip_inside(&wider).map_or(0.0, |s| s.value.rest.square_metres());
            prop_assert!(less < rest.square_metres() + 1e-4, "{} {}", less, rest.square_metres());
        }
    }

    #[test]
    fn an_edge_is_no_shorter_than_that_of_a_circle(shape in shape()) {
        match (shape.area(), shape.perimeter()) {
            (Ok(area), Ok(edge)) => {
                let (area, edge) = (area.value, edge.value);
                prop_assert!(edge.uncertainty.value.is_finite());
                // The mean radius falls short of the area, and Simpson's rule may overshoot it.
                if !matches!(shape, Shape::Offsets { .. }) {
                    let circle = (4.0 * std::f64::consts::PI * area.square_metres()).sqrt();
                    prop_assert!(edge.metres() >= circle * (1.0 - 1e-9));
                }
            }
            (Ok(_), Err(error)) => prop_assert_eq!(error, RuleError::EdgeNotGiven),
            (Err(error), edge) => prop_assert_eq!(edge.unwrap_err(), error),
        }
    }

    #[test]
    fn a_slope_is_never_a_reason_to_plan_for_more(
        rise in metres(),
        run in metres(),
        grade in length(Unit::PERCENT),
        degrees in any::<i64>(),
        scale in 0_u32..28,
    ) {
        let stated = |text| Entered::parse(text).expect("an amount");
        let area = AreaEstimate::stated(&stated("1000 ft2"), &stated("25 ft2")).expect("a lawn");
        let angle = Slope::Angle { degrees: Decimal::new(degrees, scale) };
        for slope in [Slope::Rise { rise, run }, Slope::Grade { grade }, angle] {
            for measured in [Measured::AlongGround, Measured::Level] {
                if let Ok(both) = sloped_area(&area, measured, &slope) {
                    let both = both.value;
                    prop_assert!(both.level.area <= area.area);
                    prop_assert!(both.level.area <= both.surface.area);
                    prop_assert!((0.0..=45.000_001).contains(&both.angle_deg));
                    prop_assert!(both.level.uncertainty.value.is_finite());
                }
            }
        }
    }
}
