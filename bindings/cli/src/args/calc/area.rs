//! How large a lawn is, how long its edge, a strip set back from it, and a slope.

use clap::Args;

use crate::args::ShapeArgs;

/// A shape, and what is asked of it beside its area.
#[derive(Debug, Args)]
pub(crate) struct AreaCalc {
    /// The shape.
    #[command(flatten)]
    pub(crate) shape: ShapeArgs,
    /// Leave a strip of this width untreated, inside along the whole edge: "5 ft"
    #[arg(
        long,
        value_name = "WIDTH",
        help_heading = "What is asked",
        allow_hyphen_values = true
    )]
    pub(crate) strip: Option<String>,
    /// The strip only runs along this much of the edge: "40 ft"
    #[arg(
        long,
        value_name = "LENGTH",
        requires = "strip",
        help_heading = "What is asked",
        allow_hyphen_values = true
    )]
    pub(crate) along: Option<String>,
    /// The slope, by grade, angle, or rise over level run: "12 %", "7 deg", "3 ft / 25 ft"
    #[arg(long, help_heading = "What is asked", allow_hyphen_values = true)]
    pub(crate) slope: Option<String>,
    /// On the slope the tape was held level, not laid along the ground; a walk is level in any case
    #[arg(long, requires = "slope", help_heading = "What is asked")]
    pub(crate) level: bool,
}
