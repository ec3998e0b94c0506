//! A library with the facade's scaffolding and nothing else: what the others of this folder are measured against.

uniffi::setup_scaffolding!();

/// Gives back what it was given.
#[uniffi::export]
#[must_use]
pub fn used(text: &str) -> String {
    text.to_owned()
}
