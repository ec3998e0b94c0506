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

/// The keys under which a sentence names itself.
const TAGS: [&str; 7] = ["reason", "note", "shown", "rounding", "error", "refusal", "wrong"];

impl Words {
    /// A sentence of the core, under the names of a family such as `reason`.
    pub(crate) fn said<T: Serialize + ?Sized>(&self, family: &str, sentence: &T) -> String {
        match serde_json::to_value(sentence) {
            Ok(value) => self.said_value(family, &value),
            Err(_) => self.t("frame-cannot-be-said"),
        }
    }

    fn said_value(&self, family: &str, value: &Value) -> String {
        match value {
            Value::String(tag) => self.named(family, tag, &FluentArgs::new()),
            Value::Object(fields) => {
                let tag = TAGS.iter().find_map(|t| fields.get(*t)?.as_str());
                let Some(tag) = tag else {
                    return self.t("frame-cannot-be-said");
                };
                let mut args = FluentArgs::new();
                for (name, field) in fields.iter().filter(|(n, _)| !TAGS.contains(&n.as_str())) {
                    args.set(name.replace('_', "-"), self.argument(field));
                }
                self.named(family, tag, &args)
            }
            _ => self.t("frame-cannot-be-said"),
        }
    }

    fn named(&self, family: &str, tag: &str, args: &FluentArgs<'_>) -> String {
        self.say(&format!("{family}-{}", tag.replace('_', "-")), Some(args))
    }

    fn argument(&self, field: &Value) -> FluentValue<'static> {
        match field {
            Value::Number(n) => n.as_f64().unwrap_or(0.0).into(),
            // Amounts are stored as "decimal unit".
            Value::String(text) => match Entered::from_canonical(text) {
                Ok(entered) => self.amount(&entered).into(),
                Err(_) => text.clone().into(),
            },
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
                .join(", ")
                .into(),
            Value::Object(fields) => TAGS
                .iter()
                .find(|t| fields.contains_key(**t))
                .map_or_else(|| self.t("frame-cannot-be-said"), |family| self.said_value(family, field))
                .into(),
        }
    }

    /// An error of the screens or the core beneath them.
    pub(crate) fn trouble(&self, trouble: &Trouble) -> String {
        match trouble {
            Trouble::Wrong(wrong) => self.said("wrong", wrong),
            Trouble::InField { error, .. } => self.trouble(error),
            Trouble::Fields(all) => all.iter().map(|t| self.trouble(t)).collect::<Vec<_>>().join(" "),
            Trouble::NoBook => self.t("frame-no-book"),
            Trouble::NotFound => self.t("frame-nothing-here"),
            Trouble::TooLarge => self.t("frame-too-large"),
            Trouble::NoForm => self.t("frame-no-form"),
            // Typed sentences of the core are said by tag; this is what there is until then.
            Trouble::Book(error) => error.to_string(),
            Trouble::Crew(error) => error.to_string(),
            Trouble::Rule(error) => error.to_string(),
            Trouble::Desk(_) | Trouble::Port(_) | Trouble::System(_) => {
                self.t_with("frame-system", &[("said", trouble.to_string().into())])
            }
        }
    }
}
