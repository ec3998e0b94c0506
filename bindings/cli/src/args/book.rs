//! Records, and the book as a whole: export, backup, restore, completions.

use std::path::PathBuf;

use chrono::NaiveDate;
use clap::{Args, Subcommand, ValueEnum};
use clap_complete::Shell;

/// Records.
#[derive(Debug, Args)]
pub(crate) struct RecordsArgs {
    /// What to do.
    #[command(subcommand)]
    pub(crate) command: RecordsCommand,
}

/// What can be done with records.
#[derive(Debug, Subcommand)]
pub(crate) enum RecordsCommand {
    /// List the records
    List(RecordsFilterArgs),
    /// Show the records of a visit with their history
    Show {
        /// The visit, or its yard for the newest one
        visit: String,
    },
    /// Write the records as CSV or JSON, the same bytes on every phone with the same records
    Export(RecordsExportArgs),
}

/// Which records.
#[derive(Debug, Args)]
#[group(skip)]
pub(crate) struct RecordsFilterArgs {
    /// Only of this yard
    #[arg(long)]
    pub(crate) yard: Option<String>,
    /// Only of products whose name or registration number holds this
    #[arg(long)]
    pub(crate) product: Option<String>,
    /// Only of this person
    #[arg(long)]
    pub(crate) person: Option<String>,
    /// Only from this day on, like 2026-06-01
    #[arg(long, value_name = "DAY")]
    pub(crate) from: Option<NaiveDate>,
    /// Only up to this day
    #[arg(long, value_name = "DAY")]
    pub(crate) to: Option<NaiveDate>,
}

/// Export.
#[derive(Debug, Args)]
pub(crate) struct RecordsExportArgs {
    /// The new file; `-` for standard output
    pub(crate) file: PathBuf,
    /// The form; left out: as the file's name ends
    #[arg(long = "as", value_name = "FORM")]
    pub(crate) form: Option<ExportForm>,
    /// Which records.
    #[command(flatten)]
    pub(crate) filter: RecordsFilterArgs,
}

/// The form of an export.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum ExportForm {
    /// For spreadsheets and offices
    Csv,
    /// For other programs, incidents included
    Json,
    /// Every incident, also where nothing was treated, for spreadsheets and offices
    IncidentsCsv,
}

/// Back up.
#[derive(Debug, Args)]
pub(crate) struct BackupArgs {
    /// The new file
    pub(crate) file: PathBuf,
}

/// Restore.
#[derive(Debug, Args)]
pub(crate) struct RestoreArgs {
    /// The backup
    pub(crate) file: PathBuf,
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
    /// Write the request to be admitted again into this file
    #[arg(long, value_name = "FILE")]
    pub(crate) request: Option<PathBuf>,
}

/// Completions.
#[derive(Debug, Args)]
pub(crate) struct CompletionsArgs {
    /// The shell
    pub(crate) shell: Shell,
}
