//! Exact doses, and how they are rounded to what a vessel shows.
//!
//! All in decimals: an amount that is round by hand must not fall a step short here.

use rust_decimal::Decimal;

use super::vessel::Measure;
use super::{Amount, AreaBasis, PlanInput, SectionPlan};
use crate::error::{Allowed, Field, Result, RuleError};
use crate::finding::Tenths;
use crate::label::LabelSays;
use crate::measure::{AREA_MOST_M2, AreaEstimate};
use crate::note::{Note, Rounding};
use crate::quantity::{Dimension, Entered, Unit, out_of_range, shown, to_f64};
use crate::working::{Answer, Working};

/// Decimals of a square metre that count.
const AREA_DECIMALS: u32 = 9;

/// The dose over all sections, in the vessel's unit.
pub(super) struct Dose<'a> {
    pub(super) input: &'a PlanInput<'a>,
    pub(super) unit: Unit,
    measure: Measure<'a>,
    /// Area of each section that is planned for, and of it what is there for sure.
    areas_m2: Vec<(Decimal, Decimal)>,
}

impl<'a> Dose<'a> {
    pub(super) fn new(input: &'a PlanInput<'a>) -> Result<Self> {
        let kind = product_kind(&input.rate)?;
        let measure = Measure::new(input.vessel, kind)?;
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
            unit: measure.unit(),
            measure,
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

    /// See [`Measure::measure_out`].
    pub(super) fn measure_out(&self, exact: Decimal, ceiling: Option<Decimal>) -> Result<Decimal> {
        self.measure.measure_out(exact, ceiling)
    }

    /// The largest multiple of the step within `amount`.
    pub(super) fn whole_steps(&self, amount: Decimal) -> Result<Decimal> {
        self.measure.whole_steps(amount)
    }

    pub(super) fn shown(&self, amount: Decimal) -> Result<Entered> {
        self.measure.shown(amount)
    }

    /// A multiple of the step, which keeps all its digits.
    pub(super) fn as_measured(&self, amount: Decimal) -> Result<Entered> {
        self.measure.as_measured(amount)
    }

    pub(super) fn amount(&self, exact: Decimal, measured: Decimal) -> Result<Amount> {
        self.measure.amount(exact, measured)
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
pub(crate) fn product_kind(rate: &Entered) -> Result<Dimension> {
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

pub(crate) fn change_percent(exact: Decimal, measured: Decimal) -> f64 {
    measured.checked_div(exact).map_or(0.0, |ratio| {
        to_f64((ratio - Decimal::ONE) * Decimal::ONE_HUNDRED)
    })
}

/// A rate over an area, in `unit`.
pub(crate) fn over(rate: &Entered, area_m2: Decimal, unit: Unit) -> Result<Decimal> {
    rate.over_area(area_m2, unit)
        .ok_or_else(|| out_of_range(rate))
}

fn carrier_over(carrier: &Entered, area_m2: Decimal) -> Result<Entered> {
    let unit = carrier.unit().over();
    unit.and_then(|unit| shown(carrier.over_area(area_m2, unit)?, unit))
        .ok_or_else(|| out_of_range(carrier))
}

pub(crate) fn square_feet(area_m2: Decimal) -> String {
    let square_foot = Decimal::new(9_290_304, 8);
    format!("{} ft²", (area_m2 / square_foot).round_dp(1).normalize())
}

/// The area planned for and the area there for sure; none when nothing is, or it is no lawn's.
pub(crate) fn areas(area: &AreaEstimate, basis: AreaBasis) -> Option<(Decimal, Decimal)> {
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
