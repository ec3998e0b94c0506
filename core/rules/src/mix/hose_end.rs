//! Hose-end sprayers: how much comes out on an area, and which step of the dial gives the label's
//! rate.

use std::cmp::Ordering;

use rust_decimal::Decimal;
use serde::Serialize;

use super::rates::not_allowed;
use super::times_over;
use crate::calibrate::{TimedCatch, timed};
use crate::error::{Allowed, Field, Result, RuleError};
use crate::finding::{Check, Finding, Reason, Shown, Verdict, Whose};
use crate::label::Label;
use crate::note::Note;
use crate::plan::amounts::change_percent;
use crate::plan::{carrier_finding, rate_findings};
use crate::quantity::{Dimension, Entered, Unit, out_of_range, positive, shown, shown_down};
use crate::working::{Answer, Working};

/// Most steps of a dial.
pub const DIAL_STEPS_MOST: usize = 50;

/// Finished mix per area that a hose-end sprayer puts on at this pace, in the unit of the catch: an
/// area sprayed, and the same flow caught in a bucket.
///
/// ```
/// use sward_rules::{Entered, calibrate::TimedCatch, mix::hose_end_test};
/// let e = |t: &str| Entered::parse(t).unwrap();
/// let carrier = hose_end_test(&TimedCatch {
///     area: e("250 ft2"),
///     area_time: e("20 s"),
///     caught: e("1.25 gal"),
///     catch_time: e("20 s"),
/// })?;
/// assert_eq!(carrier.value, e("5 gal/1000 ft2"));
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a value is of the wrong kind or zero.
pub fn hose_end_test(run: &TimedCatch) -> Result<Answer<Entered>> {
    let (depth_m, working) = timed(run)?;
    let carrier = depth_m
        .zip(run.caught.unit().per(Unit::SQUARE_FEET_1000))
        .and_then(|(depth_m, unit)| Entered::from_si(depth_m, unit))
        .filter(|carrier| !carrier.is_zero())
        .ok_or_else(|| out_of_range(&run.caught))?;
    Ok(working.gives(carrier))
}

/// A dial, and what it should give.
#[derive(Debug, Clone)]
pub struct DialAsked<'a> {
    /// The label sheet.
    pub label: &'a Label,
    /// Product per area, a volume.
    pub rate: Entered,
    /// What the sprayer puts on ([`hose_end_test`]).
    pub carrier: Entered,
    /// The dial's steps, product per volume of mix.
    pub steps: &'a [Entered],
}

/// Which step of the dial to take.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Dial {
    /// Product in a gallon of what comes out, for the rate.
    pub needed: Entered,
    /// The highest step that is not above it.
    pub step: Option<Entered>,
    /// The rate that this step gives.
    pub rate: Option<Entered>,
    /// How far that is from the rate asked for, in percent; never above zero.
    pub change_percent: Option<f64>,
    /// The most carrier per area at which the lowest step stays within the rate, where no step is
    /// low enough: the pace to walk at. Rounded down.
    pub carrier_for_lowest: Option<Entered>,
    /// What the label says to it.
    pub findings: Vec<Finding>,
}

