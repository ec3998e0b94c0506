//! Sheets: what people keep editing. One Automerge document each.
//!
//! Nothing is deleted, a list is a map keyed by UUID, and a conflict is read with all its values.

#[macro_use]
mod choice;
mod conflict;
mod doc;
mod equipment;
mod help_lines;
mod kind;
mod label;
mod offset;
mod person;
mod plan;
mod position;
mod reading;
pub mod schema;
mod stock;
mod tables;
mod value;
mod yard;

pub(crate) use conflict::conflicts_in;
pub use conflict::{Conflict, SheetConflict};
pub use doc::{FieldValue, Item, SheetDoc, Versions, actor_of, check_change};
pub use equipment::{EquipmentKind, EquipmentSheet};
pub use help_lines::{HelpLine, HelpLineKind, HelpLinesSheet};
pub use kind::SheetKind;
pub use label::{LabelSheet, LabelWords, must_be_settled};
pub use offset::{OFFSET_MOST_M, Offset};
pub use person::PersonSheet;
pub use plan::PlanSheet;
pub use position::Position;
pub use stock::StockSheet;
pub use value::{TEXT_BYTES_MAX, check_text, outline_of, outline_value, spoken};
pub use yard::{Contact, Mark, MarkKind, Section, YardSheet};
