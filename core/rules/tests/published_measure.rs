//! Areas against published and independently computed values; the source stands beside each.

use geo::{GeodesicArea, polygon};
use sward_rules::measure::{
    AreaEstimate, Fix, OffsetRule, Outline, Shape, geodesic_polygon, walk_from_gpx,
};
use sward_rules::{Entered, RuleError};

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
    assert!(
        found
            .working
            .notes
            .contains(&sward_rules::Note::LeftOutInside)
    );
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
