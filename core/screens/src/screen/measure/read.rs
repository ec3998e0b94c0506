//! Reading a shape from a form: every field by itself first, then the shape as a whole, each error
//! beside the field it belongs to.
//!
//! What a lawn can be is for the rules.

use sward_rules::measure::{
    OffsetRule, Outline, SIDE_MOST_M, Shape, SideOfLine, TapedCorner, WalkRead,
};
use sward_rules::quantity::Dimension;
use sward_rules::{Entered, RuleError};

use super::kind::{Kind, ROWS_MOST};
use super::{drawn, walk};
use crate::server::Form;
use crate::trouble::Wrong;
use crate::{Result, Trouble};

/// A shape as it was sent, and what was read where it is a walk.
pub(super) struct Sent {
    pub(super) shape: Shape,
    pub(super) walk: Option<WalkRead>,
}

/// Reads a shape that the rules take.
///
/// # Errors
/// [`Trouble::InField`] or [`Trouble::Fields`].
pub(super) fn shape(form: &Form, kind: Kind) -> Result<Sent> {
    let mut reader = Reader::new(form);
    let sent = match kind {
        Kind::Walk => {
            let walk = walk::sent(form)?;
            Sent {
                shape: Shape::Walk {
                    fixes: walk.fixes.clone(),
                },
                walk: Some(walk),
            }
        }
        _ => Sent {
            shape: reader.shape(kind)?,
            walk: None,
        },
    };
    match sent.shape.area() {
        Ok(_) => Ok(sent),
        Err(error) => Err(Trouble::in_field(reader.beside(kind, &error), error)),
    }
}

/// Checks an outline as a whole: what is left out must be smaller than the lawn.
///
/// # Errors
/// [`Trouble::InField`] beside the first field of the kind.
pub(super) fn check(outline: &Outline, form: &Form, kind: Kind) -> Result<()> {
    match outline.area() {
        Ok(_) => Ok(()),
        Err(error) => Err(Trouble::in_field(
            Reader::new(form).beside(kind, &error),
            error,
        )),
    }
}

struct Reader<'a> {
    form: &'a Form,
    troubles: Vec<Trouble>,
    /// The lengths read, by field.
    lengths: Vec<(String, Entered)>,
}

impl<'a> Reader<'a> {
    fn new(form: &'a Form) -> Self {
        Self {
            form,
            troubles: Vec::new(),
            lengths: Vec::new(),
        }
    }

    fn shape(&mut self, kind: Kind) -> Result<Shape> {
        let shape = match kind {
            Kind::Rectangle => self
                .all(["length", "width"])
                .map(|[length, width]| Shape::Rectangle { length, width }),
            Kind::Oval => self
                .all(["length", "width"])
                .map(|[length, width]| Shape::Oval { length, width }),
            Kind::Triangle => self
                .all(["a", "b", "c"])
                .map(|[a, b, c]| Shape::TriangleSides { a, b, c }),
            Kind::TriangleHeight => self
                .all(["base", "height"])
                .map(|[base, height]| Shape::TriangleHeight { base, height }),
            Kind::Trapezoid => self
                .all(["a", "b", "height"])
                .map(|[a, b, height]| Shape::Trapezoid { a, b, height }),
            Kind::Circle => self
                .all(["diameter"])
                .map(|[diameter]| Shape::Circle { diameter }),
            Kind::Radii => self.rows().map(|radii| Shape::MeanRadius { radii }),
            Kind::Offsets => self.offsets(),
            Kind::Taped => self.taped(),
            Kind::Drawn => match drawn::corners(self.form.text("corners")) {
                Ok(corners) => Some(Shape::Drawn { corners }),
                Err(trouble) => {
                    self.troubles.push(trouble);
                    None
                }
            },
            Kind::Walk => None,
        };
        match shape {
            Some(shape) if self.troubles.is_empty() => Ok(shape),
            _ => Err(Trouble::Fields(std::mem::take(&mut self.troubles))),
        }
    }

    fn length(&mut self, field: &str) -> Option<Entered> {
        let read = self.form.amount_needed(field).and_then(|length| {
            let is_length = length.must_be(Dimension::Length);
            is_length
                .map(|()| length)
                .map_err(|error| Trouble::in_field(field, error))
        });
        match read {
            Ok(length) => {
                self.lengths.push((field.to_owned(), length));
                Some(length)
            }
            Err(trouble) => {
                self.troubles.push(trouble);
                None
            }
        }
    }

    /// Every field is read, so that all that is wrong is said at once.
    fn all<const N: usize>(&mut self, fields: [&str; N]) -> Option<[Entered; N]> {
        let read: Vec<Entered> = fields
            .iter()
            .filter_map(|field| self.length(field))
            .collect();
        read.try_into().ok()
    }

    /// How many numbered rows are filled: up to the last with anything in it.
    fn filled_rows(&self, fields: &[&str]) -> usize {
        (1..=ROWS_MOST)
            .rev()
            .find(|row| {
                fields
                    .iter()
                    .any(|field| !self.form.text(&format!("row.{row}{field}")).is_empty())
            })
            .unwrap_or(0)
    }

