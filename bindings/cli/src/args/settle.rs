//! Corrections, and settling what two phones recorded differently.

use clap::{Args, Subcommand};

use super::{AnswersArgs, CountedArgs, LoadedArgs, SectionDoneArgs, WhyNot, WindArgs};

/// Correct what was recorded.
#[derive(Debug, Args)]
pub(crate) struct CorrectArgs {
    /// What to correct.
    #[command(subcommand)]
    pub(crate) command: CorrectCommand,
}

/// Which facts are corrected, and why.
#[derive(Debug, Args)]
#[group(skip)]
pub(crate) struct WrongArgs {
    /// The visit, or its yard for the newest one
    pub(crate) visit: String,
    /// The facts that are wrong, as `sward visit show` names them
    #[arg(required = true, value_name = "FACT")]
    pub(crate) facts: Vec<String>,
    /// Why; it stands in the record
    #[arg(long, value_name = "REASON")]
    pub(crate) why: String,
}

/// What can be corrected.
#[derive(Debug, Subcommand)]
pub(crate) enum CorrectCommand {
    /// Take facts back: they were wrong, or entered twice
    Withdraw {
        /// Which.
        #[command(flatten)]
        wrong: WrongArgs,
    },
    /// Put another count in their place
    Count {
        /// Which.
        #[command(flatten)]
        wrong: WrongArgs,
        /// The right one.
        #[command(flatten)]
        counted: CountedArgs,
    },
    /// Put other wind readings in their place
    Wind {
        /// Which.
        #[command(flatten)]
        wrong: WrongArgs,
        /// The right ones.
        #[command(flatten)]
        wind: WindArgs,
    },
    /// Put other answers of the walk round in their place
    WalkRound {
        /// Which.
        #[command(flatten)]
        wrong: WrongArgs,
        /// The right ones.
        #[command(flatten)]
        answers: AnswersArgs,
    },
    /// Put another load in their place
    Load {
        /// Which.
        #[command(flatten)]
        wrong: WrongArgs,
        /// The right one.
        #[command(flatten)]
        loaded: LoadedArgs,
    },
    /// Put another reason for not treating in their place
    NotTreated {
        /// Which.
        #[command(flatten)]
        wrong: WrongArgs,
        /// The right reason
        #[arg(long, value_enum)]
        why_not: WhyNot,
        /// In your own words
        #[arg(long, default_value = "", hide_default_value = true)]
        note: String,
        /// The day to look again, like 2026-06-30
        #[arg(long, value_name = "DAY")]
        look_again: Option<String>,
    },
    /// Finish anew, from the facts as they stand now
    Finish {
        /// The visit, or its yard for the newest one
        visit: String,
        /// When sections were done.
        #[command(flatten)]
        done: SectionDoneArgs,
        /// Why; it stands in the record
        #[arg(long, value_name = "REASON")]
        why: String,
    },
}

/// Settle what two phones recorded differently.
#[derive(Debug, Args)]
pub(crate) struct SettleArgs {
    /// What to settle.
    #[command(subcommand)]
    pub(crate) command: SettleCommand,
}

/// What there is to settle.
#[derive(Debug, Subcommand)]
pub(crate) enum SettleCommand {
    /// List every open question
    List,
    /// Say which of several finishes holds
    Finish {
        /// The visit, or its yard for the newest one
        visit: String,
        /// The finish that holds
        fact: String,
        /// Why; it stands in the record
        #[arg(long, value_name = "REASON")]
        why: String,
    },
    /// Say whether a late addition was really put on
    Late {
        /// The visit, or its yard for the newest one
        visit: String,
        /// The load
        fact: String,
        /// Whether it was put on
        #[arg(long, value_parser = ["yes", "no"])]
        put_on: String,
        /// Why; it stands in the record
        #[arg(long, value_name = "REASON")]
        why: String,
    },
    /// Say whether two visits were one job, entered twice
    OneJob {
        /// One visit
        visit: String,
        /// The other visit
        other: String,
        /// Whether they are one job
        #[arg(long, value_parser = ["yes", "no"])]
        same: String,
    },
    /// Choose the value of a yard's field that two phones filled differently
    Yard {
        /// The yard
        yard: String,
        /// The field
        field: String,
        /// What holds
        value: String,
    },
    /// Choose the value of a label sheet's field that two phones filled differently
    Label {
        /// The label sheet
        label: String,
        /// The field
        field: String,
        /// What holds, with the label in hand
        value: String,
    },
}
