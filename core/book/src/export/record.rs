//! The form of one exported record. The order of the fields here is their order in JSON.
//!
//! How it is filled is in [`super::gather`] and [`super::history`].

use std::fmt;

use chrono::NaiveDate;
use serde::Serialize;
use sward_rules::finding::{Check, Finding, Verdict};
use sward_rules::label::{Ingredient, Method};

use super::after::After;
use crate::fact::{NotTreatedWhy, Person};
use crate::ids::{FactId, Hash, SheetId, StreamId, VisitId};

/// How a visit ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Outcome {
    /// Something was put on.
    Treated,
    /// Nothing was: a full result.
    NotTreated,
}

/// A moment, twice.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct When {
    /// In the yard's time zone with its offset, as RFC 3339 writes it; in UTC where no zone is
    /// set.
    pub local: String,
    /// In UTC.
    pub utc: String,
}

impl When {
    /// Whether it is a time: a hostile entry may hold any number.
    pub fn is_readable(&self) -> bool {
        self.utc.ends_with('Z')
    }
}

/// An amount as entered, with what it is elsewhere.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Amount {
    /// As the person entered it.
    pub entered: String,
    /// The same with its UCUM unit.
    pub ucum: String,
    /// Converted, to nine digits; none where the entered unit is metric or has no counterpart.
    pub metric: Option<String>,
}

/// Who wrote something.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Who {
    /// The person who carries the device, or the device's first digits where no one is named.
    pub name: String,
    /// Their licence or certificate number; empty where there is none.
    pub licence: String,
    /// The device's stream.
    pub device: StreamId,
    /// False: the device is not, or no longer, of the crew, or may only read.
    pub of_the_crew: bool,
}

/// A person's look, or a decision.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Look {
    /// When.
    pub at: When,
    /// By whom.
    pub by: Who,
    /// Why; empty for a look.
    pub why: String,
}

/// What a reader must know before relying on a record.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(tag = "mark", rename_all = "snake_case")]
pub enum Mark {
    /// Of a practice crew: no record.
    Practice,
    /// Several results stand; nobody has said which one holds.
    Version {
        /// Counted from one, in the order of the records.
        number: usize,
        /// How many stand.
        of: usize,
    },
    /// A person who saw the versions chose another.
    SetAside(Look),
    /// A person who saw the versions chose this one.
    Chosen(Look),
    /// One phone recorded a treatment, another that nothing was treated.
    TreatedOrNot,
    /// The result itself was written by a device that is not of the crew.
    NotOfTheCrew,
    /// These devices, which are not of the crew, wrote other entries of the visit.
    OutsidersWroteToo {
        /// Their first digits.
        devices: Vec<String>,
    },
    /// Loads that this result does not take into account.
    LateAdditions {
        /// Nobody has said yet whether they were put on.
        to_settle: usize,
        /// A person said that they were put on beside what this record holds.
        put_on: usize,
        /// Another version of the result holds them.
        in_other_version: usize,
    },
    /// Amendments that came after the result, and that its figures do not hold.
    Amended {
        /// How many.
        count: usize,
    },
    /// Treating was started again, and this result does not take that into account.
    StartedAgain,
    /// Treating was started with more than one label sheet; the figures name only the first.
    SeveralProducts,
    /// The clock of the device was not proven at the start or the end.
    TimeUncertain,
    /// The yard has no time zone, so that times are in UTC.
    NoZone,
    /// A person said that this is one job with another visit.
    OneJobWith {
        /// The other visit.
        visit: VisitId,
    },
    /// The frozen record cannot be read.
    Unreadable {
        /// Why.
        why: String,
    },
}

impl fmt::Display for Mark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Practice => f.write_str("practice crew: not a record"),
            Self::Version { number, of } => write!(f, "version {number} of {of}, to settle"),
            Self::SetAside(look) => write!(f, "set aside by {}: {}", look.by.name, look.why),
            Self::Chosen(look) => write!(f, "chosen by {}: {}", look.by.name, look.why),
            Self::TreatedOrNot => {
                f.write_str("one phone recorded a treatment, another none: to settle")
            }
            Self::NotOfTheCrew => f.write_str("device not of the crew"),
            Self::OutsidersWroteToo { devices } => {
                write!(
                    f,
                    "with entries of devices not of the crew: {}",
                    devices.join(", ")
                )
            }
            Self::LateAdditions {
                to_settle,
                put_on,
                in_other_version,
            } => write!(
                f,
                "late additions: {to_settle} to settle, {put_on} put on beside these figures, {in_other_version} in another version"
            ),
            Self::Amended { count } => write!(f, "amended {count} times after this result"),
            Self::StartedAgain => f.write_str("started again after this result"),
            Self::SeveralProducts => {
                f.write_str("started with several label sheets: only the first is named")
            }
            Self::TimeUncertain => f.write_str("time uncertain: the clock was not proven"),
            Self::NoZone => f.write_str("no time zone set: times in UTC"),
            Self::OneJobWith { visit } => write!(f, "one job with visit {visit}"),
            Self::Unreadable { why } => write!(f, "the frozen record cannot be read: {why}"),
        }
    }
}

/// A load, as the record tells it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Load {
    /// Undiluted product.
    pub product: Amount,
    /// Carrier water.
    pub water: Option<Amount>,
    /// When the last of it went on.
    pub applied: When,
    /// The sections it went on; empty: all.
    pub sections: Vec<String>,
}

