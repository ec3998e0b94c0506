//! Product: rates in every form, what goes into a mix, a tank for several yards, spots and bait.

use clap::Args;
use sward_rules::Entered;
use sward_rules::label::LabelSays;

use super::typed::{named, named_amount, says};

/// What the label on hand says of rates.
#[derive(Debug, Args)]
#[group(skip)]
pub(crate) struct LabelRates {
    /// The label's most per area, like "2.5 lb/1000 ft2", or "nothing" where it sets none
    #[arg(long, value_name = "RATE", value_parser = says)]
    pub(crate) most: Option<LabelSays<Entered>>,
    /// The label's least per area where it gives a range
    #[arg(long, value_name = "RATE", value_parser = says)]
    pub(crate) least: Option<LabelSays<Entered>>,
    /// The label's least finished mix per area, or "nothing" where it sets none
    #[arg(long, value_name = "RATE", value_parser = says)]
    pub(crate) carrier_least: Option<LabelSays<Entered>>,
}

/// A rate.
#[derive(Debug, Args)]
pub(crate) struct RateCalc {
    /// Product per area, like "3.6 pt/acre" or "12.5 lb/5000 ft2"
    #[arg(value_name = "RATE", value_parser = Entered::parse, required_unless_present_any = ["pack", "active", "in_mix"])]
    pub(crate) rate: Option<Entered>,
    /// A pack, with --covers: "15 lb"
    #[arg(long, value_name = "AMOUNT", value_parser = Entered::parse, requires = "covers", conflicts_with = "rate")]
    pub(crate) pack: Option<Entered>,
    /// The area that the pack covers: "12500 ft2"
    #[arg(long, value_name = "AREA", value_parser = Entered::parse)]
    pub(crate) covers: Option<Entered>,
    /// Active ingredient per area, with --content: "1 lb/acre"
    #[arg(long, value_name = "RATE", value_parser = Entered::parse, requires = "content", conflicts_with_all = ["rate", "pack"])]
    pub(crate) active: Option<Entered>,
    /// The product's content: "80 %", "2 lb/gal" or "240 g/L"
    #[arg(long, value_name = "CONTENT", value_parser = Entered::parse)]
    pub(crate) content: Option<Entered>,
    /// Product per volume of finished mix, with --carrier: "2 lb/100 gal"
    #[arg(long, value_name = "RATIO", value_parser = Entered::parse, requires = "carrier", conflicts_with_all = ["rate", "pack", "active"])]
    pub(crate) in_mix: Option<Entered>,
    /// Finished mix per area: "2 gal/1000 ft2"
    #[arg(long, value_name = "RATE", value_parser = Entered::parse)]
    pub(crate) carrier: Option<Entered>,
    /// Product for this area
    #[arg(long, value_name = "AREA", value_parser = Entered::parse)]
    pub(crate) area: Option<Entered>,
    /// The least step of what it is measured out with, like "0.1 lb"
    #[arg(long, value_name = "STEP", value_parser = Entered::parse, requires = "area")]
    pub(crate) vessel: Option<Entered>,
    /// What the label says.
    #[command(flatten)]
    pub(crate) label: LabelRates,
}

/// One mix.
#[derive(Debug, Args)]
pub(crate) struct MixCalc {
    /// Product per area, like "0.6 fl oz/1000 ft2"
    #[arg(long, value_name = "RATE", value_parser = Entered::parse)]
    pub(crate) rate: Entered,
    /// Finished mix per area, like "2 gal/1000 ft2"
    #[arg(long, value_name = "RATE", value_parser = Entered::parse)]
    pub(crate) carrier: Entered,
    /// What the tank holds
    #[arg(long, value_name = "VOLUME", value_parser = Entered::parse)]
    pub(crate) tank: Entered,
    /// Finished mix wanted; left out: a full tank
    #[arg(long, value_name = "VOLUME", value_parser = Entered::parse)]
    pub(crate) mix: Option<Entered>,
    /// The least step of what the product is measured out with, like "0.5 fl oz"
    #[arg(long, value_name = "STEP", value_parser = Entered::parse)]
    pub(crate) vessel: Entered,
    /// What the label says.
    #[command(flatten)]
    pub(crate) label: LabelRates,
}

