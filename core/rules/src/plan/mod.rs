//! How much product and water a yard takes, load by load and pass by pass.
//!
//! Amounts to measure out are multiples of what the vessel shows, and never above the label's
//! most. Whether to treat at all is for the findings together, not for this module alone.

use rust_decimal::Decimal;
use serde::Serialize;

use crate::error::{Field, Result, RuleError};
use crate::finding::{Finding, Verdict, sum};
use crate::label::{Label, Method};
use crate::measure::AreaEstimate;
use crate::quantity::Entered;
use crate::working::Answer;

pub(crate) mod amounts;
mod half_way;
mod ingredients;
mod loads;
mod passes;
mod rate;
mod rest;
mod swath;
pub(crate) mod vessel;
mod water;

pub use half_way::{HalfWay, HalfWayResult, half_way_check};
pub use ingredients::IngredientDose;
pub use loads::{LOADS_MOST, Load};
pub use passes::{PassPlan, Passes};
pub use rate::{CHANGE_FLAG_PERCENT, carrier_finding, rate_findings, rate_to_answer_for};
pub use rest::{Rest, RestNeeds, for_the_rest};
pub use swath::{SettingUse, SettingUsed, TimesOver, setting_used};
pub use vessel::measure_out;
pub use water::watering_in_volume;

use amounts::Dose;

/// Most sections in one plan.
pub const SECTIONS_MOST: usize = 200;

/// What a plan is made from.
#[derive(Debug, Clone)]
pub struct PlanInput<'a> {
    /// The sections to treat.
    pub sections: &'a [Section],
    /// The label sheet.
    pub label: &'a Label,
    /// The chosen rate, a weight or a volume of product per area.
    pub rate: Entered,
    /// Finished mix per area, where the method puts the product on in water.
    pub carrier: Option<Entered>,
    /// What the tank holds, or without carrier the hopper.
    pub capacity: Entered,
    /// What the product is measured out with.
    pub vessel: &'a Vessel,
    /// In how many passes.
    pub passes: Passes,
    /// Working width of the spreader or boom, if known.
    pub swath: Option<Entered>,
    /// Which area to plan for.
    pub basis: AreaBasis,
}

/// A section with its area.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Section {
    /// Its name in the yard.
    pub name: String,
    /// Its area.
    pub area: AreaEstimate,
}

/// What the product is measured out with.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Vessel {
    /// What the crew calls it, such as "kitchen scale".
    pub name: String,
    /// The least step that can be read on it.
    pub least_step: Entered,
}

/// Which area a plan is for. An uncertain area may lower a dose; it never raises one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum AreaBasis {
    /// The best estimate.
    #[default]
    Best,
    /// The best estimate less one standard deviation.
    LessUncertainty,
}

/// A plan: what to measure out, and what the label says to it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Plan {
    /// Product for all sections.
    pub product: Answer<Amount>,
    /// Finished mix for all sections, where there is a carrier.
    pub carrier: Option<Answer<Entered>>,
    /// Each section by itself.
    pub sections: Vec<SectionPlan>,
    /// The loads in order; their product sums exactly to what is measured out in all.
    pub loads: Answer<Vec<Load>>,
    /// Each pass.
    pub passes: Answer<PassPlan>,
    /// Active ingredients per area.
    pub ingredients: Vec<Answer<IngredientDose>>,
    /// What the label says to rate and carrier, and what the rounding does.
    pub findings: Vec<Finding>,
}

impl Plan {
    /// The findings in one word.
    pub fn verdict(&self) -> Verdict {
        sum(&self.findings)
    }
}

/// An amount to measure out.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Amount {
    /// As worked out.
    pub exact: Entered,
    /// As the vessel can show it.
    pub measured_out: Entered,
    /// What rounding does to the dose, in percent; below zero when less goes on.
    pub change_percent: f64,
}

/// One section's share.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SectionPlan {
    /// Its name.
    pub name: String,
    /// The area planned for, as measured.
    pub area: AreaEstimate,
    /// Product as worked out.
    pub product: Answer<Entered>,
    /// Product to measure out for it, where it goes on dry; a mix is measured by the load.
    pub measured_out: Option<Amount>,
    /// Finished mix, where there is a carrier.
    pub carrier: Option<Entered>,
}

