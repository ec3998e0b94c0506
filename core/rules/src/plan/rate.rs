//! The chosen rate and carrier against the label sheet, and what area and rounding do to them.
//!
//! Each answer is a finding; only a sheet that contradicts itself, or kinds that do not go
//! together, are errors.

use std::cmp::Ordering;

use super::amounts::{Dose, product_kind};
use crate::error::{Result, RuleError};
use crate::finding::{Check, Finding, Verdict, Whose};
use crate::label::{Label, LabelSays};
use crate::quantity::{Dimension, Entered};

/// From this many percent on, an uncertain area or a rounding is flagged (UMass Extension, Rotary
/// Spreader Calibration Procedures, accepts a rate within 5 %).
pub const CHANGE_FLAG_PERCENT: f64 = 5.0;

const FLAG_SOURCE: &str = "UMass Extension, Rotary Spreader Calibration Procedures: within 5 %";

/// The chosen rate against the label's most and least.
///
/// Above the most is `DontTreat`, below the least `Caution`. Without a most on the sheet the answer
/// is `Unknown`, whether nobody filled it in or the label is silent. An empty least is `Unknown`
/// too; a label with one rate has it as its most and says nothing of a least.
///
/// # Errors
/// When the rate is zero or no rate, when rate and limits are of different kinds (a weight for a
/// volume), or when the label's least is above its most.
pub fn rate_findings(label: &Label, rate: &Entered) -> Result<Vec<Finding>> {
    product_kind(rate)?;
    let least = label.rate_least.value();
    let most = label.rate_most.value();
    if let (Some(least), Some(most)) = (least, most)
        && least
            .compare(most)
            .map_err(|e| e.of("label's least rate"))?
            == Ordering::Greater
    {
        return Err(RuleError::LeastAboveMost {
            field: "rate",
            least: least.for_person(),
            most: most.for_person(),
        });
    }
    let mut findings = vec![against_most(label, rate)?];
    findings.extend(against_least(label, rate)?);
    Ok(findings)
}

fn against_most(label: &Label, rate: &Entered) -> Result<Finding> {
    Ok(match &label.rate_most {
        LabelSays::Value(most) => {
            let (verdict, reason) = match compare(rate, most)? {
                Ordering::Greater => (Verdict::DontTreat, "the rate is above the label's most"),
                _ => (Verdict::Clear, "the rate is within the label's most"),
            };
            with_rate(verdict, reason, rate).with_limit(most.for_person(), Whose::Label)
        }
        LabelSays::Unfilled => with_rate(
            Verdict::Unknown,
            "the label's rate is not filled in on the label sheet",
            rate,
        ),
        LabelSays::Nothing => with_rate(
            Verdict::Unknown,
            "the label sheet says that the label sets no rate",
            rate,
        ),
    })
}

/// A label that is silent has one rate, and no least; an empty field may hide one.
fn against_least(label: &Label, rate: &Entered) -> Result<Option<Finding>> {
    Ok(match &label.rate_least {
        LabelSays::Nothing => None,
        LabelSays::Unfilled => Some(with_rate(
            Verdict::Unknown,
            "the label's least rate is not filled in on the label sheet; where the label gives one \
             rate and no range, say so there",
            rate,
        )),
        LabelSays::Value(least) => {
            let below = compare(rate, least)? == Ordering::Less;
            let reason = "the rate is below the label's least: it may not work";
            below.then(|| {
                with_rate(Verdict::Caution, reason, rate)
                    .with_limit(least.for_person(), Whose::Label)
            })
        }
    })
}

