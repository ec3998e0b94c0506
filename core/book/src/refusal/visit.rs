//! Refusals of what is counted, read and said on a visit, and how keys and amounts are spoken in
//! all of these sentences.

use serde::Serialize;
use sward_rules::quantity::Dimension;

use crate::error::names;

/// What is counted, read and said on a visit.
#[derive(
    Debug,
    Clone,
    PartialEq,
    Eq,
    Serialize,
    strum::IntoStaticStr,
    strum::VariantNames,
    thiserror::Error,
)]
#[serde(tag = "refusal", rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[non_exhaustive]
pub enum VisitRefusal {
    /// Text that cannot stand in a record.
    #[error(
        "{what}: too long or with a control character: give at most {bytes_most} bytes of plain text"
    )]
    TextUnfit {
        /// Which text.
        what: Typed,
        /// The most bytes.
        bytes_most: usize,
    },
    /// No reason.
    #[error("give a reason: it stands in the record")]
    ReasonMissing,
    /// A series of nothing.
    #[error("give at least one {what}")]
    SeriesEmpty {
        /// A series of what.
        what: Series,
    },
    /// A series longer than anybody takes.
    #[error("at most {most} {what}s at once")]
    SeriesTooLong {
        /// A series of what.
        what: Series,
        /// The most.
        most: usize,
    },
    /// Faster than a wind on a lawn, or below calm.
    #[error(
        "wind {reading}: cannot be; give what the meter showed, from calm up to {metres_per_second_most} m/s"
    )]
    WindCannotBe {
        /// What was typed, as a person writes it.
        reading: String,
        /// The most, in metres per second.
        metres_per_second_most: u32,
    },
    /// No direction.
    #[error("wind direction: give 0 to 360 degrees from north")]
    WindDirection,
    /// "Not treated" after a start.
    #[error("treating has started on this visit: finish it, and correct what was wrong")]
    TreatingHasStarted,
    /// "Other" without its reason.
    #[error("say in the note why nothing was treated")]
    NotTreatedNoteMissing,
    /// No day.
    #[error("{typed} is no day: write it like 2026-06-30")]
    NotADay {
        /// What was typed.
        typed: String,
    },
}

names!(VisitRefusal);

/// Which text of a record.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, strum::Display, strum::VariantNames)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[non_exhaustive]
pub enum Typed {
    /// A note.
    Note,
    /// A reason.
    Reason,
    /// A person's name.
    Person,
    /// A pest's name.
    Pest,
    /// Where a report is from.
    Source,
    /// A report.
    Report,
    /// What a product is put on with.
    Equipment,
    /// A product's lot.
    Lot,
    /// Protective gear.
    Gear,
    /// Who was told.
    WhoTold,
    /// What happened.
    Happened,
    /// What was done about it.
    DoneAboutIt,
    /// Who was called.
    WhoCalled,
}

names!(Typed);

/// A series of what.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, strum::Display, strum::VariantNames)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[non_exhaustive]
pub enum Series {
    /// Samples of a count.
    Sample,
    /// Readings of a meter.
    Reading,
    /// Answers of the walk round the yard.
    Answer,
}

names!(Series);

/// A field's key as a person reads it.
pub(super) fn spoken(key: impl AsRef<str>) -> String {
    crate::sheet::spoken(key.as_ref())
}

/// "a weight or a volume".
pub(super) fn one_of(dimensions: &[Dimension]) -> String {
    let names: Vec<String> = dimensions.iter().map(ToString::to_string).collect();
    names.join(" or ")
}
