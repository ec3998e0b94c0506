//! Watering in: what the label asks for, how much water that is, and for how long to run it.
//!
//! There is no default depth: an empty field on the label sheet is not known.

mod cans;
mod need;
mod run;

pub use cans::{CANS_LEAST, CANS_MOST, CanTest, CanTestResult, can_depth, can_test};
pub use need::{SectionWater, WaterAsked, WateringNeed, watering_need};
pub use run::{RUNS_MOST, RunAsked, RunPlan, watering_run};
