//! What the core says (findings, refusals, notes), in the person's language.
//!
//! The core's sentences are enums that serialise to a tag and fields; the tag names the message,
//! the fields are its arguments. A field that is itself such a sentence is said first.

use fluent_bundle::{FluentArgs, FluentValue};
use rust_decimal::Decimal;
use serde::Serialize;
use serde_json::Value;
use sward_rules::Entered;

use super::Words;
use crate::Trouble;

/// The keys under which a sentence names itself; each is also the first part of its messages' names.
/// The inner names stand first: a refusal is more than "refused".
// words: refusal-* malformed-* slip-* sent-* fault-* reason-* note-* shown-* rounding-* because-*
// words: dropped-* crew-error-* error-* finding-check-* word-*
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

/// From here on digits are grouped.
const THOUSAND: f64 = 1000.0;

type Fields = serde_json::Map<String, Value>;

/// The message of a word from one of the core's closed lists. None: what stands under this name was
/// written by a person, a file or the system, and is never taken for such a word.
fn word_key(name: &str, text: &str) -> Option<String> {
    let of = match name {
        "dimension" | "is" | "needed" | "wanted" => "dimension-",
        "allowed" => "allowed-",
        "around" => "around-",
        "limit" => "limit-",
        "what" => "what-",
        "bloom" | "coarsest" | "drops" | "file" | "finest" | "group" | "kind" | "layer"
        | "life_stage" | "missing" | "part" | "question" | "soil" => "",
        _ => return None,
    };
    Some(format!("word-{of}{}", text.replace(' ', "-")))
}

impl Words {
    /// A sentence of the core. Where it is a bare name, `family` says which sentences it is of.
    pub(crate) fn said<T: Serialize + ?Sized>(self, family: &str, sentence: &T) -> String {
        match serde_json::to_value(sentence) {
            Ok(value) => self.said_value(family, &value),
            Err(_) => self.t("frame-cannot-be-said"),
        }
    }

    fn said_value(self, family: &str, value: &Value) -> String {
        match value {
            Value::String(tag) => self.named(family, tag, &FluentArgs::new()),
            Value::Object(fields) => self.said_object(fields),
            _ => self.t("frame-cannot-be-said"),
        }
    }

    fn said_object(self, fields: &Fields) -> String {
        if let (Some(Value::String(check)), Some(reason)) =
            (fields.get("check"), fields.get("reason"))
        {
            let check = self.named("finding-check", check, &FluentArgs::new());
            return format!("{check}: {}", self.said_value("reason", reason));
        }
        let Some((key, family, tag)) = TAGS
            .iter()
            .find_map(|(key, family)| Some((*key, *family, fields.get(*key)?.as_str()?)))
        else {
            return self.t("frame-cannot-be-said");
        };
        let mut args = FluentArgs::new();
        for (name, field) in fields.iter().filter(|(name, _)| name.as_str() != key) {
            args.set(name.replace('_', "-"), self.argument(name, field, fields));
        }
        self.named(family, tag, &args)
    }

    fn named(self, family: &str, tag: &str, args: &FluentArgs<'_>) -> String {
        // Words keep the core's spelling, so that a name has one form wherever it stands.
        let tag = if family == "word" {
            tag.to_owned()
        } else {
            tag.replace('_', "-")
        };
        self.say(&format!("{family}-{tag}"), Some(args))
    }

    fn argument(self, name: &str, value: &Value, beside: &Fields) -> FluentValue<'static> {
        match value {
            Value::Number(number) => self.number_argument(name, number.as_f64().unwrap_or(0.0)),
            Value::String(text) => self.text_argument(name, text, beside).into(),
            Value::Bool(yes) => if *yes { "yes" } else { "no" }.into(),
            Value::Null => "none".into(),
            Value::Array(items) => self.list_argument(name, items, beside).into(),
            Value::Object(fields) => self.said_object(fields).into(),
        }
    }

    fn list_argument(self, name: &str, items: &[Value], beside: &Fields) -> String {
        let are_sentences = items.iter().all(Value::is_object);
        let said = items.iter().map(|item| match item {
            Value::String(word) if name == "words" => self.choice(word, beside),
            item => match self.argument(name, item, beside) {
                FluentValue::String(text) => text.into_owned(),
                FluentValue::Number(n) => n.as_string().into_owned(),
                _ => String::new(),
            },
        });
        said.reduce(|all, next| match name {
            "wanted" => self.t_with("word-or", &[("first", all.into()), ("second", next.into())]),
            _ if are_sentences => format!("{all} {next}"),
            _ => format!("{all}; {next}"),
        })
        .unwrap_or_default()
    }

    /// Small whole numbers stay numbers, so that messages can have a singular.
    fn number_argument(self, name: &str, number: f64) -> FluentValue<'static> {
        let is_whole = number.fract() == 0.0;
        match name {
            "hour" | "minute" => format!("{number:02}").into(),
            "change" if number > 0.0 => format!("+{}", self.short(number)).into(),
            "change" => self.short(number).into(),
            _ if is_whole && number.abs() < THOUSAND => number.into(),
            _ => self.short(number).into(),
        }
    }

    fn short(self, number: f64) -> String {
        let decimals = if number.abs() < 1.0 { 2 } else { 1 };
        match Decimal::try_from(number) {
            Ok(exact) => self.number(exact.round_dp(decimals).normalize()),
            // No number stands for what none can be given for.
            Err(_) => self.t("frame-not-known"),
        }
    }

    /// Amounts are stored as "decimal unit"; the core's own words have messages; anything else
    /// a person, a file or the system wrote.
    fn text_argument(self, name: &str, text: &str, beside: &Fields) -> String {
        if let Ok(entered) = Entered::from_canonical(text) {
            return self.amount(&entered);
        }
        if name == "field" {
            return self.field(text, beside);
        }
        word_key(name, text)
            .filter(|key| self.has(key))
            .map_or_else(|| text.to_owned(), |key| self.t(&key))
    }

    /// A field of a rule, with its number or name; of a sentence on a label; of a sheet.
    fn field(self, name: &str, beside: &Fields) -> String {
        let mut args = FluentArgs::new();
        for arg in ["layer", "name", "number"] {
            match beside.get(arg) {
                Some(Value::String(text)) => args.set(arg, text.clone()),
                Some(Value::Number(n)) => {
                    args.set(arg, self.number_argument(arg, n.as_f64().unwrap_or(0.0)));
                }
                _ => {}
            }
        }
        // words: field-*
        let of_sheet = format!("field-{}", name.replace('_', "-"));
        [
            format!("word-field-{name}"),
            format!("word-{name}"),
            of_sheet,
        ]
        .iter()
        .find(|key| self.has(key))
        .map_or_else(|| name.replace('_', " "), |key| self.say(key, Some(&args)))
    }

    /// A word that may be chosen in a field of a sheet.
    fn choice(self, word: &str, beside: &Fields) -> String {
        let field = beside.get("field").and_then(Value::as_str).unwrap_or("");
        let key = format!("field-{field}-{word}").replace('_', "-");
        if self.has(&key) {
            self.t(&key)
        } else {
            word.replace('_', " ")
        }
    }

    /// An error of the screens or the core beneath them.
    pub(crate) fn trouble(self, trouble: &Trouble) -> String {
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
