//! Yard 2, on phone 2, and what phones 2 and 3 write meanwhile: nobody knows of the other.

use super::{Day, PEST, YARD_1, YARD_2, area_words, must};
use crate::demo::answer::{number, text};
use crate::demo::phone::step;
use crate::error::Result;

impl Day<'_> {
    pub(super) fn not_treated(&self) -> Result<()> {
        self.teller
            .chapter("10:00", "Meanwhile at yard 2: too few to treat")?;
        self.count_below()?;
        self.write_apart()
    }

    fn count_below(&self) -> Result<()> {
        let back = self.moss.at("10:00").does(step![
            "section",
            "add",
            YARD_2,
            "back lawn",
            "--rectangle",
            "80 ft x 45 ft",
            "--leave-out",
            "circle 12 ft",
        ])?;
        self.moss
            .at("10:05")
            .does(step!["visit", "open", YARD_2, "--target", PEST])?;
        let counted = self.moss.at("10:10").does(step![
            "count",
            YARD_2,
            "--pest",
            PEST,
            "--can",
            "6 in",
            "--counts",
            "1,0,2,0,1,0",
        ])?;
        must(
            text(&counted, "/decisions/0/decision")? == "leave",
            "leave it untreated",
        )?;
        self.moss.at("10:15").does(step![
            "not-treated",
            YARD_2,
            "--why",
            "below-threshold",
            "--look-again",
            "2026-07-07",
        ])?;
        self.teller.step("2", &format!(
            "By tape, 80 by 45 ft less a round bed: {}. {} in six cans: {}. Not treated, a full result: look again \
7 July.",
            area_words(&back)?,
            number(&counted, "/density/count")?,
            text(&counted, "/decisions/0/reason")?,
        ))
    }

    /// Two phones fill one field, and one adds a count to a visit that another opened.
    fn write_apart(&self) -> Result<()> {
        self.moss.at("12:00").does(step![
            "yard",
            "set",
            YARD_1,
            "note=Ring first: there is a dog.",
        ])?;
        self.fern.at("12:05").does(step![
            "yard",
            "set",
            YARD_1,
            "note=The gate sticks: lift it.",
        ])?;
        self.fern.at("12:10").does(step![
            "count", YARD_1, "--pest", PEST, "--can", "6 in", "--counts", "9,14",
        ])?;
        self.teller.step(
            "2, 3",
            "Unseen by each other, both change the note on yard 1; phone 3 also counts there.",
        )
    }
}
