//! Words: every string a person sees, in their language, with numbers, dates and units as they
//! read them.
//!
//! The strings are in `words/en` and `words/es`, one Fluent file a screen. No other file of this
//! crate holds text for a person.

mod amount;
mod said;
mod time;

use std::sync::LazyLock;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use include_dir::{Dir, include_dir};
use unic_langid::LanguageIdentifier;

pub(crate) use time::Clock;

static FILES: Dir<'static> = include_dir!("$CARGO_MANIFEST_DIR/words");

/// A language the screens speak.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Language {
    /// English as in the United States.
    English,
    /// Spanish as in the United States: decimal point, thousands by comma.
    Spanish,
}

impl Language {
    /// Every language.
    pub(crate) const ALL: [Self; 2] = [Self::English, Self::Spanish];

    /// Its code in settings, folders and `lang` attributes.
    pub(crate) fn code(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::Spanish => "es",
        }
    }

    /// The language of a code.
    pub(crate) fn of(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|l| l.code() == code)
    }

    /// The language a browser asks for first among those spoken here.
    pub(crate) fn wanted(accept_language: &str) -> Self {
        accept_language
            .split(',')
            .filter_map(|part| part.trim().get(..2))
            .find_map(|code| Self::of(&code.to_ascii_lowercase()))
            .unwrap_or(Self::English)
    }
}

/// Which units a person is shown where a field was left empty.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Units {
    /// Feet, pounds, gallons, miles per hour.
    Us,
    /// Metres, kilograms, litres, metres per second.
    Metric,
}

impl Units {
    /// Its code in settings.
    pub(crate) fn code(self) -> &'static str {
        match self {
            Self::Us => "us",
            Self::Metric => "metric",
        }
    }

    /// The units of a code.
    pub(crate) fn of(code: &str) -> Option<Self> {
        [Self::Us, Self::Metric]
            .into_iter()
            .find(|u| u.code() == code)
    }
}

struct Tongue {
    bundle: FluentBundle<FluentResource>,
}

static ENGLISH: LazyLock<Tongue> = LazyLock::new(|| tongue(Language::English));
static SPANISH: LazyLock<Tongue> = LazyLock::new(|| tongue(Language::Spanish));

fn tongue(language: Language) -> Tongue {
    let id: LanguageIdentifier = match language {
        Language::English => "en-US",
        Language::Spanish => "es-US",
    }
    .parse()
    .expect("the languages spoken here have valid names");
    let mut bundle = FluentBundle::new_concurrent(vec![id]);
    // The marks around inserted values would be read aloud by some screen readers.
    bundle.set_use_isolating(false);
    let folder = FILES
        .get_dir(language.code())
        .expect("the folder of every language is built in");
    for file in folder.files() {
        let text = file.contents_utf8().expect("word files are UTF-8");
        let resource = FluentResource::try_new(text.to_owned())
            .unwrap_or_else(|(_, errors)| panic!("{}: {errors:?}", file.path().display()));
        bundle
            .add_resource(resource)
            .unwrap_or_else(|errors| panic!("{}: {errors:?}", file.path().display()));
    }
    Tongue { bundle }
}

/// The words for one person: language, units, and the time zone in which they read times.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Words {
    /// The language.
    pub(crate) language: Language,
    /// The units for empty fields and for what is worked out.
    pub(crate) units: Units,
    /// The zone: a yard's, else the device's.
    pub(crate) zone: chrono_tz::Tz,
}

impl Words {
    /// A message without arguments.
    pub(crate) fn t(self, key: &str) -> String {
        self.say(key, None)
    }

    /// A message with arguments.
    pub(crate) fn t_with(self, key: &str, args: &[(&str, FluentValue<'_>)]) -> String {
        let mut given = FluentArgs::new();
        for (name, value) in args {
            given.set(*name, value.clone());
        }
        self.say(key, Some(&given))
    }

    /// Whether there is a message of this name.
    pub(crate) fn has(self, key: &str) -> bool {
        self.tongue().bundle.has_message(key)
    }

    /// The same words in a yard's time zone.
    #[must_use]
    pub(crate) fn in_zone(self, zone: Option<chrono_tz::Tz>) -> Self {
        Self {
            zone: zone.unwrap_or(self.zone),
            ..self
        }
    }

    fn tongue(self) -> &'static Tongue {
        match self.language {
            Language::English => &ENGLISH,
            Language::Spanish => &SPANISH,
        }
    }

    fn say(self, key: &str, args: Option<&FluentArgs<'_>>) -> String {
        let bundle = &self.tongue().bundle;
        let pattern = bundle.get_message(key).and_then(|m| m.value());
        let mut errors = Vec::new();
        match pattern {
            Some(pattern) => {
                let text = bundle
                    .format_pattern(pattern, args, &mut errors)
                    .into_owned();
                debug_assert!(errors.is_empty(), "{key}: {errors:?}");
                text
            }
            // Marked so that a test of the whole page finds it; a person still sees what is meant.
            None => format!("\u{27e6}{key}\u{27e7}"),
        }
    }
}

#[cfg(test)]
mod core_tests;
#[cfg(test)]
mod tests;
