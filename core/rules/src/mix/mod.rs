//! From the label's words to what goes into tank, hose-end jar or on a mound: rates in every form,
//! one mix for several yards, dials, spots and bait.
//!
//! How much a yard takes load by load is in [`crate::plan`]; here is what stands around it.

mod bait;
mod draws;
mod hose_end;
mod leftover;
mod rates;
mod spots;
mod tank;

pub use bait::{BaitLook, Foraging, GROUND_LEAST_F, GROUND_MOST_F, bait_findings};
pub use draws::{DRAWS_MOST, Draw, DrawnAt, Served, Serving, Stop, TankMix, serve};
pub(crate) use rates::{content_si, lawn};

pub use hose_end::{DIAL_STEPS_MOST, Dial, DialAsked, hose_end_dial, hose_end_test};
pub use leftover::{Already, Leftover, LeftoverChoices, Site, SiteTakes, leftover_choices};
pub use rates::{
    product_for_ingredient, product_in_mix, product_over, rate_forms, rate_from_mix,
    rate_of_coverage,
};
pub use spots::{SPOTS_MOST, SpotJob, SpotPlan, spots};
pub use tank::{Filled, TankFill, tank_fill};

use rust_decimal::Decimal;

use crate::quantity::exact;

/// Digits to which what is left, or what it covers, is cut.
pub(crate) const SPARE_DIGITS: u32 = 6;

/// `a × b ÷ c` to 18 digits; none when it is out of range.
pub(crate) fn times_over(a: Decimal, b: Decimal, c: Decimal) -> Option<Decimal> {
    // Two numbers of 28 digits overflow before the division brings them back.
    let a = exact(a)?;
    let b = exact(b)?;
    a.checked_div(c)
        .and_then(|quotient| quotient.checked_mul(b))
        .or_else(|| a.checked_mul(b)?.checked_div(c))
        .and_then(exact)
}

#[cfg(test)]
mod tests;
