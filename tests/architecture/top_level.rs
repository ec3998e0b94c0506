//! What lies at the top of the repository, and that every crate takes the workspace's lints.
//!
//! What the files hold is in `tidy`.

use std::collections::BTreeSet;

use crate::assert_none;
use crate::files::{paths, texts};

/// What must be there.
const ALWAYS: [&str; 7] = [
    "Cargo.lock",
    "Cargo.toml",
    "DEVELOPERS.md",
    "README.md",
    "core",
    "bindings",
    "tests",
];

/// What may be there: the shell, what tests read, and what tools look for at the top.
const ALLOWED: [&str; 10] = [
    "android-shell",
    "fixtures",
    ".ci",
    ".gitignore",
    "LICENSE-APACHE",
    "LICENSE-MIT",
    "check",
    "clippy.toml",
    "rust-toolchain.toml",
    "rustfmt.toml",
];

fn tops(paths: &BTreeSet<String>) -> BTreeSet<&str> {
    paths
        .iter()
        .filter_map(|path| path.split('/').next())
        .collect()
}

fn strays(tops: &BTreeSet<&str>) -> Vec<String> {
    let missing = ALWAYS.iter().filter(|name| !tops.contains(*name));
    let extra = tops
        .iter()
        .filter(|name| !ALWAYS.contains(name) && !ALLOWED.contains(name));
    missing
        .map(|name| format!("{name} is missing"))
        .chain(extra.map(|name| format!("{name} has no place at the top")))
        .collect()
}

/// The lines of one table of a manifest, spaces and comments taken off.
fn table(manifest: &str, header: &str) -> Vec<String> {
    let bare = |line: &str| line.split('#').next().unwrap_or("").replace(' ', "");
    let after = manifest
        .lines()
        .map(bare)
        .skip_while(|line| line != header)
        .skip(1);
    after
        .take_while(|line| !line.starts_with('['))
        .filter(|line| !line.is_empty())
        .collect()
}

fn takes_the_lints(manifest: &str) -> bool {
    table(manifest, "[lints]") == ["workspace=true"]
}

fn has_firm_lints(manifest: &str) -> bool {
    let lints = table(manifest, "[workspace.lints.rust]");
    ["unsafe_code=\"forbid\"", "missing_docs=\"deny\""]
        .iter()
        .all(|wanted| lints.iter().any(|lint| lint == wanted))
}

#[test]
fn the_top_level_is_the_agreed_one() {
    assert_none("at the top level", &strays(&tops(&paths())));
}

#[test]
fn every_crate_takes_the_workspace_lints() {
    let texts = texts();
    let (tops, crates): (Vec<_>, Vec<_>) = texts
        .iter()
        .filter(|file| file.path == "Cargo.toml" || file.path.ends_with("/Cargo.toml"))
        .partition(|file| file.path == "Cargo.toml");
    assert!(
        tops.iter().any(|file| has_firm_lints(&file.text)),
        "unsafe is forbidden for all"
    );
    assert!(crates.len() >= 5, "the crates were found");
    let lax: Vec<String> = crates
        .iter()
        .filter(|file| !takes_the_lints(&file.text))
        .map(|file| file.path.clone())
        .collect();
    assert_none("crates without the workspace's lints", &lax);
}

#[test]
fn a_stray_or_missing_name_is_found() {
    let mut names: BTreeSet<&str> = ALWAYS.into_iter().collect();
    assert!(strays(&names).is_empty());
    names.insert("docs");
    names.remove("README.md");
    assert_eq!(
        strays(&names),
        ["README.md is missing", "docs has no place at the top"]
    );
}

#[test]
fn lax_lints_are_found() {
    assert!(takes_the_lints(
        "[package]\nname = \"x\"\n\n[lints]\nworkspace = true # all\n"
    ));
    assert!(!takes_the_lints("[package]\nname = \"x\"\n"));
    assert!(!takes_the_lints("[lints]\n# workspace = true\n"));
    assert!(!takes_the_lints("[lints]\nworkspace = false\n"));
    let firm = "[workspace.lints.rust]\nunsafe_code = \"forbid\"\nmissing_docs = \"deny\"\n";
    assert!(has_firm_lints(firm));
    assert!(!has_firm_lints(&firm.replace("forbid", "deny")));
}