/// The chosen carrier against the label's least.
///
/// # Errors
/// When the carrier or the label's least is no volume per area, or the carrier is zero.
pub fn carrier_finding(label: &Label, carrier: &Entered) -> Result<Finding> {
    carrier
        .must_be(Dimension::VolumePerArea)
        .map_err(|e| e.of("carrier"))?;
    if carrier.is_zero() {
        return Err(RuleError::NotPositive {
            field: "carrier",
            given: carrier.for_person(),
        });
    }
    Ok(match &label.carrier_least {
        LabelSays::Value(least) => {
            least
                .must_be(Dimension::VolumePerArea)
                .map_err(|e| e.of("label's least carrier"))?;
            let (verdict, reason) = match carrier.compare(least)? {
                Ordering::Less => (
                    Verdict::DontTreat,
                    "there is less water than the label's least",
                ),
                _ => (Verdict::Clear, "the carrier is not below the label's least"),
            };
            with_rate(verdict, reason, carrier).with_limit(least.for_person(), Whose::Label)
        }
        LabelSays::Unfilled => with_rate(
            Verdict::Unknown,
            "the label's least carrier is not filled in on the label sheet",
            carrier,
        ),
        LabelSays::Nothing => with_rate(Verdict::Clear, "the label sets no least carrier", carrier),
    })
}

/// Sections so uncertain that the dose may be above the label's most.
pub(super) fn area_findings(dose: &Dose<'_>) -> Vec<Finding> {
    let unsure = |percent: f64| percent > CHANGE_FLAG_PERCENT;
    dose.input
        .sections
        .iter()
        .filter(|s| unsure(s.area.uncertainty_percent()))
        .map(|s| {
            let reason = format!(
                "{} may be smaller or larger than measured, and its dose with it: measure it again, \
                 or plan for the area less its uncertainty",
                s.name
            );
            Finding::new(Check::Rate, Verdict::Caution, reason)
                .with_value(format!("area ± {:.1} %", s.area.uncertainty_percent()))
                .with_limit(format!("± {CHANGE_FLAG_PERCENT} %"), Whose::Advice)
                .with_source(FLAG_SOURCE)
        })
        .collect()
}

/// What rounding does, where it takes the dose below the label's least or changes it by much.
pub(super) fn rounding_finding(dose: &Dose<'_>, worst_percent: f64) -> Result<Option<Finding>> {
    let value = format!("{worst_percent:+.1} %");
    if let Some(least) = dose.input.label.rate_least.value()
        && below_after(&dose.input.rate, worst_percent, least)?
        && compare(&dose.input.rate, least)? != Ordering::Less
    {
        let reason = "rounded to what the vessel shows, the dose falls below the label's least: use \
                      a finer measure";
        return Ok(Some(
            Finding::new(Check::Rate, Verdict::Caution, reason)
                .with_value(format!("{} {value}", dose.input.rate.for_person()))
                .with_limit(least.for_person(), Whose::Label),
        ));
    }
    let much = worst_percent.abs() > CHANGE_FLAG_PERCENT;
    Ok(much.then(|| {
        Finding::new(
            Check::Rate,
            Verdict::Caution,
            "rounding to what the vessel shows changes a dose by much: use a finer measure",
        )
        .with_value(value)
        .with_limit(format!("± {CHANGE_FLAG_PERCENT} %"), Whose::Advice)
        .with_source(FLAG_SOURCE)
    }))
}

fn below_after(rate: &Entered, change_percent: f64, least: &Entered) -> Result<bool> {
    let si = |e: &Entered| e.si(rate.dimension()).map(crate::quantity::to_f64);
    // A change of less than a millionth is how the numbers are written, not a dose.
    Ok(si(rate)? * (1.0 + change_percent / 100.0) < si(least)? * (1.0 - 1e-9))
}

fn compare(rate: &Entered, limit: &Entered) -> Result<Ordering> {
    // The label decides what kind is needed, so that the message names the entered rate first.
    rate.must_be(limit.dimension()).map_err(|e| e.of("rate"))?;
    rate.compare(limit)
}

fn with_rate(verdict: Verdict, reason: &str, rate: &Entered) -> Finding {
    Finding::new(Check::Rate, verdict, reason).with_value(rate.for_person())
}
