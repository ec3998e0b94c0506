//! The words of a paper sign, in English and in Spanish, ready to print.
//!
//! What stands on a sign is read by neighbours whatever language a crew's screens are in: so both
//! are here, and not in the shells. Some states set words of their own; those are not here.

use chrono::{DateTime, Datelike as _, Timelike as _};
use chrono_tz::Tz;

use super::SignLanguage;
use super::{local_day, minute_up};

/// Longest piece of a person's text that goes on one line of a sign, in characters.
const TEXT_MOST: usize = 80;

const MONTHS: [[&str; 12]; 2] = [
    [
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ],
    [
        "enero",
        "febrero",
        "marzo",
        "abril",
        "mayo",
        "junio",
        "julio",
        "agosto",
        "septiembre",
        "octubre",
        "noviembre",
        "diciembre",
    ],
];

/// What a sign tells of one treatment. Empty texts are left out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SignFacts<'a> {
    /// The product's name.
    pub product: &'a str,
    /// Its registration number.
    pub registration: &'a str,
    /// When treating ended, in milliseconds since 1970 UTC.
    pub ended_utc_ms: i64,
    /// Until when people and pets keep off, in milliseconds since 1970 UTC; none: until somebody
    /// says that they may come back.
    pub keep_off_until_utc_ms: Option<i64>,
    /// The sign stays at least until then, in milliseconds since 1970 UTC; none: not known.
    pub stays_until_utc_ms: Option<i64>,
    /// Who put it on.
    pub by: &'a str,
    /// Where to ask.
    pub phone: &'a str,
    /// The yard's zone.
    pub zone: Tz,
}

/// A sign's lines in one language, the first the headline.
///
/// Without a known end the lawn is never said to be free: the line then asks to wait for a word.
///
/// ```
/// use sward_rules::place::{SignFacts, SignLanguage, sign_text};
/// let facts = SignFacts {
///     product: "Invented Lawn Granule",
///     registration: "000-0",
///     ended_utc_ms: 1_793_491_200_000,
///     keep_off_until_utc_ms: None,
///     stays_until_utc_ms: None,
///     by: "",
///     phone: "",
///     zone: chrono_tz::America::New_York,
/// };
/// let lines = sign_text(SignLanguage::Spanish, &facts);
/// assert_eq!(lines[0], "CÉSPED TRATADO CON PESTICIDA");
/// assert!(lines.contains(&"Aplicado el 31 de octubre de 2026, 20:00".to_owned()));
/// ```
pub fn sign_text(language: SignLanguage, facts: &SignFacts<'_>) -> Vec<String> {
    let at = |utc_ms| moment(language, utc_ms, facts.zone);
    let spanish = language == SignLanguage::Spanish;
    let say = |english: &str, words: &str| if spanish { words } else { english }.to_owned();
    let mut lines = vec![
        say(
            "LAWN TREATED WITH A PESTICIDE",
            "CÉSPED TRATADO CON PESTICIDA",
        ),
        say(
            "KEEP OFF: children, adults and pets",
            "NO ENTRAR: niños, adultos y mascotas",
        ),
    ];
    lines.push(match facts.keep_off_until_utc_ms.and_then(at) {
        Some(until) => say("Keep off until ", "No entrar hasta el ") + &until,
        None => say(
            "Keep off until whoever treated it says that you may come back",
            "No entrar hasta que quien lo trató diga que se puede volver",
        ),
    });
    let mut add = |english: &str, words: &str, text: Option<String>| {
        if let Some(text) = text {
            lines.push(say(english, words) + &text);
        }
    };
    add("Product: ", "Producto: ", one_line(facts.product));
    add(
        "Registration number: ",
        "Número de registro: ",
        one_line(facts.registration),
    );
    add("Put on ", "Aplicado el ", at(facts.ended_utc_ms));
    add("Put on by: ", "Aplicado por: ", one_line(facts.by));
    add("Telephone: ", "Teléfono: ", one_line(facts.phone));
    add(
        "Leave this sign up at least until ",
        "Deje este letrero por lo menos hasta el ",
        facts.stays_until_utc_ms.and_then(at),
    );
    lines
}

/// A moment in a sign's own words; rounded up to the minute, so that no sign ends early.
fn moment(language: SignLanguage, utc_ms: i64, zone: Tz) -> Option<String> {
    let up = minute_up(utc_ms)?;
    local_day(up, zone)?;
    let local = DateTime::from_timestamp_millis(up)?.with_timezone(&zone);
    let month = usize::try_from(local.month0()).ok()?;
    let (day, year) = (local.day(), local.year());
    let (hour, minute) = (local.hour(), local.minute());
    Some(match language {
        SignLanguage::English => {
            let half = if hour < 12 { "am" } else { "pm" };
            let hour = if hour % 12 == 0 { 12 } else { hour % 12 };
            let name = MONTHS[0].get(month)?;
            format!("{name} {day}, {year}, {hour}:{minute:02} {half}")
        }
        SignLanguage::Spanish => {
            let name = MONTHS[1].get(month)?;
            format!("{day} de {name} de {year}, {hour}:{minute:02}")
        }
    })
}

/// What a person wrote, on one line; none where nothing is left of it.
fn one_line(text: &str) -> Option<String> {
    let clean: String = text
        .chars()
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect();
    let line: String = clean
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
        .chars()
        .take(TEXT_MOST)
        .collect();
    (!line.is_empty()).then_some(line)
}
