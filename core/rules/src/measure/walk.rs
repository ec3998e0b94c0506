//! The area of a walk along the edge, and how sure it is.
//!
//! Reading a file and dropping bad fixes come before (`gpx_file`, `clean`): here every fix counts.

use rust_decimal::Decimal;

use super::crossing::must_not_cross;
use super::geodesic::{geodesic_polygon, local_plane, metres_a_degree, no_such_place};
use super::ring::{must_have_short_sides, standard_deviation_m2};
use super::{AreaEstimate, Fix};
use crate::error::{Field, Result, RuleError};
use crate::note::Note;
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
            field: Field::Walk,
            count,
            limit,
        });
    }
    must_be_on_a_lawn(fixes)?;
    let ring = ring(fixes);
    if ring.len() < 3 {
        return Err(RuleError::TooFewCorners { count: ring.len() });
    }
    let plane = local_plane(&ring);
    must_have_short_sides(&plane)?;
    must_not_cross(&plane)?;
    let corners: Vec<(f64, f64)> = ring.iter().map(|f| (f.lat(), f.lon())).collect();
    let (_, area_m2) = geodesic_polygon(&corners)?;
    let errors = Errors::of(&ring);
    let uncertainty_m2 = standard_deviation_m2(&plane, &errors.accuracies_m);
    let working = Working::new(
        "geodesic polygon on WGS84",
        "Karney (2013), J. Geodesy 87, 43",
    );
    Ok(errors
        .describe(working)
        .note(Note::FixErrors)
        .gives(AreaEstimate::from_si(area_m2, uncertainty_m2)))
}

/// The fixes that make sides: one repeated at once, or the first at the end, adds none.
pub(super) fn ring(fixes: &[Fix]) -> Vec<Fix> {
    let mut ring = fixes.to_vec();
    ring.dedup_by_key(|f| (f.lat_1e9, f.lon_1e9));
    while ring.len() > 1 && same_place(ring[0], ring[ring.len() - 1]) {
        ring.pop();
    }
    ring
}

/// How far off each fix may be.
pub(super) struct Errors {
    /// Root mean square of the distance from the true place, in metres.
    pub(super) accuracies_m: Vec<f64>,
    assumed: usize,
    rounded_to: Option<u32>,
}

impl Errors {
    pub(super) fn of(ring: &[Fix]) -> Self {
        let rounded_to = decimals(ring);
        // A number rounded to a step is off by up to half of it, evenly: its variance is step²/12.
        let rounding_m2 = rounded_to.map_or(0.0, |decimals| {
            let step_deg = 10_f64.powf(-f64::from(decimals));
            let (east_m, north_m) = metres_a_degree(ring[0].lat());
            ((east_m * step_deg).powi(2) + (north_m * step_deg).powi(2)) / 12.0
        });
        Self {
            accuracies_m: ring
                .iter()
                .map(|fix| (accuracy_m(fix).powi(2) + rounding_m2).sqrt())
                .collect(),
            assumed: ring.iter().filter(|f| f.accuracy_mm.is_none()).count(),
            rounded_to,
        }
    }

    /// That of the worst fix.
    pub(super) fn most_m(&self) -> f64 {
        self.accuracies_m.iter().copied().fold(0.0, f64::max)
    }

    pub(super) fn describe(&self, working: Working) -> Working {
        let (least, most) = (
            self.accuracies_m
                .iter()
                .copied()
                .fold(f64::INFINITY, f64::min),
            self.most_m(),
        );
        let mut working = working
            .input("fixes", self.accuracies_m.len())
            .input("accuracy", format!("{least:.1}–{most:.1} m"));
        if self.assumed > 0 {
            working = working.note(Note::AccuracyAssumed {
                fixes: self.assumed,
                metres: metres(ACCURACY_ASSUMED_M),
            });
        }
        match self.rounded_to {
            Some(decimals) => working.note(Note::CoordinatesRounded { decimals }),
            None => working,
        }
    }
}

/// Behind the point, how many decimals of a degree the coordinates were rounded to; none when to
/// seven or more, a hundredth of a metre, which no receiver on foot reaches.
fn decimals(ring: &[Fix]) -> Option<u32> {
    (0..=6).find(|&decimals| {
        let step = 10_i64.pow(9 - decimals);
        ring.iter()
            .all(|f| f.lat_1e9 % step == 0 && f.lon_1e9 % step == 0)
    })
}

/// A stated constant, for a sentence.
pub(super) fn metres(constant_m: f64) -> Decimal {
    Decimal::from_f64_retain(constant_m)
        .unwrap_or_default()
        .normalize()
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

fn same_place(a: Fix, b: Fix) -> bool {
    (a.lat_1e9, a.lon_1e9) == (b.lat_1e9, b.lon_1e9)
}

fn accuracy_m(fix: &Fix) -> f64 {
    fix.accuracy_mm
        .map_or(ACCURACY_ASSUMED_M, |mm| f64::from(mm) / 1000.0)
}

#[cfg(test)]
mod tests {
    use super::super::Shape;
    use super::*;

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
            RuleError::SideTooLong { corner: 1, .. }
        ));
        assert!(matches!(
            e(&[
                (40.0, -75.0),
                (40.0, -74.97),
                (40.02, -74.97),
                (40.02, -75.0)
            ]),
            RuleError::OverLimit {
                field: Field::TheArea,
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
