//! The kinds of amounts, and their names in a sentence.

use std::fmt;

use serde::Serialize;

/// What kind of amount a unit measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, strum::VariantNames)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum Dimension {
    /// A length, SI metre.
    Length,
    /// An area, SI square metre.
    Area,
    /// A mass, in the trade's words a weight; SI kilogram.
    Mass,
    /// A volume, SI cubic metre.
    Volume,
    /// A time, SI second.
    Time,
    /// A speed, SI metre per second.
    Speed,
    /// A temperature, SI kelvin.
    Temperature,
    /// A pressure, SI pascal.
    Pressure,
    /// A share in percent, SI 1.
    Percent,
    /// A number per area, SI per square metre.
    CountPerArea,
    /// A weight per area, SI kilogram per square metre.
    MassPerArea,
    /// A volume per area, SI metre.
    VolumePerArea,
    /// A weight per volume, SI kilogram per cubic metre.
    MassPerVolume,
    /// A volume per volume, SI 1.
    VolumePerVolume,
    /// A weight per time, SI kilogram per second.
    MassPerTime,
    /// A volume per time, SI cubic metre per second.
    VolumePerTime,
}

crate::sentence::names!(Dimension);

impl fmt::Display for Dimension {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Length => "a length",
            Self::Area => "an area",
            Self::Mass => "a weight",
            Self::Volume => "a volume",
            Self::Time => "a time",
            Self::Speed => "a speed",
            Self::Temperature => "a temperature",
            Self::Pressure => "a pressure",
            Self::Percent => "a percentage",
            Self::CountPerArea => "a number per area",
            Self::MassPerArea => "a weight per area",
            Self::VolumePerArea => "a volume per area",
            Self::MassPerVolume => "a weight per volume",
            Self::VolumePerVolume => "a volume per volume",
            Self::MassPerTime => "a weight per time",
            Self::VolumePerTime => "a volume per time",
        })
    }
}
