//! Calculations on their own, without a book: a file a subject, in the order of a visit.

mod area;
mod sky;

use clap::{Args, Subcommand};

pub(crate) use area::AreaCalc;
pub(crate) use sky::{AirCalc, DayArgs, DownWindCalc, InversionCalc, SunCalc, WindCalc};

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
}
