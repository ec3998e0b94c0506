//! What a field is: name, what may stand in it, and which of two values is the safer.
//!
//! The rows stand in `tables`; to add a field, add its row there and, where it is needed typed,
//! read it in the sheet's own file. A field that an older phone does not know is carried and
//! merged all the same.

use sward_rules::quantity::Dimension;

use super::{SheetKind, tables};

/// The key that hides an item; nothing is deleted.
pub const HIDDEN: &str = "hidden";
/// Yes.
pub const YES: &str = "yes";
/// No.
pub const NO: &str = "no";
/// The label was read and says nothing on this point.
pub const SAYS_NOTHING: &str = "nothing";

/// What may stand in a field.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FieldKind {
    /// Any text of one line.
    Text,
    /// Text of several lines.
    Note,
    /// A number with its unit, of one of these kinds.
    Number(&'static [Dimension]),
    /// A number with its unit, or "nothing" where the label was read and says nothing.
    LabelNumber(&'static [Dimension]),
    /// "yes", "no" or "nothing".
    LabelYesNo,
    /// "yes" or "no".
    YesNo,
    /// "required" or "withheld" with or without a number, or "nothing".
    WateringIn,
    /// One of these words.
    Choice(&'static [&'static str]),
    /// An IANA time zone.
    Zone,
    /// A day: year-month-day.
    Day,
    /// Degrees clockwise from north, 0 to 360.
    Bearing,
    /// Latitude and longitude: see [`super::Position`].
    Position,
    /// A length to one side or, below zero, to the other: see [`super::Offset`].
    Offset,
    /// The UUID of a sheet of this kind.
    Id(SheetKind),
    /// UUIDs of items, with a space between; empty stands for all.
    Ids,
    /// An encoded outline.
    Outline,
}

/// Which of two values that were written at the same time is the safer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Safer {
    /// One wins the same way everywhere, and the other is shown: names and notes.
    EitherWins,
    /// The lower: most rate, highest wind; of two days the earlier.
    Lower,
    /// The higher: waits and distances.
    Higher,
    /// Yes.
    Yes,
    /// Neither: not known until a person settles it.
    Neither,
}

/// One field.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Field {
    /// Its key in the document.
    pub key: &'static str,
    /// What may stand in it.
    pub kind: FieldKind,
    /// How two values become one.
    pub safer: Safer,
    /// Whether it is among the numbers that are read back before first use.
    pub read_back: bool,
}

/// A list of items in a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct List {
    /// Its key in the document.
    pub key: &'static str,
    /// The fields of an item, [`HIDDEN`] aside.
    pub fields: &'static [Field],
    /// The field without which an item is of no use to anyone.
    pub required: &'static str,
}

/// The fields of a kind of sheet, list items aside.
pub fn fields(kind: SheetKind) -> &'static [Field] {
    match kind {
        SheetKind::Yard => tables::YARD,
        SheetKind::Label => tables::LABEL,
        SheetKind::Plan => tables::PLAN,
        SheetKind::Equipment => tables::EQUIPMENT,
        SheetKind::Stock => tables::STOCK,
        SheetKind::Person => tables::PERSON,
        SheetKind::HelpLines => &[],
    }
}

/// The lists of a kind of sheet.
pub fn lists(kind: SheetKind) -> &'static [List] {
    match kind {
        SheetKind::Yard => tables::YARD_LISTS,
        SheetKind::Label => tables::LABEL_LISTS,
        SheetKind::HelpLines => tables::HELP_LISTS,
        SheetKind::Plan | SheetKind::Equipment | SheetKind::Stock | SheetKind::Person => &[],
    }
}

/// One field by its key.
pub fn field(kind: SheetKind, key: &str) -> Option<&'static Field> {
    fields(kind).iter().find(|f| f.key == key)
}

/// One list by its key.
pub fn list(kind: SheetKind, key: &str) -> Option<&'static List> {
    lists(kind).iter().find(|l| l.key == key)
}

/// The field without which a sheet of this kind is of no use to anyone; none: it may stay empty.
pub fn required(kind: SheetKind) -> Option<&'static str> {
    match kind {
        SheetKind::Yard | SheetKind::Equipment | SheetKind::Person => Some("name"),
        SheetKind::Label => Some("product"),
        SheetKind::Stock => Some("label"),
        SheetKind::Plan | SheetKind::HelpLines => None,
    }
}
