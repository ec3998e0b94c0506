//! Refusals about looking whether a section is dry and lifting a keep-off. When one ends is the
//! view's matter, `view/keep_off.rs`.

use serde::Serialize;

use crate::error::names;

/// Looking and lifting.
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
pub enum KeepOffRefusal {
    /// "Dry" of nothing.
    #[error("name the section that you looked at")]
    NoSectionLookedAt,
    /// "Dry" before a finish.
    #[error("{section}: treating is not finished; finish it first")]
    TreatingNotFinished {
        /// The section's name.
        section: String,
    },
    /// "Dry" from before the last application.
    #[error("{section}: you looked before the last application; look again")]
    LookedTooEarly {
        /// The section's name.
        section: String,
    },
    /// Lifting by somebody else.
    #[error("only a crew lead's device can lift a keep-off")]
    OnlyCrewLeadLifts,
}

names!(KeepOffRefusal);
