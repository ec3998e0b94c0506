//! Areas against published and independently computed values; the source stands beside each.

use geo::{GeodesicArea, polygon};
use sward_rules::measure::{
    AreaEstimate, DrawnCorner, Fix, OffsetRule, Outline, Shape, geodesic_polygon, walk_from_gpx,
};
use sward_rules::{Entered, Field, Note, RuleError};

fn ft(text: &str) -> Entered {
    Entered::parse(&format!("{text} ft")).expect("a length in feet")
}

fn all_ft(lengths: &[&str]) -> Vec<Entered> {
    lengths.iter().map(|l| ft(l)).collect()
}

fn area(shape: Shape) -> AreaEstimate {
    Outline {
        shape,
        left_out: vec![],
    }
    .area()
    .expect("a shape that can be")
    .value
}

fn near_ft2(shape: Shape, expected: f64, tolerance: f64) {
    let found = area(shape).square_feet();
    assert!(
        (found - expected).abs() <= tolerance,
        "{found} is not {expected}"
    );
}

/// Oklahoma State University-OKC, Calibrating Application Equipment.
#[test]
fn shapes_from_the_oklahoma_sheet() {
    near_ft2(
        Shape::Rectangle {
            length: ft("60"),
            width: ft("25"),
        },
        1_500.0,
        1e-9,
    );
    near_ft2(
        Shape::TriangleHeight {
            base: ft("30"),
            height: ft("26"),
        },
        390.0,
        1e-9,
    );
    // Printed 5,024 with π = 3.14; 5,026.548 computed.
    near_ft2(Shape::Circle { diameter: ft("80") }, 5_026.548, 0.001);
    near_ft2(Shape::Circle { diameter: ft("80") }, 5_024.0, 3.0);
}

/// University of Missouri IPM, Calibration Guidelines for Home Lawns: its page prints (A + B/2)·h
/// for a trapezoid, and an oval as 0.8·L·W, which is 1.86 % too much.
#[test]
fn traps_of_the_missouri_page() {
    let trapezoid = Shape::Trapezoid {
        a: ft("30"),
        b: ft("50"),
        height: ft("20"),
    };
    near_ft2(trapezoid, 800.0, 1e-9);
    let oval = area(Shape::Oval {
        length: ft("100"),
        width: ft("60"),
    })
    .square_feet();
    assert!((0.8 * 100.0 * 60.0 / oval - 1.018_6).abs() < 1e-4, "{oval}");
}

/// Computed from the rules themselves; the sum of offsets times spacing (1,780) is the trap.
#[test]
fn offsets() {
    let strip = |offsets: &[&str], rule| Shape::Offsets {
        spacing: ft("10"),
        offsets: all_ft(offsets),
        rule,
    };
    let to_points = ["0", "25", "35", "40", "38", "20", "0"];
    near_ft2(strip(&to_points, OffsetRule::Trapezoid), 1_580.0, 1e-9);
    near_ft2(strip(&to_points, OffsetRule::Simpson), 1_620.0, 1e-9);
    let to_widths = ["12", "25", "35", "40", "38", "20", "8"];
    near_ft2(strip(&to_widths, OffsetRule::Trapezoid), 1_680.0, 1e-9);
    near_ft2(strip(&to_widths, OffsetRule::Simpson), 1_686.667, 1e-3);
}

/// Computed: π times the square of the mean.
#[test]
fn mean_of_sixteen_radii() {
    let radii = [
        "7.1", "8.9", "9.7", "10.9", "12.4", "11.7", "11.8", "9.9", "6.8", "8.2", "9.7", "10.4",
        "12.0", "11.4", "8.9", "8.0",
    ];
    near_ft2(
        Shape::MeanRadius {
            radii: all_ft(&radii),
        },
        305.579,
        1e-3,
    );
    let few = Outline {
        shape: Shape::MeanRadius {
            radii: all_ft(&["5", "5"]),
        },
        left_out: vec![],
    };
    assert!(few.area().is_err());
}

/// Computed with Heron's formula.
#[test]
fn triangles_by_three_sides() {
    let triangle = |a, b, c| Shape::TriangleSides {
        a: ft(a),
        b: ft(b),
        c: ft(c),
    };
    near_ft2(triangle("13", "14", "15"), 84.0, 1e-9);
    near_ft2(triangle("30", "40", "50"), 600.0, 1e-9);
    near_ft2(triangle("25", "40", "55"), 458.257_569, 1e-6);
    let impossible = Outline {
        shape: triangle("10", "20", "35"),
        left_out: vec![],
    };
    assert!(matches!(
        impossible.area(),
        Err(RuleError::ImpossibleTriangle { .. })
    ));
}

