//! Keep-offs.

use clap::{Args, Subcommand};

/// List keep-offs.
#[derive(Debug, Args)]
pub(crate) struct KeepOffsArgs {
    /// Only of this yard
    #[arg(long)]
    pub(crate) yard: Option<String>,
    /// Those that are over as well
    #[arg(long)]
    pub(crate) all: bool,
}

/// "I looked: it is dry".
#[derive(Debug, Args)]
pub(crate) struct DryArgs {
    /// The visit, or its yard for the newest one
    pub(crate) visit: String,
    /// The sections you looked at, by name
    #[arg(required = true, value_name = "SECTION")]
    pub(crate) sections: Vec<String>,
    /// When you looked, like 11:30; left out: now
    #[arg(long, value_name = "TIME")]
    pub(crate) at: Option<String>,
}

/// One keep-off.
#[derive(Debug, Args)]
pub(crate) struct KeepOffArgs {
    /// What to do.
    #[command(subcommand)]
    pub(crate) command: KeepOffCommand,
}

/// What can be stated of a keep-off.
#[derive(Debug, Subcommand)]
pub(crate) enum KeepOffCommand {
    /// State anew what must be true before anyone comes back
    Claim {
        /// The visit, or its yard for the newest one
        visit: String,
        /// The section
        section: String,
        /// How long to wait, like "24 h", or nothing
        #[arg(long, value_name = "TIME")]
        wait: String,
        /// Whether a person has to see it dry
        #[arg(long, value_parser = ["yes", "no", "nothing"])]
        until_dry: String,
        /// Why; it stands in the record
        #[arg(long, value_name = "REASON")]
        why: String,
    },
    /// Confirm the end as it stands
    Confirm {
        /// The visit, or its yard for the newest one
        visit: String,
        /// The section
        section: String,
        /// Why; it stands in the record
        #[arg(long, value_name = "REASON")]
        why: String,
    },
    /// Lift a keep-off: a crew lead's decision
    Release {
        /// The visit, or its yard for the newest one
        visit: String,
        /// The section
        section: String,
        /// Why; it stands in the record
        #[arg(long, value_name = "REASON")]
        why: String,
    },
}
