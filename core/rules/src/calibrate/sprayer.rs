//! A sprayer's rate, by one of three ways: flow, speed and width; an area timed and a catch; or
//! the 128th of an acre.
//!
//! What each nozzle gives is in [`super::nozzles`].

use rust_decimal::Decimal;
use serde::Serialize;

use super::{in_unit, out_of_range, positive};
use crate::error::{Field, Result};
use crate::note::Note;
use crate::quantity::{Dimension, Entered, Unit, whole};
use crate::working::{Answer, Working};

/// As many fluid ounces as a gallon has.
const OUNCES_PER_GALLON: Decimal = Decimal::from_parts(128, 0, 0, false, 0);

/// A sprayer's rate in both of the trade's units.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SprayRate {
    /// Gallons per acre.
    pub per_acre: Entered,
    /// Gallons per 1000 square feet.
    pub per_1000_ft2: Entered,
}

/// A catch, and an area that was timed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TimedCatch {
    /// The area that was sprayed.
    pub area: Entered,
    /// How long that took.
    pub area_time: Entered,
    /// What was caught in a bucket afterwards.
    pub caught: Entered,
    /// For how long it was caught.
    pub catch_time: Entered,
}

/// A rate that was worked out or copied, in gallons per acre and per 1000 square feet.
///
/// ```
/// use sward_rules::{Entered, calibrate::spray_rate};
/// let rate = spray_rate(&Entered::parse("40 gal/acre")?)?;
/// assert_eq!(rate.per_1000_ft2.for_person(), "0.918273646 gal/1000 ft²");
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When it is no volume per area, or zero.
pub fn spray_rate(rate: &Entered) -> Result<SprayRate> {
    let si = positive(rate, Dimension::VolumePerArea, &Field::Carrier)?;
    of_si(Some(si), rate)
}

/// The rate of a nozzle, or of a whole boom, by its flow, speed and width: gallons an acre are
/// 5940 × gallons a minute / (mph × inches), with 495 in feet.
///
/// The width is the nozzles' spacing for the flow of one, the boom's for that of all.
///
/// ```
/// use sward_rules::{Entered, calibrate::boom_rate};
/// let e = |t: &str| Entered::parse(t);
/// let rate = boom_rate(&e("0.20 gal/min")?, &e("3 mph")?, &e("20 in")?)?;
/// assert_eq!(rate.value.per_acre.for_person(), "19.8 gal/acre");
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a measure is zero or of the wrong kind.
pub fn boom_rate(flow: &Entered, speed: &Entered, width: &Entered) -> Result<Answer<SprayRate>> {
    let flow_si = positive(flow, Dimension::VolumePerTime, &Field::Flow)?;
    let speed_si = positive(speed, Dimension::Speed, &Field::Speed)?;
    let width_si = positive(width, Dimension::Length, &Field::SprayWidth)?;
    let si = speed_si
        .checked_mul(width_si)
        .and_then(|area_a_second| flow_si.checked_div(area_a_second));
    let working = Working::new(
        "flow / (speed × width): 5940 × gal/min / (mph × in), 495 in feet",
        "University of Florida, IFAS Extension, WG013",
    )
    .input("flow", flow.for_person())
    .input("speed", speed.for_person())
    .input("width", width.for_person())
    .note(Note::TriedWithWater);
    Ok(working.gives(of_si(si, flow)?))
}

/// The rate of a hose-end or backpack sprayer: an area is timed, then the spray is caught.
///
/// ```
/// use sward_rules::{Entered, calibrate::*};
/// let e = |t: &str| Entered::parse(t).unwrap();
/// let run = TimedCatch {
///     area: e("250 ft2"), area_time: e("20 s"), caught: e("1.25 gal"), catch_time: e("20 s"),
/// };
/// assert_eq!(timed_rate(&run)?.value.per_1000_ft2.for_person(), "5 gal/1000 ft²");
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a measure is zero or of the wrong kind.
pub fn timed_rate(run: &TimedCatch) -> Result<Answer<SprayRate>> {
    let (si, working) = timed(run)?;
    Ok(working.gives(of_si(si, &run.caught)?))
}

