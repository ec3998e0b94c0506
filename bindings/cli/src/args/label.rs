//! Label sheets.

use clap::{Args, Subcommand};

use super::values::key_value;

/// Label sheets.
#[derive(Debug, Args)]
pub(crate) struct LabelArgs {
    /// What to do.
    #[command(subcommand)]
    pub(crate) command: LabelCommand,
}

/// What can be done with label sheets.
#[derive(Debug, Subcommand)]
pub(crate) enum LabelCommand {
    /// Copy a label on to a new sheet; asks for each field where none is given
    New {
        /// A field as printed, like rate_most="2.5 lb/1000 ft2"; "nothing" where the label is silent
        #[arg(long = "field", value_name = "KEY=VALUE", value_parser = key_value)]
        fields: Vec<(String, String)>,
        /// An active ingredient with its content, like bifenthrin="0.2 %"
        #[arg(long = "ingredient", value_name = "NAME=CONTENT", value_parser = key_value)]
        ingredients: Vec<(String, String)>,
    },
    /// Change fields; the numbers have to be read back again after this
    Set {
        /// The label sheet
        label: String,
        /// A field and its new value; an empty value empties it
        #[arg(required = true, value_name = "KEY=VALUE", value_parser = key_value)]
        fields: Vec<(String, String)>,
    },
    /// Add an active ingredient
    Ingredient {
        /// The label sheet
        label: String,
        /// Its generic name
        name: String,
        /// Its content, like "0.2 %" or "2 lb/gal"
        content: String,
    },
    /// List the label sheets
    List,
    /// Show a label sheet
    Show {
        /// The label sheet
        label: String,
    },
    /// Read the numbers back from the label in hand: a second person, or alone typed twice
    ReadBack(ReadBackArgs),
}

/// Reading back.
#[derive(Debug, Args)]
pub(crate) struct ReadBackArgs {
    /// The label sheet
    pub(crate) label: String,
    /// A number as read from the label; where none is given, each is asked for
    #[arg(long = "field", value_name = "KEY=VALUE", value_parser = key_value)]
    pub(crate) fields: Vec<(String, String)>,
    /// The second person who reads the label; left out: you are alone and type it twice
    #[arg(long, value_name = "NAME")]
    pub(crate) second_person: Option<String>,
}
