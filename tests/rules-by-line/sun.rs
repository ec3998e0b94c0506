//! The sun.

use serde_json::{Value, json};
use sward_rules::sky::{Place, SeenThrough, sun_day, sun_position};

use crate::{Answered, Fault, number, text};

/// The sun's day at `lat` and `lon`, on a `date` such as `2026-06-21` in a `zone` such as `Etc/GMT+5`.
pub(crate) fn day(question: &Value) -> Answered {
    let date = text(question, "date")?
        .parse()
        .map_err(|_| Fault::Question("`date` is no day".into()))?;
    let zone = text(question, "zone")?
        .parse()
        .map_err(|_| Fault::Question("`zone` is no time zone".into()))?;
    Ok(json!(sun_day(place(question)?, date, zone)?.value))
}

/// Where the sun stands at `lat` and `lon` at the moment `at_utc_ms`, seen from the sea.
pub(crate) fn position(question: &Value) -> Answered {
    let at_utc_ms = question["at_utc_ms"]
        .as_i64()
        .ok_or_else(|| Fault::Question("`at_utc_ms` is no moment".into()))?;
    let position = sun_position(place(question)?, at_utc_ms, SeenThrough::default())?;
    Ok(json!(position.value))
}

fn place(question: &Value) -> Result<Place, Fault> {
    Ok(Place::new(
        number(question, "lat")?,
        number(question, "lon")?,
    )?)
}
