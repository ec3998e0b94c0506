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
    if let Some(rounding) = &working.rounding {
        page.item(format!("rounded {rounding}"));
    }
    for note in &working.notes {
        page.item(format!("note: {note}"));
    }
}
