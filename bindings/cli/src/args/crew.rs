//! Crew: found, ask, admit, retire, promote, recover, and swapping records.

use std::path::PathBuf;

use clap::{Args, Subcommand, ValueEnum};
use sward_book::fact::Role;

/// Found a crew.
#[derive(Debug, Args)]
pub(crate) struct FoundArgs {
    /// The crew's name, as it stands in records
    #[arg(long, value_name = "NAME")]
    pub(crate) crew: String,
    /// Your name, as it stands in records
    #[arg(long, value_name = "NAME")]
    pub(crate) name: String,
    /// Your applicator's licence or certificate number
    #[arg(
        long,
        value_name = "NUMBER",
        default_value = "",
        hide_default_value = true
    )]
    pub(crate) licence: String,
    /// A practice crew: marked in every record
    #[arg(long)]
    pub(crate) practice: bool,
}

/// Ask to join.
#[derive(Debug, Args)]
pub(crate) struct AskArgs {
    /// Your name, as it stands in records
    #[arg(long, value_name = "NAME")]
    pub(crate) name: String,
    /// Your applicator's licence or certificate number
    #[arg(
        long,
        value_name = "NUMBER",
        default_value = "",
        hide_default_value = true
    )]
    pub(crate) licence: String,
    /// Where to write the request
    #[arg(value_name = "FILE")]
    pub(crate) request: PathBuf,
    /// Join a practice crew
    #[arg(long)]
    pub(crate) practice: bool,
}

/// Write the request again.
#[derive(Debug, Args)]
pub(crate) struct RequestArgs {
    /// Where to write the request
    #[arg(value_name = "FILE")]
    pub(crate) request: PathBuf,
}

/// A role, as typed.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(crate) enum RoleWord {
    /// Reads only
    Office,
    /// Treats and records
    Applicator,
    /// Also admits, retires and decides
    CrewLead,
}

impl From<RoleWord> for Role {
    fn from(word: RoleWord) -> Self {
        match word {
            RoleWord::Office => Self::Office,
            RoleWord::Applicator => Self::Applicator,
            RoleWord::CrewLead => Self::CrewLead,
        }
    }
}

/// Admit a device.
#[derive(Debug, Args)]
pub(crate) struct AdmitArgs {
    /// The request file, or the name of a device that already waits
    #[arg(value_name = "FILE|DEVICE")]
    pub(crate) who: String,
    /// What it may do
    #[arg(long, value_enum, default_value = "applicator")]
    pub(crate) role: RoleWord,
}

/// Retire a device.
#[derive(Debug, Args)]
pub(crate) struct RetireArgs {
    /// Who carries it, or its first digits
    pub(crate) device: String,
    /// Why; it stands in the record
    #[arg(long, value_name = "REASON")]
    pub(crate) why: String,
}

/// Give another role.
#[derive(Debug, Args)]
pub(crate) struct PromoteArgs {
    /// Who carries it, or its first digits
    pub(crate) device: String,
    /// What it may do from now on
    #[arg(long, value_enum)]
    pub(crate) role: RoleWord,
}

/// Recover.
#[derive(Debug, Args)]
pub(crate) struct RecoverArgs {
    /// The recovery code; asked for where it is left out
    #[arg(long, value_name = "CODE")]
    pub(crate) code: Option<String>,
}

/// Swap records.
#[derive(Debug, Args)]
pub(crate) struct SwapArgs {
    /// Make or take.
    #[command(subcommand)]
    pub(crate) command: SwapCommand,
}

/// The two sides of a swap by file.
#[derive(Debug, Subcommand)]
pub(crate) enum SwapCommand {
    /// Write a locked file that every other member can open
    Make {
        /// The new file
        file: PathBuf,
    },
    /// Take what locked files bring; taking one twice changes nothing
    Take {
        /// The files
        #[arg(required = true, value_name = "FILE")]
        files: Vec<PathBuf>,
    },
}
