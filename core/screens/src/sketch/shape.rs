//! From a shape as it was measured to the ring that is drawn of it.
//!
//! What a tape does not tell (where a triangle's tip lies, which edge of offsets is straight) is
//! assumed in one way and named, so that the drawing can say so.

use sward_rules::Entered;
use sward_rules::measure::{DrawnCorner, Fix, OffsetRule, Shape, SideOfLine, TapedCorner};

use super::plane::{Bounds, Point, Ring};

/// Corners of a circle: its polygon falls short of its area by less than 0.1 %.
const CIRCLE_CORNERS: u32 = 96;
/// Pieces of an edge that bends, between two offsets or radii.
const BEND_PIECES: u32 = 12;

/// What had to be assumed to draw a shape.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Assumed {
    /// The third corner is drawn over the middle of the side that was measured.
    TipOverMiddle,
    /// The shorter parallel side is drawn over the middle of the longer.
    SidesCentred,
    /// One edge is drawn straight: widths say nothing of how they lie across the base line.
    BaseStraight,
    /// The edge is drawn through the radii; the area is that of a circle with their mean.
    ThroughRadii,
}

/// A shape ready to be drawn, its first corner or the south-west corner of its frame at the
/// origin; a drawn one where it was drawn.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Drawn {
    /// Its corners.
    pub(crate) ring: Ring,
    /// What was assumed.
    pub(crate) assumed: Option<Assumed>,
}

/// The ring of a shape; none for one that cannot be, which the rules refuse with the reason.
pub(crate) fn drawn(shape: &Shape) -> Option<Drawn> {
    let plain = |ring: Ring| {
        Some(Drawn {
            ring,
            assumed: None,
        })
    };
    let with = |ring: Ring, assumed: Assumed| {
        Some(Drawn {
            ring,
            assumed: Some(assumed),
        })
    };
    let drawn = match shape {
        Shape::Rectangle { length, width } => plain(rectangle(metres(length)?, metres(width)?)),
        Shape::TriangleSides { a, b, c } => plain(triangle(metres(a)?, metres(b)?, metres(c)?)?),
        Shape::TriangleHeight { base, height } => {
            let (base_m, height_m) = (metres(base)?, metres(height)?);
            let tip = Point::new(base_m / 2.0, height_m);
            with(
                vec![Point::default(), Point::new(base_m, 0.0), tip],
                Assumed::TipOverMiddle,
            )
        }
        Shape::Trapezoid { a, b, height } => with(
            trapezoid(metres(a)?, metres(b)?, metres(height)?),
            Assumed::SidesCentred,
        ),
        Shape::Circle { diameter } => {
            let across_m = metres(diameter)?;
            plain(oval(across_m, across_m))
        }
        Shape::Oval { length, width } => plain(oval(metres(length)?, metres(width)?)),
        Shape::Offsets {
            spacing,
            offsets,
            rule,
        } => {
            let widths: Vec<f64> = offsets.iter().map(metres).collect::<Option<_>>()?;
            with(
                by_offsets(metres(spacing)?, &widths, *rule),
                Assumed::BaseStraight,
            )
        }
        Shape::MeanRadius { radii } => {
            let radii: Vec<f64> = radii.iter().map(metres).collect::<Option<_>>()?;
            with(by_radii(&radii), Assumed::ThroughRadii)
        }
        Shape::TapePolygon {
            first_side,
            corners,
        } => plain(taped(metres(first_side)?, corners)?),
        Shape::Walk { fixes } => plain(walked(fixes, fixes.first()?)),
        Shape::Drawn { corners } => plain(without_repeats(
            corners.iter().copied().map(on_sketch).collect(),
        )),
    }?;
    let finite = drawn
        .ring
        .iter()
        .all(|p| p.east_m.is_finite() && p.north_m.is_finite());
    (finite && drawn.ring.len() >= 3).then_some(drawn)
}

