//! What is it? A key by what one can see, with look-alikes drawn side by side.
//!
//! Answers stand behind the question mark of the address, so that going back takes one away. What
//! they leave is the rules' business ([`sward_rules::look::keys`]); nothing is stored here.

use maud::{Markup, PreEscaped, html};
use sward_book::ids::VisitId;
use sward_rules::look::keys::{
    Answered, Candidate, Drawing, Excluded, Key, Kind, Narrowed, Question, Role, Standing, key,
    keys, narrow,
};

use super::pest;
use crate::ask::{Ask, Page, Place};
use crate::words::{Units, Words};
use crate::{Result, Trouble, part};

/// The answer that excludes nothing.
const UNSURE: &str = "unsure";
/// From so few kinds left on, the kinds they are taken for are drawn beside them.
const FEW: usize = 2;

/// Every key.
pub(super) fn all(ask: &Ask<'_>) -> Result<Page> {
    let visit: VisitId = ask.param("visit")?;
    Ok(Page {
        title: ask.t("key-title"),
        main: html! {
            h2 { (ask.t("key-choose")) }
            @for key in keys() {
                (part::way(&format!("/visit/{visit}/key/{}", key.name), &of_key(ask.words, key, "name")))
            }
            p.note { (ask.t("key-ask-extension")) }
        },
        place: Place::Today,
        back: Some(format!("/visit/{visit}/look")),
    })
}

/// One key, as far as it is answered.
pub(super) fn one(ask: &Ask<'_>) -> Result<Page> {
    let visit: VisitId = ask.param("visit")?;
    let name: String = ask.param("key")?;
    let key = key(&name).map_err(|_| Trouble::NotFound)?;
    let seen = seen(ask, key);
    let answers: Vec<Answered<'_>> = seen
        .iter()
        .map(|(question, choice)| Answered {
            question: question.name,
            choice: Some(*choice).filter(|choice| *choice != UNSURE),
        })
        .collect();
    let left = narrow(key, &answers)?;
    let shown = Shown { ask, key, seen };
    Ok(Page {
        title: of_key(ask.words, key, "name"),
        main: html! {
            p { (of_key(ask.words, key, "look")) }
            (shown.next(&left))
            (shown.answers())
            (shown.left(&left, visit))
            (shown.excluded(&left.excluded))
            p.note { (ask.t("key-ask-extension")) }
            (part::way(&format!("/visit/{visit}/look"), &ask.t("key-back-to-count")))
        },
        place: Place::Today,
        back: Some(format!("/visit/{visit}/key")),
    })
}

/// What the address answers, each question once; what the key does not ask is left out.
fn seen<'a>(ask: &Ask<'a>, key: &'static Key) -> Vec<(&'static Question, &'a str)> {
    let of = |question: &'static Question| {
        let typed = ask.query(question.name)?;
        let is_offered = typed == UNSURE || question.choices.iter().any(|c| c.name == typed);
        is_offered.then_some((question, typed))
    };
    key.questions.iter().filter_map(of).collect()
}

struct Shown<'a> {
    ask: &'a Ask<'a>,
    key: &'static Key,
    seen: Vec<(&'static Question, &'a str)>,
}

