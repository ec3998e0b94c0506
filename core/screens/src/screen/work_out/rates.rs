//! A rate in other forms, and product for an area: by area, pack, active ingredient or mix.

use maud::{Markup, html};
use sward_rules::mix::{
    product_for_ingredient, product_in_mix, product_over, rate_forms, rate_from_mix,
    rate_of_coverage,
};
use sward_rules::plan::{measure_out, rate_findings};
use sward_rules::quantity::Dimension;
use sward_rules::{Entered, Field, RuleError};

use super::shown::Block;
use super::{AMOUNTS, Calc, Given, label_inputs, of_kind, rate, ratio, step};
use crate::part::amounts::change;
use crate::part::inputs::{Inputs, beside, needed};
use crate::trouble::Wrong;
use crate::{Result, Trouble};

pub(super) const FORMS: Calc = Calc {
    name: "rate",
    title: "work-out-rate",
    first: "work-out-rate-first",
    inputs: |inputs| {
        Ok(html! {
            (rate(inputs, "rate", "work-out-the-rate", ""))
            (by_area(inputs)?)
        })
    },
    work: |given| {
        let [rate] = needed(given.form, ["rate"])?;
        let mut block = Block::default();
        for_area(given, &rate, &mut block)?;
        Ok(vec![block])
    },
};

pub(super) const PACK: Calc = Calc {
    name: "pack",
    title: "work-out-pack",
    first: "work-out-pack-first",
    inputs: |inputs| {
        Ok(html! {
            (of_kind(inputs, "pack", "work-out-in-pack", "", &AMOUNTS))
            (inputs.number("covers", "work-out-covers", ("ft2", "m2"), None))
            (by_area(inputs)?)
        })
    },
    work: |given| {
        let [pack, covers] = needed(given.form, ["pack", "covers"])?;
        let mut block = Block::default();
        let rate = block.take(rate_of_coverage(&pack, &covers).map_err(told)?);
        for_area(given, &rate, &mut block)?;
        Ok(vec![block])
    },
};

pub(super) const INGREDIENT: Calc = Calc {
    name: "ingredient",
    title: "work-out-ingredient",
    first: "work-out-ingredient-first",
    inputs: |inputs| {
        let content = [Dimension::Percent, Dimension::MassPerVolume];
        Ok(html! {
            (of_kind(inputs, "active", "work-out-active", "", &[Dimension::MassPerArea]))
            (of_kind(inputs, "content", "work-out-content", "", &content))
            (by_area(inputs)?)
        })
    },
    work: |given| {
        let [active, content] = needed(given.form, ["active", "content"])?;
        let mut block = Block::default();
        let rate = block.take(product_for_ingredient(&active, &content).map_err(told)?);
        for_area(given, &rate, &mut block)?;
        Ok(vec![block])
    },
};

pub(super) const IN_MIX: Calc = Calc {
    name: "in-mix",
    title: "work-out-in-mix",
    first: "work-out-in-mix-first",
    inputs: |inputs| {
        Ok(html! {
            (ratio(inputs, "ratio", "work-out-ratio", &[]))
            (inputs.number("mix", "work-out-mix", ("gal", "L"), None))
            (of_kind(inputs, "carrier", "work-out-carrier", "work-out-carrier-help", &[Dimension::VolumePerArea]))
            (by_area(inputs)?)
        })
    },
    work: |given| {
        let [ratio] = needed(given.form, ["ratio"])?;
        let (mix, carrier) = (given.form.amount("mix")?, given.form.amount("carrier")?);
        let mut block = Block::default();
        if let Some(mix) = &mix {
            let product = block.take(product_in_mix(&ratio, mix).map_err(told)?);
            block.amount(given.words, "work-out-product-in-mix", &product);
        }
        match carrier {
            Some(carrier) => {
                let rate = block.take(rate_from_mix(&ratio, &carrier).map_err(told)?);
                for_area(given, &rate, &mut block)?;
            }
            // Without it nobody knows what goes on an area.
            None if mix.is_none() || !given.form.text("area").is_empty() => {
                return Err(Trouble::field("carrier", Wrong::Missing));
            }
            None => {}
        }
        Ok(vec![block])
    },
};

fn by_area(inputs: &Inputs<'_>) -> Result<Markup> {
    Ok(html! {
        (inputs.number("area", "work-out-area", ("ft2", "m2"), None))
        (step(inputs))
        (label_inputs(inputs)?)
    })
}

/// The rate in its forms, product for the area where one was typed, and what the label says.
fn for_area(given: &Given<'_>, rate: &Entered, block: &mut Block) -> Result<()> {
    let words = given.words;
    let forms = block.take(rate_forms(rate).map_err(told)?);
    for form in &forms {
        block.line(words.worked_out(form));
    }
    if let Some(area) = given.area("area")? {
        let product = block.take(product_over(rate, &area).map_err(told)?);
        block.amount(words, "work-out-for-area", &product);
        if let Some(vessel) = given.vessel("step")? {
            let amount = block.take(measure_out(&product, &vessel).map_err(told)?);
            block.exact(words, "work-out-measure-out", &amount.measured_out);
            block.row("work-out-change", change(words, amount.change_percent));
        }
    }
    block.found(rate_findings(&given.label()?, rate).map_err(told)?);
    Ok(())
}

fn told(error: RuleError) -> Trouble {
    beside(
        error,
        &[
            (Field::Rate, "rate"),
            (Field::PackAmount, "pack"),
            (Field::Covered, "covers"),
            (Field::IngredientRate, "active"),
            (Field::Content, "content"),
            (Field::MixRatio, "ratio"),
            (Field::FinishedMix, "mix"),
            (Field::Carrier, "carrier"),
            (Field::Area, "area"),
            (Field::LeastStep, "step"),
        ],
    )
}
