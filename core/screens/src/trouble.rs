//! What can go wrong on a screen, each said to the person in their language.
//!
//! What the core refuses is passed on as it is; only what belongs to screens is named here.

use serde::Serialize;
use sward_book::BookError;
use sward_crew::CrewError;
use sward_rules::RuleError;

/// An error of the screens.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum Trouble {
    /// The book refused, or could not.
    #[error(transparent)]
    Book(#[from] BookError),
    /// The crew's files or keys refused.
    #[error(transparent)]
    Crew(#[from] CrewError),
    /// A rule refused.
    #[error(transparent)]
    Rule(#[from] RuleError),
    /// No book is open: the first screen offers to begin one.
    #[error("no book is open")]
    NoBook,
    /// The address names nothing that is there.
    #[error("there is nothing at this address")]
    NotFound,
    /// What was typed does not fit.
    #[error(transparent)]
    Wrong(#[from] Wrong),
    /// What stands in one field does not fit; what was typed is kept.
    #[error("{field}: {error}")]
    InField {
        /// The field's name in its form.
        field: String,
        /// What is wrong with it.
        error: Box<Trouble>,
    },
    /// Several fields do not fit.
    #[error("{} fields do not fit", .0.len())]
    Fields(Vec<Trouble>),
    /// More was sent than a form or file may hold.
    #[error("more was sent than can be taken in")]
    TooLarge,
    /// What was sent is no form.
    #[error("what was sent is no form")]
    NoForm,
    /// The screens' own small store failed.
    #[error("what belongs to the screens could not be written or read: {0}")]
    Desk(#[from] rusqlite::Error),
    /// The door could not be opened: the port is taken, for one.
    #[error("the screens cannot be served: {0}; choose another port")]
    Port(#[source] std::io::Error),
    /// The system refused a file or a thread.
    #[error("the system refused: {0}")]
    System(#[source] std::io::Error),
}

/// What is wrong with one field. Its messages are made of these names.
// words: wrong-*
#[derive(Debug, Clone, PartialEq, Eq, Serialize, thiserror::Error)]
#[serde(tag = "wrong", rename_all = "kebab-case")]
pub enum Wrong {
    /// It must be filled in.
    #[error("fill this in")]
    Missing,
    /// It must be one of what is offered.
    #[error("choose one of these")]
    NotOffered,
    /// It must be a plain number.
    #[error("write a plain number, like 12 or 2.5")]
    NotANumber,
    /// It must be a day.
    #[error("write a day like 2026-06-30")]
    NotADay,
    /// It must be a time of day.
    #[error("write a time like 14:30")]
    NotATime,
    /// The clocks change at that hour, so it does not exist or comes twice.
    #[error("at this hour the clocks change; write a time before or after it")]
    ClockChange,
    /// It must be at most this.
    #[error("at most {most}")]
    Most {
        /// The most.
        most: i64,
    },
    /// It must be at least this.
    #[error("at least {least}")]
    Least {
        /// The least.
        least: i64,
    },
    /// A number stands without its unit.
    #[error("choose the unit")]
    NoUnit,
    /// Two answers stand where only one can be right.
    #[error("two answers that do not go together: leave one empty")]
    BothSaid,
    /// A file must be chosen.
    #[error("choose a file")]
    NoFile,
    /// What it was about was changed while the form was open.
    #[error("this was changed meanwhile")]
    ChangedMeanwhile,
    /// A line of a walk is no position.
    #[error("line {line} is no position")]
    NotAFix {
        /// The line, the first being 1.
        line: i64,
    },
    /// A line of a drawing is no corner.
    #[error("line {line} is no corner")]
    NotACorner {
        /// The line, the first being 1.
        line: i64,
    },
}

impl Trouble {
    /// A field that does not fit.
    pub(crate) fn field(field: impl Into<String>, wrong: Wrong) -> Self {
        Self::in_field(field, wrong)
    }

    /// An error with the field it belongs to, so that it is shown beside it.
    pub(crate) fn in_field(field: impl Into<String>, error: impl Into<Self>) -> Self {
        Self::InField {
            field: field.into(),
            error: Box::new(error.into()),
        }
    }

    /// What is wrong with one field of a form.
    pub(crate) fn of_field(&self, name: &str) -> Option<&Self> {
        match self {
            Self::InField { field, error } => (field == name).then_some(error),
            Self::Book(error) => (error.field() == Some(name)).then_some(self),
            Self::Fields(all) => all.iter().find_map(|t| t.of_field(name)),
            _ => None,
        }
    }

    /// Whether all of it belongs to fields.
    pub(crate) fn is_of_fields(&self) -> bool {
        match self {
            Self::InField { .. } => true,
            Self::Book(error) => error.field().is_some(),
            Self::Fields(all) => all.iter().all(Self::is_of_fields),
            _ => false,
        }
    }
}

/// What is asked of the book; none where it has not arrived on this device.
pub(crate) fn if_there<T>(found: sward_book::Result<T>) -> Result<Option<T>> {
    match found {
        Ok(found) => Ok(Some(found)),
        Err(BookError::NotFound { .. }) => Ok(None),
        Err(error) => Err(error.into()),
    }
}

/// Result with a [`Trouble`].
pub type Result<T, E = Trouble> = std::result::Result<T, E>;