/// GeographicLib's own test files: Antarctica, round the pole and across the date line.
#[test]
fn antarctica() {
    let coast = [
        (-63.1, -58.0),
        (-72.9, -74.0),
        (-71.9, -102.0),
        (-74.9, -102.0),
        (-74.3, -131.0),
        (-77.5, -163.0),
        (-77.4, 163.0),
        (-71.7, 172.0),
        (-65.9, 140.0),
        (-65.7, 113.0),
        (-66.6, 88.0),
        (-66.9, 59.0),
        (-69.8, 25.0),
        (-70.0, -4.0),
        (-71.0, -14.0),
        (-77.3, -33.0),
        (-77.9, -46.0),
        (-74.7, -61.0),
    ];
    let (perimeter_m, area_m2) = geodesic_polygon(&coast).unwrap();
    assert!(
        (perimeter_m - 16_831_067.893).abs() < 0.001,
        "{perimeter_m}"
    );
    assert!((area_m2 - 13_662_703_680_020.1).abs() < 1.0, "{area_m2}");
    let mut backwards = coast;
    backwards.reverse();
    let (_, reversed_m2) = geodesic_polygon(&backwards).unwrap();
    assert!((reversed_m2 - area_m2).abs() < 1.0);
}

/// Documentation of the crate geographiclib-rs.
#[test]
fn a_degree_square() {
    let (perimeter_m, area_m2) =
        geodesic_polygon(&[(0.0, 0.0), (0.0, 1.0), (1.0, 1.0), (1.0, 0.0)]).unwrap();
    assert!((perimeter_m - 443_770.917_248_302).abs() < 1e-6);
    assert!((area_m2 - 12_308_778_361.469_452).abs() < 1e-3);
}

const LAWN: [(f64, f64); 4] = [
    (40.0, -75.0),
    (39.999_999_999, -74.999_648_687),
    (40.000_180_123, -74.999_648_687),
    (40.000_180_124, -75.0),
];

/// Computed with GeographicLib (Python); a sphere is 0.106 % less, Web Mercator 70.6 % more.
#[test]
fn a_walked_lawn() {
    let fixes = LAWN
        .map(|(lat, lon)| Fix::from_degrees(lat, lon).unwrap())
        .to_vec();
    let walked = area(Shape::Walk { fixes }).square_metres();
    assert!((walked - 599.998_727_77).abs() < 1e-6, "{walked}");
    let geo = polygon![
        (x: -75.0, y: 40.0), (x: -74.999_648_687, y: 39.999_999_999),
        (x: -74.999_648_687, y: 40.000_180_123), (x: -75.0, y: 40.000_180_124),
    ];
    assert!((geo.geodesic_area_unsigned() - walked).abs() < 1e-6);
}

/// Computed: how far off the same lawn is by three ways that are not used here. The trap is Web
/// Mercator, in which web maps measure.
#[test]
fn a_lawn_by_other_ways_to_measure() {
    let (_, ours_m2) = geodesic_polygon(&LAWN).unwrap();
    let by = |place: &dyn Fn((f64, f64)) -> (f64, f64)| {
        let placed = LAWN.map(place);
        let next = placed.iter().cycle().skip(1);
        let twice: f64 = placed
            .iter()
            .zip(next)
            .map(|(p, q)| p.0 * q.1 - q.0 * p.1)
            .sum();
        100.0 * (twice.abs() / 2.0 / ours_m2 - 1.0)
    };
    let sphere_m = 6_371_008.8;
    let sphere = by(&|(lat, lon): (f64, f64)| {
        let east = sphere_m * (lon + 75.0).to_radians() * 40.0_f64.to_radians().cos();
        (east, sphere_m * (lat - 40.0).to_radians())
    });
    assert!((sphere + 0.106).abs() < 0.001, "{sphere}");
    let mercator = by(&|(lat, lon): (f64, f64)| {
        let north = 6_378_137.0 * lat.to_radians().tan().asinh();
        (6_378_137.0 * lon.to_radians(), north - 4_865_942.0)
    });
    assert!((mercator - 70.6).abs() < 0.05, "{mercator}");
    // 75 W is the middle of its UTM zone, where lengths are 0.9996 of their own.
    let utm = 100.0 * (0.999_6_f64.powi(2) - 1.0);
    assert!((utm + 0.080).abs() < 0.000_1, "{utm}");
}

