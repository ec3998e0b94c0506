//! The area of an outline drawn by finger on a sketch to scale, and how sure it is.
//!
//! How a screen turns a finger's way into corners is not known here.

use geo::Coord;

use super::crossing::must_not_cross;
use super::ring::{must_have_short_sides, shoelace, standard_deviation_m2};
use super::walk::metres;
use super::{AreaEstimate, DrawnCorner};
use crate::error::{Field, Result, RuleError};
use crate::note::Note;
use crate::working::{Answer, Working};

/// How far a drawn corner lies from the true one, in metres: the root mean square of the distance
/// (common practice, no source).
pub const DRAWN_ERROR_M: f64 = 1.0;

/// Most corners of a drawn outline.
pub const DRAWN_CORNERS_MOST: usize = 200;

/// The area enclosed by straight sides from corner to corner.
pub(super) fn area(corners: &[DrawnCorner]) -> Result<Answer<AreaEstimate>> {
    if corners.len() > DRAWN_CORNERS_MOST {
        return Err(RuleError::TooMany {
            field: Field::DrawnCorners,
            count: corners.len(),
            limit: DRAWN_CORNERS_MOST,
        });
    }
    let ring = ring(corners);
    if ring.len() < 3 {
        return Err(RuleError::TooFewCorners { count: ring.len() });
    }
    must_have_short_sides(&ring)?;
    must_not_cross(&ring)?;
    let uncertainty_m2 = standard_deviation_m2(&ring, &vec![DRAWN_ERROR_M; ring.len()]);
    let value = AreaEstimate::from_si(shoelace(&ring), uncertainty_m2);
    let metres = metres(DRAWN_ERROR_M);
    Ok(
        Working::new("drawn corners, shoelace formula", "plane geometry")
            .input("corners", ring.len())
            .note(Note::DrawnByHand)
            .note(Note::DrawnErrors { metres })
            .gives(value),
    )
}

/// The corners in the plane, in metres. A corner repeated at once, or the first at the end, adds no
/// side.
pub(super) fn ring(corners: &[DrawnCorner]) -> Vec<Coord<f64>> {
    let mut ring = corners.to_vec();
    ring.dedup();
    while ring.len() > 1 && ring.first() == ring.last() {
        ring.pop();
    }
    ring.iter()
        .map(|c| Coord {
            x: f64::from(c.east_cm) / 100.0,
            y: f64::from(c.north_cm) / 100.0,
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::{Outline, Shape};
    use super::*;
    use crate::error::Most;

    fn drawn(corners: &[(i32, i32)]) -> Shape {
        let corners = corners
            .iter()
            .map(|&(east_cm, north_cm)| DrawnCorner { east_cm, north_cm })
            .collect();
        Shape::Drawn { corners }
    }

    #[test]
    fn a_rectangle_has_its_area_its_edge_and_an_error_by_hand() {
        let lawn = drawn(&[(-500, 200), (1_500, 200), (1_500, 1_200), (-500, 1_200)]);
        let answer = lawn.area().unwrap();
        assert!((answer.value.square_metres() - 200.0).abs() < 1e-9);
        assert!((lawn.perimeter().unwrap().value.metres() - 60.0).abs() < 1e-9);
        // By hand: four corners, each with the diagonal's square 500 m² across:
        // 4 · (1 m)²/2 · 500 m²/4 = 250 m⁴.
        assert!((answer.value.uncertainty.value - 250.0_f64.sqrt()).abs() < 1e-9);
        assert!(answer.working.notes.contains(&Note::DrawnByHand));
    }

    #[test]
    fn winding_repeats_and_the_place_on_the_sketch_change_nothing() {
        let corners = [(0, 0), (2_000, 0), (2_000, 1_000), (900, 1_400)];
        let area = drawn(&corners).area().unwrap().value;
        let mut other: Vec<(i32, i32)> = corners.iter().map(|c| (c.0 - 777, c.1 + 55)).collect();
        other.insert(1, other[0]);
        other.push(other[0]);
        other.reverse();
        let moved = drawn(&other).area().unwrap().value;
        assert!((moved.square_metres() - area.square_metres()).abs() < 1e-9);
        assert!((moved.uncertainty.value - area.uncertainty.value).abs() < 1e-9);
    }

    #[test]
    fn a_pool_may_be_drawn_inside() {
        let lawn = Outline {
            shape: drawn(&[(0, 0), (2_000, 0), (2_000, 1_000), (0, 1_000)]),
            left_out: vec![drawn(&[(500, 500), (900, 500), (900, 800), (500, 800)])],
        };
        let answer = lawn.area().unwrap();
        assert!((answer.value.square_metres() - 188.0).abs() < 1e-9);
        let drawn_notes = answer.working.notes.iter();
        let count = drawn_notes.filter(|n| **n == Note::DrawnByHand).count();
        assert_eq!(count, 1, "the same note once");
    }

    #[test]
    fn what_is_no_lawn_is_refused() {
        let e = |corners: &[(i32, i32)]| drawn(corners).area().unwrap_err();
        assert_eq!(e(&[]), RuleError::TooFewCorners { count: 0 });
        assert_eq!(
            e(&[(0, 0), (100, 0), (0, 0), (0, 0)]),
            RuleError::TooFewCorners { count: 2 }
        );
        assert_eq!(
            e(&[(0, 0), (1_000, 1_000), (1_000, 0), (0, 1_000)]),
            RuleError::SidesCross {
                first: 1,
                second: 3
            }
        );
        assert_eq!(
            e(&[(0, 0), (500_100, 0), (0, 1_000)]),
            RuleError::SideTooLong {
                corner: 1,
                length_m: 5_001,
                limit: Most::Side
            }
        );
        assert!(matches!(
            e(&[(i32::MIN, i32::MIN), (i32::MAX, i32::MAX), (0, i32::MAX)]),
            RuleError::SideTooLong { .. }
        ));
        assert!(matches!(
            e(&[(0, 0), (3, 0), (0, 3)]),
            RuleError::NotPositive { .. }
        ));
        let many: Vec<(i32, i32)> = (0..201).map(|i| (i, i * i)).collect();
        assert!(matches!(e(&many), RuleError::TooMany { .. }));
        assert!(drawn(&many[..200]).area().is_ok());
    }
}
