//! Water: hose-end sprayers, passes, watering in.

use clap::Args;
use sward_rules::Entered;
use sward_rules::label::LabelSays;

use super::product::LabelRates;
use super::typed::{named_amount, says};

/// A hose-end sprayer.
#[derive(Debug, Args)]
pub(crate) struct HoseEndCalc {
    /// The area sprayed in the test
    #[arg(long, value_name = "AREA", value_parser = Entered::parse)]
    pub(crate) area: Entered,
    /// How long that took
    #[arg(long, value_name = "TIME", value_parser = Entered::parse)]
    pub(crate) took: Entered,
    /// Water caught
    #[arg(long, value_name = "VOLUME", value_parser = Entered::parse)]
    pub(crate) caught: Entered,
    /// How long it was caught; left out: as long as the area took
    #[arg(long, value_name = "TIME", value_parser = Entered::parse)]
    pub(crate) caught_in: Option<Entered>,
    /// Product per area, for the dial: "6 fl oz/1000 ft2"
    #[arg(long, value_name = "RATE", value_parser = Entered::parse, requires = "step")]
    pub(crate) rate: Option<Entered>,
    /// A step of the dial, like "1 fl oz/gal"; give each
    #[arg(long, value_name = "RATIO", value_parser = Entered::parse, requires = "rate")]
    pub(crate) step: Vec<Entered>,
    /// What the label says.
    #[command(flatten)]
    pub(crate) label: LabelRates,
}

/// A setting and its passes.
#[derive(Debug, Args)]
pub(crate) struct PassesCalc {
    /// The rate that is to go on in all
    #[arg(long, value_name = "RATE", value_parser = Entered::parse)]
    pub(crate) rate: Entered,
    /// What one pass with the setting gave when it was calibrated
    #[arg(long, value_name = "RATE", value_parser = Entered::parse)]
    pub(crate) gives: Entered,
    /// The swath it was calibrated on; left out where it is not known
    #[arg(long, value_name = "WIDTH", value_parser = Entered::parse)]
    pub(crate) calibrated_swath: Option<Entered>,
    /// The distance from line to line on the lawn
    #[arg(long, value_name = "WIDTH", value_parser = Entered::parse)]
    pub(crate) spacing: Entered,
    /// The lawn is gone over twice, the second time at right angles
    #[arg(long)]
    pub(crate) crosswise: bool,
    /// What the label says.
    #[command(flatten)]
    pub(crate) label: LabelRates,
}

/// Watering in.
#[derive(Debug, Args)]
pub(crate) struct WateringInCalc {
    /// The label's depth, like "0.25 in", or "nothing" where it says nothing of watering in
    #[arg(long, value_name = "DEPTH", value_parser = says, conflicts_with = "withheld")]
    pub(crate) depth: Option<LabelSays<Entered>>,
    /// The label asks to keep water off for this long
    #[arg(long, value_name = "TIME", value_parser = Entered::parse)]
    pub(crate) withheld: Option<Entered>,
    /// A section: "front=1500 ft2"
    #[arg(long, value_name = "SECTION=AREA", value_parser = named_amount)]
    pub(crate) section: Vec<(String, Entered)>,
    /// The depth in a can, like "0.2 in", or the volume with --opening; give each
    #[arg(long, value_name = "DEPTH", value_parser = Entered::parse, requires = "ran")]
    pub(crate) can: Vec<Entered>,
    /// How wide the cans' openings are across, where volumes were measured
    #[arg(long, value_name = "DIAMETER", value_parser = Entered::parse, requires = "can")]
    pub(crate) opening: Option<Entered>,
    /// How long the water ran into the cans
    #[arg(long, value_name = "TIME", value_parser = Entered::parse, requires = "can")]
    pub(crate) ran: Option<Entered>,
    /// How long it ran until water stood or ran off, where that was seen
    #[arg(long, value_name = "TIME", value_parser = Entered::parse, requires = "can")]
    pub(crate) run_off_after: Option<Entered>,
    /// How long it took to soak in, where that was seen
    #[arg(long, value_name = "TIME", value_parser = Entered::parse, requires = "run_off_after")]
    pub(crate) soak: Option<Entered>,
}
