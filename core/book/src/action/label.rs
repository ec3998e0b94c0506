//! Label sheets: typing what the label in hand says, and reading its numbers back.

use std::cmp::Ordering;

use sward_rules::quantity::{Dimension, Entered};

use super::words;
use crate::fact::{Fact, LabelReadBack, ReadBackHow};
use crate::ids::{ItemId, SheetId};
use crate::refusal::{LabelRefusal, ReadBackFault, Typed};
use crate::sheet::{FieldValue, SheetKind, check_text, schema};
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
            return Err(BookError::refused(LabelRefusal::ProductMissing));
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
            return Err(BookError::refused(LabelRefusal::IngredientNameMissing));
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
        let person = words(Typed::Person, person)?;
        let own = self
            .roster()
            .member(self.secret()?.stream())
            .and_then(|m| m.person.as_ref().map(|p| p.name.clone()));
        if how == ReadBackHow::SecondPerson && (person.is_empty() || Some(&person) == own.as_ref())
        {
            return Err(BookError::refused(LabelRefusal::SecondPersonMissing));
        }
        if let Some(conflict) = read
            .conflicts
            .iter()
            .find(|c| crate::sheet::must_be_settled(c))
        {
            return Err(BookError::refused(LabelRefusal::FieldInDoubt {
                field: conflict.field.clone(),
                values: conflict.values.clone(),
            }));
        }
        let mut faults = Vec::new();
        for (key, stored) in self.to_read_back(sheet)? {
            let field = schema::field(LABEL, key).expect("it comes from the table");
            match typed.iter().find(|(k, _)| *k == key) {
                None => faults.push(ReadBackFault::LeftOut { field: key.into() }),
                Some((_, text)) => {
                    let again = check_text(field, text)?;
                    if !same_reading(&stored, &again) {
                        faults.push(ReadBackFault::Differs {
                            field: key.into(),
                            sheet: as_written(&stored),
                            second: as_written(again.text().unwrap_or_default()),
                        });
                    }
                }
            }
        }
        for (key, text) in typed {
            let empty = self.sheet(sheet, LABEL)?.text(key).is_empty();
            if empty && !text.trim().is_empty() {
                faults.push(ReadBackFault::EmptyOnSheet {
                    field: (*key).to_owned(),
                });
            }
        }
        if !faults.is_empty() {
            return Err(BookError::refused(LabelRefusal::ReadBackDiffers { faults }));
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

pub(super) fn check_rates(text: impl Fn(&str) -> Option<String>) -> Result<()> {
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
    let Some(most) = rate("rate_most") else {
        return Ok(());
    };
    let why = if let Some(least) = rate("rate_least")
        && !least.compare(&most).is_ok_and(Ordering::is_le)
    {
        match least.compare(&most) {
            Err(_) => LabelRefusal::RatesOfTwoKinds,
            Ok(_) => LabelRefusal::RatesUpsideDown {
                least: least.for_person(),
                most: most.for_person(),
            },
        }
    } else if let Some(season) = rate("season_most")
        && !most.compare(&season).is_ok_and(Ordering::is_le)
    {
        match most.compare(&season) {
            Err(_) => LabelRefusal::SeasonOfAnotherKind,
            Ok(_) => LabelRefusal::SeasonBelowRate {
                most: most.for_person(),
                season: season.for_person(),
            },
        }
    } else {
        return Ok(());
    };
    Err(BookError::refused(why))
}
