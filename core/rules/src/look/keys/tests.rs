//! Every key holds together, and answers narrow it without ever being certain.

use std::collections::BTreeSet;

use proptest::prelude::*;

use super::*;
use crate::error::RuleError;

/// Every answer that a kind may honestly be given.
fn honest(key: &'static Key, kind: &'static Kind, pick: usize) -> Vec<Answered<'static>> {
    key.questions
        .iter()
        .filter_map(|q| {
            let shown = kind.shows_on(q.name)?;
            let choice = Some(shown[pick % shown.len()]);
            Some(Answered {
                question: q.name,
                choice,
            })
        })
        .collect()
}

#[test]
fn names_are_there_once_and_mean_something() {
    let mut keys_seen = BTreeSet::new();
    let mut kinds_seen = BTreeSet::new();
    for key in keys() {
        assert!(keys_seen.insert(key.name));
        let questions: BTreeSet<_> = key.questions.iter().map(|q| q.name).collect();
        assert_eq!(questions.len(), key.questions.len());
        for kind in key.kinds {
            assert!(kinds_seen.insert(kind.name), "{}", kind.name);
            assert!(!kind.sources.is_empty() && !kind.tells.is_empty());
            assert!(kind.length_mm[0] > 0.0 && kind.length_mm[0] < kind.length_mm[1]);
            assert!(!kind.look_alikes.is_empty(), "{}", kind.name);
            for like in kind.look_alikes {
                assert!(key.kind(like).is_some() && *like != kind.name, "{like}");
            }
            for (question, shown) in kind.shows {
                let question = key.question(question).expect("a question of this key");
                assert!(!shown.is_empty());
                for choice in *shown {
                    assert!(
                        question.choices.iter().any(|c| c.name == *choice),
                        "{choice}"
                    );
                }
            }
            assert_eq!(
                kind.role == Role::Pest,
                kind.pest.is_some(),
                "{}",
                kind.name
            );
        }
        for question in key.questions {
            assert!(question.choices.len() > 1);
            for choice in question.choices {
                let shown = |k: &Kind| {
                    k.shows_on(question.name)
                        .is_some_and(|s| s.contains(&choice.name))
                };
                assert!(key.kinds.iter().any(shown), "{} shows nobody", choice.name);
            }
        }
    }
}

#[test]
fn drawings_are_small_plain_and_our_own() {
    let mut seen = BTreeSet::new();
    for key in keys() {
        let of_choices = key
            .questions
            .iter()
            .flat_map(|q| q.choices)
            .filter_map(|c| c.drawing);
        for drawing in key.kinds.iter().map(|k| k.drawing).chain(of_choices) {
            seen.insert(drawing.name);
            let svg = drawing.svg;
            assert!(svg.len() <= 3_000, "{}", drawing.name);
            assert!(svg.starts_with("<svg ") && svg.trim_end().ends_with("</svg>"));
            assert!(svg.contains("viewBox=\"0 0 120 120\"") && svg.contains("currentColor"));
            for foreign in ["<script", "<style", "style=", "href", "<image", "#", "url("] {
                assert!(!svg.contains(foreign), "{}: {foreign}", drawing.name);
            }
        }
    }
    assert!(seen.len() > 30);
}

#[test]
fn every_kind_fits_its_own_features_and_no_two_kinds_fit_the_same() {
    for key in keys() {
        for kind in key.kinds {
            let answers = honest(key, kind, 0);
            let left = narrow(key, &answers).unwrap();
            assert!(
                left.candidates.iter().any(|c| c.kind == kind),
                "{}",
                kind.name
            );
            let others: Vec<_> = left.candidates.iter().filter(|c| c.kind != kind).collect();
            // What hurts people stays beside it until two features speak against that.
            for other in &others {
                assert!(other.kind.hurts_people, "{} beside {other:?}", kind.name);
                assert_eq!(other.against.len(), 1);
            }
            let own = left.candidates.iter().find(|c| c.kind == kind).unwrap();
            let fits = own.standing == Standing::Fits;
            assert_eq!(fits, others.is_empty(), "{}", kind.name);
        }
    }
}

#[test]
fn one_feature_alone_never_fits() {
    let grubs = key("white-grub").unwrap();
    let answer = Answered {
        question: "legs",
        choice: Some("none"),
    };
    let left = narrow(grubs, &[answer]).unwrap();
    assert_eq!(left.candidates.len(), 1);
    assert_eq!(left.candidates[0].standing, Standing::MayBe);
    assert_eq!(left.excluded.len(), grubs.kinds.len() - 1);
    assert_eq!(left.excluded[0].by, [("legs", "none")]);
    // What would confirm it.
    assert_eq!(left.next.unwrap().name, "raster");
}

