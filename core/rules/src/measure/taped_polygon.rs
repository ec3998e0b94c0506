//! A polygon whose corners were found by two tapes each.
//!
//! Corner 1 is the origin, corner 2 lies on the x axis, and every further corner is where the two
//! tapes meet on the side that the person named.

use geo::Coord;

use super::crossing::must_not_cross;
use super::ring::{perimeter, shoelace};
use super::tape::{estimate, positive, spread};
use super::{AreaEstimate, LengthEstimate, SideOfLine, TapedCorner};
use crate::error::{Field, Result, RuleError};
use crate::note::Note;
use crate::quantity::Entered;
use crate::working::{Answer, Working};

/// Most corners taped beyond the first two.
pub const TAPED_CORNERS_MOST: usize = 200;

pub(super) fn area(first_side: &Entered, corners: &[TapedCorner]) -> Result<Answer<AreaEstimate>> {
    if corners.is_empty() {
        return Err(RuleError::TooFewCorners { count: 2 });
    }
    if corners.len() > TAPED_CORNERS_MOST {
        let (count, limit) = (corners.len(), TAPED_CORNERS_MOST);
        return Err(RuleError::TooMany {
            field: Field::TapedCorners,
            count,
            limit,
        });
    }
    let readings = readings(first_side, corners)?;
    let ring = place(&readings, corners)?;
    must_not_cross(&ring)?;
    let mut working = Working::new(
        "corners by two tapes each, shoelace formula",
        "plane geometry",
    )
    .input("corner 1 to corner 2", first_side.for_person());
    for (index, corner) in corners.iter().enumerate() {
        working = working.input(side_name(corner.side), describe(index + 3, corner));
    }
    let value = estimate(&readings, |r| {
        place(r, corners).map_or(f64::NAN, |ring| shoelace(&ring))
    });
    Ok(working.note(Note::TapeErrors).gives(value))
}

/// The corners in the plane, in metres from corner 1.
pub(super) fn ring(first_side: &Entered, corners: &[TapedCorner]) -> Result<Vec<Coord<f64>>> {
    place(&readings(first_side, corners)?, corners)
}

/// The length of the edge from corner to corner.
pub(super) fn edge(first_side: &Entered, corners: &[TapedCorner]) -> Result<LengthEstimate> {
    let (length_m, uncertainty_m) = spread(&readings(first_side, corners)?, |r| {
        place(r, corners).map_or(f64::NAN, |ring| perimeter(&ring))
    });
    Ok(LengthEstimate::from_si(length_m, uncertainty_m))
}

fn side_name(side: SideOfLine) -> &'static str {
    match side {
        SideOfLine::Left => "corner, left of the line",
        SideOfLine::Right => "corner, right of the line",
    }
}

/// The corner's number, and each tape with the number of the corner it starts from.
fn describe(number: usize, corner: &TapedCorner) -> String {
    format!(
        "{number}: {} → {}, {} → {}",
        corner.from_a,
        corner.tape_a.for_person(),
        corner.from_b,
        corner.tape_b.for_person(),
    )
}

/// All tapes in metres: the first side, then two a corner.
fn readings(first_side: &Entered, corners: &[TapedCorner]) -> Result<Vec<f64>> {
    let mut readings = vec![positive(Field::FirstSide, first_side)?];
    for (index, corner) in corners.iter().enumerate() {
        for tape in [&corner.tape_a, &corner.tape_b] {
            let length = positive(Field::Tape, tape)
                .map_err(|e| e.of(Field::Corner { number: index + 3 }))?;
            readings.push(length);
        }
    }
    Ok(readings)
}

/// The corners in the plane.
fn place(readings: &[f64], corners: &[TapedCorner]) -> Result<Vec<Coord<f64>>> {
    let mut ring = vec![
        Coord { x: 0.0, y: 0.0 },
        Coord {
            x: readings[0],
            y: 0.0,
        },
    ];
    for (corner, tapes) in corners.iter().zip(readings[1..].chunks_exact(2)) {
        let number = ring.len() + 1;
        let (a, b) = (usize::from(corner.from_a), usize::from(corner.from_b));
        let known = 1..=ring.len();
        if a == b || !known.contains(&a) || !known.contains(&b) {
            return Err(RuleError::CornerFrom {
                corner: number,
                known: ring.len(),
            });
        }
        let met = meet(ring[a - 1], ring[b - 1], (tapes[0], tapes[1]), corner.side);
        ring.push(met.ok_or(RuleError::TapesDoNotMeet { corner: number })?);
    }
    Ok(ring)
}

