//! The working behind a number, for a person who wants to check it by hand.

use sward_rules::Working;

use crate::print::Page;

/// Adds inputs, formula, source, rounding and notes.
pub(crate) fn how(page: &mut Page, of: &str, working: &Working) {
    page.line(format!(
        "How: {of}, by {} ({})",
        working.formula, working.source
    ));
    for (name, value) in &working.inputs {
        page.item(format!("{name}: {value}"));
    }
    if !working.rounding.is_empty() {
        page.item(format!("rounded {}", working.rounding));
    }
    for note in &working.notes {
        page.item(format!("note: {note}"));
    }
}