/// Volume per area by an area timed and a catch, in SI; none where it cannot be written.
pub(crate) fn timed(run: &TimedCatch) -> Result<(Option<Decimal>, Working)> {
    let area = positive(&run.area, Dimension::Area, &Field::TestArea)?;
    let area_time = positive(&run.area_time, Dimension::Time, &Field::AreaTime)?;
    let caught = positive(&run.caught, Dimension::Volume, &Field::WaterCaught)?;
    let catch_time = positive(&run.catch_time, Dimension::Time, &Field::CatchTime)?;
    let si = caught.checked_mul(area_time).and_then(|volume_time| {
        let area_time = area.checked_mul(catch_time)?;
        volume_time.checked_div(area_time)
    });
    let working = Working::new(
        "caught × time for the area / (time of the catch × area)",
        "Pesticide Environmental Stewardship, Hose-end Sprayer Calibration",
    )
    .input("area", run.area.for_person())
    .input("time for the area", run.area_time.for_person())
    .input("caught", run.caught.for_person())
    .input("time of the catch", run.catch_time.for_person())
    .note(Note::SteadyFlow)
    .note(Note::TriedWithWater);
    Ok((si, working))
}

/// How far to go so that one nozzle covers the 128th of an acre: the fluid ounces caught in that
/// time are then gallons an acre.
///
/// ```
/// use sward_rules::{Entered, calibrate::acre_128th_course};
/// let course = acre_128th_course(&Entered::parse("20 in")?)?;
/// assert_eq!(course.value.for_person(), "204.1875 ft");
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When the spacing is zero or no length.
pub fn acre_128th_course(spacing: &Entered) -> Result<Answer<Entered>> {
    let spacing_si = positive(spacing, Dimension::Length, &Field::SprayWidth)?;
    let si = (acre_m2()? / OUNCES_PER_GALLON).checked_div(spacing_si);
    let course = in_unit(si, Unit::FOOT, spacing)?;
    let working = Working::new(
        "acre / 128 / spacing of the nozzles",
        "Ohio State University, Bulletin 817",
    )
    .input("spacing", spacing.for_person());
    Ok(working.gives(course))
}

/// The rate by what one nozzle gave while the 128th of an acre was covered.
///
/// ```
/// use sward_rules::{Entered, calibrate::acre_128th_rate};
/// let rate = acre_128th_rate(&Entered::parse("40 fl oz")?)?;
/// assert_eq!(rate.value.per_acre.for_person(), "40 gal/acre");
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When the catch is zero or no volume.
pub fn acre_128th_rate(caught: &Entered) -> Result<Answer<SprayRate>> {
    let caught_si = positive(caught, Dimension::Volume, &Field::WaterCaught)?;
    let acre = acre_m2()?;
    let si = caught_si
        .checked_mul(OUNCES_PER_GALLON)
        .and_then(|volume| volume.checked_div(acre));
    let working = Working::new(
        "caught over the 128th of an acre",
        "Ohio State University, Bulletin 817",
    )
    .input("caught", caught.for_person())
    .note(Note::TriedWithWater);
    Ok(working.gives(of_si(si, caught)?))
}

fn acre_m2() -> Result<Decimal> {
    whole(1, Unit::ACRE).si(Dimension::Area)
}

fn of_si(si: Option<Decimal>, given: &Entered) -> Result<SprayRate> {
    let rate = SprayRate {
        per_acre: in_unit(si, Unit::GALLON_PER_ACRE, given)?,
        per_1000_ft2: in_unit(si, Unit::GALLON_PER_1000_SQUARE_FEET, given)?,
    };
    // A rate that is shown as nothing would be no rate.
    if rate.per_acre.is_zero() || rate.per_1000_ft2.is_zero() {
        return Err(out_of_range(given));
    }
    Ok(rate)
}
