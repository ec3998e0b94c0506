//! What merging means: each row of the table in DEVELOPERS.md, over random orders of arrival,
//! with real Automerge documents and SQLite files.
//!
//! Every scenario is checked on the phones that lived it and on one that got it shuffled.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod around;
mod clocks;
mod forks;
mod keep_offs;
mod membership;
mod records;
mod sheets;
