//! What a person sees: the field screens, in English and Spanish, served to this machine alone.
//!
//! HTML is made here from what the book and the rules say; no rule and no record lives here. A
//! program around it gives the folder, the clock and the port, and shows the address.

mod ask;
mod books;
mod desk;
mod part;
mod screen;
mod season;
mod server;
mod sketch;
mod state;
#[cfg(test)]
mod testing;
mod trouble;
mod walk;
mod words;

pub use books::{Books, WalkSoFar, say};
pub use server::{Served, serve};
pub use sketch::around;
pub use state::Setting;
pub use trouble::{Result, Trouble};
