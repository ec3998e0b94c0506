//! Findings: the four words in which every check answers, and how several become one.
//!
//! What is checked lives beside its subject ([`crate::sky`], [`crate::walk_round`]); this file
//! holds only the form of an answer.

mod reason;
mod shown;

pub use reason::{CalibrationPart, LabelField, RainLayer, Reason, in_english};
pub use shown::{Shown, Source, Tenths};

use minicbor::{Decode, Encode};
use serde::{Deserialize, Serialize};

/// The answer of one check, from best to worst.
///
/// The order is the order of a sum: the worst part decides. `Unknown` stands above `Caution`, so
/// that taking a reading away can never make a result look better.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Encode, Decode, Serialize, Deserialize,
)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// No limit is hit. On screen: "no limit hit".
    #[n(0)]
    Clear,
    /// Allowed, with care. On screen: "take care".
    #[n(1)]
    Caution,
    /// Not checked, too old, or no limit known. On screen: "not known".
    #[n(2)]
    Unknown,
    /// A limit is hit. On screen: "don't treat".
    #[n(3)]
    DontTreat,
}

/// Whose limit a finding holds a value against.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Encode, Decode, Serialize, Deserialize)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum Whose {
    /// The label sheet, copied from the label in hand.
    #[n(0)]
    Label,
    /// A law or local rule.
    #[n(1)]
    Law,
    /// Advice with a named source; the crew may set its own.
    #[n(2)]
    Advice,
    /// No limit is known.
    #[n(3)]
    Nobody,
}

/// What a finding is about. Each check has one stable name, used in records and translations.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Encode, Decode, Serialize, Deserialize,
)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum Check {
    /// Wind speed and gust at the yard.
    #[n(0)]
    Wind,
    /// Rain in the label's window after treatment.
    #[n(1)]
    Rain,
    /// Air temperature.
    #[n(2)]
    Temperature,
    /// Air that does not mix: fine drops hang and wander.
    #[n(3)]
    Inversion,
    /// How fast spray drops dry in the air.
    #[n(4)]
    DryingSpeed,
    /// State of the soil: soaked, frozen, dust-dry.
    #[n(5)]
    Soil,
    /// Blooms and bees.
    #[n(6)]
    Bloom,
    /// Toys, bowls, laundry and the like are off the lawn.
    #[n(7)]
    ThingsOffLawn,
    /// Windows and doors facing the lawn are shut.
    #[n(8)]
    WindowsShut,
    /// Ponds and hives are covered, or not there.
    #[n(9)]
    PondOrHive,
    /// Irrigation is switched off.
    #[n(10)]
    IrrigationOff,
    /// Gates are as they must be.
    #[n(11)]
    Gates,
    /// No puddles or run-off on the lawn.
    #[n(12)]
    Puddles,
    /// Hard surfaces are kept free of product.
    #[n(13)]
    HardSurfaces,
    /// Drains and open water are protected.
    #[n(14)]
    Drains,
    /// People and pets are away.
    #[n(15)]
    PeopleAndPets,
    /// The product's rate, against the label's least and most.
    #[n(16)]
    Rate,
    /// The label's earliest repeat.
    #[n(17)]
    Repeat,
    /// The label sheet was read back by a second person, or typed twice.
    #[n(18)]
    LabelReadBack,
    /// The rate a calibration found, against the rate wanted and the label's most.
    #[n(30)]
    CalibratedRate,
    /// How evenly passes overlap.
    #[n(31)]
    Evenness,
    /// What each nozzle gives, against the others and against a new one.
    #[n(32)]
    Nozzles,
    /// The size of the drops, against the label.
    #[n(33)]
    Drops,
    /// The walking pace, against the one the setting was calibrated at.
    #[n(34)]
    Pace,
    /// Whether a calibration still holds, and a second person found the same.
    #[n(35)]
    Calibration,
    /// The sign on the lawn, against the place's rule.
    #[n(36)]
    Sign,
    /// Notice to neighbours, against the place's rule.
    #[n(37)]
    Notice,
    /// What lies down wind: play areas, water, hives, blooms, neighbors.
    #[n(19)]
    DownWind,
    /// An active ingredient's sum over a season.
    #[n(24)]
    SeasonIngredient,
    /// Product on hand, by lot.
    #[n(25)]
    Stock,
    /// The swath on which a setting was calibrated, and the lines it is used on.
    #[n(26)]
    Swath,
    /// Whether to water in, and how deep.
    #[n(27)]
    WateringIn,
    /// Bait: fresh, and staying dry.
    #[n(28)]
    Bait,
    /// Ants are out for food.
    #[n(29)]
    AntsForaging,
}

