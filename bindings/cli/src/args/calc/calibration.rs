//! Calibration of spreaders and sprayers.

use clap::Args;
use clap::builder::{PossibleValuesParser, TypedValueParser as _};
use rust_decimal::Decimal;
use sward_rules::Entered;
use sward_rules::calibrate::{DropletClass, Travel};
use sward_rules::plan::Passes;

const DROPS: [&str; 8] = [
    "extremely-fine",
    "very-fine",
    "fine",
    "medium",
    "coarse",
    "very-coarse",
    "extremely-coarse",
    "ultra-coarse",
];

/// A spreader by strip.
#[derive(Debug, Args)]
#[command(
    override_usage = "sward calc spreader --start <AMOUNT> --left <AMOUNT> --length <LENGTH> --swath <LENGTH> [OPTIONS]\n       sward calc spreader --caught <AMOUNT> --length <LENGTH> --swath <LENGTH> [OPTIONS]\n       sward calc spreader --test-area <AREA> --swath <LENGTH>"
)]
pub(crate) struct SpreaderCalc {
    /// Product in the hopper at the start
    #[arg(long, value_name = "AMOUNT", value_parser = Entered::parse, requires = "left", conflicts_with_all = ["caught", "test_area"])]
    pub(crate) start: Option<Entered>,
    /// Product left after the strip
    #[arg(long, value_name = "AMOUNT", value_parser = Entered::parse, requires = "start")]
    pub(crate) left: Option<Entered>,
    /// Instead: what a pan under a drop spreader caught, like "0.5 lb"
    #[arg(long, value_name = "AMOUNT", value_parser = Entered::parse, conflicts_with = "test_area")]
    pub(crate) caught: Option<Entered>,
    /// Instead: how long must the strip be for this area, like "1000 ft2"
    #[arg(long, value_name = "AREA", value_parser = Entered::parse)]
    pub(crate) test_area: Option<Entered>,
    /// Length of the strip, like "125 ft"
    #[arg(long, value_name = "LENGTH", value_parser = Entered::parse)]
    pub(crate) length: Option<Entered>,
    /// Distance from line to line, like "8 ft"; a drop spreader's width
    #[arg(long, value_name = "LENGTH", value_parser = Entered::parse)]
    pub(crate) swath: Entered,
    /// What the rate found is held against.
    #[command(flatten)]
    pub(crate) against: AgainstArgs,
    /// The setting of this run, to be counted among those tried
    #[arg(long, value_name = "NUMBER", allow_hyphen_values = true)]
    pub(crate) setting: Option<Decimal>,
    /// A setting tried before and what it gave, like "10=2.8 lb/1000 ft2"; may be given several times
    #[arg(long, value_name = "SETTING=RATE", value_parser = tried)]
    pub(crate) tried: Vec<(Decimal, Entered)>,
}

/// What a rate found is held against.
#[derive(Debug, Args)]
#[group(skip)]
pub(crate) struct AgainstArgs {
    /// The rate wanted in all, like "3.6 lb/1000 ft2"
    #[arg(long, value_name = "RATE", value_parser = Entered::parse)]
    pub(crate) wanted: Option<Entered>,
    /// The label's most; without it the answer stays "not known"
    #[arg(long, value_name = "RATE", value_parser = Entered::parse, requires = "wanted")]
    pub(crate) most: Option<Entered>,
    /// In how many passes it goes on: 1, or 2 with half the rate each
    #[arg(long, value_name = "N", default_value = "1",
        value_parser = PossibleValuesParser::new(["1", "2"]).map(|text| passes(&text)))]
    pub(crate) passes: Passes,
}

/// A spreader's pattern.
#[derive(Debug, Args)]
pub(crate) struct CatchBoxesCalc {
    /// Distance from box to box, like "1 ft"
    #[arg(long, value_name = "LENGTH", value_parser = Entered::parse)]
    pub(crate) spacing: Entered,
    /// What the boxes caught from left to right, the middle one on the line walked: "1, 3, 6, 3, 1 g"
    #[arg(long, value_name = "N, N, ... UNIT")]
    pub(crate) catches: String,
    /// Will this swath do? like "9 ft"
    #[arg(long, value_name = "LENGTH", value_parser = Entered::parse)]
    pub(crate) swath: Option<Entered>,
    /// How passes follow one another
    #[arg(long, value_name = "HOW", default_value = "back-and-forth",
        value_parser = PossibleValuesParser::new(["one-way", "back-and-forth"]).map(|text| travel(&text)))]
    pub(crate) travel: Travel,
}

