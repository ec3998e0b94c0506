//! The arrows between the workspace's crates: cli, ffi → screens → crew → book → rules.
//!
//! Skipping is allowed, turning round is not, in any kind of dependency. What a crate may take
//! from outside is in `reach`.

use cargo_metadata::{DependencyKind, Metadata, MetadataCommand};
use sward_tests::repo_root;

use crate::assert_none;

/// Every crate there may be, with its place and its folder. A crate knows only lower places.
const PLACES: [(&str, u8, &str); 8] = [
    ("sward-rules", 0, "core/rules"),
    ("sward-book", 1, "core/book"),
    ("sward-crew", 2, "core/crew"),
    ("sward-screens", 3, "core/screens"),
    ("sward-device", 3, "bindings/device"),
    ("sward-ffi", 4, "bindings/ffi"),
    ("sward-cli", 4, "bindings/cli"),
    (TESTS, 5, "tests"),
];

/// The one crate whose own code may use what exists for tests only.
const TESTS: &str = "sward-tests";

/// The feature that brings seeded clocks and random sources.
const TESTING: &str = "testing";

/// A member of the workspace, as far as the rules here look.
#[derive(Clone)]
struct Member {
    name: String,
    folder: String,
    needs: Vec<Need>,
}

#[derive(Clone)]
struct Need {
    name: String,
    only_in_tests: bool,
    features: Vec<String>,
}

/// What cargo says about the workspace, dependencies outside it left out.
pub(crate) fn metadata() -> Metadata {
    MetadataCommand::new()
        .manifest_path(repo_root().join("Cargo.toml"))
        .no_deps()
        .exec()
        .expect("cargo reads the workspace")
}

fn members(metadata: &Metadata) -> Vec<Member> {
    let root = &metadata.workspace_root;
    let folder = |manifest: &cargo_metadata::camino::Utf8Path| {
        let folder = manifest
            .parent()
            .and_then(|folder| folder.strip_prefix(root).ok());
        folder.expect("a member lies in the workspace").to_string()
    };
    let need = |dependency: &cargo_metadata::Dependency| Need {
        name: dependency.name.clone(),
        only_in_tests: dependency.kind == DependencyKind::Development,
        features: dependency.features.clone(),
    };
    let member = |package: &cargo_metadata::Package| Member {
        name: package.name.to_string(),
        folder: folder(&package.manifest_path),
        needs: package.dependencies.iter().map(need).collect(),
    };
    metadata
        .workspace_packages()
        .into_iter()
        .map(member)
        .collect()
}

fn place(name: &str) -> Option<(u8, &'static str)> {
    PLACES
        .iter()
        .find(|(is, ..)| *is == name)
        .map(|(_, place, folder)| (*place, *folder))
}

fn unknown(members: &[Member]) -> Vec<String> {
    let misplaced =
        |member: &&Member| place(&member.name).is_none_or(|(_, folder)| folder != member.folder);
    let tell = |member: &Member| {
        format!(
            "{} in {} is not in the design; give it a place in PLACES",
            member.name, member.folder
        )
    };
    members.iter().filter(misplaced).map(tell).collect()
}

fn broken_arrows(members: &[Member]) -> Vec<String> {
    let mut broken = Vec::new();
    for member in members {
        let Some((from, _)) = place(&member.name) else {
            continue;
        };
        for need in &member.needs {
            // A crate's own tests may take it again with another feature.
            let itself = need.only_in_tests && need.name == member.name;
            if place(&need.name).is_some_and(|(to, _)| to >= from) && !itself {
                broken.push(format!("{} must not know {}", member.name, need.name));
            }
        }
    }
    broken
}

fn test_doubles_in_use(members: &[Member]) -> Vec<String> {
    let mut found = Vec::new();
    for member in members.iter().filter(|member| member.name != TESTS) {
        for need in member.needs.iter().filter(|need| !need.only_in_tests) {
            if need.features.iter().any(|feature| feature == TESTING) {
                found.push(format!("{} uses {}'s test doubles", member.name, need.name));
            }
        }
    }
    found
}

#[test]
fn every_crate_has_a_place() {
    let members = members(&metadata());
    assert_none("crates the design does not know", &unknown(&members));
    assert!(members.iter().any(|member| member.name == "sward-rules"));
}

#[test]
fn every_arrow_goes_one_way() {
    assert_none("broken arrows", &broken_arrows(&members(&metadata())));
}

#[test]
fn no_program_ships_the_seeded_clock() {
    assert_none(
        "test doubles outside tests",
        &test_doubles_in_use(&members(&metadata())),
    );
}

fn made_up(name: &str, folder: &str, needs: &[(&str, bool)]) -> Member {
    let need = |(name, only_in_tests): &(&str, bool)| Need {
        name: (*name).to_owned(),
        only_in_tests: *only_in_tests,
        features: Vec::new(),
    };
    let needs = needs.iter().map(need).collect();
    Member {
        name: name.to_owned(),
        folder: folder.to_owned(),
        needs,
    }
}

#[test]
fn an_unknown_or_moved_crate_is_found() {
    assert_eq!(
        unknown(&[made_up("sward-cloud", "core/cloud", &[])]).len(),
        1
    );
    assert_eq!(
        unknown(&[made_up("sward-rules", "core/book", &[])]).len(),
        1
    );
    assert!(unknown(&[made_up("sward-rules", "core/rules", &[])]).is_empty());
}

#[test]
fn an_arrow_that_turns_round_is_found() {
    for (from, to) in [
        ("sward-rules", "sward-book"),
        ("sward-book", "sward-crew"),
        ("sward-crew", "sward-screens"),
        ("sward-screens", "sward-ffi"),
        ("sward-ffi", "sward-cli"),
        ("sward-cli", "sward-ffi"),
        ("sward-cli", "sward-tests"),
        ("sward-rules", "sward-rules"),
    ] {
        let turned = made_up(from, "", &[(to, false)]);
        assert_eq!(broken_arrows(&[turned]).len(), 1, "{from} to {to}");
    }
    let in_tests_only = made_up("sward-book", "", &[("sward-crew", true)]);
    assert_eq!(broken_arrows(&[in_tests_only]).len(), 1);
}

#[test]
fn an_arrow_that_skips_is_fine() {
    let needs = [
        ("sward-rules", false),
        ("sward-book", false),
        ("serde", false),
    ];
    assert!(broken_arrows(&[made_up("sward-cli", "", &needs)]).is_empty());
    assert!(broken_arrows(&[made_up("sward-book", "", &[("sward-book", true)])]).is_empty());
}

#[test]
fn a_test_double_in_a_program_is_found() {
    let mut member = made_up("sward-cli", "", &[("sward-book", false)]);
    member.needs[0].features.push(TESTING.to_owned());
    assert_eq!(test_doubles_in_use(std::slice::from_ref(&member)).len(), 1);
    member.needs[0].only_in_tests = true;
    assert!(test_doubles_in_use(&[member]).is_empty());
}
