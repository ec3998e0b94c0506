//! How phones agree: keys, joining, recovery, locked files and the exchange.
//!
//! No sockets and no files of its own: what is written goes to a `Write`, what is read comes from
//! a `Read`, and the exchange only turns messages into messages. What entries mean is the
//! business of `sward-book`.

pub mod exchange;
pub mod join;
pub mod keys;
pub mod locked;
pub mod recovery;
pub mod swap;
#[cfg(any(test, feature = "testing"))]
pub mod testing;

mod book_log;
mod check_digits;
mod crew_tag;
mod error;
mod log;
mod magic;

pub use check_digits::{crew_check_digits, device_check_digits};
pub use error::{CrewError, FileKind, PeerFault, Result};
pub use log::{CHUNK_BYTES_MAX, Log, Standing, TakenIn};
