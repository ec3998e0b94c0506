//! Facts of a visit, in its order: look, ready, treat, keep off, and what settles questions.
//!
//! What they add up to is [`crate::view::visit`] and [`crate::view::keep_off`].

use minicbor::{Decode, Encode};
use serde::Serialize;
use sward_rules::Entered;
use sward_rules::finding::{Check, Finding};
use sward_rules::label::{KeepOffTerms, Label};
use sward_rules::look::Sample;
use sward_rules::measure::Outline;
use sward_rules::sky::{
    AirReading, BeaufortSeen, BloomLook, InversionLook, MeterReading, SoilLook,
};
use sward_rules::walk_round::Answered;

use crate::ids::{FactId, Hash, ItemId, KeepOffId, SheetId, VisitId};

/// How a label sheet's numbers were read back.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Encode, Decode, Serialize)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum ReadBackHow {
    /// A second person read them from the label.
    #[n(0)]
    SecondPerson,
    /// Someone alone typed them a second time.
    #[n(1)]
    TypedTwice,
}

/// The numbers of a label sheet were read back and agreed.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct LabelReadBack {
    /// The label sheet.
    #[n(0)]
    pub sheet: SheetId,
    /// Hash over the numbers that were read: a later edit makes the reading void.
    #[n(1)]
    pub numbers: Hash,
    /// How.
    #[n(2)]
    pub how: ReadBackHow,
    /// By whom.
    #[n(3)]
    pub person: String,
}

/// A visit to a yard begins.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct VisitOpened {
    /// The visit.
    #[n(0)]
    pub visit: VisitId,
    /// The yard.
    #[n(1)]
    pub yard: SheetId,
    /// What it is about: the pest that is looked for.
    #[n(2)]
    pub target: String,
}

/// Insects were counted.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct Counted {
    /// The visit.
    #[n(0)]
    pub visit: VisitId,
    /// What was counted, by the trade's name.
    #[n(1)]
    pub pest: String,
    /// Every sample.
    #[n(2)]
    pub samples: Vec<Sample>,
    /// What else was seen.
    #[n(3)]
    pub note: String,
}

/// Wind was measured at the yard with a hand meter.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct WindMeasured {
    /// The visit.
    #[n(0)]
    pub visit: VisitId,
    /// Every reading.
    #[n(1)]
    pub readings: Vec<MeterReading>,
}

/// What was read or seen of the air, the soil and the blooms. What was not looked at is not there.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct SkySeen {
    /// The visit.
    #[n(0)]
    pub visit: VisitId,
    /// Temperature and humidity.
    #[n(1)]
    pub air: Option<AirReading>,
    /// Signs of an inversion.
    #[n(2)]
    pub inversion: Option<InversionLook>,
    /// The soil.
    #[n(3)]
    pub soil: Option<SoilLook>,
    /// Blooms and bees.
    #[n(4)]
    pub bloom: Option<BloomLook>,
    /// Wind by what the trees do, where there is no meter.
    #[n(5)]
    pub wind: Option<BeaufortSeen>,
}

/// A weather station's report or a forecast was taken in.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct StationHeard {
    /// The visit.
    #[n(0)]
    pub visit: VisitId,
    /// Where it comes from: a station's code, or the forecast's own description.
    #[n(1)]
    pub from: String,
    /// The report as it came, or its first line where it is long.
    #[n(2)]
    pub text: String,
    /// SHA-256 of the whole report.
    #[n(3)]
    pub whole: Hash,
}

/// The yard was walked round.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct WalkedRound {
    /// The visit.
    #[n(0)]
    pub visit: VisitId,
    /// The answers; what was not answered is not there.
    #[n(1)]
    pub answers: Vec<Answered>,
}

/// The findings before a start, as they were shown.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct Judged {
    /// The visit.
    #[n(0)]
    pub visit: VisitId,
    /// Every finding.
    #[n(1)]
    pub findings: Vec<Finding>,
    /// When it may open next, by the forecast; milliseconds since 1970 in UTC.
    #[n(2)]
    pub opens_next_utc_ms: Option<i64>,
    /// The label sheet they were made for: findings for one product say nothing about another.
    #[n(3)]
    pub label_sheet: SheetId,
}

