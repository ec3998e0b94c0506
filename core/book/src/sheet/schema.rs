//! The fields of each sheet: name, what may stand in it, and which of two values is the safer.
//!
//! To add a field, add its row here and, where the rules need it, read it in the sheet's own
//! file. A field that an older phone does not know is carried and merged all the same.

use sward_rules::quantity::Dimension;

use super::SheetKind;

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
    /// "required" or "withheld" with or without a number, or "nothing".
    WateringIn,
    /// One of these words.
    Choice(&'static [&'static str]),
    /// An IANA time zone.
    Zone,
    /// An encoded outline.
    Outline,
}

/// Which of two values that were written at the same time is the safer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Safer {
    /// One wins the same way everywhere, and the other is shown: names and notes.
    EitherWins,
    /// The lower: most rate, highest wind.
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
}

const fn plain(key: &'static str, kind: FieldKind) -> Field {
    Field {
        key,
        kind,
        safer: Safer::EitherWins,
        read_back: false,
    }
}

const fn limit(key: &'static str, kind: FieldKind, safer: Safer) -> Field {
    Field {
        key,
        kind,
        safer,
        read_back: true,
    }
}

const RATES: &[Dimension] = &[Dimension::MassPerArea, Dimension::VolumePerArea];
const SPEEDS: &[Dimension] = &[Dimension::Speed];
const TIMES: &[Dimension] = &[Dimension::Time];
const TEMPERATURES: &[Dimension] = &[Dimension::Temperature];

static YARD: &[Field] = &[
    plain("name", FieldKind::Text),
    plain("address", FieldKind::Text),
    plain("zone", FieldKind::Zone),
    plain("people", FieldKind::Note),
    plain("note", FieldKind::Note),
];

static SECTION: &[Field] = &[
    plain("name", FieldKind::Text),
    plain("outline", FieldKind::Outline),
];

static LABEL: &[Field] = &[
    plain("product", FieldKind::Text),
    plain("registration", FieldKind::Text),
    Field {
        key: "method",
        kind: FieldKind::Choice(&["granule", "foliar_spray", "drench", "bait"]),
        safer: Safer::Neither,
        read_back: false,
    },
    limit("rate_least", FieldKind::LabelNumber(RATES), Safer::Neither),
    limit("rate_most", FieldKind::LabelNumber(RATES), Safer::Lower),
    limit(
        "carrier_least",
        FieldKind::LabelNumber(&[Dimension::VolumePerArea]),
        Safer::Higher,
    ),
    limit("wind_most", FieldKind::LabelNumber(SPEEDS), Safer::Lower),
    limit("rain_free", FieldKind::LabelNumber(TIMES), Safer::Higher),
    limit(
        "temperature_least",
        FieldKind::LabelNumber(TEMPERATURES),
        Safer::Higher,
    ),
    limit(
        "temperature_most",
        FieldKind::LabelNumber(TEMPERATURES),
        Safer::Lower,
    ),
    limit("keep_off_until_dry", FieldKind::LabelYesNo, Safer::Yes),
    limit(
        "keep_off_wait",
        FieldKind::LabelNumber(TIMES),
        Safer::Higher,
    ),
    limit("watering_in", FieldKind::WateringIn, Safer::Neither),
    limit("repeat_after", FieldKind::LabelNumber(TIMES), Safer::Higher),
];

static INGREDIENT: &[Field] = &[
    plain("name", FieldKind::Text),
    limit(
        "content",
        FieldKind::Number(&[Dimension::Percent, Dimension::MassPerVolume]),
        Safer::Higher,
    ),
];

static YARD_LISTS: &[List] = &[List {
    key: "sections",
    fields: SECTION,
}];
static LABEL_LISTS: &[List] = &[List {
    key: "ingredients",
    fields: INGREDIENT,
}];

static PLAN: &[Field] = &[
    plain("label", FieldKind::Text),
    plain("rate", FieldKind::Number(RATES)),
    plain("carrier", FieldKind::Number(&[Dimension::VolumePerArea])),
    plain(
        "holds",
        FieldKind::Number(&[Dimension::Mass, Dimension::Volume]),
    ),
    plain(
        "vessel",
        FieldKind::Number(&[Dimension::Mass, Dimension::Volume]),
    ),
    plain("passes", FieldKind::Choice(&["1", "2"])),
    plain("swath", FieldKind::Number(&[Dimension::Length])),
];

/// The fields of a kind of sheet, list items aside.
pub fn fields(kind: SheetKind) -> &'static [Field] {
    match kind {
        SheetKind::Yard => YARD,
        SheetKind::Label => LABEL,
        SheetKind::Plan => PLAN,
    }
}

/// The lists of a kind of sheet.
pub fn lists(kind: SheetKind) -> &'static [List] {
    match kind {
        SheetKind::Yard => YARD_LISTS,
        SheetKind::Label => LABEL_LISTS,
        SheetKind::Plan => &[],
    }
}

/// One field by its key.
pub fn field(kind: SheetKind, key: &str) -> Option<&'static Field> {
    fields(kind).iter().find(|f| f.key == key)
}
