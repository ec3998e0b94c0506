//! Whether two sides of an outline cross or touch.
//!
//! Plane coordinates in metres; the orientation test is exact for the numbers given.

use geo::Coord;
use geo::kernels::{Kernel, Orientation, RobustKernel};

use crate::error::{Result, RuleError};

/// Refuses a ring whose sides cross, touch or fold back. Corners must differ from their neighbours.
pub(super) fn must_not_cross(ring: &[Coord<f64>]) -> Result<()> {
    match first_crossing(ring) {
        Some((first, second)) => Err(RuleError::SidesCross {
            first: first + 1,
            second: second + 1,
        }),
        None => Ok(()),
    }
}

/// The first two sides that cross, each by the index of the corner where it starts.
fn first_crossing(ring: &[Coord<f64>]) -> Option<(usize, usize)> {
    let n = ring.len();
    let side = |i: usize| (ring[i], ring[(i + 1) % n]);
    let from = |i: usize| side(i).0.x.min(side(i).1.x);
    let to = |i: usize| side(i).0.x.max(side(i).1.x);
    let mut by_x: Vec<usize> = (0..n).collect();
    by_x.sort_by(|&i, &j| from(i).total_cmp(&from(j)));
    let mut found: Option<(usize, usize)> = None;
    for (at, &i) in by_x.iter().enumerate() {
        for &j in by_x[at + 1..].iter().take_while(|&&j| from(j) <= to(i)) {
            let pair = (i.min(j), i.max(j));
            if found.is_none_or(|f| pair < f) && sides_meet(ring, pair.0, pair.1) {
                found = Some(pair);
            }
        }
    }
    found
}

/// Whether side `i` and a later side `j` meet anywhere but in the corner they share.
fn sides_meet(ring: &[Coord<f64>], i: usize, j: usize) -> bool {
    let n = ring.len();
    let side = |k: usize| (ring[k % n], ring[(k + 1) % n]);
    if j == i + 1 {
        return folds_back(side(i).0, side(i).1, side(j).1);
    }
    if (j + 1) % n == i {
        return folds_back(side(j).0, side(j).1, side(i).1);
    }
    segments_meet(side(i), side(j))
}

/// Whether the side from `middle` to `last` runs back along the one from `first`.
fn folds_back(first: Coord<f64>, middle: Coord<f64>, last: Coord<f64>) -> bool {
    let on_line = RobustKernel::orient2d(first, middle, last) == Orientation::Collinear;
    let (back, on) = (first - middle, last - middle);
    on_line && back.x * on.x + back.y * on.y > 0.0
}

/// Whether two segments have a point in common.
pub(super) fn segments_meet(
    (a, b): (Coord<f64>, Coord<f64>),
    (c, d): (Coord<f64>, Coord<f64>),
) -> bool {
    let apart = |p: (f64, f64), q: (f64, f64)| p.0.max(p.1) < q.0.min(q.1);
    let (x1, x2) = ((a.x, b.x), (c.x, d.x));
    let (y1, y2) = ((a.y, b.y), (c.y, d.y));
    if apart(x1, x2) || apart(x2, x1) || apart(y1, y2) || apart(y2, y1) {
        return false;
    }
    let turn = |p, q, r| match RobustKernel::orient2d(p, q, r) {
        Orientation::CounterClockwise => 1,
        Orientation::Clockwise => -1,
        Orientation::Collinear => 0,
    };
    // The boxes meet, so collinear segments meet as well.
    turn(a, b, c) * turn(a, b, d) <= 0 && turn(c, d, a) * turn(c, d, b) <= 0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ring(points: &[(f64, f64)]) -> Vec<Coord<f64>> {
        points.iter().map(|&(x, y)| Coord { x, y }).collect()
    }

    #[test]
    fn a_bow_tie_crosses_and_a_square_does_not() {
        let square = ring(&[(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]);
        assert_eq!(first_crossing(&square), None);
        let bow_tie = ring(&[(0.0, 0.0), (1.0, 1.0), (1.0, 0.0), (0.0, 1.0)]);
        assert_eq!(first_crossing(&bow_tie), Some((0, 2)));
    }

    #[test]
    fn touching_and_folding_back_count_as_crossing() {
        let touching = ring(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (2.0, 0.0), (0.0, 4.0)]);
        assert!(first_crossing(&touching).is_some());
        let spike = ring(&[(0.0, 0.0), (4.0, 0.0), (2.0, 0.0), (2.0, 3.0)]);
        assert!(first_crossing(&spike).is_some());
        let there_and_back = ring(&[(0.0, 0.0), (4.0, 0.0), (8.0, 0.0)]);
        assert!(first_crossing(&there_and_back).is_some());
    }

    #[test]
    fn corners_on_a_straight_side_are_fine() {
        let square = ring(&[(0.0, 0.0), (0.5, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]);
        assert_eq!(first_crossing(&square), None);
    }
}
