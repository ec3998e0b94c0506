//! What the core says (findings, refusals, notes), in the person's language.
//!
//! The core's sentences are enums that serialise to a tag and fields; the tag names the message,
//! the fields are its arguments. A field that is itself such a sentence is said first.

use fluent_bundle::{FluentArgs, FluentValue};
use serde::Serialize;
use serde_json::Value;
use sward_rules::Entered;

use super::Words;
use crate::Trouble;

/// The keys under which a sentence names itself; each is also the first part of its messages' names
/// (words: refusal-* malformed-* slip-* sent-* fault-* reason-* note-* shown-* rounding-* because-*
/// dropped-* crew-error-* error-* word-*). The inner names stand first: a refusal is more than "refused".
const TAGS: [(&str, &str); 14] = [
    ("refusal", "refusal"),
    ("malformed", "malformed"),
    ("slip", "slip"),
    ("sent", "sent"),
    ("fault", "fault"),
    ("reason", "reason"),
    ("note", "note"),
    ("shown", "shown"),
    ("rounding", "rounding"),
    ("because", "because"),
    ("wrong", "wrong"),
    ("crew", "crew-error"),
    ("error", "error"),
    ("why", "dropped"),
];

impl Words {
    /// A sentence of the core. Where it is a bare name, `family` says which sentences it is of.
    pub(crate) fn said<T: Serialize + ?Sized>(&self, family: &str, sentence: &T) -> String {
        match serde_json::to_value(sentence) {
            Ok(value) => self.said_value(family, &value),
            Err(_) => self.t("frame-cannot-be-said"),
        }
    }

    fn said_value(&self, family: &str, value: &Value) -> String {
        match value {
            Value::String(tag) => self.named(family, tag, &FluentArgs::new()),
            Value::Object(fields) => self
                .said_object(fields)
                .unwrap_or_else(|| self.t("frame-cannot-be-said")),
            _ => self.t("frame-cannot-be-said"),
        }
    }

    fn said_object(&self, fields: &serde_json::Map<String, Value>) -> Option<String> {
        let (key, family) = TAGS
            .iter()
            .find(|(key, _)| fields.get(*key).is_some_and(Value::is_string))?;
        let tag = fields.get(*key)?.as_str()?;
        let mut args = FluentArgs::new();
        for (name, field) in fields.iter().filter(|(name, _)| name.as_str() != *key) {
            args.set(name.replace('_', "-"), self.argument(field));
        }
        Some(self.named(family, tag, &args))
    }

    fn named(&self, family: &str, tag: &str, args: &FluentArgs<'_>) -> String {
        self.say(&format!("{family}-{}", tag.replace('_', "-")), Some(args))
    }

    fn argument(&self, field: &Value) -> FluentValue<'static> {
        match field {
            Value::Number(n) => n.as_f64().unwrap_or(0.0).into(),
            Value::String(text) => self.text_argument(text).into(),
            Value::Bool(yes) => if *yes { "yes" } else { "no" }.into(),
            Value::Null => "none".into(),
            Value::Array(items) => items
                .iter()
                .map(|item| match self.argument(item) {
                    FluentValue::String(text) => text.into_owned(),
                    FluentValue::Number(n) => n.as_string().into_owned(),
                    _ => String::new(),
                })
                .collect::<Vec<_>>()
                .join("; ")
                .into(),
            Value::Object(fields) => self
                .said_object(fields)
                .unwrap_or_else(|| self.t("frame-cannot-be-said"))
                .into(),
        }
    }

    /// Amounts are stored as "decimal unit"; the core's own words have messages; anything else a
    /// person wrote.
    fn text_argument(&self, text: &str) -> String {
        if let Ok(entered) = Entered::from_canonical(text) {
            return self.amount(&entered);
        }
        let key = format!("word-{text}");
        if self.has(&key) {
            self.t(&key)
        } else {
            text.to_owned()
        }
    }

    /// An error of the screens or the core beneath them.
    pub(crate) fn trouble(&self, trouble: &Trouble) -> String {
        match trouble {
            Trouble::Wrong(wrong) => self.said("wrong", wrong),
            Trouble::InField { error, .. } => self.trouble(error),
            Trouble::Fields(all) => all
                .iter()
                .map(|t| self.trouble(t))
                .collect::<Vec<_>>()
                .join(" "),
            Trouble::NoBook => self.t("frame-no-book"),
            Trouble::NotFound => self.t("frame-nothing-here"),
            Trouble::TooLarge => self.t("frame-too-large"),
            Trouble::NoForm => self.t("frame-no-form"),
            Trouble::Book(error) => self.said("error", error),
            Trouble::Crew(error) => self.said("error", error),
            Trouble::Rule(error) => self.said("error", error),
            Trouble::Desk(_) | Trouble::Port(_) | Trouble::System(_) => {
                self.t_with("frame-system", &[("said", trouble.to_string().into())])
            }
        }
    }
}
