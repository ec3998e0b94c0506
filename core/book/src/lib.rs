//! What the crew did: facts and sheets, the signed log, the store, views and exports.
//!
//! No network and no HTML. The clock and randomness are passed in ([`Env`]), so that a whole crew
//! runs deterministically in one process.

pub mod action;
pub mod book;
pub mod env;
pub mod export;
pub mod fact;
pub mod ids;
pub mod keys;
pub mod log;
pub mod record;
pub mod refusal;
pub mod sheet;
pub mod view;

#[cfg(any(test, feature = "testing"))]
pub mod testing;

mod error;
mod malformed;
mod store;
mod thing;

pub use book::Book;
pub use env::Env;
pub use error::{BookError, Result};
pub use malformed::Malformed;
pub use store::{ComparedRow, FoundByRow, STORE_FORMAT};
pub use thing::{Thing, Written};
