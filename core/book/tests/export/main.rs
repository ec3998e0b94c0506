//! Exported records: the same bytes from every phone, nothing left out, everything in doubt marked.

mod fields;
mod forms;
mod incidents;
mod results;
#[allow(
    clippy::unwrap_used,
    reason = "a scene that cannot be set up is a failed test"
)]
mod scene;
mod settling;
