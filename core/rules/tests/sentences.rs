//! Every sentence that is stored or shown can be named, translated, stored and read again.

use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Map, Value, json};
use sward_rules::calibrate::{DropletClass, DropletUse};
use sward_rules::finding::{CalibrationPart, Reason, Tenths};
use sward_rules::finding::{Check, Finding, LabelField, RainLayer, Shown, Source, Verdict, Whose};
use sward_rules::{Allowed, Entered, Field, Note, Rounding, RuleError};

/// Something for each key that a sentence puts in.
fn argument(key: &str) -> Value {
    match key {
        "field" => json!("wind-most"),
        "layer" => json!("chance"),
        "question" => json!("toys"),
        "station" | "section" | "person" | "name" | "ingredient" | "lot" | "day" => json!("X"),
        "around" => json!("hive"),
        "soil" => json!("soaked"),
        "bloom" => json!("beside"),
        "part" => json!("calibration-product"),
        "drops" | "finest" | "coarsest" => json!("very-coarse"),
        "change" => json!(-4.5),
        "given" | "speed" | "mean" | "gust" | "amount" | "time" | "celsius" | "fahrenheit"
        | "least" | "most" | "care" | "stop" | "percent" | "spread" | "height" => {
            json!("2.50 [lb_av]")
        }
        _ => json!(7),
    }
}

/// One of each, made from what `NAMES` and `ARGS` say of it.
fn all<T: DeserializeOwned>(tag: &str, names: &[&str], args: &[&[&str]]) -> Vec<T> {
    assert_eq!(names.len(), args.len());
    let one = |(name, keys): (&&str, &&[&str])| {
        let mut object: Map<String, Value> = keys
            .iter()
            .map(|k| ((*k).to_owned(), argument(k)))
            .collect();
        object.insert(tag.to_owned(), json!(name));
        serde_json::from_value(Value::Object(object)).unwrap_or_else(|e| panic!("{name}: {e}"))
    };
    names.iter().zip(args).map(one).collect()
}

fn tag_of(sentence: &impl Serialize, tag: &str) -> String {
    let json = serde_json::to_value(sentence).expect("a sentence is JSON");
    json[tag].as_str().expect("the tag is text").to_owned()
}

#[test]
fn every_reason_has_its_name_its_english_and_one_stored_form() {
    let reasons: Vec<Reason> = all("reason", Reason::NAMES, Reason::ARGS);
    assert!(reasons.len() > 100);
    let mut english = std::collections::BTreeSet::new();
    for (reason, name) in reasons.iter().zip(Reason::NAMES) {
        assert_eq!(tag_of(reason, "reason"), *name);
        let bytes = minicbor::to_vec(reason).unwrap();
        assert_eq!(&minicbor::decode::<Reason>(&bytes).unwrap(), reason);
        assert!(english.insert(reason.to_string()), "{reason} stands twice");
    }
}

#[test]
fn every_value_and_limit_has_its_name_its_english_and_one_stored_form() {
    let shown: Vec<Shown> = all("shown", Shown::NAMES, Shown::ARGS);
    for (shown, name) in shown.iter().zip(Shown::NAMES) {
        assert_eq!(tag_of(shown, "shown"), *name);
        assert!(!shown.to_string().is_empty());
        let bytes = minicbor::to_vec(shown).unwrap();
        assert_eq!(&minicbor::decode::<Shown>(&bytes).unwrap(), shown);
    }
}

/// The two libraries that make names out of variants only differ over single letters.
#[test]
fn no_name_has_a_word_of_one_letter_where_json_is_not_read_back() {
    let lists: [&[&str]; 11] = [
        RuleError::NAMES,
        Field::NAMES,
        Allowed::NAMES,
        Note::NAMES,
        Rounding::NAMES,
        LabelField::NAMES,
        RainLayer::NAMES,
        CalibrationPart::NAMES,
        DropletClass::NAMES,
        DropletUse::NAMES,
        sward_rules::quantity::Dimension::NAMES,
    ];
    for name in lists.into_iter().flatten() {
        let one_letter = name.split(['-', '_']).any(|word| word.len() == 1);
        assert!(!one_letter || *name == "not-a-number", "{name}");
    }
    let text = String::new();
    let read = RuleError::NotANumber { text };
    assert_eq!(tag_of(&read, "error"), "not-a-number");
    for source in Source::NAMES {
        let read: Source = serde_json::from_value(json!(source)).unwrap();
        assert!(!read.to_string().is_empty());
    }
}

#[test]
fn an_error_names_its_field_beside_its_own_name() {
    let error = RuleError::NotPositive {
        field: Field::LeftOut { number: 3 },
        given: "0 ft".to_owned(),
    };
    let expected = json!({
        "error": "not-positive", "field": "left-out", "number": 3, "given": "0 ft",
    });
    assert_eq!(serde_json::to_value(&error).unwrap(), expected);
    let inside = error.of(Field::Ingredient {
        name: "bifenthrin".to_owned(),
    });
    let json = serde_json::to_value(&inside).unwrap();
    assert_eq!(
        (&json["field"], &json["name"]),
        (&json!("ingredient"), &json!("bifenthrin"))
    );
    assert_eq!(json["inner"], expected);
}

#[test]
fn a_finding_reads_as_one_line() {
    let speed = Entered::parse("10 mph").unwrap();
    let finding = Finding::new(Check::Wind, Verdict::DontTreat, Reason::WindAboveLabel)
        .and(Reason::ByBeaufort { force: 5 })
        .with_value(Shown::OrMore { least: speed })
        .with_limit(Shown::Amount { amount: speed }, Whose::Label)
        .with_source(Source::Practice);
    assert_eq!(
        finding.why(),
        "the wind is above the label's limit; Beaufort force 5, counted as its upper end"
    );
    assert_eq!(finding.limit.as_ref().unwrap().to_string(), "10 mph");
    let json = serde_json::to_string(&finding).unwrap();
    assert_eq!(serde_json::from_str::<Finding>(&json).unwrap(), finding);
}

#[test]
fn a_change_is_a_number_with_its_sign() {
    assert_eq!(Tenths::nearest(4.349).to_string(), "+4.3");
    assert_eq!(Tenths::nearest(-0.26).to_string(), "-0.3");
    assert_eq!(serde_json::to_string(&Tenths(-45)).unwrap(), "-4.5");
    for hostile in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        assert!(Tenths::nearest(hostile).value().is_finite());
    }
}
