//! What the core's crates reach for outside the workspace, directly and through others.
//!
//! Read from `cargo tree`, one crate at a time: the features that another crate of the workspace
//! switches on are not this crate's. What its own code does is in `purity`.

use std::collections::BTreeSet;
use std::process::Command;

use cargo_metadata::DependencyKind;
use sward_tests::repo_root;

use crate::arrows::metadata;
use crate::assert_none;

/// What `rules` may name: types, parsers and geometry, all without clock, files or randomness.
const RULES_MAY_NAME: [&str; 14] = [
    "chrono",
    "chrono-tz",
    "geo",
    "geographiclib-rs",
    "gpx",
    "metar",
    "minicbor",
    "rust_decimal",
    "serde",
    "serde_json",
    "solar-positioning",
    "strum",
    "thiserror",
    "uom",
];

/// Crates that bring the machine's clock, zone, randomness, files or a database.
const MACHINE: [&str; 12] = [
    "directories",
    "fastrand",
    "fs-err",
    "getrandom",
    "iana-time-zone",
    "libsqlite3-sys",
    "memmap2",
    "notify",
    "rusqlite",
    "tempfile",
    "uuid",
    "walkdir",
];

/// Crates that open sockets or exist to do so.
const NETWORK: [&str; 18] = [
    "async-std",
    "axum",
    "curl",
    "h2",
    "hyper",
    "iroh",
    "mio",
    "native-tls",
    "object_store",
    "openssl",
    "quinn",
    "reqwest",
    "rustls",
    "smol",
    "socket2",
    "tokio",
    "tungstenite",
    "ureq",
];

/// Crates that make or read HTML.
const HTML: [&str; 9] = [
    "ammonia",
    "askama",
    "handlebars",
    "html5ever",
    "markup5ever",
    "maud",
    "minijinja",
    "rinja",
    "tera",
];

/// Every crate that ends up in this one, on any platform, itself included.
fn closure(crate_name: &str) -> BTreeSet<String> {
    let tree = Command::new(env!("CARGO"))
        .args([
            "tree",
            "--all-features",
            "--target=all",
            "--edges=normal,build",
            "--prefix=none",
        ])
        .args(["--locked", "--package", crate_name])
        .current_dir(repo_root())
        .output()
        .expect("cargo runs");
    assert!(
        tree.status.success(),
        "{}",
        String::from_utf8_lossy(&tree.stderr)
    );
    let lines = String::from_utf8(tree.stdout).expect("crate names are text");
    lines
        .lines()
        .filter_map(|line| line.split(' ').next())
        .map(str::to_owned)
        .collect()
}

fn named_by(crate_name: &str) -> BTreeSet<String> {
    let metadata = metadata();
    let packages = metadata.workspace_packages();
    let package = packages
        .iter()
        .find(|package| package.name == crate_name)
        .expect("it is a member");
    let shipped = |need: &&cargo_metadata::Dependency| need.kind != DependencyKind::Development;
    package
        .dependencies
        .iter()
        .filter(shipped)
        .map(|need| need.name.clone())
        .collect()
}

fn outside(found: &BTreeSet<String>, allowed: &[&str]) -> Vec<String> {
    found
        .iter()
        .filter(|name| !allowed.contains(&name.as_str()))
        .cloned()
        .collect()
}

fn among(found: &BTreeSet<String>, banned: &[&[&str]]) -> Vec<String> {
    let is_banned = |name: &&String| banned.iter().any(|list| list.contains(&name.as_str()));
    found.iter().filter(is_banned).cloned().collect()
}

#[test]
fn rules_names_only_what_it_may() {
    assert_none(
        "named by rules",
        &outside(&named_by("sward-rules"), &RULES_MAY_NAME),
    );
}

#[test]
fn nothing_below_rules_reaches_the_machine() {
    let reached = closure("sward-rules");
    assert!(reached.contains("chrono"), "the tree was read");
    assert_none(
        "reached from rules",
        &among(&reached, &[&MACHINE, &NETWORK, &HTML]),
    );
}

#[test]
fn book_has_no_network_and_no_html() {
    let reached = closure("sward-book");
    assert!(reached.contains("rusqlite"), "the tree was read");
    assert_none("reached from book", &among(&reached, &[&NETWORK, &HTML]));
}

#[test]
fn crew_has_no_html() {
    assert_none(
        "reached from crew",
        &among(&closure("sward-crew"), &[&["axum"], &HTML]),
    );
}

/// What `screens` may name: serving to this machine, HTML, words, and what its own desk is kept in.
const SCREENS_MAY_NAME: [&str; 19] = [
    "axum",
    "chrono",
    "chrono-tz",
    "csv",
    "data-encoding",
    "fluent-bundle",
    "form_urlencoded",
    "include_dir",
    "maud",
    "rusqlite",
    "rust_decimal",
    "serde",
    "serde_json",
    "sha2",
    "thiserror",
    "tokio",
    "tokio-stream",
    "unic-langid",
    "uuid",
];

/// Crates that reach other machines: the screens are served, and ask nobody.
const CLIENTS: [&str; 7] = [
    "curl",
    "native-tls",
    "openssl",
    "quinn",
    "reqwest",
    "rustls",
    "ureq",
];

#[test]
fn screens_name_only_what_they_may() {
    let ours = ["sward-rules", "sward-book", "sward-crew"];
    let allowed = [SCREENS_MAY_NAME.as_slice(), &ours].concat();
    assert_none(
        "named by screens",
        &outside(&named_by("sward-screens"), &allowed),
    );
}

#[test]
fn screens_serve_and_ask_nobody() {
    let reached = closure("sward-screens");
    assert!(reached.contains("axum"), "the tree was read");
    assert_none("reached from screens", &among(&reached, &[&CLIENTS]));
}

#[test]
fn a_stray_dependency_is_found() {
    let found = BTreeSet::from(["chrono", "getrandom", "maud", "tokio"].map(str::to_owned));
    assert_eq!(
        outside(&found, &RULES_MAY_NAME),
        ["getrandom", "maud", "tokio"]
    );
    assert_eq!(among(&found, &[&NETWORK, &HTML]), ["maud", "tokio"]);
    assert_eq!(among(&found, &[&MACHINE]), ["getrandom"]);
}

#[test]
fn a_tree_with_a_database_shows_it() {
    assert!(!among(&closure("sward-book"), &[&MACHINE]).is_empty());
}