/// The first position of a walk, by which several walks lie where they lay.
pub(crate) fn first_fix(shape: &Shape) -> Option<&Fix> {
    match shape {
        Shape::Walk { fixes } => fixes.first(),
        _ => None,
    }
}

/// Whether a shape lies on the sketch where it was drawn.
pub(crate) fn is_drawn(shape: &Shape) -> bool {
    matches!(shape, Shape::Drawn { .. })
}

fn on_sketch(corner: DrawnCorner) -> Point {
    Point::new(
        f64::from(corner.east_cm) / 100.0,
        f64::from(corner.north_cm) / 100.0,
    )
}

fn metres(length: &Entered) -> Option<f64> {
    length.to_length().ok().map(|l| l.value)
}

fn rectangle(length_m: f64, width_m: f64) -> Ring {
    vec![
        Point::default(),
        Point::new(length_m, 0.0),
        Point::new(length_m, width_m),
        Point::new(0.0, width_m),
    ]
}

/// Corner 1 to 2 is the first side, 2 to 3 the second, 3 to 1 the third.
fn triangle(a_m: f64, b_m: f64, c_m: f64) -> Option<Ring> {
    let tip = meet(
        Point::default(),
        Point::new(a_m, 0.0),
        (c_m, b_m),
        SideOfLine::Left,
    )?;
    Some(vec![Point::default(), Point::new(a_m, 0.0), tip])
}

fn trapezoid(a_m: f64, b_m: f64, height_m: f64) -> Ring {
    let inset_m = (a_m - b_m) / 2.0;
    let ring = vec![
        Point::default(),
        Point::new(a_m, 0.0),
        Point::new(a_m - inset_m, height_m),
        Point::new(inset_m, height_m),
    ];
    at_origin(ring)
}

fn oval(length_m: f64, width_m: f64) -> Ring {
    (0..CIRCLE_CORNERS)
        .map(|n| {
            let (sin, cos) =
                (std::f64::consts::TAU * f64::from(n) / f64::from(CIRCLE_CORNERS)).sin_cos();
            Point::new(length_m / 2.0 * (1.0 + cos), width_m / 2.0 * (1.0 + sin))
        })
        .collect()
}

fn by_offsets(spacing_m: f64, widths_m: &[f64], rule: OffsetRule) -> Ring {
    let last = widths_m.len().saturating_sub(1);
    let along = |place: usize| spacing_m * place as f64;
    let mut ring = vec![Point::default(), Point::new(along(last), 0.0)];
    let mut edge = Vec::new();
    match rule {
        OffsetRule::Trapezoid => {
            edge.extend(
                widths_m
                    .iter()
                    .enumerate()
                    .map(|(n, w)| Point::new(along(n), *w)),
            );
        }
        OffsetRule::Simpson => {
            for (pair, w) in widths_m.windows(3).step_by(2).enumerate() {
                edge.extend((0..2 * BEND_PIECES).map(|piece| {
                    let share = f64::from(piece) / f64::from(BEND_PIECES);
                    // The parabola through three offsets at 0, 1 and 2 spacings; an edge cannot
                    // lie beyond the base line.
                    let width = w[0]
                        + share * (w[1] - w[0])
                        + share * (share - 1.0) / 2.0 * (w[2] - 2.0 * w[1] + w[0]);
                    Point::new(along(2 * pair) + share * spacing_m, width.max(0.0))
                }));
            }
            edge.extend(widths_m.last().map(|w| Point::new(along(last), *w)));
        }
    }
    edge.reverse();
    ring.extend(edge);
    without_repeats(ring)
}

