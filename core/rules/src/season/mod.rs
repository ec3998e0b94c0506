//! What adds up over a season: active ingredient, treatments and the days between them, product on
//! hand.
//!
//! Days are days of the yard's calendar, so that no change of clocks can move one.

mod ingredients;
mod interval;
mod repeat;
mod stock;

pub use ingredients::{
    IngredientSum, Others, PutOn, SeasonInput, SeasonMost, TREATMENTS_MOST, season_ingredients,
};
pub use interval::{Interval, IntervalUnit};
pub use repeat::{LastPutOn, Repeat, RepeatAsked, repeat};
pub use stock::{LOTS_MOST, Lot, LotUse, StockAsked, StockPlan, stock};

use chrono::NaiveDate;

/// A day as every record writes it.
fn day_text(day: NaiveDate) -> String {
    day.format("%Y-%m-%d").to_string()
}

#[cfg(test)]
mod tests;
