//! What a finding holds against what: values and limits, with their units.
//!
//! Why the answer is what it is stands in [`super::Reason`].

use minicbor::{Decode, Encode};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::calibrate::DropletClass;
use crate::quantity::Entered;
use crate::sentence::{sentences, words};
use crate::sky::{Bloom, Soil};

sentences! {
    /// A value or a limit. `Display` is the English; in JSON its name stands under `shown`.
    stored Shown, tag = "shown";

    0 Amount { 0 amount: Entered } => ("{}", .amount.for_person());
    1 AtLeast { 0 least: Entered } => ("at least {}", .least.for_person());
    2 AtMost { 0 most: Entered } => ("at most {}", .most.for_person());
    3 Between { 0 least: Entered, 1 most: Entered }
        => ("{} to {}", .least.for_person(), .most.for_person());
    4 OrMore { 0 least: Entered } => ("{} or more", .least.for_person());
    5 BothScales { 0 fahrenheit: Entered, 1 celsius: Entered }
        => ("{} ({})", .fahrenheit.for_person(), .celsius.for_person());
    6 Change { 0 change: Tenths } => ("{change} %");
    7 Changed { 0 amount: Entered, 1 change: Tenths }
        => ("{} ({change} %)", .amount.for_person());
    8 Within { 0 percent: Entered } => ("± {}", .percent.for_person());
    9 AreaWithin { 0 percent: Entered } => ("area ± {}", .percent.for_person());
    10 DaysAgo { 0 days: u32 } => ("{days} days ago");

    20 Rain { 0 chance_percent: u32, 1 amount: Entered }
        => ("{chance_percent} %, {}", .amount.for_person());
    21 DryFor { 0 time: Entered } => ("dry for {} after treating", .time.for_person());
    22 NotDuringRain { 0 minutes: u32 }
        => ("not during rain: dry for {minutes} min (the label sets no time; US EPA outdoor \
             pyrethroid label wording)");
    23 DeltaT { 0 celsius: Entered } => ("Delta T {}", .celsius.for_person());
    24 DeltaTBand { 0 least: Entered, 1 care: Entered, 2 stop: Entered }
        => ("{} to {}, not from {}", .least.amount(), .care.for_person(), .stop.for_person());
    25 InversionSigns { 0 count: u32 } => ("{count} signs");
    26 NoInversionSign => ("no sign of an inversion");
    27 SoilSeen { 0 soil: Soil } => ("{}", soil_text(*.soil));
    28 SoilThatTakesWater => ("soil that takes water");
    29 BloomsSeen { 0 bloom: Bloom } => ("{}", bloom_text(*.bloom));
    30 NoBloomsInReach => ("no blooms in reach");
    31 MustBeSeenTo => ("must be seen to");

    260 OffWanted { 0 amount: Entered, 1 change: Tenths }
        => ("{} ({change} % from what is wanted)", .amount.for_person());
    261 Drops { 0 drops: DropletClass } => ("{drops} drops");
    262 DropsBetween { 0 finest: DropletClass, 1 coarsest: DropletClass }
        => ("{finest} to {coarsest} drops");
    263 PercentAbove { 0 percent: Entered } => ("+ {}", .percent.for_person());
    330 Sides { 0 least: Entered, 1 most: Entered } => ("{} by {}", .least.for_person(), .most.for_person());
    331 SidesOrMore { 0 least: Entered, 1 most: Entered } => ("{} by {} or more", .least.for_person(), .most.for_person());
    332 HoursBefore { 0 hours: u32 } => ("{hours} h before the start");
    333 SignSize => ("the sign's size");
    334 SignLetters => ("how tall its letters are");
    335 SignBottom => ("how high its bottom edge is");
    336 SignColour => ("its colour");
    337 SignLanguages => ("the languages of its words");
    338 SignWhite => ("white");
    339 SignBothLanguages => ("English and Spanish");
    340 SignEnglish => ("English");
    290 LiesDownWind { 0 count: u32 } => ("{count} that may be reached");
    291 NothingDownWind => ("nothing down wind that drift may reach");
    220 Day { 0 day: String } => ("{day}");
    221 NotBefore { 0 day: String } => ("not before {day}");
    222 Treatments { 0 count: u32 } => ("{count} treatments");
    223 AntsAfter { 0 minutes: u32 } => ("ants on the chip after {minutes} min");
    224 NoAntsAfter { 0 minutes: u32 } => ("no ants on the chip after {minutes} min");
    225 AntsWithin { 0 minutes: u32 } => ("ants on the chip within {minutes} min");
}

words! {
    /// Who published an advised limit, or where a figure comes from.
    stored Source;
    0 Practice => "common practice, no source";
    1 Victoria
        => "Victoria, Australia: Department of Health and Agriculture Victoria, wind guides";
    2 Inversion => "Canola Council of Canada; GRDC Spray Application Manual, module 10";
    3 DeltaT => "Sprayers 101, Delta T; wet bulb by Stull 2011";
    4 Rain
        => "advice: 0.01 in (0.25 mm) is the least measurable rain of the US National Weather \
            Service; the chances are common practice, no source";
    5 Bees => "NC State University, pollinator practices in turf";
    6 Epa => "US EPA outdoor pyrethroid label wording";
    7 SpreaderCalibration
        => "UMass Extension, Rotary Spreader Calibration Procedures: within 5 %";
    260 FarmEvenness
        => "EN 13739 as a European good practice note sums it up, a figure for farm fertilizer: \
            at most 15 %; a UK spreader test scheme: stripes show over 20 %";
    261 DropletSize => "ASABE S572, spray nozzle classification by droplet spectra (from memory)";
}

/// A change in tenths, with its sign: +4.3 is 43. In JSON a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Encode, Decode)]
#[cbor(transparent)]
pub struct Tenths(#[n(0)] pub i32);

impl Tenths {
    /// The nearest tenth; what no whole number of tenths can hold becomes the largest that can.
    #[allow(clippy::cast_possible_truncation, reason = "casts from f64 saturate")]
    pub fn nearest(value: f64) -> Self {
        Self((value * 10.0).round() as i32)
    }

    /// The value itself.
    pub fn value(self) -> f64 {
        f64::from(self.0) / 10.0
    }
}

impl std::fmt::Display for Tenths {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:+.1}", self.value())
    }
}

impl Serialize for Tenths {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_f64(self.value())
    }
}

impl<'de> Deserialize<'de> for Tenths {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        f64::deserialize(deserializer).map(Self::nearest)
    }
}

fn soil_text(soil: Soil) -> &'static str {
    match soil {
        Soil::Fit => "fit",
        Soil::DustDry => "dust-dry",
        Soil::Soaked => "soaked",
        Soil::Frozen => "frozen",
        Soil::DroughtDormant => "dormant from drought",
    }
}

fn bloom_text(bloom: Bloom) -> &'static str {
    match bloom {
        Bloom::None => "none",
        Bloom::Beside => "beside the lawn",
        Bloom::OnLawn => "on the lawn",
    }
}
