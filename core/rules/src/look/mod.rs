//! Looking before treating: what it is, how many there are, against which threshold, and whether it
//! worked.
//!
//! Samples become a density in [`mod@density`], thresholds and the decision are in [`threshold`], how
//! many more samples would decide in [`more`], warmth since a day in [`mod@degree_days`], percent
//! control after a treatment in [`control`] and [`mortality`]. [`keys`] help to tell a pest from its
//! look-alikes; what the pest is, a person decides.

pub mod control;
pub mod degree_days;
pub mod density;
pub mod keys;
pub mod more;
pub mod mortality;
pub mod threshold;

mod poisson;
mod spread;

pub use control::{
    BeforeAfter, Control, PercentInterval, abbott, abbott_percent, henderson_tilton,
};
pub use degree_days::{DayAir, DegreeDays, degree_days, single_sine};
pub use density::{Density, Sample, SampleMethod, density, per_ft2};
pub use more::{More, MoreUnknown, more_samples};
pub use mortality::{DeadOf, schneider_orelli};
pub use threshold::{
    Because, Decided, Decision, Held, Pest, Threshold, decide, threshold_for, thresholds,
};

#[cfg(test)]
mod tests;
