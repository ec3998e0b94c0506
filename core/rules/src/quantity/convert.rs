//! Conversions: to typed quantities of `uom`, to another unit, and comparison across units.
//!
//! A conversion never crosses kinds: a weight becomes a volume only with a density, which nobody
//! has typed here.

use std::cmp::Ordering;

use rust_decimal::{Decimal, RoundingStrategy};
use uom::si::f64::{
    Area, Length, Mass, Pressure, Ratio, ThermodynamicTemperature, Time, Velocity, Volume,
};
use uom::si::{
    area::square_meter, length::meter, mass::kilogram, pressure::pascal, ratio::ratio,
    thermodynamic_temperature::kelvin, time::second, velocity::meter_per_second,
    volume::cubic_meter,
};

use super::{DIGITS_MOST, Dimension, Entered, Unit};
use crate::error::{Field, Result, RuleError};
use crate::note::Rounding;
use crate::working::{Answer, Working};

/// Digits to which a dose is worked out before it is rounded to a vessel's step.
const EXACT_DIGITS: u32 = 18;

/// Significant digits of a converted amount; what a person typed has rarely more than four.
const CONVERTED_DIGITS: u32 = 9;

impl Entered {
    /// As a length.
    ///
    /// # Errors
    /// [`RuleError::WrongKind`] when it is none, as with all of these.
    pub fn to_length(&self) -> Result<Length> {
        Ok(Length::new::<meter>(self.si_f64(Dimension::Length)?))
    }

    /// As an area.
    ///
    /// # Errors
    /// [`RuleError::WrongKind`] when it is none.
    pub fn to_area(&self) -> Result<Area> {
        Ok(Area::new::<square_meter>(self.si_f64(Dimension::Area)?))
    }

    /// As a mass.
    ///
    /// # Errors
    /// [`RuleError::WrongKind`] when it is none.
    pub fn to_mass(&self) -> Result<Mass> {
        Ok(Mass::new::<kilogram>(self.si_f64(Dimension::Mass)?))
    }

    /// As a volume.
    ///
    /// # Errors
    /// [`RuleError::WrongKind`] when it is none.
    pub fn to_volume(&self) -> Result<Volume> {
        Ok(Volume::new::<cubic_meter>(self.si_f64(Dimension::Volume)?))
    }

    /// As a time.
    ///
    /// # Errors
    /// [`RuleError::WrongKind`] when it is none.
    pub fn to_time(&self) -> Result<Time> {
        Ok(Time::new::<second>(self.si_f64(Dimension::Time)?))
    }

    /// As a time in whole seconds, rounded up, so that a wait is never cut short.
    ///
    /// # Errors
    /// [`RuleError::WrongKind`] when it is no time, [`RuleError::OutOfRange`] when it is too long.
    pub fn to_seconds_up(&self) -> Result<i64> {
        let seconds = self.si(Dimension::Time)?.ceil();
        i64::try_from(seconds).map_err(|_| out_of_range(self))
    }

    /// As a speed.
    ///
    /// # Errors
    /// [`RuleError::WrongKind`] when it is none.
    pub fn to_speed(&self) -> Result<Velocity> {
        Ok(Velocity::new::<meter_per_second>(
            self.si_f64(Dimension::Speed)?,
        ))
    }

    /// As a temperature.
    ///
    /// # Errors
    /// [`RuleError::WrongKind`] when it is none, [`RuleError::OutOfRange`] below absolute zero.
    pub fn to_temperature(&self) -> Result<ThermodynamicTemperature> {
        let value = self.si_f64(Dimension::Temperature)?;
        if value < 0.0 {
            return Err(out_of_range(self));
        }
        Ok(ThermodynamicTemperature::new::<kelvin>(value))
    }

    /// As a pressure.
    ///
    /// # Errors
    /// [`RuleError::WrongKind`] when it is none.
    pub fn to_pressure(&self) -> Result<Pressure> {
        Ok(Pressure::new::<pascal>(self.si_f64(Dimension::Pressure)?))
    }

    /// As a share: `50 %` is the ratio one half.
    ///
    /// # Errors
    /// [`RuleError::WrongKind`] when it is no percentage.
    pub fn to_share(&self) -> Result<Ratio> {
        Ok(Ratio::new::<ratio>(self.si_f64(Dimension::Percent)?))
    }

