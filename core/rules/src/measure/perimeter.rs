//! The length of an outline's outer edge, with its uncertainty.
//!
//! Base and height alone leave open how the other sides run: such shapes have an area and no edge
//! here. The corners of an edge in the plane are in `edge`.

use std::f64::consts::PI;

use geo::{Coord, LineString, SimplifyIdx};

use super::geodesic::{geodesic_polygon, local_plane};
use super::ring::{length_deviation_m, perimeter, shortest_m};
use super::tape::{positive, spread};
use super::walk::{Errors, metres};
use super::{DRAWN_ERROR_M, Fix, LengthEstimate, Outline, Shape, drawn, taped_polygon, walk};
use crate::error::{Field, Result, RuleError};
use crate::note::Note;
use crate::quantity::Entered;
use crate::working::{Answer, Working};

/// Wobbles of a walk smaller than this, in metres, are the receiver's and no part of the edge's
/// length (common practice, no source).
pub const WOBBLE_MOST_M: f64 = 1.0;

/// Fixes this many times farther apart than they are accurate do not share their errors.
const APART: f64 = 5.0;

const GEOMETRY: &str = "plane geometry";

impl Outline {
    /// The length of the outer edge. Beds and pools inside have edges of their own.
    ///
    /// ```
    /// use sward_rules::{Entered, measure::{Outline, Shape}};
    /// let (length, width) = (Entered::parse("60 ft")?, Entered::parse("25 ft")?);
    /// let lawn = Outline { shape: Shape::Rectangle { length, width }, left_out: vec![] };
    /// assert_eq!(lawn.perimeter()?.value.for_person(), "170.0 ft ± 1.3 ft (0.8 %)");
    /// # Ok::<(), sward_rules::RuleError>(())
    /// ```
    ///
    /// # Errors
    /// As [`Outline::area`], and when the measures do not say how the edge runs
    /// ([`RuleError::EdgeNotGiven`]).
    pub fn perimeter(&self) -> Result<Answer<LengthEstimate>> {
        self.area()?;
        let answer = self.shape.edge_length()?;
        let working = if self.left_out.is_empty() {
            answer.working
        } else {
            answer.working.note(Note::OuterEdgeOnly)
        };
        Ok(working.gives(answer.value))
    }
}

impl Shape {
    /// The length of this shape's edge.
    ///
    /// # Errors
    /// As [`Outline::perimeter`].
    pub fn perimeter(&self) -> Result<Answer<LengthEstimate>> {
        self.area()?;
        self.edge_length()
    }

    /// The same of a shape whose area is known to be a lawn's.
    pub(super) fn edge_length(&self) -> Result<Answer<LengthEstimate>> {
        match self {
            Self::TriangleHeight { .. } | Self::Trapezoid { .. } => Err(RuleError::EdgeNotGiven),
            Self::Walk { fixes } => of_walk(fixes),
            Self::Drawn { corners } => {
                let ring = drawn::ring(corners);
                let deviation_m = length_deviation_m(&ring, &vec![DRAWN_ERROR_M; ring.len()]);
                Ok(
                    Working::new("sum of the sides from corner to corner", GEOMETRY)
                        .input("corners", ring.len())
                        .note(Note::DrawnByHand)
                        .note(Note::DrawnErrors {
                            metres: metres(DRAWN_ERROR_M),
                        })
                        .gives(LengthEstimate::from_si(perimeter(&ring), deviation_m)),
                )
            }
            _ => {
                let answer = of_tape(self)?;
                Ok(answer.working.note(Note::TapeErrors).gives(answer.value))
            }
        }
    }
}

