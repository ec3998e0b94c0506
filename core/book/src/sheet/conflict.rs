//! Fields that two people filled differently without seeing each other.
//!
//! Which value is acted on is decided by the table of fields; here is what a person is shown.

use serde::Serialize;

use super::doc::SheetDoc;
use super::reading::Reading;
use super::{LabelSheet, SheetKind, schema};
use crate::ids::ItemId;

/// A field that two people filled differently without seeing each other.
#[derive(Debug, Clone, PartialEq, Eq, minicbor::Encode, minicbor::Decode, Serialize)]
pub struct Conflict {
    /// The field.
    #[n(0)]
    pub field: String,
    /// All values, the one acted on first where there is one.
    #[n(1)]
    pub values: Vec<String>,
    /// The value acted on; none: not known until a person settles it.
    #[n(2)]
    pub acted_on: Option<String>,
}

/// A conflict with its place in the sheet.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SheetConflict {
    /// The list and the item; none for a field of the sheet itself.
    pub item: Option<(String, ItemId)>,
    /// The field and its values.
    pub conflict: Conflict,
}

/// Every conflict in a sheet, in the order of the table of fields. Outlines are not among them:
/// they are drawn, and stand in [`super::Section::other_outlines`].
pub(crate) fn conflicts_in(kind: SheetKind, sheet: &SheetDoc) -> Vec<SheetConflict> {
    let own = match kind {
        // A label sheet's fields bear on one another, so that it decides itself.
        SheetKind::Label => LabelSheet::read(sheet).ok().map(|read| read.conflicts),
        _ => None,
    };
    let mut own = own.unwrap_or_default();
    for conflict in Reading::of(kind, sheet).conflicts() {
        if !own.iter().any(|c| c.field == conflict.field) {
            own.push(conflict);
        }
    }
    let mut all: Vec<SheetConflict> = own
        .into_iter()
        .map(|conflict| SheetConflict {
            item: None,
            conflict,
        })
        .collect();
    for list in schema::lists(kind) {
        for item in sheet.items(list.key) {
            let found = Reading::of_item(kind, list.key, &item).conflicts();
            all.extend(found.into_iter().map(|conflict| SheetConflict {
                item: Some((list.key.to_owned(), item.id)),
                conflict,
            }));
        }
    }
    all
}
