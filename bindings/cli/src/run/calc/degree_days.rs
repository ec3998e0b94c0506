//! Degree-days above a base since a day.

use std::path::Path;

use sward_rules::Entered;
use sward_rules::look::{self, DayAir};

use super::Worked;
use crate::args::DegreeDaysCalc;
use crate::error::{CliError, Result};

/// Largest file of temperatures.
const BYTES_MOST: u64 = 1 << 20;

/// The sum, with its base, start, and the days that are missing.
pub(super) fn degree_days(args: &DegreeDaysCalc) -> Result<Worked> {
    let mut days: Vec<DayAir> = Vec::new();
    if let Some(path) = &args.file {
        for line in lines(path)?.lines().filter(|line| !line.trim().is_empty()) {
            days.push(day(line)?);
        }
    }
    for text in &args.days {
        days.push(day(text)?);
    }
    let mut worked = Worked::default();
    let answer = look::degree_days(&days, args.base, args.start, args.until)?;
    let sum = worked.take("degree-days", answer);
    let at_least = if sum.is_at_least() { "at least " } else { "" };
    worked.line(format!(
        "Degree-days: {at_least}{:.1} above {} from {} to {} (single sine, days: {}; by simple \
         average {at_least}{:.1})",
        sum.single_sine, sum.base, sum.start, sum.until, sum.days, sum.simple_average
    ));
    if sum.is_at_least() {
        let missing: Vec<String> = sum.missing.iter().map(ToString::to_string).collect();
        worked.line(format!("Missing: {}.", missing.join(", ")));
    }
    worked
        .value("single_sine_degree_days", sum.single_sine)
        .value("simple_average_degree_days", sum.simple_average)
        .value("is_at_least", sum.is_at_least())
        .value("base", &sum.base)
        .value("start", sum.start)
        .value("until", sum.until)
        .value("missing_days", &sum.missing);
    Ok(worked)
}

fn lines(path: &Path) -> Result<String> {
    let bytes = crate::run::read_file(path, BYTES_MOST)?;
    if u64::try_from(bytes.len()).is_ok_and(|len| len > BYTES_MOST) {
        return Err(CliError::Usage(format!(
            "{} is larger than 1 MB; give a year at most, a day a line",
            path.display()
        )));
    }
    String::from_utf8(bytes).map_err(|_| {
        CliError::Usage(format!(
            "{} is not text in UTF-8; save it as plain text",
            path.display()
        ))
    })
}

/// A day as typed: "2026-04-01, 40 F, 80 F".
fn day(text: &str) -> Result<DayAir> {
    let slip = || {
        CliError::Usage(format!(
            "`{}` is no day with its lowest and highest temperature; write it like \
             \"2026-04-01, 40 F, 80 F\"",
            text.chars().take(60).collect::<String>()
        ))
    };
    let parts: Vec<&str> = text.split(',').map(str::trim).collect();
    let [day, least, most] = parts[..] else {
        return Err(slip());
    };
    Ok(DayAir {
        day: day.parse().map_err(|_| slip())?,
        least: Entered::parse(least)?,
        most: Entered::parse(most)?,
    })
}
