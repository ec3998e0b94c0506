//! Flow of a nozzle at another pressure: it goes with the pressure's square root.

use super::si_f64;
use crate::error::{Field, Result};
use crate::note::Note;
use crate::quantity::{Dimension, Entered, shown};
use crate::working::{Answer, Working};
use rust_decimal::Decimal;

const FORMULA: &str = "flow × √(other pressure / pressure)";
const SOURCE: &str = "flow through an orifice";

/// What a nozzle gives at another pressure.
///
/// ```
/// use sward_rules::{Entered, calibrate::flow_at_pressure};
/// let e = |t: &str| Entered::parse(t);
/// let flow = flow_at_pressure(&e("0.20 gal/min")?, &e("40 psi")?, &e("160 psi")?)?;
/// assert_eq!(flow.value.for_person(), "0.4 gal/min");
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a measure is zero or of the wrong kind.
pub fn flow_at_pressure(flow: &Entered, at: &Entered, other: &Entered) -> Result<Answer<Entered>> {
    let _ = si_f64(flow, Dimension::VolumePerTime, &Field::Flow)?;
    let from = si_f64(at, Dimension::Pressure, &Field::Pressure)?;
    let to = si_f64(other, Dimension::Pressure, &Field::OtherPressure)?;
    let value = scaled(flow, (to / from).sqrt())?;
    let working = Working::new(FORMULA, SOURCE)
        .input("flow", flow.for_person())
        .input("pressure", at.for_person())
        .input("other pressure", other.for_person())
        .note(Note::DropsChangeToo);
    Ok(working.gives(value))
}

/// The pressure at which a nozzle gives a flow that is wanted.
///
/// ```
/// use sward_rules::{Entered, calibrate::pressure_for_flow};
/// let e = |t: &str| Entered::parse(t);
/// let at = pressure_for_flow(&e("0.20 gal/min")?, &e("40 psi")?, &e("0.40 gal/min")?)?;
/// assert_eq!(at.value.for_person(), "160 psi");
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a measure is zero or of the wrong kind.
pub fn pressure_for_flow(
    flow: &Entered,
    at: &Entered,
    wanted: &Entered,
) -> Result<Answer<Entered>> {
    let now = si_f64(flow, Dimension::VolumePerTime, &Field::Flow)?;
    let then = si_f64(wanted, Dimension::VolumePerTime, &Field::WantedFlow)?;
    let _ = si_f64(at, Dimension::Pressure, &Field::Pressure)?;
    let value = scaled(at, (then / now).powi(2))?;
    let working = Working::new("pressure × (flow wanted / flow)²", SOURCE)
        .input("flow", flow.for_person())
        .input("pressure", at.for_person())
        .input("flow wanted", wanted.for_person())
        .note(Note::DropsChangeToo);
    Ok(working.gives(value))
}

/// An amount times a factor, to the digits that are shown.
fn scaled(amount: &Entered, factor: f64) -> Result<Entered> {
    Decimal::from_f64_retain(factor)
        .and_then(|factor| shown(amount.amount().checked_mul(factor)?, amount.unit()))
        .filter(|scaled| !scaled.is_zero())
        .ok_or_else(|| super::out_of_range(amount))
}