    /// The same amount in another unit of its kind, to nine significant digits: for showing beside
    /// what was entered, never in its place.
    ///
    /// ```
    /// use sward_rules::{Entered, quantity::Unit};
    /// let rate = Entered::parse("1 lb/1000 ft2")?;
    /// assert_eq!(rate.convert(Unit::parse("kg/ha")?)?.for_person(), "48.8242764 kg/ha");
    /// # Ok::<(), sward_rules::RuleError>(())
    /// ```
    ///
    /// # Errors
    /// [`RuleError::WrongKind`] when the unit is of another kind; [`RuleError::OutOfRange`] when
    /// the result is too large or too small to write.
    pub fn convert(&self, unit: Unit) -> Result<Self> {
        let si = self.si(unit.dimension())?;
        Self::from_si(si, unit).ok_or_else(|| out_of_range(self))
    }

    /// [`Entered::convert`] with its working.
    ///
    /// ```
    /// use sward_rules::{Entered, quantity::Unit};
    /// let rate = Entered::parse("2.5 lb/1000 ft2")?;
    /// let answer = rate.conversion(Unit::parse("kg/ha")?)?;
    /// assert_eq!(answer.value.for_person(), "122.060691 kg/ha");
    /// assert_eq!(answer.working.inputs[0].1, "2.5 lb/1000 ft²");
    /// # Ok::<(), sward_rules::RuleError>(())
    /// ```
    ///
    /// # Errors
    /// As [`Entered::convert`].
    pub fn conversion(&self, unit: Unit) -> Result<Answer<Self>> {
        let value = self.convert(unit)?;
        Ok(Working::new(
            "the units' exact factors",
            "definitions: international yard and pound of 1959, US gallon of 231 in³",
        )
        .input("given", self.for_person())
        .rounded(Rounding::SignificantDigits {
            digits: CONVERTED_DIGITS,
        })
        .gives(value))
    }

    /// Compares what is meant: `2.50 lb` and `40 oz` are equal.
    ///
    /// # Errors
    /// [`RuleError::WrongKind`] when the two are of different kinds.
    pub fn compare(&self, other: &Self) -> Result<Ordering> {
        if self.unit == other.unit {
            return Ok(self.amount.cmp(&other.amount));
        }
        Ok(self.si(self.dimension())?.cmp(&other.si(self.dimension())?))
    }

    /// Refuses an amount of another kind.
    ///
    /// # Errors
    /// [`RuleError::WrongKind`].
    pub fn must_be(&self, needed: Dimension) -> Result<()> {
        if self.dimension() == needed {
            return Ok(());
        }
        Err(RuleError::WrongKind {
            given: self.for_person(),
            is: self.dimension(),
            needed,
        })
    }

    /// The amount in SI units, to 28 digits.
    pub(crate) fn si(&self, needed: Dimension) -> Result<Decimal> {
        self.must_be(needed)?;
        let (shift, times, by) = self.unit.to_si();
        self.amount
            .checked_add(shift)
            .and_then(|x| x.checked_mul(times))
            .and_then(|x| x.checked_div(by))
            .ok_or_else(|| out_of_range(self))
    }

    /// An SI amount in `unit`, rounded to [`CONVERTED_DIGITS`]; none when it cannot be written.
    pub(crate) fn from_si(si: Decimal, unit: Unit) -> Option<Self> {
        let (shift, times, by) = unit.to_si();
        shown(
            si.checked_mul(by)?.checked_div(times)?.checked_sub(shift)?,
            unit,
        )
    }

    /// This rate over an area in square metres, in `unit`: exact to 18 digits, so that what is a
    /// round number by hand is one here too. None when it is out of range.
    pub(crate) fn over_area(&self, area_m2: Decimal, unit: Unit) -> Option<Decimal> {
        let (_, times, by) = self.unit.to_si();
        let (_, unit_times, unit_by) = unit.to_si();
        self.amount
            .checked_mul(area_m2)?
            .checked_mul(times.checked_mul(unit_by)?)?
            .checked_div(by.checked_mul(unit_times)?)
            .and_then(exact)
    }

