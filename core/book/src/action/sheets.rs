//! Sheets of any kind: making one, writing several fields as one entry, and the items of lists.
//!
//! What may stand in a field is the table's matter ([`crate::sheet::schema`]).

use super::label::check_rates;
use crate::ids::{ItemId, SheetId};
use crate::refusal::{FieldRefusal, LabelRefusal, Refusal};
use crate::sheet::schema::{self, FieldKind, HIDDEN, NO, YES};
use crate::sheet::{FieldValue, SheetDoc, SheetKind};
use crate::{Book, BookError, Result, Thing};

/// Fields by key, each as a person typed it.
type Typed<'a> = &'a [(&'a str, &'a str)];

impl Book {
    /// Adds a sheet with what is typed so far, as one entry; every field not given stays empty,
    /// which counts as not known. A plan is made by [`Book::set_plan`], which knows its visit.
    ///
    /// # Errors
    /// [`BookError::NotFound`] for an unknown field; [`BookError::Refused`] for what does not fit
    /// a field, and while [`schema::required`] is empty: [`BookError::field`] names the field.
    pub fn add_sheet(&mut self, kind: SheetKind, typed: Typed<'_>) -> Result<SheetId> {
        if kind == SheetKind::Plan {
            return Err(BookError::refused(FieldRefusal::FieldMissing {
                field: "visit",
            }));
        }
        self.check_fields(kind, None, typed)?;
        self.write(|w| {
            let sheet = w.new_sheet(kind)?;
            for (key, text) in typed {
                w.set(sheet, kind, key, text)?;
            }
            Ok(sheet)
        })
    }

    /// Writes fields of a sheet as one entry: all of them, or none. Empty text empties a field;
    /// writing a field that two phones filled differently settles it.
    ///
    /// # Errors
    /// As [`Book::add_sheet`]; [`BookError::NotFound`] for an unknown sheet too.
    pub fn set_sheet(&mut self, sheet: SheetId, kind: SheetKind, typed: Typed<'_>) -> Result<()> {
        let now = self.sheet(sheet, kind)?;
        self.check_fields(kind, Some(&now), typed)?;
        self.write(|w| {
            for (key, text) in typed {
                w.set(sheet, kind, key, text)?;
            }
            Ok(())
        })
    }

    /// [`Book::set_sheet`] for a yard.
    ///
    /// # Errors
    /// As [`Book::set_sheet`].
    pub fn set_yard_fields(&mut self, yard: SheetId, typed: Typed<'_>) -> Result<()> {
        self.set_sheet(yard, SheetKind::Yard, typed)
    }

    /// [`Book::set_sheet`] for a label sheet. Its numbers have to be read back again when one of
    /// them changes.
    ///
    /// # Errors
    /// As [`Book::set_sheet`].
    pub fn set_label_fields(&mut self, label: SheetId, typed: Typed<'_>) -> Result<()> {
        self.set_sheet(label, SheetKind::Label, typed)
    }

    /// Adds an item to a list of a sheet, as one entry.
    ///
    /// # Errors
    /// [`BookError::NotFound`] for an unknown sheet, list or field; [`BookError::Refused`] for
    /// what does not fit a field, and while the list's required field is empty.
    pub fn add_item(
        &mut self,
        sheet: SheetId,
        kind: SheetKind,
        list: &str,
        typed: Typed<'_>,
    ) -> Result<ItemId> {
        self.sheet(sheet, kind)?;
        check_item(kind, list, None, typed)?;
        self.write(|w| {
            let item = w.new_item();
            for (key, text) in typed {
                w.set_item((sheet, kind), list, item, key, text)?;
            }
            Ok(item)
        })
    }

    /// Writes fields of an item of a list as one entry: all of them, or none.
    ///
    /// # Errors
    /// As [`Book::add_item`]; [`BookError::NotFound`] for an unknown item too.
    pub fn set_item(
        &mut self,
        sheet: SheetId,
        kind: SheetKind,
        list: &str,
        item: ItemId,
        typed: Typed<'_>,
    ) -> Result<()> {
        self.must_have_item(sheet, kind, list, item)?;
        check_item(kind, list, Some(item), typed)?;
        self.write(|w| {
            for (key, text) in typed {
                w.set_item((sheet, kind), list, item, key, text)?;
            }
            Ok(())
        })
    }

