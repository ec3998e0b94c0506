//! Reading states, zones and times for calculations that have no book and no clock.

use chrono_tz::Tz;
use serde_json::{Value, json};
use sward_rules::Entered;
use sward_rules::finding::Finding;
use sward_rules::place::Place;

use super::Worked;
use crate::args::PlaceArgs;
use crate::error::{CliError, Result};
use crate::times;
use crate::words::verdict;

/// A state and a zone, as typed.
pub(super) fn place(args: &PlaceArgs) -> Result<(Option<Place>, Tz)> {
    Ok((Place::from_typed(&args.state), zone(&args.zone)?))
}

/// A time zone by its name.
pub(super) fn zone(text: &str) -> Result<Tz> {
    text.trim().parse().map_err(|_| {
        CliError::Refused(format!(
            "zone: {text} is no time zone known here: write one like America/New_York"
        ))
    })
}

/// A day and time, in the yard's zone. Without a clock no time of today can be meant.
pub(super) fn time(field: &str, text: &str, zone: Tz) -> Result<i64> {
    if !text.contains('-') {
        return Err(CliError::Refused(format!(
            "{field}: {text} has no day: write it like \"2026-06-15 08:30\""
        )));
    }
    times::when(text, zone, 0).map_err(|error| CliError::Refused(format!("{field}: {error}")))
}

/// The same, where it was given.
pub(super) fn time_if(field: &str, text: Option<&str>, zone: Tz) -> Result<Option<i64>> {
    text.map(|text| time(field, text, zone)).transpose()
}

/// An amount, where it was given.
pub(super) fn amount_if(field: &str, text: Option<&str>) -> Result<Option<Entered>> {
    text.map(|text| amount(field, text)).transpose()
}

/// An amount.
pub(super) fn amount(field: &str, text: &str) -> Result<Entered> {
    Entered::parse(text).map_err(|error| CliError::Refused(format!("{field}: {error}")))
}

/// "yes" or "no", where it was given.
pub(super) fn yes_if(text: Option<&str>) -> Option<bool> {
    text.map(|text| text == "yes")
}

/// A moment for programs: the time in UTC, and as the yard's clocks show it.
pub(super) fn moment_json(utc_ms: Option<i64>, zone: Tz) -> Value {
    utc_ms.map_or(
        Value::Null,
        |utc_ms| json!({ "utc_ms": utc_ms, "local": times::moment(utc_ms, zone) }),
    )
}

/// The state, where rules of it were read; else which were.
pub(super) fn tell_place(worked: &mut Worked, typed: &str, place: Option<Place>) {
    worked.value("place", place.map(Place::code));
    if let Some(place) = place {
        worked.line(format!("Place: {}", place.name()));
    } else {
        let codes: Vec<&str> = Place::ALL.into_iter().map(Place::code).collect();
        worked.line(format!(
            "Place: {} is none whose rules were read ({} were).",
            typed.trim(),
            codes.join(", ")
        ));
    }
}

/// One finding on one line.
pub(super) fn finding_line(finding: &Finding) -> String {
    let held = match (&finding.value, &finding.limit) {
        (Some(value), Some(limit)) => format!("{value}, asked {limit}: "),
        (Some(value), None) => format!("{value}: "),
        (None, Some(limit)) => format!("asked {limit}: "),
        (None, None) => String::new(),
    };
    format!("{}: {held}{}", verdict(finding.verdict), finding.why())
}
