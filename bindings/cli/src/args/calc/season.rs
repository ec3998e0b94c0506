//! A season: active ingredient, the earliest repeat, product on hand.

use chrono::NaiveDate;
use clap::Args;
use sward_rules::Entered;
use sward_rules::label::LabelSays;
use sward_rules::season::Interval;

use super::typed::{day, named, named_amount, says_count, says_interval};

/// Active ingredient over a season.
#[derive(Debug, Args)]
pub(crate) struct SeasonCalc {
    /// A treatment: "bifenthrin=0.2 %; put 100 lb on 1 acre"; a question mark for what is not known
    #[arg(long, value_name = "TREATMENT", value_parser = named)]
    pub(crate) before: Vec<(String, String)>,
    /// The treatment that is planned, in the same form
    #[arg(long, value_name = "TREATMENT", value_parser = named)]
    pub(crate) planned: Option<(String, String)>,
    /// The label's most in a season: "bifenthrin=0.4 lb/acre"
    #[arg(long, value_name = "INGREDIENT=RATE", value_parser = named_amount)]
    pub(crate) most: Vec<(String, Entered)>,
    /// Asked: others put on nothing
    #[arg(long)]
    pub(crate) others_none: bool,
}

/// The earliest repeat.
#[derive(Debug, Args)]
pub(crate) struct RepeatCalc {
    /// The day in question, like 2026-06-15
    #[arg(long, value_name = "DAY", value_parser = day)]
    pub(crate) on: NaiveDate,
    /// A day on which it was put on before; give each
    #[arg(long, value_name = "DAY", value_parser = day, conflicts_with = "never")]
    pub(crate) last: Vec<NaiveDate>,
    /// It was not put on before
    #[arg(long)]
    pub(crate) never: bool,
    /// The label's shortest time between two treatments: "30 days", "6 weeks", "2 months", "nothing"
    #[arg(long, value_name = "TIME", value_parser = says_interval)]
    pub(crate) shortest: Option<LabelSays<Interval>>,
    /// The label's most treatments of a season, or "nothing"
    #[arg(long, value_name = "NUMBER", value_parser = says_count)]
    pub(crate) season_most: Option<LabelSays<u32>>,
    /// Asked: others put on nothing
    #[arg(long)]
    pub(crate) others_none: bool,
    /// The season's first day; left out: the first of that year
    #[arg(long, value_name = "DAY", value_parser = day)]
    pub(crate) season_from: Option<NaiveDate>,
}

/// Product on hand.
#[derive(Debug, Args)]
pub(crate) struct StockCalc {
    /// What the plan needs
    #[arg(long, value_name = "AMOUNT", value_parser = Entered::parse)]
    pub(crate) needed: Entered,
    /// The day of the treatment, like 2026-06-15
    #[arg(long, value_name = "DAY", value_parser = day)]
    pub(crate) on: NaiveDate,
    /// A lot: "A17=20 lb; bought 2026-03-01; opened 2026-05-01; expires 2027-03-01"; a question mark
    /// for an amount that is not known, "expires nothing" where no day is printed
    #[arg(long, value_name = "LOT", value_parser = named)]
    pub(crate) lot: Vec<(String, String)>,
}
