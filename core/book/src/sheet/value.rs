//! Checking what a person typed into a field, and choosing between two values written at once.

use chrono_tz::Tz;
use minicbor::decode;
use sward_rules::Entered;
use sward_rules::measure::Outline;

use super::doc::{FieldValue, Versions};
use super::schema::{Field, FieldKind, NO, SAYS_NOTHING, Safer, YES};
use crate::{BookError, Result};

/// The longest text in a field, in bytes; a note may be sixteen times as long.
pub const TEXT_BYTES_MAX: usize = 500;

/// Checks what was typed and brings it into the stored form: numbers as "decimal unit" with the
/// UCUM code. Empty text empties the field.
///
/// # Errors
/// [`BookError::Refused`] or [`BookError::Rule`], naming the field and what may stand in it.
pub fn check_text(field: &Field, typed: &str) -> Result<FieldValue> {
    let typed = typed.trim();
    let refuse = |what: &str| Err(BookError::refused(format!("{}: {what}", spoken(field.key))));
    let longest = if field.kind == FieldKind::Note {
        16 * TEXT_BYTES_MAX
    } else {
        TEXT_BYTES_MAX
    };
    if typed.len() > longest {
        return refuse(&format!("too long, at most {longest} bytes"));
    }
    if typed
        .chars()
        .any(|c| c.is_control() && !(field.kind == FieldKind::Note && c == '\n'))
    {
        return refuse("holds a control character: type it again");
    }
    if typed.is_empty() {
        return Ok(FieldValue::Text(String::new()));
    }
    let stored = match field.kind {
        FieldKind::Text | FieldKind::Note => typed.to_owned(),
        FieldKind::LabelNumber(_) | FieldKind::LabelYesNo if typed == SAYS_NOTHING => {
            SAYS_NOTHING.to_owned()
        }
        FieldKind::Number(dimensions) | FieldKind::LabelNumber(dimensions) => {
            number(field, typed, dimensions)?
        }
        FieldKind::LabelYesNo if typed == YES || typed == NO => typed.to_owned(),
        FieldKind::LabelYesNo => return refuse("write yes, no, or nothing (the label is silent)"),
        FieldKind::WateringIn => watering_in(field, typed)?,
        FieldKind::Choice(words) if words.contains(&typed) => typed.to_owned(),
        FieldKind::Choice(words) => return refuse(&format!("write one of: {}", words.join(", "))),
        FieldKind::Zone => typed
            .parse::<Tz>()
            .map(|tz| tz.name().to_owned())
            .map_err(|_| {
                BookError::refused(
                    "zone: not a known time zone; write one like America/New_York or Europe/Madrid",
                )
            })?,
        FieldKind::Outline => return refuse("is drawn, not typed"),
    };
    Ok(FieldValue::Text(stored))
}

/// A key as a person reads it.
pub fn spoken(key: &str) -> String {
    key.replace('_', " ")
}

fn number(
    field: &Field,
    typed: &str,
    dimensions: &[sward_rules::quantity::Dimension],
) -> Result<String> {
    let entered = Entered::parse(typed)
        .map_err(|e| BookError::refused(format!("{}: {e}", spoken(field.key))))?;
    if !dimensions.contains(&entered.dimension()) {
        let wanted: Vec<String> = dimensions.iter().map(ToString::to_string).collect();
        return Err(BookError::refused(format!(
            "{}: {typed} is {}, where {} is needed",
            spoken(field.key),
            entered.dimension(),
            wanted.join(" or ")
        )));
    }
    let cold = entered.dimension() == sward_rules::quantity::Dimension::Temperature;
    if entered.amount().is_sign_negative() && !cold {
        return Err(BookError::refused(format!(
            "{}: cannot be negative",
            spoken(field.key)
        )));
    }
    if entered.is_zero() && field.key.starts_with("rate") {
        return Err(BookError::refused(format!(
            "{}: zero is no rate; leave the field empty if the label gives none",
            spoken(field.key)
        )));
    }
    Ok(entered.to_string())
}

fn watering_in(field: &Field, typed: &str) -> Result<String> {
    use sward_rules::quantity::Dimension::{Length, Time};
    if typed == SAYS_NOTHING {
        return Ok(typed.to_owned());
    }
    let (word, rest) = typed.split_once(' ').unwrap_or((typed, ""));
    let dimension = match word {
        "required" => Length,
        "withheld" => Time,
        _ => {
            return Err(BookError::refused(
                "watering in: write \"required 0.5 in\", \"withheld 24 h\", or nothing (the label is silent)",
            ));
        }
    };
    if rest.is_empty() {
        return Ok(word.to_owned());
    }
    Ok(format!("{word} {}", number(field, rest, &[dimension])?))
}

/// The outline in a field.
///
/// # Errors
/// [`BookError::Format`] when the bytes are none.
pub fn outline_of(value: &FieldValue) -> Result<Outline> {
    let bytes = value.bytes().ok_or_else(|| BookError::format("outline"))?;
    decode(bytes).map_err(|_| BookError::format("outline"))
}

/// The bytes of an outline for a field.
pub fn outline_value(outline: &Outline) -> FieldValue {
    FieldValue::Bytes(minicbor::to_vec(outline).expect("a vector takes every write"))
}

/// Of several values written at once, the one to act on; none when no one can tell which is
/// safe. The caller shows all of them either way.
pub(super) fn safer<'a>(field: &Field, versions: &'a Versions) -> Option<&'a str> {
    if versions.others.is_empty() || field.safer == Safer::EitherWins {
        return versions.value.text();
    }
    let mut texts = versions.all().map(FieldValue::text);
    let mut best = texts.next()??;
    for text in texts {
        best = safer_of(field, best, text?)?;
    }
    Some(best)
}

fn safer_of<'a>(field: &Field, a: &'a str, b: &'a str) -> Option<&'a str> {
    // An empty field is Unknown, and so is a silent label beside a number: nobody can tell which
    // of the two phones read the label rightly.
    if a.is_empty() || b.is_empty() {
        return None;
    }
    match field.safer {
        Safer::EitherWins => Some(a),
        Safer::Neither => None,
        Safer::Yes => [a, b].contains(&YES).then_some(YES),
        Safer::Lower | Safer::Higher => {
            let x = Entered::parse(a).ok()?;
            let y = Entered::parse(b).ok()?;
            let order = x.compare(&y).ok()?;
            let first = if field.safer == Safer::Lower {
                order.is_le()
            } else {
                order.is_ge()
            };
            Some(if first { a } else { b })
        }
    }
}
