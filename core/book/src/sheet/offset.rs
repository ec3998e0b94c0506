//! A length with a side: how far east or north of a yard sketch's origin something lies.
//!
//! An amount cannot be negative, a place can; nothing here knows what lies there.

use std::fmt;

use sward_rules::Entered;
use sward_rules::quantity::Dimension;

use crate::refusal::FieldRefusal;

/// The farthest from a sketch's origin, in metres: no lawn reaches farther.
pub const OFFSET_MOST_M: u32 = 2_000;

/// A length to one side or, below zero, to the other, kept as typed.
///
/// ```
/// use sward_book::sheet::Offset;
/// let west = Offset::parse("east", "-12.50 m")?;
/// assert_eq!(west.metres(), -12.5);
/// assert_eq!(west.to_string(), "-12.50 m");
/// assert!(Offset::parse("east", "2001 m").is_err());
/// # Ok::<(), sward_book::refusal::FieldRefusal>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Offset {
    below_zero: bool,
    length: Entered,
}

impl Offset {
    /// Reads what a person typed into a field, such as `-12.5 m` or `40 ft`.
    ///
    /// # Errors
    /// [`FieldRefusal::FieldAmount`] for what is no length, [`FieldRefusal::OffsetTooFar`] beyond
    /// [`OFFSET_MOST_M`].
    pub fn parse(field: &'static str, typed: &str) -> Result<Self, FieldRefusal> {
        let typed = typed.trim();
        // A keyboard's hyphen, or the minus sign that some phones put in its place.
        let (below, length) = match typed.strip_prefix(['-', '\u{2212}']) {
            Some(rest) => (true, rest),
            None => (false, typed),
        };
        let length = Entered::parse(length)
            .and_then(|length| length.must_be(Dimension::Length).map(|()| length))
            .map_err(|rule| FieldRefusal::FieldAmount {
                field,
                rule: Box::new(rule),
            })?;
        let offset = Self {
            below_zero: below && !length.is_zero(),
            length,
        };
        if offset.metres().abs() > f64::from(OFFSET_MOST_M) {
            return Err(FieldRefusal::OffsetTooFar {
                field,
                offset: offset.for_person(),
                metres_most: OFFSET_MOST_M,
            });
        }
        Ok(offset)
    }

    /// In metres.
    pub fn metres(&self) -> f64 {
        let metres = self
            .length
            .to_length()
            .expect("only a length is taken")
            .value;
        if self.below_zero { -metres } else { metres }
    }

    /// As a person would write it, such as `-12 ft`.
    pub fn for_person(&self) -> String {
        format!("{}{}", self.sign(), self.length.for_person())
    }

    fn sign(&self) -> &'static str {
        if self.below_zero { "-" } else { "" }
    }
}

impl fmt::Display for Offset {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.sign(), self.length)
    }
}

impl serde::Serialize for Offset {
    fn serialize<S: serde::Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.collect_str(self)
    }
}
