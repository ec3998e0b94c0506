//! Points and rings in the plane of a yard sketch, in metres east and north of its origin.
//!
//! What they stand for is known to the files beside this one.

/// A point of the sketch.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Point {
    /// Metres east of the origin.
    pub(crate) east_m: f64,
    /// Metres north of it.
    pub(crate) north_m: f64,
}

impl Point {
    /// A point from metres east and north.
    pub(crate) const fn new(east_m: f64, north_m: f64) -> Self {
        Self { east_m, north_m }
    }

    /// The point that lies this much farther.
    pub(crate) fn moved(self, by: Self) -> Self {
        Self::new(self.east_m + by.east_m, self.north_m + by.north_m)
    }

    /// The way from `other` to here.
    pub(crate) fn from(self, other: Self) -> Self {
        Self::new(self.east_m - other.east_m, self.north_m - other.north_m)
    }

    /// Turned clockwise about the origin, in degrees.
    pub(crate) fn turned(self, clockwise_deg: f64) -> Self {
        let (sin, cos) = clockwise_deg.to_radians().sin_cos();
        Self::new(
            self.east_m * cos + self.north_m * sin,
            self.north_m * cos - self.east_m * sin,
        )
    }

    /// Metres to another point.
    pub(crate) fn distance_m(self, other: Self) -> f64 {
        let way = self.from(other);
        way.east_m.hypot(way.north_m)
    }

    /// The direction in which another point lies, in degrees clockwise from north, 0 to below 360.
    pub(crate) fn bearing_deg(self, other: Self) -> f64 {
        let way = other.from(self);
        way.east_m.atan2(way.north_m).to_degrees().rem_euclid(360.0)
    }
}

/// The corners of a closed outline in their order; the last is not the first again.
pub(crate) type Ring = Vec<Point>;

/// The smallest upright rectangle around points.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Bounds {
    /// Its south-west corner.
    pub(crate) least: Point,
    /// Its north-east corner.
    pub(crate) most: Point,
}

impl Bounds {
    /// Around points; none where there are none.
    pub(crate) fn of(points: impl IntoIterator<Item = Point>) -> Option<Self> {
        points.into_iter().fold(None, |bounds: Option<Self>, p| {
            Some(bounds.map_or(Self { least: p, most: p }, |b| b.with(p)))
        })
    }

    fn with(self, p: Point) -> Self {
        Self {
            least: Point::new(
                self.least.east_m.min(p.east_m),
                self.least.north_m.min(p.north_m),
            ),
            most: Point::new(
                self.most.east_m.max(p.east_m),
                self.most.north_m.max(p.north_m),
            ),
        }
    }

    /// From west to east.
    pub(crate) fn width_m(&self) -> f64 {
        self.most.east_m - self.least.east_m
    }

    /// From south to north.
    pub(crate) fn height_m(&self) -> f64 {
        self.most.north_m - self.least.north_m
    }
}

/// The sides of a ring, the one back to the first corner last.
pub(crate) fn sides(ring: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    ring.iter()
        .copied()
        .zip(ring.iter().copied().cycle().skip(1))
}

/// The area of a ring in square metres, by the shoelace formula.
#[cfg(test)]
pub(crate) fn area_m2(ring: &[Point]) -> f64 {
    let doubled: f64 = sides(ring)
        .map(|(p, q)| p.east_m * q.north_m - q.east_m * p.north_m)
        .sum();
    doubled.abs() / 2.0
}

/// Whether a point lies inside a ring.
pub(crate) fn holds(ring: &[Point], point: Point) -> bool {
    sides(ring)
        .filter(|(p, q)| (p.north_m > point.north_m) != (q.north_m > point.north_m))
        .filter(|(p, q)| {
            let share = (point.north_m - p.north_m) / (q.north_m - p.north_m);
            point.east_m < p.east_m + share * (q.east_m - p.east_m)
        })
        .count()
        % 2
        == 1
}

/// Metres from a point to the nearest place on a ring's edge, and that place.
pub(crate) fn nearest_on_edge(ring: &[Point], point: Point) -> Option<(f64, Point)> {
    sides(ring)
        .map(|(p, q)| {
            let (side, way) = (q.from(p), point.from(p));
            let length2 = side.east_m.powi(2) + side.north_m.powi(2);
            let share = if length2 > 0.0 {
                ((way.east_m * side.east_m + way.north_m * side.north_m) / length2).clamp(0.0, 1.0)
            } else {
                0.0
            };
            let foot = Point::new(
                p.east_m + share * side.east_m,
                p.north_m + share * side.north_m,
            );
            (foot.distance_m(point), foot)
        })
        .min_by(|a, b| a.0.total_cmp(&b.0))
}

