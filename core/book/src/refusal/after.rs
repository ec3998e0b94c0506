//! Refusals about what is recorded around a treatment: the return, who was told, what was cleaned
//! up, incidents. What stands in the record once it is written is the views' matter.

use serde::Serialize;

use crate::error::names;

/// Around a treatment.
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
pub enum AfterRefusal {
    /// A return before the visit that it follows from.
    #[error("{day} lies before the visit: give the day to come back")]
    ReturnBeforeVisit {
        /// The day.
        day: String,
    },
    /// A return that nobody plans.
    #[error("{day} is more than {years_most} years after the visit: look at the year again")]
    ReturnTooFar {
        /// The day.
        day: String,
        /// The most, in years.
        years_most: u32,
    },
    /// "Other" without saying what.
    #[error("say in the note what the return is for")]
    ReturnNoteMissing,
    /// Nobody was told.
    #[error("say who was told")]
    WhoMissing,
    /// Told of nothing.
    #[error("name the sections that they were told of")]
    NoKeepOffTold,
    /// Neither a task nor a note.
    #[error("answer at least one task, or write a note")]
    NothingAnswered,
    /// Two answers to one task.
    #[error("one task has two answers: give one")]
    AnsweredTwice,
    /// An incident without a word.
    #[error("say what happened")]
    IncidentNotTold,
    /// An incident on a visit to another yard.
    #[error("this visit is to another yard: name one of the two")]
    IncidentYardDiffers,
}

names!(AfterRefusal);
