//! The working behind an answer: what went in, which formula, whose, how it was rounded.
//!
//! Screens show it behind every number ("how"), and a record keeps it. No arithmetic lives here.

use serde::Serialize;

use crate::note::{Note, Rounding};

/// A value together with how it came about.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Answer<T> {
    /// The value itself.
    pub value: T,
    /// How it was reached.
    pub working: Working,
}

/// How a value was reached, for a person who wants to check it by hand.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Working {
    /// What went in, in the order of the formula: a name and the value with its unit.
    pub inputs: Vec<(&'static str, String)>,
    /// The formula's name, such as "trapezoid rule".
    pub formula: &'static str,
    /// Who published the formula or figure, or "common practice, no source".
    pub source: &'static str,
    /// What rounding was applied, if any.
    pub rounding: Option<Rounding>,
    /// What the reader should keep in mind: assumptions, limits of the method.
    pub notes: Vec<Note>,
}

impl Working {
    /// A working with a formula and its source; inputs are added with [`Working::input`].
    ///
    /// ```
    /// use sward_rules::Working;
    /// let w = Working::new("rectangle", "geometry").input("length", "60 ft").input("width", "25 ft");
    /// assert_eq!(w.inputs.len(), 2);
    /// ```
    pub fn new(formula: &'static str, source: &'static str) -> Self {
        Self {
            inputs: Vec::new(),
            formula,
            source,
            rounding: None,
            notes: Vec::new(),
        }
    }

    /// Adds one input.
    #[must_use]
    #[expect(
        clippy::needless_pass_by_value,
        reason = "callers hand over literals and sums alike"
    )]
    pub fn input(mut self, name: &'static str, value: impl ToString) -> Self {
        self.inputs.push((name, value.to_string()));
        self
    }

    /// States the rounding that was applied.
    #[must_use]
    pub fn rounded(mut self, rounding: Rounding) -> Self {
        self.rounding = Some(rounding);
        self
    }

    /// Adds something the reader should keep in mind.
    #[must_use]
    pub fn note(mut self, note: Note) -> Self {
        self.notes.push(note);
        self
    }

    /// Joins a value to this working.
    pub fn gives<T>(self, value: T) -> Answer<T> {
        Answer {
            value,
            working: self,
        }
    }
}
