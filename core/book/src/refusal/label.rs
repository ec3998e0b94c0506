//! Refusals about label sheets and their reading back. What the label means is the rules' matter.

use std::fmt;

use serde::Serialize;

use super::visit::spoken;
use crate::error::names;

/// Label sheets.
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
pub enum LabelRefusal {
    /// The method decides which checks apply.
    #[error(
        "this label sheet's method is not filled in or not agreed: set it to granule, foliar_spray, drench or bait"
    )]
    MethodMissing,
    /// A label sheet without a product.
    #[error("a label sheet needs the product's name as printed")]
    ProductMissing,
    /// An ingredient without a name.
    #[error("an ingredient needs its generic name")]
    IngredientNameMissing,
    /// The second person is nobody, or the one who carries the device.
    #[error(
        "name the second person who read the label; alone, type the numbers a second time instead"
    )]
    SecondPersonMissing,
    /// A field in doubt.
    #[error(
        "{}: two phones say {}: settle it with the label in hand first",
        spoken(field),
        values.join(" and ")
    )]
    FieldInDoubt {
        /// The field's key.
        field: String,
        /// What the phones say, as stored.
        values: Vec<String>,
    },
    /// The second reading differs.
    #[error("not agreed: {}", listed(faults))]
    ReadBackDiffers {
        /// Where, one for each field.
        faults: Vec<ReadBackFault>,
    },
    /// A least and a most of different kinds.
    #[error(
        "rate least and rate most: one is by weight, the other by volume; look at the label again"
    )]
    RatesOfTwoKinds,
    /// A least above the most.
    #[error("rate least ({least}) is above rate most ({most}): look at the label again")]
    RatesUpsideDown {
        /// The least, as a person writes it.
        least: String,
        /// The most, as a person writes it.
        most: String,
    },
    /// A season's most of another kind than the rate.
    #[error(
        "rate most and season most: one is by weight, the other by volume; give both of the product, and look at the label again"
    )]
    SeasonOfAnotherKind,
    /// Less in a season than at once.
    #[error(
        "season most ({season}) is below rate most ({most}): give both of the product, and look at the label again"
    )]
    SeasonBelowRate {
        /// The most of one application, as a person writes it.
        most: String,
        /// The most of a season, as a person writes it.
        season: String,
    },
}

names!(LabelRefusal);

impl LabelRefusal {
    /// The key of the field that it is about, where it is about one, so that a form can say it
    /// there.
    pub fn field(&self) -> Option<&str> {
        match self {
            Self::MethodMissing => Some("method"),
            Self::ProductMissing => Some("product"),
            Self::IngredientNameMissing => Some("name"),
            Self::FieldInDoubt { field, .. } => Some(field),
            Self::RatesOfTwoKinds | Self::RatesUpsideDown { .. } => Some("rate_least"),
            Self::SeasonOfAnotherKind | Self::SeasonBelowRate { .. } => Some("season_most"),
            Self::SecondPersonMissing | Self::ReadBackDiffers { .. } => None,
        }
    }
}

/// Where two readings of a label do not agree.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, strum::VariantNames, thiserror::Error)]
#[serde(tag = "fault", rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
pub enum ReadBackFault {
    /// Left out.
    #[error("{} was not read back", spoken(field))]
    LeftOut {
        /// The field's key.
        field: String,
    },
    /// Two values.
    #[error(
        "{}: the sheet says {sheet}, the second reading {second}",
        spoken(field)
    )]
    Differs {
        /// The field's key.
        field: String,
        /// What the sheet says, as a person writes it.
        sheet: String,
        /// What the second reading says, as a person writes it.
        second: String,
    },
    /// Read back where nothing stands.
    #[error("{}: the sheet has it empty", spoken(field))]
    EmptyOnSheet {
        /// The field's key.
        field: String,
    },
}

names!(ReadBackFault);

fn listed(faults: &[impl fmt::Display]) -> String {
    let faults: Vec<String> = faults.iter().map(ToString::to_string).collect();
    faults.join("; ")
}