/// From geometry.
#[test]
fn edges_of_shapes() {
    let near = |shape: Shape, feet: f64, tolerance: f64| {
        let found = shape.perimeter().unwrap().value.feet();
        assert!((found - feet).abs() < tolerance, "{found} is not {feet}");
    };
    let (length, width) = (ft("60"), ft("25"));
    near(Shape::Rectangle { length, width }, 170.0, 1e-9);
    let (a, b, c) = (ft("13"), ft("14"), ft("15"));
    near(Shape::TriangleSides { a, b, c }, 42.0, 1e-9);
    let diameter = ft("80");
    near(Shape::Circle { diameter }, 251.327_412_287, 1e-6);
    let oval = |length, width| Shape::Oval { length, width };
    near(oval(ft("80"), ft("80")), 251.327_412_287, 1e-6);
    // SciPy's complete elliptic integral: 25.5269988634 for half axes 5 and 3.
    near(oval(ft("6"), ft("10")), 25.526_998_863_4, 1e-9);
    let radii = all_ft(&["40"; 9]);
    near(Shape::MeanRadius { radii }, 251.327_412_287, 1e-6);
    // Base 60, and 25 · √2 + 5 · √5 + … along the far edge.
    let strip = Shape::Offsets {
        spacing: ft("10"),
        offsets: all_ft(&["0", "25", "35", "40", "38", "20", "0"]),
        rule: OffsetRule::Trapezoid,
    };
    let far: f64 = [25.0, 10.0, 5.0, 2.0, 18.0, 20.0]
        .iter()
        .map(|rise: &f64| rise.hypot(10.0))
        .sum();
    near(strip, 60.0 + far, 1e-9);
    // GeographicLib's geodesics are what `a_degree_square` checks; a lawn's edge here.
    let fixes = LAWN
        .map(|(lat, lon)| Fix::from_degrees(lat, lon).unwrap())
        .to_vec();
    let (perimeter_m, _) = geodesic_polygon(&LAWN).unwrap();
    near(Shape::Walk { fixes }, perimeter_m / 0.3048, 1e-9);
}

/// From geometry: what remains inside a strip.
#[test]
fn strips_along_the_whole_edge() {
    let rest = |shape: Shape, width: &str| {
        let outline = Outline {
            shape,
            left_out: vec![],
        };
        let whole = outline.area().unwrap().value.square_feet();
        let strip = outline.strip_inside(&ft(width)).unwrap().value;
        let sum = strip.strip.square_feet() + strip.rest.square_feet();
        assert!((sum - whole).abs() < 1e-6 * whole, "{sum} {whole}");
        strip.rest.square_feet()
    };
    let near = |found: f64, expected: f64| {
        assert!((found / expected - 1.0).abs() < 1e-5, "{found} {expected}");
    };
    let rectangle = |l, w| Shape::Rectangle {
        length: ft(l),
        width: ft(w),
    };
    near(rest(rectangle("60", "25"), "5"), 750.0);
    near(rest(rectangle("60", "25"), "12.4"), 35.2 * 0.2);
    let (a, b, c) = (ft("13"), ft("14"), ft("15"));
    // The circle within has a radius of 4.
    near(
        rest(Shape::TriangleSides { a, b, c }, "1"),
        84.0 * 9.0 / 16.0,
    );
    let circle = rest(Shape::Circle { diameter: ft("80") }, "5");
    let by_hand = std::f64::consts::PI * 35.0_f64.powi(2);
    assert!((circle / by_hand - 1.0).abs() < 5e-4, "{circle} {by_hand}");
    // An L of 60 and 50 with arms of 20 and 30, in metres: two arms of what remains, their common
    // part once, and beside the corner that bends in a square less a quarter of a disc.
    let corners = [(0, 0), (60, 0), (60, 20), (30, 20), (30, 50), (0, 50)];
    let corners = corners
        .map(|(x, y)| DrawnCorner {
            east_cm: 100 * x,
            north_cm: 100 * y,
        })
        .to_vec();
    let l_shape = rest(Shape::Drawn { corners }, "16.404199475") * 0.092_903_04;
    let by_hand = 800.0 + 500.0 - 200.0 + 25.0 * (1.0 - std::f64::consts::FRAC_PI_4);
    assert!(
        (l_shape / by_hand - 1.0).abs() < 1e-5,
        "{l_shape} {by_hand}"
    );
}

