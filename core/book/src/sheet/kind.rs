//! Which sheets there are.

use minicbor::{Decode, Encode};
use serde::Serialize;

/// What kind of sheet a document is. The number is its name in stored and sent bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Encode, Decode, Serialize)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum SheetKind {
    /// A yard: the place, its sections and what is left out.
    #[n(0)]
    Yard,
    /// What a person copied from a label.
    #[n(1)]
    Label,
    /// What is intended for a visit, before it starts. It has the visit's own UUID.
    #[n(2)]
    Plan,
    /// A spreader or sprayer with its calibration.
    #[n(3)]
    Equipment,
    /// Product on hand: one lot of it.
    #[n(4)]
    Stock,
    /// Someone of the crew, with the licence.
    #[n(5)]
    Person,
    /// Whom to call when something went wrong.
    #[n(6)]
    HelpLines,
}
