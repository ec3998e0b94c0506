//! How evenly passes overlap, by the coefficient of variation over a range of swaths.
//!
//! Passes are laid beside each other in whole boxes, so nothing between boxes is guessed.

use serde::Serialize;

use super::boxes::{CatchBoxes, Row, listed};
use super::variation_percent;
use crate::error::{Allowed, Field, Result, RuleError};
use crate::finding::{Check, Finding, Reason, Shown, Source, Verdict, Whose};
use crate::note::Note;
use crate::quantity::{Dimension, Entered, Unit, near, to_f64, whole};
use crate::working::{Answer, Working};

/// Passes are even up to this coefficient of variation (EN 13739 as a European good practice note
/// sums it up: a figure for farm fertilizer).
pub const EVEN_MOST_PERCENT: u32 = 15;

/// Stripes show above this one (a UK spreader test scheme, farm fertilizer too).
pub const STRIPES_PERCENT: u32 = 20;

/// Narrowest swath of the curve, in boxes.
const SWATH_LEAST: usize = 2;

const FOOT_M: f64 = 0.3048;

/// How passes follow one another.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Travel {
    /// All one way, as when going round and round: right always meets left.
    OneWay,
    /// Back and forth: right meets right, then left meets left.
    BackAndForth,
}

/// A swath of the curve.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct EvennessPoint {
    /// Distance from line to line.
    pub swath: Entered,
    /// The same in feet, for drawing.
    pub swath_ft: f64,
    /// Coefficient of variation with passes all one way, in percent.
    pub one_way_percent: f64,
    /// Coefficient of variation with passes back and forth, in percent: the worse of the two
    /// overlaps.
    pub back_and_forth_percent: f64,
}

/// The curve over all swaths, from two boxes to the width of the row.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Evenness {
    /// Each swath, from narrow to wide.
    pub points: Vec<EvennessPoint>,
    /// Whether the pattern reaches beyond the boxes, so that what overlaps is more than was caught.
    pub beyond_boxes: bool,
    /// The widest swath at which passes all one way are even, with every narrower one even too; none
    /// where the pattern reaches beyond the boxes.
    pub best_one_way: Option<Entered>,
    /// The same with passes back and forth.
    pub best_back_and_forth: Option<Entered>,
}

impl EvennessPoint {
    /// Coefficient of variation in percent.
    pub fn percent(&self, travel: Travel) -> f64 {
        match travel {
            Travel::OneWay => self.one_way_percent,
            Travel::BackAndForth => self.back_and_forth_percent,
        }
    }
}

/// How evenly passes of a pattern overlap, swath by swath.
///
/// ```
/// use sward_rules::{Entered, calibrate::*};
/// let catches = ["0 g", "2 g", "4 g", "2 g", "0 g"].map(|t| Entered::parse(t).unwrap());
/// let boxes = CatchBoxes { spacing: Entered::parse("2 ft")?, catches: &catches };
/// let curve = evenness(&boxes)?.value;
/// // A triangle is perfectly even at half its width.
/// assert_eq!(curve.points[0].swath.for_person(), "4 ft");
/// assert!(curve.points[0].back_and_forth_percent < 1e-9);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// As [`super::pattern`].
pub fn evenness(boxes: &CatchBoxes<'_>) -> Result<Answer<Evenness>> {
    let row = Row::new(boxes)?;
    let mut points = Vec::new();
    for steps in SWATH_LEAST..=row.catches.len() {
        let number = u32::try_from(steps).expect("rows of boxes are short");
        let swath = times(&boxes.spacing, number)?;
        points.push(EvennessPoint {
            swath,
            swath_ft: steps as f64 * row.spacing_m / FOOT_M,
            one_way_percent: one_way(&row, steps),
            back_and_forth_percent: back_and_forth(&row, steps),
        });
    }
    let beyond_boxes = row.ends_too_soon();
    let best = |travel| {
        if beyond_boxes {
            return None;
        }
        let even = points
            .iter()
            .take_while(|p: &&EvennessPoint| p.percent(travel) <= f64::from(EVEN_MOST_PERCENT));
        even.last().map(|p| p.swath)
    };
    let working = Working::new(
        "coefficient of variation of overlapping passes",
        "EN 13739, as summarized by a European good practice note",
    )
    .input("spacing", boxes.spacing.for_person())
    .input("catches", listed(boxes.catches))
    .note(Note::SampleDeviation)
    .note(Note::WorseOverlap)
    .note(Note::FarmEvenness);
    let (best_one_way, best_back_and_forth) = (best(Travel::OneWay), best(Travel::BackAndForth));
    Ok(row.note_ends(working).gives(Evenness {
        points,
        beyond_boxes,
        best_one_way,
        best_back_and_forth,
    }))
}