/// A tank and its stops.
#[derive(Debug, Args)]
pub(crate) struct TankCalc {
    /// Product that was put in
    #[arg(long, value_name = "AMOUNT", value_parser = Entered::parse)]
    pub(crate) product: Entered,
    /// Finished mix that was made
    #[arg(long, value_name = "VOLUME", value_parser = Entered::parse)]
    pub(crate) mix: Entered,
    /// Finished mix per area as planned, like "2 gal/1000 ft2"
    #[arg(long, value_name = "RATE", value_parser = Entered::parse)]
    pub(crate) carrier: Entered,
    /// A draw, in order: "Elm=10 gal on 5000 ft2", or without its area
    #[arg(long, value_name = "YARD=DRAWN", value_parser = named)]
    pub(crate) draw: Vec<(String, String)>,
    /// A yard still to come: "Ash=4000 ft2"
    #[arg(long, value_name = "YARD=AREA", value_parser = named_amount)]
    pub(crate) next: Vec<(String, Entered)>,
    /// A site for a leftover: "strip=1000 ft2; label yes; got nothing", or "got 0.3 fl oz/1000 ft2"
    #[arg(long, value_name = "SITE", value_parser = named)]
    pub(crate) site: Vec<(String, String)>,
    /// What the label says.
    #[command(flatten)]
    pub(crate) label: LabelRates,
}

/// Spots, mounds, bait.
#[derive(Debug, Args)]
pub(crate) struct SpotsCalc {
    /// Product for each spot, like "2 tbsp"; for a drench per mix, like "0.5 fl oz/gal"
    #[arg(long, value_name = "DOSE", value_parser = Entered::parse)]
    pub(crate) dose: Entered,
    /// Finished mix for each spot that is drenched
    #[arg(long, value_name = "VOLUME", value_parser = Entered::parse)]
    pub(crate) mix: Option<Entered>,
    /// How many spots
    #[arg(long)]
    pub(crate) count: u32,
    /// The whole area they lie in
    #[arg(long, value_name = "AREA", value_parser = Entered::parse)]
    pub(crate) area: Entered,
    /// The label's most for each spot
    #[arg(long, value_name = "DOSE", value_parser = says)]
    pub(crate) spot_most: Option<LabelSays<Entered>>,
    /// The label's most per area
    #[arg(long, value_name = "RATE", value_parser = says)]
    pub(crate) most: Option<LabelSays<Entered>>,
    /// The least step of what the product is measured out with, like "0.5 tbsp"
    #[arg(long, value_name = "STEP", value_parser = Entered::parse)]
    pub(crate) vessel: Entered,
    /// It is bait: is it fresh?
    #[arg(long, value_name = "YES|NO", value_parser = yes_or_no)]
    pub(crate) fresh: Option<bool>,
    /// Bait: are ground and grass dry?
    #[arg(long, value_name = "YES|NO", value_parser = yes_or_no)]
    pub(crate) dry: Option<bool>,
    /// Bait: will it stay dry, without rain or watering?
    #[arg(long, value_name = "YES|NO", value_parser = yes_or_no)]
    pub(crate) stays_dry: Option<bool>,
    /// Bait: were ants on a greasy chip, with --chip-min?
    #[arg(long, value_name = "YES|NO", value_parser = yes_or_no, requires = "chip_min")]
    pub(crate) chip: Option<bool>,
    /// Minutes the chip lay there
    #[arg(long, value_name = "MINUTES", requires = "chip")]
    pub(crate) chip_min: Option<u32>,
    /// Bait: temperature of the ground, like "78 F"
    #[arg(long, value_name = "TEMPERATURE", value_parser = Entered::parse, allow_hyphen_values = true, conflicts_with = "chip")]
    pub(crate) ground: Option<Entered>,
}

fn yes_or_no(text: &str) -> Result<bool, String> {
    match text {
        "yes" => Ok(true),
        "no" => Ok(false),
        _ => Err("write yes or no".to_owned()),
    }
}
