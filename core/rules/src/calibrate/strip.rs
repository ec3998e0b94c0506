//! A spreader by strip: what was weighed in and out, or caught, over a strip of known size.
//!
//! Whether the rate found will do is [`super::against`]'s matter.

use rust_decimal::Decimal;
use serde::Serialize;

use super::{in_unit, out_of_range, positive};
use crate::error::{Allowed, Field, Result, RuleError};
use crate::note::Note;
use crate::quantity::{Dimension, Entered, Unit};
use crate::working::{Answer, Working};

const SOURCE: &str = "UMass Extension, Rotary Spreader Calibration Procedures";

/// How the product used on the strip was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weighed {
    /// What the hopper held at the start, and what was left.
    StartAndLeft {
        /// At the start.
        start: Entered,
        /// Left after the strip.
        left: Entered,
    },
    /// What a pan or a bag under a drop spreader caught over the strip.
    Caught(Entered),
}

/// One run over a strip.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StripRun {
    /// What was used.
    pub weighed: Weighed,
    /// How long the strip is.
    pub length: Entered,
    /// Distance from line to line; for a drop spreader, its width.
    pub swath: Entered,
}

/// The rate that a run showed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StripRate {
    /// Product used on the strip.
    pub used: Entered,
    /// Area of the strip.
    pub area: Entered,
    /// Product per area.
    pub rate: Entered,
}

/// The rate a spreader puts on, from a run over a strip.
///
/// `unit` is the unit wanted for the rate, such as that of the rate on the label sheet; without one
/// it is what was weighed per 1000 square feet.
///
/// ```
/// use sward_rules::{Entered, calibrate::*};
/// let run = StripRun {
///     weighed: Weighed::StartAndLeft {
///         start: Entered::parse("10 lb")?,
///         left: Entered::parse("6.4 lb")?,
///     },
///     length: Entered::parse("125 ft")?,
///     swath: Entered::parse("8 ft")?,
/// };
/// assert_eq!(strip_rate(&run, None)?.value.rate.for_person(), "3.6 lb/1000 ft²");
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a measure is zero or of the wrong kind, more is left than there was, or nothing was used.
pub fn strip_rate(run: &StripRun, unit: Option<Unit>) -> Result<Answer<StripRate>> {
    let length = positive(&run.length, Dimension::Length, &Field::StripLength)?;
    let swath = positive(&run.swath, Dimension::Length, &Field::Swath)?;
    let (used_si, kind, weighed_in) = used(&run.weighed)?;
    let area_si = length.checked_mul(swath);
    let rate_si = area_si.and_then(|area| used_si.checked_div(area));
    let unit = match unit {
        Some(unit) => unit,
        None => weighed_in
            .unit()
            .per(Unit::SQUARE_FEET_1000)
            .ok_or_else(|| out_of_range(&weighed_in))?,
    };
    check_unit(unit, kind, &weighed_in)?;
    let working = match run.weighed {
        Weighed::StartAndLeft { start, left } => {
            Working::new("(start - left) / (length × swath)", SOURCE)
                .input("start", start.for_person())
                .input("left", left.for_person())
        }
        Weighed::Caught(caught) => {
            Working::new("caught / (length × swath)", SOURCE).input("caught", caught.for_person())
        }
    };
    let working = working
        .input("length", run.length.for_person())
        .input("swath", run.swath.for_person())
        .note(Note::SwathOfCalibration)
        .note(Note::EachPassByItself);
    Ok(working.gives(StripRate {
        used: in_unit(Some(used_si), weighed_in.unit(), &weighed_in)?,
        area: in_unit(area_si, Unit::SQUARE_FOOT, &run.length)?,
        rate: in_unit(rate_si, unit, &weighed_in)?,
    }))
}

/// What was used, in SI, its kind, and an amount that has its unit.
fn used(weighed: &Weighed) -> Result<(Decimal, Dimension, Entered)> {
    match weighed {
        Weighed::Caught(caught) => {
            let kind = product_kind(caught, &Field::ProductCaught)?;
            let si = positive(caught, kind, &Field::ProductCaught)?;
            Ok((si, kind, *caught))
        }
        Weighed::StartAndLeft { start, left } => {
            let kind = product_kind(start, &Field::ProductAtStart)?;
            let at_start = positive(start, kind, &Field::ProductAtStart)?;
            let left_si = left.si(kind).map_err(|e| e.of(Field::ProductLeft))?;
            // Nothing used is a spreader that was shut, not a rate of nothing.
            if left_si >= at_start {
                return Err(RuleError::NotAllowed {
                    field: Field::ProductLeft,
                    given: left.for_person(),
                    allowed: Allowed::LessThanAtStart,
                });
            }
            Ok((at_start - left_si, kind, *start))
        }
    }
}

fn product_kind(entered: &Entered, field: &Field) -> Result<Dimension> {
    let kind = match entered.dimension() {
        Dimension::Volume => Dimension::Volume,
        _ => Dimension::Mass,
    };
    entered.must_be(kind).map_err(|e| e.of(field.clone()))?;
    Ok(kind)
}

/// The wanted unit must be one of what was weighed, per area.
fn check_unit(unit: Unit, kind: Dimension, weighed: &Entered) -> Result<()> {
    let per_area = match kind {
        Dimension::Volume => Dimension::VolumePerArea,
        _ => Dimension::MassPerArea,
    };
    if unit.dimension() == per_area {
        return Ok(());
    }
    let needed = match unit.dimension() {
        Dimension::VolumePerArea => Dimension::Volume,
        _ => Dimension::Mass,
    };
    weighed
        .must_be(needed)
        .map_err(|e| e.of(Field::ProductAtStart))?;
    Err(RuleError::NotAllowed {
        field: Field::WantedRate,
        given: unit.for_person(),
        allowed: Allowed::RateKind,
    })
}

/// How long a strip of a swath must be for a test area.
///
/// ```
/// use sward_rules::{Entered, calibrate::strip_length};
/// let length = strip_length(&Entered::parse("1000 ft2")?, &Entered::parse("8 ft")?)?;
/// assert_eq!(length.value.for_person(), "125 ft");
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a measure is zero or of the wrong kind.
pub fn strip_length(area: &Entered, swath: &Entered) -> Result<Answer<Entered>> {
    let area_si = positive(area, Dimension::Area, &Field::TestArea)?;
    let swath_si = positive(swath, Dimension::Length, &Field::Swath)?;
    let length = in_unit(area_si.checked_div(swath_si), swath.unit(), swath)?;
    let working = Working::new("test area / swath", "arithmetic")
        .input("test area", area.for_person())
        .input("swath", swath.for_person());
    Ok(working.gives(length))
}
