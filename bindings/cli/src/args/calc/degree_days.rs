//! Warmth above a base since a day.

use std::path::PathBuf;

use chrono::NaiveDate;
use clap::Args;
use sward_rules::Entered;

/// Days with their air, the base and the start.
#[derive(Debug, Args)]
pub(crate) struct DegreeDaysCalc {
    /// Below this nothing develops, like "50 F"
    #[arg(long, value_name = "TEMPERATURE", value_parser = Entered::parse, allow_hyphen_values = true)]
    pub(crate) base: Entered,
    /// First day that counts, like 2026-04-01
    #[arg(long, value_name = "DAY")]
    pub(crate) start: NaiveDate,
    /// Last day that counts, instead of the last one given
    #[arg(long, value_name = "DAY")]
    pub(crate) until: Option<NaiveDate>,
    /// A day with its lowest and highest temperature, like "2026-04-01, 40 F, 80 F"; once for each
    #[arg(
        long = "day",
        value_name = "DAY,LEAST,MOST",
        required_unless_present = "file"
    )]
    pub(crate) days: Vec<String>,
    /// A file with such a line for each day
    #[arg(long, value_name = "FILE")]
    pub(crate) file: Option<PathBuf>,
}
