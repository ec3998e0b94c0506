//! What a vessel shows of an amount: whole steps, never above the label's most, and what that
//! rounding does to the dose.

use rust_decimal::{Decimal, RoundingStrategy};

use super::amounts::change_percent;
use super::{Amount, Vessel};
use crate::error::{Field, Result, RuleError};
use crate::finding::Tenths;
use crate::note::Rounding;
use crate::quantity::{Dimension, Entered, Unit, exact as settled, out_of_range, shown};
use crate::working::{Answer, Working};

/// A vessel that can be counted with.
pub(crate) struct Measure<'a> {
    vessel: &'a Vessel,
    step: Decimal,
}

impl<'a> Measure<'a> {
    /// # Errors
    /// When the step is of another kind than what is measured, or zero.
    pub(crate) fn new(vessel: &'a Vessel, kind: Dimension) -> Result<Self> {
        let step = &vessel.least_step;
        step.must_be(kind).map_err(|e| e.of(Field::LeastStep))?;
        if step.is_zero() {
            let given = step.for_person();
            return Err(RuleError::NotPositive {
                field: Field::LeastStep,
                given,
            });
        }
        Ok(Self {
            vessel,
            step: step.amount(),
        })
    }

    pub(crate) fn unit(&self) -> Unit {
        self.vessel.least_step.unit()
    }

    /// An exact amount as the vessel can show it: to the nearest step where that stays within
    /// `ceiling`, else down.
    pub(crate) fn measure_out(&self, exact: Decimal, ceiling: Option<Decimal>) -> Result<Decimal> {
        let beyond = || out_of_range(&self.vessel.least_step);
        let steps = exact.checked_div(self.step).and_then(settled);
        let steps = steps.ok_or_else(beyond)?;
        let nearest = steps.round_dp_with_strategy(0, RoundingStrategy::MidpointTowardZero);
        let in_steps = |n: Decimal| n.checked_mul(self.step).ok_or_else(beyond);
        let (nearest, down) = (in_steps(nearest)?, in_steps(steps.floor())?);
        let measured = if ceiling.is_some_and(|c| nearest <= c) {
            nearest
        } else {
            down
        };
        if measured.is_zero() {
            return Err(RuleError::VesselTooCoarse {
                vessel: self.vessel.name.clone(),
                step: self.vessel.least_step.for_person(),
                needed: self.shown(exact)?.for_person(),
            });
        }
        Ok(measured.normalize())
    }

    /// The largest multiple of the step within `amount`.
    pub(crate) fn whole_steps(&self, amount: Decimal) -> Result<Decimal> {
        let steps = amount.checked_div(self.step).map(|s| s.floor());
        steps
            .and_then(|s| s.checked_mul(self.step))
            .ok_or_else(|| out_of_range(&self.vessel.least_step))
    }

    pub(crate) fn shown(&self, amount: Decimal) -> Result<Entered> {
        shown(amount, self.unit()).ok_or_else(|| out_of_range(&self.vessel.least_step))
    }

    /// A multiple of the step, which keeps all its digits.
    pub(crate) fn as_measured(&self, amount: Decimal) -> Result<Entered> {
        Entered::new(amount.normalize(), self.unit())
    }

    pub(crate) fn amount(&self, exact: Decimal, measured: Decimal) -> Result<Amount> {
        Ok(Amount {
            exact: self.shown(exact)?,
            measured_out: self.as_measured(measured)?,
            change_percent: change_percent(exact, measured),
        })
    }
}

/// An amount rounded down to what a vessel shows, with what that does to the dose.
///
/// ```
/// use sward_rules::{Entered, plan::{Vessel, measure_out}};
/// let cup = Vessel { name: "cup".into(), least_step: Entered::parse("0.5 fl oz")? };
/// let amount = measure_out(&Entered::parse("7.407 fl oz")?, &cup)?.value;
/// assert_eq!(amount.measured_out.for_person(), "7 fl oz");
/// assert!(amount.change_percent < -5.4);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When the vessel shows another kind of amount, its step is zero, or more than the amount.
pub fn measure_out(exact: &Entered, vessel: &Vessel) -> Result<Answer<Amount>> {
    let measure = Measure::new(vessel, exact.dimension())?;
    let in_steps = exact.in_unit(measure.unit());
    let in_steps = in_steps.ok_or_else(|| out_of_range(exact))?;
    let measured = measure.measure_out(in_steps, None)?;
    let amount = measure.amount(in_steps, measured)?;
    let working = Working::new("whole steps of the vessel", "arithmetic")
        .input("amount", exact.for_person())
        .input("step of the vessel", vessel.least_step.for_person())
        .rounded(Rounding::WholeStepsBy {
            change: Tenths::nearest(amount.change_percent),
        });
    Ok(working.gives(amount))
}
