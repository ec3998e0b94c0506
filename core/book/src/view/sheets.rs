//! Rows for sheets: what a list shows of a yard or a label sheet.

use minicbor::{Decode, Encode};
use serde::Serialize;

use crate::fact::ReadBackHow;
use crate::ids::{FactId, Hash, SheetId};
use crate::sheet::{Conflict, LabelSheet, Position, SheetDoc, SheetKind, YardSheet, schema};

/// A yard in a list.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct YardView {
    /// The yard.
    #[n(0)]
    pub yard: SheetId,
    /// What people call it.
    #[n(1)]
    pub name: String,
    /// Postal address.
    #[n(2)]
    pub address: String,
    /// IANA time zone; empty while it is not set.
    #[n(3)]
    pub zone: String,
    /// Fields that were filled differently at the same time.
    #[n(4)]
    pub conflicts: Vec<Conflict>,
    /// Where it lies, if that is known.
    #[n(5)]
    pub position: Option<Position>,
}

/// How a label sheet's numbers were read back.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct ReadBack {
    /// The fact.
    #[n(0)]
    pub fact: FactId,
    /// How.
    #[n(1)]
    pub how: ReadBackHow,
    /// By whom.
    #[n(2)]
    pub person: String,
}

/// A label sheet in a list.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct LabelView {
    /// The label sheet.
    #[n(0)]
    pub sheet: SheetId,
    /// Product.
    #[n(1)]
    pub product: String,
    /// Registration number.
    #[n(2)]
    pub registration: String,
    /// Fields that were filled differently at the same time.
    #[n(3)]
    pub conflicts: Vec<Conflict>,
    /// The reading back of exactly these numbers; none: it must not be used yet.
    #[n(4)]
    pub read_back: Option<ReadBack>,
    /// Hash over the numbers that have to be read back.
    #[n(5)]
    pub numbers: Hash,
}

/// A reading back with the numbers it was of.
pub(crate) struct ReadBackTold {
    pub(crate) numbers: Hash,
    pub(crate) read_back: ReadBack,
}

pub(crate) fn yard_of(yard: SheetId, sheet: &SheetDoc) -> YardView {
    let read = YardSheet::read(sheet);
    let conflicts = schema::fields(SheetKind::Yard)
        .iter()
        .filter_map(|field| {
            let versions = sheet.get(field.key).filter(|v| !v.others.is_empty())?;
            Some(Conflict {
                field: field.key.to_owned(),
                values: versions
                    .all()
                    .filter_map(|v| v.text().map(str::to_owned))
                    .collect(),
                acted_on: versions.value.text().map(str::to_owned),
            })
        })
        .collect();
    YardView {
        yard,
        name: read.name,
        address: read.address,
        zone: read.zone.map(|z| z.name().to_owned()).unwrap_or_default(),
        conflicts,
        position: read.position,
    }
}

pub(crate) fn label_of(sheet: SheetId, doc: &SheetDoc, told: Vec<ReadBackTold>) -> LabelView {
    // A sheet without its method cannot be used, and so cannot have been read back either.
    let (numbers, conflicts) = LabelSheet::read(doc).map_or_else(
        |_| (Hash::NONE, Vec::new()),
        |read| (read.numbers, read.conflicts),
    );
    LabelView {
        sheet,
        product: doc.text("product"),
        registration: doc.text("registration"),
        read_back: told
            .into_iter()
            .filter(|t| numbers != Hash::NONE && t.numbers == numbers)
            .map(|t| t.read_back)
            .next_back(),
        conflicts,
        numbers,
    }
}