/// A sprayer's rate, in one of four ways.
#[derive(Debug, Args)]
#[command(
    override_usage = "sward calc sprayer --flow <FLOW> --speed <SPEED> --width <LENGTH>\n       sward calc sprayer --area <AREA> --area-time <TIME> --caught <VOLUME> [--catch-time <TIME>]\n       sward calc sprayer --spacing <LENGTH> [--caught <VOLUME>]\n       sward calc sprayer --rate <RATE>"
)]
pub(crate) struct SprayerCalc {
    /// Flow of one nozzle or of the whole boom, like "0.20 gal/min"
    #[arg(long, value_name = "FLOW", value_parser = Entered::parse, requires_all = ["speed", "width"])]
    pub(crate) flow: Option<Entered>,
    /// Speed, like "3 mph"
    #[arg(long, value_name = "SPEED", value_parser = Entered::parse, requires = "flow")]
    pub(crate) speed: Option<Entered>,
    /// Spacing of the nozzles for the flow of one, width of the boom for that of all, like "20 in"
    #[arg(long, value_name = "LENGTH", value_parser = Entered::parse, requires = "flow")]
    pub(crate) width: Option<Entered>,
    /// An area that was sprayed, like "250 ft2"
    #[arg(long, value_name = "AREA", value_parser = Entered::parse, requires_all = ["area_time", "caught"], conflicts_with = "flow")]
    pub(crate) area: Option<Entered>,
    /// How long it took, like "20 s"
    #[arg(long, value_name = "TIME", value_parser = Entered::parse, requires = "area")]
    pub(crate) area_time: Option<Entered>,
    /// What was caught afterwards, like "1.25 gal"
    #[arg(long, value_name = "VOLUME", value_parser = Entered::parse)]
    pub(crate) caught: Option<Entered>,
    /// For how long it was caught; left out: as long as the area took
    #[arg(long, value_name = "TIME", value_parser = Entered::parse, requires = "area")]
    pub(crate) catch_time: Option<Entered>,
    /// Spacing of the nozzles, like "20 in": how far to go for the 128th of an acre
    #[arg(long, value_name = "LENGTH", value_parser = Entered::parse, conflicts_with_all = ["flow", "area"])]
    pub(crate) spacing: Option<Entered>,
    /// A rate, like "40 gal/acre", in the other unit
    #[arg(long, value_name = "RATE", value_parser = Entered::parse, conflicts_with_all = ["flow", "area", "spacing", "caught"])]
    pub(crate) rate: Option<Entered>,
    /// What the rate found is held against.
    #[command(flatten)]
    pub(crate) against: AgainstArgs,
}

/// Nozzles by jar test, at another pressure, or against the label's droplet class.
#[derive(Debug, Args)]
#[command(
    override_usage = "sward calc nozzles --catches <N, N, ... UNIT> --time <TIME> [--new-flow <FLOW>]\n       sward calc nozzles --flow <FLOW> --pressure <PRESSURE> --other-pressure <PRESSURE>\n       sward calc nozzles --flow <FLOW> --pressure <PRESSURE> --wanted-flow <FLOW>\n       sward calc nozzles --label-finest <CLASS> [--label-coarsest <CLASS>] [--drops <CLASS>]"
)]
pub(crate) struct NozzlesCalc {
    /// What each nozzle gave in the same time: "20, 21, 25 fl oz"
    #[arg(long, value_name = "N, N, ... UNIT", requires = "time")]
    pub(crate) catches: Option<String>,
    /// For how long each was caught, like "1 min"
    #[arg(long, value_name = "TIME", value_parser = Entered::parse, requires = "catches")]
    pub(crate) time: Option<Entered>,
    /// What a new nozzle gives at this pressure, like "0.16 gal/min"
    #[arg(long, value_name = "FLOW", value_parser = Entered::parse, requires = "catches")]
    pub(crate) new_flow: Option<Entered>,
    /// Flow of a nozzle, like "0.20 gal/min"
    #[arg(long, value_name = "FLOW", value_parser = Entered::parse, requires = "pressure")]
    pub(crate) flow: Option<Entered>,
    /// At which pressure, like "40 psi"
    #[arg(long, value_name = "PRESSURE", value_parser = Entered::parse, requires = "flow")]
    pub(crate) pressure: Option<Entered>,
    /// The pressure to tell the flow at
    #[arg(long, value_name = "PRESSURE", value_parser = Entered::parse, requires = "flow", conflicts_with = "wanted_flow")]
    pub(crate) other_pressure: Option<Entered>,
    /// The flow to tell the pressure for
    #[arg(long, value_name = "FLOW", value_parser = Entered::parse, requires = "flow")]
    pub(crate) wanted_flow: Option<Entered>,
    /// The droplet class of the nozzle at its pressure, from its maker's table
    #[arg(long, value_name = "CLASS", value_parser = drops_parser(), requires = "label_finest")]
    pub(crate) drops: Option<DropletClass>,
    /// The finest class the label allows
    #[arg(long, value_name = "CLASS", value_parser = drops_parser())]
    pub(crate) label_finest: Option<DropletClass>,
    /// The coarsest class the label allows; left out: any coarser one
    #[arg(long, value_name = "CLASS", value_parser = drops_parser(), requires = "label_finest")]
    pub(crate) label_coarsest: Option<DropletClass>,
}

/// The walking pace.
#[derive(Debug, Args)]
pub(crate) struct PaceCalc {
    /// The marked distance, like "100 ft"
    #[arg(long, value_name = "LENGTH", value_parser = Entered::parse)]
    pub(crate) length: Entered,
    /// The speed wanted, like "3 mph"
    #[arg(long, value_name = "SPEED", value_parser = Entered::parse)]
    pub(crate) speed: Entered,
    /// How long each run took: "22, 23.5, 22.8 s"
    #[arg(long, value_name = "N, N, ... UNIT")]
    pub(crate) times: Option<String>,
}

