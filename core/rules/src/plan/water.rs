//! Water for watering in: from a depth to a volume.
//!
//! Whether to water in at all, and how deep, is the label's word; there is no default here.

use rust_decimal::Decimal;

use crate::error::{Field, Result, RuleError};
use crate::measure::AreaEstimate;
use crate::quantity::{Dimension, Entered, Unit};
use crate::working::{Answer, Working};

/// Deepest watering taken, in metres.
const DEPTH_MOST_M: Decimal = Decimal::ONE;

/// The volume of water, in gallons, that covers an area to a depth.
///
/// ```
/// use sward_rules::{Entered, measure::AreaEstimate, plan::watering_in_volume};
/// let area = AreaEstimate::stated(&Entered::parse("1000 ft2")?, &Entered::parse("10 ft2")?)?;
/// let water = watering_in_volume(&Entered::parse("0.5 in")?, &area)?;
/// assert_eq!(water.value.for_person(), "311.688312 gal");
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When the depth is no length, zero, or more than a metre.
pub fn watering_in_volume(depth: &Entered, area: &AreaEstimate) -> Result<Answer<Entered>> {
    let depth_m = depth
        .si(Dimension::Length)
        .map_err(|e| e.of(Field::WateringDepth))?;
    if depth_m.is_zero() {
        let given = depth.for_person();
        return Err(RuleError::NotPositive {
            field: Field::WateringDepth,
            given,
        });
    }
    let out_of_range = || RuleError::OutOfRange {
        given: depth.for_person(),
    };
    if depth_m > DEPTH_MOST_M {
        return Err(out_of_range());
    }
    let area_m2 = Decimal::from_f64_retain(area.square_metres()).ok_or_else(out_of_range)?;
    // Within a metre over any lawn the product stays far from the limits of a decimal.
    let volume = depth_m
        .checked_mul(area_m2.round_dp(9))
        .and_then(|m3| Entered::from_si(m3, Unit::GALLON))
        .ok_or_else(out_of_range)?;
    Ok(Working::new("depth × area", "geometry")
        .input("depth", depth.for_person())
        .input("area", area.for_person())
        .gives(volume))
}
