//! Calculations on their own, without a book: a file a subject, in the order of a visit.

mod area;
mod control;
mod degree_days;
mod key;
mod samples;

use clap::{Args, Subcommand};

pub(crate) use area::AreaCalc;
pub(crate) use control::{AbbottCalc, SchneiderOrelliCalc};
pub(crate) use degree_days::DegreeDaysCalc;
pub(crate) use key::KeyCalc;
pub(crate) use samples::SamplesCalc;

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
    /// The area of a lawn by tape or walk, with its uncertainty
    Area(AreaCalc),
    /// What it is: a key by what one can see, with its look-alikes
    Key(KeyCalc),
    /// How many there are by samples, and how many more samples would decide
    Samples(SamplesCalc),
    /// Degree-days above a base since a day
    DegreeDays(DegreeDaysCalc),
    /// Percent control by what lives now, beside a part left untreated
    Abbott(AbbottCalc),
    /// Percent control by counts before and after, beside a part left untreated
    HendersonTilton(ControlArgs),
    /// Corrected mortality by the dead among those looked at
    SchneiderOrelli(SchneiderOrelliCalc),
}
