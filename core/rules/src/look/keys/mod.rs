//! Keys by what one can see: pest or look-alike, question by question.
//!
//! A key is data: questions with choices, kinds with what each shows, and our own drawings. What
//! answers leave is worked out in `narrow`. A key says "fits" or "may be", never "certain", and
//! at every point a person may be unsure and ask the extension office. Counts and thresholds are in
//! [`super::threshold`].

mod ants;
mod bugs;
mod caterpillars;
mod crickets;
mod grubs;
mod narrow;

#[cfg(test)]
mod tests;

pub use narrow::{Answered, Candidate, Excluded, Narrowed, Standing, narrow};

use serde::Serialize;

use super::Pest;
use crate::error::{Result, RuleError, shortened};

/// So much of what was typed stands in a sentence about it.
const TYPED_MOST: usize = 40;

/// Millimetres in an inch.
const MM_PER_IN: f64 = 25.4;

/// A key for one group of look-alikes.
#[derive(Debug, PartialEq)]
pub struct Key {
    /// Its name, the same in every language.
    pub name: &'static str,
    /// What it tells apart, in English.
    pub english: &'static str,
    /// Where and how to find one to look at, and any caution, in English.
    pub how_to_look: &'static str,
    /// What it asks.
    pub questions: &'static [Question],
    /// What it tells apart.
    pub kinds: &'static [Kind],
}

/// Something that one can see, with its choices.
#[derive(Debug, PartialEq)]
pub struct Question {
    /// Its name, the same in every language.
    pub name: &'static str,
    /// The question in English.
    pub english: &'static str,
    /// What may be seen; "not sure" may always be answered too.
    pub choices: &'static [Choice],
}

/// What may be seen.
#[derive(Debug, PartialEq)]
pub struct Choice {
    /// Its name, the same in every language.
    pub name: &'static str,
    /// In English.
    pub english: &'static str,
    /// A drawing of it, where words are not enough.
    pub drawing: Option<Drawing>,
}

/// A line drawing of our own: SVG, black on transparent by `currentColor`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Drawing {
    /// Its name, the same in every language.
    pub name: &'static str,
    /// The drawing.
    pub svg: &'static str,
}

/// What a kind is to a lawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// It can damage a lawn, or hurt people on it.
    Pest,
    /// It eats pests.
    Helper,
    /// It does no harm worth treating.
    Harmless,
}

/// A kind that a key tells from its look-alikes.
#[derive(Debug, PartialEq)]
pub struct Kind {
    /// Its name, the same in every language.
    pub name: &'static str,
    /// Its common name in English.
    pub english: &'static str,
    /// The pest for which counts have thresholds.
    pub pest: Option<Pest>,
    /// What it is to a lawn.
    pub role: Role,
    /// Whether it hurts people: then one feature, easily misseen, does not exclude it.
    pub hurts_people: bool,
    /// The life stage that is described.
    pub life_stage: &'static str,
    /// Usual length in millimetres, from and to.
    pub length_mm: [f64; 2],
    /// What it shows, question by question. A question left out says nothing about it.
    pub shows: &'static [(&'static str, &'static [&'static str])],
    /// What tells it from its look-alikes, in English.
    pub tells: &'static str,
    /// The kinds that it is taken for, in this key.
    pub look_alikes: &'static [&'static str],
    /// What it looks like.
    pub drawing: Drawing,
    /// Who says so.
    pub sources: &'static [&'static str],
}

impl Key {
    /// One of its questions.
    pub fn question(&self, name: &str) -> Option<&'static Question> {
        self.questions.iter().find(|q| q.name == name)
    }

    /// One of its kinds.
    pub fn kind(&self, name: &str) -> Option<&'static Kind> {
        self.kinds.iter().find(|k| k.name == name)
    }
}

impl Kind {
    /// What it shows on a question; none where nothing is known.
    pub fn shows_on(&self, question: &str) -> Option<&'static [&'static str]> {
        let shown = self.shows.iter().find(|(name, _)| *name == question);
        shown.map(|(_, choices)| *choices)
    }

    /// Usual length in inches, from and to.
    pub fn length_in(&self) -> [f64; 2] {
        self.length_mm.map(|mm| mm / MM_PER_IN)
    }
}

static KEYS: [&Key; 5] = [
    &grubs::KEY,
    &bugs::KEY,
    &caterpillars::KEY,
    &crickets::KEY,
    &ants::KEY,
];

/// Every key.
pub fn keys() -> &'static [&'static Key] {
    &KEYS
}

/// A key by its name.
///
/// ```
/// use sward_rules::look::keys::key;
/// assert_eq!(key("white-grub")?.kinds.len(), 8);
/// assert!(key("weeds").unwrap_err().to_string().contains("white-grub"));
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// [`RuleError::NoSuchKey`].
pub fn key(name: &str) -> Result<&'static Key> {
    let found = KEYS.iter().find(|key| key.name == name).copied();
    found.ok_or_else(|| RuleError::NoSuchKey {
        text: shortened(name, TYPED_MOST),
        offered: joined(KEYS.iter().map(|key| key.name)),
    })
}

fn joined<'a>(names: impl Iterator<Item = &'a str>) -> String {
    names.collect::<Vec<_>>().join(", ")
}

/// A drawing from its file in this folder.
macro_rules! drawing {
    ($name:literal) => {
        $crate::look::keys::Drawing {
            name: $name,
            svg: include_str!(concat!($name, ".svg")),
        }
    };
}

/// A question with its choices, some of them drawn.
macro_rules! question {
    ($name:literal, $english:literal; $($choice:literal => $text:literal $(, $drawing:literal)?;)+) => {
        $crate::look::keys::Question {
            name: $name,
            english: $english,
            choices: &[$($crate::look::keys::Choice {
                name: $choice,
                english: $text,
                drawing: $crate::look::keys::maybe_drawn!($($drawing)?),
            }),+],
        }
    };
}

macro_rules! maybe_drawn {
    () => {
        None
    };
    ($drawing:literal) => {
        Some($crate::look::keys::drawing!($drawing))
    };
}

use {drawing, maybe_drawn, question};
