//! An outline's outer edge as a ring of corners in the plane, in metres.
//!
//! Its length is in `perimeter`; what lies inside it at a distance is in `strip`.

use std::f64::consts::PI;

use geo::Coord;

use super::geodesic::local_plane;
use super::tape::positive;
use super::{Shape, drawn, taped_polygon, walk};
use crate::error::{Field, Result, RuleError};

/// Corners by which a round edge is drawn: what lies inside a strip is then right to a twentieth of
/// a percent.
const ROUND_CORNERS: usize = 120;

/// The ring of a shape whose area is known to be one.
///
/// # Errors
/// [`RuleError::EdgeNotGiven`] where the measures leave open how the edge runs.
pub(super) fn ring(shape: &Shape) -> Result<Vec<Coord<f64>>> {
    Ok(match shape {
        Shape::Rectangle { length, width } => {
            let length = positive(Field::Length, length)?;
            let width = positive(Field::Width, width)?;
            corners(&[(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)])
        }
        Shape::TriangleSides { a, b, c } => {
            let a = positive(Field::FirstSide, a)?;
            let b = positive(Field::SecondSide, b)?;
            let c = positive(Field::ThirdSide, c)?;
            let along = (a.powi(2) + b.powi(2) - c.powi(2)) / (2.0 * a);
            let height = (b.powi(2) - along.powi(2)).max(0.0).sqrt();
            corners(&[(0.0, 0.0), (a, 0.0), (along, height)])
        }
        Shape::TriangleHeight { .. } | Shape::Trapezoid { .. } => {
            return Err(RuleError::EdgeNotGiven);
        }
        Shape::Circle { diameter } => {
            let radius = positive(Field::Diameter, diameter)? / 2.0;
            round(ROUND_CORNERS, |_| (radius, radius))
        }
        Shape::Oval { length, width } => {
            let half_length = positive(Field::Length, length)? / 2.0;
            let half_width = positive(Field::Width, width)? / 2.0;
            round(ROUND_CORNERS, |_| (half_length, half_width))
        }
        Shape::MeanRadius { radii } => {
            let radii: Vec<f64> = radii
                .iter()
                .map(|r| positive(Field::Radius, r))
                .collect::<Result<_>>()?;
            let between = ROUND_CORNERS.div_ceil(radii.len());
            round(between * radii.len(), |corner| {
                let (from, part) = (corner / between, corner % between);
                let next = radii[(from + 1) % radii.len()];
                let radius = radii[from] + (next - radii[from]) * part as f64 / between as f64;
                (radius, radius)
            })
        }
        Shape::Offsets {
            spacing, offsets, ..
        } => {
            let spacing = positive(Field::Spacing, spacing)?;
            let mut ring = corners(&[(0.0, 0.0), (spacing * (offsets.len() - 1) as f64, 0.0)]);
            for (index, offset) in offsets.iter().enumerate().rev() {
                let y = offset.to_length()?.value;
                let x = spacing * index as f64;
                ring.push(Coord { x, y });
            }
            ring.dedup();
            while ring.len() > 1 && ring.first() == ring.last() {
                ring.pop();
            }
            ring
        }
        Shape::TapePolygon {
            first_side,
            corners,
        } => taped_polygon::ring(first_side, corners)?,
        Shape::Walk { fixes } => local_plane(&walk::ring(fixes)),
        Shape::Drawn { corners } => drawn::ring(corners),
    })
}

fn corners(points: &[(f64, f64)]) -> Vec<Coord<f64>> {
    points.iter().map(|&(x, y)| Coord { x, y }).collect()
}

/// Corners at even angles; `half_axes` gives how far each lies out along either axis.
fn round(count: usize, half_axes: impl Fn(usize) -> (f64, f64)) -> Vec<Coord<f64>> {
    (0..count)
        .map(|corner| {
            let (sin, cos) = (2.0 * PI * corner as f64 / count as f64).sin_cos();
            let (east, north) = half_axes(corner);
            Coord {
                x: east * cos,
                y: north * sin,
            }
        })
        .collect()
}
