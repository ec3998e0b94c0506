//! Thresholds with their sources, and the decision whether a lawn needs treating at all.
//!
//! A threshold is advice and differs by source, region and life stage; none stands here without
//! saying whose it is. Counting is in [`mod@super::density`].

use minicbor::{Decode, Encode};
use serde::{Deserialize, Serialize};

use super::density::Density;
use crate::note::Note;

const UMASS: &str = "University of Massachusetts Extension";
const UC_IPM: &str = "University of California, IPM";

/// A pest that thresholds are published for, or that people ask about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Encode, Decode, Serialize, Deserialize)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum Pest {
    /// Grub of a scarab beetle whose kind was not told apart.
    #[n(0)]
    WhiteGrub,
    /// Japanese beetle.
    #[n(1)]
    JapaneseBeetle,
    /// Oriental beetle.
    #[n(2)]
    OrientalBeetle,
    /// Masked chafer.
    #[n(3)]
    MaskedChafer,
    /// European chafer.
    #[n(4)]
    EuropeanChafer,
    /// Asiatic garden beetle.
    #[n(5)]
    AsiaticGardenBeetle,
    /// May or June beetle.
    #[n(6)]
    MayBeetle,
    /// Chinch bug.
    #[n(7)]
    ChinchBug,
    /// Sod webworm.
    #[n(8)]
    SodWebworm,
    /// Cutworm.
    #[n(9)]
    Cutworm,
    /// Armyworm, of any kind.
    #[n(10)]
    Armyworm,
    /// Black turfgrass ataenius.
    #[n(11)]
    BlackTurfgrassAtaenius,
    /// Mole cricket, tawny or southern.
    #[n(12)]
    MoleCricket,
    /// Imported fire ant.
    #[n(13)]
    FireAnt,
    /// Billbug.
    #[n(14)]
    Billbug,
}

impl Pest {
    /// Every pest, those with a threshold of their own first.
    pub const ALL: [Self; 15] = [
        Self::JapaneseBeetle,
        Self::OrientalBeetle,
        Self::MaskedChafer,
        Self::EuropeanChafer,
        Self::AsiaticGardenBeetle,
        Self::MayBeetle,
        Self::BlackTurfgrassAtaenius,
        Self::WhiteGrub,
        Self::ChinchBug,
        Self::SodWebworm,
        Self::Cutworm,
        Self::Armyworm,
        Self::Billbug,
        Self::MoleCricket,
        Self::FireAnt,
    ];
}

/// From how many per square foot damage is likely, by one source.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Threshold {
    /// The pest.
    pub pest: Pest,
    /// Below this, damage is not likely; per square foot.
    pub least_per_ft2: f64,
    /// From this on, damage is likely; per square foot. Equal to the least where the source gives
    /// one number.
    pub most_per_ft2: f64,
    /// The life stage that is counted.
    pub life_stage: &'static str,
    /// Where the source speaks for.
    pub region: &'static str,
    /// Who published it.
    pub source: &'static str,
    /// The area to which its published numbers refer.
    pub published_per: &'static str,
}

impl Threshold {
    /// The published number, where it refers to a square yard, as a soap drench does.
    pub fn per_yd2(&self) -> Option<f64> {
        (self.published_per == PER_YD2).then_some(self.most_per_ft2 * FT2_PER_YD2)
    }

    /// Whether it counts another pest together with this one, so that few of this one say nothing.
    pub(super) fn counts_another_too(&self) -> bool {
        self.life_stage == WORMS_TOGETHER
    }
}

const fn larvae(pest: Pest, least_per_ft2: f64, most_per_ft2: f64) -> Threshold {
    Threshold {
        pest,
        least_per_ft2,
        most_per_ft2,
        life_stage: "larvae",
        region: "Massachusetts",
        source: UMASS,
        published_per: "ft²",
    }
}

const CALIFORNIA: Threshold = Threshold {
    pest: Pest::ChinchBug,
    least_per_ft2: 15.0,
    most_per_ft2: 15.0,
    life_stage: "bugs of any stage",
    region: "California",
    source: UC_IPM,
    published_per: "ft²",
};

