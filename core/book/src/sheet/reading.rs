//! Reading the fields of a sheet or of an item, typed, each to its safer side.
//!
//! What cannot be read, or is in doubt between two phones, is not there. What the fields mean
//! stands in each sheet's own file.

use chrono::NaiveDate;
use sward_rules::Entered;

use super::doc::{FieldValue, Item, SheetDoc, Versions};
use super::schema::{self, Field, NO, YES};
use super::{Conflict, Offset, Position, SheetKind, value};

enum Source<'a> {
    Sheet(&'a SheetDoc),
    Item(&'a Item<'a>),
}

/// The fields of one sheet or item.
pub(super) struct Reading<'a> {
    fields: &'static [Field],
    source: Source<'a>,
}

impl<'a> Reading<'a> {
    pub(super) fn of(kind: SheetKind, sheet: &'a SheetDoc) -> Self {
        Self {
            fields: schema::fields(kind),
            source: Source::Sheet(sheet),
        }
    }

    pub(super) fn of_item(kind: SheetKind, list: &str, item: &'a Item<'a>) -> Self {
        Self {
            fields: schema::list(kind, list)
                .expect("every list read is in the table")
                .fields,
            source: Source::Item(item),
        }
    }

    fn versions(&self, key: &str) -> Option<Versions> {
        match self.source {
            Source::Sheet(sheet) => sheet.get(key),
            Source::Item(item) => item.get(key),
        }
    }

    /// The text to act on; empty where there is none or it is in doubt.
    pub(super) fn text(&self, key: &str) -> String {
        let field = self
            .fields
            .iter()
            .find(|f| f.key == key)
            .expect("every key read is in the table");
        self.versions(key)
            .and_then(|versions| value::safer(field, &versions).map(str::to_owned))
            .unwrap_or_default()
    }

    pub(super) fn number(&self, key: &str) -> Option<Entered> {
        Entered::parse(&self.text(key)).ok()
    }

    pub(super) fn offset(&self, key: &'static str) -> Option<Offset> {
        Offset::parse(key, &self.text(key)).ok()
    }

    pub(super) fn position(&self, key: &str) -> Option<Position> {
        Position::parse(&self.text(key))
    }

    pub(super) fn degrees(&self, key: &str) -> Option<f64> {
        value::degrees_of(&self.text(key))
    }

    pub(super) fn day(&self, key: &str) -> Option<NaiveDate> {
        value::day_of(&self.text(key))
    }

    pub(super) fn yes_no(&self, key: &str) -> Option<bool> {
        match self.text(key).as_str() {
            YES => Some(true),
            NO => Some(false),
            _ => None,
        }
    }

    /// Whether it is put away: every value says yes. When one put it away while another brought
    /// it back, it is shown.
    pub(super) fn is_put_away(&self, key: &str) -> bool {
        self.versions(key)
            .is_some_and(|v| v.all().all(|value| value.text() == Some(YES)))
    }

    pub(super) fn conflicts(&self) -> Vec<Conflict> {
        self.fields
            .iter()
            .filter_map(|field| {
                let versions = self.versions(field.key)?;
                let mut values: Vec<String> = versions
                    .all()
                    .filter_map(FieldValue::text)
                    .map(str::to_owned)
                    .collect();
                if values.len() < 2 {
                    return None;
                }
                let acted_on = value::safer(field, &versions).map(str::to_owned);
                values.sort_by_key(|value| Some(value) != acted_on.as_ref());
                Some(Conflict {
                    field: field.key.to_owned(),
                    values,
                    acted_on,
                })
            })
            .collect()
    }
}
