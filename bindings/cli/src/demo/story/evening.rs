//! Yard 1 in the evening: everything is looked at, it is treated, and the keep-off runs until
//! time has passed and a person has looked.

use serde_json::Value;

use super::{Day, FRONT, MOSS, SIDE, YARD_1, finding_of, unknown, until_words, wind_words};
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
            "reading", YARD_1, "--wind-file", &wind, "--air", "75 F", "--soil", "fit", "--bloom",
            "none",
        ])?;
        self.ivy.does(step![
            "walk-round", YARD_1, "--moved",
            "toys,bowls,irrigation,gates,hard-surfaces,people-and-pets", "--not-here",
            "pond-or-hive,puddles,drains",
        ])?;
        self.teller.step(&format!(
            "Wind {}; the soil takes water, nothing blooms. Walk round the yard: toys and the dog's bowl \
             are moved, the sprinkler is off, the gate is shut, everybody is indoors.",
            wind_words(&read)?,
        ))
    }

    fn acknowledge_and_start(&self) -> Result<()> {
        self.ivy.at("18:18");
        let ready = self.ready(METAR_EVENING)?;
        if unknown(&ready)? != ["repeat"] {
            return Err(CliError::Refused(format!("more is not known than the demo expects: {ready}")));
        }
        self.ivy.at("18:20").does(step!["start", YARD_1, "--acknowledge", "repeat"])?;
        self.teller.step(&format!(
            "No limit is hit. One thing is not known: {}. Ivy acknowledges it by name; that stands in the \
             record, and it starts.",
            text(finding_of(&ready, "repeat")?, "/reason")?,
        ))
    }

    fn spread(&self) -> Result<()> {
        self.ivy.at("18:40").does(step!["load", YARD_1, "--product", "20 lb", "--section", FRONT])?;
        self.ivy.at("18:55").does(step!["load", YARD_1, "--product", "12.1 lb"])?;
        let finished = self.ivy.at("18:58").does(step![
            "finish", YARD_1, "--note", "granules on the walk swept back on to the turf",
        ])?;
        let until = until_words(keep_off_on(&finished, SIDE)?)?;
        self.teller.step(&format!(
            "Two loads, finished 18:58; the record is frozen. On both sections people and pets keep off \
             {until}.",
        ))
    }

    pub(super) fn keep_off(&self) -> Result<()> {
        self.teller.chapter("20:15", "When may children and pets come back?")?;
        let file = self.files.named("2-treated.sward");
        self.ivy.at("19:00").does(step!["swap", "make", &file])?;
        self.moss.at("19:10").does(step!["swap", "take", &file])?;
        self.moss.at("19:15").does(step![
            "keep-off", "claim", YARD_1, SIDE, "--wait", "4 h", "--until-dry", "yes", "--why",
            "in the shade, slow to dry",
        ])?;
        let looked = self.ivy.at("20:15").does(step!["dry", YARD_1, FRONT])?;
        self.teller.step(&format!(
            "\"I looked: it is dry\", says Ivy of the front lawn alone. It may be used after 20:55; the \
             side strip keeps off {}.",
            until_words(keep_off_on(&looked, SIDE)?)?,
        ))?;
        self.teller.step(&format!(
            "Ivy does not know that {MOSS}, shown the treatment by a locked file, has stated 4 h for the \
             side strip: it lies in the shade.",
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
