//! How large a lawn is.

use clap::Args;

use crate::args::ShapeArgs;

/// A shape.
#[derive(Debug, Args)]
pub(crate) struct AreaCalc {
    /// The shape.
    #[command(flatten)]
    pub(crate) shape: ShapeArgs,
}
