//! What samples say: how many there are, and whether that is enough to treat.

use clap::Args;

use crate::args::MethodArgs;

/// Samples of one look.
#[derive(Debug, Args)]
pub(crate) struct SamplesCalc {
    /// How they were taken.
    #[command(flatten)]
    pub(crate) method: MethodArgs,
    /// How many in each sample, like 3,0,5
    #[arg(long, required = true, value_delimiter = ',', value_name = "N,N,...")]
    pub(crate) counts: Vec<u32>,
    /// What was counted, to hold it against its thresholds, like "Japanese beetle"
    #[arg(long)]
    pub(crate) pest: Option<String>,
}