fn of_tape(shape: &Shape) -> Result<Answer<LengthEstimate>> {
    Ok(match shape {
        Shape::Rectangle { length, width } => {
            let r = [
                positive(Field::Length, length)?,
                positive(Field::Width, width)?,
            ];
            Working::new("rectangle: 2 × (length + width)", GEOMETRY)
                .input("length", length.for_person())
                .input("width", width.for_person())
                .gives(estimate(&r, |r| 2.0 * (r[0] + r[1])))
        }
        Shape::TriangleSides { a, b, c } => {
            let r = [
                positive(Field::FirstSide, a)?,
                positive(Field::SecondSide, b)?,
                positive(Field::ThirdSide, c)?,
            ];
            Working::new("sum of the sides", GEOMETRY)
                .input("first side", a.for_person())
                .input("second side", b.for_person())
                .input("third side", c.for_person())
                .gives(estimate(&r, |r| r.iter().sum()))
        }
        Shape::Circle { diameter } => {
            let d = positive(Field::Diameter, diameter)?;
            Working::new("circle: π × diameter", GEOMETRY)
                .input("diameter", diameter.for_person())
                .gives(estimate(&[d], |r| PI * r[0]))
        }
        Shape::Oval { length, width } => {
            let r = [
                positive(Field::Length, length)?,
                positive(Field::Width, width)?,
            ];
            Working::new("edge of an ellipse, by arithmetic-geometric mean", GEOMETRY)
                .input("length", length.for_person())
                .input("width", width.for_person())
                .gives(estimate(&r, |r| ellipse(r[0] / 2.0, r[1] / 2.0)))
        }
        Shape::MeanRadius { radii } => {
            let r: Vec<f64> = radii
                .iter()
                .map(|r| positive(Field::Radius, r))
                .collect::<Result<_>>()?;
            Working::new(
                "between two radii the edge draws in or out evenly",
                GEOMETRY,
            )
            .input("radii", listed(radii))
            .note(Note::BetweenRadii)
            .gives(estimate(&r, spiral))
        }
        Shape::Offsets {
            spacing, offsets, ..
        } => {
            let mut r = vec![positive(Field::Spacing, spacing)?];
            for (index, offset) in offsets.iter().enumerate() {
                let number = index + 1;
                let length = offset
                    .to_length()
                    .map_err(|e| e.of(Field::Offset { number }))?;
                r.push(length.value);
            }
            Working::new(
                "base line, both ends, and straight from width to width",
                GEOMETRY,
            )
            .input("spacing", spacing.for_person())
            .input("offsets", listed(offsets))
            .note(Note::BaseLineIsEdge)
            .note(Note::BetweenOffsets)
            .gives(estimate(&r, |r| beside_base_line(r[0], &r[1..])))
        }
        Shape::TapePolygon {
            first_side,
            corners,
        } => Working::new("sum of the sides from corner to corner", GEOMETRY)
            .input("corners", corners.len() + 2)
            .gives(taped_polygon::edge(first_side, corners)?),
        Shape::TriangleHeight { .. }
        | Shape::Trapezoid { .. }
        | Shape::Walk { .. }
        | Shape::Drawn { .. } => unreachable!("these shapes are answered before"),
    })
}

fn listed(all: &[Entered]) -> String {
    let all: Vec<String> = all.iter().map(Entered::for_person).collect();
    all.join(", ")
}

fn estimate(readings: &[f64], length: impl Fn(&[f64]) -> f64) -> LengthEstimate {
    let (length_m, uncertainty_m) = spread(readings, length);
    LengthEstimate::from_si(length_m, uncertainty_m)
}

/// The edge of an ellipse by its two half axes.
fn ellipse(a: f64, b: f64) -> f64 {
    let (mut larger, mut smaller) = (a.max(b), a.min(b));
    let mut sum = (larger.powi(2) - smaller.powi(2)) / 2.0;
    let (whole, mut weight) = (larger.powi(2), 1.0);
    // Each turn doubles the digits: eight are enough for an oval a million times as long as wide.
    for _ in 0..8 {
        let (mean, half) = (f64::midpoint(larger, smaller), (larger - smaller) / 2.0);
        sum += weight * half.powi(2);
        weight *= 2.0;
        (larger, smaller) = (mean, (larger * smaller).sqrt());
    }
    2.0 * PI * (whole - sum) / larger
}

/// The edge through the ends of radii at even angles, the radius changing evenly between two: for
/// a circle the circle itself.
fn spiral(radii: &[f64]) -> f64 {
    /// Parts for Simpson's rule, which is then good to a millionth.
    const PARTS: u32 = 8;
    let angle = 2.0 * PI / radii.len() as f64;
    let next = radii.iter().cycle().skip(1);
    let between = |(from, to): (&f64, &f64)| {
        let change = (to - from) / angle;
        let parts = (0..=PARTS).map(|part| {
            let radius = from + (to - from) * f64::from(part) / f64::from(PARTS);
            let weight = match part {
                0 | PARTS => 1.0,
                odd if odd % 2 == 1 => 4.0,
                _ => 2.0,
            };
            weight * radius.hypot(change)
        });
        parts.sum::<f64>() * angle / f64::from(PARTS) / 3.0
    };
    radii.iter().zip(next).map(between).sum()
}

fn beside_base_line(spacing: f64, offsets: &[f64]) -> f64 {
    let ends = offsets.first().unwrap_or(&0.0) + offsets.last().unwrap_or(&0.0);
    let far: f64 = offsets.windows(2).map(|w| spacing.hypot(w[1] - w[0])).sum();
    spacing * (offsets.len() - 1) as f64 + ends + far
}

fn of_walk(fixes: &[Fix]) -> Result<Answer<LengthEstimate>> {
    let ring = walk::ring(fixes);
    let corners = |ring: &[Fix]| ring.iter().map(|f| (f.lat(), f.lon())).collect::<Vec<_>>();
    let (walked_m, _) = geodesic_polygon(&corners(&ring))?;
    let smooth = smoothed(&ring);
    let (length_m, _) = geodesic_polygon(&corners(&smooth))?;
    // Fixes far apart err each on its own. Where they lie close, a receiver's errors go together, and
    // what they add is in the wobble already.
    let errors = Errors::of(&ring);
    let apart = shortest_m(&local_plane(&ring)) > APART * errors.most_m();
    let (sides, errors) = if apart {
        (&ring, errors)
    } else {
        (&smooth, Errors::of(&smooth))
    };
    let deviation_m = length_deviation_m(&local_plane(sides), &errors.accuracies_m);
    let working = Working::new(
        "sum of the geodesics from fix to fix on WGS84",
        "Karney (2013), J. Geodesy 87, 43",
    );
    Ok(errors
        .describe(working)
        .note(Note::WalkSmoothed {
            metres: metres(WOBBLE_MOST_M),
        })
        .note(Note::EdgeErrors)
        .gives(LengthEstimate::from_si(
            length_m,
            deviation_m.hypot(walked_m - length_m),
        )))
}

