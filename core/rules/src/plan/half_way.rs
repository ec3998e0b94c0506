//! The check half-way: is the product going on at the planned rate?
//!
//! An overdosed strip stays overdosed. What is left still gets the label's rate; nothing here ever
//! averages the two.

use std::cmp::Ordering;

use rust_decimal::Decimal;
use serde::Serialize;

use super::amounts::product_kind;
use super::rate::{CHANGE_FLAG_PERCENT, flag};
use crate::error::{Allowed, Field, Result, RuleError};
use crate::finding::{Check, Finding, Reason, Shown, Source, Tenths, Verdict, Whose};
use crate::label::Label;
use crate::note::Note;
use crate::quantity::{Dimension, Entered, Unit, exact, out_of_range, shown, to_f64};
use crate::working::{Answer, Working};

/// What a person sees when they stop to check.
#[derive(Debug, Clone)]
pub struct HalfWay<'a> {
    /// The label sheet.
    pub label: &'a Label,
    /// The planned rate.
    pub rate: Entered,
    /// Product planned for the whole area.
    pub planned: Entered,
    /// Product filled in so far.
    pub filled: Entered,
    /// Product still in the spreader or tank.
    pub left: Entered,
    /// Share of the area done, such as `50 %`.
    pub done: Entered,
}

/// What the check finds.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HalfWayResult {
    /// Product used so far.
    pub used: Entered,
    /// Product that should have been used.
    pub due: Entered,
    /// How far off that is, in percent; above zero is heavy.
    pub off_percent: f64,
    /// The rate on the part that is done.
    pub rate_done: Entered,
    /// Product for the part that is left, at the planned rate and no other.
    pub for_the_rest: Entered,
    /// What is missing for it, where what is left does not suffice.
    pub missing: Option<Entered>,
    /// What the crew should do.
    pub finding: Finding,
}

/// Compares what was used with what was planned for the part that is done.
///
/// # Errors
/// When amounts are of different kinds, the share is not between 0 and 100 %, or more is left than
/// was filled in.
pub fn half_way_check(input: &HalfWay<'_>) -> Result<Answer<HalfWayResult>> {
    let kind = product_kind(&input.rate)?;
    let unit = input.planned.unit();
    let planned = in_unit(&input.planned, kind, unit, &Field::PlannedProduct)?;
    let filled = in_unit(&input.filled, kind, unit, &Field::FilledProduct)?;
    let left = in_unit(&input.left, kind, unit, &Field::ProductLeft)?;
    let share = share_done(&input.done)?;
    if planned.is_zero() {
        let given = input.planned.for_person();
        return Err(RuleError::NotPositive {
            field: Field::PlannedProduct,
            given,
        });
    }
    if left > filled {
        return Err(RuleError::NotAllowed {
            field: Field::ProductLeft,
            given: input.left.for_person(),
            allowed: Allowed::NoMoreThanFilled,
        });
    }
    let (used, due) = (filled - left, planned * share);
    let ratio = used.checked_div(due).and_then(exact);
    let ratio = ratio.ok_or_else(|| out_of_range(&input.planned))?;
    let for_the_rest = planned - due;
    let show = |amount| shown(amount, unit).ok_or_else(|| out_of_range(&input.planned));
    let rate_done = input
        .rate
        .amount()
        .checked_mul(ratio)
        .and_then(|r| shown(r, input.rate.unit()))
        .ok_or_else(|| out_of_range(&input.rate))?;
    let off_percent = 100.0 * to_f64(ratio - Decimal::ONE);
    let working = Working::new("used ÷ (planned × share done)", "arithmetic")
        .input("planned", input.planned.for_person())
        .input("filled in", input.filled.for_person())
        .input("left", input.left.for_person())
        .input("done", input.done.for_person())
        .note(Note::RestAtPlannedRate);
    Ok(working.gives(HalfWayResult {
        used: show(used)?,
        due: show(due)?,
        off_percent,
        rate_done,
        for_the_rest: show(for_the_rest)?,
        missing: (left < for_the_rest)
            .then(|| show(for_the_rest - left))
            .transpose()?,
        finding: finding(input, &rate_done, off_percent)?,
    }))
}

fn finding(input: &HalfWay<'_>, rate_done: &Entered, off_percent: f64) -> Result<Finding> {
    let value = Shown::Changed {
        amount: *rate_done,
        change: Tenths::nearest(off_percent),
    };
    let advised = |verdict, reason| {
        Finding::new(Check::Rate, verdict, reason)
            .with_value(value.clone())
            .with_limit(flag(), Whose::Advice)
            .with_source(Source::SpreaderCalibration)
    };
    let Some(most) = input.label.rate_most.value() else {
        return Ok(Finding::unknown(Check::Rate, Reason::MostNotOnSheet).with_value(value));
    };
    rate_done
        .must_be(most.dimension())
        .map_err(|e| e.of(Field::Rate))?;
    if rate_done.compare(most)? == Ordering::Greater {
        let stop = Finding::new(Check::Rate, Verdict::DontTreat, Reason::HalfWayAboveMost);
        return Ok(stop
            .with_value(value)
            .with_limit(Shown::Amount { amount: *most }, Whose::Label));
    }
    Ok(if off_percent > CHANGE_FLAG_PERCENT {
        advised(Verdict::Caution, Reason::HalfWayHeavy)
    } else if off_percent < -CHANGE_FLAG_PERCENT {
        advised(Verdict::Caution, Reason::HalfWayLight)
    } else {
        advised(Verdict::Clear, Reason::HalfWayOnRate)
    })
}

fn in_unit(entered: &Entered, kind: Dimension, unit: Unit, field: &Field) -> Result<Decimal> {
    entered.must_be(kind).map_err(|e| e.of(field.clone()))?;
    if entered.unit() == unit {
        return Ok(entered.amount());
    }
    Ok(entered
        .convert(unit)
        .map_err(|e| e.of(field.clone()))?
        .amount())
}

fn share_done(done: &Entered) -> Result<Decimal> {
    let share = done
        .si(Dimension::Percent)
        .map_err(|e| e.of(Field::ShareDone))?;
    if share <= Decimal::ZERO || share >= Decimal::ONE {
        return Err(RuleError::NotAllowed {
            field: Field::ShareDone,
            given: done.for_person(),
            allowed: Allowed::PartOfTheWhole,
        });
    }
    Ok(share)
}
