//! Exact doses, and how they are rounded to what a vessel shows.
//!
//! All in decimals: an amount that is round by hand must not fall a step short here.

use rust_decimal::{Decimal, RoundingStrategy};

use super::{Amount, AreaBasis, PlanInput, SectionPlan};
use crate::error::{Allowed, Field, Result, RuleError};
use crate::finding::Tenths;
use crate::label::LabelSays;
use crate::measure::{AREA_MOST_M2, AreaEstimate};
use crate::note::{Note, Rounding};
use crate::quantity::{Dimension, EXACT_DIGITS, Entered, Unit, shown, to_f64};
use crate::working::{Answer, Working};

/// Decimals of a square metre that count.
const AREA_DECIMALS: u32 = 9;

/// The dose over all sections, in the vessel's unit.
pub(super) struct Dose<'a> {
    pub(super) input: &'a PlanInput<'a>,
    pub(super) unit: Unit,
    step: Decimal,
    /// Area of each section that is planned for, and of it what is there for sure.
    areas_m2: Vec<(Decimal, Decimal)>,
}

impl<'a> Dose<'a> {
    pub(super) fn new(input: &'a PlanInput<'a>) -> Result<Self> {
        let kind = product_kind(&input.rate)?;
        let step = &input.vessel.least_step;
        step.must_be(kind).map_err(|e| e.of(Field::LeastStep))?;
        if step.is_zero() {
            let given = step.for_person();
            return Err(RuleError::NotPositive {
                field: Field::LeastStep,
                given,
            });
        }
        let areas_m2 = input
            .sections
            .iter()
            .map(|s| {
                areas(&s.area, input.basis).ok_or_else(|| {
                    let error = RuleError::NotAllowed {
                        field: Field::Area,
                        given: s.area.for_person(),
                        allowed: Allowed::LawnArea,
                    };
                    let name = s.name.clone();
                    error.of(Field::Section { name })
                })
            })
            .collect::<Result<Vec<_>>>()?;
        Ok(Self {
            input,
            unit: step.unit(),
            step: step.amount(),
            areas_m2,
        })
    }

    pub(super) fn area_m2(&self) -> Decimal {
        self.areas_m2.iter().map(|a| a.0).sum()
    }

    fn sure_m2(&self) -> Decimal {
        self.areas_m2.iter().map(|a| a.1).sum()
    }

    /// Product over all sections, exact.
    pub(super) fn exact(&self) -> Result<Decimal> {
        over(&self.input.rate, self.area_m2(), self.unit)
    }

    /// The label's most over the area that is there for sure; none where rounding up is never
    /// allowed.
    fn ceiling(&self, sure_m2: Decimal) -> Result<Option<Decimal>> {
        let label = self.input.label;
        // One rate: that is the most, and what rounding changes may only go down.
        let (Some(most), LabelSays::Value(_)) = (label.rate_most.value(), &label.rate_least) else {
            return Ok(None);
        };
        over(most, sure_m2, self.unit).map(Some)
    }

    /// The most that may be measured out for a part of the whole job.
    pub(super) fn ceiling_of_part(&self, part: Decimal) -> Result<Option<Decimal>> {
        self.ceiling(self.sure_m2() * part)
    }

