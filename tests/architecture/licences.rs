//! What the project leans on: under licences that allow it, from the public registry alone, each
//! with a version. Known holes in what it leans on need a download that an offline check cannot
//! make.

use cargo_metadata::{DependencyKind, MetadataCommand};
use spdx::{Expression, ParseMode};
use sward_tests::repo_root;

use crate::assert_none;

/// What may be built into a program that is handed on, its source closed or open.
const ALLOWED: [&str; 10] = [
    "MIT",
    "Apache-2.0",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "BlueOak-1.0.0",
    "MPL-2.0",
    "Unicode-3.0",
    "Unlicense",
    "Zlib",
];

/// An exception only ever allows more than the licence that it is of.
fn allowed(expression: &str) -> Result<bool, String> {
    let parsed = Expression::parse_mode(expression, ParseMode::LAX).map_err(|e| e.to_string())?;
    Ok(parsed.evaluate(|asked| {
        let id = asked.license.id();
        id.is_some_and(|id| ALLOWED.contains(&id.name))
    }))
}

/// A package, as far as the rule looks.
struct Package {
    name: String,
    ours: bool,
    from_registry: bool,
    licence: Option<String>,
    any_version_of: Vec<String>,
}

fn findings(packages: &[Package]) -> Vec<String> {
    let mut found = Vec::new();
    for package in packages {
        let name = &package.name;
        match package.licence.as_deref().map(allowed) {
            None => found.push(format!("{name}: no licence")),
            Some(Err(error)) => found.push(format!("{name}: {error}")),
            Some(Ok(false)) => found.push(format!(
                "{name}: {} is not allowed",
                package.licence.as_deref().unwrap_or_default()
            )),
            Some(Ok(true)) => {}
        }
        if !package.ours && !package.from_registry {
            found.push(format!("{name}: not from the registry"));
        }
        if package.ours {
            let any = package.any_version_of.iter();
            found.extend(any.map(|of| format!("{name}: takes any version of {of}")));
        }
    }
    found
}

#[test]
fn everything_leaned_on_may_be() {
    let metadata = MetadataCommand::new()
        .manifest_path(repo_root().join("Cargo.toml"))
        .other_options(["--all-features", "--locked"].map(str::to_owned))
        .exec()
        .expect("cargo reads the workspace and what it leans on");
    let ours = metadata.workspace_packages();
    let packages: Vec<Package> = metadata
        .packages
        .iter()
        .map(|package| Package {
            name: format!("{} {}", package.name, package.version),
            ours: ours.iter().any(|our| our.id == package.id),
            from_registry: package
                .source
                .as_ref()
                .is_some_and(cargo_metadata::Source::is_crates_io),
            licence: package.license.clone(),
            any_version_of: package
                .dependencies
                .iter()
                // What lies in the workspace has no version of its own.
                .filter(|d| d.path.is_none() && d.req.comparators.is_empty())
                .filter(|d| d.kind != DependencyKind::Unknown)
                .map(|d| d.name.clone())
                .collect(),
        })
        .collect();
    assert!(packages.len() > 100, "{} packages seen", packages.len());
    assert_none("licences", &findings(&packages));
}

#[test]
fn what_may_not_be_is_found() {
    let package = |name: &str, ours, from_registry, licence: Option<&str>| Package {
        name: name.to_owned(),
        ours,
        from_registry,
        licence: licence.map(str::to_owned),
        any_version_of: vec!["anything".to_owned()],
    };
    let found = findings(&[
        package("good", false, true, Some("MIT/Apache-2.0")),
        package(
            "either",
            false,
            true,
            Some("GPL-3.0-only OR Apache-2.0 WITH LLVM-exception"),
        ),
        package("both", false, true, Some("MIT AND GPL-3.0-only")),
        package("silent", false, true, None),
        package("strange", false, true, Some("Free as in beer")),
        package("elsewhere", false, false, Some("Zlib")),
        package("ours", true, false, Some("MIT")),
    ]);
    let of = |name: &str| found.iter().filter(|f| f.starts_with(name)).count();
    let counts = [
        "good",
        "either",
        "both",
        "silent",
        "strange",
        "elsewhere",
        "ours",
    ]
    .map(of);
    assert_eq!(counts, [0, 0, 1, 1, 1, 1, 1], "{found:#?}");
}
