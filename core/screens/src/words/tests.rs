//! Every string is there in both languages, with the same arguments, and is used.
//!
//! The sources are read for this: a key stands in them whole, as a string literal. Families whose
//! names are made of the core's tags are declared by a comment `words: name-*`.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use fluent_syntax::parser;

use super::*;

pub(super) fn words(language: Language) -> Words {
    Words {
        language,
        units: Units::Us,
        zone: chrono_tz::Tz::America__New_York,
    }
}

/// Each message of a language: the file it stands in, and the arguments it takes.
pub(super) fn messages(language: Language) -> BTreeMap<String, (String, BTreeSet<String>)> {
    let mut all = BTreeMap::new();
    for file in FILES.get_dir(language.code()).unwrap().files() {
        let name = file
            .path()
            .file_stem()
            .unwrap()
            .to_str()
            .unwrap()
            .to_owned();
        let parsed = parser::parse(file.contents_utf8().unwrap()).unwrap();
        for entry in parsed.body {
            if let Entry::Message(message) = entry {
                let mut args = BTreeSet::new();
                of_pattern(message.value.as_ref().unwrap(), &mut args);
                let key = message.id.name.to_owned();
                assert!(
                    all.insert(key.clone(), (name.clone(), args)).is_none(),
                    "{key} is there twice"
                );
            }
        }
    }
    all
}

fn of_pattern(pattern: &Pattern<&str>, args: &mut BTreeSet<String>) {
    for element in &pattern.elements {
        if let PatternElement::Placeable { expression } = element {
            of_expression(expression, args);
        }
    }
}

fn of_expression(expression: &Expression<&str>, args: &mut BTreeSet<String>) {
    match expression {
        Expression::Inline(inline) => of_inline(inline, args),
        Expression::Select { selector, variants } => {
            of_inline(selector, args);
            for variant in variants {
                of_pattern(&variant.value, args);
            }
        }
    }
}

fn of_inline(inline: &InlineExpression<&str>, args: &mut BTreeSet<String>) {
    match inline {
        InlineExpression::VariableReference { id } => {
            args.insert(id.name.to_owned());
        }
        InlineExpression::Placeable { expression } => of_expression(expression, args),
        _ => {}
    }
}

fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|e| e == "rs") && !path.ends_with("words/tests.rs") {
            found.push(path);
        }
    }
}

/// String literals that look like keys, and declared families, with where they stand.
struct Named {
    keys: BTreeMap<String, PathBuf>,
    families: BTreeSet<String>,
}

fn named() -> Named {
    let mut files = Vec::new();
    sources(
        &Path::new(env!("CARGO_MANIFEST_DIR")).join("src"),
        &mut files,
    );
    let mut named = Named {
        keys: BTreeMap::new(),
        families: BTreeSet::new(),
    };
    for path in files {
        let text = std::fs::read_to_string(&path).unwrap();
        for literal in text.split('"') {
            if is_key(literal) {
                named.keys.insert(literal.to_owned(), path.clone());
            }
        }
        for line in text.lines() {
            if let Some((_, families)) = line.split_once("words: ") {
                named.families.extend(
                    families
                        .split([' ', ',', ')', '.'])
                        .filter_map(|f| f.strip_suffix('*'))
                        .map(str::to_owned),
                );
            }
        }
    }
    named
}

fn is_key(text: &str) -> bool {
    text.contains('-')
        && !text.ends_with('-')
        && text.starts_with(|c: char| c.is_ascii_lowercase())
        && text
            .chars()
            .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-')
}

#[test]
fn both_languages_have_the_same_messages_with_the_same_arguments() {
    let (english, spanish) = (messages(Language::English), messages(Language::Spanish));
    let differing: Vec<_> = english
        .iter()
        .filter(|(key, message)| spanish.get(*key) != Some(message))
        .map(|(key, _)| key)
        .chain(spanish.keys().filter(|key| !english.contains_key(*key)))
        .collect();
    assert!(
        differing.is_empty(),
        "not the same in both languages: {differing:#?}"
    );
}

#[test]
fn a_messages_name_begins_with_its_files_name() {
    for language in Language::ALL {
        for (key, (file, _)) in messages(language) {
            assert!(
                key.starts_with(&format!("{file}-")),
                "{key} stands in {file}.ftl"
            );
        }
    }
}

#[test]
fn every_message_is_used_and_every_used_message_is_there() {
    let there = messages(Language::English);
    let files: BTreeSet<&str> = there.values().map(|(file, _)| file.as_str()).collect();
    let named = named();
    let unused: Vec<_> = there
        .keys()
        .filter(|key| !named.keys.contains_key(*key))
        .filter(|key| !named.families.iter().any(|f| key.starts_with(f.as_str())))
        .collect();
    let missing: Vec<_> = named
        .keys
        .iter()
        .filter(|(key, _)| files.iter().any(|f| key.starts_with(&format!("{f}-"))))
        // A family's own stem is no message.
        .filter(|(key, _)| !named.families.contains(&format!("{key}-")))
        .filter(|(key, _)| !there.contains_key(*key))
        .collect();
    assert!(unused.is_empty(), "in no source: {unused:#?}");
    assert!(missing.is_empty(), "in no word file: {missing:#?}");
}

/// What is the same in both languages on purpose: names, signs, and words that are spelt alike.
#[test]
fn little_is_left_untranslated() {
    let mut same = BTreeSet::new();
    let (english, spanish) = (words(Language::English), words(Language::Spanish));
    for (key, (file, args)) in messages(Language::English) {
        // Titles of publications stay as they were published.
        if file == "how" || !args.is_empty() {
            continue;
        }
        let text = english.t(&key);
        if text == spanish.t(&key) && text.split_whitespace().count() > 2 {
            same.insert(key);
        }
    }
    assert!(same.is_empty(), "the same in both languages: {same:#?}");
}

#[test]
fn a_missing_message_is_marked() {
    assert_eq!(
        words(Language::English).t("no-such"),
        "\u{27e6}no-such\u{27e7}"
    );
}

#[test]
fn a_browsers_wish_decides_until_a_person_does() {
    assert_eq!(
        Language::wanted("es-MX,es;q=0.9,en;q=0.8"),
        Language::Spanish
    );
    assert_eq!(
        Language::wanted("de-DE,de;q=0.9,es;q=0.5"),
        Language::Spanish
    );
    assert_eq!(Language::wanted(""), Language::English);
    assert_eq!(Language::wanted("ñ"), Language::English);
}

#[test]
fn numbers_times_and_units_are_written_as_each_language_does() {
    let (english, spanish) = (words(Language::English), words(Language::Spanish));
    let entered = sward_rules::Entered::parse("12345.50 ft2").unwrap();
    assert_eq!(english.amount(&entered), "12,345.50 ft²");
    assert_eq!(spanish.amount(&entered), "12,345.50 pie²");
    // 2026-06-15 08:30 in New York.
    let utc_ms = 1_781_526_600_000;
    assert_eq!(english.moment(utc_ms, Clock::Time), "8:30 AM EDT");
    assert_eq!(spanish.moment(utc_ms, Clock::Time), "8:30 EDT");
    assert_eq!(english.moment(utc_ms, Clock::Day), "Mon, Jun 15, 2026");
    assert_eq!(spanish.moment(utc_ms, Clock::Day), "lun 15 jun 2026");
    assert_eq!(english.ago(utc_ms, utc_ms + 60_000), "1 minute ago");
    assert_eq!(spanish.ago(utc_ms, utc_ms + 3 * 3_600_000), "hace 3 horas");
}
