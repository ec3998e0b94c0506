//! What a person copied from the label in hand, as the rules need it.
//!
//! No product data ships: every value here was typed by a person. How a label sheet is stored,
//! merged and read back belongs to the book; here is only its meaning.

use minicbor::{Decode, Encode};
use serde::{Deserialize, Serialize};

use crate::quantity::Entered;

/// What the label says on one point. An empty field and a silent label are two different things,
/// and neither is ever read as "allowed".
#[derive(Debug, Clone, PartialEq, Eq, Default, Encode, Decode, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LabelSays<T> {
    /// Nobody has filled this in yet.
    #[default]
    #[n(0)]
    Unfilled,
    /// A person read the label and it sets nothing here.
    #[n(1)]
    Nothing,
    /// The label says this.
    #[n(2)]
    Value(#[n(0)] T),
}

impl<T> LabelSays<T> {
    /// The value, where the label gives one.
    pub fn value(&self) -> Option<&T> {
        match self {
            Self::Value(v) => Some(v),
            Self::Unfilled | Self::Nothing => None,
        }
    }
}

/// How the product is put on the lawn; it decides which checks apply.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Encode, Decode, Serialize, Deserialize)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum Method {
    /// Dry granules by spreader.
    #[n(0)]
    Granule,
    /// Liquid on the leaves, left to dry there.
    #[n(1)]
    FoliarSpray,
    /// Liquid in a large volume of water, into the soil.
    #[n(2)]
    Drench,
    /// Bait, scattered or in spots.
    #[n(3)]
    Bait,
}

/// Whether to water the product in.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WateringIn {
    /// Water in after treating, to this depth if the label gives one.
    #[n(0)]
    Required(#[n(0)] Option<Entered>),
    /// Keep water off for this long if the label says how long.
    #[n(1)]
    Withheld(#[n(0)] Option<Entered>),
}

/// What must be true before people and pets may come back.
#[derive(Debug, Clone, PartialEq, Eq, Default, Encode, Decode, Serialize, Deserialize)]
pub struct KeepOffTerms {
    /// Whether the lawn must be seen dry (for granules: the dust settled, or watered in and then
    /// dry).
    #[n(0)]
    pub until_dry: LabelSays<bool>,
    /// A time to wait after the last application.
    #[n(1)]
    pub wait: LabelSays<Entered>,
}

/// One active ingredient and how much of it the product holds.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize, Deserialize)]
pub struct Ingredient {
    /// The ingredient's generic name.
    #[n(0)]
    pub name: String,
    /// Its share: percent by weight (`%`), or weight by volume such as `[lb_av]/[gal_us]`.
    #[n(1)]
    pub content: Entered,
}

/// A label sheet's content.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize, Deserialize)]
pub struct Label {
    /// Brand or product name as printed.
    #[n(0)]
    pub product: String,
    /// Registration number as printed.
    #[n(1)]
    pub registration: String,
    /// How the product goes on.
    #[n(2)]
    pub method: Method,
    /// Active ingredients.
    #[n(3)]
    pub ingredients: Vec<Ingredient>,
    /// The least the label allows per area; only where it gives a range.
    #[n(4)]
    pub rate_least: LabelSays<Entered>,
    /// The most the label allows per area. A label with one rate has it here.
    #[n(5)]
    pub rate_most: LabelSays<Entered>,
    /// The least carrier water per area, for liquids.
    #[n(6)]
    pub carrier_least: LabelSays<Entered>,
    /// The highest wind.
    #[n(7)]
    pub wind_most: LabelSays<Entered>,
    /// How long it must stay dry after treating.
    #[n(8)]
    pub rain_free: LabelSays<Entered>,
    /// Lowest air temperature.
    #[n(9)]
    pub temperature_least: LabelSays<Entered>,
    /// Highest air temperature.
    #[n(10)]
    pub temperature_most: LabelSays<Entered>,
    /// Before people and pets return.
    #[n(11)]
    pub keep_off: KeepOffTerms,
    /// Watering in.
    #[n(12)]
    pub watering_in: LabelSays<WateringIn>,
    /// Shortest time between two treatments.
    #[n(13)]
    pub repeat_after: LabelSays<Entered>,
}

impl Label {
    /// A sheet on which nothing is filled in yet.
    ///
    /// ```
    /// use sward_rules::label::{Label, LabelSays, Method};
    /// assert_eq!(Label::unfilled(Method::Bait).rate_most, LabelSays::Unfilled);
    /// ```
    pub fn unfilled(method: Method) -> Self {
        Self {
            product: String::new(),
            registration: String::new(),
            method,
            ingredients: Vec::new(),
            rate_least: LabelSays::Unfilled,
            rate_most: LabelSays::Unfilled,
            carrier_least: LabelSays::Unfilled,
            wind_most: LabelSays::Unfilled,
            rain_free: LabelSays::Unfilled,
            temperature_least: LabelSays::Unfilled,
            temperature_most: LabelSays::Unfilled,
            keep_off: KeepOffTerms::default(),
            watering_in: LabelSays::Unfilled,
            repeat_after: LabelSays::Unfilled,
        }
    }
}
