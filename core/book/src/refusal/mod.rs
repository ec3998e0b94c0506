//! Why the book refuses an action: one sentence each, in English here, and as a name with its
//! arguments for a shell that says it in another language. What else can go wrong, and when each
//! is said, stands elsewhere.

mod after;
mod crew;
mod field;
mod keep_off;
mod label;
mod settle;
mod store;
mod treat;
mod visit;

use serde::Serialize;

pub use after::AfterRefusal;
pub use crew::{CrewRefusal, Named};
pub use field::FieldRefusal;
pub use keep_off::KeepOffRefusal;
pub use label::{LabelRefusal, ReadBackFault};
pub use settle::SettleRefusal;
pub use store::StoreRefusal;
pub use treat::{LoadPart, TreatRefusal, check_name};
pub use visit::{Series, Typed, VisitRefusal};

/// Something the person cannot do in this state, and what they can do instead.
///
/// It serialises flat, whatever the subject: `refusal` holds the name of the sentence, and beside
/// it stand the arguments by name.
///
/// ```
/// use sward_book::refusal::{CrewRefusal, Named, Refusal};
///
/// let refusal = Refusal::from(CrewRefusal::NameMissing { what: Named::Licence });
/// assert_eq!(refusal.to_string(), "the licence needs a name");
/// assert_eq!(refusal.name(), "name-missing");
/// let told = serde_json::to_value(&refusal)?;
/// assert_eq!(told, serde_json::json!({ "refusal": "name-missing", "what": "licence" }));
/// # Ok::<(), serde_json::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Eq, Serialize, thiserror::Error)]
#[serde(untagged)]
#[non_exhaustive]
pub enum Refusal {
    /// Around a treatment.
    #[error(transparent)]
    After(#[from] AfterRefusal),
    /// Who belongs, and what a device may do.
    #[error(transparent)]
    Crew(#[from] CrewRefusal),
    /// What is typed into a field.
    #[error(transparent)]
    Field(#[from] FieldRefusal),
    /// Looking and lifting.
    #[error(transparent)]
    KeepOff(#[from] KeepOffRefusal),
    /// Label sheets.
    #[error(transparent)]
    Label(#[from] LabelRefusal),
    /// Corrections, and what several phones said differently.
    #[error(transparent)]
    Settle(#[from] SettleRefusal),
    /// Files, disks and clocks.
    #[error(transparent)]
    Store(#[from] StoreRefusal),
    /// Starting, loading and finishing.
    #[error(transparent)]
    Treat(#[from] TreatRefusal),
    /// What is counted, read and said on a visit.
    #[error(transparent)]
    Visit(#[from] VisitRefusal),
}

impl Refusal {
    /// The name of the sentence: what `refusal` holds when serialised.
    pub fn name(&self) -> &'static str {
        match self {
            Self::After(r) => r.into(),
            Self::Crew(r) => r.into(),
            Self::Field(r) => r.into(),
            Self::KeepOff(r) => r.into(),
            Self::Label(r) => r.into(),
            Self::Settle(r) => r.into(),
            Self::Store(r) => r.into(),
            Self::Treat(r) => r.into(),
            Self::Visit(r) => r.into(),
        }
    }

    /// The key of the field of a sheet that it is about, where it is about one.
    pub fn field(&self) -> Option<&str> {
        match self {
            Self::Field(r) => Some(r.field()),
            Self::Label(r) => r.field(),
            _ => None,
        }
    }

    /// The names of all sentences, so that a test can ask a translation for each.
    pub fn names() -> impl Iterator<Item = &'static str> {
        [
            AfterRefusal::NAMES,
            CrewRefusal::NAMES,
            FieldRefusal::NAMES,
            KeepOffRefusal::NAMES,
            LabelRefusal::NAMES,
            SettleRefusal::NAMES,
            StoreRefusal::NAMES,
            TreatRefusal::NAMES,
            VisitRefusal::NAMES,
        ]
        .into_iter()
        .flatten()
        .copied()
    }
}

#[cfg(test)]
mod tests;