    /// Hides an item of a list, or shows it again; nothing is deleted.
    ///
    /// # Errors
    /// [`BookError::NotFound`].
    pub fn hide_item(
        &mut self,
        sheet: SheetId,
        kind: SheetKind,
        list: &str,
        item: ItemId,
        hidden: bool,
    ) -> Result<()> {
        self.must_have_item(sheet, kind, list, item)?;
        let value = FieldValue::from(if hidden { YES } else { NO });
        self.write(|w| w.set_item_value((sheet, kind), list, item, HIDDEN, &value))
    }

    /// Adds a line to the crew's help lines, beginning the list where there is none yet.
    ///
    /// # Errors
    /// As [`Book::add_item`].
    pub fn add_help_line(&mut self, typed: Typed<'_>) -> Result<(SheetId, ItemId)> {
        const KIND: SheetKind = SheetKind::HelpLines;
        check_item(KIND, "lines", None, typed)?;
        let first = self.first_sheet(KIND)?;
        self.write(|w| {
            let sheet = match first {
                Some(sheet) => sheet,
                None => w.new_sheet(KIND)?,
            };
            let item = w.new_item();
            for (key, text) in typed {
                w.set_item((sheet, KIND), "lines", item, key, text)?;
            }
            Ok((sheet, item))
        })
    }

    fn check_fields(
        &self,
        kind: SheetKind,
        now: Option<&SheetDoc>,
        typed: Typed<'_>,
    ) -> Result<()> {
        let text = |key: &str| {
            typed_for(typed, key).map_or_else(
                || now.map(|doc| doc.text(key)).unwrap_or_default(),
                str::to_owned,
            )
        };
        if let Some(field) = schema::required(kind)
            && is_missing(field, now.is_none(), typed)
        {
            return Err(BookError::Refused(match kind {
                SheetKind::Yard => FieldRefusal::YardNameMissing.into(),
                SheetKind::Label => LabelRefusal::ProductMissing.into(),
                _ => FieldRefusal::FieldMissing { field }.into(),
            }));
        }
        if kind == SheetKind::Label {
            check_rates(|key| Some(text(key)))?;
        }
        for (key, id) in typed.iter().filter(|(_, id)| !id.trim().is_empty()) {
            if let Some(field) = schema::field(kind, key)
                && let FieldKind::Id(of) = field.kind
                && !self.has_sheet(id, of)?
            {
                return Err(BookError::refused(FieldRefusal::FieldNamesNothing {
                    field: field.key,
                }));
            }
        }
        Ok(())
    }

    fn has_sheet(&self, id: &str, kind: SheetKind) -> Result<bool> {
        let Ok(id) = id.trim().parse() else {
            return Ok(false);
        };
        match self.sheet(id, kind) {
            Ok(_) => Ok(true),
            Err(BookError::NotFound { .. }) => Ok(false),
            Err(error) => Err(error),
        }
    }

    fn must_have_item(
        &self,
        sheet: SheetId,
        kind: SheetKind,
        list: &str,
        item: ItemId,
    ) -> Result<()> {
        let doc = self.sheet(sheet, kind)?;
        if doc.items(list).iter().any(|i| i.id == item) {
            Ok(())
        } else {
            Err(BookError::NotFound {
                what: Thing::ItemInSheet,
                name: item.to_string(),
            })
        }
    }
}

/// What is typed for a key; the last where it is typed twice, as it would be written.
fn typed_for<'a>(typed: Typed<'a>, key: &str) -> Option<&'a str> {
    typed
        .iter()
        .rev()
        .find(|(k, _)| *k == key)
        .map(|(_, text)| *text)
}

/// Whether a required field would stand empty: a new sheet has to fill it, an old one must not
/// empty it.
fn is_missing(field: &str, new: bool, typed: Typed<'_>) -> bool {
    typed_for(typed, field).map_or(new, |text| text.trim().is_empty())
}

fn check_item(kind: SheetKind, list: &str, item: Option<ItemId>, typed: Typed<'_>) -> Result<()> {
    let list = schema::list(kind, list).ok_or_else(|| BookError::NotFound {
        what: Thing::ListInSheet,
        name: list.to_owned(),
    })?;
    if !is_missing(list.required, item.is_none(), typed) {
        return Ok(());
    }
    let field = list.required;
    let why: Refusal = match list.key {
        "sections" => FieldRefusal::SectionNameMissing.into(),
        "ingredients" => LabelRefusal::IngredientNameMissing.into(),
        _ => FieldRefusal::FieldMissing { field }.into(),
    };
    Err(BookError::Refused(why))
}
