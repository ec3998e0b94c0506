//! A tank filled for several yards: product by the vessel, rounded down, and water up to the mark.

use rust_decimal::Decimal;
use serde::Serialize;

use super::{SPARE_DIGITS, times_over};
use crate::error::{Field, Result, RuleError};
use crate::finding::{Finding, Tenths, Verdict, sum};
use crate::label::Label;
use crate::note::{Note, Rounding};
use crate::plan::amounts::product_kind;
use crate::plan::vessel::Measure;
use crate::plan::{Amount, Vessel, carrier_finding, rate_findings};
use crate::quantity::{Dimension, Entered, Unit, out_of_range, positive, shown, shown_down};
use crate::working::{Answer, Working};

/// What is to be mixed.
#[derive(Debug, Clone)]
pub struct TankFill<'a> {
    /// The label sheet.
    pub label: &'a Label,
    /// Product per area.
    pub rate: Entered,
    /// Finished mix per area.
    pub carrier: Entered,
    /// What the tank holds.
    pub tank: Entered,
    /// Finished mix wanted; none fills the tank.
    pub mix: Option<Entered>,
    /// What the product is measured out with.
    pub vessel: &'a Vessel,
}

/// What goes into the tank.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Filled {
    /// Product to measure out, rounded down.
    pub product: Amount,
    /// Finished mix: fill with water up to this, product included.
    pub mix: Entered,
    /// Water in it, where the product is a liquid and takes room of its own.
    pub water: Option<Entered>,
    /// Area that it covers at the planned carrier, rounded down.
    pub covers: Entered,
    /// The rate that the product measured out gives at the planned carrier.
    pub rate: Entered,
    /// What the label says to rate and carrier.
    pub findings: Vec<Finding>,
}

impl Filled {
    /// The findings in one word.
    pub fn verdict(&self) -> Verdict {
        sum(&self.findings)
    }
}

/// Works out one tank fill. Product is always rounded down: a rounding never raises the dose.
///
/// ```
/// # use sward_rules::{Entered, label::*, mix::*, plan::Vessel};
/// # let e = |t: &str| Entered::parse(t).unwrap();
/// let mut label = Label::unfilled(Method::Drench);
/// label.rate_most = LabelSays::Value(e("0.6 fl oz/1000 ft2"));
/// let fill = tank_fill(&TankFill {
///     label: &label,
///     rate: e("0.6 fl oz/1000 ft2"),
///     carrier: e("2 gal/1000 ft2"),
///     tank: e("50 gal"),
///     mix: Some(e("25 gal")),
///     vessel: &Vessel { name: "cup".into(), least_step: e("1 fl oz") },
/// })?.value;
/// assert_eq!(fill.product.measured_out, e("7 fl oz"));
/// assert_eq!(fill.covers, e("12500 ft2"));
/// assert_eq!(fill.rate, e("0.56 fl oz/1000 ft2"));
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a value is of the wrong kind or zero, the mix does not fit the tank, the product alone fills
/// it, or the vessel is too coarse.
pub fn tank_fill(input: &TankFill<'_>) -> Result<Answer<Filled>> {
    let kind = product_kind(&input.rate)?;
    let tank_m3 = positive(&input.tank, Dimension::Volume, &Field::Tank)?;
    let mix = input.mix.unwrap_or(input.tank);
    let mix_m3 = positive(&mix, Dimension::Volume, &Field::FinishedMix)?;
    if mix_m3 > tank_m3 {
        return Err(RuleError::MixOverTank {
            mix: mix.for_person(),
            tank: input.tank.for_person(),
        });
    }
    let carrier_m = positive(&input.carrier, Dimension::VolumePerArea, &Field::Carrier)?;
    let measure = Measure::new(input.vessel, kind)?;
    let range = || out_of_range(&mix);
    let covers_m2 = times_over(mix_m3, Decimal::ONE, carrier_m).ok_or_else(range)?;
    let exact = input
        .rate
        .over_area(covers_m2, measure.unit())
        .ok_or_else(range)?;
    let measured = measure.measure_out(exact, None)?;
    let product = measure.amount(exact, measured)?;
    let rate = times_over(input.rate.amount(), measured, exact)
        .and_then(|amount| shown(amount, input.rate.unit()))
        .ok_or_else(range)?;
    let mut findings = rate_findings(input.label, &rate)?;
    findings.push(carrier_finding(input.label, &input.carrier)?);
    let working = Working::new("rate × finished mix ÷ carrier", "arithmetic")
        .input("rate", input.rate.for_person())
        .input("finished mix", mix.for_person())
        .input("carrier", input.carrier.for_person())
        .input("step of the vessel", input.vessel.least_step.for_person())
        .rounded(Rounding::WholeStepsBy {
            change: Tenths::nearest(product.change_percent),
        })
        .note(Note::FinishedMix)
        .note(Note::LabelOrderOfMixing);
    Ok(working.gives(Filled {
        water: water(&mix, &product.measured_out)?,
        covers: area_down(covers_m2).ok_or_else(range)?,
        product,
        mix,
        rate,
        findings,
    }))
}

/// Water beside a liquid product; a dry one takes up no room that a person would measure.
fn water(mix: &Entered, product: &Entered) -> Result<Option<Entered>> {
    if product.dimension() != Dimension::Volume {
        return Ok(None);
    }
    let range = || out_of_range(mix);
    let product_in_it = product.in_unit(mix.unit()).ok_or_else(range)?;
    let water = mix.amount() - product_in_it;
    if water <= Decimal::ZERO {
        return Err(RuleError::ProductFillsTank {
            product: product.for_person(),
            capacity: mix.for_person(),
        });
    }
    shown(water, mix.unit()).ok_or_else(range).map(Some)
}

/// Square feet, rounded down.
pub(super) fn area_down(area_m2: Decimal) -> Option<Entered> {
    let square_feet = area_m2.checked_div(Decimal::new(9_290_304, 8))?;
    shown_down(square_feet, Unit::SQUARE_FOOT, SPARE_DIGITS)
}
