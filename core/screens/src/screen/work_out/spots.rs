//! Spots and mounds: a dose for each, and what all are over the area.

use maud::html;
use sward_rules::label::LabelSays;
use sward_rules::mix::{SpotJob, spots};
use sward_rules::{Field, RuleError};

use super::shown::Block;
use super::{AMOUNTS, Calc, Given, of_kind, own_first, rate, ratio, step};
use crate::part::amounts::change;
use crate::part::inputs::{beside, needed};
use crate::trouble::Wrong;
use crate::{Result, Trouble};

/// Most spots that fit a form; the rules have the limit.
const COUNT_MOST: i64 = 1_000_000;

pub(super) const SPOTS: Calc = Calc {
    name: "spots",
    title: "work-out-spots",
    first: "work-out-spots-first",
    inputs: |inputs| {
        let dry = own_first(inputs, &["oz", "fl oz", "tbsp", "tsp"], &["g", "mL"]);
        let count = inputs.last("count");
        Ok(html! {
            (ratio(inputs, "dose", "work-out-spot-dose", &dry))
            (inputs.number("mix", "work-out-spot-mix", ("gal", "L"), None))
            (inputs.form.count("count", "work-out-spot-count", "", count.as_deref()))
            (inputs.number("area", "work-out-spot-area", ("ft2", "m2"), None))
            (step(inputs))
            (of_kind(inputs, "spot-most", "work-out-spot-most", "", &AMOUNTS))
            (rate(inputs, "most", "work-out-area-most", ""))
        })
    },
    work,
};

fn work(given: &Given<'_>) -> Result<Vec<Block>> {
    let form = given.form;
    let [dose] = needed(form, ["dose"])?;
    let missing = |name: &str| Trouble::field(name, Wrong::Missing);
    let count = form.whole("count", 1, COUNT_MOST)?;
    let count = count.and_then(|count| u32::try_from(count).ok());
    let vessel = given.vessel("step")?.ok_or_else(|| missing("step"))?;
    let says = |name: &str| -> Result<LabelSays<_>> {
        Ok(form
            .amount(name)?
            .map_or(LabelSays::Unfilled, LabelSays::Value))
    };
    let mut block = Block::default();
    let plan = spots(&SpotJob {
        dose,
        mix: form.amount("mix")?,
        spot_most: says("spot-most")?,
        area_most: says("most")?,
        count: count.ok_or_else(|| missing("count"))?,
        area: given.area_needed("area")?,
        vessel: &vessel,
    })
    .map_err(told)?;
    let plan = block.take(plan);
    let words = given.words;
    let (measured, product) = match plan.mix {
        Some(_) => ("work-out-spots-measure-all", &plan.measured),
        None => ("work-out-spots-measure-each", &plan.measured),
    };
    block.exact(words, measured, &product.measured_out);
    block.row("work-out-change", change(words, product.change_percent));
    if let Some(mix) = &plan.mix {
        block.amount(words, "work-out-spots-mix", mix);
    }
    block.amount(words, "work-out-spots-product", &plan.product);
    block.amount(words, "work-out-over-area", &plan.over_area);
    if let Some(most) = plan.spots_most {
        block.row("work-out-spots-most", words.number(most.into()));
    }
    block.found(plan.findings);
    Ok(vec![block])
}

fn told(error: RuleError) -> Trouble {
    beside(
        error,
        &[
            (Field::SpotDose, "dose"),
            (Field::SpotMix, "mix"),
            (Field::Spots, "count"),
            (Field::Area, "area"),
            (Field::LeastStep, "step"),
            (Field::Rate, "most"),
        ],
    )
}