/// Why nothing was treated.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Encode, Decode, Serialize)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum NotTreatedWhy {
    /// Too few to matter.
    #[n(0)]
    BelowThreshold,
    /// A harmless look-alike.
    #[n(1)]
    LookAlike,
    /// The weather.
    #[n(2)]
    Weather,
    /// The yard was not ready.
    #[n(3)]
    YardNotReady,
    /// The people there did not want it.
    #[n(4)]
    NotWanted,
    /// Something else, told in the note.
    #[n(5)]
    Other,
}

/// The visit ends without a treatment.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct NotTreated {
    /// The visit.
    #[n(0)]
    pub visit: VisitId,
    /// Why.
    #[n(1)]
    pub why: NotTreatedWhy,
    /// In the person's own words.
    #[n(2)]
    pub note: String,
    /// The day to look again, as year-month-day; none when no return is planned.
    #[n(3)]
    pub look_again: Option<String>,
}

/// One section is kept off from now on.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct KeepOffOpened {
    /// The keep-off.
    #[n(0)]
    pub keep_off: KeepOffId,
    /// The section.
    #[n(1)]
    pub section: ItemId,
    /// Its name when treating started.
    #[n(2)]
    pub name: String,
    /// Its outline when treating started: hiding the section later hides no keep-off.
    #[n(3)]
    pub outline: Outline,
}

/// Treating starts. The keep-offs start here, open-ended until a finish.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct Started {
    /// The visit.
    #[n(0)]
    pub visit: VisitId,
    /// The label sheet used.
    #[n(1)]
    pub label_sheet: SheetId,
    /// Its content, copied.
    #[n(2)]
    pub label: Label,
    /// The rate chosen.
    #[n(3)]
    pub rate: Entered,
    /// One keep-off a section.
    #[n(4)]
    pub keep_offs: Vec<KeepOffOpened>,
    /// Each check that was not known and that the person acknowledged by name.
    #[n(5)]
    pub acknowledged: Vec<Check>,
    /// Why it was started against a "don't treat"; none when there was none.
    #[n(6)]
    pub against: Option<String>,
    /// The findings it was started on.
    #[n(7)]
    pub judged: Option<FactId>,
    /// What it is put on with, copied: name, setting, swath, the calibration's date.
    #[n(8)]
    pub equipment: Option<String>,
    /// The product's lot, as printed on what was opened.
    #[n(9)]
    pub lot: Option<String>,
    /// Protective gear worn.
    #[n(10)]
    pub gear: Option<String>,
}

/// A load was put on.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct Loaded {
    /// The visit.
    #[n(0)]
    pub visit: VisitId,
    /// The sections it went on, by their keep-offs.
    #[n(1)]
    pub keep_offs: Vec<KeepOffId>,
    /// Undiluted product.
    #[n(2)]
    pub product: Entered,
    /// Carrier water, where there is any.
    #[n(3)]
    pub water: Option<Entered>,
    /// When the last of it went on: milliseconds since 1970 in UTC.
    #[n(4)]
    pub applied_utc_ms: i64,
}

/// One section when the treatment was finished.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct SectionDone {
    /// The section's keep-off.
    #[n(0)]
    pub keep_off: KeepOffId,
    /// The last application there: milliseconds since 1970 in UTC.
    #[n(1)]
    pub last_applied_utc_ms: i64,
}

/// The treatment is finished. What it was is frozen.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct Finished {
    /// The visit.
    #[n(0)]
    pub visit: VisitId,
    /// The facts of treating that it has taken into account: any other load is a late addition.
    #[n(1)]
    pub covers: Vec<FactId>,
    /// The treatment in its canonical bytes, see [`crate::record::Treatment`].
    #[cbor(n(2), with = "minicbor::bytes")]
    #[serde(skip)]
    pub frozen: Vec<u8>,
    /// SHA-256 of those bytes under the project's prefix.
    #[n(3)]
    pub frozen_hash: Hash,
    /// When each section was done.
    #[n(4)]
    pub sections: Vec<SectionDone>,
}

