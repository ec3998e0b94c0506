//! An amount in another unit.

use clap::Args;

/// An amount and the unit wanted.
#[derive(Debug, Args)]
pub(crate) struct ConvertCalc {
    /// The amount: "2.5 lb/1000 ft2"
    #[arg(allow_hyphen_values = true)]
    pub(crate) amount: String,
    /// The unit wanted, of the same kind: kg/ha
    pub(crate) unit: String,
}
