//! The chosen rate and carrier against the label sheet, and what area and rounding do to them.
//!
//! Each answer is a finding; only a sheet that contradicts itself, or kinds that do not go
//! together, are errors.

use std::cmp::Ordering;

use super::amounts::{Dose, product_kind};
use crate::error::{Field, Result, RuleError};
use crate::finding::{Check, Finding, Reason, Shown, Source, Tenths, Verdict, Whose};
use crate::label::{Label, LabelSays};
use crate::quantity::{Dimension, Entered, Unit, near, positive};

/// From this many percent on, an uncertain area or a rounding is flagged (UMass Extension, Rotary
/// Spreader Calibration Procedures, accepts a rate within 5 %).
pub const CHANGE_FLAG_PERCENT: f64 = 5.0;

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
        && least.compare(most).map_err(|e| e.of(Field::LeastRate))? == Ordering::Greater
    {
        return Err(RuleError::LeastAboveMost {
            field: Field::Rate,
            least: least.for_person(),
            most: most.for_person(),
        });
    }
    let mut findings = vec![against_most(label, rate)?];
    findings.extend(against_least(label, rate)?);
    Ok(findings)
}

/// What a person has to answer for who starts at a rate, whatever rate was judged before: one above
/// the label's most (`DontTreat`), or one that cannot be compared with the label's (`Unknown`).
///
/// ```
/// use sward_rules::finding::Verdict;
/// use sward_rules::label::{Label, LabelSays, Method};
/// use sward_rules::plan::rate_to_answer_for;
/// use sward_rules::Entered;
///
/// let mut label = Label::unfilled(Method::Granule);
/// label.rate_most = LabelSays::Value(Entered::parse("2.5 lb/1000 ft2")?);
/// assert_eq!(rate_to_answer_for(&label, &Entered::parse("2 lb/1000 ft2")?), None);
/// let above = rate_to_answer_for(&label, &Entered::parse("25 lb/1000 ft2")?);
/// assert_eq!(above.map(|f| f.verdict), Some(Verdict::DontTreat));
/// let other_kind = rate_to_answer_for(&label, &Entered::parse("2 fl oz/1000 ft2")?);
/// assert_eq!(other_kind.map(|f| f.verdict), Some(Verdict::Unknown));
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
#[must_use]
pub fn rate_to_answer_for(label: &Label, rate: &Entered) -> Option<Finding> {
    match rate_findings(label, rate) {
        Ok(found) => found.into_iter().find(|f| f.verdict == Verdict::DontTreat),
        Err(_) => Some(with_rate(Verdict::Unknown, Reason::RateNotCompared, rate)),
    }
}

fn against_most(label: &Label, rate: &Entered) -> Result<Finding> {
    Ok(match &label.rate_most {
        LabelSays::Value(most) => {
            let (verdict, reason) = match compare(rate, most)? {
                Ordering::Greater => (Verdict::DontTreat, Reason::RateAboveMost),
                _ => (Verdict::Clear, Reason::RateWithinMost),
            };
            with_rate(verdict, reason, rate)
                .with_limit(Shown::Amount { amount: *most }, Whose::Label)
        }
        LabelSays::Unfilled => with_rate(Verdict::Unknown, Reason::RateEmpty, rate),
        LabelSays::Nothing => with_rate(Verdict::Unknown, Reason::LabelSetsNoRate, rate),
    })
}

/// A label that is silent has one rate, and no least; an empty field may hide one.
fn against_least(label: &Label, rate: &Entered) -> Result<Option<Finding>> {
    Ok(match &label.rate_least {
        LabelSays::Nothing => None,
        LabelSays::Unfilled => Some(with_rate(Verdict::Unknown, Reason::LeastRateEmpty, rate)),
        LabelSays::Value(least) => {
            let below = compare(rate, least)? == Ordering::Less;
            let reason = Reason::RateBelowLeast;
            below.then(|| {
                with_rate(Verdict::Caution, reason, rate)
                    .with_limit(Shown::Amount { amount: *least }, Whose::Label)
            })
        }
    })
}

