//! Every sentence has one name of its own, and serialises flat under it.

use std::collections::BTreeSet;

use serde_json::{Value, json};
use sward_rules::RuleError;
use sward_rules::finding::{Check, Finding};

use super::*;
use crate::{BookError, Malformed};

#[test]
fn no_name_stands_for_two_sentences() {
    let names: Vec<_> = Refusal::names().collect();
    let distinct: BTreeSet<_> = names.iter().collect();
    assert_eq!(names.len(), distinct.len(), "{names:?}");
    // Both kinds of error stand under the same key.
    for name in BookError::NAMES {
        assert!(!RuleError::NAMES.contains(name), "{name}");
    }
}

fn told(error: &BookError) -> Value {
    serde_json::to_value(error).expect("errors are plain data")
}

#[test]
fn the_name_in_json_is_the_one_that_is_listed() {
    let each = [
        Refusal::from(CrewRefusal::NotOfACrewYet),
        FieldRefusal::FieldYesOrNo { field: "hidden" }.into(),
        KeepOffRefusal::OnlyCrewLeadLifts.into(),
        LabelRefusal::MethodMissing.into(),
        SettleRefusal::NotLikeByLike.into(),
        StoreRefusal::TooMuchAtOnce.into(),
        TreatRefusal::CheckedTooLongAgo {
            age_min: 31,
            min_most: 30,
        }
        .into(),
        VisitRefusal::NotADay {
            typed: "soon".into(),
        }
        .into(),
    ];
    for refusal in each {
        let name = refusal.name();
        assert!(Refusal::names().any(|n| n == name), "{name}");
        let told = told(&BookError::refused(refusal));
        assert_eq!(
            (&told["error"], &told["refusal"]),
            (&json!("refused"), &json!(name))
        );
    }
}

#[test]
fn what_is_put_in_stands_beside_the_name() {
    let refused = BookError::refused(FieldRefusal::FieldChoice {
        field: "method",
        words: vec!["granule", "bait"],
    });
    assert_eq!(refused.to_string(), "method: write one of: granule, bait");
    assert_eq!(
        told(&refused),
        json!({
            "error": "refused",
            "refusal": "field-choice",
            "field": "method",
            "words": ["granule", "bait"],
        })
    );
    let rule = BookError::refused(FieldRefusal::FieldAmount {
        field: "rate_most",
        rule: Box::new(RuleError::Empty),
    });
    assert!(
        rule.to_string()
            .starts_with("rate most: nothing is written")
    );
    assert_eq!(told(&rule)["rule"], json!({ "error": "empty" }));
    assert_eq!(
        told(&BookError::Rule(RuleError::Empty)),
        json!({ "error": "empty" })
    );
    let malformed = BookError::format(Malformed::IdNotHex { name: "Hash" });
    assert_eq!(
        told(&malformed),
        json!({ "error": "format", "malformed": "id-not-hex", "name": "Hash" })
    );
}

#[test]
fn findings_travel_whole() {
    let finding = Finding::unknown(Check::Wind, sward_rules::finding::Reason::WindReadingToCome);
    let refused = BookError::refused(TreatRefusal::NotAcknowledged {
        findings: vec![finding.clone()],
    });
    let shown = refused.to_string();
    assert!(
        shown.starts_with(&format!("not known: wind ({})", finding.reason)),
        "{shown}"
    );
    assert_eq!(told(&refused)["findings"], json!([finding]));
}

#[test]
fn what_the_system_says_is_text() {
    let error = BookError::NotWritable {
        path: "book".into(),
        source: std::io::Error::other("no room"),
    };
    assert_eq!(
        told(&error),
        json!({ "error": "not-writable", "path": "book", "detail": "no room" })
    );
    assert_eq!(
        told(&BookError::NoBook("here".into())),
        json!({ "error": "no-book", "folder": "here" })
    );
    assert_eq!(
        told(&BookError::Damaged("a view".into())),
        json!({ "error": "damaged", "detail": "a view" })
    );
    assert_eq!(told(&BookError::Busy), json!({ "error": "busy" }));
}