/// One check's answer, with everything a person needs to doubt it.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize, Deserialize)]
pub struct Finding {
    /// What was checked.
    #[n(0)]
    pub check: Check,
    /// The answer.
    #[n(1)]
    pub verdict: Verdict,
    /// The value held against the limit, with its unit; none when there is no value.
    #[n(2)]
    pub value: Option<Shown>,
    /// The limit, with its unit; none when no limit is known.
    #[n(3)]
    pub limit: Option<Shown>,
    /// Whose limit it is.
    #[n(4)]
    pub whose: Whose,
    /// Age of the reading in minutes when the check was made.
    #[n(5)]
    pub age_min: Option<u32>,
    /// Why the answer is what it is, one sentence.
    #[n(6)]
    pub reason: Reason,
    /// What else bears on it: where a reading came from, further parts that are as bad.
    #[n(7)]
    pub also: Vec<Reason>,
    /// Who published an advised limit.
    #[n(8)]
    pub source: Option<Source>,
}

impl Finding {
    /// A check that was not made, or could not be answered: always [`Verdict::Unknown`].
    pub fn unknown(check: Check, reason: Reason) -> Self {
        Self::new(check, Verdict::Unknown, reason)
    }

    /// A finding without value, limit or age; they are added with the `with_` methods.
    pub fn new(check: Check, verdict: Verdict, reason: Reason) -> Self {
        Self {
            check,
            verdict,
            value: None,
            limit: None,
            whose: Whose::Nobody,
            age_min: None,
            reason,
            also: Vec::new(),
            source: None,
        }
    }

    /// Adds the value that was held against the limit.
    #[must_use]
    pub fn with_value(mut self, value: Shown) -> Self {
        self.value = Some(value);
        self
    }

    /// Adds the limit and whose it is.
    #[must_use]
    pub fn with_limit(mut self, limit: Shown, whose: Whose) -> Self {
        self.limit = Some(limit);
        self.whose = whose;
        self
    }

    /// Adds the reading's age in minutes.
    #[must_use]
    pub fn with_age_min(mut self, age_min: u32) -> Self {
        self.age_min = Some(age_min);
        self
    }

    /// Adds who published the limit.
    #[must_use]
    pub fn with_source(mut self, source: Source) -> Self {
        self.source = Some(source);
        self
    }

    /// Adds something else that bears on it.
    #[must_use]
    pub fn and(mut self, also: Reason) -> Self {
        self.also.push(also);
        self
    }

    /// Every sentence, the first being the reason.
    pub fn reasons(&self) -> impl Iterator<Item = &Reason> {
        std::iter::once(&self.reason).chain(&self.also)
    }

    /// Every sentence in one English line.
    pub fn why(&self) -> String {
        in_english(self.reasons())
    }
}

/// The sum of findings: the worst of them. Nothing checked at all is `Unknown`.
///
/// ```
/// use sward_rules::finding::{sum, Check, Finding, Reason, Verdict};
/// let wind = Finding::new(Check::Wind, Verdict::Clear, Reason::WindUnderLabel);
/// let rain = Finding::unknown(Check::Rain, Reason::NoForecast);
/// assert_eq!(sum(&[wind, rain]), Verdict::Unknown);
/// assert_eq!(sum(&[]), Verdict::Unknown);
/// ```
pub fn sum(findings: &[Finding]) -> Verdict {
    findings
        .iter()
        .map(|f| f.verdict)
        .max()
        .unwrap_or(Verdict::Unknown)
}
