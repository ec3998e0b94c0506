//! The area of a walk along the edge, and how sure it is.
//!
//! Reading a file and dropping bad fixes come before (`gpx_file`, `clean`): here every fix counts.

use geo::Coord;

use super::crossing::must_not_cross;
use super::geodesic::{geodesic_polygon, local_plane, no_such_place};
use super::tape::SIDE_MOST_M;
use super::{AreaEstimate, Fix};
use crate::error::{Result, RuleError};
use crate::working::{Answer, Working};

/// Accuracy taken for a fix whose receiver gave none, in metres (common practice, no source): a
/// phone among houses and trees.
pub const ACCURACY_ASSUMED_M: f64 = 10.0;

/// Most fixes in one walk.
pub const FIXES_MOST: usize = 5_000;

/// Beyond this latitude no walk is taken for a lawn.
const LAT_MOST: f64 = 85.0;

/// The area enclosed by a walk, by geodesics on WGS84.
pub(super) fn area(fixes: &[Fix]) -> Result<Answer<AreaEstimate>> {
    if fixes.len() > FIXES_MOST {
        let (count, limit) = (fixes.len(), FIXES_MOST);
        return Err(RuleError::TooMany {
            field: "the walk",
            count,
            limit,
        });
    }
    must_be_on_a_lawn(fixes)?;
    // A fix repeated at once, or the first at the end, adds no side.
    let mut ring = fixes.to_vec();
    ring.dedup_by_key(|f| (f.lat_1e9, f.lon_1e9));
    while ring.len() > 1 && same_place(ring[0], ring[ring.len() - 1]) {
        ring.pop();
    }
    if ring.len() < 3 {
        return Err(RuleError::TooFewCorners { count: ring.len() });
    }
    let plane = local_plane(&ring);
    sides_within_limit(&plane)?;
    must_not_cross(&plane)?;
    let corners: Vec<(f64, f64)> = ring.iter().map(|f| (f.lat(), f.lon())).collect();
    let (perimeter_m, area_m2) = geodesic_polygon(&corners)?;
    let accuracies: Vec<f64> = ring.iter().map(accuracy_m).collect();
    let uncertainty_m2 = standard_deviation_m2(&plane, &accuracies);
    Ok(describe(&ring, &accuracies).gives(AreaEstimate::from_si(
        area_m2,
        uncertainty_m2,
        Some(perimeter_m),
    )))
}

fn describe(ring: &[Fix], accuracies: &[f64]) -> Working {
    let (least, most) = accuracies
        .iter()
        .fold((f64::INFINITY, 0.0_f64), |(least, most), a| {
            (least.min(*a), most.max(*a))
        });
    let assumed = ring.iter().filter(|f| f.accuracy_mm.is_none()).count();
    let working = Working::new(
        "geodesic polygon on WGS84",
        "Karney (2013), J. Geodesy 87, 43",
    )
    .input("fixes", ring.len())
    .input("accuracy", format!("{least:.1} m to {most:.1} m"))
    .note(
        "uncertainty from the fixes' accuracies, each fix on its own, to first order; a shift \
         common to all of them changes no area, and errors that neighbours share are not counted",
    );
    if assumed == 0 {
        return working;
    }
    working.note(format!(
        "{assumed} fixes have no accuracy; {ACCURACY_ASSUMED_M} m is assumed (common practice, no \
         source)"
    ))
}

fn must_be_on_a_lawn(fixes: &[Fix]) -> Result<()> {
    for (index, fix) in fixes.iter().enumerate() {
        if fix.lat_1e9.unsigned_abs() > 90_000_000_000
            || fix.lon_1e9.unsigned_abs() > 180_000_000_000
        {
            return Err(no_such_place(index, fix.lat(), fix.lon()));
        }
    }
    if fixes.iter().any(|f| f.lat().abs() > LAT_MOST) {
        return Err(RuleError::NearPole);
    }
    let lons = || fixes.iter().map(|f| f.lon_1e9);
    match (lons().min(), lons().max()) {
        (Some(west), Some(east)) if east - west > 180_000_000_000 => Err(RuleError::AcrossDateLine),
        _ => Ok(()),
    }
}

fn sides_within_limit(plane: &[Coord<f64>]) -> Result<()> {
    let next = plane.iter().cycle().skip(1);
    for (number, (p, q)) in plane.iter().zip(next).enumerate() {
        let side_m = (q.x - p.x).hypot(q.y - p.y);
        if side_m > SIDE_MOST_M {
            return Err(RuleError::OverLimit {
                field: "a side of the walk",
                given: format!("{side_m:.0} m long, after fix {}", number + 1),
                limit: "5 km (about 3 miles)",
            });
        }
    }
    Ok(())
}

