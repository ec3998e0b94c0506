//! Yards and their sections.

use sward_rules::measure::Outline;

use crate::ids::{ItemId, SheetId};
use crate::refusal::FieldRefusal;
use crate::sheet::{FieldValue, SheetKind, outline_value, schema};
use crate::{Book, BookError, Result, Thing};

const YARD: SheetKind = SheetKind::Yard;

impl Book {
    /// Adds a yard.
    ///
    /// # Errors
    /// [`BookError::Refused`] for a missing name or an unknown time zone.
    pub fn add_yard(&mut self, name: &str, address: &str, zone: &str) -> Result<SheetId> {
        if name.trim().is_empty() {
            return Err(BookError::refused(FieldRefusal::YardNameMissing));
        }
        self.write(|w| {
            let yard = w.new_sheet(YARD)?;
            for (key, text) in [("name", name), ("address", address), ("zone", zone)] {
                w.set(yard, YARD, key, text)?;
            }
            Ok(yard)
        })
    }

    /// Writes one field of a yard; empty text empties it.
    ///
    /// # Errors
    /// [`BookError::NotFound`] for an unknown yard or field; what does not fit is refused.
    pub fn set_yard(&mut self, yard: SheetId, key: &str, typed: &str) -> Result<()> {
        self.write(|w| w.set(yard, YARD, key, typed))
    }

    /// Adds a section with its outline, if that has an area.
    ///
    /// # Errors
    /// [`BookError::Rule`] for an outline that cannot be, [`BookError::Refused`] without a name,
    /// [`BookError::NotFound`].
    pub fn add_section(&mut self, yard: SheetId, name: &str, outline: &Outline) -> Result<ItemId> {
        if name.trim().is_empty() {
            return Err(BookError::refused(FieldRefusal::SectionNameMissing));
        }
        outline.area()?;
        self.write(|w| {
            let section = w.new_item();
            w.set_item((yard, YARD), "sections", section, "name", name)?;
            let value = outline_value(outline);
            w.set_item_value((yard, YARD), "sections", section, "outline", &value)?;
            Ok(section)
        })
    }

    /// Measures a section anew.
    ///
    /// # Errors
    /// As [`Book::add_section`].
    pub fn set_outline(&mut self, yard: SheetId, section: ItemId, outline: &Outline) -> Result<()> {
        outline.area()?;
        self.must_have_section(yard, section)?;
        let value = outline_value(outline);
        self.write(|w| w.set_item_value((yard, YARD), "sections", section, "outline", &value))
    }

    /// Hides a section from new visits, or shows it again. Its keep-offs stay as they are.
    ///
    /// # Errors
    /// [`BookError::NotFound`].
    pub fn hide_section(&mut self, yard: SheetId, section: ItemId, hidden: bool) -> Result<()> {
        self.must_have_section(yard, section)?;
        let value = FieldValue::from(if hidden { schema::YES } else { schema::NO });
        self.write(|w| w.set_item_value((yard, YARD), "sections", section, schema::HIDDEN, &value))
    }

    fn must_have_section(&self, yard: SheetId, section: ItemId) -> Result<()> {
        if self
            .yard_sheet(yard)?
            .sections
            .iter()
            .any(|s| s.id == section)
        {
            Ok(())
        } else {
            Err(BookError::NotFound {
                what: Thing::Section,
                name: section.to_string(),
            })
        }
    }
}
