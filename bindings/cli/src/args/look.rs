//! Looking: visits, counts, the result "not treated", and percent control.

use clap::{Args, Subcommand, ValueEnum};
use sward_book::fact::NotTreatedWhy;
use sward_rules::Entered;

/// Visits.
#[derive(Debug, Args)]
pub(crate) struct VisitArgs {
    /// What to do.
    #[command(subcommand)]
    pub(crate) command: VisitCommand,
}

/// What can be done with visits.
#[derive(Debug, Subcommand)]
pub(crate) enum VisitCommand {
    /// Open a visit
    Open {
        /// The yard
        yard: String,
        /// The pest that is looked for
        #[arg(
            long,
            value_name = "PEST",
            default_value = "",
            hide_default_value = true
        )]
        target: String,
    },
    /// Show a visit with its history
    Show {
        /// The visit, or its yard for the newest one
        visit: String,
    },
    /// List the visits
    List {
        /// Only to this yard
        #[arg(long)]
        yard: Option<String>,
    },
}

/// Record a count.
#[derive(Debug, Args)]
pub(crate) struct CountArgs {
    /// The visit, or its yard for the newest one
    pub(crate) visit: String,
    /// What was counted.
    #[command(flatten)]
    pub(crate) counted: CountedArgs,
    /// Show the working behind the density
    #[arg(long)]
    pub(crate) how: bool,
}

/// What was counted, and how.
#[derive(Debug, Args)]
#[group(skip)]
pub(crate) struct CountedArgs {
    /// What was counted, like "Japanese beetle" or "chinch bug"
    #[arg(long)]
    pub(crate) pest: String,
    /// How it was searched.
    #[command(flatten)]
    pub(crate) method: MethodArgs,
    /// How many in each sample, like 3,0,5
    #[arg(long, required = true, value_delimiter = ',', value_name = "N,N,...")]
    pub(crate) counts: Vec<u32>,
    /// What else was seen
    #[arg(long, default_value = "", hide_default_value = true)]
    pub(crate) note: String,
}

/// How the samples were taken, in exactly one way.
#[derive(Debug, Args)]
#[group(required = true, multiple = false)]
pub(crate) struct MethodArgs {
    /// A square of sod lifted, by its side, like "6 in"
    #[arg(long, value_name = "SIDE", value_parser = Entered::parse)]
    pub(crate) sod: Option<Entered>,
    /// A can without bottom filled with water, by its diameter
    #[arg(long, value_name = "DIAMETER", value_parser = Entered::parse)]
    pub(crate) can: Option<Entered>,
    /// A cup cutter's plug, by its diameter
    #[arg(long, value_name = "DIAMETER", value_parser = Entered::parse)]
    pub(crate) cup: Option<Entered>,
    /// A soap drench, by its area
    #[arg(long, value_name = "AREA", value_parser = Entered::parse)]
    pub(crate) drench: Option<Entered>,
    /// Anything else, by the area searched
    #[arg(long, value_name = "AREA", value_parser = Entered::parse)]
    pub(crate) area: Option<Entered>,
}

/// Why nothing was treated, as typed.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(crate) enum WhyNot {
    /// Too few to matter
    BelowThreshold,
    /// A harmless look-alike
    LookAlike,
    /// The weather
    Weather,
    /// The yard was not ready
    YardNotReady,
    /// The people there did not want it
    NotWanted,
    /// Something else, told in the note
    Other,
}

impl From<WhyNot> for NotTreatedWhy {
    fn from(why: WhyNot) -> Self {
        match why {
            WhyNot::BelowThreshold => Self::BelowThreshold,
            WhyNot::LookAlike => Self::LookAlike,
            WhyNot::Weather => Self::Weather,
            WhyNot::YardNotReady => Self::YardNotReady,
            WhyNot::NotWanted => Self::NotWanted,
            WhyNot::Other => Self::Other,
        }
    }
}

/// End without a treatment.
#[derive(Debug, Args)]
pub(crate) struct NotTreatedArgs {
    /// The visit, or its yard for the newest one
    pub(crate) visit: String,
    /// Why
    #[arg(long, value_enum)]
    pub(crate) why: WhyNot,
    /// In your own words
    #[arg(long, default_value = "", hide_default_value = true)]
    pub(crate) note: String,
    /// The day to look again, like 2026-06-30
    #[arg(long, value_name = "DAY")]
    pub(crate) look_again: Option<String>,
}

/// Percent control.
#[derive(Debug, Args)]
pub(crate) struct ControlArgs {
    /// Living in the treated part: before and after
    #[arg(long, num_args = 2, required = true, value_names = ["BEFORE", "AFTER"])]
    pub(crate) treated: Vec<u32>,
    /// Living in the untreated part: before and after
    #[arg(long, num_args = 2, required = true, value_names = ["BEFORE", "AFTER"])]
    pub(crate) check: Vec<u32>,
}