impl Shown<'_> {
    /// The address with one answer more, or without one.
    fn address(&self, without: &str, with: Option<(&str, &str)>) -> String {
        let kept = self
            .seen
            .iter()
            .map(|(question, choice)| (question.name, *choice));
        let all: Vec<String> = kept
            .filter(|(question, _)| *question != without)
            .chain(with)
            .map(|(question, choice)| format!("{question}={choice}"))
            .collect();
        format!("{}?{}", self.ask.path, all.join("&"))
    }

    fn next(&self, left: &Narrowed) -> Markup {
        let Some(question) = left.next else {
            let is_split = left.candidates.len() > 1;
            return html! { @if is_split { p.unknown { (self.ask.t("key-no-next")) } } };
        };
        let answer = |choice: &str| self.address(question.name, Some((question.name, choice)));
        html! {
            h2 { (self.ask.t("key-next")) ": " (self.asked(question)) }
            div.kinds {
                @for choice in question.choices {
                    a.kind href=(answer(choice.name)) {
                        @if let Some(drawing) = choice.drawing {
                            (drawn(self.ask, drawing, &self.said(question, choice.name)))
                        }
                        span { (self.said(question, choice.name)) }
                    }
                }
            }
            (part::way(&answer(UNSURE), &self.ask.t("key-unsure")))
        }
    }

    fn answers(&self) -> Markup {
        html! {
            @if !self.seen.is_empty() {
                h2 { (self.ask.t("key-seen")) }
                dl {
                    @for (question, choice) in &self.seen {
                        div.row {
                            dt { (self.asked(question)) }
                            dd {
                                div { (self.said(question, choice)) }
                                a href=(self.address(question.name, None)) { (self.ask.t("key-change")) }
                            }
                        }
                    }
                }
                (part::way(self.ask.path, &self.ask.t("key-again")))
            }
        }
    }

    fn left(&self, left: &Narrowed, visit: VisitId) -> Markup {
        let few = (1..=FEW).contains(&left.candidates.len()) && !self.seen.is_empty();
        let is_left = |name: &str| left.candidates.iter().any(|c| c.kind.name == name);
        let mut likes: Vec<&Kind> = Vec::new();
        for name in left.candidates.iter().flat_map(|c| c.kind.look_alikes) {
            let like = self.key.kind(name).filter(|_| few && !is_left(name));
            likes.extend(like.filter(|like| !likes.contains(like)));
        }
        html! {
            h2 { (self.ask.t("key-left")) }
            @if left.candidates.is_empty() { p.unknown { (self.ask.t("key-none")) } }
            div.kinds {
                @for candidate in &left.candidates { (self.candidate(candidate, few, visit)) }
            }
            @if !likes.is_empty() {
                h2 { (self.ask.t("key-taken-for")) }
                div.kinds { @for like in likes { div.kind { (self.kind(like, None, true)) } } }
            }
        }
    }

    fn candidate(&self, candidate: &Candidate, few: bool, visit: VisitId) -> Markup {
        let standing = match candidate.standing {
            Standing::Fits => "key-fits",
            Standing::MayBe => "key-may-be",
        };
        let count = candidate.kind.pest.filter(|_| few).map(|counted| {
            let text = [("pest", pest::name(self.ask.words, counted).into())];
            let href = format!("/visit/{visit}/look?pest={}", pest::code(counted));
            part::way(&href, &self.ask.words.t_with("key-count-it", &text))
        });
        html! {
            div.kind {
                (self.kind(candidate.kind, Some(&self.ask.t(standing)), few))
                @if !candidate.against.is_empty() {
                    p { (self.ask.t("key-hurts")) " " (self.why(&candidate.against)) }
                }
                @if let Some(count) = count { (count) }
            }
        }
    }

    /// A kind with its drawing and what it is to the lawn; in full also its size, what tells it, and
    /// who says so.
    fn kind(&self, kind: &Kind, standing: Option<&str>, in_full: bool) -> Markup {
        let words = self.ask.words;
        let role = match kind.role {
            Role::Pest => "key-role-pest",
            Role::Helper => "key-role-helper",
            Role::Harmless => "key-role-harmless",
        };
        let name = called(words, kind);
        html! {
            (drawn(self.ask, kind.drawing, &name))
            @if let Some(standing) = standing { p { strong { (standing) } ": " (name) } } @else { p { strong { (name) } } }
            @if in_full {
                p { (self.ask.t(role)) ", " (words.stage(kind.life_stage)) ", " (length(words, kind)) }
                // words: key-tells-*
                p { (words.t(&format!("key-tells-{}", kind.name))) }
                p.source { (self.ask.t("frame-source")) ": " (self.sources(kind)) }
            } @else {
                p { (self.ask.t(role)) }
            }
        }
    }

    fn sources(&self, kind: &Kind) -> String {
        let named = kind.sources.iter().map(|source| match *source {
            "from memory" => self.ask.t("key-from-memory"),
            source => self.ask.words.term(source),
        });
        named.collect::<Vec<_>>().join("; ")
    }

    fn excluded(&self, excluded: &[Excluded]) -> Markup {
        html! {
            @if !excluded.is_empty() {
                details {
                    summary { (self.ask.t("key-excluded")) }
                    ul.list {
                        @for one in excluded {
                            li { (called(self.ask.words, one.kind)) ": " (self.why(&one.by)) }
                        }
                    }
                }
            }
        }
    }

    /// What was seen, question by question.
    fn why(&self, by: &[(&str, &str)]) -> String {
        let said = by.iter().filter_map(|(name, choice)| {
            let question = self.key.question(name)?;
            let (asked, said) = (self.asked(question), self.said(question, choice));
            Some(format!("{asked} {said}"))
        });
        said.collect::<Vec<_>>().join("; ")
    }

    fn asked(&self, question: &Question) -> String {
        of_key(self.ask.words, self.key, &format!("q-{}", question.name))
    }

    fn said(&self, question: &Question, choice: &str) -> String {
        if choice == UNSURE {
            return self.ask.t("key-unsure");
        }
        of_key(
            self.ask.words,
            self.key,
            &format!("q-{}-{choice}", question.name),
        )
    }
}