/// What is known of a section's keep-off. Whether it is over depends on the present time, and is
/// not said here.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct KeepOffNote {
    /// What must be true before anyone comes back, by every claim that stands.
    pub terms: Vec<String>,
    /// The last application, as all facts together tell it.
    pub last_applied: Option<When>,
    /// "I looked: it is dry", where that counts.
    pub dry: Option<Look>,
    /// Looks that do not count (yet).
    pub looks_not_counted: usize,
    /// A crew lead lifted it.
    pub released: Option<Look>,
}

/// A section as it was treated.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SectionNote {
    /// Its name.
    pub name: String,
    /// Its area with its uncertainty; empty where the outline gives none.
    pub area: String,
    /// The last application there, as it was frozen.
    pub last_applied: When,
    /// Its keep-off.
    pub keep_off: Option<KeepOffNote>,
}

/// A count.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Count {
    /// What was counted.
    pub pest: String,
    /// How many in all.
    pub found: u32,
    /// In how many samples.
    pub samples: usize,
    /// Per square foot, over all samples.
    pub density: Option<String>,
    /// What else was seen.
    pub note: String,
}

/// One reading of a hand meter.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct WindReading {
    /// When.
    pub at: When,
    /// What the meter showed.
    pub speed: Amount,
    /// The highest since the reading before.
    pub gust: Option<Amount>,
    /// Where from, in degrees clockwise from north.
    pub from_degrees: Option<u16>,
}

/// Wind judged by what it moves.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct BeaufortNote {
    /// When.
    pub at: When,
    /// The force.
    pub force: u8,
}

/// Wind at the yard.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
pub struct WindNote {
    /// Mean of all readings, to a tenth, in the unit of the first.
    pub mean: Option<String>,
    /// The highest gust noted, as entered.
    pub gust: Option<String>,
    /// Every reading.
    pub readings: Vec<WindReading>,
    /// Estimates.
    pub estimates: Vec<BeaufortNote>,
}

/// What was put on.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct TreatmentNote {
    /// Product as printed on the label.
    pub product: String,
    /// Registration number as printed.
    pub registration: String,
    /// Active ingredients with their content.
    pub ingredients: Vec<Ingredient>,
    /// How it went on.
    pub method: Method,
    /// The rate chosen.
    pub rate: Amount,
    /// Undiluted product in all; none when the loads cannot be added up.
    pub product_total: Option<Amount>,
    /// Carrier water in all.
    pub water_total: Option<Amount>,
    /// Every load.
    pub loads: Vec<Load>,
    /// The sections.
    pub sections: Vec<SectionNote>,
    /// What was not known and acknowledged by name.
    pub acknowledged: Vec<Check>,
    /// Why it was started against a "don't treat".
    pub against: Option<String>,
    /// What it was put on with, as the start told it.
    pub equipment: Option<String>,
    /// The product's lot.
    pub lot: Option<String>,
    /// Protective gear worn.
    pub gear: Option<String>,
}

/// Why nothing was treated.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct NotTreatedNote {
    /// Why.
    pub why: NotTreatedWhy,
    /// The day to look again, as year-month-day.
    pub look_again: Option<String>,
}

/// A load that a result does not take into account.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LateLoad {
    /// The fact.
    pub fact: FactId,
    /// Who wrote it.
    pub by: Who,
    /// When it was written.
    pub written: When,
    /// The load.
    pub load: Load,
    /// Whether it was really put on beside what the record holds; none: nobody has said.
    pub counts: Option<bool>,
    /// Whether another version of the result holds it.
    pub in_other_version: bool,
    /// Who said so, and why.
    pub settled: Option<Look>,
}

/// A correction.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Amendment {
    /// The fact.
    pub fact: FactId,
    /// Who made it.
    pub by: Who,
    /// When.
    pub at: When,
    /// Why.
    pub why: String,
    /// What it supersedes.
    pub old: Vec<String>,
    /// What holds instead.
    pub new: String,
    /// Whether the record's own figures hold it, or what later took its place.
    pub in_figures: bool,
}

/// One result of a visit.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Record {
    /// How it ended.
    pub outcome: Outcome,
    /// What a reader must know first.
    pub marks: Vec<Mark>,
    /// The visit, which names the record.
    pub visit: VisitId,
    /// The fact that is the result.
    pub fact: FactId,
    /// The signed entry that carries it.
    pub entry: Hash,
    /// Hash of the frozen treatment.
    pub frozen: Option<Hash>,
    /// The crew's name.
    pub crew: String,
    /// The yard's sheet.
    pub yard: Option<SheetId>,
    /// What people call the yard.
    pub yard_name: String,
    /// Its address.
    pub address: String,
    /// Its IANA time zone; empty where none is set.
    pub zone: String,
    /// The pest.
    pub target: String,
    /// The day it was started, or of the result; by the yard's calendar.
    pub date: Option<NaiveDate>,
    /// When treating started.
    pub started: Option<When>,
    /// When it was finished, or recorded that nothing was treated.
    pub finished: When,
    /// Who treated.
    pub applicator: Option<Person>,
    /// Who wrote the result.
    pub recorded_by: Who,
    /// What was put on.
    pub treatment: Option<TreatmentNote>,
    /// Why nothing was.
    pub not_treated: Option<NotTreatedNote>,
    /// Counts.
    pub counts: Vec<Count>,
    /// Wind at the yard.
    pub wind: WindNote,
    /// Air temperature, where it was read.
    pub temperatures: Vec<Amount>,
    /// The sum of the findings; not known where none was made.
    pub verdict: Verdict,
    /// Every finding.
    pub findings: Vec<Finding>,
    /// Anything unusual.
    pub note: String,
    /// Loads that the result does not take into account.
    pub late: Vec<LateLoad>,
    /// Every correction of the visit.
    pub amendments: Vec<Amendment>,
    /// What stands around the result.
    pub after: After,
}
