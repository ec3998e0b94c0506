//! Before the first yard: a crew of three phones, and a label copied and read back.

use std::ffi::OsString;

use super::{Day, FERN, IVY, MOSS, PEST, PRODUCT, YARD_1, YARD_2, must};
use crate::demo::answer::text;
use crate::demo::phone::step;
use crate::error::Result;

/// What stands on the bag beside numbers.
const NAMES: [(&str, &str); 3] = [
    ("product", PRODUCT),
    ("registration", REGISTRATION),
    ("method", "granule"),
];
const REGISTRATION: &str = "EPA Reg. No. 00000-000-DEMO";
/// The numbers on it. What it says of a repeat is overlooked: that field stays empty.
const LABEL: [(&str, &str); 10] = [
    ("rate_least", "nothing"),
    (RATE, "2.5 lb/1000 ft2"),
    ("carrier_least", "nothing"),
    ("wind_most", "10 mph"),
    ("rain_free", "24 h"),
    ("temperature_least", "nothing"),
    ("temperature_most", "nothing"),
    ("keep_off_until_dry", "yes"),
    ("keep_off_wait", "2 h"),
    ("watering_in", "withheld 24 h"),
];
const RATE: &str = "rate_most";
/// What a thumb makes of it.
const SLIP: &str = "25 lb/1000 ft2";

impl Day<'_> {
    pub(super) fn crew_and_label(&self) -> Result<()> {
        self.teller
            .chapter("08:00", "A crew, without any network")?;
        self.found()?;
        self.join()?;
        self.teller
            .chapter("08:15", "What does the label in hand say?")?;
        self.copy_the_label()?;
        self.read_it_back()?;
        self.hand_out()
    }

    fn found(&self) -> Result<()> {
        let founded = self.ivy.at("08:00").does(step![
            "found",
            "--practice",
            "--crew",
            "Practice Lawn Crew of Nowhere Falls",
            "--name",
            IVY,
            "--licence",
            "DEMO-1",
        ])?;
        self.teller.step("1", &format!(
            "{IVY} founds it. The recovery code is shown once, for paper kept where no phone is:"
        ))?;
        self.teller.more(text(&founded, "/recovery_code")?)
    }

    fn join(&self) -> Result<()> {
        for (phone, name, licence, file) in [
            (self.moss, MOSS, "DEMO-2", "moss.request"),
            (self.fern, FERN, "DEMO-3", "fern.request"),
        ] {
            let request = self.files.named(file);
            let asked = phone.at("08:05").does(step![
                "ask",
                &request,
                "--practice",
                "--name",
                name,
                "--licence",
                licence,
            ])?;
            let admitted = self.ivy.at("08:06").does(step!["admit", &request])?;
            let digits = text(&asked, "/check_digits")?;
            must(
                digits == text(&admitted, "/check_digits")?,
                "both phones show the same digits",
            )?;
        }
        self.teller.step(
            "2, 3",
            &format!(
                "{MOSS} and {FERN} hand over request files; 20 digits agree; Ivy admits both."
            ),
        )
    }

    fn copy_the_label(&self) -> Result<()> {
        let slipped = LABEL.map(|(key, value)| (key, if key == RATE { SLIP } else { value }));
        let mut step = words(["label", "new", "--ingredient", "bifenthrin=0.2 %"]);
        step.extend(fields(NAMES));
        step.extend(fields(slipped));
        self.ivy.at("08:15").does(&step)?;
        self.teller.step("1", &format!(
            "Ivy copies the bag: {PRODUCT}, {REGISTRATION}, bifenthrin 0.2 %, at most 2.5 lb/1000 ft², wind to \
10 mph, no rain for 24 h, people and pets off until dry and for 2 h.",
        ))
    }

    fn read_it_back(&self) -> Result<()> {
        let mut step = words(["label", "read-back", PRODUCT, "--second-person", MOSS]);
        step.extend(fields(LABEL));
        let why = self.ivy.at("08:20").is_refused(&step)?;
        let right = LABEL.iter().filter(|(key, _)| *key == RATE);
        let right = right.map(|(key, value)| OsString::from(format!("{key}={value}")));
        let mut set_right = words(["label", "set", PRODUCT]);
        set_right.extend(right);
        self.ivy.at("08:22").does(&set_right)?;
        self.ivy.at("08:24").does(&step)?;
        self.teller.step("1", &format!(
            "Moss reads it back: \"{why}\". A slip of the decimal point, ten times too much; set right and agreed.",
        ))
    }

    fn hand_out(&self) -> Result<()> {
        for (yard, address) in [
            (YARD_1, "12 Pretend Street, Nowhere Falls 00000"),
            (YARD_2, "7 Make-Believe Lane, Nowhere Falls 00000"),
        ] {
            self.ivy.at("08:26").does(step![
                "yard",
                "add",
                yard,
                "--address",
                address,
                "--zone",
                "America/New_York",
            ])?;
        }
        self.ivy
            .at("08:28")
            .does(step!["visit", "open", YARD_1, "--target", PEST])?;
        let file = self.files.named("1-morning.sward");
        self.ivy.at("08:30").does(step!["swap", "make", &file])?;
        for phone in [self.moss, self.fern] {
            phone.at("08:32").does(step!["swap", "take", &file])?;
        }
        self.teller.step(
            "2, 3",
            "A locked file, which only the crew's phones can open, brings it. Now each is alone.",
        )
    }
}

fn words<const N: usize>(words: [&str; N]) -> Vec<OsString> {
    words.map(OsString::from).to_vec()
}

/// Fields of a label sheet, as they are given on the command line.
fn fields<const N: usize>(fields: [(&str, &str); N]) -> impl Iterator<Item = OsString> {
    let flag = |(key, value)| ["--field".into(), format!("{key}={value}").into()];
    fields.map(flag).into_iter().flatten()
}