/// What the curve says of one swath. Between two swaths of the curve the worse counts; where the
/// pattern reaches beyond the boxes, nothing clears.
///
/// # Errors
/// When the swath is no length, or the boxes do not show it.
pub fn evenness_finding(curve: &Evenness, swath: &Entered, travel: Travel) -> Result<Finding> {
    let metres = |e: &Entered| e.si(Dimension::Length).map(to_f64);
    let wanted = metres(swath).map_err(|e| e.of(Field::Swath))?;
    let not_shown = || RuleError::NotAllowed {
        field: Field::Swath,
        given: swath.for_person(),
        allowed: Allowed::SwathWithinBoxes,
    };
    let mut around = (None, None);
    for point in &curve.points {
        let at = metres(&point.swath)?;
        if at <= wanted * (1.0 + 1e-9) {
            around.0 = Some(point);
        }
        if at >= wanted * (1.0 - 1e-9) && around.1.is_none() {
            around.1 = Some(point);
        }
    }
    let (Some(narrower), Some(wider)) = around else {
        return Err(not_shown());
    };
    let percent = narrower.percent(travel).max(wider.percent(travel));
    let (verdict, reason) = if percent <= f64::from(EVEN_MOST_PERCENT) {
        (Verdict::Clear, Reason::PatternEven)
    } else if percent <= f64::from(STRIPES_PERCENT) {
        (Verdict::Caution, Reason::PatternUneven)
    } else {
        (Verdict::DontTreat, Reason::PatternStripes)
    };
    let (verdict, reason) = match verdict {
        Verdict::Clear | Verdict::Caution if curve.beyond_boxes => {
            (Verdict::Unknown, Reason::PatternBeyondBoxes)
        }
        told => (told, reason),
    };
    let most = whole(EVEN_MOST_PERCENT, Unit::PERCENT);
    Ok(Finding::new(Check::Evenness, verdict, reason)
        .with_value(Shown::Amount {
            amount: near(percent, 1, Unit::PERCENT),
        })
        .with_limit(Shown::AtMost { most }, Whose::Advice)
        .with_source(Source::FarmEvenness))
}

fn times(spacing: &Entered, steps: u32) -> Result<Entered> {
    let swath = spacing.amount().checked_mul(steps.into());
    swath
        .map(|s| s.normalize())
        .ok_or_else(|| super::out_of_range(spacing))
        .and_then(|s| Entered::new(s, spacing.unit()))
}

/// What lies at `place` boxes from the first line, with lines `steps` boxes apart.
fn at(row: &Row, place: usize, steps: usize, travel: Travel) -> f64 {
    let half = i64::try_from(row.half()).expect("rows of boxes are short");
    let place = i64::try_from(place).expect("rows of boxes are short");
    let steps = i64::try_from(steps).expect("rows of boxes are short");
    let lines = (place - half).div_euclid(steps)..=(place + half).div_euclid(steps);
    lines
        .filter_map(|line| {
            let off = place - line * steps;
            let off = match travel {
                Travel::BackAndForth if line.rem_euclid(2) == 1 => -off,
                _ => off,
            };
            let index = usize::try_from(off + half).ok()?;
            row.catches.get(index)
        })
        .sum()
}

fn one_way(row: &Row, steps: usize) -> f64 {
    let places: Vec<f64> = (0..steps)
        .map(|place| at(row, place, steps, Travel::OneWay))
        .collect();
    variation_percent(&places).unwrap_or_default()
}

/// The worse of right on right, left on left, and both together: they may also differ from each
/// other.
fn back_and_forth(row: &Row, steps: usize) -> f64 {
    let places: Vec<f64> = (0..2 * steps)
        .map(|place| at(row, place, steps, Travel::BackAndForth))
        .collect();
    let (right, left) = places.split_at(steps);
    [right, left, &places]
        .into_iter()
        .filter_map(variation_percent)
        .fold(0.0, f64::max)
}
