//! Moist air.

use serde_json::{Value, json};
use sward_rules::Entered;
use sward_rules::sky::{delta_t_c, dew_point_c, wet_bulb_c};

use crate::{Answered, number, text};

/// Dew point, wet bulb and Delta T of a `temperature` such as `20.5 Cel` at a humidity in percent.
pub(crate) fn air(question: &Value) -> Answered {
    let temperature = Entered::parse(text(question, "temperature")?)?.to_temperature()?;
    let humidity = number(question, "humidity_percent")?;
    Ok(json!({
        "dew_point_c": dew_point_c(temperature, humidity)?.value,
        "wet_bulb_c": wet_bulb_c(temperature, humidity)?.value,
        "delta_t_c": delta_t_c(temperature, humidity)?.value,
    }))
}
