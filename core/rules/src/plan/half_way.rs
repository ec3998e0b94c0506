//! The check half-way: is the product going on at the planned rate?
//!
//! An overdosed strip stays overdosed. What is left still gets the label's rate; nothing here ever
//! averages the two.

use std::cmp::Ordering;

use rust_decimal::Decimal;
use serde::Serialize;

use super::amounts::{out_of_range, product_kind};
use super::rate::CHANGE_FLAG_PERCENT;
use crate::error::{Result, RuleError};
use crate::finding::{Check, Finding, Verdict, Whose};
use crate::label::Label;
use crate::quantity::{Dimension, EXACT_DIGITS, Entered, Unit, shown, to_f64};
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
    let planned = in_unit(&input.planned, kind, unit, "planned product")?;
    let filled = in_unit(&input.filled, kind, unit, "product filled in")?;
    let left = in_unit(&input.left, kind, unit, "product left")?;
    let share = share_done(&input.done)?;
    if planned.is_zero() {
        let given = input.planned.for_person();
        return Err(RuleError::NotPositive {
            field: "planned product",
            given,
        });
    }
    if left > filled {
        return Err(RuleError::NotAllowed {
            field: "product left",
            given: input.left.for_person(),
            allowed: "no more than was filled in",
        });
    }
    let (used, due) = (filled - left, planned * share);
    let ratio = used.checked_div(due).and_then(|r| r.round_sf(EXACT_DIGITS));
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
        .note("the part that is left gets the planned rate; it never makes up for the part done");
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
    let value = format!("{} ({off_percent:+.1} %)", rate_done.for_person());
    let advised = |verdict, reason| {
        Finding::new(Check::Rate, verdict, reason)
            .with_value(&value)
            .with_limit(format!("± {CHANGE_FLAG_PERCENT} %"), Whose::Advice)
            .with_source("UMass Extension, Rotary Spreader Calibration Procedures: within 5 %")
    };
    let Some(most) = input.label.rate_most.value() else {
        return Ok(
            Finding::unknown(Check::Rate, "the label's most is not on the label sheet")
                .with_value(value),
        );
    };
    rate_done
        .must_be(most.dimension())
        .map_err(|e| e.of("rate"))?;
    if rate_done.compare(most)? == Ordering::Greater {
        let reason = "stop: the part done is above the label's most and stays so. Set the rate \
                      right, then treat what is left at the planned rate; do not average";
        return Ok(Finding::new(Check::Rate, Verdict::DontTreat, reason)
            .with_value(value)
            .with_limit(most.for_person(), Whose::Label));
    }
    Ok(if off_percent > CHANGE_FLAG_PERCENT {
        advised(
            Verdict::Caution,
            "heavy: set the rate right, then treat what is left as planned",
        )
    } else if off_percent < -CHANGE_FLAG_PERCENT {
        advised(
            Verdict::Caution,
            "light: set the rate right, then treat what is left as planned",
        )
    } else {
        advised(Verdict::Clear, "on the planned rate")
    })
}

fn in_unit(entered: &Entered, kind: Dimension, unit: Unit, field: &'static str) -> Result<Decimal> {
    entered.must_be(kind).map_err(|e| e.of(field))?;
    if entered.unit() == unit {
        return Ok(entered.amount());
    }
    Ok(entered.convert(unit).map_err(|e| e.of(field))?.amount())
}

fn share_done(done: &Entered) -> Result<Decimal> {
    let share = done
        .si(Dimension::Percent)
        .map_err(|e| e.of("share done"))?;
    if share <= Decimal::ZERO || share >= Decimal::ONE {
        return Err(RuleError::NotAllowed {
            field: "share done",
            given: done.for_person(),
            allowed: "more than 0 % and less than 100 %",
        });
    }
    Ok(share)
}