/// Whether a calibration holds, two people's results, and how to go on after the half-way check.
#[derive(Debug, Args)]
#[command(
    override_usage = "sward calc calibration --days-ago <DAYS> [--product <THEN>=<NOW>] [OPTIONS]\n       sward calc calibration --first <NAME>=<RESULT> [--second <NAME>=<RESULT>]\n       sward calc calibration --planned <RATE> --rate-done <RATE> [--pace <SPEED>] [--setting <NUMBER> --tried <SETTING>=<RATE>]"
)]
pub(crate) struct CalibrationCalc {
    /// How many days ago it was calibrated
    #[arg(long, value_name = "DAYS", allow_hyphen_values = true)]
    pub(crate) days_ago: Option<i64>,
    /// Days after which to calibrate again, instead of the advised ones
    #[arg(long, value_name = "DAYS", requires = "days_ago")]
    pub(crate) most_days: Option<u32>,
    /// The product then and now, like "bait A=bait B"
    #[arg(long, value_name = "THEN=NOW", requires = "days_ago")]
    pub(crate) product: Option<String>,
    /// Who walked then, and who walks now
    #[arg(long, value_name = "THEN=NOW", requires = "days_ago")]
    pub(crate) operator: Option<String>,
    /// The spreader or sprayer then and now
    #[arg(long, value_name = "THEN=NOW", requires = "days_ago")]
    pub(crate) machine: Option<String>,
    /// Wheels and tires then and now; "none" where it has none
    #[arg(long, value_name = "THEN=NOW", requires = "days_ago")]
    pub(crate) wheel: Option<String>,
    /// Nozzles then and now; "none" where it has none
    #[arg(long, value_name = "THEN=NOW", requires = "days_ago")]
    pub(crate) nozzle: Option<String>,
    /// The swath then and now, like "8 ft=8 ft"
    #[arg(long, value_name = "THEN=NOW", requires = "days_ago")]
    pub(crate) swath: Option<String>,
    /// One person's result, like "Ann=3.6 lb/1000 ft2"
    #[arg(long, value_name = "NAME=RESULT", conflicts_with = "days_ago")]
    pub(crate) first: Option<String>,
    /// The other person's result
    #[arg(long, value_name = "NAME=RESULT", requires = "first")]
    pub(crate) second: Option<String>,
    /// The planned rate, to go on with after the half-way check
    #[arg(long, value_name = "RATE", value_parser = Entered::parse, requires = "rate_done", conflicts_with_all = ["days_ago", "first"])]
    pub(crate) planned: Option<Entered>,
    /// The rate on the part that is done
    #[arg(long, value_name = "RATE", value_parser = Entered::parse, requires = "planned")]
    pub(crate) rate_done: Option<Entered>,
    /// The label's most
    #[arg(long, value_name = "RATE", value_parser = Entered::parse, requires = "planned")]
    pub(crate) most: Option<Entered>,
    /// The pace so far, like "3 mph"
    #[arg(long, value_name = "SPEED", value_parser = Entered::parse, requires = "planned")]
    pub(crate) pace: Option<Entered>,
    /// The setting so far
    #[arg(
        long,
        value_name = "NUMBER",
        allow_hyphen_values = true,
        requires = "planned"
    )]
    pub(crate) setting: Option<Decimal>,
    /// A setting tried when calibrating and what it gave, like "10=2.8 lb/1000 ft2"; several times
    #[arg(long, value_name = "SETTING=RATE", value_parser = tried, requires = "setting")]
    pub(crate) tried: Vec<(Decimal, Entered)>,
}

fn tried(text: &str) -> Result<(Decimal, Entered), String> {
    let like = "write it as setting=rate, such as \"10=2.8 lb/1000 ft2\"";
    let (setting, rate) = text.split_once('=').ok_or(like)?;
    let setting = Decimal::from_str_exact(setting.trim()).map_err(|_| like)?;
    let rate = Entered::parse(rate).map_err(|error| error.to_string())?;
    Ok((setting, rate))
}

fn passes(text: &str) -> Passes {
    match text {
        "2" => Passes::TwoAtRightAngles,
        _ => Passes::One,
    }
}

fn travel(text: &str) -> Travel {
    match text {
        "one-way" => Travel::OneWay,
        _ => Travel::BackAndForth,
    }
}

fn drops_parser() -> impl clap::builder::TypedValueParser<Value = DropletClass> {
    PossibleValuesParser::new(DROPS).try_map(|name| {
        let class = serde_json::from_value(serde_json::Value::String(name.clone()));
        class.map_err(|_| format!("{name} is not known"))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_class_on_the_command_line_is_one_of_the_rules() {
        assert_eq!(DROPS.as_slice(), DropletClass::NAMES);
    }

    #[test]
    fn a_setting_tried_needs_its_rate() {
        assert!(tried("10=2.8 lb/1000 ft2").is_ok());
        assert!(tried("10").is_err() && tried("x=2 lb/acre").is_err());
    }
}
