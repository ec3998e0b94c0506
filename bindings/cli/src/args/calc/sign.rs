//! What a place asks of the sign on the lawn.

use clap::Args;

use super::place::PlaceArgs;

/// A sign.
#[derive(Debug, Args)]
pub(crate) struct SignCalc {
    /// Where, and by which calendar.
    #[command(flatten)]
    pub(crate) place: PlaceArgs,
    /// When treating ended, like "2026-06-15 08:30"; if the sign went up later, when it did
    #[arg(long, value_name = "TIME")]
    pub(crate) ended: String,
    /// The sign's width, like "5 in"
    #[arg(long, value_name = "LENGTH")]
    pub(crate) width: Option<String>,
    /// The sign's height, like "4 in"
    #[arg(long, value_name = "LENGTH")]
    pub(crate) height: Option<String>,
    /// How tall its letters are, like "0.375 in"
    #[arg(long, value_name = "LENGTH")]
    pub(crate) letters: Option<String>,
    /// How high its bottom edge is above the ground, like "12 in"
    #[arg(long, value_name = "LENGTH")]
    pub(crate) bottom: Option<String>,
    /// Whether it is white
    #[arg(long, value_parser = ["yes", "no"])]
    pub(crate) white: Option<String>,
    /// A language of its words; several times for several
    #[arg(long = "language", value_parser = ["english", "spanish"])]
    pub(crate) languages: Vec<String>,
    /// Write the words of a paper sign, in English and in Spanish
    #[arg(long)]
    pub(crate) text: bool,
    /// For the words: the product
    #[arg(long, value_name = "NAME", requires = "text")]
    pub(crate) product: Option<String>,
    /// For the words: its registration number
    #[arg(long, value_name = "NUMBER", requires = "text")]
    pub(crate) registration: Option<String>,
    /// For the words: until when people and pets keep off, where that is known
    #[arg(long, value_name = "TIME", requires = "text")]
    pub(crate) keep_off_until: Option<String>,
    /// For the words: who put it on
    #[arg(long, value_name = "NAME", requires = "text")]
    pub(crate) by: Option<String>,
    /// For the words: where to ask
    #[arg(long, value_name = "NUMBER", requires = "text")]
    pub(crate) phone: Option<String>,
}
