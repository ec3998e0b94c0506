//! Tank fills and hopper fills, with the odd last one.
//!
//! Each load of a mix is rounded by itself, since its product goes on its own strip of lawn.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use serde::Serialize;

use super::SectionPlan;
use super::amounts::{Dose, change_percent, over};
use crate::error::{Field, Result, RuleError};
use crate::note::{Note, Rounding};
use crate::quantity::{Dimension, Entered, exact, out_of_range, shown};
use crate::working::{Answer, Working};

/// Most loads in one plan.
pub const LOADS_MOST: u32 = 500;

/// One load.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Load {
    /// Its number, the first being 1.
    pub number: u32,
    /// Product to measure out.
    pub product: Entered,
    /// Finished mix, where there is a carrier: fill with water up to this.
    pub carrier: Option<Entered>,
    /// What rounding does to this load's dose, in percent; none for a hopper, whose setting and
    /// not its filling decides the dose.
    pub change_percent: Option<f64>,
}

/// Loads of a tank.
pub(super) fn of_mix(dose: &Dose<'_>, carrier: &Entered) -> Result<Answer<Vec<Load>>> {
    let capacity = &dose.input.capacity;
    capacity
        .must_be(Dimension::Volume)
        .map_err(|e| e.of(Field::Tank))?;
    let tank = positive(capacity, Field::Tank)?;
    let unit = capacity.unit();
    let mix = over(carrier, dose.area_m2(), unit)?;
    let full = whole_loads(mix, tank, capacity, Field::Tank)?;
    let rest = rest_of(mix, tank, full);
    let product = dose.exact()?;
    let load = |number: u32, volume: Decimal| -> Result<Load> {
        let exact = part(product, volume, mix).ok_or_else(|| out_of_range(capacity))?;
        let share = part(Decimal::ONE, volume, mix).ok_or_else(|| out_of_range(capacity))?;
        let measured = dose.measure_out(exact, dose.ceiling_of_part(share)?)?;
        let carrier = shown(volume, unit).ok_or_else(|| out_of_range(capacity))?;
        let product = dose.as_measured(measured)?;
        must_fit(&product, &carrier)?;
        Ok(Load {
            number,
            product,
            carrier: Some(carrier),
            change_percent: Some(change_percent(exact, measured)),
        })
    };
    let mut loads = (1..=full)
        .map(|number| load(number, tank))
        .collect::<Result<Vec<_>>>()?;
    if let Some(rest) = rest {
        loads.push(load(full + 1, rest)?);
    }
    let working = working(
        dose,
        "tank",
        "carrier × area, in full tanks and what is left",
    )
    .input("carrier", carrier.for_person())
    .note(Note::EachLoadRounded);
    Ok(working.gives(loads))
}

/// Fillings of a hopper, of what was measured out section by section.
pub(super) fn of_hopper(dose: &Dose<'_>, sections: &[SectionPlan]) -> Result<Answer<Vec<Load>>> {
    let capacity = &dose.input.capacity;
    let kind = dose.unit.dimension();
    capacity.must_be(kind).map_err(|e| e.of(Field::Hopper))?;
    positive(capacity, Field::Hopper)?;
    let hopper = capacity
        .convert(dose.unit)
        .map_err(|e| e.of(Field::Hopper))?
        .amount();
    let filling = dose.whole_steps(hopper)?;
    if filling.is_zero() {
        return Err(RuleError::VesselTooCoarse {
            vessel: dose.input.vessel.name.clone(),
            step: dose.input.vessel.least_step.for_person(),
            needed: capacity.for_person(),
        });
    }
    let total: Decimal = sections
        .iter()
        .filter_map(|s| Some(s.measured_out.as_ref()?.measured_out.amount()))
        .sum();
    let full = whole_loads(total, filling, capacity, Field::Hopper)?;
    let rest = total - filling * Decimal::from(full);
    let amounts = std::iter::repeat_n(filling, full as usize);
    let amounts = amounts.chain((!rest.is_zero()).then_some(rest));
    let loads = (1..)
        .zip(amounts)
        .map(|(number, amount)| {
            let product = dose.as_measured(amount)?;
            Ok(Load {
                number,
                product,
                carrier: None,
                change_percent: None,
            })
        })
        .collect::<Result<Vec<_>>>()?;
    let names: Vec<&str> = dose
        .input
        .sections
        .iter()
        .map(|s| s.name.as_str())
        .collect();
    let working = working(
        dose,
        "hopper",
        "product measured out, in full hoppers and what is left",
    )
    .input("sections", names.join(", "));
    Ok(working.gives(loads))
}

fn working(dose: &Dose<'_>, what: &'static str, formula: &'static str) -> Working {
    Working::new(formula, "arithmetic")
        .input(what, dose.input.capacity.for_person())
        .input(
            "step of the vessel",
            dose.input.vessel.least_step.for_person(),
        )
        .rounded(Rounding::WholeSteps)
}

fn positive(capacity: &Entered, field: Field) -> Result<Decimal> {
    if capacity.is_zero() {
        return Err(RuleError::NotPositive {
            field,
            given: capacity.for_person(),
        });
    }
    Ok(capacity.amount())
}

fn whole_loads(total: Decimal, each: Decimal, capacity: &Entered, field: Field) -> Result<u32> {
    let loads = total
        .checked_div(each)
        .ok_or_else(|| out_of_range(capacity))?;
    if loads > Decimal::from(LOADS_MOST) {
        return Err(RuleError::TooManyLoads {
            field,
            given: capacity.for_person(),
            count: loads.ceil().to_string(),
            limit: LOADS_MOST,
        });
    }
    Ok(loads.floor().to_u32().expect("within the limit"))
}

/// What is left after the full tanks; less than a millionth of a tank is how the area was written.
fn rest_of(mix: Decimal, tank: Decimal, full: u32) -> Option<Decimal> {
    let rest = mix - tank * Decimal::from(full);
    let counts = rest > tank * Decimal::new(1, 6) || full == 0;
    counts.then_some(rest)
}

fn part(whole: Decimal, volume: Decimal, mix: Decimal) -> Option<Decimal> {
    whole.checked_mul(volume)?.checked_div(mix).and_then(exact)
}

/// A liquid product must leave room for water.
fn must_fit(product: &Entered, carrier: &Entered) -> Result<()> {
    let liquid = product.dimension() == Dimension::Volume;
    if liquid && product.compare(carrier)?.is_ge() {
        return Err(RuleError::ProductFillsTank {
            product: product.for_person(),
            capacity: carrier.for_person(),
        });
    }
    Ok(())
}
