//! What is it? A key by what one can see.

use clap::Args;

/// A key and what was seen.
#[derive(Debug, Args)]
pub(crate) struct KeyCalc {
    /// The key, like white-grub; none lists them
    pub(crate) name: Option<String>,
    /// What was seen, like raster=v, or raster=unsure; once for each question
    #[arg(long = "seen", value_name = "QUESTION=ANSWER")]
    pub(crate) seen: Vec<String>,
}
