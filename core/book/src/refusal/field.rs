//! Refusals of what is typed into a field of a sheet. Which field takes what is the table's
//! matter, `sheet/schema.rs`.

use serde::Serialize;
use sward_rules::RuleError;
use sward_rules::quantity::Dimension;

use super::visit::{one_of, spoken};
use crate::error::names;

/// What is typed into a field. `field` is always its key in the table of fields.
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
pub enum FieldRefusal {
    /// More text than a field takes.
    #[error("{}: too long, at most {bytes_most} bytes", spoken(field))]
    FieldTooLong {
        /// The field.
        field: &'static str,
        /// The most bytes.
        bytes_most: usize,
    },
    /// A character that cannot be seen.
    #[error("{}: holds a control character: type it again", spoken(field))]
    FieldControlCharacter {
        /// The field.
        field: &'static str,
    },
    /// Neither yes nor no nor silent.
    #[error("{}: write yes, no, or nothing (the label is silent)", spoken(field))]
    FieldYesNo {
        /// The field.
        field: &'static str,
    },
    /// Neither yes nor no.
    #[error("{}: write yes or no", spoken(field))]
    FieldYesOrNo {
        /// The field.
        field: &'static str,
    },
    /// No day.
    #[error("{}: no day; write year-month-day, like 2026-06-30", spoken(field))]
    FieldDay {
        /// The field.
        field: &'static str,
    },
    /// No direction.
    #[error("{}: write degrees clockwise from north, from 0 to 360", spoken(field))]
    FieldBearing {
        /// The field.
        field: &'static str,
    },
    /// No place on the globe.
    #[error(
        "{}: write latitude, then longitude in degrees, like 42.443961, -76.501881 (south and west \
         are below zero)",
        spoken(field)
    )]
    FieldPosition {
        /// The field.
        field: &'static str,
    },
    /// No id of anything.
    #[error("{}: names nothing: choose it from the list", spoken(field))]
    FieldNamesNothing {
        /// The field.
        field: &'static str,
    },
    /// Farther than any lawn reaches.
    #[error(
        "{offset}: too far; give at most {metres_most} m to either side of where the sketch begins"
    )]
    OffsetTooFar {
        /// The field.
        field: &'static str,
        /// What was typed, as a person writes it.
        offset: String,
        /// The most, in metres.
        metres_most: u32,
    },
    /// None of the words that may stand there.
    #[error("{}: write one of: {}", spoken(field), words.join(", "))]
    FieldChoice {
        /// The field.
        field: &'static str,
        /// The words.
        words: Vec<&'static str>,
    },
    /// No time zone.
    #[error("zone: not a known time zone; write one like America/New_York or Europe/Madrid")]
    ZoneUnknown,
    /// An outline cannot be typed.
    #[error("{}: is drawn, not typed", spoken(field))]
    FieldDrawn {
        /// The field.
        field: &'static str,
    },
    /// No amount with its unit.
    #[error("{}: {rule}", spoken(field))]
    FieldAmount {
        /// The field.
        field: &'static str,
        /// What is wrong with the amount.
        rule: Box<RuleError>,
    },
    /// An amount of another kind.
    #[error(
        "{}: {typed} is {dimension}, where {} is needed",
        spoken(field),
        one_of(wanted)
    )]
    FieldDimension {
        /// The field.
        field: &'static str,
        /// What was typed.
        typed: String,
        /// What kind of amount it is.
        dimension: Dimension,
        /// What may stand there.
        wanted: Vec<Dimension>,
    },
    /// Below zero.
    #[error("{}: cannot be negative", spoken(field))]
    FieldNegative {
        /// The field.
        field: &'static str,
    },
    /// A rate of zero.
    #[error(
        "{}: zero is no rate; leave the field empty if the label gives none",
        spoken(field)
    )]
    FieldZeroRate {
        /// The field.
        field: &'static str,
    },
    /// Not a way to water in.
    #[error(
        "watering in: write \"required 0.5 in\", \"withheld 24 h\", or nothing (the label is silent)"
    )]
    WateringIn,
    /// Empty where something must stand.
    #[error("{}: fill it in, it cannot stay empty", spoken(field))]
    FieldMissing {
        /// The field.
        field: &'static str,
    },
    /// A yard without a name.
    #[error("a yard needs a name")]
    YardNameMissing,
    /// A section without a name.
    #[error("a section needs a name")]
    SectionNameMissing,
}

names!(FieldRefusal);

impl FieldRefusal {
    /// The key of the field that it is about, so that a form can say it there.
    pub fn field(&self) -> &'static str {
        match self {
            Self::FieldTooLong { field, .. }
            | Self::FieldControlCharacter { field }
            | Self::FieldYesNo { field }
            | Self::FieldYesOrNo { field }
            | Self::FieldDay { field }
            | Self::FieldBearing { field }
            | Self::FieldPosition { field }
            | Self::FieldNamesNothing { field }
            | Self::OffsetTooFar { field, .. }
            | Self::FieldChoice { field, .. }
            | Self::FieldDrawn { field }
            | Self::FieldAmount { field, .. }
            | Self::FieldDimension { field, .. }
            | Self::FieldNegative { field }
            | Self::FieldZeroRate { field }
            | Self::FieldMissing { field } => field,
            Self::ZoneUnknown => "zone",
            Self::WateringIn => "watering_in",
            Self::YardNameMissing | Self::SectionNameMissing => "name",
        }
    }
}
