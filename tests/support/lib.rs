//! What several of the tests that span crates need.
//!
//! Helpers of one test alone stay beside that test.

pub mod crew;
pub mod measure;
pub mod orders;

use std::path::PathBuf;

/// The top of the repository.
///
/// # Panics
/// When this crate no longer lies one folder below the top.
pub fn repo_root() -> PathBuf {
    let here = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    here.parent()
        .expect("this crate lies one folder below the top")
        .to_path_buf()
}