/// Square feet in a square yard, on which a soap drench is poured.
const FT2_PER_YD2: f64 = 9.0;
const PER_YD2: &str = "yd²";

const fn drenched(pest: Pest, per_yd2: f64, life_stage: &'static str) -> Threshold {
    Threshold {
        pest,
        least_per_ft2: per_yd2 / FT2_PER_YD2,
        most_per_ft2: per_yd2 / FT2_PER_YD2,
        life_stage,
        published_per: PER_YD2,
        ..CALIFORNIA
    }
}

/// What California's threshold for caterpillars on a square yard counts.
const WORMS_TOGETHER: &str = "armyworms and cutworms together";

static THRESHOLDS: [Threshold; 13] = [
    larvae(Pest::JapaneseBeetle, 8.0, 15.0),
    larvae(Pest::OrientalBeetle, 8.0, 15.0),
    larvae(Pest::MaskedChafer, 6.0, 15.0),
    larvae(Pest::EuropeanChafer, 3.0, 8.0),
    larvae(Pest::AsiaticGardenBeetle, 12.0, 20.0),
    larvae(Pest::MayBeetle, 2.0, 4.0),
    larvae(Pest::BlackTurfgrassAtaenius, 15.0, 80.0),
    Threshold {
        life_stage: "nymphs",
        ..larvae(Pest::ChinchBug, 30.0, 50.0)
    },
    CALIFORNIA,
    Threshold {
        pest: Pest::WhiteGrub,
        least_per_ft2: 6.0,
        most_per_ft2: 6.0,
        life_stage: "larvae",
        ..CALIFORNIA
    },
    drenched(Pest::SodWebworm, 15.0, "larvae"),
    drenched(Pest::Cutworm, 5.0, WORMS_TOGETHER),
    drenched(Pest::Armyworm, 5.0, WORMS_TOGETHER),
];

/// Every threshold known here. Sources differ; for sod webworm and cutworm the University of
/// Massachusetts Extension has no good estimate, so there is California's alone.
pub fn thresholds() -> &'static [Threshold] {
    &THRESHOLDS
}

/// The thresholds for one pest, each with its source; empty where none is known.
pub fn threshold_for(pest: Pest) -> Vec<&'static Threshold> {
    THRESHOLDS.iter().filter(|t| t.pest == pest).collect()
}

/// What a count says about treating. A person decides.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Encode, Decode, Serialize, Deserialize)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum Decision {
    /// Surely below the threshold: leave it untreated, which is a full result.
    #[n(0)]
    Leave,
    /// Between, or too few samples to tell: look again.
    #[n(1)]
    Watch,
    /// Above the threshold: damage is likely, treating may be worth it.
    #[n(2)]
    TreatingMayPay,
    /// Nothing was counted, or no threshold is known.
    #[n(3)]
    Unknown,
}

/// A decision with what it rests on.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Decided {
    /// What the count says.
    pub decision: Decision,
    /// Why.
    pub reason: Because,
    /// The threshold it was held against.
    pub threshold: Option<Threshold>,
    /// What to keep in mind; always has [`Note::AskExtension`]: nobody is left alone with a
    /// doubtful count.
    pub notes: Vec<Note>,
}

/// Why a decision is what it is. `Display` is the English; in JSON its name stands under `because`.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, thiserror::Error, strum::VariantNames)]
#[serde(tag = "because", rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
pub enum Because {
    /// Nobody looked.
    #[error("no sample was taken")]
    NoSample,
    /// The numbers cannot come from a count.
    #[error("the counts give no density; count again")]
    NoDensity,
    /// No source has one.
    #[error("no threshold is known for this pest")]
    NoThreshold,
    /// Mean and interval are above.
    #[error("{0} is above the threshold of {limits}", limits = .0.limits())]
    Above(Held),
    /// Mean and interval are below.
    #[error("{0} is below the threshold of {limits}", limits = .0.limits())]
    Below(Held),
    /// Mean and interval do not agree.
    #[error(
        "{0} is neither surely above nor surely below the threshold of {limits}; take more \
         samples, or look again in a week or two", limits = .0.limits()
    )]
    Neither(Held),
}

