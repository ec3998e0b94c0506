//! What some rules ask a record of an application to hold, and whether a record holds it.
//!
//! A help to look with, no verdict: texts of laws were read in stored copies, and which rule binds
//! whom depends on state, product and licence. Every reader has to check the present text.

use serde::Serialize;
use sward_rules::label::Method;

use super::record::{Outcome, Record, When};

/// Stands beside everything that leans on [`RULES`].
pub const CHECK_YOUR_RULE: &str = "What the crew recorded. What a record must hold depends on state, product and licence: check your state's current rule.";

/// Something that a rule asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FieldName {
    /// Brand or product name.
    Product,
    /// Registration number.
    RegistrationNumber,
    /// Product in all, undiluted.
    TotalProduct,
    /// Product and carrier in all.
    TotalMix,
    /// Rate.
    Rate,
    /// How it was put on.
    Method,
    /// What it was put on with.
    Equipment,
    /// The pest.
    Target,
    /// Month, day and year.
    Date,
    /// The time it began.
    StartTime,
    /// The time it was completed.
    FinishTime,
    /// Where.
    Location,
    /// Address with a five-digit zip code.
    AddressWithZip,
    /// What was treated: the sections of lawn.
    Site,
    /// Size of what was treated.
    Area,
    /// Air temperature.
    Temperature,
    /// Wind speed.
    WindSpeed,
    /// Wind direction.
    WindDirection,
    /// The customer.
    Customer,
    /// The firm; here the crew's name.
    Company,
    /// Who put it on.
    Applicator,
    /// Their licence or certificate number.
    LicenceNumber,
    /// Anything unexpected.
    UnexpectedOccurrence,
    /// How left-over product and containers were disposed of.
    Disposal,
}

/// Whether a record holds a field.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Filled {
    /// Something stands there.
    Yes,
    /// There is no such field; a person has to look whether the note, or the yard's name, says it.
    LookInText,
    /// Nothing stands there.
    No,
}

/// One rule about records.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct RecordRule {
    /// The rule.
    pub name: &'static str,
    /// Where it was read.
    pub source: &'static str,
    /// What it is about, as far as that was read.
    pub about: &'static str,
    /// How long a record is kept, in years; none: not known. An unknown time never inherits
    /// another rule's.
    pub keep_years: Option<u8>,
    /// Within how many days it is written; none: not known.
    pub write_within_days: Option<u8>,
    /// What it asks for.
    pub fields: &'static [FieldName],
}

use FieldName as F;

/// The rules that were read. Not all there are, and none is a fall-back for another.
pub static RULES: [RecordRule; 6] = [
    RecordRule {
        name: "USDA 7 CFR 110.3",
        source: "eCFR text and USDA Agricultural Marketing Service",
        about: "restricted-use products only: never a measure for work under a state's rules for hire",
        keep_years: Some(2),
        write_within_days: Some(14),
        fields: &[
            F::Product,
            F::RegistrationNumber,
            F::TotalProduct,
            F::Location,
            F::Area,
            F::Site,
            F::Date,
            F::Applicator,
            F::LicenceNumber,
        ],
    },
    RecordRule {
        name: "New York ECL 33-1205",
        source: "New York Environmental Conservation Law, section 33-1205",
        about: "applications in New York",
        keep_years: Some(3),
        write_within_days: None,
        fields: &[
            F::RegistrationNumber,
            F::Product,
            F::TotalProduct,
            F::Date,
            F::AddressWithZip,
            F::Rate,
            F::Method,
            F::Target,
        ],
    },
    RecordRule {
        name: "Minnesota Stat. 18B.37",
        source: "Minnesota Statutes, section 18B.37, text of 2015",
        about: "commercial applications in Minnesota; the customer gets a copy",
        // Five years from memory, never read: so not stated.
        keep_years: None,
        write_within_days: Some(5),
        fields: &[
            F::Date,
            F::FinishTime,
            F::Product,
            F::RegistrationNumber,
            F::Rate,
            F::Area,
            F::Temperature,
            F::WindSpeed,
            F::WindDirection,
            F::Location,
            F::Customer,
            F::Applicator,
            F::Company,
            F::LicenceNumber,
        ],
    },
    RecordRule {
        name: "Texas 4 TAC chapter 7",
        source: "Texas Administrative Code, title 4, chapter 7",
        about: "general records in Texas; structural service records are another section, and which one governs a lawn is for the person to confirm",
        keep_years: Some(2),
        write_within_days: None,
        fields: &[
            F::StartTime,
            F::Customer,
            F::Location,
            F::Product,
            F::RegistrationNumber,
            F::Rate,
            F::TotalMix,
            F::Target,
            F::Site,
            F::Area,
            F::WindDirection,
            F::WindSpeed,
            F::Temperature,
            F::Equipment,
            F::LicenceNumber,
        ],
    },
    RecordRule {
        name: "Georgia 40-21-5",
        source: "Rules of the Georgia Department of Agriculture, 40-21-5",
        about: "commercial applications in Georgia",
        keep_years: Some(2),
        write_within_days: None,
        fields: &[
            F::Date,
            F::StartTime,
            F::Applicator,
            F::Site,
            F::Target,
            F::Area,
            F::Product,
            F::Rate,
            F::Equipment,
            F::UnexpectedOccurrence,
            F::Disposal,
        ],
    },
    RecordRule {
        name: "Pennsylvania 7 Pa. Code 128.35",
        source: "Pennsylvania Code, title 7, section 128.35",
        about: "applications in Pennsylvania; the hour of completion where a re-entry time applies",
        keep_years: Some(3),
        write_within_days: None,
        fields: &[
            F::Date,
            F::FinishTime,
            F::Customer,
            F::Product,
            F::TotalProduct,
            F::Rate,
            F::LicenceNumber,
            F::RegistrationNumber,
            F::Site,
        ],
    },
];

/// Which fields a rule asks for, and which of them the record holds. Empty for a visit on which
/// nothing was treated: these rules are about applications. "Yes" says that something stands
/// there, not that it is right or enough; show [`CHECK_YOUR_RULE`] beside it.
pub fn fields_asked(record: &Record, rule: &RecordRule) -> Vec<(FieldName, Filled)> {
    if record.outcome == Outcome::NotTreated {
        return Vec::new();
    }
    rule.fields
        .iter()
        .map(|field| (*field, filled(record, *field)))
        .collect()
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
