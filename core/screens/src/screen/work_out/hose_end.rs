//! A hose-end sprayer: what it puts on, and the step of its dial.

use maud::html;
use sward_rules::calibrate::TimedCatch;
use sward_rules::mix::{DialAsked, hose_end_dial, hose_end_test};
use sward_rules::quantity::Dimension;
use sward_rules::{Field, RuleError};

use super::shown::Block;
use super::{Calc, Given, label_inputs, of_kind, own_first};
use crate::part::amounts::change;
use crate::part::inputs::{beside, listed, needed};
use crate::trouble::Wrong;
use crate::{Result, Trouble};

pub(super) const DIAL: Calc = Calc {
    name: "hose-end",
    title: "work-out-hose-end",
    first: "work-out-hose-end-first",
    inputs: |inputs| {
        let units = own_first(inputs, &["fl oz/gal"], &["mL/L"]);
        Ok(html! {
            (inputs.number("area", "calibrate-test-area", ("ft2", "m2"), None))
            (inputs.number("took", "calibrate-area-time", ("s", "s"), None))
            (inputs.number("caught", "calibrate-caught", ("gal", "L"), None))
            (inputs.number("caught-in", "work-out-caught-in", ("s", "s"), None))
            (of_kind(inputs, "rate", "work-out-the-rate", "", &[Dimension::VolumePerArea]))
            (inputs.list("steps", "work-out-dial-steps", "work-out-dial-steps-help", &units))
            (label_inputs(inputs)?)
        })
    },
    work,
};

fn work(given: &Given<'_>) -> Result<Vec<Block>> {
    let form = given.form;
    let [area, took, caught] = needed(form, ["area", "took", "caught"])?;
    let words = given.words;
    let mut block = Block::default();
    let test = TimedCatch {
        area,
        area_time: took,
        caught,
        // Left out, it was caught as long as the area took.
        catch_time: form.amount("caught-in")?.unwrap_or(took),
    };
    let carrier = block.take(hose_end_test(&test).map_err(told)?);
    block.amount(words, "work-out-puts-on", &carrier);
    let steps = listed(form, "steps")?;
    let Some(rate) = form.amount("rate")? else {
        if !steps.is_empty() {
            return Err(Trouble::field("rate", Wrong::Missing));
        }
        return Ok(vec![block]);
    };
    let asked = DialAsked {
        label: &given.label()?,
        rate,
        carrier,
        steps: &steps,
    };
    let dial = block.take(hose_end_dial(&asked).map_err(told)?);
    block.amount(words, "work-out-dial-needed", &dial.needed);
    if let (Some(step), Some(rate), Some(percent)) = (dial.step, dial.rate, dial.change_percent) {
        let set = ("step", words.amount(&step).into());
        block.line(words.t_with("work-out-dial-set", &[set]));
        block.amount(words, "work-out-rate-then", &rate);
        block.row("work-out-change", change(words, percent));
    }
    if let Some(most) = &dial.carrier_for_lowest {
        block.exact(words, "work-out-dial-lowest", most);
    }
    block.found(dial.findings);
    Ok(vec![block])
}

fn told(error: RuleError) -> Trouble {
    beside(
        error,
        &[
            (Field::TestArea, "area"),
            (Field::AreaTime, "took"),
            (Field::WaterCaught, "caught"),
            (Field::CatchTime, "caught-in"),
            (Field::Rate, "rate"),
            (Field::FilledProduct, "rate"),
            (Field::Carrier, "caught"),
            (Field::DialSteps, "steps"),
            (Field::DialStep { number: 1 }, "steps"),
        ],
    )
}
