//! The uncertainty of every shape against dice: readings are thrown with the error that the rules
//! state for them, and what comes out must scatter as much as the rules say.
//!
//! Seeded, so that a failure comes again. What the shapes' areas are is in `published_measure`.

use rust_decimal::Decimal;
use sward_rules::Entered;
use sward_rules::measure::{
    AreaEstimate, DRAWN_ERROR_M, DrawnCorner, Fix, Measured, OffsetRule, Outline, Shape,
    SideOfLine, Slope, TAPE_ERROR_LEAST_FT, TAPE_ERROR_SHARE, TapedCorner, sloped_area,
};
use sward_rules::quantity::Unit;

/// So many throws give a deviation to about 1.6 %.
const THROWS: u32 = 2_000;

/// A share by which the stated deviation may differ from the thrown one: three times what chance
/// does, and what first order leaves out.
const TOLERANCE: f64 = 0.07;

/// SplitMix64 and Box-Muller.
struct Dice(u64);

impl Dice {
    fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn normal(&mut self) -> f64 {
        let (u, v) = (1.0 - self.uniform(), self.uniform());
        (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * v).cos()
    }

    /// A tape reading in feet with the error that the rules state.
    fn tape(&mut self, feet: f64) -> Entered {
        let sigma = (TAPE_ERROR_SHARE * feet).max(TAPE_ERROR_LEAST_FT);
        entered((feet + sigma * self.normal()).max(0.0), Unit::FOOT)
    }
}

fn entered(value: f64, unit: Unit) -> Entered {
    let amount = Decimal::from_str_exact(&format!("{value:.6}")).expect("a plain number");
    Entered::new(amount, unit).expect("few digits")
}

fn ft(feet: f64) -> Entered {
    entered(feet, Unit::FOOT)
}

fn lawn(shape: Shape) -> Outline {
    Outline {
        shape,
        left_out: Vec::new(),
    }
}

/// The root mean square of the distance from `truth` over all throws.
fn scatter(truth: f64, seed: u64, mut throw: impl FnMut(&mut Dice) -> f64) -> f64 {
    let mut dice = Dice(seed);
    let squares: f64 = (0..THROWS)
        .map(|_| (throw(&mut dice) - truth).powi(2))
        .sum();
    (squares / f64::from(THROWS)).sqrt()
}

fn agree(name: &str, stated: f64, thrown: f64, tolerance: f64) {
    let off = stated / thrown - 1.0;
    assert!(
        off.abs() < tolerance,
        "{name}: stated {stated}, thrown {thrown}, {:.1} % off",
        100.0 * off
    );
}

/// A shape made of tape readings in feet.
type Make = fn(&[Entered]) -> Shape;

/// Each shape by tape: its readings in feet, and how it is made of them.
fn taped() -> Vec<(&'static str, Vec<f64>, Make)> {
    let s = f64::sqrt;
    vec![
        ("rectangle", vec![60.0, 25.0], |r| Shape::Rectangle {
            length: r[0],
            width: r[1],
        }),
        ("a bed", vec![5.0, 4.0], |r| Shape::Rectangle {
            length: r[0],
            width: r[1],
        }),
        ("three sides", vec![40.0, 35.0, 30.0], |r| {
            Shape::TriangleSides {
                a: r[0],
                b: r[1],
                c: r[2],
            }
        }),
        ("base and height", vec![30.0, 26.0], |r| {
            Shape::TriangleHeight {
                base: r[0],
                height: r[1],
            }
        }),
        ("trapezoid", vec![50.0, 30.0, 20.0], |r| Shape::Trapezoid {
            a: r[0],
            b: r[1],
            height: r[2],
        }),
        ("circle", vec![80.0], |r| Shape::Circle { diameter: r[0] }),
        ("oval", vec![90.0, 50.0], |r| Shape::Oval {
            length: r[0],
            width: r[1],
        }),
        (
            "mean radius",
            vec![27.1, 28.9, 29.7, 30.9, 32.4, 31.7, 31.8, 29.9],
            |r| Shape::MeanRadius { radii: r.to_vec() },
        ),
        (
            "offsets, straight",
            vec![10.0, 12.0, 25.0, 35.0, 40.0, 38.0, 20.0, 8.0],
            |r| Shape::Offsets {
                spacing: r[0],
                offsets: r[1..].to_vec(),
                rule: OffsetRule::Trapezoid,
            },
        ),
        (
            "offsets, bent",
            vec![10.0, 12.0, 25.0, 35.0, 40.0, 38.0, 20.0, 8.0],
            |r| Shape::Offsets {
                spacing: r[0],
                offsets: r[1..].to_vec(),
                rule: OffsetRule::Simpson,
            },
        ),
        (
            "corners by two tapes",
            vec![60.0, s(3_700.0), s(3_700.0) / 2.0, 40.0, s(1_700.0)],
            |r| Shape::TapePolygon {
                first_side: r[0],
                corners: vec![corner(1, r[1], 2, r[2]), corner(1, r[3], 3, r[4])],
            },
        ),
    ]
}

