//! The lines to walk: parallel, a swath apart, clipped to the shape.
//!
//! How far apart they lie and how often the lawn is gone over is the plan's matter.

use super::plane::{Point, Ring, sides, stretches};

/// The most lines drawn one way: beyond that they run into one another on any screen.
pub(crate) const LINES_MOST: usize = 150;

/// A line to walk, from one end to the other.
pub(crate) type Line = (Point, Point);

/// The lines to walk one way.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Walked {
    /// Stretch by stretch, in the order in which they are walked, there and back.
    pub(crate) lines: Vec<Line>,
    /// How many lines across there are; more than [`LINES_MOST`] are not drawn.
    pub(crate) count: usize,
    /// Their direction in degrees clockwise from north, 0 to below 180.
    pub(crate) bearing_deg: f64,
    /// How far one walks on them in all, turns not counted, in metres.
    pub(crate) length_m: f64,
}

/// Lines along the longest side: the fewest turns.
pub(crate) fn along_longest_side(ring: &Ring, spacing_m: f64) -> Option<Walked> {
    let (p, q) = sides(ring).max_by(|a, b| a.0.distance_m(a.1).total_cmp(&b.0.distance_m(b.1)))?;
    at_bearing(ring, spacing_m, p.bearing_deg(q))
}

/// Lines of one direction, the first half a spacing from the edge; none where the spacing or the
/// ring is none.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "more lines than are drawn are only counted, and a count is not below zero"
)]
pub(crate) fn at_bearing(ring: &Ring, spacing_m: f64, bearing_deg: f64) -> Option<Walked> {
    if !(spacing_m.is_finite() && spacing_m > 0.0 && bearing_deg.is_finite()) || ring.len() < 3 {
        return None;
    }
    let bearing_deg = bearing_deg.rem_euclid(180.0);
    // Turned so that the lines run east; an east line has the bearing 90.
    let turn_deg = 90.0 - bearing_deg;
    let level: Ring = ring.iter().map(|p| p.turned(turn_deg)).collect();
    let (south_m, north_m) = level
        .iter()
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(s, n), p| {
            (s.min(p.north_m), n.max(p.north_m))
        });
    // A sliver at the far edge that the last swath covers anyway needs no line of its own.
    let count = ((north_m - south_m) / spacing_m - 1e-6).ceil().max(1.0);
    let mut walked = Walked {
        lines: Vec::new(),
        count: count as usize,
        bearing_deg,
        length_m: 0.0,
    };
    if walked.count > LINES_MOST {
        return Some(walked);
    }
    for number in 0..walked.count {
        let at_m = south_m + (number as f64 + 0.5) * spacing_m;
        // The last line of a lawn that is no whole number of swaths wide still lies on it.
        let at_m = at_m.min(f64::midpoint(north_m, south_m + number as f64 * spacing_m));
        let mut row: Vec<Line> = stretches(&level, at_m)
            .into_iter()
            .map(|(west_m, east_m)| (Point::new(west_m, at_m), Point::new(east_m, at_m)))
            .collect();
        if number % 2 == 1 {
            row = row.into_iter().rev().map(|(p, q)| (q, p)).collect();
        }
        walked.lines.extend(
            row.into_iter()
                .map(|(p, q)| (p.turned(-turn_deg), q.turned(-turn_deg))),
        );
    }
    walked.length_m = walked.lines.iter().map(|(p, q)| p.distance_m(*q)).sum();
    Some(walked)
}

#[cfg(test)]
mod tests {
    use super::super::plane::{area_m2, holds};
    use super::*;
    use proptest::prelude::*;

    fn rectangle(length_m: f64, width_m: f64) -> Ring {
        [
            (0.0, 0.0),
            (length_m, 0.0),
            (length_m, width_m),
            (0.0, width_m),
        ]
        .into_iter()
        .map(|(e, n)| Point::new(e, n))
        .collect()
    }

    // Worked by hand: 20 m by 9 m, lines 3 m apart along the long side.
    #[test]
    fn a_rectangle_is_walked_along_its_long_side() {
        let walked = along_longest_side(&rectangle(20.0, 9.0), 3.0).unwrap();
        assert_eq!(walked.count, 3);
        assert!((walked.bearing_deg - 90.0).abs() < 1e-9);
        assert!((walked.length_m - 60.0).abs() < 1e-9);
        let norths: Vec<f64> = walked.lines.iter().map(|(p, _)| p.north_m).collect();
        for (found, wanted) in norths.iter().zip([1.5, 4.5, 7.5]) {
            assert!((found - wanted).abs() < 1e-9);
        }
        // There and back.
        assert!(walked.lines[0].0.east_m < walked.lines[0].1.east_m);
        assert!(walked.lines[1].0.east_m > walked.lines[1].1.east_m);
    }

    #[test]
    fn a_second_way_lies_at_right_angles() {
        let ring = rectangle(20.0, 9.0);
        let across = at_bearing(&ring, 3.0, 180.0).unwrap();
        assert_eq!(across.count, 7);
        assert!(across.bearing_deg.abs() < 1e-9);
        assert!(
            across
                .lines
                .iter()
                .all(|(p, q)| (p.east_m - q.east_m).abs() < 1e-9)
        );
    }

    #[test]
    fn what_is_no_spacing_gives_no_lines_and_too_many_are_only_counted() {
        let ring = rectangle(20.0, 9.0);
        for spacing in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert_eq!(at_bearing(&ring, spacing, 0.0), None, "{spacing}");
        }
        let many = at_bearing(&ring, 0.001, 90.0).unwrap();
        assert_eq!((many.count, many.lines.len()), (9_000, 0));
    }

    proptest! {
        #[test]
        fn lines_lie_on_the_lawn_and_cover_it(
            corners in prop::collection::vec((5.0..50.0_f64, 0.0..1.0_f64), 3..9),
            spacing in 0.8..4.0_f64,
            bearing in 0.0..360.0_f64,
        ) {
            // A star round a middle point: its sides never cross.
            let count = corners.len() as f64;
            let ring: Ring = corners
                .iter()
                .enumerate()
                .map(|(n, (radius, jitter))| {
                    let (sin, cos) = (std::f64::consts::TAU * (n as f64 + 0.8 * jitter) / count).sin_cos();
                    Point::new(radius * cos, radius * sin)
                })
                .collect();
            let walked = at_bearing(&ring, spacing, bearing).unwrap();
            for (p, q) in &walked.lines {
                let middle = Point::new(f64::midpoint(p.east_m, q.east_m), f64::midpoint(p.north_m, q.north_m));
                prop_assert!(p.distance_m(*q) < 1e-6 || holds(&ring, middle));
            }
            // By the midpoint rule: length times swath is about the area.
            let covered_m2 = walked.length_m * spacing;
            let area_m2 = area_m2(&ring);
            let edge_m: f64 = sides(&ring).map(|(p, q)| p.distance_m(q)).sum();
            prop_assert!((covered_m2 - area_m2).abs() <= edge_m * spacing, "{covered_m2} {area_m2}");
        }
    }
}
