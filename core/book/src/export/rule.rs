//! Which of the fields that a rule about records asks for a record holds.
//!
//! What rules ask for is [`sward_rules::record_rules`]. A help to look with, no verdict: which rule
//! binds whom depends on state, product and licence.

use sward_rules::label::Method;
use sward_rules::record_rules::{Asked, Circumstances, FieldName, Filled, RecordRule, asked};

use super::record::{Outcome, Record, When};

use FieldName as F;

/// Which fields a rule asks for, and which of them the record holds. Empty for a visit on which
/// nothing was treated: these rules are about applications. "Yes" says that something stands
/// there, not that it is right or enough; show [`sward_rules::record_rules::CHECK_YOUR_RULE`]
/// beside it. A record does not say whether only spots were treated, nor whether a re-entry time
/// applied: so nothing is left out for either.
pub fn fields_asked(record: &Record, rule: &RecordRule) -> Vec<Asked> {
    if record.outcome == Outcome::NotTreated {
        return Vec::new();
    }
    asked(rule, &Circumstances::default(), |field| {
        filled(record, field)
    })
    .expect("no area was given that could be refused")
}

fn filled(record: &Record, field: FieldName) -> Filled {
    let treatment = record.treatment.as_ref();
    let person = record.applicator.as_ref();
    let is = |there: bool| if there { Filled::Yes } else { Filled::No };
    let text = |text: &str| is(!text.trim().is_empty());
    let perhaps = |text: &str| {
        if text.trim().is_empty() {
            Filled::No
        } else {
            Filled::LookInText
        }
    };
    match field {
        F::Product => text(treatment.map_or("", |t| &t.product)),
        F::RegistrationNumber => text(treatment.map_or("", |t| &t.registration)),
        F::TotalProduct => is(treatment.is_some_and(|t| t.product_total.is_some())),
        // Dry product is its own mix; a liquid's is told as product and water.
        F::TotalMix => is(treatment.is_some_and(|t| {
            let dry = matches!(t.method, Method::Granule | Method::Bait);
            t.product_total.is_some() && (dry || t.water_total.is_some())
        })),
        F::Rate | F::Method => is(treatment.is_some()),
        F::Target => text(&record.target),
        // When an unreadable finish was written is not when something was put on.
        F::Date => is(treatment.is_some() && record.date.is_some()),
        F::StartTime => is(record.started.as_ref().is_some_and(When::is_readable)),
        F::FinishTime => is(treatment.is_some() && record.finished.is_readable()),
        F::Location => text(&record.address),
        F::AddressWithZip => is(has_zip(&record.address)),
        F::Site => is(treatment.is_some_and(|t| !t.sections.is_empty())),
        F::Area => is(treatment.is_some_and(|t| {
            !t.sections.is_empty() && t.sections.iter().all(|s| !s.area.is_empty())
        })),
        F::Temperature => is(!record.temperatures.is_empty()),
        F::WindSpeed => is(!record.wind.readings.is_empty() || !record.wind.estimates.is_empty()),
        F::WindDirection => is(record
            .wind
            .readings
            .iter()
            .any(|r| r.from_degrees.is_some())),
        F::Customer => perhaps(&record.yard_name),
        F::Company => text(&record.crew),
        F::Applicator => text(person.map_or("", |p| &p.name)),
        F::LicenceNumber => text(person.map_or("", |p| &p.licence)),
        F::Equipment => match treatment.and_then(|t| t.equipment.as_deref()) {
            Some(told) if !told.trim().is_empty() => Filled::Yes,
            _ => perhaps(&record.note),
        },
        F::UnexpectedOccurrence if !record.after.incidents.is_empty() => Filled::Yes,
        // What was rinsed and kept is answered task by task; whether that tells of the containers
        // too, a person has to read.
        F::Disposal if !record.after.aftercare.is_empty() => Filled::LookInText,
        F::UnexpectedOccurrence | F::Disposal => perhaps(&record.note),
    }
}

/// Whether an address ends its numbers with a zip code: five digits, or five and four. A house
/// number that begins the address is none.
fn has_zip(address: &str) -> bool {
    let address = address.trim();
    let is_number = |c: char| c.is_ascii_digit() || c == '-';
    let Some(end) = address.rfind(|c: char| c.is_ascii_digit()) else {
        return false;
    };
    let head = &address[..=end];
    let start = head.rfind(|c: char| !is_number(c)).map_or(0, |at| {
        at + head[at..].chars().next().map_or(0, char::len_utf8)
    });
    let number = &head[start..];
    let digits =
        |text: &str, len: usize| text.len() == len && text.bytes().all(|b| b.is_ascii_digit());
    let zip = match number.split_once('-') {
        Some((five, four)) => digits(five, 5) && digits(four, 4),
        None => digits(number, 5),
    };
    zip && start > 0
}
