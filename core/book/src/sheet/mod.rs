//! Sheets: what people keep editing. One Automerge document each.
//!
//! Nothing is deleted, a list is a map keyed by UUID, and a conflict is read with all its values.

mod doc;
mod kind;
mod label;
mod plan;
pub mod schema;
mod value;
mod yard;

pub use doc::{FieldValue, Item, SheetDoc, Versions, actor_of, check_change};
pub use kind::SheetKind;
pub use label::{Conflict, LabelSheet, must_be_settled};
pub use plan::PlanSheet;
pub use value::{TEXT_BYTES_MAX, check_text, outline_of, outline_value, spoken};
pub use yard::{Section, YardSheet};
