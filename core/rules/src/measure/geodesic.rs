//! Polygons on the WGS84 ellipsoid, anywhere on earth, and the plane near a lawn.
//!
//! Whether a walk is a lawn at all is decided in `walk`.

use geo::Coord;
use geographiclib_rs::{Geodesic, PolygonArea, Winding};

use super::Fix;
use crate::error::{Result, RuleError};

/// Perimeter in metres and area in square metres of a polygon on WGS84, its corners given as
/// latitude and longitude in degrees, in either winding; the last need not repeat the first.
///
/// It works round poles and across the date line. A ring encloses two parts of the earth: the
/// smaller is meant.
///
/// Karney (2013), Algorithms for geodesics, J. Geodesy 87, 43.
///
/// ```
/// let degree = [(0.0, 0.0), (0.0, 1.0), (1.0, 1.0), (1.0, 0.0)];
/// let (perimeter_m, area_m2) = sward_rules::measure::geodesic_polygon(&degree)?;
/// assert!((perimeter_m - 443_770.917_248).abs() < 1e-3);
/// assert!((area_m2 - 12_308_778_361.469).abs() < 1.0);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When there are fewer than three corners, or one is no place on earth.
pub fn geodesic_polygon(corners: &[(f64, f64)]) -> Result<(f64, f64)> {
    if corners.len() < 3 {
        return Err(RuleError::TooFewCorners {
            count: corners.len(),
        });
    }
    let earth = Geodesic::wgs84();
    let mut polygon = PolygonArea::new(&earth, Winding::CounterClockwise);
    for (index, &(lat, lon)) in corners.iter().enumerate() {
        // Written so that a NaN is refused too.
        if !(lat.abs() <= 90.0 && lon.abs() <= 360.0) {
            return Err(no_such_place(index, lat, lon));
        }
        polygon.add_point(lat, lon);
    }
    let (perimeter_m, area_m2, _) = polygon.compute(true);
    Ok((perimeter_m, area_m2.abs()))
}

pub(super) fn no_such_place(index: usize, lat: f64, lon: f64) -> RuleError {
    RuleError::NoSuchPlace {
        fix: index + 1,
        lat: lat.to_string(),
        lon: lon.to_string(),
    }
}

/// Fixes as metres east and north of the first, on the plane that touches the ellipsoid near it:
/// good to a millimetre over a lawn, for crossing sides and uncertainty, not for the area itself.
pub(super) fn local_plane(fixes: &[Fix]) -> Vec<Coord<f64>> {
    let Some(first) = fixes.first() else {
        return Vec::new();
    };
    let (east_m, north_m) = metres_a_degree(first.lat());
    fixes
        .iter()
        .map(|fix| Coord {
            x: (fix.lon_1e9 - first.lon_1e9) as f64 / 1e9 * east_m,
            y: (fix.lat_1e9 - first.lat_1e9) as f64 / 1e9 * north_m,
        })
        .collect()
}

/// Distance between two fixes near each other, in metres; across the date line too.
pub(super) fn distance_m(a: &Fix, b: &Fix) -> f64 {
    let (east_m, north_m) = metres_a_degree(f64::midpoint(a.lat(), b.lat()));
    let around = (b.lon() - a.lon()).abs();
    (around.min(360.0 - around) * east_m).hypot((b.lat() - a.lat()) * north_m)
}

/// Length of a degree of longitude and of latitude on WGS84.
pub(super) fn metres_a_degree(lat: f64) -> (f64, f64) {
    const A_M: f64 = 6_378_137.0;
    const F: f64 = 1.0 / 298.257_223_563;
    let e2 = F * (2.0 - F);
    let (sin, cos) = lat.to_radians().sin_cos();
    let w2 = 1.0 - e2 * sin * sin;
    let across = A_M / w2.sqrt();
    let along = across * (1.0 - e2) / w2;
    ((across * cos).to_radians(), along.to_radians())
}

#[cfg(test)]
mod tests {
    use super::*;
    use geographiclib_rs::InverseGeodesic;

    #[test]
    fn the_local_plane_agrees_with_the_geodesic_over_a_lawn() {
        for (lat, lon) in [(0.0, 0.0), (40.0, -75.0), (-33.9, 151.2), (64.0, 20.0)] {
            let a = Fix::from_degrees(lat, lon).unwrap();
            let b = Fix::from_degrees(lat + 0.0005, lon + 0.0007).unwrap();
            let plane = local_plane(&[a, b]);
            let metres: f64 = Geodesic::wgs84().inverse(a.lat(), a.lon(), b.lat(), b.lon());
            assert!((plane[1].x.hypot(plane[1].y) - metres).abs() < 1e-3 * metres);
        }
    }

    #[test]
    fn no_place_on_earth_is_refused() {
        for bad in [
            (91.0, 0.0),
            (f64::NAN, 0.0),
            (0.0, f64::INFINITY),
            (0.0, f64::NAN),
        ] {
            let result = geodesic_polygon(&[(0.0, 0.0), (0.0, 1.0), bad]);
            assert!(matches!(result, Err(RuleError::NoSuchPlace { fix: 3, .. })));
        }
        assert!(geodesic_polygon(&[(0.0, 0.0), (0.0, 1.0)]).is_err());
    }
}
