//! What the geometry of lawns adds to a library: areas on the ellipsoid, strips along an edge.

use geo::{Area as _, Buffer as _, LineString, Polygon, SimplifyIdx as _};
use geographiclib_rs::{Geodesic, PolygonArea, Winding};

uniffi::setup_scaffolding!();

/// The areas of a ring and of a strip around it.
#[uniffi::export]
#[must_use]
pub fn used(x: Vec<f64>, y: Vec<f64>) -> Vec<f64> {
    let earth = Geodesic::wgs84();
    let mut ground = PolygonArea::new(&earth, Winding::CounterClockwise);
    for (lat_deg, lon_deg) in y.iter().zip(&x) {
        ground.add_point(*lat_deg, *lon_deg);
    }
    let (_, area_m2, _) = ground.compute(true);
    let ring: LineString<f64> = x.into_iter().zip(y).collect();
    let kept = ring.simplify_idx(0.1).len();
    let strip = Polygon::new(ring, Vec::new()).buffer(1.0);
    vec![area_m2, strip.unsigned_area(), kept as f64]
}
