//! From an outline to its area: the shape's own, less what is left out.
//!
//! The formulas of the shapes live in their files; what no lawn can be is refused here.

use super::estimate::square_feet_text;
use super::{AreaEstimate, Outline, Shape, drawn, tape, taped_polygon, walk};
use crate::error::{Field, Most, Result, RuleError};
use crate::note::Note;
use crate::working::{Answer, Working};

/// Largest area taken for a lawn, in square metres: 100 hectares.
pub const AREA_MOST_M2: f64 = 1_000_000.0;

/// Most shapes left out of one outline.
pub const LEFT_OUT_MOST: usize = 200;

impl Outline {
    /// The area of the outer shape less what is left out.
    ///
    /// The uncertainties of the parts are independent and add in quadrature. That a left-out shape
    /// lies inside and overlaps no other cannot be seen from tape measures; the working says so.
    ///
    /// # Errors
    /// When a measure is of the wrong kind, zero or absurd, a triangle cannot be, sides cross, a
    /// walk has too few fixes or lies across the date line or near a pole, or what is left out is
    /// not smaller than the lawn.
    pub fn area(&self) -> Result<Answer<AreaEstimate>> {
        self.gross_and_net().map(|(_, net)| net)
    }

    /// The area of the outer shape, and what [`Outline::area`] gives.
    pub(super) fn gross_and_net(&self) -> Result<(AreaEstimate, Answer<AreaEstimate>)> {
        if self.left_out.len() > LEFT_OUT_MOST {
            return Err(RuleError::TooMany {
                field: Field::AllLeftOut,
                count: self.left_out.len(),
                limit: LEFT_OUT_MOST,
            });
        }
        let Answer {
            value: lawn,
            mut working,
        } = self.shape.area()?;
        if self.left_out.is_empty() {
            return Ok((lawn, working.gives(lawn)));
        }
        let (mut left_m2, mut variance) = (0.0, lawn.uncertainty.value.powi(2));
        for (index, shape) in self.left_out.iter().enumerate() {
            let number = index + 1;
            let part = shape.area().map_err(|e| e.of(Field::LeftOut { number }))?;
            left_m2 += part.value.square_metres();
            variance += part.value.uncertainty.value.powi(2);
            working = working
                .input(
                    part.working.formula,
                    format!("− {}", part.value.for_person()),
                )
                .notes(part.working.notes);
        }
        let net_m2 = lawn.square_metres() - left_m2;
        if net_m2 <= 0.0 {
            return Err(RuleError::LeftOutTooLarge {
                left_out: square_feet_text(left_m2),
                lawn: square_feet_text(lawn.square_metres()),
            });
        }
        let net = working
            .input("outer shape", lawn.for_person())
            .note(Note::LeftOutInside)
            .gives(AreaEstimate::from_si(net_m2, variance.sqrt()));
        Ok((lawn, net))
    }
}

impl Shape {
    /// The area of this shape alone.
    ///
    /// # Errors
    /// As [`Outline::area`].
    pub fn area(&self) -> Result<Answer<AreaEstimate>> {
        let answer = match self {
            Self::Walk { fixes } => walk::area(fixes)?,
            Self::Drawn { corners } => drawn::area(corners)?,
            Self::TapePolygon {
                first_side,
                corners,
            } => taped_polygon::area(first_side, corners)?,
            _ => tape::area(self)?,
        };
        must_be_a_lawn(answer.value.square_metres())?;
        Ok(answer)
    }
}

/// Refuses an area of nothing, and one larger than any lawn.
pub(super) fn must_be_a_lawn(area_m2: f64) -> Result<()> {
    if area_m2 > AREA_MOST_M2 {
        return Err(RuleError::OverLimit {
            field: Field::TheArea,
            given: square_feet_text(area_m2),
            limit: Most::Lawn,
        });
    }
    // A tenth of a square foot: less is a slip, or a walk that only went there and back.
    if area_m2 < 0.01 {
        return Err(RuleError::NotPositive {
            field: Field::TheArea,
            given: format!("{area_m2:.4} m²"),
        });
    }
    Ok(())
}

impl Working {
    pub(super) fn notes(mut self, notes: Vec<Note>) -> Self {
        for note in notes {
            if !self.notes.contains(&note) {
                self.notes.push(note);
            }
        }
        self
    }
}
