//! Checking what a person typed into a field, and choosing between two values written at once.

use chrono::{Datelike as _, NaiveDate};
use chrono_tz::Tz;
use minicbor::decode;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive as _;
use sward_rules::measure::Outline;
use sward_rules::quantity::Dimension;
use sward_rules::{Entered, RuleError};
use uuid::Uuid;

use super::doc::{FieldValue, Versions};
use super::schema::{Field, FieldKind, NO, SAYS_NOTHING, Safer, YES};
use super::{Offset, Position};
use crate::refusal::FieldRefusal;
use crate::{BookError, Malformed, Result};

/// The longest text in a field, in bytes; a note may be sixteen times as long.
pub const TEXT_BYTES_MAX: usize = 500;

/// Checks what was typed and brings it into the stored form: numbers as "decimal unit" with the
/// UCUM code. Empty text empties the field.
///
/// # Errors
/// [`BookError::Refused`] or [`BookError::Rule`], naming the field and what may stand in it.
pub fn check_text(field: &Field, typed: &str) -> Result<FieldValue> {
    let typed = typed.trim();
    let refuse = |why: FieldRefusal| Err(BookError::refused(why));
    let key = field.key;
    let longest = match field.kind {
        FieldKind::Note | FieldKind::Ids => 16 * TEXT_BYTES_MAX,
        _ => TEXT_BYTES_MAX,
    };
    if typed.len() > longest {
        return refuse(FieldRefusal::FieldTooLong {
            field: key,
            bytes_most: longest,
        });
    }
    if typed
        .chars()
        .any(|c| c.is_control() && !(field.kind == FieldKind::Note && c == '\n'))
    {
        return refuse(FieldRefusal::FieldControlCharacter { field: key });
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
        FieldKind::LabelYesNo | FieldKind::YesNo if typed == YES || typed == NO => typed.to_owned(),
        FieldKind::YesNo => return refuse(FieldRefusal::FieldYesOrNo { field: key }),
        FieldKind::LabelYesNo => return refuse(FieldRefusal::FieldYesNo { field: key }),
        FieldKind::WateringIn => watering_in(field, typed)?,
        FieldKind::Choice(words) if words.contains(&typed) => typed.to_owned(),
        FieldKind::Choice(words) => {
            return refuse(FieldRefusal::FieldChoice {
                field: key,
                words: words.to_vec(),
            });
        }
        FieldKind::Zone => typed
            .parse::<Tz>()
            .map(|tz| tz.name().to_owned())
            .map_err(|_| BookError::refused(FieldRefusal::ZoneUnknown))?,
        FieldKind::Day => match day_of(typed) {
            Some(day) => day.to_string(),
            None => return refuse(FieldRefusal::FieldDay { field: key }),
        },
        FieldKind::Bearing => match bearing(typed) {
            Some(degrees) => format!("{degrees} deg"),
            None => return refuse(FieldRefusal::FieldBearing { field: key }),
        },
        FieldKind::Position => match Position::parse(typed) {
            Some(position) => position.to_string(),
            None => return refuse(FieldRefusal::FieldPosition { field: key }),
        },
        FieldKind::Offset => Offset::parse(key, typed)
            .map_err(BookError::refused)?
            .to_string(),
        FieldKind::Id(_) | FieldKind::Ids => match ids(field.kind, typed) {
            Some(ids) => ids,
            None => return refuse(FieldRefusal::FieldNamesNothing { field: key }),
        },
        FieldKind::Outline => return refuse(FieldRefusal::FieldDrawn { field: key }),
    };
    Ok(FieldValue::Text(stored))
}

/// A key as a person reads it.
pub fn spoken(key: &str) -> String {
    key.replace('_', " ")
}

/// Years that a day in a book can lie in; anything else is a typing slip.
const YEARS: std::ops::RangeInclusive<i32> = 1900..=2199;

/// The day in a field; none when it is none.
pub(super) fn day_of(text: &str) -> Option<NaiveDate> {
    let day = NaiveDate::parse_from_str(text, "%Y-%m-%d").ok()?;
    YEARS.contains(&day.year()).then_some(day)
}

/// Degrees as typed, with or without their sign.
fn bearing(typed: &str) -> Option<Decimal> {
    const DECIMALS_MOST: u32 = 3;
    let number = typed
        .strip_suffix("deg")
        .or_else(|| typed.strip_suffix('°'))
        .unwrap_or(typed)
        .trim_end();
    if !number.bytes().all(|b| b.is_ascii_digit() || b == b'.') {
        return None;
    }
    let degrees = Decimal::from_str_exact(number).ok()?;
    (degrees <= Decimal::from(360) && degrees.scale() <= DECIMALS_MOST).then_some(degrees)
}

/// The degrees in a field, from 0 to below 360; none when there are none.
pub(super) fn degrees_of(text: &str) -> Option<f64> {
    bearing(text)?.to_f64().map(|degrees| degrees % 360.0)
}

fn ids(kind: FieldKind, typed: &str) -> Option<String> {
    let ids: Vec<String> = typed
        .split_whitespace()
        .map(|id| id.parse::<Uuid>().map(|id| id.to_string()))
        .collect::<Result<_, _>>()
        .ok()?;
    (kind == FieldKind::Ids || ids.len() == 1).then(|| ids.join(" "))
}

fn number(field: &Field, typed: &str, dimensions: &[Dimension]) -> Result<String> {
    let entered = Entered::parse(typed).map_err(|rule| amount(field, rule))?;
    if !dimensions.contains(&entered.dimension()) {
        return Err(BookError::refused(FieldRefusal::FieldDimension {
            field: field.key,
            typed: typed.to_owned(),
            dimension: entered.dimension(),
            wanted: dimensions.to_vec(),
        }));
    }
    let cold = entered.dimension() == Dimension::Temperature;
    if entered.amount().is_sign_negative() && !cold {
        return Err(BookError::refused(FieldRefusal::FieldNegative {
            field: field.key,
        }));
    }
    if entered.is_zero() && dimensions.contains(&Dimension::MassPerArea) {
        return Err(BookError::refused(FieldRefusal::FieldZeroRate {
            field: field.key,
        }));
    }
    Ok(entered.to_string())
}

fn amount(field: &Field, rule: RuleError) -> BookError {
    BookError::refused(FieldRefusal::FieldAmount {
        field: field.key,
        rule: Box::new(rule),
    })
}

fn watering_in(field: &Field, typed: &str) -> Result<String> {
    use Dimension::{Length, Time};
    if typed == SAYS_NOTHING {
        return Ok(typed.to_owned());
    }
    let (word, rest) = typed.split_once(' ').unwrap_or((typed, ""));
    let dimension = match word {
        "required" => Length,
        "withheld" => Time,
        _ => {
            return Err(BookError::refused(FieldRefusal::WateringIn));
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
    let bytes = value
        .bytes()
        .ok_or_else(|| BookError::format(Malformed::Outline))?;
    decode(bytes).map_err(|_| BookError::format(Malformed::Outline))
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
            let order = if field.kind == FieldKind::Day {
                day_of(a)?.cmp(&day_of(b)?)
            } else {
                let (x, y) = (Entered::parse(a).ok()?, Entered::parse(b).ok()?);
                x.compare(&y).ok()?
            };
            let first = if field.safer == Safer::Lower {
                order.is_le()
            } else {
                order.is_ge()
            };
            Some(if first { a } else { b })
        }
    }
}