    /// An exact amount as the vessel can show it: to the nearest step where that stays within
    /// `ceiling`, else down.
    pub(super) fn measure_out(&self, exact: Decimal, ceiling: Option<Decimal>) -> Result<Decimal> {
        let beyond = || out_of_range(&self.input.rate);
        let steps = exact
            .checked_div(self.step)
            .and_then(|s| s.round_sf(EXACT_DIGITS));
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
                vessel: self.input.vessel.name.clone(),
                step: self.input.vessel.least_step.for_person(),
                needed: self.shown(exact)?.for_person(),
            });
        }
        Ok(measured.normalize())
    }

    /// The largest multiple of the step within `amount`.
    pub(super) fn whole_steps(&self, amount: Decimal) -> Result<Decimal> {
        let steps = amount.checked_div(self.step).map(|s| s.floor());
        steps
            .and_then(|s| s.checked_mul(self.step))
            .ok_or_else(|| out_of_range(&self.input.vessel.least_step))
    }

    pub(super) fn shown(&self, amount: Decimal) -> Result<Entered> {
        shown(amount, self.unit).ok_or_else(|| out_of_range(&self.input.rate))
    }

    /// A multiple of the step, which keeps all its digits.
    pub(super) fn as_measured(&self, amount: Decimal) -> Result<Entered> {
        Entered::new(amount.normalize(), self.unit)
    }

    pub(super) fn amount(&self, exact: Decimal, measured: Decimal) -> Result<Amount> {
        Ok(Amount {
            exact: self.shown(exact)?,
            measured_out: self.as_measured(measured)?,
            change_percent: change_percent(exact, measured),
        })
    }

    pub(super) fn sections(&self) -> Result<Vec<SectionPlan>> {
        let carrier = self.input.carrier.as_ref();
        let each = self.input.sections.iter().zip(&self.areas_m2);
        each.map(|(section, &(area_m2, sure_m2))| {
            let exact = over(&self.input.rate, area_m2, self.unit)?;
            let measured_out = if carrier.is_some() {
                None
            } else {
                let measured = self.measure_out(exact, self.ceiling(sure_m2)?)?;
                Some(self.amount(exact, measured)?)
            };
            let carrier = carrier.map(|c| carrier_over(c, area_m2)).transpose()?;
            let working = self.working().input("area", section.area.for_person());
            Ok(SectionPlan {
                name: section.name.clone(),
                area: section.area,
                product: working.gives(self.shown(exact)?),
                measured_out,
                carrier,
            })
        })
        .collect()
    }

    pub(super) fn total(&self, measured: Decimal) -> Result<Answer<Amount>> {
        let exact = self.exact()?;
        let amount = self.amount(exact, measured)?;
        let working = self
            .working()
            .input("area", square_feet(self.area_m2()))
            .input(
                "step of the vessel",
                self.input.vessel.least_step.for_person(),
            )
            .rounded(Rounding::WholeStepsBy {
                change: Tenths::nearest(amount.change_percent),
            });
        Ok(working.gives(amount))
    }

    pub(super) fn carrier_total(&self) -> Result<Option<Answer<Entered>>> {
        let Some(carrier) = &self.input.carrier else {
            return Ok(None);
        };
        let total = carrier_over(carrier, self.area_m2())?;
        let working = Working::new("carrier × area", "arithmetic")
            .input("carrier", carrier.for_person())
            .input("area", square_feet(self.area_m2()))
            .note(Note::FinishedMix);
        Ok(Some(working.gives(total)))
    }

    fn working(&self) -> Working {
        let working =
            Working::new("rate × area", "arithmetic").input("rate", self.input.rate.for_person());
        match self.input.basis {
            AreaBasis::Best => working,
            AreaBasis::LessUncertainty => working.note(Note::AreaLessUncertainty),
        }
    }
}

/// What kind of amount a rate asks for.
pub(super) fn product_kind(rate: &Entered) -> Result<Dimension> {
    if rate.is_zero() {
        return Err(RuleError::NotPositive {
            field: Field::Rate,
            given: rate.for_person(),
        });
    }
    match rate.dimension() {
        Dimension::MassPerArea => Ok(Dimension::Mass),
        Dimension::VolumePerArea => Ok(Dimension::Volume),
        _ => Err(RuleError::NotAllowed {
            field: Field::Rate,
            given: rate.for_person(),
            allowed: Allowed::RateKind,
        }),
    }
}

pub(super) fn change_percent(exact: Decimal, measured: Decimal) -> f64 {
    measured.checked_div(exact).map_or(0.0, |ratio| {
        to_f64((ratio - Decimal::ONE) * Decimal::ONE_HUNDRED)
    })
}

pub(super) fn out_of_range(entered: &Entered) -> RuleError {
    RuleError::OutOfRange {
        given: entered.for_person(),
    }
}

/// A rate over an area, in `unit`.
pub(super) fn over(rate: &Entered, area_m2: Decimal, unit: Unit) -> Result<Decimal> {
    rate.over_area(area_m2, unit)
        .ok_or_else(|| out_of_range(rate))
}

fn carrier_over(carrier: &Entered, area_m2: Decimal) -> Result<Entered> {
    let unit = carrier.unit().over();
    unit.and_then(|unit| shown(carrier.over_area(area_m2, unit)?, unit))
        .ok_or_else(|| out_of_range(carrier))
}

fn square_feet(area_m2: Decimal) -> String {
    let square_foot = Decimal::new(9_290_304, 8);
    format!("{} ft²", (area_m2 / square_foot).round_dp(1).normalize())
}

/// The area planned for and the area there for sure; none when nothing is, or it is no lawn's.
fn areas(area: &AreaEstimate, basis: AreaBasis) -> Option<(Decimal, Decimal)> {
    let sane = 0.0..=AREA_MOST_M2;
    if !sane.contains(&area.square_metres()) || !sane.contains(&area.uncertainty.value) {
        return None;
    }
    let best = Decimal::from_f64_retain(area.square_metres())?.round_dp(AREA_DECIMALS);
    let uncertainty = Decimal::from_f64_retain(area.uncertainty.value)?.round_dp(AREA_DECIMALS);
    let sure = (best - uncertainty).max(Decimal::ZERO);
    let planned = match basis {
        AreaBasis::Best => best,
        AreaBasis::LessUncertainty => sure,
    };
    (planned > Decimal::ZERO).then_some((planned, sure))
}
