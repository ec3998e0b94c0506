//! Before the first yard: a crew of three phones, and a label copied and read back.

use super::{Day, must};
use crate::demo::answer::text;
use crate::error::Result;

/// The numbers on the bag, the rate aside. What it says of a repeat is overlooked: that field
/// stays empty.
const NUMBERS: &str = "--field rate_least=nothing --field carrier_least=nothing \
    --field 'wind_most=10 mph' --field 'rain_free=24 h' --field temperature_least=nothing \
    --field temperature_most=nothing --field keep_off_until_dry=yes --field 'keep_off_wait=2 h' \
    --field 'watering_in=withheld 24 h'";

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
        let founded = self.ivy.at("08:00").does(
            "found --practice --crew 'Practice Crew of Nowhere Falls' --name 'Ivy Example' \
             --licence DEMO-1",
        )?;
        self.teller.step(
            "1",
            "Ivy Example founds it. The recovery code is shown once, for paper kept where no phone \
             is:",
        )?;
        self.teller.more(text(&founded, "/recovery_code")?)
    }

    fn join(&self) -> Result<()> {
        for (phone, asks, file) in [
            (
                self.moss,
                "--name 'Moss Sample' --licence DEMO-2",
                "moss.request",
            ),
            (
                self.fern,
                "--name 'Fern Pretend' --licence DEMO-3",
                "fern.request",
            ),
        ] {
            let asked = phone
                .at("08:05")
                .does(&format!("ask {file} --practice {asks}"))?;
            let admitted = self.ivy.at("08:06").does(&format!("admit {file}"))?;
            let there = text(&asked, "/check_digits")?;
            must(
                there == text(&admitted, "/check_digits")?,
                "both phones show the same digits",
            )?;
        }
        self.teller.step(
            "2, 3",
            "Moss Sample and Fern Pretend hand over request files; 20 digits agree; Ivy admits both.",
        )
    }

    fn copy_the_label(&self) -> Result<()> {
        self.ivy.at("08:15").does(&format!(
            "label new --field 'product=Demo Granules' --field method=granule \
             --field 'registration=EPA Reg. No. 00000-000-DEMO' --ingredient 'bifenthrin=0.2 %' \
             --field 'rate_most=25 lb/1000 ft2' {NUMBERS}"
        ))?;
        self.teller.step(
            "1",
            "Ivy copies the bag: Demo Granules, EPA Reg. No. 00000-000-DEMO, bifenthrin 0.2 %, at \
             most 2.5 lb/1000 ft², wind to 10 mph, no rain for 24 h, people and pets off until dry \
             and for 2 h.",
        )
    }

    fn read_it_back(&self) -> Result<()> {
        let second_reading = format!(
            "label read-back 'Demo Granules' --second-person 'Moss Sample' \
             --field 'rate_most=2.5 lb/1000 ft2' {NUMBERS}"
        );
        let why = self.ivy.at("08:20").is_refused(&second_reading)?;
        must(why.contains("25 lb/1000 ft²"), "the slip is found")?;
        self.ivy
            .at("08:22")
            .does("label set 'Demo Granules' 'rate_most=2.5 lb/1000 ft2'")?;
        self.ivy.at("08:24").does(&second_reading)?;
        let told = format!(
            "Moss reads it back: \"{why}\". A slip of the decimal point, ten times too much; set \
             right and agreed."
        );
        self.teller.step("1", &told)
    }

    fn hand_out(&self) -> Result<()> {
        self.ivy.at("08:26").does(
            "yard add '12 Pretend Street' --address '12 Pretend Street, Nowhere Falls 00000' \
             --zone America/New_York",
        )?;
        self.ivy.does(
            "yard add '7 Make-Believe Lane' --address '7 Make-Believe Lane, Nowhere Falls 00000' \
             --zone America/New_York",
        )?;
        self.ivy
            .at("08:28")
            .does("visit open 12 --target 'chinch bug'")?;
        self.ivy.at("08:30").does("swap make 1-morning.sward")?;
        for phone in [self.moss, self.fern] {
            phone.at("08:32").does("swap take 1-morning.sward")?;
        }
        self.teller.step(
            "2, 3",
            "A locked file, which only the crew's phones can open, brings it. Now each is alone.",
        )
    }
}
