//! Looking before treating: how many there are, against which threshold, and whether it worked.
//!
//! Samples become a density in [`mod@density`], thresholds and the decision are in [`threshold`],
//! percent control after a treatment in [`control`]. What the pest is, a person decides.

pub mod control;
pub mod density;
pub mod threshold;

mod poisson;

pub use control::{BeforeAfter, abbott_percent, henderson_tilton_percent};
pub use density::{Density, Sample, SampleMethod, density, per_ft2};
pub use threshold::{
    Because, Decided, Decision, Held, Pest, Threshold, decide, threshold_for, thresholds,
};

#[cfg(test)]
mod tests;
