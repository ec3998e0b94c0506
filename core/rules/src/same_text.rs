//! Whether two names that people typed are the same one.

/// The same name or word, blanks at the ends and the case of letters aside.
pub(crate) fn same_text(one: &str, other: &str) -> bool {
    one.trim().to_lowercase() == other.trim().to_lowercase()
}
