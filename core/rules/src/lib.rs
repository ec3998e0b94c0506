//! What the trade knows: areas, doses, weather, keep-off times, counts.
//!
//! Pure functions only: no clock, no files, no randomness. Every answer carries its [`Working`];
//! every [`Finding`] is one of four words, and what is not known is never [`Verdict::Clear`].

pub mod calibrate;
pub mod finding;
pub mod keep_off;
pub mod label;
pub mod look;
pub mod measure;
pub mod mix;
pub mod place;
pub mod plan;
pub mod quantity;
pub mod record_rules;
pub mod season;
pub mod sky;
pub mod walk_round;
pub mod watering;
pub mod working;

mod error;
mod note;
mod same_text;
mod sentence;

pub use error::{Allowed, Axis, ControlCount, Field, MetarGroup, Most, RuleError, Walked};
pub use finding::{Finding, Verdict};
pub use note::{Note, Rounding};
pub use quantity::Entered;
pub use working::{Answer, Working};
