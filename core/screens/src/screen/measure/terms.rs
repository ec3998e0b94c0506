//! Every formula and input in the workings of the rules has its words: their sources are read.
//!
//! The words are shown by [`crate::part::how`].

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use crate::part::how::slug;
use crate::words::{Language, Units, Words};

// words: how-*

fn rust_files(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            rust_files(&path, found);
        } else if path.extension().is_some_and(|e| e == "rs") {
            found.push(path);
        }
    }
}

/// The string literal that an argument begins with.
fn literal(text: &str) -> Option<&str> {
    let rest = text.trim_start().strip_prefix('"')?;
    rest.split_once('"').map(|(literal, _)| literal)
}

fn terms() -> BTreeSet<String> {
    let rules = Path::new(env!("CARGO_MANIFEST_DIR")).join("../rules/src");
    let mut files = Vec::new();
    rust_files(&rules, &mut files);
    let mut terms = BTreeSet::new();
    for path in files {
        let text = std::fs::read_to_string(path).unwrap();
        let code: String = text
            .lines()
            .filter(|line| !line.trim_start().starts_with("//"))
            .collect::<Vec<_>>()
            .join("\n");
        for call in ["Working::new(", ".input("] {
            terms.extend(
                code.split(call)
                    .skip(1)
                    .filter_map(literal)
                    .map(str::to_owned),
            );
        }
    }
    // These are handed over by functions of the rules.
    let handed_over = [
        "one pass at the rate",
        "two passes at right angles, each at half the rate",
        "half the rate in lines half a swath apart",
        "carrier × area, in full tanks and what is left",
        "product measured out, in full hoppers and what is left",
        "offsets, Simpson's rule",
        "offsets, trapezoid rule",
        "tank",
        "hopper",
        "geometry",
        "plane geometry",
        "arithmetic",
        "common practice, no source",
    ];
    terms.extend(handed_over.map(str::to_owned));
    terms
}

#[test]
fn every_formula_and_input_is_said_in_both_languages() {
    let terms = terms();
    assert!(terms.len() > 50, "the sources were read: {}", terms.len());
    for language in Language::ALL {
        let words = Words {
            language,
            units: Units::Us,
            zone: chrono_tz::UTC,
        };
        let missing: Vec<&String> = terms
            .iter()
            .filter(|t| !words.has(&format!("how-{}", slug(t))))
            .collect();
        assert!(missing.is_empty(), "{}: {missing:#?}", language.code());
    }
}

#[test]
fn the_english_words_are_the_rules_own() {
    let words = Words {
        language: Language::English,
        units: Units::Us,
        zone: chrono_tz::UTC,
    };
    for term in terms() {
        assert_eq!(words.term(&term), term);
    }
}
