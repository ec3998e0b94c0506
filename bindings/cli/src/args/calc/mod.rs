//! Calculations on their own, without a book: a file a subject, in the order of a visit.

mod area;
mod calibration;
mod control;
mod convert;
mod degree_days;
mod keep_off;
mod key;
mod notice;
mod place;
mod product;
mod record_fields;
mod samples;
mod season;
mod sign;
mod sky;
pub(crate) mod typed;
mod water;

use clap::{Args, Subcommand};

pub(crate) use area::AreaCalc;
pub(crate) use calibration::{
    AgainstArgs, CalibrationCalc, CatchBoxesCalc, NozzlesCalc, PaceCalc, SprayerCalc, SpreaderCalc,
};
pub(crate) use control::{AbbottCalc, SchneiderOrelliCalc};
pub(crate) use convert::ConvertCalc;
pub(crate) use degree_days::DegreeDaysCalc;
pub(crate) use keep_off::KeepOffCalc;
pub(crate) use key::KeyCalc;
pub(crate) use notice::NoticeCalc;
pub(crate) use place::PlaceArgs;
pub(crate) use product::{LabelRates, MixCalc, RateCalc, SpotsCalc, TankCalc};
pub(crate) use record_fields::RecordFieldsCalc;
pub(crate) use samples::SamplesCalc;
pub(crate) use season::{RepeatCalc, SeasonCalc, StockCalc};
pub(crate) use sign::SignCalc;
pub(crate) use sky::{AirCalc, DayArgs, DownWindCalc, InversionCalc, SunCalc, WindCalc};
pub(crate) use water::{HoseEndCalc, PassesCalc, WateringInCalc};

use super::ControlArgs;

/// One calculation.
#[derive(Debug, Args)]
pub(crate) struct CalcArgs {
    /// Show the working
    #[arg(long, global = true)]
    pub(crate) how: bool,
    /// What is worked out.
    #[command(subcommand)]
    pub(crate) what: Calc,
}

/// What can be worked out.
#[derive(Debug, Subcommand)]
pub(crate) enum Calc {
    /// What it is: a key by what one can see, with its look-alikes
    Key(KeyCalc),
    /// How many there are by samples, and how many more samples would decide
    Samples(SamplesCalc),
    /// Degree-days above a base since a day
    DegreeDays(DegreeDaysCalc),
    /// The area of a lawn by tape or walk, with its uncertainty
    Area(AreaCalc),
    /// An amount in another unit of its kind
    Convert(ConvertCalc),
    /// A rate in every form, and product for an area: by area, pack, active ingredient or mix
    Rate(RateCalc),
    /// What goes into one tank: product, water, and the area that it covers
    Mix(MixCalc),
    /// One tank for several yards: what each got, what is left, where a leftover may go
    Tank(TankCalc),
    /// A hose-end sprayer: what it puts on, and the dial's step for a rate
    HoseEnd(HoseEndCalc),
    /// Half-rate passes: what a setting gives on another swath than it was calibrated on
    Passes(PassesCalc),
    /// Spots and mounds, and whether bait would be taken
    Spots(SpotsCalc),
    /// Watering in: how much water, and minutes from a can test
    WateringIn(WateringInCalc),
    /// Active ingredient over a season
    Season(SeasonCalc),
    /// The earliest day for the next treatment
    Repeat(RepeatCalc),
    /// Which lots a plan takes, and what is missing
    Stock(StockCalc),
    /// A spreader by strip: the rate it puts on, and the setting to try next
    Spreader(SpreaderCalc),
    /// A spreader's pattern by catch boxes: effective swath, evenness of the passes
    CatchBoxes(CatchBoxesCalc),
    /// A sprayer's rate by flow, by timed area, by the 128th of an acre
    Sprayer(SprayerCalc),
    /// Nozzles: evenness and wear, other pressures, droplet classes
    Nozzles(NozzlesCalc),
    /// The walking pace over a marked distance
    Pace(PaceCalc),
    /// Does a calibration still hold? Do two people find the same? How to go on half-way?
    Calibration(Box<CalibrationCalc>),
    /// Sunrise, sunset and twilight, and where the sun stands
    Sun(SunCalc),
    /// A wind in other units and at the height of weather reports
    Wind(WindCalc),
    /// Wet bulb, Delta T and dew point
    Air(AirCalc),
    /// The hours in which air commonly does not mix, and what signs then say
    Inversion(InversionCalc),
    /// What lies down wind of a lawn
    DownWind(DownWindCalc),
    /// Who stays off a piece of ground that treatments reached, why, and when to look next
    KeepOff(KeepOffCalc),
    /// What a state asks of the sign on the lawn, when it may come down, and its words
    Sign(SignCalc),
    /// Until when notice to neighbours can be given before a planned start
    Notice(NoticeCalc),
    /// Which fields rules ask a record to hold, and how long it is kept
    RecordFields(RecordFieldsCalc),
    /// Percent control by what lives now, beside a part left untreated
    Abbott(AbbottCalc),
    /// Percent control by counts before and after, beside a part left untreated
    HendersonTilton(ControlArgs),
    /// Corrected mortality by the dead among those looked at
    SchneiderOrelli(SchneiderOrelliCalc),
}
