//! An area or a length with its uncertainty.
//!
//! How it was found is the business of the shapes; here is only what every area has.

use serde::ser::SerializeStruct;
use serde::{Serialize, Serializer};
use uom::si::area::{square_foot, square_meter};
use uom::si::f64::{Area, Length};
use uom::si::length::{foot, meter};

use crate::error::{Field, Result, RuleError};
use crate::quantity::Entered;

/// An area, and how far off it may be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AreaEstimate {
    /// The best estimate.
    pub area: Area,
    /// One standard deviation: about two times in three the true area lies within it.
    pub uncertainty: Area,
}

impl AreaEstimate {
    /// An area that a person states instead of measuring it, with how far off it may be.
    ///
    /// # Errors
    /// When either is no area, the area is zero or larger than any lawn.
    pub fn stated(area: &Entered, uncertainty: &Entered) -> Result<Self> {
        let value = area.to_area().map_err(|e| e.of(Field::Area))?;
        if area.is_zero() {
            return Err(RuleError::NotPositive {
                field: Field::Area,
                given: area.for_person(),
            });
        }
        super::outline::must_be_a_lawn(value.get::<square_meter>())?;
        let uncertainty = uncertainty
            .to_area()
            .map_err(|e| e.of(Field::AreaUncertainty))?;
        Ok(Self {
            area: value,
            uncertainty,
        })
    }

    pub(super) fn from_si(area_m2: f64, uncertainty_m2: f64) -> Self {
        Self {
            area: Area::new::<square_meter>(area_m2),
            uncertainty: Area::new::<square_meter>(uncertainty_m2),
        }
    }

    /// The area in square feet.
    pub fn square_feet(&self) -> f64 {
        self.area.get::<square_foot>()
    }

    /// The area in square metres.
    pub fn square_metres(&self) -> f64 {
        self.area.get::<square_meter>()
    }

    /// One standard deviation in percent of the area.
    pub fn uncertainty_percent(&self) -> f64 {
        100.0 * (self.uncertainty / self.area).value
    }

    /// The estimate as a person reads it: `1,500 ft² ± 21 ft² (1.4 %)`.
    pub fn for_person(&self) -> String {
        format!(
            "{} ± {} ({:.1} %)",
            square_feet_text(self.square_metres()),
            square_feet_text(self.uncertainty.get::<square_meter>()),
            self.uncertainty_percent()
        )
    }
}

impl Serialize for AreaEstimate {
    fn serialize<S: Serializer>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error> {
        let mut s = serializer.serialize_struct("AreaEstimate", 4)?;
        s.serialize_field("area_ft2", &self.square_feet())?;
        s.serialize_field("area_m2", &self.square_metres())?;
        s.serialize_field("uncertainty_ft2", &self.uncertainty.get::<square_foot>())?;
        s.serialize_field("uncertainty_m2", &self.uncertainty.get::<square_meter>())?;
        s.end()
    }
}

/// A length, and how far off it may be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LengthEstimate {
    /// The best estimate.
    pub length: Length,
    /// One standard deviation: about two times in three the true length lies within it.
    pub uncertainty: Length,
}

impl LengthEstimate {
    pub(super) fn from_si(length_m: f64, uncertainty_m: f64) -> Self {
        Self {
            length: Length::new::<meter>(length_m),
            uncertainty: Length::new::<meter>(uncertainty_m),
        }
    }

    /// The length in feet.
    pub fn feet(&self) -> f64 {
        self.length.get::<foot>()
    }

    /// The length in metres.
    pub fn metres(&self) -> f64 {
        self.length.get::<meter>()
    }

    /// One standard deviation in percent of the length.
    pub fn uncertainty_percent(&self) -> f64 {
        100.0 * (self.uncertainty / self.length).value
    }

    /// The estimate as a person reads it: `170.0 ft ± 1.3 ft (0.8 %)`.
    pub fn for_person(&self) -> String {
        format!(
            "{:.1} ft ± {:.1} ft ({:.1} %)",
            self.feet(),
            self.uncertainty.get::<foot>(),
            self.uncertainty_percent()
        )
    }
}

impl Serialize for LengthEstimate {
    fn serialize<S: Serializer>(&self, serializer: S) -> std::result::Result<S::Ok, S::Error> {
        let mut s = serializer.serialize_struct("LengthEstimate", 4)?;
        s.serialize_field("length_ft", &self.feet())?;
        s.serialize_field("length_m", &self.metres())?;
        s.serialize_field("uncertainty_ft", &self.uncertainty.get::<foot>())?;
        s.serialize_field("uncertainty_m", &self.uncertainty.get::<meter>())?;
        s.end()
    }
}

/// Square metres as a person reads them, in whole square feet with a mark at each thousand.
pub(super) fn square_feet_text(area_m2: f64) -> String {
    let digits = format!(
        "{:.0}",
        Area::new::<square_meter>(area_m2).get::<square_foot>()
    );
    let mut text = String::new();
    for (index, digit) in digits.chars().enumerate() {
        if index > 0 && (digits.len() - index).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text + " ft²"
}
