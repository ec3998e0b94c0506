//! Label sheets: typing what the label in hand says, and reading its numbers back.

use sward_rules::quantity::{Dimension, Entered};

use super::words;
use crate::fact::{Fact, LabelReadBack, ReadBackHow};
use crate::ids::{ItemId, SheetId};
use crate::sheet::{FieldValue, SheetKind, check_text, schema, spoken};
use crate::{Book, BookError, Result};

const LABEL: SheetKind = SheetKind::Label;

impl Book {
    /// Adds a label sheet with what is typed so far; every field not given stays empty, which
    /// counts as not known.
    ///
    /// # Errors
    /// [`BookError::NotFound`] for an unknown field; [`BookError::Refused`] for what does not fit
    /// a field, and for a least rate above the most.
    pub fn add_label(&mut self, typed: &[(&str, &str)]) -> Result<SheetId> {
        if !typed
            .iter()
            .any(|(key, text)| *key == "product" && !text.trim().is_empty())
        {
            return Err(BookError::refused(
                "a label sheet needs the product's name as printed",
            ));
        }
        check_rates(|key| {
            typed
                .iter()
                .find(|(k, _)| *k == key)
                .map(|(_, t)| (*t).to_owned())
        })?;
        self.write(|w| {
            let sheet = w.new_sheet(LABEL)?;
            for (key, text) in typed {
                w.set(sheet, LABEL, key, text)?;
            }
            Ok(sheet)
        })
    }

    /// Writes one field of a label sheet. Its numbers have to be read back again after this.
    ///
    /// # Errors
    /// As [`Book::add_label`].
    pub fn set_label(&mut self, sheet: SheetId, key: &str, typed: &str) -> Result<()> {
        let now = self.sheet(sheet, LABEL)?;
        check_rates(|k| {
            Some(if k == key {
                typed.to_owned()
            } else {
                now.text(k)
            })
        })?;
        self.write(|w| w.set(sheet, LABEL, key, typed))
    }

    /// Adds an active ingredient with its content.
    ///
    /// # Errors
    /// [`BookError::NotFound`]; [`BookError::Refused`] for what does not fit.
    pub fn add_ingredient(&mut self, sheet: SheetId, name: &str, content: &str) -> Result<ItemId> {
        if name.trim().is_empty() {
            return Err(BookError::refused("an ingredient needs its generic name"));
        }
        self.write(|w| {
            let item = w.new_item();
            w.set_item((sheet, LABEL), "ingredients", item, "name", name)?;
            w.set_item((sheet, LABEL), "ingredients", item, "content", content)?;
            Ok(item)
        })
    }

    /// The fields of a label sheet that have to be read back, with what stands in them.
    ///
    /// # Errors
    /// [`BookError::NotFound`].
    pub fn to_read_back(&self, sheet: SheetId) -> Result<Vec<(&'static str, String)>> {
        let doc = self.sheet(sheet, LABEL)?;
        Ok(schema::fields(LABEL)
            .iter()
            .filter(|f| f.read_back)
            .map(|f| (f.key, doc.text(f.key)))
            .filter(|(_, text)| !text.is_empty())
            .collect())
    }

    /// Reads the numbers of a label sheet back: `typed` holds each as the second reading gave it.
    ///
    /// # Errors
    /// [`BookError::Refused`] naming every field that was left out or differs (look at the label,
    /// then correct whichever is wrong), when fields are still in doubt between two phones, or
    /// when the second person is the one who carries this device.
    pub fn read_back(
        &mut self,
        sheet: SheetId,
        typed: &[(&str, &str)],
        how: ReadBackHow,
        person: &str,
    ) -> Result<()> {
        let read = self.label_sheet(sheet)?;
        let person = words("person", person)?;
        let own = self
            .roster()
            .member(self.secret()?.stream())
            .and_then(|m| m.person.as_ref().map(|p| p.name.clone()));
        if how == ReadBackHow::SecondPerson && (person.is_empty() || Some(&person) == own.as_ref())
        {
            return Err(BookError::refused(
                "name the second person who read the label; alone, type the numbers a second time instead",
            ));
        }
        if let Some(conflict) = read
            .conflicts
            .iter()
            .find(|c| crate::sheet::must_be_settled(c))
        {
            return Err(BookError::refused(format!(
                "{}: two phones say {}: settle it with the label in hand first",
                spoken(&conflict.field),
                conflict.values.join(" and ")
            )));
        }
        let mut faults = Vec::new();
        for (key, stored) in self.to_read_back(sheet)? {
            let field = schema::field(LABEL, key).expect("it comes from the table");
            match typed.iter().find(|(k, _)| *k == key) {
                None => faults.push(format!("{} was not read back", spoken(key))),
                Some((_, text)) => {
                    let again = check_text(field, text)?;
                    if !same_reading(&stored, &again) {
                        faults.push(format!(
                            "{}: the sheet says {}, the second reading {}",
                            spoken(key),
                            as_written(&stored),
                            as_written(again.text().unwrap_or_default())
                        ));
                    }
                }
            }
        }
        for (key, text) in typed {
            let empty = self.sheet(sheet, LABEL)?.text(key).is_empty();
            if empty && !text.trim().is_empty() {
                faults.push(format!("{}: the sheet has it empty", spoken(key)));
            }
        }
        if !faults.is_empty() {
            return Err(BookError::refused(format!(
                "not agreed: {}",
                faults.join("; ")
            )));
        }
        self.write(|w| {
            w.fact(Fact::LabelReadBack(LabelReadBack {
                sheet,
                numbers: read.numbers,
                how,
                person,
            }));
            Ok(())
        })
    }
}

/// A stored value as a person writes it.
fn as_written(stored: &str) -> String {
    Entered::from_canonical(stored).map_or_else(|_| stored.to_owned(), |e| e.for_person())
}

/// Equal as read: the same words, or the same amount in the same unit ("2.50 lb" and "2.5 lb").
fn same_reading(stored: &str, again: &FieldValue) -> bool {
    let Some(again) = again.text() else {
        return false;
    };
    if stored == again {
        return true;
    }
    match (Entered::parse(stored), Entered::parse(again)) {
        (Ok(a), Ok(b)) => a.unit() == b.unit() && a.amount() == b.amount(),
        _ => false,
    }
}

fn check_rates(text: impl Fn(&str) -> Option<String>) -> Result<()> {
    let rate = |key: &str| {
        Entered::parse(&text(key).unwrap_or_default())
            .ok()
            .filter(|e| {
                matches!(
                    e.dimension(),
                    Dimension::MassPerArea | Dimension::VolumePerArea
                )
            })
    };
    let (Some(least), Some(most)) = (rate("rate_least"), rate("rate_most")) else {
        return Ok(());
    };
    match least.compare(&most) {
        Err(_) => Err(BookError::refused(
            "rate least and rate most: one is by weight, the other by volume; look at the label again",
        )),
        Ok(order) if order.is_gt() => Err(BookError::refused(format!(
            "rate least ({}) is above rate most ({}): look at the label again",
            least.for_person(),
            most.for_person()
        ))),
        Ok(_) => Ok(()),
    }
}
