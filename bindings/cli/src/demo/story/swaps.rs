//! The evening's swap: locked files from hand to hand, in an awkward order, one of them twice;
//! then what every phone holds, and what is written down.

use super::evening::keep_off_on;
use super::{Day, FRONT, SIDE, YARD_1, must, until_words};
use crate::demo::answer::{list, number, text};
use crate::demo::phone::{Phone, step};
use crate::error::Result;

/// Made earlier, right after the treatment.
const EARLIER: &str = "2-treated.sward";
/// What each made when it thought that it was done for the day.
const BY_FERN: &str = "3-fern.sward";
const BY_MOSS: &str = "4-moss.sward";
const BY_IVY: &str = "5-ivy.sward";

impl Day<'_> {
    pub(super) fn swap(&self) -> Result<()> {
        self.teller.chapter(
            "21:00",
            "The evening's swap: locked files, in no good order",
        )?;
        self.lock()?;
        self.take_in_no_good_order()?;
        self.keep_offs_merged()?;
        self.notes_merged()?;
        self.written_down()
    }

    fn lock(&self) -> Result<()> {
        for (phone, clock, file) in [
            (self.fern, "12:30", BY_FERN),
            (self.moss, "19:20", BY_MOSS),
            (self.ivy, "20:20", BY_IVY),
        ] {
            phone
                .at(clock)
                .does(step!["swap", "make", self.files.named(file)])?;
        }
        Ok(())
    }

    fn take_in_no_good_order(&self) -> Result<()> {
        let to_fern = [
            self.take(self.fern, "21:00", BY_IVY)?,
            self.take(self.fern, "21:01", EARLIER)?,
            self.take(self.fern, "21:02", BY_MOSS)?,
            self.take(self.fern, "21:03", BY_IVY)?,
        ];
        let to_ivy = [
            self.take(self.ivy, "21:04", BY_FERN)?,
            self.take(self.ivy, "21:05", BY_MOSS)?,
        ];
        let to_moss = [
            self.take(self.moss, "21:06", BY_IVY)?,
            self.take(self.moss, "21:07", BY_FERN)?,
        ];
        self.teller.step("3", &format!(
            "takes 1's last file, then 1's earlier one, 2's, and 1's last again: {} new entries.",
            joined(&to_fern),
        ))?;
        self.teller.step(
            "1, 2",
            &format!(
                "Phone 1 takes 3's and 2's: {}. Phone 2 takes 1's and 3's: {}.",
                joined(&to_ivy),
                joined(&to_moss),
            ),
        )
    }

    fn take(&self, phone: &Phone, clock: &'static str, file: &str) -> Result<f64> {
        let taken = phone
            .at(clock)
            .does(step!["swap", "take", self.files.named(file)])?;
        number(&taken, "/files/0/new")
    }

    fn keep_offs_merged(&self) -> Result<()> {
        let keep_offs = self.fern.at("21:15").does(step!["keep-offs", "--all"])?;
        let [front, side] = [
            keep_off_on(&keep_offs, FRONT)?,
            keep_off_on(&keep_offs, SIDE)?,
        ];
        must(
            front["keeps_off"] == false && side["keeps_off"] == true,
            "the front lawn is over",
        )?;
        self.teller.step(
            "all",
            &format!(
                "The front lawn is free, {}. Side strip: keep off {}. The longer claim holds.",
                until_words(front)?,
                until_words(side)?,
            ),
        )
    }

    fn notes_merged(&self) -> Result<()> {
        let yards = self.fern.does(step!["yard", "list"])?;
        let mut notes: Vec<&str> = Vec::new();
        for yard in list(&yards, "/yards")?
            .iter()
            .filter(|yard| yard["name"] == YARD_1)
        {
            notes.extend(
                list(yard, "/conflicts/0/values")?
                    .iter()
                    .filter_map(|note| note.as_str()),
            );
        }
        // Which of the two is shown hangs on the phones' keys, which are new on each run.
        notes.sort_unstable();
        must(notes.len() == 2, "both notes are kept")?;
        self.teller.step("all", &format!(
            "Yard 1's note is to settle, \"{}\" or \"{}\"; all show the same one. Every count is there.",
            notes[0], notes[1],
        ))
    }

    fn written_down(&self) -> Result<()> {
        let told = self.fern.does(step!["records", "list"])?;
        let records = list(&told, "/records")?;
        must(records.len() == 2, "there are two records")?;
        let (treated, left) = (&records[0], &records[1]);
        self.teller.step("all", &format!(
            "Two records, for customer and inspector: {}, {} of {} by {}, with area, times, wind and every check; \
{}, not treated, and why.",
            text(treated, "/yard_name")?,
            text(treated, "/treatment/product_total/entered")?,
            text(treated, "/treatment/product")?,


            text(treated, "/applicator/name")?,
            text(left, "/yard_name")?,
        ))
    }
}

fn joined(numbers: &[f64]) -> String {
    let numbers: Vec<String> = numbers.iter().map(ToString::to_string).collect();
    numbers.join(", ")
}