/// From geometry: a strip along one side, and strips that cannot be.
#[test]
fn strips_along_a_part_of_the_edge_and_strips_that_cannot_be() {
    let mut lawn = Outline {
        shape: Shape::Rectangle {
            length: ft("60"),
            width: ft("25"),
        },
        left_out: vec![],
    };
    let along = lawn.strip_along(&ft("60"), &ft("5")).unwrap().value;
    assert!((along.strip.square_feet() - 300.0).abs() < 1e-9);
    assert!((along.rest.square_feet() - 1_200.0).abs() < 1e-9);
    let takes_all = |result: Result<_, RuleError>| {
        assert!(matches!(result, Err(RuleError::StripTakesAll { .. })));
    };
    takes_all(lawn.strip_inside(&ft("12.5")));
    takes_all(lawn.strip_inside(&ft("4000")));
    takes_all(lawn.strip_along(&ft("60"), &ft("25")));
    assert!(matches!(
        lawn.strip_along(&ft("200"), &ft("1")),
        Err(RuleError::NotAllowed {
            field: Field::StripEdge,
            ..
        })
    ));
    assert!(matches!(
        lawn.strip_inside(&ft("0")),
        Err(RuleError::NotPositive {
            field: Field::StripWidth,
            ..
        })
    ));
    // A pool counts against what remains, wherever it lies.
    lawn.left_out.push(Shape::Circle { diameter: ft("10") });
    let rest = lawn.strip_inside(&ft("5")).unwrap();
    let by_hand = 750.0 - 25.0 * std::f64::consts::PI;
    assert!((rest.value.rest.square_feet() - by_hand).abs() < 1e-3);
    assert!(rest.working.notes.contains(&Note::LeftOutBeyondStrip));
    lawn.shape = Shape::TriangleHeight {
        base: ft("60"),
        height: ft("25"),
    };
    assert_eq!(
        lawn.strip_inside(&ft("5")).unwrap_err(),
        RuleError::EdgeNotGiven
    );
    assert!(lawn.strip_along(&ft("60"), &ft("5")).is_ok());
}

/// A walk in the middle of the Pacific, and one at a pole, as files: refused in words, not measured
/// wrongly.
#[test]
fn walks_across_the_date_line_and_at_a_pole_are_refused() {
    let walked = |points: &[(f64, f64)]| {
        let point = |(lat, lon): &(f64, f64)| format!("<trkpt lat=\"{lat}\" lon=\"{lon}\"/>");
        let points = points.iter().map(point).collect::<Vec<_>>().concat();
        let gpx = format!(
            "<gpx version=\"1.1\" creator=\"t\"><trk><trkseg>{points}</trkseg></trk></gpx>"
        );
        let fixes = walk_from_gpx(gpx.as_bytes()).unwrap().fixes;
        Shape::Walk { fixes }
    };
    let fiji = walked(&[
        (-16.8, 179.999_9),
        (-16.8, -179.999_9),
        (-16.799_8, -179.999_9),
        (-16.799_8, 179.999_9),
    ]);
    assert_eq!(fiji.area().unwrap_err(), RuleError::AcrossDateLine);
    assert_eq!(fiji.perimeter().unwrap_err(), RuleError::AcrossDateLine);
    let pole = walked(&[(89.999_9, 0.0), (89.999_9, 120.0), (89.999_9, -120.0)]);
    assert_eq!(pole.area().unwrap_err(), RuleError::NearPole);
    // Just this side of the date line all is well.
    let beside = walked(&[
        (-16.8, 179.999),
        (-16.8, 179.999_3),
        (-16.799_8, 179.999_3),
        (-16.799_8, 179.999),
    ]);
    let (_, expected_m2) = geodesic_polygon(&[
        (-16.8, 179.999),
        (-16.8, 179.999_3),
        (-16.799_8, 179.999_3),
        (-16.799_8, 179.999),
    ])
    .unwrap();
    let found = beside.area().unwrap().value.square_metres();
    assert!((found - expected_m2).abs() < 1e-6);
}

