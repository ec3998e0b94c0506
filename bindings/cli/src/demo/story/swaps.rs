//! The evening's swap: locked files from hand to hand, in an awkward order, one of them twice;
//! then what every phone holds, and what is written down.

use super::evening::keep_off_on;
use super::{Day, must, until_words};
use crate::demo::answer::{list, number, text};
use crate::demo::phone::Phone;
use crate::error::Result;

/// Made right after the treatment.
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
        self.fern
            .at("12:30")
            .does(&format!("swap make {BY_FERN}"))?;
        self.moss
            .at("19:20")
            .does(&format!("swap make {BY_MOSS}"))?;
        self.ivy.at("20:20").does(&format!("swap make {BY_IVY}"))?;
        self.take_in_no_good_order()?;
        self.keep_offs_merged()?;
        self.notes_merged()?;
        self.written_down()
    }

    fn take_in_no_good_order(&self) -> Result<()> {
        let to_fern = [
            take(self.fern, "21:00", BY_IVY)?,
            take(self.fern, "21:01", EARLIER)?,
            take(self.fern, "21:02", BY_MOSS)?,
            take(self.fern, "21:03", BY_IVY)?,
        ];
        let to_ivy = [
            take(self.ivy, "21:04", BY_FERN)?,
            take(self.ivy, "21:05", BY_MOSS)?,
        ];
        let to_moss = [
            take(self.moss, "21:06", BY_IVY)?,
            take(self.moss, "21:07", BY_FERN)?,
        ];
        let told = format!(
            "takes 1's last file, then 1's earlier one, 2's, and 1's last again: {} new entries.",
            joined(&to_fern),
        );
        self.teller.step("3", &told)?;
        let told = format!(
            "Phone 1 takes 3's and 2's: {}. Phone 2 takes 1's and 3's: {}.",
            joined(&to_ivy),
            joined(&to_moss),
        );
        self.teller.step("1, 2", &told)
    }

    fn keep_offs_merged(&self) -> Result<()> {
        let keep_offs = self.fern.at("21:15").does("keep-offs --all")?;
        let front = keep_off_on(&keep_offs, "front lawn")?;
        let side = keep_off_on(&keep_offs, "side strip")?;
        must(front["keeps_off"] == false, "the front lawn is free")?;
        must(side["keeps_off"] == true, "the side strip is not")?;
        let told = format!(
            "The front lawn is free, {}. Side strip: keep off {}. The longer claim holds.",
            until_words(front)?,
            until_words(side)?,
        );
        self.teller.step("all", &told)
    }

    fn notes_merged(&self) -> Result<()> {
        let yards = self.fern.does("yard list")?;
        let mut notes: Vec<&str> = Vec::new();
        for yard in list(&yards, "/yards")?
            .iter()
            .filter(|y| y["name"] == "12 Pretend Street")
        {
            let values = list(yard, "/conflicts/0/values")?;
            notes.extend(values.iter().filter_map(|note| note.as_str()));
        }
        must(notes.len() == 2, "both notes are kept")?;
        // Which of the two is shown hangs on the phones' keys, which are new on each run.
        notes.sort_unstable();
        let told = format!(
            "Yard 1's note is to settle, \"{}\" or \"{}\"; all show the same one. Every count is \
             there.",
            notes[0], notes[1],
        );
        self.teller.step("all", &told)
    }

    fn written_down(&self) -> Result<()> {
        let told = self.fern.does("records list")?;
        let records = list(&told, "/records")?;
        must(records.len() == 2, "there are two records")?;
        let (treated, left) = (&records[0], &records[1]);
        let told = format!(
            "Two records, for customer and inspector: {}, {} of {} by {}, with area, times, wind \
             and every check; {}, not treated, and why.",
            text(treated, "/yard_name")?,
            text(treated, "/treatment/product_total/entered")?,
            text(treated, "/treatment/product")?,
            text(treated, "/applicator/name")?,
            text(left, "/yard_name")?,
        );
        self.teller.step("all", &told)
    }
}

/// Takes a locked file; gives back how many entries were new.
fn take(phone: &Phone, clock: &'static str, file: &str) -> Result<f64> {
    let taken = phone.at(clock).does(&format!("swap take {file}"))?;
    number(&taken, "/files/0/new")
}

fn joined(numbers: &[f64]) -> String {
    let numbers: Vec<String> = numbers.iter().map(ToString::to_string).collect();
    numbers.join(", ")
}
