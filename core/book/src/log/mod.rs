//! The signed log: entries, how they are encoded, signed and checked, and how two logs compare.
//!
//! No storage here, and no meaning of facts: an entry is bytes that prove who wrote them.

mod entry;
mod heads;

pub(crate) use entry::LAMPORT_MAX;
pub use entry::{
    Body, ENTRY_BYTES_MAX, ENTRY_FORMAT, Entry, FACTS_MAX, SheetChange, Stamp, sign_entry,
};
pub use heads::{Head, digest_of_heads};