fn corner(from_a: u16, tape_a: Entered, from_b: u16, tape_b: Entered) -> TapedCorner {
    let side = SideOfLine::Left;
    TapedCorner {
        from_a,
        tape_a,
        from_b,
        tape_b,
        side,
    }
}

fn read(readings: &[f64], make: Make) -> Shape {
    make(&readings.iter().copied().map(ft).collect::<Vec<_>>())
}

fn thrown(dice: &mut Dice, readings: &[f64], make: Make) -> Shape {
    make(&readings.iter().map(|r| dice.tape(*r)).collect::<Vec<_>>())
}

#[test]
fn areas_by_tape_scatter_as_stated() {
    for (name, readings, make) in taped() {
        let stated = read(&readings, make).area().unwrap().value;
        let scatter = scatter(stated.square_metres(), 1, |dice| {
            let shape = thrown(dice, &readings, make);
            shape.area().unwrap().value.square_metres()
        });
        agree(name, stated.uncertainty.value, scatter, TOLERANCE);
    }
}

#[test]
fn edges_by_tape_scatter_as_stated() {
    let mut with_edge = 0;
    for (name, readings, make) in taped() {
        let Ok(stated) = read(&readings, make).perimeter() else {
            continue;
        };
        with_edge += 1;
        let scatter = scatter(stated.value.metres(), 2, |dice| {
            let shape = thrown(dice, &readings, make);
            shape.perimeter().unwrap().value.metres()
        });
        agree(name, stated.value.uncertainty.value, scatter, TOLERANCE);
    }
    assert_eq!(with_edge, 9, "all but base and height, and the trapezoid");
}

/// The strip's uncertainty is worked out from the edge's, not reading by reading: near, and for
/// what remains rather too much than too little.
#[test]
fn strips_scatter_about_as_stated() {
    let width = 4.0;
    for (name, readings, make) in taped() {
        let whole = lawn(read(&readings, make));
        let (Ok(stated), false) = (whole.strip_inside(&ft(width)), name == "a bed") else {
            continue;
        };
        let stated = stated.value;
        let (mut strips, mut rests) = (Vec::new(), Vec::new());
        let mut dice = Dice(3);
        // A strip takes longer than an area.
        for _ in 0..200 {
            let outline = lawn(thrown(&mut dice, &readings, make));
            let strip = outline.strip_inside(&dice.tape(width)).unwrap().value;
            strips.push(strip.strip.square_metres());
            rests.push(strip.rest.square_metres());
        }
        let around = |values: &[f64], truth: f64| {
            let squares: f64 = values.iter().map(|v| (v - truth).powi(2)).sum();
            (squares / values.len() as f64).sqrt()
        };
        agree(
            name,
            stated.strip.uncertainty.value,
            around(&strips, stated.strip.square_metres()),
            0.25,
        );
        let rest = around(&rests, stated.rest.square_metres());
        let off = stated.rest.uncertainty.value / rest;
        assert!((0.85..1.6).contains(&off), "{name}: {off}");
    }
}

