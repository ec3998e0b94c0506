//! What the reader of walked tracks adds to a library: GPX, and XML below it.

uniffi::setup_scaffolding!();

/// How many tracks a file holds.
#[uniffi::export]
#[must_use]
pub fn used(text: &str) -> String {
    match gpx::read(text.as_bytes()) {
        Ok(file) => file.tracks.len().to_string(),
        Err(error) => error.to_string(),
    }
}
