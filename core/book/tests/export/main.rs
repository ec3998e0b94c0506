//! Exported records: the same bytes from every phone, nothing left out, everything in doubt marked.

mod fields;
mod forms;
mod results;
mod scene;
mod settling;