#[test]
fn a_strip_along_an_edge_scatters_as_stated() {
    let rectangle = |length, width| lawn(Shape::Rectangle { length, width });
    let along = |outline: Outline, edge: Entered, width: Entered| {
        outline.strip_along(&edge, &width).unwrap().value
    };
    let stated = along(rectangle(ft(60.0), ft(25.0)), ft(40.0), ft(5.0));
    let deviation = scatter(stated.rest.square_metres(), 4, |dice| {
        let outline = rectangle(dice.tape(60.0), dice.tape(25.0));
        along(outline, dice.tape(40.0), dice.tape(5.0))
            .rest
            .square_metres()
    });
    agree("rest", stated.rest.uncertainty.value, deviation, TOLERANCE);
}

#[test]
fn a_slopes_level_area_scatters_as_stated() {
    let area = |length, width| Shape::Rectangle { length, width }.area().unwrap().value;
    let level = |area: &AreaEstimate, rise: Entered, run: Entered| {
        let slope = Slope::Rise { rise, run };
        let both = sloped_area(area, Measured::AlongGround, &slope).unwrap();
        both.value.level
    };
    let stated = level(&area(ft(60.0), ft(25.0)), ft(6.0), ft(10.0));
    let deviation = scatter(stated.square_metres(), 5, |dice| {
        let lawn = area(dice.tape(60.0), dice.tape(25.0));
        level(&lawn, dice.tape(6.0), dice.tape(10.0)).square_metres()
    });
    agree("level", stated.uncertainty.value, deviation, TOLERANCE);
}

#[test]
fn left_outs_add_their_scatter() {
    let outline = |[length, width, pool, bed_length, bed_width]: [Entered; 5]| Outline {
        shape: Shape::Rectangle { length, width },
        left_out: vec![
            Shape::Circle { diameter: pool },
            Shape::Oval {
                length: bed_length,
                width: bed_width,
            },
        ],
    };
    let net = |readings| outline(readings).area().unwrap().value;
    let readings = [60.0, 40.0, 25.0, 20.0, 15.0];
    let stated = net(readings.map(ft));
    let deviation = scatter(stated.square_metres(), 6, |dice| {
        net(readings.map(|r| dice.tape(r))).square_metres()
    });
    agree("net", stated.uncertainty.value, deviation, TOLERANCE);
}

/// Corners in metres, each off by its accuracy (a root mean square, so each way by that over √2),
/// and all of them by one shift that must change nothing.
fn moved(dice: &mut Dice, corners: &[(f64, f64)], accuracies_m: &[f64]) -> Vec<(f64, f64)> {
    let shift = (20.0 * dice.normal(), 20.0 * dice.normal());
    corners
        .iter()
        .zip(accuracies_m)
        .map(|(corner, accuracy)| {
            let sigma = accuracy / 2.0_f64.sqrt();
            (
                corner.0 + shift.0 + sigma * dice.normal(),
                corner.1 + shift.1 + sigma * dice.normal(),
            )
        })
        .collect()
}

fn l_shape() -> Vec<(f64, f64)> {
    vec![
        (0.0, 0.0),
        (60.0, 0.0),
        (60.0, 20.0),
        (30.0, 20.0),
        (30.0, 50.0),
        (0.0, 50.0),
    ]
}

fn round() -> Vec<(f64, f64)> {
    (0..24)
        .map(|i| {
            let (sin, cos) = (std::f64::consts::TAU * f64::from(i) / 24.0).sin_cos();
            (40.0 * cos, 25.0 * sin)
        })
        .collect()
}

fn walk(corners: &[(f64, f64)], accuracies_m: &[f64]) -> Shape {
    let fix = |(&(east, north), accuracy): (&(f64, f64), &f64)| Fix {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "metres"
        )]
        accuracy_mm: Some((accuracy * 1000.0) as u32),
        ..Fix::from_degrees(40.0 + north / 111_035.0, -75.0 + east / 85_394.0).expect("on earth")
    };
    let fixes = corners.iter().zip(accuracies_m).map(fix).collect();
    Shape::Walk { fixes }
}

