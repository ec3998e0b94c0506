//! Which files are the project's: what git tracks or would track, else what lies in the tree.
//!
//! What the files must look like is in `tidy` and `top_level`.

use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::Path;
use std::process::Command;

use sward_tests::repo_root;

/// Folders that are no part of the project where git cannot say so.
const NOT_OURS: [&str; 4] = [".git", "target", "out", "node_modules"];

/// One file of the project that is text.
pub(crate) struct TextFile {
    /// Path from the top of the repository, parted by `/`.
    pub(crate) path: String,
    /// What it holds.
    pub(crate) text: String,
}

impl TextFile {
    /// Whether the name ends in one of these, without the dot.
    pub(crate) fn is_a(&self, extensions: &[&str]) -> bool {
        Path::new(&self.path)
            .extension()
            .is_some_and(|is| extensions.iter().any(|wanted| is == *wanted))
    }
}

/// Every file of the project, by path from the top, in order.
pub(crate) fn paths() -> BTreeSet<String> {
    let root = repo_root();
    let listed = from_git(&root).unwrap_or_else(|| {
        let mut found = BTreeSet::new();
        walk(&root, "", &mut found).expect("the repository can be read");
        found
    });
    // What is deleted but not yet committed is still tracked.
    listed
        .into_iter()
        .filter(|path| root.join(path).is_file())
        .collect()
}

/// Every file of the project that is UTF-8.
pub(crate) fn texts() -> Vec<TextFile> {
    let root = repo_root();
    let read = |path: String| {
        let bytes = fs::read(root.join(&path)).expect("a listed file can be read");
        String::from_utf8(bytes)
            .ok()
            .map(|text| TextFile { path, text })
    };
    paths().into_iter().filter_map(read).collect()
}

/// The Rust files below a folder of the repository.
pub(crate) fn rust_below(folder: &str) -> Vec<TextFile> {
    let within = |file: &TextFile| file.is_a(&["rs"]) && file.path.starts_with(folder);
    texts().into_iter().filter(within).collect()
}

fn from_git(root: &Path) -> Option<BTreeSet<String>> {
    let listing = Command::new("git")
        .args([
            "ls-files",
            "-z",
            "--cached",
            "--others",
            "--exclude-standard",
        ])
        .current_dir(root)
        .output()
        .ok()?;
    let names = String::from_utf8(listing.stdout).ok()?;
    // A copy of the tree inside another repository lists nothing of its own.
    let found: BTreeSet<String> = names
        .split('\0')
        .filter(|name| !name.is_empty())
        .map(str::to_owned)
        .collect();
    (listing.status.success() && found.contains("Cargo.toml")).then_some(found)
}

fn walk(folder: &Path, prefix: &str, found: &mut BTreeSet<String>) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let name = entry.file_name().to_string_lossy().into_owned();
        let path = format!("{prefix}{name}");
        if entry.file_type()?.is_dir() {
            if !NOT_OURS.contains(&name.as_str()) {
                walk(&entry.path(), &format!("{path}/"), found)?;
            }
        } else {
            found.insert(path);
        }
    }
    Ok(())
}

#[test]
fn both_listings_find_this_file() {
    let here = "tests/architecture/files.rs";
    let mut walked = BTreeSet::new();
    walk(&repo_root(), "", &mut walked).expect("the repository can be read");
    assert!(walked.contains(here));
    assert!(!walked.iter().any(|path| path.starts_with("target/")));
    assert!(paths().contains(here));
    assert!(rust_below("tests/").iter().any(|file| file.path == here));
    assert!(rust_below("core/").iter().all(|file| file.path != here));
}
