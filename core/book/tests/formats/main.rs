//! Every stored and sent type has a snapshot: a change of a format never goes unnoticed.
//!
//! And every format refuses a newer one, with a clear word and nothing changed.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod facts;
mod newer;
mod rows;
mod samples;
mod sheets;

/// Bytes as a person can read and compare them: diagnostic notation, then hexadecimal.
fn shown(bytes: &[u8]) -> String {
    format!(
        "{}\n{}",
        minicbor::display(bytes),
        data_encoding::HEXLOWER.encode(bytes)
    )
}
