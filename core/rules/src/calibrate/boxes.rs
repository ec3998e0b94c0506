//! The pattern of a spreader, by catch boxes laid out across its path.
//!
//! How evenly passes of it overlap is in [`super::evenness`].

use serde::Serialize;

use super::{at_most, positive};
use crate::error::{Allowed, Field, Result, RuleError};
use crate::note::Note;
use crate::quantity::{Dimension, Entered, near, to_f64};
use crate::working::{Answer, Working};

/// Most boxes in one row.
pub const BOXES_MOST: usize = 101;

/// Fewest boxes that show a pattern.
const BOXES_LEAST: usize = 5;

/// An outermost box that catches more than this share of the middle one does not lie outside the
/// pattern. Common practice, no source.
const ENDS_SHARE_MOST: f64 = 0.1;

const FOOT_M: f64 = 0.3048;

/// What the boxes caught, from left to right as the spreader goes.
#[derive(Debug, Clone, Copy)]
pub struct CatchBoxes<'a> {
    /// Distance from the middle of one box to that of the next.
    pub spacing: Entered,
    /// What each caught: an odd number of boxes, the middle one on the line walked; all by weight,
    /// all by volume or all by height in equal tubes.
    pub catches: &'a [Entered],
}

/// A box of the pattern.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PatternPoint {
    /// Distance from the line walked in feet; left is below zero.
    pub distance_ft: f64,
    /// Catch in percent of the middle box's.
    pub of_middle_percent: f64,
}

/// A spreader's pattern.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Pattern {
    /// Each box, from left to right: the drawn pattern.
    pub points: Vec<PatternPoint>,
    /// Twice the distance at which the catch falls to half of the middle's, both sides' mean; none
    /// where it does not fall to half within the boxes.
    pub effective_swath: Option<Entered>,
    /// Where it falls to half on the left, in feet from the line walked.
    pub half_left_ft: Option<f64>,
    /// Where it falls to half on the right.
    pub half_right_ft: Option<f64>,
}

/// The pattern that boxes caught, and the effective swath by it.
///
/// ```
/// use sward_rules::{Entered, calibrate::*};
/// let catches = ["2 g", "3 g", "4 g", "3 g", "2 g"].map(|t| Entered::parse(t).unwrap());
/// let boxes = CatchBoxes { spacing: Entered::parse("3 ft")?, catches: &catches };
/// let swath = pattern(&boxes)?.value.effective_swath.expect("it falls to half");
/// assert_eq!(swath.for_person(), "12 ft");
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When boxes are too few, even in number or too many, catches are of different kinds, or the
/// middle box caught nothing.
pub fn pattern(boxes: &CatchBoxes<'_>) -> Result<Answer<Pattern>> {
    let row = Row::new(boxes)?;
    let middle = row.catches[row.half()];
    let points = row
        .catches
        .iter()
        .enumerate()
        .map(|(index, catch)| PatternPoint {
            distance_ft: (index as f64 - row.half() as f64) * row.spacing_m / FOOT_M,
            of_middle_percent: 100.0 * catch / middle,
        })
        .collect();
    let right = falls_to_half(&row.catches[row.half()..]);
    let reversed: Vec<f64> = row.catches[..=row.half()].iter().rev().copied().collect();
    let left = falls_to_half(&reversed);
    let unit = boxes.spacing.unit();
    let spacing = to_f64(boxes.spacing.amount());
    let effective_swath = match (left, right) {
        (Some(left), Some(right)) => {
            let swath = near((left + right) * spacing, 2, unit);
            Some(Entered::new(swath.amount().normalize(), unit)?)
        }
        _ => None,
    };
    let feet = |steps: f64| steps * row.spacing_m / FOOT_M;
    Ok(working(boxes, &row).gives(Pattern {
        points,
        effective_swath,
        half_left_ft: left.map(feet),
        half_right_ft: right.map(feet),
    }))
}

fn working(boxes: &CatchBoxes<'_>, row: &Row) -> Working {
    let working = Working::new(
        "effective swath: twice the distance at which the catch is half of the middle's",
        "Ohio State University, Bulletin 817",
    )
    .input("spacing", boxes.spacing.for_person())
    .input("catches", listed(boxes.catches))
    .note(Note::SwathOfCalibration);
    row.note_ends(working)
}

/// Catches as one line of text.
pub(super) fn listed(catches: &[Entered]) -> String {
    let each: Vec<String> = catches.iter().map(Entered::for_person).collect();
    each.join(", ")
}

/// Steps from the middle to where the catch first is half of the middle's, on straight lines
/// between boxes.
fn falls_to_half(outward: &[f64]) -> Option<f64> {
    let half = outward.first()? / 2.0;
    outward.windows(2).enumerate().find_map(|(index, pair)| {
        let (inner, outer) = (pair[0], pair[1]);
        (outer <= half).then(|| index as f64 + (inner - half) / (inner - outer))
    })
}

/// The catches as numbers, checked.
pub(super) struct Row {
    pub(super) catches: Vec<f64>,
    pub(super) spacing_m: f64,
}

impl Row {
    pub(super) fn new(boxes: &CatchBoxes<'_>) -> Result<Self> {
        let spacing_m = to_f64(positive(
            &boxes.spacing,
            Dimension::Length,
            &Field::BoxSpacing,
        )?);
        let count = boxes.catches.len();
        at_most(count, BOXES_MOST, Field::Boxes)?;
        if count < BOXES_LEAST || count.is_multiple_of(2) {
            return Err(RuleError::NotAllowed {
                field: Field::Boxes,
                given: count.to_string(),
                allowed: Allowed::OddBoxes,
            });
        }
        let kind = boxes.catches[0].dimension();
        let kinds = [Dimension::Mass, Dimension::Volume, Dimension::Length];
        if !kinds.contains(&kind) {
            return Err(RuleError::NotAllowed {
                field: Field::Catch { number: 1 },
                given: boxes.catches[0].for_person(),
                allowed: Allowed::CatchKind,
            });
        }
        let catches = boxes
            .catches
            .iter()
            .enumerate()
            .map(|(index, catch)| {
                let number = index + 1;
                let si = catch.si(kind).map_err(|e| e.of(Field::Catch { number }))?;
                Ok(to_f64(si))
            })
            .collect::<Result<Vec<_>>>()?;
        let row = Self { catches, spacing_m };
        if row.catches[row.half()] <= 0.0 {
            return Err(RuleError::NotAllowed {
                field: Field::Catch {
                    number: row.half() + 1,
                },
                given: boxes.catches[row.half()].for_person(),
                allowed: Allowed::SomethingCaught,
            });
        }
        Ok(row)
    }

    /// Boxes on either side of the middle one.
    pub(super) fn half(&self) -> usize {
        self.catches.len() / 2
    }

    /// Whether the pattern reaches beyond the boxes.
    pub(super) fn ends_too_soon(&self) -> bool {
        let most = self.catches[self.half()] * ENDS_SHARE_MOST;
        let ends = [self.catches.first(), self.catches.last()];
        ends.into_iter().flatten().any(|catch| *catch > most)
    }

    /// Adds a word where the pattern reaches beyond the boxes.
    pub(super) fn note_ends(&self, working: Working) -> Working {
        if self.ends_too_soon() {
            working.note(Note::BoxesEndTooSoon)
        } else {
            working
        }
    }
}