/// The chosen carrier against the label's least.
///
/// # Errors
/// When the carrier or the label's least is no volume per area, or the carrier is zero.
pub fn carrier_finding(label: &Label, carrier: &Entered) -> Result<Finding> {
    positive(carrier, Dimension::VolumePerArea, &Field::Carrier)?;
    Ok(match &label.carrier_least {
        LabelSays::Value(least) => {
            least
                .must_be(Dimension::VolumePerArea)
                .map_err(|e| e.of(Field::LeastCarrier))?;
            let (verdict, reason) = match carrier.compare(least)? {
                Ordering::Less => (Verdict::DontTreat, Reason::CarrierBelowLeast),
                _ => (Verdict::Clear, Reason::CarrierEnough),
            };
            with_rate(verdict, reason, carrier)
                .with_limit(Shown::Amount { amount: *least }, Whose::Label)
        }
        LabelSays::Unfilled => with_rate(Verdict::Unknown, Reason::LeastCarrierEmpty, carrier),
        LabelSays::Nothing => with_rate(Verdict::Clear, Reason::LabelSetsNoCarrier, carrier),
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
            let percent = near(s.area.uncertainty_percent(), 1, Unit::PERCENT);
            let section = s.name.clone();
            Finding::new(
                Check::Rate,
                Verdict::Caution,
                Reason::AreaUnsure { section },
            )
            .with_value(Shown::AreaWithin { percent })
            .with_limit(flag(), Whose::Advice)
            .with_source(Source::SpreaderCalibration)
        })
        .collect()
}

/// What rounding does, where it takes the dose below the label's least or changes it by much.
pub(super) fn rounding_finding(dose: &Dose<'_>, worst_percent: f64) -> Result<Option<Finding>> {
    let change = Tenths::nearest(worst_percent);
    if let Some(least) = dose.input.label.rate_least.value()
        && below_after(&dose.input.rate, worst_percent, least)?
        && compare(&dose.input.rate, least)? != Ordering::Less
    {
        let amount = dose.input.rate;
        return Ok(Some(
            Finding::new(Check::Rate, Verdict::Caution, Reason::RoundedBelowLeast)
                .with_value(Shown::Changed { amount, change })
                .with_limit(Shown::Amount { amount: *least }, Whose::Label),
        ));
    }
    let much = worst_percent.abs() > CHANGE_FLAG_PERCENT;
    Ok(much.then(|| {
        Finding::new(Check::Rate, Verdict::Caution, Reason::RoundingChangesMuch)
            .with_value(Shown::Change { change })
            .with_limit(flag(), Whose::Advice)
            .with_source(Source::SpreaderCalibration)
    }))
}

/// [`CHANGE_FLAG_PERCENT`] as a limit.
pub(super) fn flag() -> Shown {
    Shown::Within {
        percent: near(CHANGE_FLAG_PERCENT, 0, Unit::PERCENT),
    }
}

fn below_after(rate: &Entered, change_percent: f64, least: &Entered) -> Result<bool> {
    let si = |e: &Entered| e.si(rate.dimension()).map(crate::quantity::to_f64);
    // A change of less than a millionth is how the numbers are written, not a dose.
    Ok(si(rate)? * (1.0 + change_percent / 100.0) < si(least)? * (1.0 - 1e-9))
}

fn compare(rate: &Entered, limit: &Entered) -> Result<Ordering> {
    // The label decides what kind is needed, so that the message names the entered rate first.
    rate.must_be(limit.dimension())
        .map_err(|e| e.of(Field::Rate))?;
    rate.compare(limit)
}

fn with_rate(verdict: Verdict, reason: Reason, rate: &Entered) -> Finding {
    Finding::new(Check::Rate, verdict, reason).with_value(Shown::Amount { amount: *rate })
}
