//! Where a yard is, for rules that differ by state and by calendar.

use clap::Args;

/// A state and a time zone.
#[derive(Debug, Args)]
pub(crate) struct PlaceArgs {
    /// The state, like NY or "New York"
    #[arg(long, value_name = "STATE")]
    pub(crate) state: String,
    /// The yard's time zone, like America/New_York
    #[arg(long, value_name = "ZONE")]
    pub(crate) zone: String,
}