/// Works out a plan.
///
/// ```
/// # use sward_rules::{Entered, label::*, measure::AreaEstimate, plan::*, Verdict};
/// # let e = |t: &str| Entered::parse(t).unwrap();
/// # let label = Label { product: "Example".into(), registration: "000-0".into(),
/// #   method: Method::Granule, ingredients: vec![], rate_least: LabelSays::Nothing,
/// #   rate_most: LabelSays::Value(e("2.5 lb/1000 ft2")), carrier_least: LabelSays::Nothing,
/// #   wind_most: LabelSays::Unfilled, rain_free: LabelSays::Unfilled,
/// #   temperature_least: LabelSays::Unfilled, temperature_most: LabelSays::Unfilled,
/// #   keep_off: KeepOffTerms::default(), watering_in: LabelSays::Unfilled,
/// #   repeat_after: LabelSays::Unfilled };
/// let area = AreaEstimate::stated(&e("12345 ft2"), &e("100 ft2"))?;
/// let plan = plan(&PlanInput {
///     sections: &[Section { name: "front".into(), area }],
///     label: &label,
///     rate: e("2.5 lb/1000 ft2"),
///     carrier: None,
///     capacity: e("20 lb"),
///     vessel: &Vessel { name: "scale".into(), least_step: e("0.1 lb") },
///     passes: Passes::One,
///     swath: None,
///     basis: AreaBasis::Best,
/// })?;
/// assert_eq!(plan.product.value.exact.for_person(), "30.8625 lb");
/// assert_eq!(plan.product.value.measured_out.for_person(), "30.8 lb");
/// assert_eq!(plan.verdict(), Verdict::Clear);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a value is of the wrong kind, zero or absurd, the label sheet contradicts itself, carrier
/// and method do not go together, or the vessel is too coarse for the job.
pub fn plan(input: &PlanInput<'_>) -> Result<Plan> {
    check_sections(input.sections)?;
    check_carrier(input)?;
    let mut findings = rate_findings(input.label, &input.rate)?;
    if let Some(carrier) = &input.carrier {
        findings.push(carrier_finding(input.label, carrier)?);
    }
    let dose = Dose::new(input)?;
    let sections = dose.sections()?;
    let loads = match &input.carrier {
        Some(carrier) => loads::of_mix(&dose, carrier)?,
        None => loads::of_hopper(&dose, &sections)?,
    };
    let measured: Decimal = loads.value.iter().map(|l| l.product.amount()).sum();
    let product = dose.total(measured)?;
    findings.extend(rate::area_findings(&dose));
    let parts = worst_change(&sections, &loads.value, product.value.change_percent);
    findings.extend(rate::rounding_finding(&dose, parts)?);
    Ok(Plan {
        carrier: dose.carrier_total()?,
        passes: passes::plan(&dose, &product.value)?,
        ingredients: ingredients::doses(input.label, &input.rate)?,
        product,
        sections,
        loads,
        findings,
    })
}

fn check_sections(sections: &[Section]) -> Result<()> {
    if sections.is_empty() {
        return Err(RuleError::NoSections);
    }
    if sections.len() > SECTIONS_MOST {
        let (count, limit) = (sections.len(), SECTIONS_MOST);
        return Err(RuleError::TooMany {
            field: Field::Plan,
            count,
            limit,
        });
    }
    for (index, section) in sections.iter().enumerate() {
        if sections[..index].iter().any(|s| s.name == section.name) {
            return Err(RuleError::SameName {
                name: section.name.clone(),
            });
        }
    }
    Ok(())
}

fn check_carrier(input: &PlanInput<'_>) -> Result<()> {
    let dry = matches!(input.label.method, Method::Granule | Method::Bait);
    match (&input.carrier, dry) {
        (Some(carrier), true) => Err(RuleError::CarrierForDry {
            given: carrier.for_person(),
        }),
        (None, false) => Err(RuleError::CarrierNeeded),
        _ => Ok(()),
    }
}

/// The largest change by rounding in any part, in size.
fn worst_change(sections: &[SectionPlan], loads: &[Load], total: f64) -> f64 {
    let sections = sections
        .iter()
        .filter_map(|s| Some(s.measured_out.as_ref()?.change_percent));
    let loads = loads.iter().filter_map(|l| l.change_percent);
    sections.chain(loads).fold(
        total,
        |worst, c| if c.abs() > worst.abs() { c } else { worst },
    )
}

#[cfg(test)]
mod tests;