/// A point well inside a ring, where a word or a bed of unknown place is drawn: the middle of the
/// widest stretch on a few level lines across it.
pub(crate) fn middle(ring: &[Point]) -> Option<Point> {
    const LINES: u32 = 8;
    let bounds = Bounds::of(ring.iter().copied())?;
    let level = |n: u32| {
        let share = (f64::from(n) + 0.5) / f64::from(LINES);
        bounds.least.north_m + share * bounds.height_m()
    };
    // The inner lines first, so that of two like stretches the more central one is taken.
    let mut order: Vec<u32> = (0..LINES).collect();
    order.sort_by_key(|n| (2 * i64::from(*n) - i64::from(LINES) + 1).abs());
    let mut best: Option<(f64, Point)> = None;
    for north_m in order.into_iter().map(level) {
        for (west_m, east_m) in stretches(ring, north_m) {
            // A tenth more is needed: the lines nearer the edge only win where they are clearly wider.
            if best.is_none_or(|(width, _)| east_m - west_m > 1.1 * width) {
                best = Some((
                    east_m - west_m,
                    Point::new(f64::midpoint(west_m, east_m), north_m),
                ));
            }
        }
    }
    best.map(|(_, point)| point)
        .or_else(|| ring.first().copied())
}

/// Where a level line lies inside a ring: from west to east, stretch by stretch.
pub(crate) fn stretches(ring: &[Point], north_m: f64) -> Vec<(f64, f64)> {
    let mut crossings: Vec<f64> = sides(ring)
        // Half open, so that a corner on the line counts once.
        .filter(|(p, q)| (p.north_m > north_m) != (q.north_m > north_m))
        .map(|(p, q)| {
            p.east_m + (north_m - p.north_m) / (q.north_m - p.north_m) * (q.east_m - p.east_m)
        })
        .collect();
    crossings.sort_by(f64::total_cmp);
    crossings
        .chunks_exact(2)
        .map(|pair| (pair[0], pair[1]))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ring(corners: &[(f64, f64)]) -> Ring {
        corners.iter().map(|&(e, n)| Point::new(e, n)).collect()
    }

    // Plane geometry, worked by hand.
    #[test]
    fn a_turn_is_clockwise_and_bearings_are_from_north() {
        let east = Point::new(0.0, 2.0).turned(90.0);
        assert!((east.east_m - 2.0).abs() < 1e-12 && east.north_m.abs() < 1e-12);
        let o = Point::default();
        for (to, deg) in [
            ((0.0, 1.0), 0.0),
            ((1.0, 1.0), 45.0),
            ((0.0, -1.0), 180.0),
            ((-1.0, 0.0), 270.0),
        ] {
            assert!((o.bearing_deg(Point::new(to.0, to.1)) - deg).abs() < 1e-9);
        }
    }

    #[test]
    fn an_l_has_its_area_its_inside_and_its_stretches() {
        let l = ring(&[
            (0.0, 0.0),
            (10.0, 0.0),
            (10.0, 4.0),
            (4.0, 4.0),
            (4.0, 10.0),
            (0.0, 10.0),
        ]);
        assert!((area_m2(&l) - 64.0).abs() < 1e-9);
        assert!(holds(&l, Point::new(2.0, 9.0)) && !holds(&l, Point::new(8.0, 8.0)));
        assert_eq!(stretches(&l, 2.0), [(0.0, 10.0)]);
        assert_eq!(stretches(&l, 6.0), [(0.0, 4.0)]);
        assert!(holds(&l, middle(&l).unwrap()));
        let (off_m, foot) = nearest_on_edge(&l, Point::new(7.0, 7.0)).unwrap();
        assert!((off_m - 3.0).abs() < 1e-9 && holds(&l, foot.moved(Point::new(-0.1, -0.1))));
    }

    #[test]
    fn two_stretches_of_a_u_are_told_apart() {
        let u = ring(&[
            (0.0, 0.0),
            (9.0, 0.0),
            (9.0, 9.0),
            (6.0, 9.0),
            (6.0, 3.0),
            (3.0, 3.0),
            (3.0, 9.0),
            (0.0, 9.0),
        ]);
        assert_eq!(stretches(&u, 6.0), [(0.0, 3.0), (6.0, 9.0)]);
        assert!(
            holds(&u, middle(&u).unwrap()),
            "the middle of a U is not in its mouth"
        );
    }
}
