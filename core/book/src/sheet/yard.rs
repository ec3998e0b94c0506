//! A yard sheet: the place, and the sections of its lawn.

use chrono_tz::Tz;
use sward_rules::measure::Outline;

use super::doc::SheetDoc;
use super::value;
use crate::ids::ItemId;

/// A section of a yard's lawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// Its name in the sheet.
    pub id: ItemId,
    /// What people call it.
    pub name: String,
    /// Its outline, as entered; none while it is not measured.
    pub outline: Option<Outline>,
    /// Other outlines, drawn at the same time on other phones.
    pub other_outlines: Vec<Outline>,
    /// Whether it is hidden from new visits.
    pub hidden: bool,
}

/// What a yard sheet says.
#[derive(Debug, Clone, PartialEq)]
pub struct YardSheet {
    /// What people call the yard.
    pub name: String,
    /// Postal address.
    pub address: String,
    /// The yard's time zone; none while it is not set.
    pub zone: Option<Tz>,
    /// Who lives there: people, children, pets.
    pub people: String,
    /// Anything else.
    pub note: String,
    /// Sections, in the order they were made.
    pub sections: Vec<Section>,
}

impl YardSheet {
    /// Reads the sheet. What cannot be read is shown as not there.
    pub fn read(sheet: &SheetDoc) -> Self {
        Self {
            name: sheet.text("name"),
            address: sheet.text("address"),
            zone: sheet.text("zone").parse().ok(),
            people: sheet.text("people"),
            note: sheet.text("note"),
            sections: sheet
                .items("sections")
                .iter()
                .map(|item| {
                    let mut outlines = item
                        .get("outline")
                        .iter()
                        .flat_map(|v| v.all().map(value::outline_of).collect::<Vec<_>>())
                        .filter_map(Result::ok)
                        .collect::<Vec<_>>()
                        .into_iter();
                    Section {
                        id: item.id,
                        name: item.text("name"),
                        outline: outlines.next(),
                        other_outlines: outlines.collect(),
                        hidden: item.is_hidden(),
                    }
                })
                .collect(),
        }
    }
}
