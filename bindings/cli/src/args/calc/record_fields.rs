//! What rules ask a record to hold.

use clap::Args;

/// A record.
#[derive(Debug, Args)]
pub(crate) struct RecordFieldsCalc {
    /// The state, like NY or "New York"
    #[arg(long, value_name = "STATE")]
    pub(crate) state: String,
    /// Whether the product is of restricted use; left out: nobody has said
    #[arg(long, value_parser = ["yes", "no"])]
    pub(crate) restricted_use: Option<String>,
    /// Whether only spots were treated; left out: nobody has said
    #[arg(long, value_parser = ["yes", "no"])]
    pub(crate) spots_only: Option<String>,
    /// The area treated, like "0.09 acre"
    #[arg(long, value_name = "AREA")]
    pub(crate) area: Option<String>,
    /// Whether a re-entry time applies; left out: nobody has said
    #[arg(long, value_parser = ["yes", "no"])]
    pub(crate) re_entry: Option<String>,
    /// A field that is filled, like product or wind-speed; several times for several
    #[arg(long = "filled", value_name = "FIELD")]
    pub(crate) filled: Vec<String>,
    /// When treating ended, like "2026-06-15 08:30", for the days until which it is written and kept
    #[arg(long, value_name = "TIME", requires = "zone")]
    pub(crate) ended: Option<String>,
    /// The yard's time zone, like America/New_York
    #[arg(long, value_name = "ZONE")]
    pub(crate) zone: Option<String>,
}