/// A text of a key: its name, how to look, a question (`q-`) or one of its choices.
fn of_key(words: Words, key: &Key, what: &str) -> String {
    // words: key-*
    words.t(&format!("key-{}-{what}", key.name))
}

fn called(words: Words, kind: &Kind) -> String {
    words.t(&format!("key-kind-{}", kind.name))
}

fn length(words: Words, kind: &Kind) -> String {
    let ([least, most], unit) = match words.units {
        Units::Us => (kind.length_in().map(|inches| format!("{inches:.2}")), "in"),
        Units::Metric => (kind.length_mm.map(|mm| mm.to_string()), "mm"),
    };
    let with_unit = |amount: String| {
        let sign = sward_rules::quantity::Unit::parse(unit).map(|unit| words.unit(unit));
        format!("{amount} {}", sign.unwrap_or_else(|_| unit.to_owned()))
    };
    let args = [("least", least.into()), ("most", with_unit(most).into())];
    words.t_with("key-length", &args)
}

/// A drawing of our own, in the color of the text.
fn drawn(ask: &Ask<'_>, drawing: Drawing, what: &str) -> Markup {
    let label = ask.words.t_with("key-drawing", &[("what", what.into())]);
    html! {
        span.drawing role="img" aria-label=(label) { (PreEscaped(drawing.svg)) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Language;

    fn words(language: Language) -> Words {
        Words {
            language,
            units: Units::Us,
            zone: chrono_tz::UTC,
        }
    }

    /// English stands in the rules too, for the terminal: the two must not drift apart.
    #[test]
    fn every_text_of_every_key_is_there_in_both_languages() {
        for language in Language::ALL {
            let words = words(language);
            let is = |said: String, english: &str| {
                assert!(!said.contains('\u{27e6}'), "{said}");
                assert_eq!(
                    said == english,
                    language == Language::English || english == "no",
                    "{said}"
                );
            };
            for key in keys() {
                is(of_key(words, key, "name"), key.english);
                is(of_key(words, key, "look"), key.how_to_look);
                for question in key.questions {
                    is(
                        of_key(words, key, &format!("q-{}", question.name)),
                        question.english,
                    );
                    for choice in question.choices {
                        let what = format!("q-{}-{}", question.name, choice.name);
                        is(of_key(words, key, &what), choice.english);
                    }
                }
                for kind in key.kinds {
                    is(called(words, kind), kind.english);
                    is(words.t(&format!("key-tells-{}", kind.name)), kind.tells);
                    assert!(!words.stage(kind.life_stage).contains('\u{27e6}'));
                }
            }
        }
    }
}
