//! Treating: start, half-way check, load, finish.

use clap::Args;
use sward_rules::Entered;
use sward_rules::finding::Check;

use super::values::{CHECKS, one_of};

/// Start treating.
#[derive(Debug, Args)]
pub(crate) struct StartArgs {
    /// The visit, or its yard for the newest one
    pub(crate) visit: String,
    /// Only these sections; left out: all that are measured
    #[arg(long = "section", value_name = "SECTION")]
    pub(crate) sections: Vec<String>,
    /// Acknowledge a check that is not known, by its name; once for each
    #[arg(long, value_name = "CHECK", value_parser = one_of::<Check, 20>(CHECKS), hide_possible_values = true)]
    pub(crate) acknowledge: Vec<Check>,
    /// Why it is started against a "don't treat"; it stands in the record
    #[arg(long, value_name = "REASON")]
    pub(crate) against: Option<String>,
}

/// The half-way check.
#[derive(Debug, Args)]
pub(crate) struct HalfWayArgs {
    /// The visit, or its yard for the newest one
    pub(crate) visit: String,
    /// Product filled in so far
    #[arg(long, value_name = "AMOUNT", value_parser = Entered::parse)]
    pub(crate) filled: Entered,
    /// Product still in the spreader or tank
    #[arg(long, value_name = "AMOUNT", value_parser = Entered::parse)]
    pub(crate) left: Entered,
    /// Share of the area done, like "50 %"
    #[arg(long, value_name = "SHARE", value_parser = Entered::parse)]
    pub(crate) done: Entered,
    /// Only these sections; left out: all that are measured
    #[arg(long = "section", value_name = "SECTION")]
    pub(crate) sections: Vec<String>,
}

/// Record a load.
#[derive(Debug, Args)]
pub(crate) struct LoadArgs {
    /// The visit, or its yard for the newest one
    pub(crate) visit: String,
    /// What was put on.
    #[command(flatten)]
    pub(crate) loaded: LoadedArgs,
}

/// What was put on.
#[derive(Debug, Args)]
#[group(skip)]
pub(crate) struct LoadedArgs {
    /// Undiluted product
    #[arg(long, value_name = "AMOUNT", value_parser = Entered::parse)]
    pub(crate) product: Entered,
    /// Carrier water
    #[arg(long, value_name = "AMOUNT", value_parser = Entered::parse)]
    pub(crate) water: Option<Entered>,
    /// The sections it went on; left out: all of the visit
    #[arg(long = "section", value_name = "SECTION")]
    pub(crate) sections: Vec<String>,
    /// When the last of it went on, like 09:10; left out: now
    #[arg(long, value_name = "TIME")]
    pub(crate) at: Option<String>,
}

/// Finish treating.
#[derive(Debug, Args)]
pub(crate) struct FinishArgs {
    /// The visit, or its yard for the newest one
    pub(crate) visit: String,
    /// When sections were done.
    #[command(flatten)]
    pub(crate) done: SectionDoneArgs,
}

/// When sections were done, and what was unusual.
#[derive(Debug, Args)]
#[group(skip)]
pub(crate) struct SectionDoneArgs {
    /// When a section was last treated, like "front=09:10"; left out: the last load's time, or now
    #[arg(long = "section", value_name = "SECTION=TIME")]
    pub(crate) sections: Vec<String>,
    /// Anything unusual: spill, surprise, what was left over
    #[arg(long, default_value = "", hide_default_value = true)]
    pub(crate) note: String,
}
