//! Tests that hold the design in place: which crate may know which, what the core may not reach
//! for, and the shape of the tree and its files.
//!
//! Each rule is a function from plain data to findings, so that beside the test on this
//! repository stands one on data that breaks the rule: a check that cannot fail holds nothing.

mod arrows;
mod files;
mod licences;
mod purity;
mod reach;
mod tidy;
mod tokens;
mod top_level;

/// Fails with every finding on its own line.
#[track_caller]
fn assert_none(rule: &str, findings: &[String]) {
    assert!(
        findings.is_empty(),
        "{rule}: {} found\n{}",
        findings.len(),
        findings.join("\n")
    );
}
