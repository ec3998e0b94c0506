//! Spots and mounds: a dose for each, what they need together, and what that is over the whole area.
//!
//! A dose for each spot does not free anybody from the label's most over the area, where it has one.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use serde::Serialize;

use super::rates::{lawn, not_allowed};
use super::times_over;
use crate::error::{Allowed, Field, Result, RuleError};
use crate::finding::{Check, Finding, Reason, Shown, Verdict, Whose, sum};
use crate::label::LabelSays;
use crate::measure::AreaEstimate;
use crate::note::{Note, Rounding};
use crate::plan::vessel::Measure;
use crate::plan::{Amount, Vessel};
use crate::quantity::{Dimension, Entered, Unit, exact, out_of_range, positive, shown, shown_up};
use crate::working::{Answer, Working};

/// Most spots in one job.
pub const SPOTS_MOST: u32 = 100_000;

/// Spots to treat.
#[derive(Debug, Clone)]
pub struct SpotJob<'a> {
    /// Product for each spot, where it goes on as it is, such as `2 tbsp`; or product per volume of
    /// mix, such as `0.5 fl oz/gal`, where each spot is drenched.
    pub dose: Entered,
    /// Finished mix for each spot, where it is drenched.
    pub mix: Option<Entered>,
    /// The most product the label allows for each spot.
    pub spot_most: LabelSays<Entered>,
    /// The most product the label allows per area.
    pub area_most: LabelSays<Entered>,
    /// How many spots.
    pub count: u32,
    /// The whole area they lie in.
    pub area: AreaEstimate,
    /// What the product for one spot is measured out with.
    pub vessel: &'a Vessel,
}

/// What the spots need.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SpotPlan {
    /// Product for each spot, rounded down to what the vessel shows; for a drench the product for
    /// all spots' mix together.
    pub measured: Amount,
    /// Product for all spots.
    pub product: Entered,
    /// Finished mix for all spots, where they are drenched, rounded up.
    pub mix: Option<Entered>,
    /// What all spots put on over the whole area.
    pub over_area: Entered,
    /// How many spots of this dose the label's most over the area allows, rounded down; none where
    /// that is not known.
    pub spots_most: Option<u32>,
    /// What the label says to it.
    pub findings: Vec<Finding>,
}

impl SpotPlan {
    /// The findings in one word.
    pub fn verdict(&self) -> Verdict {
        sum(&self.findings)
    }
}

/// Works out spots or mounds.
///
/// ```
/// # use sward_rules::{Entered, Verdict, label::LabelSays, measure::AreaEstimate, mix::*, plan::Vessel};
/// # let e = |t: &str| Entered::parse(t).unwrap();
/// let plan = spots(&SpotJob {
///     dose: e("0.5 oz"),
///     mix: None,
///     spot_most: LabelSays::Value(e("0.5 oz")),
///     area_most: LabelSays::Value(e("1 lb/acre")),
///     count: 20,
///     area: AreaEstimate::stated(&e("1 acre"), &e("0 ft2"))?,
///     vessel: &Vessel { name: "scale".into(), least_step: e("0.1 oz") },
/// })?.value;
/// assert_eq!(plan.product, e("10 oz"));
/// assert_eq!((plan.spots_most, plan.verdict()), (Some(32), Verdict::Clear));
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a value is of the wrong kind or zero, there is no spot or more than [`SPOTS_MOST`], or the
/// vessel is too coarse for one dose.
pub fn spots(job: &SpotJob<'_>) -> Result<Answer<SpotPlan>> {
    if job.count == 0 || job.count > SPOTS_MOST {
        return Err(RuleError::NotAllowed {
            field: Field::Spots,
            given: job.count.to_string(),
            allowed: Allowed::SpotCount,
        });
    }
    let count = Decimal::from(job.count);
    let (each, kind) = product_each(job)?;
    let range = || out_of_range(&job.dose);
    let all = each.checked_mul(count).ok_or_else(range)?;
    let measure = Measure::new(job.vessel, kind)?;
    let unit_si = Entered::new(Decimal::ONE, measure.unit())?.si(kind)?;
    let in_vessel = |si: Decimal| times_over(si, Decimal::ONE, unit_si).ok_or_else(range);
    // A drench is mixed for all spots; anything else is measured out spot by spot.
    let drench = job.mix.is_some();
    let exact = in_vessel(if drench { all } else { each })?;
    let measured = measure.measure_out(exact, None)?;
    let put_on = if drench {
        measured
    } else {
        measured.checked_mul(count).ok_or_else(range)?
    };
    let put_on_si = put_on.checked_mul(unit_si).ok_or_else(range)?;
    let each_on = put_on_si.checked_div(count).ok_or_else(range)?;
    let (_, sure_m2) = lawn(&job.area)?;
    let over_area = over_area(job, put_on_si, unit_si, measure.unit())?;
    let mix = job.mix.map(|mix| {
        let all = mix.amount().checked_mul(count);
        all.and_then(|all| shown_up(all, mix.unit(), super::SPARE_DIGITS))
            .ok_or_else(range)
    });
    let (area_finding, spots_most) = against_area(job, kind, (put_on_si, each_on), sure_m2)?;
    let findings = vec![
        against_spot(job, kind, each_on, measure.unit(), unit_si)?,
        area_finding.with_value(Shown::Amount { amount: over_area }),
    ];
    let mut working = Working::new("dose for each spot × spots", "arithmetic")
        .input("dose for each spot", job.dose.for_person())
        .input("spots", count)
        .input("area", job.area.for_person())
        .input("step of the vessel", job.vessel.least_step.for_person())
        .rounded(Rounding::WholeSteps)
        .note(Note::MostHoldsForSpots);
    if let Some(mix) = &job.mix {
        working = working.input("mix for each spot", mix.for_person());
    }
    Ok(working.gives(SpotPlan {
        measured: measure.amount(exact, measured)?,
        product: measure.as_measured(put_on)?,
        mix: mix.transpose()?,
        over_area,
        spots_most,
        findings,
    }))
}

