//! The pace to walk: how long a marked distance takes, and what runs off that do to the rate.

use maud::html;
use sward_rules::calibrate::{PaceRuns, course_time, pace};
use sward_rules::{Field, RuleError};

use super::shown::Block;
use super::{Calc, Given};
use crate::part::amounts::change;
use crate::part::inputs::{beside, listed, needed};
use crate::{Result, Trouble};

pub(super) const PACE: Calc = Calc {
    name: "pace",
    title: "work-out-pace",
    first: "work-out-pace-first",
    inputs: |inputs| {
        Ok(html! {
            (inputs.number("length", "work-out-course", ("ft", "m"), None))
            (inputs.number("speed", "work-out-speed", ("mph", "km/h"), None))
            (inputs.list("times", "work-out-runs", "work-out-runs-help", &["s"]))
        })
    },
    work,
};

fn work(given: &Given<'_>) -> Result<Vec<Block>> {
    let [length, target] = needed(given.form, ["length", "speed"])?;
    let words = given.words;
    let mut block = Block::default();
    let time = block.take(course_time(&length, &target).map_err(told)?);
    block.amount(words, "work-out-should-take", &time);
    let times = listed(given.form, "times")?;
    if times.is_empty() {
        return Ok(vec![block]);
    }
    let runs = PaceRuns {
        length,
        target,
        times: &times,
    };
    let result = block.take(pace(&runs).map_err(told)?);
    block.amount(words, "work-out-mean-time", &result.mean_time);
    block.row(
        "work-out-mean-rate",
        change(words, result.rate_change_percent),
    );
    block.found([result.finding]);
    let mut blocks = vec![block];
    for run in &result.runs {
        let number = ("n", run.number.into());
        let mut one = Block::headed(words.t_with("work-out-run", &[number]));
        one.amount(words, "work-out-run-speed", &run.speed);
        one.row("work-out-run-rate", change(words, run.rate_change_percent));
        blocks.push(one);
    }
    Ok(blocks)
}

fn told(error: RuleError) -> Trouble {
    beside(
        error,
        &[
            (Field::CourseLength, "length"),
            (Field::TargetSpeed, "speed"),
            (Field::Runs, "times"),
            (Field::RunTime { number: 1 }, "times"),
        ],
    )
}