/// Computed: what rounding the coordinates does to the same lawn.
#[test]
fn rounded_coordinates() {
    for (decimals, expected_m2) in [(7, 599.896_6), (6, 599.051_5), (5, 597.344_8)] {
        let scale = 10_f64.powi(decimals);
        let rounded =
            LAWN.map(|(lat, lon)| ((lat * scale).round() / scale, (lon * scale).round() / scale));
        let (_, area_m2) = geodesic_polygon(&rounded).unwrap();
        assert!(
            (area_m2 - expected_m2).abs() < 1e-3,
            "{decimals}: {area_m2}"
        );
        let fixes = rounded.map(|(lat, lon)| Fix {
            accuracy_mm: Some(1),
            ..Fix::from_degrees(lat, lon).unwrap()
        });
        let stated = area(Shape::Walk {
            fixes: fixes.to_vec(),
        });
        if decimals < 7 {
            let off = (area_m2 - 599.998_7).abs();
            assert!(
                off < 3.0 * stated.uncertainty.value,
                "{decimals}: {stated:?}"
            );
        }
    }
}

/// From geometry: a bed and a pool inside a lawn, with errors that add in quadrature.
#[test]
fn what_is_left_out_comes_off() {
    let lawn = Outline {
        shape: Shape::Rectangle {
            length: ft("100"),
            width: ft("50"),
        },
        left_out: vec![
            Shape::Circle { diameter: ft("20") },
            Shape::Rectangle {
                length: ft("10"),
                width: ft("4"),
            },
        ],
    };
    let found = lawn.area().unwrap();
    let by_hand = 5_000.0 - 100.0 * std::f64::consts::PI - 40.0;
    assert!((found.value.square_feet() - by_hand).abs() < 1e-9);
    // Rectangle 50·√2, circle π/2·20·0.2, bed √(0.4² + 1²), all in square feet.
    let sigma = ((50.0_f64.powi(2) * 2.0)
        + (std::f64::consts::FRAC_PI_2 * 20.0 * 0.2).powi(2)
        + 0.4_f64.powi(2)
        + 1.0)
        .sqrt();
    let found_sigma = found.value.uncertainty.value / 0.092_903_04;
    assert!((found_sigma - sigma).abs() < 1e-6, "{found_sigma} {sigma}");
    assert!(found.working.notes.contains(&Note::LeftOutInside));
    let too_much = Outline {
        left_out: vec![lawn.shape.clone()],
        ..lawn
    };
    assert!(matches!(
        too_much.area(),
        Err(RuleError::LeftOutTooLarge { .. })
    ));
}

/// Round trips of what records keep.
#[test]
fn outlines_read_back_from_records() {
    let fixes = LAWN.map(|(lat, lon)| Fix {
        accuracy_mm: Some(3_000),
        at_unix_ms: Some(1_714_572_000_250),
        ..Fix::from_degrees(lat, lon).unwrap()
    });
    let outline = Outline {
        shape: Shape::Walk {
            fixes: fixes.to_vec(),
        },
        left_out: vec![Shape::Circle {
            diameter: ft("4.50"),
        }],
    };
    let bytes = minicbor::to_vec(&outline).unwrap();
    assert_eq!(minicbor::decode::<Outline>(&bytes).unwrap(), outline);
    let json = serde_json::to_string(&outline).unwrap();
    assert_eq!(serde_json::from_str::<Outline>(&json).unwrap(), outline);
    assert!(json.contains("4.50 [ft_i]"), "{json}");
}

#[test]
fn a_walk_whose_sides_cross_is_refused_with_their_corners() {
    let points = [
        (40.0, -75.0),
        (40.0005, -74.9995),
        (40.0005, -75.0),
        (40.0, -74.9995),
    ];
    let points = points
        .map(|(lat, lon)| format!("<trkpt lat=\"{lat}\" lon=\"{lon}\"/>"))
        .concat();
    let gpx =
        format!("<gpx version=\"1.1\" creator=\"t\"><trk><trkseg>{points}</trkseg></trk></gpx>");
    let walk = walk_from_gpx(gpx.as_bytes()).unwrap();
    let outline = Outline {
        shape: Shape::Walk { fixes: walk.fixes },
        left_out: vec![],
    };
    assert_eq!(
        outline.area().unwrap_err(),
        RuleError::SidesCross {
            first: 1,
            second: 3
        }
    );
}
