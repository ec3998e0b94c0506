//! The names of pests: as a person reads and types them, and as they are recorded.
//!
//! Which thresholds there are is the rules' business.

use sward_rules::look::Pest;

use crate::words::{Language, Words};

/// A pest's name.
pub(super) fn name(words: Words, pest: Pest) -> String {
    words.t(match pest {
        Pest::WhiteGrub => "look-pest-white-grub",
        Pest::JapaneseBeetle => "look-pest-japanese-beetle",
        Pest::OrientalBeetle => "look-pest-oriental-beetle",
        Pest::MaskedChafer => "look-pest-masked-chafer",
        Pest::EuropeanChafer => "look-pest-european-chafer",
        Pest::AsiaticGardenBeetle => "look-pest-asiatic-garden-beetle",
        Pest::MayBeetle => "look-pest-may-beetle",
        Pest::ChinchBug => "look-pest-chinch-bug",
        Pest::SodWebworm => "look-pest-sod-webworm",
        Pest::Cutworm => "look-pest-cutworm",
        Pest::Armyworm => "look-pest-armyworm",
        Pest::BlackTurfgrassAtaenius => "look-pest-black-turfgrass-ataenius",
        Pest::MoleCricket => "look-pest-mole-cricket",
        Pest::FireAnt => "look-pest-fire-ant",
        Pest::Billbug => "look-pest-billbug",
    })
}

/// A pest's name as it stands in records, the same whatever the language of the screen.
pub(super) fn recorded(pest: Pest) -> String {
    name(in_language(Language::English), pest)
}

/// A pest's name in an address.
pub(super) fn code(pest: Pest) -> String {
    let value = serde_json::to_value(pest).ok();
    value
        .and_then(|v| v.as_str().map(str::to_owned))
        .unwrap_or_default()
}

/// The pest of an address.
pub(super) fn of_code(code: &str) -> Option<Pest> {
    serde_json::from_value(code.into()).ok()
}

/// The pest that a person means, in either language, in one or many.
pub(super) fn of_text(typed: &str) -> Option<Pest> {
    let typed = folded(typed);
    if typed.is_empty() {
        return None;
    }
    if ["grub", "white grub"].contains(&typed.as_str()) {
        return Some(Pest::WhiteGrub);
    }
    Pest::ALL.into_iter().find(|pest| {
        Language::ALL
            .into_iter()
            .any(|language| folded(&name(in_language(language), *pest)) == typed)
    })
}

/// What a pest is called on the screen; what is no known pest stays as it was typed.
pub(crate) fn pest_name(words: Words, typed: &str) -> String {
    of_text(typed).map_or_else(|| typed.to_owned(), |pest| name(words, pest))
}

fn in_language(language: Language) -> Words {
    Words {
        language,
        units: crate::words::Units::Us,
        zone: chrono_tz::UTC,
    }
}

/// Lower case, spaces for `_`, and each word without the `s` of many.
fn folded(text: &str) -> String {
    text.to_lowercase()
        .replace('_', " ")
        .split_whitespace()
        .map(|word| word.strip_suffix('s').unwrap_or(word))
        .collect::<Vec<_>>()
        .join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pest_is_known_in_both_languages_in_one_and_in_many() {
        assert_eq!(of_text("Japanese beetles"), Some(Pest::JapaneseBeetle));
        assert_eq!(of_text("  white GRUBS "), Some(Pest::WhiteGrub));
        assert_eq!(of_text("chinch_bug"), Some(Pest::ChinchBug));
        assert_eq!(of_text("gallina ciega"), Some(Pest::WhiteGrub));
        assert_eq!(of_text("moles"), None);
        assert_eq!(of_text(""), None);
    }

    #[test]
    fn what_is_recorded_is_read_back_as_the_same_pest() {
        for pest in Pest::ALL {
            assert_eq!(of_text(&recorded(pest)), Some(pest));
            assert_eq!(of_code(&code(pest)), Some(pest));
        }
    }
}
