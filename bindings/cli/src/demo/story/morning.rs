//! Before the first yard: a crew of three phones, and a label copied and read back.

use std::ffi::OsString;

use super::{Day, FERN, IVY, MOSS, PRODUCT, YARD_1, YARD_2};
use crate::demo::answer::text;
use crate::demo::phone::{Phone, step};
use crate::error::Result;

/// The label in hand, field by field. It says nothing of a repeat, and nobody asked yet: that
/// field stays empty.
const LABEL: [(&str, &str); 11] = [
    ("rate_least", "nothing"),
    ("rate_most", "2.5 lb/1000 ft2"),
    ("carrier_least", "nothing"),
    ("wind_most", "10 mph"),
    ("rain_free", "24 h"),
    ("temperature_least", "nothing"),
    ("temperature_most", "nothing"),
    ("keep_off_until_dry", "yes"),
    ("keep_off_wait", "2 h"),
    ("watering_in", "withheld 24 h"),
    ("registration", REGISTRATION),
];
const REGISTRATION: &str = "EPA Reg. No. 00000-000-DEMO";
/// What Ivy's thumb made of the rate.
const SLIP: &str = "25 lb/1000 ft2";

impl Day<'_> {
    pub(super) fn crew_and_label(&self) -> Result<()> {
        self.teller.chapter("08:00", "A crew of three phones, without any network")?;
        self.found()?;
        self.join()?;
        self.teller.chapter("08:15", "What does the label in hand say?")?;
        self.copy_the_label()?;
        self.read_it_back()?;
        self.hand_out()
    }

    fn found(&self) -> Result<()> {
        let founded = self.ivy.at("08:00").does(step![
            "found", "--practice", "--crew", "Practice Lawn Crew of Nowhere Falls", "--name", IVY,
            "--licence", "DEMO-1",
        ])?;
        self.teller.step(&format!(
            "Phone 1, {IVY}, founds it. Recovery code, shown once, for paper kept where no phone is:"
        ))?;
        self.teller.step(text(&founded, "/recovery_code")?)
    }

    fn join(&self) -> Result<()> {
        for (phone, name, licence, file) in [
            (self.moss, MOSS, "DEMO-2", "moss.request"),
            (self.fern, FERN, "DEMO-3", "fern.request"),
        ] {
            let request = self.files.named(file);
            let asked = phone.at("08:05").does(step![
                "ask", &request, "--practice", "--name", name, "--licence", licence,
            ])?;
            let admitted = self.ivy.at("08:06").does(step!["admit", &request])?;
            same_digits(text(&asked, "/check_digits")?, text(&admitted, "/check_digits")?)?;
        }
        self.teller.step(&format!(
            "Phones 2 and 3, {MOSS} and {FERN}, each hand over a request file; both people compare \
             20 digits, and {IVY} admits them.",
        ))
    }

    fn copy_the_label(&self) -> Result<()> {
        let product = format!("product={PRODUCT}");
        let mut step: Vec<OsString> = ["label", "new", "--field", &product, "--field", "method=granule"]
            .map(OsString::from)
            .to_vec();
        step.extend(["--ingredient", "bifenthrin=0.2 %"].map(OsString::from));
        add_fields(&mut step, LABEL.map(|(key, value)| (key, if key == "rate_most" { SLIP } else { value })));
        self.ivy.at("08:15").does(&step)?;
        self.teller.step(&format!(
            "{PRODUCT} ({REGISTRATION}; invented, like everything here), bifenthrin 0.2 %: at most \
             2.5 lb/1000 ft², wind to 10 mph, dry for 24 h, people and pets off until dry and for 2 h."
        ))
    }

    fn read_it_back(&self) -> Result<()> {
        let mut step: Vec<OsString> =
            ["label", "read-back", PRODUCT, "--second-person", MOSS].map(OsString::from).to_vec();
        add_fields(&mut step, LABEL.into_iter().filter(|(key, _)| *key != "registration"));
        let why = self.ivy.at("08:20").is_refused(&step)?;
        self.ivy.at("08:22").does(step![
            "label", "set", PRODUCT, format!("rate_most={}", "2.5 lb/1000 ft2"),
        ])?;
        self.ivy.at("08:24").does(&step)?;
        self.teller.step(&format!(
            "Moss reads the numbers back from the label, and the sheet is refused: {why}. One decimal \
             point, ten times too much. Set right and read back again, it agrees.",
        ))
    }

    fn hand_out(&self) -> Result<()> {
        for (yard, address) in [
            (YARD_1, "12 Pretend Street, Nowhere Falls 00000"),
            (YARD_2, "7 Make-Believe Lane, Nowhere Falls 00000"),
        ] {
            self.ivy.at("08:26").does(step![
                "yard", "add", yard, "--address", address, "--zone", "America/New_York",
            ])?;
        }
        let visit = step!["visit", "open", YARD_1, "--target", super::PEST];
        self.ivy.at("08:28").does(visit)?;
        let file = self.files.named("1-morning.sward");
        self.ivy.at("08:30").does(step!["swap", "make", &file])?;
        for phone in [self.moss, self.fern] {
            phone.at("08:32").does(step!["swap", "take", &file])?;
        }
        self.teller.step(
            "A locked file, which only the crew's phones can open, brings all of it to the others. \
             From here on each phone is alone.",
        )
    }
}
