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

#[cfg(test)]
mod tests {
    use super::*;

    /// SplitMix64 and Box–Muller: seeded, so that the check repeats.
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
    }

    fn signed_area(ring: &[Coord<f64>]) -> f64 {
        let next = ring.iter().cycle().skip(1);
        ring.iter()
            .zip(next)
            .map(|(p, q)| p.x * q.y - q.x * p.y)
            .sum::<f64>()
            / 2.0
    }

    /// Standard deviation of the area over 20,000 throws, with a common shift in each.
    fn thrown(ring: &[Coord<f64>], accuracies: &[f64]) -> f64 {
        let mut dice = Dice(20_240_501);
        let throws = 20_000;
        let areas: Vec<f64> = (0..throws)
            .map(|_| {
                let shift = Coord {
                    x: 50.0 * dice.normal(),
                    y: 50.0 * dice.normal(),
                };
                let moved: Vec<Coord<f64>> = ring
                    .iter()
                    .zip(accuracies)
                    .map(|(p, a)| {
                        let sigma = a / 2.0_f64.sqrt();
                        *p + shift
                            + Coord {
                                x: sigma * dice.normal(),
                                y: sigma * dice.normal(),
                            }
                    })
                    .collect();
                signed_area(&moved)
            })
            .collect();
        let mean = areas.iter().sum::<f64>() / f64::from(throws);
        (areas.iter().map(|a| (a - mean).powi(2)).sum::<f64>() / f64::from(throws - 1)).sqrt()
    }

    #[test]
    fn the_formula_agrees_with_a_monte_carlo() {
        let corners = [
            (0.0, 0.0),
            (60.0, 0.0),
            (60.0, 20.0),
            (30.0, 20.0),
            (30.0, 50.0),
            (0.0, 50.0),
        ];
        let l_shape: Vec<Coord<f64>> = corners.map(|(x, y)| Coord { x, y }).to_vec();
        let mixed = [0.5, 4.0, 2.0, 3.0, 1.0, 2.5];
        let round: Vec<Coord<f64>> = (0..24)
            .map(|i| {
                let (sin, cos) = (std::f64::consts::TAU * f64::from(i) / 24.0).sin_cos();
                Coord {
                    x: 40.0 * cos,
                    y: 25.0 * sin,
                }
            })
            .collect();
        for (ring, accuracies) in [(l_shape, mixed.to_vec()), (round, vec![2.0; 24])] {
            let formula = standard_deviation_m2(&ring, &accuracies);
            let monte_carlo = thrown(&ring, &accuracies);
            // 20,000 throws give the deviation to about 0.5 %; the second order adds about 1 %.
            assert!(
                (formula / monte_carlo - 1.0).abs() < 0.03,
                "{formula} {monte_carlo}"
            );
        }
    }
}