#[test]
fn walks_scatter_as_stated() {
    let mixed = vec![0.5, 4.0, 2.0, 3.0, 1.0, 2.5];
    for (name, corners, accuracies) in [
        ("L-shaped", l_shape(), mixed),
        ("round", round(), vec![1.0; 24]),
    ] {
        let shape = walk(&corners, &accuracies);
        let area = shape.area().unwrap().value;
        let thrown_area = scatter(area.square_metres(), 7, |dice| {
            let moved = moved(dice, &corners, &accuracies);
            walk(&moved, &accuracies)
                .area()
                .unwrap()
                .value
                .square_metres()
        });
        agree(name, area.uncertainty.value, thrown_area, TOLERANCE);
        let edge = shape.perimeter().unwrap().value;
        let thrown_edge = scatter(edge.metres(), 8, |dice| {
            let moved = moved(dice, &corners, &accuracies);
            walk(&moved, &accuracies)
                .perimeter()
                .unwrap()
                .value
                .metres()
        });
        // What errors across a side add to it is an estimate, and on the large side.
        let off = edge.uncertainty.value / thrown_edge;
        assert!((0.9..1.4).contains(&off), "{name}: {off}");
    }
}

#[test]
fn drawings_scatter_as_stated() {
    let corners: Vec<_> = l_shape();
    let accuracies = vec![DRAWN_ERROR_M; corners.len()];
    let draw = |corners: &[(f64, f64)]| {
        #[expect(clippy::cast_possible_truncation, reason = "centimetres of a lawn")]
        let cm = |metres: f64| (metres * 100.0).round() as i32;
        let corner = |&(east, north): &(f64, f64)| DrawnCorner {
            east_cm: cm(east),
            north_cm: cm(north),
        };
        let corners = corners.iter().map(corner).collect();
        Shape::Drawn { corners }
    };
    let shape = draw(&corners);
    let area = shape.area().unwrap().value;
    let thrown_area = scatter(area.square_metres(), 9, |dice| {
        let moved = moved(dice, &corners, &accuracies);
        draw(&moved).area().unwrap().value.square_metres()
    });
    agree("area", area.uncertainty.value, thrown_area, TOLERANCE);
    let edge = shape.perimeter().unwrap().value;
    let thrown_edge = scatter(edge.metres(), 10, |dice| {
        let moved = moved(dice, &corners, &accuracies);
        draw(&moved).perimeter().unwrap().value.metres()
    });
    agree("edge", edge.uncertainty.value, thrown_edge, TOLERANCE);
}

/// A walk whose coordinates were rounded scatters by the rounding: the same lawn lain at many places on the grid of five decimals.
#[test]
fn rounded_coordinates_scatter_as_stated() {
    let corners = l_shape();
    let accuracies = vec![0.001; corners.len()];
    let rounded = |corners: &[(f64, f64)]| {
        let Shape::Walk { mut fixes } = walk(corners, &accuracies) else {
            unreachable!("a walk is one")
        };
        for fix in &mut fixes {
            let step = 10_000;
            fix.lat_1e9 = (fix.lat_1e9 + step / 2).div_euclid(step) * step;
            fix.lon_1e9 = (fix.lon_1e9 + step / 2).div_euclid(step) * step;
        }
        Shape::Walk { fixes }.area().unwrap().value
    };
    let exact = walk(&corners, &accuracies).area().unwrap().value;
    let stated = rounded(&corners).uncertainty.value;
    let thrown = scatter(exact.square_metres(), 11, |dice| {
        let turn = std::f64::consts::TAU * dice.uniform();
        let (sin, cos) = turn.sin_cos();
        let shift = (1_000.0 * dice.uniform(), 1_000.0 * dice.uniform());
        let moved: Vec<_> = corners
            .iter()
            .map(|(x, y)| (shift.0 + x * cos - y * sin, shift.1 + x * sin + y * cos))
            .collect();
        rounded(&moved).square_metres()
    });
    agree("five decimals", stated, thrown, 0.15);
}