/// Through the ends of radii at even angles, the first to the north, on clockwise.
fn by_radii(radii_m: &[f64]) -> Ring {
    let count = radii_m.len();
    let ring = (0..count)
        .flat_map(|n| {
            (0..BEND_PIECES).map(move |piece| (n, f64::from(piece) / f64::from(BEND_PIECES)))
        })
        .map(|(n, share)| {
            // Half a cosine wave from one radius to the next: no corners at the radii.
            let ease = (1.0 - (std::f64::consts::PI * share).cos()) / 2.0;
            let radius = radii_m[n] + ease * (radii_m[(n + 1) % count] - radii_m[n]);
            let (sin, cos) = (std::f64::consts::TAU * (n as f64 + share) / count as f64).sin_cos();
            Point::new(radius * sin, radius * cos)
        })
        .collect();
    at_origin(ring)
}

/// Corner 1 at the origin, corner 2 east of it, every further one where its two tapes meet.
fn taped(first_side_m: f64, corners: &[TapedCorner]) -> Option<Ring> {
    let mut ring = vec![Point::default(), Point::new(first_side_m, 0.0)];
    for corner in corners {
        let known = |number: u16| ring.get(usize::from(number).checked_sub(1)?).copied();
        let (a, b) = (known(corner.from_a)?, known(corner.from_b)?);
        let tapes = (metres(&corner.tape_a)?, metres(&corner.tape_b)?);
        ring.push(meet(a, b, tapes, corner.side)?);
    }
    Some(ring)
}

/// Where two tapes meet beside the line from `a` to `b`; none where they do not.
fn meet(a: Point, b: Point, (from_a_m, from_b_m): (f64, f64), side: SideOfLine) -> Option<Point> {
    let base_m = a.distance_m(b);
    let along_m = (base_m.powi(2) + from_a_m.powi(2) - from_b_m.powi(2)) / (2.0 * base_m);
    let off2 = (from_a_m - along_m) * (from_a_m + along_m);
    // A NaN (two corners on one spot) fails this as well.
    if off2.is_nan() || off2 <= 0.0 {
        return None;
    }
    let off_m = match side {
        SideOfLine::Left => off2.sqrt(),
        SideOfLine::Right => -off2.sqrt(),
    };
    let (unit_e, unit_n) = (
        (b.east_m - a.east_m) / base_m,
        (b.north_m - a.north_m) / base_m,
    );
    Some(Point::new(
        a.east_m + unit_e * along_m - unit_n * off_m,
        a.north_m + unit_n * along_m + unit_e * off_m,
    ))
}

/// A walk on the plane that touches WGS84 near it, in metres from `origin`.
pub(crate) fn walked(fixes: &[Fix], origin: &Fix) -> Ring {
    without_repeats(fixes.iter().map(|fix| metres_from(origin, fix)).collect())
}

/// Metres east and north of one fix to another near it.
pub(crate) fn metres_from(origin: &Fix, fix: &Fix) -> Point {
    // WGS84: equatorial radius in metres, first eccentricity squared.
    const RADIUS_M: f64 = 6_378_137.0;
    const ECCENTRICITY2: f64 = 0.006_694_379_990_14;
    let (sin, cos) = origin.lat().to_radians().sin_cos();
    let curve = 1.0 - ECCENTRICITY2 * sin * sin;
    let east_m = (RADIUS_M / curve.sqrt() * cos).to_radians();
    let north_m = (RADIUS_M * (1.0 - ECCENTRICITY2) / curve.powf(1.5)).to_radians();
    let degrees = |from: i64, to: i64| to.saturating_sub(from) as f64 / 1e9;
    Point::new(
        degrees(origin.lon_1e9, fix.lon_1e9) * east_m,
        degrees(origin.lat_1e9, fix.lat_1e9) * north_m,
    )
}

fn without_repeats(mut ring: Ring) -> Ring {
    ring.dedup();
    while ring.len() > 1 && ring.first() == ring.last() {
        ring.pop();
    }
    ring
}

/// Moved so that the south-west corner of its frame is the origin.
fn at_origin(ring: Ring) -> Ring {
    let Some(bounds) = Bounds::of(ring.iter().copied()) else {
        return ring;
    };
    ring.into_iter().map(|p| p.from(bounds.least)).collect()
}

#[cfg(test)]
mod tests;
