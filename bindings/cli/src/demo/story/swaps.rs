//! The evening's swap: locked files from hand to hand, in an awkward order, one of them twice;
//! then what every phone holds, and what is written down.

use super::evening::keep_off_on;
use super::{Day, FRONT, SIDE, YARD_1, until_words};
use crate::demo::answer::{list, number, text};
use crate::demo::phone::{Phone, step};
use crate::error::{CliError, Result};

/// The files of the three, made when each thought it was done for the day.
const BY_FERN: &str = "3-fern.sward";
const BY_MOSS: &str = "4-moss.sward";
const BY_IVY: &str = "5-ivy.sward";

impl Day<'_> {
    pub(super) fn swap(&self) -> Result<()> {
        self.teller.chapter("21:00", "The evening's swap: locked files in no good order")?;
        self.lock()?;
        self.take_in_no_good_order()?;
        self.teller.chapter("21:15", "What every phone holds now")?;
        self.merged()?;
        self.written_down()
    }

    fn lock(&self) -> Result<()> {
        for (phone, clock, file) in [
            (self.fern, "12:30", BY_FERN), (self.moss, "19:20", BY_MOSS), (self.ivy, "20:20", BY_IVY),
        ] {
            phone.at(clock).does(step!["swap", "make", self.files.named(file)])?;
        }
        Ok(())
    }

    fn take_in_no_good_order(&self) -> Result<()> {
        let to_fern = [
            self.take(self.fern, "21:00", BY_MOSS)?,
            self.take(self.fern, "21:01", BY_IVY)?,
            self.take(self.fern, "21:02", BY_MOSS)?,
        ];
        let to_ivy = [self.take(self.ivy, "21:03", BY_FERN)?, self.take(self.ivy, "21:04", BY_MOSS)?];
        let to_moss = [self.take(self.moss, "21:05", BY_IVY)?, self.take(self.moss, "21:06", BY_FERN)?];
        self.teller.step(&format!(
            "Phone 3 takes phone 2's file, then the older one of phone 1, then phone 2's a second time: {} \
             new entries. Phone 1 takes 3's and 2's: {}. Phone 2 takes 1's and 3's: {}.",
            joined(&to_fern), joined(&to_ivy), joined(&to_moss),
        ))
    }

    fn take(&self, phone: &Phone, clock: &'static str, file: &str) -> Result<f64> {
        let taken = phone.at(clock).does(step!["swap", "take", self.files.named(file)])?;
        number(&taken, "/files/0/new")
    }

    fn merged(&self) -> Result<()> {
        let keep_offs = self.fern.at("21:15").does(step!["keep-offs", "--all"])?;
        self.teller.step(&format!(
            "Keep-offs: the front lawn is over, {}. The side strip keeps off {}: the longer of two \
             claims, and no merge ever ends one earlier.",
            until_words(keep_off_on(&keep_offs, FRONT)?)?,
            until_words(keep_off_on(&keep_offs, SIDE)?)?,
        ))?;
        let yards = self.fern.does(step!["yard", "list"])?;
        let mut notes: Vec<&str> = Vec::new();
        for yard in list(&yards, "/yards")?.iter().filter(|yard| yard["name"] == YARD_1) {
            for note in list(yard, "/conflicts/0/values")? {
                notes.extend(note.as_str());
            }
        }
        // Which of the two is shown hangs on the phones' keys, which are new on each run.
        notes.sort_unstable();
        if notes.len() != 2 {
            return Err(CliError::Refused(format!("the demo found {notes:?} as the yard's notes")));
        }
        self.teller.step(&format!(
            "The note on yard 1 has both texts, \"{}\" and \"{}\": one is shown, the same everywhere, the \
             other is kept for a person to settle. All counts are there.",
            notes[0], notes[1],
        ))
    }

    fn written_down(&self) -> Result<()> {
        let told = self.fern.does(step!["records", "list"])?;
        let records = list(&told, "/records")?;
        let [treated, left] = records else {
            return Err(CliError::Refused(format!("the demo found {} records", records.len())));
        };
        self.teller.step(&format!(
            "Written down: {} {}, {}, {} of {} ({}) by {}, with areas, times, wind, counts and every check. {} {}, \
             not treated. As CSV and JSON for whoever asks.",
            text(treated, "/date")?,
            text(treated, "/yard_name")?,
            text(treated, "/target")?,
            text(treated, "/treatment/product_total/entered")?,
            text(treated, "/treatment/product")?,
            text(treated, "/treatment/registration")?,
            text(treated, "/applicator/name")?,
            text(left, "/date")?,
            text(left, "/yard_name")?,
        ))
    }
}

fn joined(numbers: &[f64]) -> String {
    numbers.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")
}
