//! Views: what all facts and sheets add up to. Pure functions of the set of entries, ordered by
//! Lamport number and then hash, so that equal sets give equal views on every phone.
//!
//! Each row belongs to a subject and is computed anew, whole, whenever an entry touches it.

pub mod device;
pub mod incident;
pub mod keep_off;
pub mod roster;
pub mod sheets;
pub mod twice;
pub mod visit;
pub mod words;

mod after;

mod refresh;

pub(crate) use refresh::{StoreChains, Touched, View, day_number, read_row, refresh, refresh_all};
