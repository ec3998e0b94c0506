//! Calculations on their own, without a book: a file a subject, in the order of a visit.

mod area;
mod convert;

use clap::{Args, Subcommand};

pub(crate) use area::AreaCalc;
pub(crate) use convert::ConvertCalc;

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
    /// The area of a lawn by tape or walk, with its uncertainty; its edge, a strip set back, a slope
    #[command(override_usage = "sward calc area <SHAPE> [OPTIONS]")]
    Area(AreaCalc),
    /// An amount in another unit of its kind
    Convert(ConvertCalc),
}
