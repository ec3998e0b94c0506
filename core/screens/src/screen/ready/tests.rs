//! Every sentence of a finding is there in both languages, with everything that is put into it;
//! and the way from an unchecked yard to a start.

mod way;

use std::collections::{BTreeMap, BTreeSet};

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use fluent_syntax::parser;
use sward_rules::Entered;
use sward_rules::finding::{LabelField, RainLayer, Reason, Shown, Source};
use sward_rules::label::Method;
use sward_rules::sky::{Bloom, Soil};
use sward_rules::walk_round::questions;

use crate::words::{Language, Units, Words};

fn words(language: Language) -> Words {
    Words {
        language,
        units: Units::Us,
        zone: chrono_tz::UTC,
    }
}

/// The arguments of every message of a word file.
fn arguments(text: &str) -> BTreeMap<String, BTreeSet<String>> {
    let messages = parser::parse(text.to_owned()).unwrap().body.into_iter();
    messages
        .filter_map(|entry| match entry {
            Entry::Message(message) => {
                let mut used = BTreeSet::new();
                of_pattern(&message.value.unwrap(), &mut used);
                Some((message.id.name, used))
            }
            _ => None,
        })
        .collect()
}

fn of_pattern(pattern: &Pattern<String>, used: &mut BTreeSet<String>) {
    for element in &pattern.elements {
        match element {
            PatternElement::Placeable {
                expression: Expression::Inline(inline),
            } => {
                of_inline(inline, used);
            }
            PatternElement::Placeable {
                expression: Expression::Select { selector, variants },
            } => {
                of_inline(selector, used);
                for variant in variants {
                    of_pattern(&variant.value, used);
                }
            }
            PatternElement::TextElement { .. } => {}
        }
    }
}

fn of_inline(inline: &InlineExpression<String>, used: &mut BTreeSet<String>) {
    if let InlineExpression::VariableReference { id } = inline {
        used.insert(id.name.clone());
    }
}

fn every_sentence_is_said(family: &str, names: &[&str], args: &[&[&str]], files: [&str; 2]) {
    assert!(!names.is_empty());
    for file in files {
        let said = arguments(file);
        for (name, args) in names.iter().zip(args) {
            let args: BTreeSet<String> = args.iter().map(|a| a.replace('_', "-")).collect();
            assert_eq!(
                said.get(&format!("{family}-{name}")),
                Some(&args),
                "{family}-{name}"
            );
        }
        assert_eq!(
            said.len(),
            names.len(),
            "{family}: what no finding says any more"
        );
    }
}

#[test]
fn every_reason_is_said_in_both_languages_with_all_that_is_put_into_it() {
    let files = [
        include_str!("../../../words/en/reason.ftl"),
        include_str!("../../../words/es/reason.ftl"),
    ];
    every_sentence_is_said("reason", Reason::NAMES, Reason::ARGS, files);
}

#[test]
fn every_value_is_shown_in_both_languages_with_all_that_is_put_into_it() {
    let files = [
        include_str!("../../../words/en/shown.ftl"),
        include_str!("../../../words/es/shown.ftl"),
    ];
    every_sentence_is_said("shown", Shown::NAMES, Shown::ARGS, files);
}

/// The name of a word as JSON has it.
fn name(word: impl serde::Serialize) -> String {
    serde_json::to_value(word)
        .unwrap()
        .as_str()
        .unwrap()
        .to_owned()
}

#[test]
fn every_word_inside_these_sentences_is_there_in_both_languages() {
    let mut names: Vec<String> = [LabelField::NAMES, RainLayer::NAMES, Source::NAMES]
        .concat()
        .into_iter()
        .map(str::to_owned)
        .collect();
    names.extend(questions(Method::FoliarSpray).iter().map(name));
    names.extend(
        [
            Soil::Fit,
            Soil::DustDry,
            Soil::Soaked,
            Soil::Frozen,
            Soil::DroughtDormant,
        ]
        .map(name),
    );
    names.extend([Bloom::None, Bloom::Beside, Bloom::OnLawn].map(name));
    for language in Language::ALL {
        for name in &names {
            assert!(words(language).has(&format!("word-{name}")), "{name}");
        }
    }
}

#[test]
fn a_sentence_with_a_word_and_an_amount_in_it_reads_as_one() {
    let gust = |gust: Option<&str>| Reason::ByMeter {
        count: 3,
        mean: Entered::parse("6 mph").unwrap(),
        gust: gust.map(|g| Entered::parse(g).unwrap()),
    };
    let (english, spanish) = (words(Language::English), words(Language::Spanish));
    assert_eq!(
        english.said("reason", &gust(Some("9 mph"))),
        "3 meter readings, mean 6 mph, gust 9 mph."
    );
    assert_eq!(
        english.said("reason", &gust(None)),
        "3 meter readings, mean 6 mph."
    );
    assert_eq!(
        spanish.said("reason", &gust(Some("9 mph"))),
        "3 lecturas del medidor, media 6 mi/h, ráfaga 9 mi/h."
    );
    let empty = Reason::LabelFieldEmpty {
        field: LabelField::WindMost,
    };
    assert_eq!(
        english.said("reason", &empty),
        "The label's wind limit is not filled in."
    );
    let soil = Shown::SoilSeen {
        soil: Soil::DustDry,
    };
    assert_eq!(spanish.said("shown", &soil), "seco como polvo");
}