crate::sentence::names!(Because);

/// A density beside the threshold it was held against, per square foot.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Held {
    /// The density's mean.
    pub mean_per_ft2: f64,
    /// Lower bound of its interval.
    pub lower_per_ft2: f64,
    /// Upper bound of its interval.
    pub upper_per_ft2: f64,
    /// Below this, damage is not likely.
    pub least_per_ft2: f64,
    /// From this on, damage is likely.
    pub most_per_ft2: f64,
}

impl Held {
    fn limits(&self) -> String {
        if self.least_per_ft2 < self.most_per_ft2 {
            let (least, most) = (short(self.least_per_ft2), short(self.most_per_ft2));
            format!("{least} to {most} per ft²")
        } else {
            format!("{} per ft²", short(self.least_per_ft2))
        }
    }
}

/// With at most two decimals: what is published for a square yard is no round number here.
fn short(per_ft2: f64) -> String {
    let text = format!("{per_ft2:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

impl std::fmt::Display for Held {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            f,
            "{:.1} per ft² ({:.1} to {:.1})",
            self.mean_per_ft2, self.lower_per_ft2, self.upper_per_ft2
        )
    }
}

/// Holds a density against a threshold.
///
/// The mean and the interval must agree: above means a mean from the most on with the interval
/// from the least on; below means a mean under the least with the interval up to the most. All
/// else is [`Decision::Watch`]. That rule is common practice, no source.
pub fn decide(density: Option<&Density>, threshold: Option<&Threshold>) -> Decided {
    let mut notes = vec![Note::AskExtension];
    let (decision, reason) = match (density, threshold) {
        (None, _) => (Decision::Unknown, Because::NoSample),
        (Some(d), _) if !is_sound(d) => (Decision::Unknown, Because::NoDensity),
        (Some(_), None) => (Decision::Unknown, Because::NoThreshold),
        (Some(d), Some(t)) => {
            notes.extend(cautions(d, t));
            match held_against(d, t) {
                // One of two that are counted together may be few where both are many.
                (Decision::Leave, below) if t.counts_another_too() => (Decision::Watch, below),
                decided => decided,
            }
        }
    };
    Decided {
        decision,
        reason,
        threshold: threshold.copied(),
        notes,
    }
}

fn held_against(d: &Density, t: &Threshold) -> (Decision, Because) {
    let held = Held {
        mean_per_ft2: d.mean_per_ft2,
        lower_per_ft2: d.lower_per_ft2,
        upper_per_ft2: d.upper_per_ft2,
        least_per_ft2: t.least_per_ft2,
        most_per_ft2: t.most_per_ft2,
    };
    if d.mean_per_ft2 >= t.most_per_ft2 && d.lower_per_ft2 >= t.least_per_ft2 {
        (Decision::TreatingMayPay, Because::Above(held))
    } else if d.mean_per_ft2 < t.least_per_ft2 && d.upper_per_ft2 <= t.most_per_ft2 {
        (Decision::Leave, Because::Below(held))
    } else {
        (Decision::Watch, Because::Neither(held))
    }
}

fn cautions(d: &Density, t: &Threshold) -> Vec<Note> {
    let mut notes = vec![Note::ThresholdOf {
        life_stage: t.life_stage,
        region: t.region,
        publisher: t.source,
    }];
    if d.samples == 1 {
        notes.push(Note::OneSample);
    }
    if t.counts_another_too() {
        notes.push(Note::CountedTogether);
    }
    if threshold_for(t.pest).len() > 1 {
        notes.push(Note::SourcesDiffer);
    }
    notes
}

fn is_sound(d: &Density) -> bool {
    [d.mean_per_ft2, d.lower_per_ft2, d.upper_per_ft2]
        .iter()
        .all(|v| v.is_finite() && *v >= 0.0)
        && d.lower_per_ft2 <= d.mean_per_ft2
        && d.mean_per_ft2 <= d.upper_per_ft2
}
