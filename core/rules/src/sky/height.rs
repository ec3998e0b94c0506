//! The height at which wind was measured: near the grass it blows slower than at 10 m, where
//! weather reports, and some labels, take it.
//!
//! A profile is an estimate. It may raise a wind, and never lowers one.

use uom::si::f64::{Length, Velocity};
use uom::si::length::meter;
use uom::si::velocity::{meter_per_second, mile_per_hour};

use crate::error::{Allowed, Field, Result, RuleError};
use crate::note::Note;
use crate::quantity::{Entered, Unit, whole};
use crate::working::{Answer, Working};

/// The height of weather reports, in metres.
pub const REPORT_HEIGHT_M: f64 = 10.0;

/// Roughness of short grass, in metres (from memory: the class "open, short grass").
const ROUGHNESS_M: f64 = 0.03;

/// No wind on a lawn is faster than this, in m/s: a hurricane's.
const WIND_MOST_M_S: f64 = 60.0;

/// The lowest at which a meter may be held, taken where the height was not noted, in feet.
const LOWEST_FT: u32 = 3;
const LOWEST_M: f64 = 0.9144;
const HIGHEST_M: f64 = 30.48;

/// Refuses what is no wind on a lawn: another kind of amount, or faster than any.
///
/// ```
/// use sward_rules::{Entered, sky::must_be_wind};
/// assert!(must_be_wind(&Entered::parse("9 mph")?).is_ok());
/// let error = must_be_wind(&Entered::parse("200 mph")?).unwrap_err();
/// assert!(error.to_string().starts_with("the wind is 200 mph"));
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// [`RuleError::WrongKind`] within the wind's field, [`RuleError::NotAllowed`] above 60 m/s
/// (134 mph).
pub fn must_be_wind(speed: &Entered) -> Result<Velocity> {
    let velocity = speed.to_speed().map_err(|e| e.of(Field::WindSpeed))?;
    if velocity.get::<meter_per_second>() <= WIND_MOST_M_S {
        return Ok(velocity);
    }
    Err(RuleError::NotAllowed {
        field: Field::WindSpeed,
        given: speed.for_person(),
        allowed: Allowed::WindSpeed,
    })
}

/// Refuses a height at which no hand meter is held.
///
/// # Errors
/// [`RuleError::WrongKind`] within the height's field, [`RuleError::NotAllowed`] below 3 or above
/// 100 ft.
pub fn must_be_meter_height(height: &Entered) -> Result<()> {
    height_m(height).map(|_| ())
}

/// A wind measured at some height, as it may blow at 10 m (33 ft), in mph.
///
/// The logarithmic profile of neutral air over short grass, speed × ln(10 m / z₀) / ln(height /
/// z₀) with z₀ = 0.03 m; from 10 m on the speed as it was measured. Without a height the lowest
/// that a meter may be held at, 3 ft, is taken.
///
/// ```
/// use sward_rules::{Entered, sky::wind_at_10_m_mph};
/// let (speed, height) = (Entered::parse("6 mph")?, Entered::parse("5 ft")?);
/// let raised = wind_at_10_m_mph(&speed, Some(&height))?.value;
/// assert!((raised - 8.87).abs() < 0.01);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// As [`must_be_wind`]; [`RuleError::NotAllowed`] for a height below 3 or above 100 ft.
pub fn wind_at_10_m_mph(speed: &Entered, height: Option<&Entered>) -> Result<Answer<f64>> {
    let velocity = must_be_wind(speed)?;
    let mph = velocity.get::<mile_per_hour>() * raise(height)?;
    let shown = height.map_or_else(assumed_height, |h| *h);
    Ok(Working::new(
        "logarithmic wind profile",
        "neutral air over short grass, roughness 0.03 m (from memory)",
    )
    .input("wind", speed.for_person())
    .input(
        "wind in m/s",
        format!("{:.2} m/s", velocity.get::<meter_per_second>()),
    )
    .input("height of the meter", shown.for_person())
    .note(Note::ProfileRaisesOnly)
    .gives(mph))
}

/// What a wind at this height is multiplied with, one or more.
pub(super) fn raise(height: Option<&Entered>) -> Result<f64> {
    height.map_or(Ok(LOWEST_M), height_m).map(raise_from)
}

/// The same for a meter held where nobody knows: at the lowest.
pub(super) fn raise_most() -> f64 {
    raise_from(LOWEST_M)
}

fn raise_from(height_m: f64) -> f64 {
    let log = |m: f64| (m / ROUGHNESS_M).ln();
    (log(REPORT_HEIGHT_M) / log(height_m)).max(1.0)
}

/// The height that is taken where none was noted.
pub(super) fn assumed_height() -> Entered {
    whole(LOWEST_FT, Unit::FOOT)
}

fn height_m(height: &Entered) -> Result<f64> {
    let length: Length = height.to_length().map_err(|e| e.of(Field::MeterHeight))?;
    let m = length.get::<meter>();
    if (LOWEST_M - 1e-9..=HIGHEST_M + 1e-9).contains(&m) {
        return Ok(m);
    }
    Err(RuleError::NotAllowed {
        field: Field::MeterHeight,
        given: height.for_person(),
        allowed: Allowed::MeterHeight,
    })
}
