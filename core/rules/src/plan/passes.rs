//! One pass, or two at half the rate.
//!
//! Two passes together give the rate once; neither gives it alone.

use rust_decimal::Decimal;
use serde::Serialize;

use super::Amount;
use super::amounts::Dose;
use crate::error::{Field, Result, RuleError};
use crate::note::Note;
use crate::quantity::{Dimension, Entered, out_of_range, shown};
use crate::working::{Answer, Working};

/// How the product is spread over the lawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Passes {
    /// Once, lines a full swath apart.
    #[default]
    One,
    /// Twice at half the rate, the second at right angles to the first.
    TwoAtRightAngles,
    /// At half the rate in lines half a swath apart, all one way.
    HalfSwath,
}

impl Passes {
    /// How many times a line's rate lies on every place: twice where each goes on at half the rate.
    pub fn times(self) -> u32 {
        match self {
            Self::One => 1,
            Self::TwoAtRightAngles | Self::HalfSwath => 2,
        }
    }
}

/// What each pass needs.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PassPlan {
    /// How the passes lie.
    pub passes: Passes,
    /// The rate to set the spreader or sprayer to.
    pub rate_each: Entered,
    /// Distance from line to line, where the swath is known.
    pub line_spacing: Option<Entered>,
    /// Product for each pass over the lawn, in order; they sum to what is measured out in all.
    pub product: Vec<Entered>,
    /// Finished mix for each pass, where there is a carrier.
    pub carrier: Vec<Entered>,
}

pub(super) fn plan(dose: &Dose<'_>, product: &Amount) -> Result<Answer<PassPlan>> {
    let input = dose.input;
    let rate = input.rate;
    let halved = input.passes != Passes::One;
    let rate_each = if halved { half(&rate)? } else { rate };
    let line_spacing = line_spacing(input.swath.as_ref(), input.passes)?;
    let total = product.measured_out;
    let products = match (input.passes, input.carrier) {
        (Passes::TwoAtRightAngles, None) => {
            let first = dose.whole_steps(total.amount() / Decimal::TWO)?;
            vec![
                dose.as_measured(first)?,
                dose.as_measured(total.amount() - first)?,
            ]
        }
        (Passes::TwoAtRightAngles, Some(_)) => {
            let first = half(&total)?;
            let second = Entered::new(total.amount() - first.amount(), total.unit())?;
            vec![first, second]
        }
        _ => vec![total],
    };
    let mix = dose.carrier_total()?.map(|c| c.value);
    let carrier = match (mix, input.passes) {
        (None, _) => vec![],
        (Some(mix), Passes::TwoAtRightAngles) => vec![half(&mix)?; 2],
        (Some(mix), _) => vec![mix],
    };
    let mut working = Working::new(formula(input.passes), source(input.passes))
        .input("rate", rate.for_person())
        .note(Note::SwathOfCalibration);
    if let Some(swath) = &input.swath {
        working = working.input("swath", swath.for_person());
    }
    let passes = input.passes;
    Ok(working.gives(PassPlan {
        passes,
        rate_each,
        line_spacing,
        product: products,
        carrier,
    }))
}

fn formula(passes: Passes) -> &'static str {
    match passes {
        Passes::One => "one pass at the rate",
        Passes::TwoAtRightAngles => "two passes at right angles, each at half the rate",
        Passes::HalfSwath => "half the rate in lines half a swath apart",
    }
}

fn source(passes: Passes) -> &'static str {
    match passes {
        Passes::One => "common practice, no source",
        Passes::TwoAtRightAngles => "UMass Extension, Rotary Spreader Calibration Procedures",
        Passes::HalfSwath => "Ohio State University, Bulletin 817",
    }
}

fn line_spacing(swath: Option<&Entered>, passes: Passes) -> Result<Option<Entered>> {
    let Some(swath) = swath else { return Ok(None) };
    swath
        .must_be(Dimension::Length)
        .map_err(|e| e.of(Field::Swath))?;
    if swath.is_zero() {
        return Err(RuleError::NotPositive {
            field: Field::Swath,
            given: swath.for_person(),
        });
    }
    match passes {
        Passes::HalfSwath => half(swath).map(Some),
        Passes::One | Passes::TwoAtRightAngles => Ok(Some(*swath)),
    }
}

fn half(whole: &Entered) -> Result<Entered> {
    shown(whole.amount() / Decimal::TWO, whole.unit()).ok_or_else(|| out_of_range(whole))
}
