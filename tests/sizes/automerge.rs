//! What Automerge adds to a library, used as the sheets use it.

use automerge::transaction::Transactable as _;
use automerge::{AutoCommit, AutomergeError, ROOT, ReadDoc as _};

uniffi::setup_scaffolding!();

/// Merges two sheets and reads what both say.
#[uniffi::export]
#[must_use]
pub fn used(text: &str) -> String {
    merged(text).unwrap_or_else(|error| error.to_string())
}

fn merged(text: &str) -> Result<String, AutomergeError> {
    let mut one = AutoCommit::new();
    one.put(ROOT, "name", text)?;
    let mut other = AutoCommit::load(&one.save())?;
    other.put(ROOT, "name", "other")?;
    one.put(ROOT, "name", "one")?;
    one.merge(&mut other)?;
    let said = one.get_all(ROOT, "name")?;
    Ok(said.iter().map(|(value, _)| value.to_string()).collect())
}