    /// This amount in another unit of its kind, unrounded but for 18 digits; none when it is of
    /// another kind or out of range.
    pub(crate) fn in_unit(&self, unit: Unit) -> Option<Decimal> {
        if self.unit == unit {
            return Some(self.amount);
        }
        let (shift, times, by) = unit.to_si();
        self.si(unit.dimension())
            .ok()?
            .checked_mul(by)?
            .checked_div(times)?
            .checked_sub(shift)
            .and_then(exact)
    }

    fn si_f64(&self, needed: Dimension) -> Result<f64> {
        Ok(to_f64(self.si(needed)?))
    }
}

/// An amount of the kind needed and above zero, in SI.
pub(crate) fn positive(entered: &Entered, kind: Dimension, field: &Field) -> Result<Decimal> {
    let si = entered.si(kind).map_err(|e| e.of(field.clone()))?;
    if si <= Decimal::ZERO {
        return Err(RuleError::NotPositive {
            field: field.clone(),
            given: entered.for_person(),
        });
    }
    Ok(si)
}

/// What was worked out from this amount cannot be written.
pub(crate) fn out_of_range(given: &Entered) -> RuleError {
    RuleError::OutOfRange {
        given: given.for_person(),
    }
}

/// A number to [`EXACT_DIGITS`] significant digits; none where it cannot be written.
pub(crate) fn exact(value: Decimal) -> Option<Decimal> {
    significant(value, EXACT_DIGITS, RoundingStrategy::MidpointNearestEven)
}

/// A number cut to so many significant digits. One that has fewer stays as it is: the library would
/// write zeros behind it, for a small one more than a decimal holds, and fail at the next division.
pub(crate) fn significant(
    value: Decimal,
    digits: u32,
    strategy: RoundingStrategy,
) -> Option<Decimal> {
    let has = value.mantissa().unsigned_abs().checked_ilog10();
    if has.is_none_or(|log| log < digits) {
        return Some(value);
    }
    value.round_sf_with_strategy(digits, strategy)
}

/// A worked-out amount for showing, to [`CONVERTED_DIGITS`]; none when it cannot be written.
pub(crate) fn shown(amount: Decimal, unit: Unit) -> Option<Entered> {
    let nearest = RoundingStrategy::MidpointNearestEven;
    let rounded = significant(amount, CONVERTED_DIGITS, nearest)?
        .round_dp(DIGITS_MOST)
        .normalize();
    if rounded.is_zero() && !amount.is_zero() {
        return None;
    }
    Entered::new(rounded, unit).ok()
}

/// A worked-out amount for showing, cut to so many significant digits and never above itself; none
/// when it cannot be written.
pub(crate) fn shown_down(amount: Decimal, unit: Unit, digits: u32) -> Option<Entered> {
    let cut = significant(exact(amount)?, digits, RoundingStrategy::ToZero)?;
    let cut = cut.round_dp_with_strategy(DIGITS_MOST, RoundingStrategy::ToZero);
    Entered::new(cut.normalize(), unit).ok()
}

/// A worked-out amount for showing, raised to so many significant digits and never below itself;
/// none when it cannot be written.
pub(crate) fn shown_up(amount: Decimal, unit: Unit, digits: u32) -> Option<Entered> {
    let raised = significant(exact(amount)?, digits, RoundingStrategy::AwayFromZero)?;
    let raised = raised.round_dp_with_strategy(DIGITS_MOST, RoundingStrategy::AwayFromZero);
    Entered::new(raised.normalize(), unit).ok()
}

/// A measured number for showing, to so many decimals. Below zero only a temperature can be, and
/// a number too large to write with its decimals becomes the largest that is: neither is a
/// measurement.
pub(crate) fn near(value: f64, decimals: usize, unit: Unit) -> Entered {
    const LARGEST: f64 = 1e9;
    let least = if unit.dimension() == Dimension::Temperature {
        -LARGEST
    } else {
        0.0
    };
    let text = format!("{:.decimals$}", value.clamp(least, LARGEST));
    Decimal::from_str_exact(&text)
        .ok()
        .and_then(|amount| Entered::new(amount, unit).ok())
        .unwrap_or_else(|| whole(0, unit))
}

/// A whole number with its unit.
pub(crate) fn whole(number: u32, unit: Unit) -> Entered {
    Entered::new(Decimal::from(number), unit).expect("ten digits are not too many")
}

/// The nearest `f64`.
pub(crate) fn to_f64(value: Decimal) -> f64 {
    value
        .to_string()
        .parse()
        .expect("a decimal's text is a number")
}
