//! What stands in the fields of a sheet, in words; empty is "not known", and a silent label is
//! something else.
//!
//! Names of fields are made of their keys (words: field-*).

use chrono::NaiveDate;
use maud::{Markup, html};
use sward_book::sheet::schema::{self, Field, FieldKind, SAYS_NOTHING};
use sward_book::sheet::{SheetConflict, SheetDoc, SheetKind};
use sward_rules::Entered;

use crate::Result;
use crate::ask::Ask;
use crate::trouble::if_there;

/// The message with a field's name.
pub(super) fn name_key(key: &str) -> String {
    format!("field-{}", key.replace('_', "-"))
}

/// The message that helps to fill it; empty where there is none.
pub(super) fn help_key(ask: &Ask<'_>, key: &str) -> String {
    let help = format!("field-{}-help", key.replace('_', "-"));
    if ask.words.has(&help) {
        help
    } else {
        String::new()
    }
}

/// A field's name; a key this program does not know, as it is.
pub(super) fn name(ask: &Ask<'_>, key: &str) -> String {
    let name = name_key(key);
    if ask.words.has(&name) {
        ask.t(&name)
    } else {
        key.replace('_', " ")
    }
}

/// A word of a choice.
pub(super) fn choice(ask: &Ask<'_>, key: &str, word: &str) -> String {
    let message = format!("{}-{}", name_key(key), word.replace('_', "-"));
    if ask.words.has(&message) {
        ask.t(&message)
    } else {
        word.replace('_', " ")
    }
}

/// Yes, no, silent, and the words of watering in.
pub(super) fn yes_no(ask: &Ask<'_>, word: &str) -> String {
    match word {
        "yes" => ask.t("field-yes"),
        "no" => ask.t("field-no"),
        "required" => ask.t("field-water-required"),
        "withheld" => ask.t("field-water-withheld"),
        SAYS_NOTHING => ask.t("field-says-nothing"),
        other => other.to_owned(),
    }
}

/// What stands in a field; none where it is not known.
pub(super) fn in_words(ask: &Ask<'_>, field: &Field, stored: &str) -> Result<Option<String>> {
    if stored.is_empty() {
        return Ok(None);
    }
    Ok(Some(match field.kind {
        FieldKind::Number(_) | FieldKind::LabelNumber(_) => amount(ask, stored),
        FieldKind::YesNo | FieldKind::LabelYesNo => yes_no(ask, stored),
        FieldKind::WateringIn => match stored.split_once(' ') {
            Some((word, rest)) => format!("{}: {}", yes_no(ask, word), amount(ask, rest)),
            None => yes_no(ask, stored),
        },
        FieldKind::Choice(_) => choice(ask, field.key, stored),
        FieldKind::Day => match NaiveDate::parse_from_str(stored, "%Y-%m-%d") {
            Ok(day) => day_with_age(ask, day),
            Err(_) => stored.to_owned(),
        },
        FieldKind::Id(SheetKind::Label) => return product(ask, stored),
        _ => stored.to_owned(),
    }))
}

fn amount(ask: &Ask<'_>, stored: &str) -> String {
    match Entered::from_canonical(stored) {
        Ok(entered) => ask.words.amount(&entered),
        Err(_) => yes_no(ask, stored),
    }
}

/// The product of a label sheet; none where the sheet has not arrived or has no name.
pub(super) fn product(ask: &Ask<'_>, label: &str) -> Result<Option<String>> {
    let Ok(label) = label.parse() else {
        return Ok(None);
    };
    let view = if_there(ask.book()?.label(label))?;
    Ok(view.map(|v| v.product).filter(|name| !name.is_empty()))
}

/// A day with how long ago it was, or how far ahead it lies.
pub(super) fn day_with_age(ask: &Ask<'_>, day: NaiveDate) -> String {
    let days = (ask.words.day_of(ask.now.utc_ms) - day).num_days();
    let said = ask.words.day(day);
    let key = match days {
        0 => "field-day-today",
        1.. => "field-day-ago",
        _ => "field-day-ahead",
    };
    ask.words.t_with(
        key,
        &[("day", said.into()), ("n", days.saturating_abs().into())],
    )
}

/// Rows of what stands in some fields, each to its safer side where two phones disagree.
pub(super) fn rows(
    ask: &Ask<'_>,
    kind: SheetKind,
    doc: &SheetDoc,
    conflicts: &[SheetConflict],
    keys: &[&str],
) -> Result<Markup> {
    let mut rows = Vec::new();
    for key in keys {
        let field = schema::field(kind, key).expect("the groups name fields of the table");
        let conflict = conflicts
            .iter()
            .find(|c| c.item.is_none() && c.conflict.field == *key);
        let stored = match conflict {
            Some(found) => found.conflict.acted_on.clone().unwrap_or_default(),
            None => doc.text(key),
        };
        rows.push((
            name(ask, key),
            in_words(ask, field, &stored)?,
            conflict.is_some(),
        ));
    }
    Ok(html! {
        dl {
            @for (name, said, in_doubt) in &rows {
                div.row {
                    dt { (name) }
                    dd {
                        @match said {
                            Some(said) => { (in_lines(said)) },
                            None => span.unknown { (ask.t("frame-not-known")) },
                        }
                        @if *in_doubt { " (" (ask.t("things-in-doubt")) ")" }
                    }
                }
            }
        }
    })
}

/// Text with its lines.
pub(super) fn in_lines(text: &str) -> Markup {
    html! {
        @for (n, line) in text.lines().enumerate() {
            @if n > 0 { br; }
            (line)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::fields::KINDS;
    use super::*;
    use crate::words::{Language, Units, Words};

    #[test]
    fn every_field_and_every_word_to_choose_has_a_name_in_both_languages() {
        for language in Language::ALL {
            let words = Words {
                language,
                units: Units::Us,
                zone: chrono_tz::Tz::America__New_York,
            };
            let missing: Vec<String> = KINDS
                .into_iter()
                .flat_map(|kind| {
                    let lists = schema::lists(kind).iter().flat_map(|list| list.fields);
                    schema::fields(kind).iter().chain(lists)
                })
                .filter(|field| field.key != schema::HIDDEN && field.key != "retired")
                .flat_map(|field| {
                    let choices = match field.kind {
                        FieldKind::Choice(words) => words,
                        _ => &[],
                    };
                    let choices = choices
                        .iter()
                        .map(|word| format!("{}-{}", name_key(field.key), word.replace('_', "-")));
                    std::iter::once(name_key(field.key))
                        .chain(choices)
                        .collect::<Vec<_>>()
                })
                .filter(|key| !words.has(key))
                .collect();
            assert!(missing.is_empty(), "{language:?}: {missing:?}");
        }
    }
}
