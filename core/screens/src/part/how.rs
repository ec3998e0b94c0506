//! "How" behind a number: what went in, which formula, whose, and how it was rounded.

use maud::{Markup, html};
use sward_rules::Working;

use crate::ask::Ask;
use crate::words::Words;

/// A number's working, folded away until a person asks.
pub(crate) fn how(ask: &Ask<'_>, working: &Working) -> Markup {
    let words = ask.words;
    html! {
        details.how {
            summary { (words.t("frame-how")) }
            p { (words.t("frame-formula")) ": " (words.term(working.formula)) }
            dl {
                @for (name, value) in &working.inputs {
                    div.row { dt { (words.term(name)) } dd { (value) } }
                }
            }
            @if let Some(rounding) = &working.rounding { p { (words.said("rounding", rounding)) } }
            @for note in &working.notes { p { (words.said("note", note)) } }
            p.source { (words.t("frame-source")) ": " (words.term(working.source)) }
        }
    }
}

impl Words {
    /// A name in a working: a formula, an input, a source. Titles of published sources stay as
    /// they were published.
    pub(crate) fn term(self, english: &str) -> String {
        let key = format!("how-{}", slug(english));
        if self.has(&key) {
            self.t(&key)
        } else {
            english.to_owned()
        }
    }
}

impl Words {
    /// A life stage that is counted.
    pub(crate) fn stage(self, english: &str) -> String {
        // words: word-*
        self.t(&format!("word-{}", slug(english)))
    }
}

/// A message's name made of an English term: letters and digits, a dash for everything between.
pub(crate) fn slug(text: &str) -> String {
    let mut slug = String::new();
    for c in text.chars() {
        if c.is_ascii_alphanumeric() {
            slug.push(c.to_ascii_lowercase());
        } else if !slug.ends_with('-') && !slug.is_empty() {
            slug.push('-');
        }
    }
    slug.trim_end_matches('-').to_owned()
}
