//! English words for what the rules and the book give as codes.
//!
//! No decisions are made here; another language is another such module.

mod after;
mod codes;
mod facts;
mod fields;
mod findings;
mod keep_off;
mod look;
mod working;

pub(crate) use codes::{code, key_of, method, proof, role, verdict, visit_state, why_not};
pub(crate) use facts::fact_line;
pub(crate) use fields::field_hint;
pub(crate) use findings::{findings_json, findings_table, opens_next};
pub(crate) use keep_off::{Told, keep_off_state, terms};
pub(crate) use look::{decision, more};
pub(crate) use working::how;

/// What every screen that allows a treatment says once.
pub(crate) const CAUTION: &str = "Read and follow the label; your state and town may ask for more.";