#[test]
fn one_feature_does_not_exclude_what_hurts_people() {
    let ants = key("ant").unwrap();
    let seen = |question, choice| Answered {
        question,
        choice: Some(choice),
    };
    let one = narrow(ants, &[seen("waist", "one"), seen("length", "short")]).unwrap();
    let fire_ant = one
        .candidates
        .iter()
        .find(|c| c.kind.name == "fire-ant")
        .unwrap();
    assert_eq!(fire_ant.against, [("waist", "one")]);
    assert!(one.candidates.iter().all(|c| c.standing == Standing::MayBe));
    let two = narrow(ants, &[seen("waist", "one"), seen("stirred", "few")]).unwrap();
    assert!(two.excluded.iter().any(|e| e.kind.name == "fire-ant"));
}

#[test]
fn what_fits_none_leaves_none_and_says_why() {
    let bugs = key("chinch-bug").unwrap();
    let seen = |question, choice| Answered {
        question,
        choice: Some(choice),
    };
    let left = narrow(bugs, &[seen("head", "broad"), seen("back", "triangles")]).unwrap();
    assert!(left.candidates.is_empty());
    assert_eq!(left.next, None);
    let big_eyed = left
        .excluded
        .iter()
        .find(|e| e.kind.name == "big-eyed-bug")
        .unwrap();
    assert_eq!(big_eyed.by, [("back", "triangles")]);
}

#[test]
fn a_key_asks_first_what_splits_best() {
    let first = |name| narrow(key(name).unwrap(), &[]).unwrap().next.unwrap().name;
    assert_eq!(first("white-grub"), "raster");
    assert_eq!(first("cricket"), "claws");
    assert_eq!(first("chinch-bug"), "back");
}

#[test]
fn what_a_key_does_not_ask_is_refused() {
    let ants = key("ant").unwrap();
    let answer = |question, choice| Answered { question, choice };
    let refused = |answers: &[Answered<'_>]| narrow(ants, answers).unwrap_err();
    assert!(matches!(
        refused(&[answer("color", None)]),
        RuleError::NoSuchQuestion { .. }
    ));
    let three = refused(&[answer("waist", Some("three"))]);
    assert_eq!(
        three.to_string(),
        "`three` is no answer to `waist`; choose one of two, one"
    );
    let twice = [answer("waist", Some("one")), answer("waist", None)];
    assert!(matches!(refused(&twice), RuleError::AnsweredTwice { .. }));
    let long = "x".repeat(100_000);
    assert!(refused(&[answer(&long, None)]).to_string().len() < 200);
    assert!(matches!(
        refused(&[answer("waist", None); 100]),
        RuleError::TooMany { .. }
    ));
}

/// Some answers to a key, none twice: for each question none, unsure, or a choice.
fn some_answers() -> impl Strategy<Value = (&'static Key, Vec<Answered<'static>>)> {
    (0..keys().len(), proptest::collection::vec(0_usize..8, 6)).prop_map(|(index, picks)| {
        let key = keys()[index];
        let answers = key
            .questions
            .iter()
            .zip(picks)
            .filter_map(|(q, pick)| match pick {
                0 => None,
                1 => Some(Answered {
                    question: q.name,
                    choice: None,
                }),
                pick => {
                    let choice = Some(q.choices[pick % q.choices.len()].name);
                    Some(Answered {
                        question: q.name,
                        choice,
                    })
                }
            });
        (key, answers.collect())
    })
}

proptest! {
    #[test]
    fn every_kind_is_left_or_excluded_and_the_order_does_not_matter(
        (key, mut answers) in some_answers(),
    ) {
        let left = narrow(key, &answers).unwrap();
        prop_assert_eq!(left.candidates.len() + left.excluded.len(), key.kinds.len());
        answers.reverse();
        prop_assert_eq!(narrow(key, &answers).unwrap().candidates.len(), left.candidates.len());
        if let Some(next) = left.next {
            prop_assert!(answers.iter().all(|a| a.question != next.name));
        }
    }

    #[test]
    fn taking_an_answer_away_or_being_unsure_never_makes_a_kind_fit(
        (key, answers) in some_answers(), at in 0_usize..5,
    ) {
        prop_assume!(at < answers.len());
        let fits = |answers: &[Answered<'static>]| -> Vec<&str> {
            let left = narrow(key, answers).unwrap().candidates;
            left.iter().filter(|c| c.standing == Standing::Fits).map(|c| c.kind.name).collect()
        };
        let all = narrow(key, &answers).unwrap();
        let mut fewer = answers.clone();
        fewer.remove(at);
        let mut unsure = answers.clone();
        unsure[at].choice = None;
        for less in [fewer, unsure] {
            let left = narrow(key, &less).unwrap();
            prop_assert!(left.candidates.len() >= all.candidates.len());
            // A kind may only fit with less where what was seen left none at all.
            if !all.candidates.is_empty() {
                for name in fits(&less) {
                    let spoken_against = |c: &Candidate| c.kind.name == name && !c.against.is_empty();
                    let is_doubted = all.candidates.iter().any(spoken_against);
                    prop_assert!(is_doubted || fits(&answers).contains(&name), "{}", name);
                }
            }
        }
    }
}
