//! A spreader by strip.

use sward_rules::calibrate::{StripRun, Tried, Weighed, setting_to_try, strip_length, strip_rate};

use super::{against, findings, short, tried};
use crate::args::SpreaderCalc;
use crate::error::{CliError, Result};
use crate::run::calc::Worked;

/// The rate on a strip, what the label says to it, and the setting to try next.
pub(in crate::run::calc) fn spreader(args: &SpreaderCalc) -> Result<Worked> {
    let mut worked = Worked::default();
    if let Some(area) = &args.test_area {
        let length = worked.take("strip", strip_length(area, &args.swath)?);
        worked
            .line(format!("The strip must be {} long.", short(&length)))
            .value("strip_length", length);
        return Ok(worked);
    }
    let weighed = match (args.start, args.left, args.caught) {
        (Some(start), Some(left), _) => Weighed::StartAndLeft { start, left },
        (_, _, Some(caught)) => Weighed::Caught(caught),
        _ => {
            return Err(CliError::Usage(
                "give --start \"10 lb\" --left \"6.4 lb\", or --caught \"0.5 lb\", or --test-area \
                 \"1000 ft2\""
                    .into(),
            ));
        }
    };
    let Some(length) = args.length else {
        return Err(CliError::Usage(
            "give the strip's length: --length \"125 ft\"".into(),
        ));
    };
    let run = StripRun {
        weighed,
        length,
        swath: args.swath,
    };
    let unit = args.against.wanted.map(|wanted| wanted.unit());
    let strip = worked.take("rate", strip_rate(&run, unit)?);
    worked
        .line(format!(
            "Rate: {}, for a swath of {} ({} on {}).",
            short(&strip.rate),
            args.swath.for_person(),
            short(&strip.used),
            short(&strip.area)
        ))
        .value("rate", strip.rate)
        .value("used", strip.used)
        .value("area", strip.area)
        .value("swath", args.swath);
    if let Some(finding) = against(&args.against, &strip.rate)? {
        findings(&mut worked, &[finding]);
    }
    let mut tries = tried(&args.tried);
    if let Some(setting) = args.setting {
        let rate = strip.rate;
        tries.push(Tried { setting, rate });
    }
    if let Some(wanted) = &args.against.wanted
        && let Some(next) = setting_to_try(
            &tries,
            wanted,
            args.against.most.as_ref(),
            args.against.passes,
        )?
    {
        let next = worked.take("setting to try", next);
        let beyond = if next.between {
            ""
        } else {
            ", outside the rates tried"
        };
        worked
            .line(format!(
                "Try setting {} next{beyond}: an estimate, not a setting. Run the strip again with it.",
                next.setting
            ))
            .value("try_next", next);
    }
    Ok(worked)
}
