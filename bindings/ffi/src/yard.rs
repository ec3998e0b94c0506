//! Yards and their sections, as far as a start needs them. Walks, tapes and what is left out are
//! the screens' business.

use sward_rules::Field;
use sward_rules::measure::{Outline, Shape};

use crate::names::{entered, id};
use crate::{Result, Swardbook};

/// A yard.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct Yard {
    /// Its id.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// Its postal address.
    pub address: String,
    /// Its IANA time zone; empty while it is not set.
    pub zone: String,
}

/// A part of a yard's lawn.
#[derive(Debug, Clone, PartialEq, uniffi::Record)]
pub struct Section {
    /// Its id.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// Its area in square metres, less what is left out; none while it is not measured.
    pub area_m2: Option<f64>,
    /// Whether it is hidden from new visits. Its keep-offs are not.
    pub hidden: bool,
}

#[uniffi::export]
impl Swardbook {
    /// Adds a yard; its id.
    pub fn add_yard(&self, name: String, address: String, zone: String) -> Result<String> {
        self.with(|open| {
            open.books
                .writing(|book| Ok(book.add_yard(&name, &address, &zone)?.to_string()))
        })
    }

    /// Every yard.
    pub fn yards(&self) -> Result<Vec<Yard>> {
        self.with(|open| {
            open.books.reading(|book| {
                let yards = book.yards()?.into_iter();
                let yard = |yard: sward_book::view::sheets::YardView| Yard {
                    id: yard.yard.to_string(),
                    name: yard.name,
                    address: yard.address,
                    zone: yard.zone,
                };
                Ok(yards.map(yard).collect())
            })
        })
    }

    /// Adds a section with four right angles, its sides as measured by tape ("40 ft"); its id.
    pub fn add_rectangle(
        &self,
        yard: String,
        name: String,
        length: String,
        width: String,
    ) -> Result<String> {
        self.with(|open| {
            let outline = Outline {
                shape: Shape::Rectangle {
                    length: entered(&length, Field::Length)?,
                    width: entered(&width, Field::Width)?,
                },
                left_out: Vec::new(),
            };
            open.books
                .writing(|book| Ok(book.add_section(id(&yard)?, &name, &outline)?.to_string()))
        })
    }

    /// The sections of a yard.
    pub fn sections(&self, yard: String) -> Result<Vec<Section>> {
        self.with(|open| {
            open.books.reading(|book| {
                let sections = book.yard_sheet(id(&yard)?)?.sections.into_iter();
                let section = |section: sward_book::sheet::Section| {
                    let area = section.outline.as_ref().map(Outline::area).transpose()?;
                    Ok(Section {
                        id: section.id.to_string(),
                        name: section.name,
                        area_m2: area.map(|answer| answer.value.square_metres()),
                        hidden: section.hidden,
                    })
                };
                sections.map(section).collect()
            })
        })
    }
}
