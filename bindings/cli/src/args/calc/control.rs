//! Whether it worked.

use clap::Args;

/// Counts of the living, once, on areas of one size.
#[derive(Debug, Args)]
pub(crate) struct AbbottCalc {
    /// Alive in the untreated part: a count, or a share like "50 %", which gives no interval
    #[arg(long, value_name = "N")]
    pub(crate) check: String,
    /// Alive in the treated part, likewise
    #[arg(long, value_name = "N")]
    pub(crate) treated: String,
}

/// The dead among those looked at.
#[derive(Debug, Args)]
pub(crate) struct SchneiderOrelliCalc {
    /// In the untreated part: how many were dead, of how many looked at
    #[arg(long, num_args = 2, required = true, value_names = ["DEAD", "OF"])]
    pub(crate) check: Vec<u32>,
    /// In the treated part likewise
    #[arg(long, num_args = 2, required = true, value_names = ["DEAD", "OF"])]
    pub(crate) treated: Vec<u32>,
}
