//! Watering in: how much water the label's depth is, and how long to run it by a can test.

use maud::html;
use sward_rules::label::{LabelSays, WateringIn};
use sward_rules::plan::Section;
use sward_rules::quantity::{Dimension, Unit};
use sward_rules::watering::{
    CanTest, RunAsked, RunPlan, can_depth, can_test, watering_need, watering_run,
};
use sward_rules::{Entered, Field, RuleError};

use super::shown::Block;
use super::{Calc, Given, own_first};
use crate::part::amounts::rounded;
use crate::part::inputs::{beside, listed, needed};
use crate::trouble::Wrong;
use crate::words::{Units, Words};
use crate::{Result, Trouble};

pub(super) const WATERING: Calc = Calc {
    name: "watering-in",
    title: "work-out-watering",
    first: "work-out-watering-first",
    inputs: |inputs| {
        let cans = own_first(inputs, &["in", "fl oz"], &["mm", "mL"]);
        Ok(html! {
            (inputs.number("depth", "work-out-depth", ("in", "mm"), None))
            (inputs.number("area", "work-out-area", ("ft2", "m2"), None))
            (inputs.list("cans", "work-out-cans", "work-out-cans-help", &cans))
            (inputs.number("opening", "work-out-opening", ("in", "cm"), None))
            (inputs.number("ran", "work-out-ran", ("min", "min"), None))
            (inputs.number("run-off", "work-out-run-off", ("min", "min"), None))
            (inputs.number("soak", "work-out-soak", ("min", "min"), None))
        })
    },
    work,
};

fn work(given: &Given<'_>) -> Result<Vec<Block>> {
    let [depth] = needed(given.form, ["depth"])?;
    let mut blocks = vec![water(given, depth)?];
    let cans = listed(given.form, "cans")?;
    let ran = given.form.amount("ran")?;
    match (cans.is_empty(), ran) {
        (true, None) => {}
        (true, Some(_)) => return Err(Trouble::field("cans", Wrong::Missing)),
        (false, None) => return Err(Trouble::field("ran", Wrong::Missing)),
        (false, Some(ran)) => blocks.push(minutes(given, depth, &cans, ran)?),
    }
    Ok(blocks)
}

fn water(given: &Given<'_>, depth: Entered) -> Result<Block> {
    let words = given.words;
    let mut block = Block::default();
    let area = given.area("area")?;
    let sections: Vec<Section> = area
        .map(|area| Section {
            name: given.t("work-out-the-lawn"),
            area,
        })
        .into_iter()
        .collect();
    let says = LabelSays::Value(WateringIn::Required(Some(depth)));
    let need = block.take(watering_need(&says, &sections).map_err(told)?);
    if let Some(per) = &need.per_1000_ft2 {
        block.amount(words, "work-out-water-1000", &own(words, per));
    }
    if let Some(total) = &need.total {
        block.amount(words, "work-out-water", &own(words, total));
    }
    Ok(block)
}

/// A volume of water in litres where a person measures so.
fn own(words: Words, water: &Entered) -> Entered {
    match words.units {
        Units::Us => *water,
        Units::Metric => water.convert(Unit::LITRE).unwrap_or(*water),
    }
}

fn minutes(given: &Given<'_>, depth: Entered, cans: &[Entered], ran: Entered) -> Result<Block> {
    let words = given.words;
    let form = given.form;
    let mut block = Block::headed(given.t("work-out-can-test"));
    let opening = form.amount("opening")?;
    let depths = cans
        .iter()
        .map(|can| match (can.dimension(), &opening) {
            (Dimension::Volume, Some(opening)) => can_depth(can, opening)
                .map(|depth| depth.value)
                .map_err(told),
            (Dimension::Volume, None) => Err(Trouble::field("opening", Wrong::Missing)),
            _ => Ok(*can),
        })
        .collect::<Result<Vec<_>>>()?;
    let test = CanTest {
        depths: &depths,
        ran,
    };
    let test = block.take(can_test(&test).map_err(told)?);
    let uniformity = rounded(words, test.uniformity_percent, 0);
    block.amount(words, "work-out-cans-mean", &test.mean);
    block.amount(words, "work-out-cans-driest", &test.driest_quarter);
    block.row("work-out-uniformity", format!("{uniformity} %"));
    let run = watering_run(&RunAsked {
        depth,
        cans: &test,
        run_off_after: form.amount("run-off")?,
        soak: form.amount("soak")?,
    });
    let run = block.take(run.map_err(told)?);
    told_run(given, &run, &mut block);
    Ok(block)
}

fn told_run(given: &Given<'_>, run: &RunPlan, block: &mut Block) {
    let minutes = |minutes: u32| format!("{minutes} min");
    block.row("work-out-by-mean", minutes(run.minutes_by_mean));
    let driest = run.minutes_by_driest_quarter;
    block.row(
        "work-out-by-driest",
        driest.map_or_else(|| given.t("work-out-stayed-dry"), minutes),
    );
    if run.runs > 1 {
        let args = [("n", run.runs.into()), ("min", run.minutes_each.into())];
        block.line(given.words.t_with("work-out-in-runs", &args));
        let soak = run.soak_min;
        block.row(
            "work-out-between-runs",
            soak.map_or_else(|| given.t("work-out-until-gone"), minutes),
        );
    }
}

fn told(error: RuleError) -> Trouble {
    beside(
        error,
        &[
            (Field::WateringDepth, "depth"),
            (
                Field::Section {
                    name: String::new(),
                },
                "area",
            ),
            (Field::Cans, "cans"),
            (Field::CanDepth { number: 1 }, "cans"),
            (Field::Caught, "cans"),
            (Field::Diameter, "opening"),
            (Field::CanTime, "ran"),
            (Field::RunOffTime, "run-off"),
            (Field::SoakTime, "soak"),
        ],
    )
}
