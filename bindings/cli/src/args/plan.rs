//! Planning and getting ready: the plan, readings, the walk round, "may I treat?".

use std::path::PathBuf;

use clap::Args;
use sward_rules::Entered;
use sward_rules::sky::{Bloom, Soil};
use sward_rules::walk_round::Question;

use super::values::{BLOOMS, QUESTIONS, SOILS, one_of};

/// The plan of a visit: what is given is written down, then the plan is worked out.
#[derive(Debug, Args)]
pub(crate) struct PlanArgs {
    /// The visit, or its yard for the newest one
    pub(crate) visit: String,
    /// The label sheet to work from
    #[arg(long)]
    pub(crate) label: Option<String>,
    /// Product per area, like "2.5 lb/1000 ft2"
    #[arg(long, value_name = "RATE")]
    pub(crate) rate: Option<String>,
    /// Finished mix per area, for liquids, like "2 gal/1000 ft2"
    #[arg(long, value_name = "WATER")]
    pub(crate) carrier: Option<String>,
    /// What the hopper or tank holds, like "50 lb" or "25 gal"
    #[arg(long, value_name = "AMOUNT")]
    pub(crate) holds: Option<String>,
    /// The smallest step of what the product is measured with, like "0.5 lb" or "1 fl oz"
    #[arg(long, value_name = "STEP")]
    pub(crate) vessel: Option<String>,
    /// In 1 pass, or 2 at right angles, each at half the rate
    #[arg(long, value_parser = ["1", "2"])]
    pub(crate) passes: Option<String>,
    /// Width of one swath, like "8 ft"
    #[arg(long, value_name = "WIDTH")]
    pub(crate) swath: Option<String>,
    /// Only these sections; left out: all that are measured
    #[arg(long = "section", value_name = "SECTION")]
    pub(crate) sections: Vec<String>,
    /// Plan for the area less its uncertainty
    #[arg(long)]
    pub(crate) less_uncertainty: bool,
    /// Show the working
    #[arg(long)]
    pub(crate) how: bool,
}

/// Readings at the yard.
#[derive(Debug, Args)]
pub(crate) struct ReadingArgs {
    /// The visit, or its yard for the newest one
    pub(crate) visit: String,
    /// Wind by meter.
    #[command(flatten)]
    pub(crate) wind: WindArgs,
    /// What else was read or seen.
    #[command(flatten)]
    pub(crate) sky: SkyArgs,
}

/// Wind by a hand meter.
#[derive(Debug, Args)]
#[group(skip)]
pub(crate) struct WindArgs {
    /// A reading of the wind meter: "6 mph", "6 mph gust 9 mph from 200 at 5 ft @08:01"; several make a series
    #[arg(long, value_name = "READING")]
    pub(crate) wind: Vec<String>,
    /// A series as CSV with the columns time, wind and, if noted, gust, from and height
    #[arg(long, value_name = "FILE")]
    pub(crate) wind_file: Option<PathBuf>,
}

/// What else was read or seen of the sky.
#[derive(Debug, Args)]
#[group(skip)]
pub(crate) struct SkyArgs {
    /// Air temperature in the shade, like "78 F"
    #[arg(long, value_name = "TEMPERATURE", value_parser = Entered::parse, allow_hyphen_values = true)]
    pub(crate) air: Option<Entered>,
    /// Relative humidity in percent
    #[arg(long, value_name = "PERCENT", requires = "air", value_parser = clap::value_parser!(u8).range(0..=100))]
    pub(crate) humidity: Option<u8>,
    /// The soil
    #[arg(long, value_parser = one_of::<Soil, 5>(SOILS))]
    pub(crate) soil: Option<Soil>,
    /// Soil temperature by a thermometer, like "60 F"
    #[arg(long, value_name = "TEMPERATURE", requires = "soil", value_parser = Entered::parse, allow_hyphen_values = true)]
    pub(crate) soil_temperature: Option<Entered>,
    /// Blooms and bees
    #[arg(long, value_parser = one_of::<Bloom, 3>(BLOOMS))]
    pub(crate) bloom: Option<Bloom>,
    /// Signs of an inversion: none, or of hanging-smoke, fog, dew, still-air, clear-sky-low-sun
    #[arg(long, value_delimiter = ',', value_name = "SIGN,...")]
    pub(crate) inversion: Vec<String>,
    /// Wind by what the trees do, where there is no meter: Beaufort force 0 to 12
    #[arg(long, value_name = "FORCE", value_parser = clap::value_parser!(u8).range(0..=12))]
    pub(crate) beaufort: Option<u8>,
    /// When it was read or seen, like 08:30; left out: now
    #[arg(long, value_name = "TIME")]
    pub(crate) at: Option<String>,
}

/// The walk round the yard.
#[derive(Debug, Args)]
pub(crate) struct WalkRoundArgs {
    /// The visit, or its yard for the newest one
    pub(crate) visit: String,
    /// The answers; where none is given, each question is asked.
    #[command(flatten)]
    pub(crate) answers: AnswersArgs,
}

/// Answers of the walk round.
#[derive(Debug, Args)]
#[group(skip)]
pub(crate) struct AnswersArgs {
    /// Seen to: moved, shut, covered, switched off, kept clear
    #[arg(long, value_delimiter = ',', value_name = "WHAT,...", value_parser = one_of::<Question, 11>(QUESTIONS))]
    pub(crate) moved: Vec<Question>,
    /// There is none here
    #[arg(long, value_delimiter = ',', value_name = "WHAT,...", value_parser = one_of::<Question, 11>(QUESTIONS))]
    pub(crate) not_here: Vec<Question>,
    /// It is there and cannot be seen to
    #[arg(long, value_delimiter = ',', value_name = "WHAT,...", value_parser = one_of::<Question, 11>(QUESTIONS))]
    pub(crate) cant: Vec<Question>,
    /// When you looked, like 08:30; left out: now
    #[arg(long = "looked-at", value_name = "TIME")]
    pub(crate) looked_at: Option<String>,
}

/// May I treat?
#[derive(Debug, Args)]
pub(crate) struct ReadyArgs {
    /// The visit, or its yard for the newest one
    pub(crate) visit: String,
    /// The label sheet; left out: the plan's
    #[arg(long)]
    pub(crate) label: Option<String>,
    /// A station's report, as text or in a file
    #[arg(long, value_name = "TEXT|FILE")]
    pub(crate) metar: Option<String>,
    /// A gridpoint forecast of the US National Weather Service, saved as a JSON file
    #[arg(long, value_name = "FILE")]
    pub(crate) forecast: Option<PathBuf>,
    /// How long treating will take, in minutes
    #[arg(long, value_name = "MINUTES", value_parser = clap::value_parser!(u32).range(1..=1440))]
    pub(crate) job_min: Option<u32>,
}
