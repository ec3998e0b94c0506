//! Whom to call when something went wrong: the crew's own list, each line with the day it was
//! read off its source. What a label says stands on its label sheet.

use chrono::NaiveDate;
use serde::Serialize;

use super::SheetKind;
use super::doc::SheetDoc;
use super::reading::Reading;
use crate::ids::{ItemId, SheetId};

choice! {
    /// Whom a help line reaches.
    HelpLineKind {
        /// A poison centre, for people.
        Poison = "poison",
        /// A vet or an animal poison centre.
        Vet = "vet",
        /// Help with a spill.
        Spill = "spill",
        /// The agency to report to.
        Agency = "agency",
        /// Ambulance, fire, police.
        Emergency = "emergency",
        /// The own office.
        Office = "office",
    }
}

/// One line.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct HelpLine {
    /// The sheet it stands in.
    pub sheet: SheetId,
    /// Its name in that sheet.
    pub id: ItemId,
    /// Whom it reaches; none for what a newer program wrote.
    pub kind: Option<HelpLineKind>,
    /// Who answers.
    pub name: String,
    /// Telephone number.
    pub phone: String,
    /// Other numbers, written at the same time on other phones: show them too.
    pub other_phones: Vec<String>,
    /// The day the number was read off its source; of two days the earlier.
    pub read_on: Option<NaiveDate>,
    /// Anything else.
    pub note: String,
    /// Whether it is hidden.
    pub hidden: bool,
}

/// The crew's help lines. Two phones that began the list at once made two sheets: all are read
/// as one.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct HelpLinesSheet {
    /// The lines, in the order they were made.
    pub lines: Vec<HelpLine>,
}

impl HelpLinesSheet {
    /// Reads all the sheets as one.
    pub fn read<'a>(sheets: impl IntoIterator<Item = (SheetId, &'a SheetDoc)>) -> Self {
        let mut lines: Vec<HelpLine> = sheets
            .into_iter()
            .flat_map(|(id, doc)| lines_of(id, doc))
            .collect();
        lines.sort_by_key(|line| (line.id, line.sheet));
        Self { lines }
    }
}

fn lines_of(sheet: SheetId, doc: &SheetDoc) -> Vec<HelpLine> {
    doc.items("lines")
        .iter()
        .map(|item| {
            let r = Reading::of_item(SheetKind::HelpLines, "lines", item);
            let others = item.get("phone").map(|v| v.others).unwrap_or_default();
            HelpLine {
                sheet,
                id: item.id,
                kind: HelpLineKind::of_word(&r.text("kind")),
                name: r.text("name"),
                phone: r.text("phone"),
                other_phones: others
                    .iter()
                    .filter_map(|v| v.text().map(str::to_owned))
                    .collect(),
                read_on: r.day("read_on"),
                note: r.text("note"),
                hidden: item.is_hidden(),
            }
        })
        .collect()
}
