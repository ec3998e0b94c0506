//! The ways to measure a section, as a person chooses among them.
//!
//! Their fields are in [`super::fields`], reading them in [`super::read`].

use sward_rules::measure::Shape;

use crate::ask::Ask;
use crate::words::Words;

/// A way to measure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    Rectangle,
    Triangle,
    TriangleHeight,
    Trapezoid,
    Circle,
    Oval,
    Radii,
    Offsets,
    Taped,
    Walk,
    Drawn,
}

impl Kind {
    /// All, the easiest first.
    pub(super) const ALL: [Self; 11] = [
        Self::Rectangle,
        Self::Triangle,
        Self::TriangleHeight,
        Self::Trapezoid,
        Self::Circle,
        Self::Oval,
        Self::Radii,
        Self::Offsets,
        Self::Taped,
        Self::Walk,
        Self::Drawn,
    ];

    /// Its name in addresses and forms.
    pub(super) fn code(self) -> &'static str {
        match self {
            Self::Rectangle => "rectangle",
            Self::Triangle => "triangle",
            Self::TriangleHeight => "triangle-height",
            Self::Trapezoid => "trapezoid",
            Self::Circle => "circle",
            Self::Oval => "oval",
            Self::Radii => "radii",
            Self::Offsets => "offsets",
            Self::Taped => "taped",
            Self::Walk => "walk",
            Self::Drawn => "drawn",
        }
    }

    /// The kind of a name.
    pub(super) fn of(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|k| k.code() == code)
    }

    /// The kind of a shape.
    pub(super) fn of_shape(shape: &Shape) -> Self {
        match shape {
            Shape::Rectangle { .. } => Self::Rectangle,
            Shape::TriangleSides { .. } => Self::Triangle,
            Shape::TriangleHeight { .. } => Self::TriangleHeight,
            Shape::Trapezoid { .. } => Self::Trapezoid,
            Shape::Circle { .. } => Self::Circle,
            Shape::Oval { .. } => Self::Oval,
            Shape::MeanRadius { .. } => Self::Radii,
            Shape::Offsets { .. } => Self::Offsets,
            Shape::TapePolygon { .. } => Self::Taped,
            Shape::Walk { .. } => Self::Walk,
            Shape::Drawn { .. } => Self::Drawn,
        }
    }

    /// What it is called.
    pub(super) fn name(self, words: Words) -> String {
        words.t(match self {
            Self::Rectangle => "measure-rectangle",
            Self::Triangle => "measure-triangle",
            Self::TriangleHeight => "measure-triangle-height",
            Self::Trapezoid => "measure-trapezoid",
            Self::Circle => "measure-circle",
            Self::Oval => "measure-oval",
            Self::Radii => "measure-radii",
            Self::Offsets => "measure-offsets",
            Self::Taped => "measure-taped",
            Self::Walk => "measure-walk",
            Self::Drawn => "measure-drawn",
        })
    }

    /// How it is measured.
    pub(super) fn advice(self, words: Words) -> String {
        words.t(match self {
            Self::Rectangle => "measure-rectangle-how",
            Self::Triangle => "measure-triangle-how",
            Self::TriangleHeight => "measure-triangle-height-how",
            Self::Trapezoid => "measure-trapezoid-how",
            Self::Circle => "measure-circle-how",
            Self::Oval => "measure-oval-how",
            Self::Radii => "measure-radii-how",
            Self::Offsets => "measure-offsets-how",
            Self::Taped => "measure-taped-how",
            Self::Walk => "measure-walk-how",
            Self::Drawn => "measure-drawn-how",
        })
    }

    /// How many numbered rows its form has at first.
    fn rows_at_first(self) -> usize {
        match self {
            Self::Radii => 8,
            Self::Offsets => 9,
            Self::Taped => 4,
            _ => 0,
        }
    }

    /// How many numbered rows a shape of it fills.
    fn rows_of(shape: &Shape) -> usize {
        match shape {
            Shape::MeanRadius { radii } => radii.len(),
            Shape::Offsets { offsets, .. } => offsets.len(),
            Shape::TapePolygon { corners, .. } => corners.len(),
            _ => 0,
        }
    }

    /// How many numbered rows to show: those that were sent, those asked for in the address, or
    /// enough for what is there.
    pub(super) fn rows(self, ask: &Ask<'_>, filled: Option<&Shape>) -> usize {
        let sent = ask.again.map_or(0, |again| {
            let mut numbers = again
                .form
                .fields
                .iter()
                .filter_map(|(name, _)| row_number(name));
            numbers.by_ref().max().unwrap_or(0)
        });
        let asked = ask.query("n").and_then(|n| n.parse().ok()).unwrap_or(0);
        let enough = filled.map_or(0, |shape| Self::rows_of(shape).saturating_add(2));
        let rows = self.rows_at_first().max(sent).max(asked).max(enough);
        if self.rows_at_first() == 0 {
            0
        } else {
            rows.min(ROWS_MOST)
        }
    }
}

/// The most numbered rows of a form: with four fields and two units each they stay within a form.
pub(super) const ROWS_MOST: usize = 60;

/// The number in a field's name such as `row.3` or `row.3.tape-a`.
fn row_number(field: &str) -> Option<usize> {
    field.strip_prefix("row.")?.split('.').next()?.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_is_found_by_its_name() {
        for kind in Kind::ALL {
            assert_eq!(Kind::of(kind.code()), Some(kind));
        }
        assert_eq!(Kind::of("blob"), None);
    }

    #[test]
    fn rows_are_counted_by_their_names() {
        assert_eq!(row_number("row.12.tape-a"), Some(12));
        assert_eq!(row_number("row.3"), Some(3));
        assert_eq!(row_number("length"), None);
        assert_eq!(row_number("row.x"), None);
    }
}
