//! What some rules ask a record of an application to hold, within which time it is written, and
//! how long it is kept.
//!
//! A help to look with, no verdict: texts of laws were read in stored copies, and which rule
//! governs depends on state, product and licence, for a person to confirm. Whether a given record
//! holds a field is for whoever keeps the records to say; here is what is asked.

mod asked;
mod data;
mod field;
mod times;

use serde::Serialize;

use crate::place::{Place, Told};

pub use asked::{Asked, Circumstances, asked, rules_that_may_govern};
pub use data::{
    GEORGIA_40_21_5, MINNESOTA_18B_37, NEW_YORK_33_1205, PENNSYLVANIA_128_35, RULES, TEXAS_4_TAC_7,
    USDA_7_CFR_110_3,
};
pub use field::{FieldName, Filled};
pub use times::{RecordTimes, record_times};

/// Stands beside everything that leans on [`RULES`].
pub const CHECK_YOUR_RULE: &str = "What the crew recorded. What a record must hold depends on state, product and licence: check your state's current rule.";

/// When a field is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum AskedWhen {
    /// Always.
    Always,
    /// Where a re-entry time applies.
    WhereReEntryApplies,
}

/// A short list of fields for spots.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct SpotRule {
    /// Where it was read.
    pub source: &'static str,
    /// It holds under this many square feet: a tenth of an acre is 4,356.
    pub under_ft2: u32,
    /// What is asked for then.
    pub fields: &'static [FieldName],
}

/// One rule about records.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct RecordRule {
    /// The rule.
    pub name: &'static str,
    /// Where it was read.
    pub source: &'static str,
    /// What it is about, as far as that was read.
    pub about: &'static str,
    /// The state whose rule it is; none: a federal one.
    pub place: Option<Place>,
    /// Whether it is about restricted-use products only.
    pub restricted_use_only: bool,
    /// How long a record is kept, in years; none: not known. An unknown time never inherits
    /// another rule's.
    pub keep_years: Option<Told<u8>>,
    /// Within how many days it is written; none: not known.
    pub write_within_days: Option<Told<u8>>,
    /// What it asks for, and when.
    pub fields: &'static [(FieldName, AskedWhen)],
    /// What it asks for instead where a spot is treated.
    pub spot: Option<SpotRule>,
}

impl RecordRule {
    /// Whether the rule asks for a field, ever.
    pub fn asks_for(&self, field: FieldName) -> bool {
        self.fields.iter().any(|(asked, _)| *asked == field)
    }
}

#[cfg(test)]
mod tests;
