//! Yard 1 in the evening: everything is looked at, it is treated, and the keep-off runs until
//! time has passed and a person has looked.

use serde_json::Value;

use super::{Day, FRONT, SIDE, YARD_1, finding_of, must, unknown, until_words, wind_words};
use crate::demo::answer::{list, text};
use crate::demo::files::METAR_EVENING;
use crate::demo::phone::step;
use crate::error::{CliError, Result};

impl Day<'_> {
    pub(super) fn treatment(&self) -> Result<()> {
        self.teller.chapter("18:15", "Yard 1 again: may I now?")?;
        self.look_round()?;
        self.acknowledge_and_start()?;
        self.spread()
    }

    fn look_round(&self) -> Result<()> {
        let wind = self.files.named("wind-evening.csv");
        let read = self.ivy.at("18:15").does(step![
            "reading",
            YARD_1,
            "--wind-file",
            &wind,
            "--air",
            "75 F",
            "--soil",
            "fit",
            "--bloom",
            "none",
        ])?;
        self.ivy.does(step![
            "walk-round",
            YARD_1,
            "--moved",
            "toys,bowls,irrigation,gates,hard-surfaces,people-and-pets",
            "--not-here",
            "pond-or-hive,puddles,drains",
        ])?;
        self.teller.step("1", &format!(
            "Wind {}; the soil takes water, nothing blooms. The walk round: toys and the dog's bowl moved, \
             the sprinkler off, the gate shut, everybody indoors.",
            wind_words(&read)?,
        ))
    }

    fn acknowledge_and_start(&self) -> Result<()> {
        self.ivy.at("18:18");
        let ready = self.ready(METAR_EVENING)?;
        must(unknown(&ready)? == ["repeat"], "one check is not known")?;
        must(text(&ready, "/verdict")? == "unknown", "no limit is hit")?;
        self.ivy
            .at("18:20")
            .does(step!["start", YARD_1, "--acknowledge", "repeat"])?;
        self.teller.step("1", &format!(
            "No limit is hit; one thing is not known: {}. Ivy acknowledges it by name, which stands in the \
             record, and starts.",
            text(finding_of(&ready, "repeat")?, "/reason")?,
        ))
    }

    fn spread(&self) -> Result<()> {
        self.ivy.at("18:40").does(step![
            "load",
            YARD_1,
            "--product",
            "20 lb",
            "--section",
            FRONT
        ])?;
        self.ivy
            .at("18:55")
            .does(step!["load", YARD_1, "--product", "12.1 lb"])?;
        let finished = self.ivy.at("18:58").does(step![
            "finish",
            YARD_1,
            "--note",
            "granules on the walk swept back on to the turf",
        ])?;
        self.teller.step("1", &format!(
            "Two loads, the last at 18:55; the record is frozen. Keep people and pets off both sections {}.",
            until_words(keep_off_on(&finished, SIDE)?)?,
        ))
    }

    pub(super) fn keep_off(&self) -> Result<()> {
        self.teller
            .chapter("19:10", "When may children and pets come back?")?;
        let file = self.files.named("2-treated.sward");
        self.ivy.at("19:00").does(step!["swap", "make", &file])?;
        self.moss.at("19:10").does(step!["swap", "take", &file])?;
        self.moss.at("19:15").does(step![
            "keep-off",
            "claim",
            YARD_1,
            SIDE,
            "--wait",
            "4 h",
            "--until-dry",
            "yes",
            "--why",
            "in the shade, slow to dry",
        ])?;
        self.teller.step(
            "2",
            "Moss takes a locked file and states 4 h for the side strip: it lies in the shade.",
        )?;
        let looked = self.ivy.at("20:15").does(step!["dry", YARD_1, FRONT])?;
        self.teller.step("1", &format!(
            "20:15, not knowing of that, Ivy says \"I looked: it is dry\" of the front lawn alone. Keep off it {}; \
off the side strip {}.",
            until_words(keep_off_on(&looked, FRONT)?)?,
            until_words(keep_off_on(&looked, SIDE)?)?,
        ))
    }
}

/// The keep-off on one section.
pub(super) fn keep_off_on<'a>(answer: &'a Value, section: &str) -> Result<&'a Value> {
    list(answer, "/keep_offs")?
        .iter()
        .find(|keep_off| keep_off["name"] == section)
        .ok_or_else(|| CliError::Refused(format!("the demo found no keep-off on the {section}")))
}
