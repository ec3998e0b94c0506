//! What every ring of corners in a plane has: its area, its edge, and how errors of corners add up.
//!
//! Where corners come from is in the files of the shapes; plane coordinates here are in metres.

use geo::Coord;

use super::tape::SIDE_MOST_M;
use crate::error::{Most, Result, RuleError};

pub(super) fn shoelace(ring: &[Coord<f64>]) -> f64 {
    let next = ring.iter().cycle().skip(1);
    (ring
        .iter()
        .zip(next)
        .map(|(p, q)| p.x * q.y - q.x * p.y)
        .sum::<f64>()
        / 2.0)
        .abs()
}

pub(super) fn perimeter(ring: &[Coord<f64>]) -> f64 {
    let next = ring.iter().cycle().skip(1);
    ring.iter()
        .zip(next)
        .map(|(p, q)| (q.x - p.x).hypot(q.y - p.y))
        .sum()
}

/// The shortest side.
pub(super) fn shortest_m(ring: &[Coord<f64>]) -> f64 {
    let next = ring.iter().cycle().skip(1);
    ring.iter()
        .zip(next)
        .map(|(p, q)| (q.x - p.x).hypot(q.y - p.y))
        .fold(f64::INFINITY, f64::min)
}

/// Refuses a ring with a side longer than any lawn's.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a length on earth in metres"
)]
pub(super) fn must_have_short_sides(ring: &[Coord<f64>]) -> Result<()> {
    let next = ring.iter().cycle().skip(1);
    for (corner, (p, q)) in (1..).zip(ring.iter().zip(next)) {
        let side_m = (q.x - p.x).hypot(q.y - p.y);
        if side_m > SIDE_MOST_M {
            return Err(RuleError::SideTooLong {
                corner,
                length_m: side_m.round() as u64,
                limit: Most::Side,
            });
        }
    }
    Ok(())
}

/// One standard deviation of a polygon's area when each corner is off by itself.
///
/// A corner's accuracy is the root mean square of its distance from the truth, so each coordinate
/// has σ = accuracy / √2. To first order the shoelace formula then has the variance
/// `Σ σᵢ²·|Pᵢ₊₁ − Pᵢ₋₁|²/4`. A shift of all corners drops out, since the differences do not know it.
///
/// Products of two neighbours' errors are left out: they only weigh where fixes lie closer than
/// their accuracy, and there a receiver's errors go together instead of adding such noise.
pub(super) fn standard_deviation_m2(ring: &[Coord<f64>], accuracies_m: &[f64]) -> f64 {
    let n = ring.len();
    let variance: f64 = (0..n)
        .map(|i| {
            let across = ring[(i + 1) % n] - ring[(i + n - 1) % n];
            let chord2 = across.x.powi(2) + across.y.powi(2);
            accuracies_m[i].powi(2) / 2.0 * chord2 / 4.0
        })
        .sum();
    variance.sqrt()
}

/// One standard deviation of the length of a ring when each corner is off by itself.
///
/// Corners as in [`standard_deviation_m2`]. A corner's error along a side lengthens it to first
/// order; across a side it lengthens it always, by about `√(L² + σ²) − L`, and what that comes to in
/// all counts as uncertainty too.
pub(super) fn length_deviation_m(ring: &[Coord<f64>], accuracies_m: &[f64]) -> f64 {
    let n = ring.len();
    let (mut variance, mut lengthening) = (0.0, 0.0);
    for i in 0..n {
        let (before, next) = ((i + n - 1) % n, (i + 1) % n);
        let (into, out) = (ring[i] - ring[before], ring[next] - ring[i]);
        let (in_m, out_m) = (into.x.hypot(into.y), out.x.hypot(out.y));
        let turn = into / in_m - out / out_m;
        variance += accuracies_m[i].powi(2) / 2.0 * (turn.x.powi(2) + turn.y.powi(2));
        let across2 = f64::midpoint(accuracies_m[i].powi(2), accuracies_m[next].powi(2));
        lengthening += (out_m.powi(2) + across2).sqrt() - out_m;
    }
    variance.sqrt().hypot(lengthening)
}
