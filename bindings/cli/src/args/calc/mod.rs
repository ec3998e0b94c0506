//! Calculations on their own, without a book: a file a subject, in the order of a visit.

mod area;
mod product;
mod season;
pub(crate) mod typed;
mod water;

use clap::{Args, Subcommand};

pub(crate) use area::AreaCalc;
pub(crate) use product::{LabelRates, MixCalc, RateCalc, SpotsCalc, TankCalc};
pub(crate) use season::{RepeatCalc, SeasonCalc, StockCalc};
pub(crate) use water::{HoseEndCalc, PassesCalc, WateringInCalc};

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
    /// The area of a lawn by tape or walk, with its uncertainty
    Area(AreaCalc),
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
}