/// The ratio a rate needs, and the dial's step for it, rounded down.
///
/// ```
/// # use sward_rules::{Entered, label::*, mix::*};
/// # let e = |t: &str| Entered::parse(t).unwrap();
/// let mut label = Label::unfilled(Method::Drench);
/// label.rate_most = LabelSays::Value(e("6 fl oz/1000 ft2"));
/// let dial = hose_end_dial(&DialAsked {
///     label: &label,
///     rate: e("6 fl oz/1000 ft2"),
///     carrier: e("5 gal/1000 ft2"),
///     steps: &[e("0.5 fl oz/gal"), e("1 fl oz/gal"), e("1.5 fl oz/gal")],
/// })?.value;
/// assert_eq!(dial.needed, e("1.2 fl oz/gal"));
/// assert_eq!(dial.step, Some(e("1 fl oz/gal")));
/// assert_eq!(dial.rate, Some(e("5 fl oz/1000 ft2")));
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When the rate is no volume per area (a dial takes liquids only), a value is zero or of the wrong
/// kind, or there is no step, or more than [`DIAL_STEPS_MOST`].
pub fn hose_end_dial(asked: &DialAsked<'_>) -> Result<Answer<Dial>> {
    let kind = Dimension::VolumePerArea;
    let rate_m = positive(&asked.rate, kind, &Field::Rate)?;
    let carrier_m = positive(&asked.carrier, kind, &Field::Carrier)?;
    if asked.steps.is_empty() {
        return Err(RuleError::Empty.of(Field::DialSteps));
    }
    if asked.steps.len() > DIAL_STEPS_MOST {
        return Err(RuleError::TooMany {
            field: Field::DialSteps,
            count: asked.steps.len(),
            limit: DIAL_STEPS_MOST,
        });
    }
    let steps = steps_si(asked.steps)?;
    let range = || out_of_range(&asked.rate);
    if rate_m >= carrier_m {
        return Err(RuleError::ProductFillsTank {
            product: asked.rate.for_person(),
            capacity: asked.carrier.for_person(),
        });
    }
    let ratio = times_over(rate_m, Decimal::ONE, carrier_m).ok_or_else(range)?;
    let unit = asked.rate.unit().over().and_then(|u| u.per(Unit::GALLON));
    let needed = unit
        .and_then(|unit| Entered::from_si(ratio, unit))
        .ok_or_else(range)?;
    let within = steps.iter().filter(|(si, _)| *si <= ratio);
    let step = within.max_by(|a, b| a.0.cmp(&b.0));
    let working = Working::new("rate ÷ carrier, down to a step of the dial", "arithmetic")
        .input("rate", asked.rate.for_person())
        .input("carrier", asked.carrier.for_person())
        .note(Note::DialInFinishedMix);
    let dial = match step {
        Some((si, step)) => {
            let rate = times_over(asked.rate.amount(), *si, ratio)
                .and_then(|amount| shown(amount, asked.rate.unit()))
                .ok_or_else(range)?;
            let mut findings = rate_findings(asked.label, &rate)?;
            findings.push(carrier_finding(asked.label, &asked.carrier)?);
            Dial {
                needed,
                step: Some(**step),
                rate: Some(rate),
                change_percent: Some(change_percent(ratio, *si)),
                carrier_for_lowest: None,
                findings,
            }
        }
        None => no_step(asked, needed, &steps)?,
    };
    Ok(working.gives(dial))
}

fn no_step(asked: &DialAsked<'_>, needed: Entered, steps: &[(Decimal, &Entered)]) -> Result<Dial> {
    let range = || out_of_range(&asked.rate);
    let lowest = steps.iter().min_by(|a, b| a.0.cmp(&b.0));
    let (lowest_si, _) = lowest.ok_or_else(range)?;
    let ratio = asked.rate.si(Dimension::VolumePerArea)?;
    let carrier_m = times_over(ratio, Decimal::ONE, *lowest_si).ok_or_else(range)?;
    let unit = asked.carrier.unit();
    let own = positive(&asked.carrier, Dimension::VolumePerArea, &Field::Carrier)?;
    let quicker = times_over(carrier_m, asked.carrier.amount(), own)
        .and_then(|amount| shown_down(amount, unit, super::SPARE_DIGITS));
    let rate = times_over(
        asked.rate.amount(),
        *lowest_si,
        times_over(ratio, Decimal::ONE, own).ok_or_else(range)?,
    )
    .and_then(|amount| shown(amount, asked.rate.unit()))
    .ok_or_else(range)?;
    // More than was asked for; whether it is more than the label allows is another matter.
    let (verdict, most) = match asked.label.rate_most.value() {
        None => (Verdict::Unknown, None),
        Some(most) if rate.compare(most).map_err(|e| e.of(Field::Rate))?.is_gt() => {
            (Verdict::DontTreat, Some(*most))
        }
        Some(most) => (Verdict::Caution, Some(*most)),
    };
    let finding = Finding::new(Check::Rate, verdict, Reason::NoDialStep)
        .with_value(Shown::Amount { amount: rate });
    let finding = match most {
        Some(amount) => finding.with_limit(Shown::Amount { amount }, Whose::Label),
        None => finding,
    };
    Ok(Dial {
        needed,
        step: None,
        rate: None,
        change_percent: None,
        carrier_for_lowest: quicker,
        findings: vec![finding, carrier_finding(asked.label, &asked.carrier)?],
    })
}

fn steps_si(steps: &[Entered]) -> Result<Vec<(Decimal, &Entered)>> {
    let each = (1..).zip(steps);
    each.map(|(number, step)| {
        let field = Field::DialStep { number };
        if step.dimension() != Dimension::VolumePerVolume {
            return Err(not_allowed(step, field, Allowed::DialKind));
        }
        let si = positive(step, Dimension::VolumePerVolume, &field)?;
        if si.cmp(&Decimal::ONE) != Ordering::Less {
            return Err(not_allowed(step, field, Allowed::DialKind));
        }
        Ok((si, step))
    })
    .collect()
}
