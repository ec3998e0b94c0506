//! The walking pace.

use sward_rules::calibrate::{PaceRuns, course_time, pace as pace_of};

use super::{amounts, findings, short};
use crate::args::PaceCalc;
use crate::error::Result;
use crate::run::calc::Worked;

/// How long the distance should take, and what runs off that do to the rate.
pub(in crate::run::calc) fn pace(args: &PaceCalc) -> Result<Worked> {
    let mut worked = Worked::default();
    let time = worked.take("time wanted", course_time(&args.length, &args.speed)?);
    worked
        .line(format!(
            "{} at {} takes {}.",
            args.length.for_person(),
            args.speed.for_person(),
            time.for_person()
        ))
        .value("time_wanted", time);
    let Some(times) = &args.times else {
        return Ok(worked);
    };
    let times = amounts("--times", times)?;
    let runs = PaceRuns {
        length: args.length,
        target: args.speed,
        times: &times,
    };
    let result = worked.take("pace", pace_of(&runs)?);
    for run in &result.runs {
        worked.line(format!(
            "Run {}: {}, rate {:+.1} %.",
            run.number,
            short(&run.speed),
            run.rate_change_percent
        ));
    }
    let spread = result
        .spread_percent
        .map_or_else(String::new, |spread| format!(", spread {spread:.1} %"));
    worked.line(format!(
        "Mean {}{spread}: rate {:+.1} %.",
        result.mean_time.for_person(),
        result.rate_change_percent
    ));
    findings(&mut worked, std::slice::from_ref(&result.finding));
    worked
        .value("mean_time", result.mean_time)
        .value("spread_percent", result.spread_percent)
        .value("rate_change_percent", result.rate_change_percent)
        .value("runs", &result.runs);
    Ok(worked)
}
