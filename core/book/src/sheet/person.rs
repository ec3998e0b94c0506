//! A person's sheet: name, licence, how to reach them.
//!
//! Which device a person carries, and what it may do, are facts of the roster.

use chrono::NaiveDate;
use serde::Serialize;

use super::SheetKind;
use super::doc::SheetDoc;
use super::reading::Reading;
use super::schema::HIDDEN;

/// What a person's sheet says; none or empty where nothing readable stands.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PersonSheet {
    /// Name.
    pub name: String,
    /// Licence or certificate number.
    pub licence: String,
    /// The last day on which the licence holds; of two days the earlier.
    pub licence_until: Option<NaiveDate>,
    /// Telephone number.
    pub phone: String,
    /// Anything else.
    pub note: String,
    /// Whether it is hidden: someone who left.
    pub hidden: bool,
}

impl PersonSheet {
    /// Reads the sheet.
    pub fn read(sheet: &SheetDoc) -> Self {
        let r = Reading::of(SheetKind::Person, sheet);
        Self {
            name: r.text("name"),
            licence: r.text("licence"),
            licence_until: r.day("licence_until"),
            phone: r.text("phone"),
            note: r.text("note"),
            hidden: r.is_put_away(HIDDEN),
        }
    }
}
