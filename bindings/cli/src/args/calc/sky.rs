//! The sky: sun, wind, air, inversions, and what lies down wind.

use chrono_tz::Tz;
use clap::Args;
use sward_rules::Entered;

/// Sunrise, sunset and civil twilight.
#[derive(Debug, Args)]
pub(crate) struct SunCalc {
    /// Where and on which day.
    #[command(flatten)]
    pub(crate) day: DayArgs,
    /// Where the sun stands at this time of the day, like 14:30
    #[arg(long, value_name = "TIME")]
    pub(crate) at: Option<String>,
}

/// A place and a day of its own calendar.
#[derive(Debug, Args)]
#[group(skip)]
pub(crate) struct DayArgs {
    /// Latitude in degrees, north above zero, like 40.7128
    #[arg(long, value_name = "DEGREES", allow_hyphen_values = true)]
    pub(crate) lat: f64,
    /// Longitude in degrees, east above zero, like -74.0060
    #[arg(long, value_name = "DEGREES", allow_hyphen_values = true)]
    pub(crate) lon: f64,
    /// The place's time zone, like America/New_York
    #[arg(long, value_name = "ZONE", value_parser = zone)]
    pub(crate) zone: Tz,
    /// The day, like 2026-06-20
    #[arg(long, value_name = "DAY")]
    pub(crate) day: chrono::NaiveDate,
}

fn zone(text: &str) -> Result<Tz, String> {
    text.parse()
        .map_err(|_| "write a time zone like America/New_York".to_owned())
}

/// A wind in other units and at the height of weather reports, or a force in mph.
#[derive(Debug, Args)]
#[group(required = true, multiple = true)]
pub(crate) struct WindCalc {
    /// The wind a meter showed, like "6 mph"
    #[arg(long, value_name = "SPEED", value_parser = Entered::parse)]
    pub(crate) speed: Option<Entered>,
    /// How high above the lawn the meter was held, like "5 ft"
    #[arg(long, value_name = "HEIGHT", value_parser = Entered::parse, requires = "speed")]
    pub(crate) height: Option<Entered>,
    /// Beaufort force by what is seen, 0 to 12
    #[arg(long, value_name = "FORCE")]
    pub(crate) beaufort: Option<u8>,
}

/// Wet bulb, Delta T and dew point.
#[derive(Debug, Args)]
pub(crate) struct AirCalc {
    /// Air temperature in the shade, like "78 F"
    #[arg(long, value_name = "TEMPERATURE", value_parser = Entered::parse, allow_hyphen_values = true)]
    pub(crate) temperature: Entered,
    /// Relative humidity in percent, like 55
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    pub(crate) humidity: f64,
}

/// The hours in which air commonly does not mix, and what was seen of it.
#[derive(Debug, Args)]
pub(crate) struct InversionCalc {
    /// Where and on which day.
    #[command(flatten)]
    pub(crate) day: DayArgs,
    /// The time of the look, like 19:30, to judge by it
    #[arg(long, value_name = "TIME")]
    pub(crate) at: Option<String>,
    /// Signs seen then: none, or of hanging-smoke, fog, dew, still-air, clear-sky-low-sun
    #[arg(long, value_delimiter = ',', value_name = "SIGN,...", requires = "at")]
    pub(crate) signs: Vec<String>,
}

/// What lies down wind of a lawn.
#[derive(Debug, Args)]
pub(crate) struct DownWindCalc {
    /// Where the wind comes from, in degrees from north, like 270 for west; left out: not known
    #[arg(long, value_name = "DEGREES")]
    pub(crate) from: Vec<u16>,
    /// Something around the lawn and its direction: hive=90, windows=120-180, "play-area" where
    /// nobody knows
    #[arg(long = "thing", value_name = "WHAT=DEGREES", required = true)]
    pub(crate) things: Vec<String>,
}