fn same_place(a: Fix, b: Fix) -> bool {
    (a.lat_1e9, a.lon_1e9) == (b.lat_1e9, b.lon_1e9)
}

fn accuracy_m(fix: &Fix) -> f64 {
    fix.accuracy_mm
        .map_or(ACCURACY_ASSUMED_M, |mm| f64::from(mm) / 1000.0)
}

/// One standard deviation of a polygon's area when each corner is off by itself.
///
/// A corner's accuracy is the root mean square of its distance from the truth, so each coordinate
/// has σ = accuracy / √2. To first order the shoelace formula then has the variance
/// `Σ σᵢ²·|Pᵢ₊₁ − Pᵢ₋₁|²/4`. A shift of all corners drops out, since the differences do not know it.
///
/// Products of two neighbours' errors are left out: they only weigh where fixes lie closer than
/// their accuracy, and there a receiver's errors go together instead of adding such noise.
fn standard_deviation_m2(ring: &[Coord<f64>], accuracies_m: &[f64]) -> f64 {
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
    use super::super::Shape;
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

    fn walk(corners: &[(f64, f64)]) -> Result<Answer<AreaEstimate>> {
        let fixes = corners
            .iter()
            .map(|&(lat, lon)| Fix::from_degrees(lat, lon).expect("on earth"))
            .collect();
        Shape::Walk { fixes }.area()
    }

    #[test]
    fn what_is_no_lawn_is_refused_in_words() {
        let e = |corners: &[(f64, f64)]| walk(corners).unwrap_err();
        assert_eq!(e(&[]), RuleError::TooFewCorners { count: 0 });
        assert_eq!(
            e(&[(40.0, -75.0); 9]),
            RuleError::TooFewCorners { count: 1 }
        );
        assert_eq!(
            e(&[(40.0, -75.0), (40.001, -75.0), (40.0, -75.0)]),
            RuleError::TooFewCorners { count: 2 }
        );
        assert_eq!(
            e(&[(10.0, 179.9999), (10.0, -179.9999), (10.001, 180.0)]),
            RuleError::AcrossDateLine
        );
        assert_eq!(
            e(&[(85.1, 0.0), (85.1, 0.01), (85.101, 0.0)]),
            RuleError::NearPole
        );
        assert_eq!(
            e(&[(-85.1, 0.0), (-85.1, 0.01), (-85.101, 0.0)]),
            RuleError::NearPole
        );
        assert!(matches!(
            e(&[(40.0, -75.0), (40.0, -74.9), (40.001, -75.0)]),
            RuleError::OverLimit {
                field: "a side of the walk",
                ..
            }
        ));
        assert!(matches!(
            e(&[
                (40.0, -75.0),
                (40.0, -74.97),
                (40.02, -74.97),
                (40.02, -75.0)
            ]),
            RuleError::OverLimit {
                field: "the area",
                ..
            }
        ));
        assert_eq!(
            e(&[
                (40.0, -75.0),
                (40.001, -74.999),
                (40.001, -75.0),
                (40.0, -74.999)
            ]),
            RuleError::SidesCross {
                first: 1,
                second: 3
            }
        );
        let off_earth = Fix {
            lat_1e9: i64::MIN,
            lon_1e9: 0,
            accuracy_mm: None,
            at_unix_ms: None,
        };
        assert!(matches!(
            Shape::Walk {
                fixes: vec![off_earth; 4]
            }
            .area(),
            Err(RuleError::NoSuchPlace { fix: 1, .. })
        ));
        assert!(matches!(
            Shape::Walk {
                fixes: vec![
                    Fix {
                        lat_1e9: 0,
                        ..off_earth
                    };
                    FIXES_MOST + 1
                ]
            }
            .area(),
            Err(RuleError::TooMany { .. })
        ));
    }

    #[test]
    fn winding_and_a_repeated_first_fix_change_nothing() {
        let mut corners = vec![(40.0, -75.0), (40.0, -74.9995), (40.0003, -74.9995)];
        let area = walk(&corners).unwrap().value;
        corners.push(corners[0]);
        let closed = walk(&corners).unwrap().value;
        assert!((closed.square_metres() - area.square_metres()).abs() < 1e-6);
        corners.reverse();
        let reversed = walk(&corners).unwrap().value;
        assert!((reversed.square_metres() - area.square_metres()).abs() < 1e-6);
    }
}
