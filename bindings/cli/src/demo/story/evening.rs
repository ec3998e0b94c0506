//! Yard 1 in the evening: everything is looked at, it is treated, and the keep-off runs until
//! time has passed and a person has looked.

use serde_json::Value;

use super::{Day, finding_of, must, unknown, until_words, wind_words};
use crate::demo::answer::{list, text};
use crate::error::{CliError, Result};

impl Day<'_> {
    pub(super) fn treatment(&self) -> Result<()> {
        self.teller.chapter("18:15", "Yard 1 again: may I now?")?;
        self.look_round()?;
        self.acknowledge_and_start()?;
        self.spread()
    }

    fn look_round(&self) -> Result<()> {
        let read = self
            .ivy
            .at("18:15")
            .does("reading 12 --wind-file wind-evening.csv --air '75 F' --soil fit --bloom none")?;
        self.ivy.does(
            "walk-round 12 --moved toys,bowls,irrigation,gates,hard-surfaces,people-and-pets \
             --not-here pond-or-hive,puddles,drains",
        )?;
        let told = format!(
            "Wind {}; the soil takes water, nothing blooms. The walk round: toys and the dog's \
             bowl moved, the sprinkler off, the gate shut, everybody indoors.",
            wind_words(&read)?,
        );
        self.teller.step("1", &told)
    }

    fn acknowledge_and_start(&self) -> Result<()> {
        let ready = self
            .ivy
            .at("18:18")
            .asks("ready 12 --metar metar-evening.txt --forecast forecast.json --job-min 45")?;
        must(text(&ready, "/verdict")? == "unknown", "no limit is hit")?;
        must(unknown(&ready)? == ["repeat"], "one check is not known")?;
        self.ivy.at("18:20").does("start 12 --acknowledge repeat")?;
        let told = format!(
            "No limit is hit; one thing is not known: {}. Ivy acknowledges it by name, which \
             stands in the record, and starts.",
            text(finding_of(&ready, "repeat")?, "/in_english/why")?,
        );
        self.teller.step("1", &told)
    }

    fn spread(&self) -> Result<()> {
        self.ivy
            .at("18:40")
            .does("load 12 --product '20 lb' --section 'front lawn'")?;
        self.ivy.at("18:55").does("load 12 --product '12.1 lb'")?;
        let finished = self
            .ivy
            .at("18:58")
            .does("finish 12 --note 'granules on the walk swept back on to the turf'")?;
        let told = format!(
            "Two loads, the last at 18:55; the record is frozen. Keep people and pets off both \
             sections {}.",
            until_words(keep_off_on(&finished, "side strip")?)?,
        );
        self.teller.step("1", &told)
    }

    pub(super) fn keep_off(&self) -> Result<()> {
        self.teller
            .chapter("19:10", "When may children and pets come back?")?;
        self.ivy.at("19:00").does("swap make 2-treated.sward")?;
        self.moss.at("19:10").does("swap take 2-treated.sward")?;
        self.moss.at("19:15").does(
            "keep-off claim 12 'side strip' --wait '4 h' --until-dry yes \
             --why 'in the shade, slow to dry'",
        )?;
        self.teller.step(
            "2",
            "Moss takes a locked file and states 4 h for the side strip: it lies in the shade.",
        )?;
        let looked = self.ivy.at("20:15").does("dry 12 'front lawn'")?;
        let told = format!(
            "20:15, not knowing of that, Ivy says \"I looked: it is dry\" of the front lawn alone. \
             Keep off it {}; off the side strip {}.",
            until_words(keep_off_on(&looked, "front lawn")?)?,
            until_words(keep_off_on(&looked, "side strip")?)?,
        );
        self.teller.step("1", &told)
    }
}

/// The keep-off on one section.
pub(super) fn keep_off_on<'a>(answer: &'a Value, section: &str) -> Result<&'a Value> {
    list(answer, "/keep_offs")?
        .iter()
        .find(|keep_off| keep_off["name"] == section)
        .ok_or_else(|| CliError::Refused(format!("the demo found no keep-off on the {section}")))
}
