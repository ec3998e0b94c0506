//! Yard 2, on phone 2, and what phones 2 and 3 write meanwhile: nobody knows of the other.

use super::{Day, area_words, must};
use crate::demo::answer::{number, text};
use crate::error::Result;

impl Day<'_> {
    pub(super) fn not_treated(&self) -> Result<()> {
        self.teller
            .chapter("10:00", "Meanwhile at yard 2: too few to treat")?;
        self.count_below()?;
        self.write_apart()
    }

    fn count_below(&self) -> Result<()> {
        let back = self.moss.at("10:00").does(
            "section add 7 'back lawn' --rectangle '80 ft x 45 ft' --leave-out 'circle 12 ft'",
        )?;
        self.moss
            .at("10:05")
            .does("visit open 7 --target 'chinch bug'")?;
        let counted = self
            .moss
            .at("10:10")
            .does("count 7 --pest 'chinch bug' --can '6 in' --counts 1,0,2,0,1,0")?;
        must(
            text(&counted, "/decisions/0/decision")? == "leave",
            "there are too few",
        )?;
        self.moss
            .at("10:15")
            .does("not-treated 7 --why below-threshold --look-again 2026-07-07")?;
        let told = format!(
            "By tape, 80 by 45 ft less a round bed: {}. {} in six samples: {}. Not treated, a full \
             result: look again 7 July.",
            area_words(&back)?,
            number(&counted, "/density/count")?,
            text(&counted, "/decisions/0/in_english")?,
        );
        self.teller.step("2", &told)
    }

    /// Two phones fill one field, and one adds a count to a visit that another opened.
    fn write_apart(&self) -> Result<()> {
        self.moss
            .at("12:00")
            .does("yard set 12 'note=Ring first: there is a dog.'")?;
        self.fern
            .at("12:05")
            .does("yard set 12 'note=The gate sticks: lift it.'")?;
        self.fern
            .at("12:10")
            .does("count 12 --pest 'chinch bug' --can '6 in' --counts 9,14")?;
        self.teller.step(
            "2, 3",
            "Unseen by each other, both change the note on yard 1; phone 3 also counts there.",
        )
    }
}