/// Product for one spot in SI, and whether it is a weight or a volume.
fn product_each(job: &SpotJob<'_>) -> Result<(Decimal, Dimension)> {
    let kind = job.dose.dimension();
    match (kind, &job.mix) {
        (Dimension::Mass | Dimension::Volume, None) => {
            Ok((positive(&job.dose, kind, &Field::SpotDose)?, kind))
        }
        (Dimension::MassPerVolume | Dimension::VolumePerVolume, Some(mix)) => {
            let ratio = positive(&job.dose, kind, &Field::SpotDose)?;
            let mix_m3 = positive(mix, Dimension::Volume, &Field::SpotMix)?;
            let each = ratio.checked_mul(mix_m3);
            let kind = match kind {
                Dimension::MassPerVolume => Dimension::Mass,
                _ => Dimension::Volume,
            };
            Ok((each.ok_or_else(|| out_of_range(&job.dose))?, kind))
        }
        (_, None) => Err(not_allowed(
            &job.dose,
            Field::SpotDose,
            Allowed::ProductKind,
        )),
        (_, Some(_)) => Err(not_allowed(
            &job.dose,
            Field::SpotDose,
            Allowed::MixRatioKind,
        )),
    }
}

fn over_area(
    job: &SpotJob<'_>,
    put_on_si: Decimal,
    unit_si: Decimal,
    unit: Unit,
) -> Result<Entered> {
    let (area_m2, _) = lawn(&job.area)?;
    let range = || out_of_range(&job.dose);
    let acre_m2 = Decimal::new(40_468_564_224, 7);
    let per_acre = times_over(put_on_si, acre_m2, area_m2).ok_or_else(range)?;
    let over_area = times_over(per_acre, Decimal::ONE, unit_si)
        .zip(unit.per(Unit::ACRE))
        .and_then(|(amount, unit)| shown(amount, unit))
        .ok_or_else(range)?;
    // Beside the label's most a person wants the label's own unit.
    let in_labels = |most: &Entered| over_area.convert(most.unit()).ok();
    Ok(job
        .area_most
        .value()
        .and_then(in_labels)
        .unwrap_or(over_area))
}

fn against_spot(
    job: &SpotJob<'_>,
    kind: Dimension,
    each_on: Decimal,
    unit: Unit,
    unit_si: Decimal,
) -> Result<Finding> {
    let amount = times_over(each_on, Decimal::ONE, unit_si)
        .and_then(|amount| shown(amount, unit))
        .ok_or_else(|| out_of_range(&job.dose))?;
    let value = Shown::Amount { amount };
    let most = match &job.spot_most {
        LabelSays::Value(most) => most,
        LabelSays::Unfilled => {
            return Ok(Finding::unknown(Check::Rate, Reason::RateEmpty).with_value(value));
        }
        LabelSays::Nothing => {
            return Ok(Finding::unknown(Check::Rate, Reason::LabelSetsNoRate).with_value(value));
        }
    };
    let most_si = most.si(kind).map_err(|e| e.of(Field::SpotDose))?;
    let (verdict, reason) = if each_on > most_si {
        (Verdict::DontTreat, Reason::RateAboveMost)
    } else {
        (Verdict::Clear, Reason::RateWithinMost)
    };
    Ok(Finding::new(Check::Rate, verdict, reason)
        .with_value(value)
        .with_limit(Shown::Amount { amount: *most }, Whose::Label))
}

/// The label's most over the area, held against what is there for sure of it.
fn against_area(
    job: &SpotJob<'_>,
    kind: Dimension,
    (put_on_si, each_on): (Decimal, Decimal),
    sure_m2: Decimal,
) -> Result<(Finding, Option<u32>)> {
    let LabelSays::Value(most) = &job.area_most else {
        return Ok((Finding::unknown(Check::Rate, Reason::MostNotOnSheet), None));
    };
    let limit = Shown::Amount { amount: *most };
    let per_area = match kind {
        Dimension::Mass => Dimension::MassPerArea,
        _ => Dimension::VolumePerArea,
    };
    let most_si = most.si(per_area).map_err(|e| e.of(Field::Rate))?;
    let range = || out_of_range(most);
    let allowed = most_si.checked_mul(sure_m2).ok_or_else(range)?;
    let spots_most = times_over(allowed, Decimal::ONE, each_on).ok_or_else(range)?;
    let spots_most = spots_most.floor().min(Decimal::from(SPOTS_MOST)).to_u32();
    // What is equal by hand is equal here.
    let is_above = exact(put_on_si).ok_or_else(range)? > exact(allowed).ok_or_else(range)?;
    let (verdict, reason) = if is_above {
        (Verdict::DontTreat, Reason::SpotsAboveMost)
    } else {
        (Verdict::Clear, Reason::SpotsWithinMost)
    };
    let finding = Finding::new(Check::Rate, verdict, reason).with_limit(limit, Whose::Label);
    Ok((finding, spots_most))
}