/// A person states what ends a keep-off: a longer time, a shorter one with a reason, or the
/// same again.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct KeepOffClaimed {
    /// The visit.
    #[n(0)]
    pub visit: VisitId,
    /// The keep-off.
    #[n(1)]
    pub keep_off: KeepOffId,
    /// The claims this one supersedes: only those the person was shown.
    #[n(2)]
    pub supersedes: Vec<FactId>,
    /// What must be true now before anyone comes back.
    #[n(3)]
    pub terms: KeepOffTerms,
    /// Why.
    #[n(4)]
    pub why: String,
}

/// A person looked, and it is dry (for granules: the dust has settled, or it was watered in and
/// is dry again).
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct LookedDry {
    /// The visit.
    #[n(0)]
    pub visit: VisitId,
    /// The keep-offs it is about, by name: no other one ends.
    #[n(1)]
    pub keep_offs: Vec<KeepOffId>,
    /// When the person looked: milliseconds since 1970 in UTC.
    #[n(2)]
    pub looked_utc_ms: i64,
    /// The starts, loads and finishes the person was shown. One that is not among them still
    /// waits for its own look.
    #[n(3)]
    pub saw: Vec<FactId>,
}

/// A crew lead lifts a keep-off.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct KeepOffReleased {
    /// The visit.
    #[n(0)]
    pub visit: VisitId,
    /// The keep-off.
    #[n(1)]
    pub keep_off: KeepOffId,
    /// The claims this supersedes: only those the crew lead was shown.
    #[n(2)]
    pub supersedes: Vec<FactId>,
    /// Why.
    #[n(3)]
    pub why: String,
}

/// What stands in the place of superseded facts.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
#[serde(tag = "fact", rename_all = "snake_case")]
pub enum Replacement {
    /// Nothing: they were wrong, or entered twice.
    #[n(0)]
    Nothing,
    /// Another count.
    #[n(1)]
    Counted(#[n(0)] Counted),
    /// Other wind readings.
    #[n(2)]
    WindMeasured(#[n(0)] WindMeasured),
    /// Other answers.
    #[n(3)]
    WalkedRound(#[n(0)] WalkedRound),
    /// Another load.
    #[n(4)]
    Loaded(#[n(0)] Loaded),
    /// Another finish.
    #[n(5)]
    Finished(#[n(0)] Finished),
    /// Another reason.
    #[n(6)]
    NotTreated(#[n(0)] NotTreated),
}

/// Earlier facts of the visit are superseded. They stay in the history.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct Corrected {
    /// The visit.
    #[n(0)]
    pub visit: VisitId,
    /// The facts that the person saw and that no longer hold.
    #[n(1)]
    pub supersedes: Vec<FactId>,
    /// Why.
    #[n(2)]
    pub why: String,
    /// What holds instead.
    #[n(3)]
    pub new: Replacement,
}

/// Of several finishes of one visit, this one holds.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct FinishChosen {
    /// The visit.
    #[n(0)]
    pub visit: VisitId,
    /// The finish that holds.
    #[n(1)]
    pub chosen: FactId,
    /// The others that the person was shown.
    #[n(2)]
    pub over: Vec<FactId>,
    /// Why.
    #[n(3)]
    pub why: String,
}

/// What a load means that was added without knowing of the finish.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct LateSettled {
    /// The visit.
    #[n(0)]
    pub visit: VisitId,
    /// The late addition.
    #[n(1)]
    pub addition: FactId,
    /// Whether it was really put on, beside what the finish holds.
    #[n(2)]
    pub counts: bool,
    /// Why.
    #[n(3)]
    pub why: String,
}

/// Whether several visits to one yard were one job, entered more than once.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct OneJob {
    /// The visits.
    #[n(0)]
    pub visits: Vec<VisitId>,
    /// Whether they are one job.
    #[n(1)]
    pub same: bool,
}