    /// Numbered lengths; what stands empty before the last is missing.
    fn rows(&mut self) -> Option<Vec<Entered>> {
        // One at least, so that an empty form has its error beside a field.
        let rows = self.filled_rows(&[""]).max(1);
        let read: Vec<Entered> = (1..=rows)
            .filter_map(|row| self.length(&format!("row.{row}")))
            .collect();
        (read.len() == rows).then_some(read)
    }

    fn offsets(&mut self) -> Option<Shape> {
        let spacing = self.length("spacing");
        let offsets = self.rows();
        let rule = match self.form.text("rule") {
            "trapezoid" => Some(OffsetRule::Trapezoid),
            "simpson" => Some(OffsetRule::Simpson),
            _ => self.refuse("rule", Wrong::NotOffered),
        };
        Some(Shape::Offsets {
            spacing: spacing?,
            offsets: offsets?,
            rule: rule?,
        })
    }

    fn taped(&mut self) -> Option<Shape> {
        let first_side = self.length("side");
        // Which corners the tapes start from is filled in beforehand: it fills no row.
        let rows = self.filled_rows(&[".tape-a", ".tape-b"]).max(1);
        let corners: Vec<TapedCorner> = (1..=rows).filter_map(|row| self.corner(row)).collect();
        (corners.len() == rows).then_some(())?;
        Some(Shape::TapePolygon {
            first_side: first_side?,
            corners,
        })
    }

    fn corner(&mut self, row: usize) -> Option<TapedCorner> {
        let name = |field: &str| format!("row.{row}.{field}");
        let from_a = self.number(&name("from-a"), row + 1);
        let tape_a = self.length(&name("tape-a"));
        let from_b = self.number(&name("from-b"), row + 1);
        let tape_b = self.length(&name("tape-b"));
        let side = match self.form.text(&name("side")) {
            "left" => Some(SideOfLine::Left),
            "right" => Some(SideOfLine::Right),
            _ => self.refuse(&name("side"), Wrong::NotOffered),
        };
        Some(TapedCorner {
            from_a: from_a?,
            tape_a: tape_a?,
            from_b: from_b?,
            tape_b: tape_b?,
            side: side?,
        })
    }

    /// The number of a corner up to `most`.
    fn number(&mut self, field: &str, most: usize) -> Option<u16> {
        let read = self
            .form
            .whole(field, 1, i64::try_from(most).unwrap_or(i64::MAX));
        match read {
            Ok(Some(number)) => u16::try_from(number).ok(),
            Ok(None) => self.refuse(field, Wrong::Missing),
            Err(trouble) => {
                self.troubles.push(trouble);
                None
            }
        }
    }

    fn refuse<T>(&mut self, field: &str, wrong: Wrong) -> Option<T> {
        self.troubles.push(Trouble::field(field, wrong));
        None
    }

    /// The field beside which an error of the rules stands.
    fn beside(&self, kind: Kind, error: &RuleError) -> String {
        let zero = self.lengths.iter().find(|(name, length)| {
            // An offset of nothing is a lawn that runs to a point.
            length.is_zero() && !(kind == Kind::Offsets && name.starts_with("row."))
        });
        let too_long = self
            .lengths
            .iter()
            .find(|(_, length)| length.to_length().is_ok_and(|l| l.value > SIDE_MOST_M));
        if let Some((name, _)) = zero.or(too_long) {
            return name.clone();
        }
        let row = |corner: usize, field: &str| match corner.checked_sub(2) {
            Some(row @ 1..) => format!("row.{row}.{field}"),
            _ => "side".to_owned(),
        };
        match (kind, error) {
            (Kind::Walk, _) if self.form.files.iter().any(|(name, _)| name == "gpx") => {
                "gpx".to_owned()
            }
            (Kind::Walk, _) => "fixes".to_owned(),
            (Kind::Drawn, _) => "corners".to_owned(),
            (Kind::Taped, RuleError::TapesDoNotMeet { corner }) => row(*corner, "tape-a"),
            (Kind::Taped, RuleError::CornerFrom { corner, .. }) => row(*corner, "from-a"),
            (Kind::Taped, RuleError::SidesCross { second, .. }) => row(*second, "tape-a"),
            (Kind::Taped, _) => "side".to_owned(),
            (Kind::Triangle, RuleError::ImpossibleTriangle { .. }) => "c".to_owned(),
            (Kind::Offsets, RuleError::SimpsonNeedsOdd { .. }) => "rule".to_owned(),
            (Kind::Offsets | Kind::Radii, _) => "row.1".to_owned(),
            (Kind::Triangle | Kind::Trapezoid, _) => "a".to_owned(),
            (Kind::TriangleHeight, _) => "base".to_owned(),
            (Kind::Circle, _) => "diameter".to_owned(),
            (Kind::Rectangle | Kind::Oval, _) => "length".to_owned(),
        }
    }
}

#[cfg(test)]
mod tests;