/// Where two tapes meet beside the line from `a` to `b`; none when they do not.
fn meet(
    a: Coord<f64>,
    b: Coord<f64>,
    (tape_a, tape_b): (f64, f64),
    side: SideOfLine,
) -> Option<Coord<f64>> {
    let base = b - a;
    let base_length = base.x.hypot(base.y);
    let along = (base_length.powi(2) + tape_a.powi(2) - tape_b.powi(2)) / (2.0 * base_length);
    let off_squared = (tape_a - along) * (tape_a + along);
    // A NaN base (two corners on one spot) fails this as well.
    if off_squared.is_nan() || off_squared <= 0.0 {
        return None;
    }
    let unit = base / base_length;
    let left = Coord {
        x: -unit.y,
        y: unit.x,
    };
    let off = match side {
        SideOfLine::Left => off_squared.sqrt(),
        SideOfLine::Right => -off_squared.sqrt(),
    };
    Some(a + unit * along + left * off)
}

#[cfg(test)]
mod tests {
    use super::super::Shape;
    use super::*;

    fn ft(text: &str) -> Entered {
        Entered::parse(&format!("{text} ft")).unwrap()
    }

    fn corner(
        from_a: u16,
        tape_a: &str,
        from_b: u16,
        tape_b: &str,
        side: SideOfLine,
    ) -> TapedCorner {
        TapedCorner {
            from_a,
            tape_a: ft(tape_a),
            from_b,
            tape_b: ft(tape_b),
            side,
        }
    }

    fn polygon(first: &str, corners: Vec<TapedCorner>) -> Result<Answer<AreaEstimate>> {
        Shape::TapePolygon {
            first_side: ft(first),
            corners,
        }
        .area()
    }

    use SideOfLine::{Left, Right};

    #[test]
    fn a_rectangle_by_its_diagonals() {
        // 30 by 40 ft, diagonal 50 ft.
        let lawn = polygon(
            "30",
            vec![
                corner(1, "50", 2, "40", Left),
                corner(1, "40", 3, "30", Left),
            ],
        )
        .unwrap()
        .value;
        assert!(
            (lawn.square_feet() - 1200.0).abs() < 1e-9,
            "{}",
            lawn.square_feet()
        );
        // Right of the line gives the same lawn mirrored.
        let mirrored = polygon(
            "30",
            vec![
                corner(1, "50", 2, "40", Right),
                corner(1, "40", 3, "30", Right),
            ],
        );
        assert!((mirrored.unwrap().value.square_feet() - 1200.0).abs() < 1e-9);
    }

    #[test]
    fn an_l_shape_has_a_corner_that_bends_in() {
        // (0,0) (60,0) (60,20) (30,20) (30,50) (0,50): 600 + 1500 ft², from geometry.
        let root = |x: f64| format!("{:.9}", x.sqrt());
        let corners = vec![
            corner(1, &root(4000.0), 2, "20", Left),
            corner(3, "30", 1, &root(1300.0), Right),
            corner(4, "30", 1, &root(3400.0), Right),
            corner(1, "50", 5, "30", Left),
        ];
        let lawn = polygon("60", corners).unwrap().value;
        assert!(
            (lawn.square_feet() - 2100.0).abs() < 1e-5,
            "{}",
            lawn.square_feet()
        );
    }

    #[test]
    fn crossing_sides_are_refused() {
        // Corners 3 and 4 of the rectangle taken in the wrong order: a bow tie.
        let tie = polygon(
            "30",
            vec![
                corner(1, "40", 2, "50", Left),
                corner(1, "50", 2, "40", Left),
            ],
        );
        assert_eq!(
            tie.unwrap_err(),
            RuleError::SidesCross {
                first: 2,
                second: 4
            }
        );
    }

    #[test]
    fn tapes_that_do_not_meet_are_refused() {
        let far = polygon("30", vec![corner(1, "10", 2, "10", Left)]);
        assert_eq!(far.unwrap_err(), RuleError::TapesDoNotMeet { corner: 3 });
        let on_the_line = polygon("30", vec![corner(1, "10", 2, "20", Left)]);
        assert_eq!(
            on_the_line.unwrap_err(),
            RuleError::TapesDoNotMeet { corner: 3 }
        );
    }

    #[test]
    fn corners_must_come_before() {
        for (a, b) in [(1, 1), (0, 1), (1, 3), (1, 4)] {
            let result = polygon("30", vec![corner(a, "40", b, "40", Left)]);
            assert_eq!(
                result.unwrap_err(),
                RuleError::CornerFrom {
                    corner: 3,
                    known: 2
                }
            );
        }
        assert_eq!(
            polygon("30", vec![]).unwrap_err(),
            RuleError::TooFewCorners { count: 2 }
        );
    }
}
