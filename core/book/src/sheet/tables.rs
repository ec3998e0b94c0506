//! The rows of the table of fields: one for each field of each sheet.
//!
//! What a row says is in [`super::schema`], how a field is read in each sheet's own file.

use sward_rules::quantity::Dimension;

use super::schema::{Field, FieldKind, HIDDEN, List, Safer};
use super::{EquipmentKind, HelpLineKind, MarkKind, SheetKind};

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

/// A field with a direction that is not read back.
const fn towards(key: &'static str, kind: FieldKind, safer: Safer) -> Field {
    Field {
        key,
        kind,
        safer,
        read_back: false,
    }
}

const AMOUNTS: &[Dimension] = &[Dimension::Mass, Dimension::Volume];
const RATES: &[Dimension] = &[Dimension::MassPerArea, Dimension::VolumePerArea];
const SPEEDS: &[Dimension] = &[Dimension::Speed];
const TIMES: &[Dimension] = &[Dimension::Time];
const TEMPERATURES: &[Dimension] = &[Dimension::Temperature];

pub(super) static YARD: &[Field] = &[
    plain("name", FieldKind::Text),
    plain("address", FieldKind::Text),
    plain("state", FieldKind::Text),
    plain("zone", FieldKind::Zone),
    plain("people", FieldKind::Note),
    plain("children", FieldKind::Note),
    plain("pets", FieldKind::Note),
    plain("hives", FieldKind::Note),
    plain("well", FieldKind::Note),
    plain("gate", FieldKind::Note),
    plain("mowing", FieldKind::Note),
    plain("irrigation", FieldKind::Note),
    plain("others_applied", FieldKind::Note),
    plain("notice", FieldKind::Note),
    plain("note", FieldKind::Note),
    plain("street_bearing", FieldKind::Bearing),
    plain("position", FieldKind::Position),
];

static SECTION: &[Field] = &[
    plain("name", FieldKind::Text),
    plain("outline", FieldKind::Outline),
    plain("east", FieldKind::Offset),
    plain("north", FieldKind::Offset),
    plain("turn", FieldKind::Bearing),
];

static CONTACT: &[Field] = &[
    plain("name", FieldKind::Text),
    plain("phone", FieldKind::Text),
    plain("role", FieldKind::Text),
    towards("wants_notice", FieldKind::YesNo, Safer::Yes),
];

static MARK: &[Field] = &[
    plain("kind", FieldKind::Choice(MarkKind::WORDS)),
    plain("name", FieldKind::Text),
    plain("east", FieldKind::Offset),
    plain("north", FieldKind::Offset),
];

pub(super) static LABEL: &[Field] = &[
    plain("product", FieldKind::Text),
    plain("registration", FieldKind::Text),
    towards(
        "method",
        FieldKind::Choice(&["granule", "foliar_spray", "drench", "bait"]),
        Safer::Neither,
    ),
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
    limit("season_most", FieldKind::LabelNumber(RATES), Safer::Lower),
    plain("first_aid", FieldKind::Note),
    plain("emergency_phone", FieldKind::Text),
    plain("spill", FieldKind::Note),
    plain("mixing_order", FieldKind::Note),
    plain("protective_gear", FieldKind::Note),
    plain("leftovers", FieldKind::Note),
    plain("forbids", FieldKind::Note),
    plain("sites", FieldKind::Note),
    plain("pests", FieldKind::Note),
];

static INGREDIENT: &[Field] = &[
    plain("name", FieldKind::Text),
    limit(
        "content",
        FieldKind::Number(&[Dimension::Percent, Dimension::MassPerVolume]),
        Safer::Higher,
    ),
];

pub(super) static YARD_LISTS: &[List] = &[
    List {
        key: "sections",
        fields: SECTION,
        required: "name",
    },
    List {
        key: "contacts",
        fields: CONTACT,
        required: "name",
    },
    List {
        key: "marks",
        fields: MARK,
        required: "kind",
    },
];
pub(super) static LABEL_LISTS: &[List] = &[List {
    key: "ingredients",
    fields: INGREDIENT,
    required: "name",
}];

pub(super) static PLAN: &[Field] = &[
    plain("label", FieldKind::Text),
    plain("rate", FieldKind::Number(RATES)),
    plain("carrier", FieldKind::Number(&[Dimension::VolumePerArea])),
    plain("holds", FieldKind::Number(AMOUNTS)),
    plain("vessel", FieldKind::Number(AMOUNTS)),
    plain("passes", FieldKind::Choice(&["1", "2"])),
    plain("swath", FieldKind::Number(&[Dimension::Length])),
    plain("equipment", FieldKind::Id(SheetKind::Equipment)),
    plain("stock", FieldKind::Id(SheetKind::Stock)),
    plain("gear", FieldKind::Note),
    plain("sections", FieldKind::Ids),
    towards("less_uncertainty", FieldKind::YesNo, Safer::Yes),
];

pub(super) static EQUIPMENT: &[Field] = &[
    plain("name", FieldKind::Text),
    plain("kind", FieldKind::Choice(EquipmentKind::WORDS)),
    plain("holds", FieldKind::Number(AMOUNTS)),
    plain("vessel", FieldKind::Number(AMOUNTS)),
    // What comes out on the lawn hangs on these: of two, neither is known to be right.
    towards(
        "swath",
        FieldKind::Number(&[Dimension::Length]),
        Safer::Neither,
    ),
    towards("setting", FieldKind::Text, Safer::Neither),
    towards("pace", FieldKind::Number(SPEEDS), Safer::Neither),
    towards("calibrated_on", FieldKind::Day, Safer::Lower),
    towards("calibrated_for", FieldKind::Text, Safer::Neither),
    towards("calibrated_rate", FieldKind::Number(RATES), Safer::Neither),
    plain("calibrated_by", FieldKind::Text),
    plain("parts", FieldKind::Text),
    plain("note", FieldKind::Note),
    plain("retired", FieldKind::YesNo),
];

pub(super) static STOCK: &[Field] = &[
    // A lot of one product must never be taken for another's.
    towards("label", FieldKind::Id(SheetKind::Label), Safer::Neither),
    plain("lot", FieldKind::Text),
    towards("on_hand", FieldKind::Number(AMOUNTS), Safer::Lower),
    towards("counted_on", FieldKind::Day, Safer::Lower),
    towards("least", FieldKind::Number(AMOUNTS), Safer::Higher),
    plain("where", FieldKind::Text),
    plain(HIDDEN, FieldKind::YesNo),
];

pub(super) static PERSON: &[Field] = &[
    plain("name", FieldKind::Text),
    plain("licence", FieldKind::Text),
    towards("licence_until", FieldKind::Day, Safer::Lower),
    plain("phone", FieldKind::Text),
    plain("note", FieldKind::Note),
    plain(HIDDEN, FieldKind::YesNo),
];

static HELP_LINE: &[Field] = &[
    plain("kind", FieldKind::Choice(HelpLineKind::WORDS)),
    plain("name", FieldKind::Text),
    plain("phone", FieldKind::Text),
    towards("read_on", FieldKind::Day, Safer::Lower),
    plain("note", FieldKind::Note),
];

pub(super) static HELP_LISTS: &[List] = &[List {
    key: "lines",
    fields: HELP_LINE,
    required: "phone",
}];
