//! Notice to neighbours before a treatment.

use clap::Args;

use super::place::PlaceArgs;

/// A notice.
#[derive(Debug, Args)]
pub(crate) struct NoticeCalc {
    /// Where, and by which calendar.
    #[command(flatten)]
    pub(crate) place: PlaceArgs,
    /// When treating is planned to start, like "2026-06-15 08:30"
    #[arg(long, value_name = "TIME")]
    pub(crate) start: String,
    /// Whether the county adopted the rule; left out: nobody has said
    #[arg(long, value_parser = ["yes", "no"])]
    pub(crate) adopted: Option<String>,
    /// When notice was given; left out: not known to have been
    #[arg(long, value_name = "TIME")]
    pub(crate) given: Option<String>,
    /// The time now, to see whether it is too late
    #[arg(long, value_name = "TIME")]
    pub(crate) now: Option<String>,
    /// A neighbour's distance from what is treated, like "120 ft"; several times for several
    #[arg(long = "distance", value_name = "LENGTH")]
    pub(crate) distances: Vec<String>,
}
