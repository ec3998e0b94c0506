//! What goes into one tank.

use maud::html;
use sward_rules::mix::{TankFill, tank_fill};
use sward_rules::quantity::Dimension;
use sward_rules::{Field, RuleError};

use super::shown::Block;
use super::{Calc, Given, label_inputs, of_kind, rate, step};
use crate::part::amounts::change;
use crate::part::inputs::{beside, needed};
use crate::trouble::Wrong;
use crate::{Result, Trouble};

pub(super) const FILL: Calc = Calc {
    name: "tank",
    title: "work-out-tank",
    first: "work-out-tank-first",
    inputs: |inputs| {
        Ok(html! {
            (rate(inputs, "rate", "work-out-the-rate", ""))
            (of_kind(inputs, "carrier", "work-out-carrier", "", &[Dimension::VolumePerArea]))
            (inputs.number("tank", "work-out-tank-holds", ("gal", "L"), None))
            (inputs.number("mix", "work-out-mix-wanted", ("gal", "L"), None))
            (step(inputs))
            (label_inputs(inputs)?)
        })
    },
    work,
};

fn work(given: &Given<'_>) -> Result<Vec<Block>> {
    let [rate, carrier, tank] = needed(given.form, ["rate", "carrier", "tank"])?;
    let vessel = given.vessel("step")?;
    let vessel = vessel.ok_or_else(|| Trouble::field("step", Wrong::Missing))?;
    let words = given.words;
    let mut block = Block::default();
    let filled = tank_fill(&TankFill {
        label: &given.label()?,
        rate,
        carrier,
        tank,
        mix: given.form.amount("mix")?,
        vessel: &vessel,
    })
    .map_err(told)?;
    let filled = block.take(filled);
    let product = &filled.product;
    block.exact(words, "work-out-measure-out", &product.measured_out);
    block.row("work-out-change", change(words, product.change_percent));
    block.amount(words, "work-out-fill-up-to", &filled.mix);
    if let Some(water) = &filled.water {
        block.amount(words, "work-out-water-in-it", water);
    }
    block.exact(words, "work-out-it-covers", &filled.covers);
    block.amount(words, "work-out-rate-then", &filled.rate);
    block.found(filled.findings);
    Ok(vec![block])
}

fn told(error: RuleError) -> Trouble {
    beside(
        error,
        &[
            (Field::Rate, "rate"),
            (Field::Carrier, "carrier"),
            (Field::Tank, "tank"),
            (Field::FinishedMix, "mix"),
            (Field::FilledProduct, "rate"),
            (Field::LeastStep, "step"),
        ],
    )
}
