//! The drawn rings have the areas that the rules give, and tell what was assumed.

use proptest::prelude::*;
use sward_rules::measure::Outline;

use super::super::plane::area_m2;
use super::*;

fn ft(feet: f64) -> Entered {
    Entered::parse(&format!("{feet:.2} ft")).unwrap()
}

/// The drawn area agrees with the rules' within half a percent.
fn agrees(shape: &Shape) {
    let wanted_m2 = shape.area().unwrap().value.square_metres();
    let drawn_m2 = area_m2(&drawn(shape).unwrap().ring);
    let off = (drawn_m2 - wanted_m2).abs() / wanted_m2;
    assert!(
        off < 0.005,
        "{shape:?}: drawn {drawn_m2} m², by the rules {wanted_m2} m²"
    );
}

fn corner(from_a: u16, tape_a: f64, from_b: u16, tape_b: f64) -> TapedCorner {
    TapedCorner {
        from_a,
        tape_a: ft(tape_a),
        from_b,
        tape_b: ft(tape_b),
        side: SideOfLine::Left,
    }
}

#[test]
fn a_rectangle_by_its_diagonals_is_drawn_as_one() {
    let shape = Shape::TapePolygon {
        first_side: ft(30.0),
        corners: vec![corner(1, 50.0, 2, 40.0), corner(1, 40.0, 3, 30.0)],
    };
    let ring = drawn(&shape).unwrap().ring;
    let wanted = [(0.0, 0.0), (30.0, 0.0), (30.0, 40.0), (0.0, 40.0)];
    for (point, (e, n)) in ring.iter().zip(wanted) {
        let at = Point::new(e * 0.3048, n * 0.3048);
        assert!(point.distance_m(at) < 1e-9, "{point:?} {at:?}");
    }
    agrees(&shape);
}

#[test]
fn what_cannot_be_is_not_drawn() {
    let triangle = Shape::TriangleSides {
        a: ft(10.0),
        b: ft(20.0),
        c: ft(30.0),
    };
    assert_eq!(drawn(&triangle), None);
    let nowhere = Shape::TapePolygon {
        first_side: ft(30.0),
        corners: vec![corner(0, 50.0, 2, 40.0)],
    };
    assert_eq!(drawn(&nowhere), None);
    assert_eq!(drawn(&Shape::Walk { fixes: vec![] }), None);
    let weight = Entered::parse("3 lb").unwrap();
    assert_eq!(drawn(&Shape::Circle { diameter: weight }), None);
}

#[test]
fn what_is_assumed_is_told() {
    let told = |shape: &Shape| drawn(shape).unwrap().assumed;
    let (a, b, height) = (ft(30.0), ft(20.0), ft(10.0));
    assert_eq!(
        told(&Shape::TriangleHeight { base: a, height }),
        Some(Assumed::TipOverMiddle)
    );
    assert_eq!(
        told(&Shape::Trapezoid { a, b, height }),
        Some(Assumed::SidesCentred)
    );
    let offsets = vec![a, b, height];
    let by_offsets = Shape::Offsets {
        spacing: a,
        offsets,
        rule: OffsetRule::Simpson,
    };
    assert_eq!(told(&by_offsets), Some(Assumed::BaseStraight));
    agrees(&by_offsets);
    assert_eq!(
        told(&Shape::Rectangle {
            length: a,
            width: b
        }),
        None
    );
}

#[test]
fn like_radii_are_a_circle() {
    let shape = Shape::MeanRadius {
        radii: vec![ft(20.0); 8],
    };
    assert_eq!(drawn(&shape).unwrap().assumed, Some(Assumed::ThroughRadii));
    agrees(&shape);
}

#[test]
fn a_walk_is_drawn_to_its_size() {
    // A quarter of a thousandth of a degree each way, on several latitudes.
    for lat in [0.0, 28.5, 47.0, -61.0] {
        let at = |n: f64, e: f64| Fix::from_degrees(lat + n, -81.25 + e).unwrap();
        let fixes = vec![
            at(0.0, 0.0),
            at(0.0, 2.5e-4),
            at(2.5e-4, 3e-4),
            at(2e-4, -1e-5),
        ];
        agrees(&Shape::Walk { fixes });
    }
}

fn length() -> impl Strategy<Value = f64> {
    8.0..400.0_f64
}

proptest! {
    #[test]
    fn shapes_by_tape_have_their_area(a in length(), b in length(), c in length(), bend in 0.0..1.0_f64) {
        agrees(&Shape::Rectangle { length: ft(a), width: ft(b) });
        agrees(&Shape::TriangleHeight { base: ft(a), height: ft(b) });
        agrees(&Shape::Trapezoid { a: ft(a), b: ft(b), height: ft(c) });
        agrees(&Shape::Circle { diameter: ft(a) });
        agrees(&Shape::Oval { length: ft(a), width: ft(b) });
        // The third side between what the other two leave it, needles left out.
        let (least, most) = ((a - b).abs(), a + b);
        let third = least + (0.02 + 0.96 * bend) * (most - least);
        let triangle = Shape::TriangleSides { a: ft(a), b: ft(b), c: ft(third) };
        if triangle.area().is_ok() {
            agrees(&triangle);
        }
    }

    #[test]
    fn offsets_have_their_area(spacing in 3.0..30.0_f64, widths in prop::collection::vec(20.0..60.0_f64, 3..12)) {
        let offsets: Vec<Entered> = widths.iter().map(|w| ft(*w)).collect();
        let odd = offsets.len() - usize::from(offsets.len().is_multiple_of(2));
        agrees(&Shape::Offsets { spacing: ft(spacing), offsets: offsets.clone(), rule: OffsetRule::Trapezoid });
        agrees(&Shape::Offsets { spacing: ft(spacing), offsets: offsets[..odd].to_vec(), rule: OffsetRule::Simpson });
    }

    #[test]
    fn whatever_the_rules_take_is_drawn(sides in prop::collection::vec(1.0..200.0_f64, 6)) {
        let shape = Shape::TapePolygon {
            first_side: ft(sides[0]),
            corners: vec![corner(1, sides[1], 2, sides[2]), corner(1, sides[3], 3, sides[4])],
        };
        let outline = Outline { shape: shape.clone(), left_out: vec![] };
        if outline.area().is_ok() {
            agrees(&shape);
        }
    }
}
