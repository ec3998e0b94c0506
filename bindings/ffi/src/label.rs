//! Label sheets: what a person copied from the label in hand, and reading it back.

use sward_book::fact::ReadBackHow;

use crate::names::id;
use crate::{Result, Swardbook};

/// A field with what was typed into it.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct Typed {
    /// The field's key, like "wind_most".
    pub field: String,
    /// What was typed, with its unit where it has one: "10 mph".
    pub text: String,
}

/// A label sheet.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct Label {
    /// Its id.
    pub id: String,
    /// The product.
    pub product: String,
    /// Its registration number.
    pub registration: String,
    /// Whether its numbers were read back: until then no start is made on it.
    pub read_back: bool,
}

#[uniffi::export]
impl Swardbook {
    /// Adds a label sheet with what is typed so far; a field that is left out counts as not
    /// known. Its id.
    pub fn add_label(&self, typed: Vec<Typed>) -> Result<String> {
        self.with(|open| {
            open.books
                .writing(|book| Ok(book.add_label(&pairs(&typed))?.to_string()))
        })
    }

    /// Every label sheet.
    pub fn labels(&self) -> Result<Vec<Label>> {
        self.with(|open| {
            open.books.reading(|book| {
                let labels = book.labels()?.into_iter();
                let label = |label: sward_book::view::sheets::LabelView| Label {
                    id: label.sheet.to_string(),
                    product: label.product,
                    registration: label.registration,
                    read_back: label.read_back.is_some(),
                };
                Ok(labels.map(label).collect())
            })
        })
    }

    /// The fields that have to be read back, with what stands in them. Whoever reads back reads
    /// the label, not this.
    pub fn to_read_back(&self, label: String) -> Result<Vec<Typed>> {
        self.with(|open| {
            open.books.reading(|book| {
                let fields = book.to_read_back(id(&label)?)?.into_iter();
                let typed = |(field, text): (&str, String)| Typed {
                    field: field.to_owned(),
                    text,
                };
                Ok(fields.map(typed).collect())
            })
        })
    }

    /// Reads the numbers of a label sheet back: by a second person who is named, else typed twice
    /// by the one who carries this device. `Refused` names every field that differs.
    pub fn read_back(
        &self,
        label: String,
        typed: Vec<Typed>,
        second_person: Option<String>,
    ) -> Result<()> {
        self.with(|open| {
            let how = match second_person {
                Some(_) => ReadBackHow::SecondPerson,
                None => ReadBackHow::TypedTwice,
            };
            let person = second_person.unwrap_or_default();
            open.books
                .writing(|book| Ok(book.read_back(id(&label)?, &pairs(&typed), how, &person)?))
        })
    }
}

fn pairs(typed: &[Typed]) -> Vec<(&str, &str)> {
    let typed = typed.iter();
    typed.map(|t| (t.field.as_str(), t.text.as_str())).collect()
}
