//! A strip that is set back from the edge: its area, and what remains to treat.
//!
//! How wide it must be is the label's word or the law's; here is only how large it is.

use std::f64::consts::PI;

use geo::algorithm::buffer::{BufferStyle, LineJoin};
use geo::{Area as _, Buffer as _, Coord, LineString, MultiPolygon, Polygon};
use serde::Serialize;

use super::edge;
use super::ring::{perimeter, shoelace};
use super::tape::{estimate, positive, reading_error_m};
use super::{AreaEstimate, Outline};
use crate::error::{Allowed, Field, Result, RuleError};
use crate::note::Note;
use crate::quantity::Entered;
use crate::working::{Answer, Working};

/// Less than this in square metres is nothing to treat: a tenth of a square foot.
const REST_LEAST_M2: f64 = 0.01;

/// Step of the arcs that run round corners bent inwards, in radians.
const ARC_STEP: f64 = 0.05;

/// A strip that is left untreated, and what remains.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Strip {
    /// The strip's area.
    pub strip: AreaEstimate,
    /// What remains to treat.
    pub rest: AreaEstimate,
}

impl Outline {
    /// The strip of a width along the whole edge, inside of it, and what remains: all that lies
    /// farther from the edge than the width. What is left out counts against what remains.
    ///
    /// ```
    /// use sward_rules::{Entered, measure::{Outline, Shape}};
    /// let ft = |text| Entered::parse(text);
    /// let lawn = Outline {
    ///     shape: Shape::Rectangle { length: ft("60 ft")?, width: ft("25 ft")? },
    ///     left_out: vec![],
    /// };
    /// let strip = lawn.strip_inside(&ft("5 ft")?)?.value;
    /// assert_eq!(strip.strip.square_feet().round(), 750.0);
    /// assert_eq!(strip.rest.square_feet().round(), 750.0);
    /// # Ok::<(), sward_rules::RuleError>(())
    /// ```
    ///
    /// # Errors
    /// As [`Outline::perimeter`]; [`RuleError::StripTakesAll`] when nothing remains.
    pub fn strip_inside(&self, width: &Entered) -> Result<Answer<Strip>> {
        let width_m = positive(Field::StripWidth, width)?;
        let (gross, net) = self.gross_and_net()?;
        let edge = self.shape.edge_length()?.value;
        let ring = edge::ring(&self.shape)?;
        // Where something remains, a disc as wide as the strip fits into the lawn.
        if PI * width_m.powi(2) > shoelace(&ring) {
            return Err(takes_all(width));
        }
        let inside = inside(&ring, width_m);
        // As a share, so that the plane's area need not be the shape's own to the last digit.
        let share = inside.unsigned_area() / shoelace(&ring);
        let inside_m = around(&inside) * (edge.metres() / perimeter(&ring));
        let width_error_m2 = inside_m * reading_error_m(width_m);
        let strip_m2 = gross.square_metres() * (1.0 - share);
        let strip = AreaEstimate::from_si(
            strip_m2,
            (width_m * edge.uncertainty.value).hypot(width_error_m2),
        );
        // The inner edge moves as the outer does; beds and pools keep their own uncertainty.
        let (gross_error, net_error) = (gross.uncertainty.value, net.value.uncertainty.value);
        let left_out_error2 = (net_error.powi(2) - gross_error.powi(2)).max(0.0);
        let rest = AreaEstimate::from_si(
            net.value.square_metres() - strip_m2,
            (gross_error * inside_m / edge.metres())
                .hypot(width_error_m2)
                .hypot(left_out_error2.sqrt()),
        );
        if rest.square_metres() < REST_LEAST_M2 {
            return Err(takes_all(width));
        }
        let mut working = Working::new(
            "lawn less all that lies nearer to its edge than the strip is wide",
            "plane geometry",
        )
        .input("lawn", net.value.for_person())
        .input("strip's width", width.for_person())
        .input("edge", edge.for_person())
        .notes(net.working.notes);
        if !self.left_out.is_empty() {
            working = working.note(Note::LeftOutBeyondStrip);
        }
        Ok(working.gives(Strip { strip, rest }))
    }

    /// A strip of a width along a part of the edge, and what remains of the lawn.
    ///
    /// # Errors
    /// As [`Outline::area`]; when the part is longer than the whole edge, or nothing remains.
    pub fn strip_along(&self, edge: &Entered, width: &Entered) -> Result<Answer<Strip>> {
        let edge_m = positive(Field::StripEdge, edge)?;
        let width_m = positive(Field::StripWidth, width)?;
        let lawn = self.area()?;
        match self.shape.edge_length() {
            Ok(whole) if edge_m > whole.value.metres() + 2.0 * whole.value.uncertainty.value => {
                return Err(RuleError::NotAllowed {
                    field: Field::StripEdge,
                    given: edge.for_person(),
                    allowed: Allowed::PartOfTheEdge,
                });
            }
            Ok(_) | Err(RuleError::EdgeNotGiven) => {}
            Err(other) => return Err(other),
        }
        let strip = estimate(&[edge_m, width_m], |r| r[0] * r[1]);
        let rest_m2 = lawn.value.square_metres() - strip.square_metres();
        if rest_m2 < REST_LEAST_M2 {
            return Err(takes_all(width));
        }
        let rest = AreaEstimate::from_si(
            rest_m2,
            lawn.value.uncertainty.value.hypot(strip.uncertainty.value),
        );
        Ok(
            Working::new("lawn less edge × strip's width", "plane geometry")
                .input("lawn", lawn.value.for_person())
                .input("edge", edge.for_person())
                .input("strip's width", width.for_person())
                .notes(lawn.working.notes)
                .note(Note::StripCutSquare)
                .gives(Strip { strip, rest }),
        )
    }
}

fn takes_all(width: &Entered) -> RuleError {
    RuleError::StripTakesAll {
        width: width.for_person(),
    }
}

/// All within a ring that lies farther from it than `distance_m`: none, one or several pieces.
fn inside(ring: &[Coord<f64>], distance_m: f64) -> MultiPolygon<f64> {
    let polygon = Polygon::new(LineString::new(ring.to_vec()), Vec::new());
    polygon.buffer_with_style(BufferStyle::new(-distance_m).line_join(LineJoin::Round(ARC_STEP)))
}

/// The length of every edge of the pieces, in metres.
fn around(pieces: &MultiPolygon<f64>) -> f64 {
    pieces
        .iter()
        .flat_map(|p| std::iter::once(p.exterior()).chain(p.interiors()))
        .map(|ring| perimeter(&ring.0[..ring.0.len().saturating_sub(1)]))
        .sum()
}
