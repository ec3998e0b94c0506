//! The yard sketch: a drawing to scale of sections, what is left out, keep-offs and what lies near.
//!
//! It draws what it is given ([`Sketch`]); [`Sketch::for_yard`] fills one from the book. No rule
//! lives here.

mod area;
mod around;
mod draw;
mod from_yard;
mod lay_out;
mod legend;
mod passes;
mod plane;
mod shape;
mod symbol;
mod view;
mod wind;

use sward_book::ids::ItemId;
use sward_rules::measure::Outline;

pub(crate) use area::{area_sum_words, length_words};
pub use around::around;
pub(crate) use legend::kind_words;
pub(crate) use plane::Point;
pub(crate) use wind::Lee;

/// A yard sketch, or part of one.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Sketch {
    /// Begins the ids inside the drawing: two sketches on one page differ in it.
    pub(crate) id: &'static str,
    /// What it is of: the yard's name.
    pub(crate) name: String,
    /// Sections, in the order in which they are numbered.
    pub(crate) sections: Vec<SketchSection>,
    /// What lies near.
    pub(crate) marks: Vec<SketchMark>,
    /// The wind, where it is known.
    pub(crate) wind: Option<Wind>,
    /// What is up.
    pub(crate) orientation: Orientation,
}

/// A section on a sketch.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct SketchSection {
    /// The section.
    pub(crate) id: ItemId,
    /// What people call it.
    pub(crate) name: String,
    /// Its outline as entered; none while it is not measured.
    pub(crate) outline: Option<Outline>,
    /// Where its first corner lies; none while nobody said.
    pub(crate) place: Option<Place>,
    /// Keep-offs that run on it.
    pub(crate) keep_offs: Vec<KeepOffDrawn>,
    /// The lines to walk on it.
    pub(crate) passes: Option<PassLines>,
}

/// Where a section's first corner lies, and how far the section is turned about it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Place {
    /// The first corner; of a round shape the south-west corner of its frame.
    pub(crate) at: Point,
    /// Degrees clockwise.
    pub(crate) turn_deg: f64,
}

/// A keep-off on a sketch.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct KeepOffDrawn {
    /// The outline when treating started.
    pub(crate) outline: Outline,
    /// Until when, in words.
    pub(crate) until: String,
}

/// The lines to walk on a section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct PassLines {
    /// From line to line, in metres.
    pub(crate) spacing_m: f64,
    /// Whether a second pass goes at right angles.
    pub(crate) crosswise: bool,
}

/// Something that lies near.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct SketchMark {
    /// What it is, by its stored word (`play_area`, `well`, ...); a word this program does not
    /// know is drawn as a question mark.
    pub(crate) kind: String,
    /// What people call it; may be empty.
    pub(crate) name: String,
    /// Where it lies; none while nobody said.
    pub(crate) at: Option<Point>,
}

/// The wind over the yard.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Wind {
    /// Where it comes from, in degrees clockwise from north.
    pub(crate) from_deg: f64,
    /// Its mean in words, with unit and age, as the screen gives it.
    pub(crate) mean: String,
}

/// What is up on a sketch.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) enum Orientation {
    /// North.
    #[default]
    North,
    /// As one stands in the street, which lies in this direction, in degrees from north.
    Street(f64),
}

impl Sketch {
    /// Draws only some sections, with everything else as it is.
    #[must_use]
    pub(crate) fn only(mut self, sections: &[ItemId]) -> Self {
        self.sections.retain(|s| sections.contains(&s.id));
        self
    }

    /// Draws the lines to walk on the sections that are still on the sketch.
    #[must_use]
    pub(crate) fn with_passes(mut self, passes: PassLines) -> Self {
        for section in &mut self.sections {
            section.passes = Some(passes);
        }
        self
    }

    /// Draws the wind, and names what lies down wind of the sections on the sketch.
    #[must_use]
    pub(crate) fn with_wind(mut self, wind: Option<Wind>) -> Self {
        self.wind = wind;
        self
    }

    /// What lies where in this wind, mark by mark; the worst over all sections on the sketch. None
    /// without a wind.
    pub(crate) fn lees(&self) -> Option<Vec<(&SketchMark, Lee)>> {
        let wind = self.wind.as_ref()?;
        let laid = lay_out::lay_out(&self.sections, self.is_anything_else_placed());
        let lee_of = |mark: &SketchMark| {
            let each = laid.iter().map(|laid| {
                let ring = laid.as_ref().filter(|l| l.place_known).map(|l| &l.ring);
                wind::lee(wind.from_deg, ring, mark.at)
            });
            each.fold(Lee::Aside, worse)
        };
        Some(self.marks.iter().map(|mark| (mark, lee_of(mark))).collect())
    }

    fn is_anything_else_placed(&self) -> bool {
        self.marks.iter().any(|m| m.at.is_some())
    }
}

/// The worse of two: nearer down wind, then what is not known.
fn worse(a: Lee, b: Lee) -> Lee {
    match (a, b) {
        (Lee::DownWind { distance_m: a }, Lee::DownWind { distance_m: b }) => Lee::DownWind {
            distance_m: a.min(b),
        },
        (down @ Lee::DownWind { .. }, _) | (_, down @ Lee::DownWind { .. }) => down,
        (Lee::NotKnown, _) | (_, Lee::NotKnown) => Lee::NotKnown,
        (Lee::Aside, Lee::Aside) => Lee::Aside,
    }
}

#[cfg(test)]
mod testing {
    //! Small sections for the tests of this folder.

    use super::SketchSection;
    use sward_book::ids::ItemId;
    use sward_rules::Entered;
    use sward_rules::measure::{Outline, Shape};
    use uuid::Uuid;

    pub(super) fn ft(text: &str) -> Entered {
        Entered::parse(text).unwrap()
    }

    pub(super) fn section(name: &str, shape: Shape) -> SketchSection {
        SketchSection {
            id: ItemId(Uuid::from_u128(u128::try_from(name.len()).unwrap())),
            name: name.to_owned(),
            outline: Some(Outline {
                shape,
                left_out: vec![],
            }),
            place: None,
            keep_offs: vec![],
            passes: None,
        }
    }
}
