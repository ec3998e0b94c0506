//! Refusals about corrections and about what several phones said differently. Which version holds
//! is the views' matter.

use serde::Serialize;

use crate::error::names;

/// Corrections, and what several phones said differently.
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
pub enum SettleRefusal {
    /// A correction of nothing.
    #[error("name the fact that is wrong")]
    NothingToCorrect,
    /// A fact of one kind in the place of another.
    #[error("a correction replaces like by like: a count by a count, a load by a load")]
    NotLikeByLike,
    /// What holds instead belongs to another visit.
    #[error("what holds instead is of another visit: name its own")]
    OfAnotherVisit,
    /// There is no finish yet.
    #[error("there is no finish to correct: finish first")]
    NoFinishToCorrect,
    /// Visits to two yards.
    #[error("only two visits to the same yard can be one job")]
    NotOneYard,
}

names!(SettleRefusal);
