//! The fields that rules ask for, and whether a record holds one.

use serde::{Deserialize, Serialize};

/// Something that a rule asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
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
    /// The rule does not ask for it here, by what a person said of the application.
    NotApplicable,
}