/// The fixes without those less than [`WOBBLE_MOST_M`] off the line between the ones kept
/// (Ramer, Douglas and Peucker), each half of the ring by itself.
fn smoothed(ring: &[Fix]) -> Vec<Fix> {
    let plane = local_plane(ring);
    let from_first = |c: &Coord<f64>| c.x.hypot(c.y);
    let far = (0..plane.len())
        .max_by(|&i, &j| from_first(&plane[i]).total_cmp(&from_first(&plane[j])))
        .unwrap_or(0);
    let there = LineString::new(plane[..=far].to_vec());
    let back = LineString::new([&plane[far..], &plane[..1]].concat());
    let back_indices = back.simplify_idx(WOBBLE_MOST_M);
    // The last of either half is the first of the other.
    let mut kept: Vec<Fix> = there
        .simplify_idx(WOBBLE_MOST_M)
        .into_iter()
        .chain(back_indices.into_iter().map(|i| i + far))
        .filter(|&i| i < ring.len())
        .map(|i| ring[i])
        .collect();
    kept.dedup_by_key(|f| (f.lat_1e9, f.lon_1e9));
    if kept.len() < 3 { ring.to_vec() } else { kept }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Complete elliptic integrals, computed with SciPy: 4·a·E(1 − b²/a²).
    #[test]
    fn an_ellipse_has_the_edge_of_its_integral() {
        for (a, b, edge) in [
            (5.0, 3.0, ELLIPSE_5_3),
            (3.0, 5.0, ELLIPSE_5_3),
            (1.0, 0.01, ELLIPSE_1_001),
            (2.0, 2.0, 4.0 * PI),
        ] {
            assert!(
                (ellipse(a, b) / edge - 1.0).abs() < 1e-12,
                "{}",
                ellipse(a, b)
            );
        }
    }

    const ELLIPSE_5_3: f64 = 25.526_998_863_398_13;
    const ELLIPSE_1_001: f64 = 4.001_098_329_722_65;

    // By hand: a circle, and a square's half diagonals, which give a four-leaved curve longer than
    // the circle of the mean.
    #[test]
    fn a_spiral_of_even_radii_is_the_circle() {
        assert!((spiral(&[3.0; 5]) - 6.0 * PI).abs() < 1e-12);
        assert!(spiral(&[3.0, 4.0, 3.0, 4.0]) > 7.0 * PI);
    }

    // By hand: base 20, ends 3 and 0, then 3-4-5 triangles twice.
    #[test]
    fn beside_a_base_line_the_far_edge_runs_straight() {
        assert!((beside_base_line(4.0, &[3.0, 6.0, 3.0]) - (8.0 + 6.0 + 10.0)).abs() < 1e-12);
    }

    #[test]
    fn a_wobble_is_smoothed_away_and_counts_as_uncertainty() {
        let at = |east: f64, north: f64| Fix {
            accuracy_mm: Some(500),
            ..Fix::from_degrees(40.0 + north / 111_035.0, -75.0 + east / 85_394.0).unwrap()
        };
        let lawn = [(0.0, 0.0), (60.0, 0.0), (60.0, 40.0), (0.0, 40.0)];
        let straight = Shape::Walk {
            fixes: lawn.map(|(e, n)| at(e, n)).to_vec(),
        };
        let mut wobbling = vec![at(0.0, 0.0)];
        wobbling.extend((1..60).map(|i| at(f64::from(i), 0.4 * f64::from(i % 2))));
        wobbling.extend([at(60.0, 0.0), at(60.0, 40.0), at(0.0, 40.0)]);
        let straight = straight.perimeter().unwrap().value;
        let wobbling = Shape::Walk { fixes: wobbling }.perimeter().unwrap().value;
        assert!((straight.metres() - 200.0).abs() < 0.01, "{straight:?}");
        assert!((wobbling.metres() - 200.0).abs() < 0.5, "{wobbling:?}");
        assert!(wobbling.uncertainty.value > 3.0, "{wobbling:?}");
    }

    #[test]
    fn base_and_height_leave_the_edge_open() {
        let ft = |text: &str| Entered::parse(&format!("{text} ft")).unwrap();
        let (base, height) = (ft("30"), ft("26"));
        let triangle = Shape::TriangleHeight { base, height };
        assert_eq!(triangle.perimeter().unwrap_err(), RuleError::EdgeNotGiven);
        let trapezoid = Shape::Trapezoid {
            a: ft("30"),
            b: ft("20"),
            height,
        };
        assert_eq!(trapezoid.perimeter().unwrap_err(), RuleError::EdgeNotGiven);
        let none = Shape::Circle { diameter: ft("0") };
        assert!(matches!(
            none.perimeter(),
            Err(RuleError::NotPositive { .. })
        ));
    }
}
