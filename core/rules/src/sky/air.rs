//! Formulas for moist air: wet bulb, Delta T and dew point, each with the range it holds for.
//!
//! What a drying speed means for spraying is in [`super::drying`].

use uom::si::f64::ThermodynamicTemperature;
use uom::si::thermodynamic_temperature::degree_celsius;

use crate::error::{Allowed, Field, Result, RuleError};
use crate::note::Note;
use crate::working::{Answer, Working};

/// Wet bulb temperature in °C.
///
/// Stull, R. (2011), J. Appl. Meteor. Climatol. 50, 2267; for humidities from 5 to 99 % and
/// temperatures from −20 to 50 °C at sea level pressure.
///
/// # Errors
/// [`RuleError::NotAllowed`] outside of that range.
pub fn wet_bulb_c(
    temperature: ThermodynamicTemperature,
    humidity_percent: f64,
) -> Result<Answer<f64>> {
    let t = in_range(temperature)?;
    let rh = humidity_percent;
    if !(5.0..=99.0).contains(&rh) {
        return Err(RuleError::NotAllowed {
            field: Field::Humidity,
            given: format!("{rh} %"),
            allowed: Allowed::WetBulbHumidity,
        });
    }
    let wet_bulb = t * (0.151_977 * (rh + 8.313_659).sqrt()).atan() + (t + rh).atan()
        - (rh - 1.676_331).atan()
        + 0.003_918_38 * rh.powf(1.5) * (0.023_101 * rh).atan()
        - 4.686_035;
    Ok(Working::new(
        "Stull's wet bulb",
        "Stull 2011, J. Appl. Meteor. Climatol. 50, 2267",
    )
    .input("temperature", format!("{t:.1} °C"))
    .input("humidity", format!("{rh} %"))
    .note(Note::WetBulbAccuracy)
    .gives(wet_bulb))
}

/// Delta T in °C: air temperature less wet bulb, a measure of how fast drops dry.
///
/// # Errors
/// As [`wet_bulb_c`].
pub fn delta_t_c(
    temperature: ThermodynamicTemperature,
    humidity_percent: f64,
) -> Result<Answer<f64>> {
    let wet_bulb = wet_bulb_c(temperature, humidity_percent)?;
    let mut working = wet_bulb
        .working
        .input("wet bulb", format!("{:.2} °C", wet_bulb.value));
    working.formula = "air temperature less Stull's wet bulb";
    Ok(working.gives(temperature.get::<degree_celsius>() - wet_bulb.value))
}

/// Dew point in °C, by the Magnus formula with the constants of Alduchov and Eskridge (1996).
///
/// # Errors
/// [`RuleError::NotAllowed`] for temperatures outside −20 to 50 °C, or a humidity that is not
/// above 0 and at most 100 %.
pub fn dew_point_c(
    temperature: ThermodynamicTemperature,
    humidity_percent: f64,
) -> Result<Answer<f64>> {
    const B: f64 = 17.625;
    const C: f64 = 243.04;
    let t = in_range(temperature)?;
    if !(humidity_percent > 0.0 && humidity_percent <= 100.0) {
        return Err(RuleError::NotAllowed {
            field: Field::Humidity,
            given: format!("{humidity_percent} %"),
            allowed: Allowed::Humidity,
        });
    }
    let gamma = (humidity_percent / 100.0).ln() + B * t / (C + t);
    Ok(Working::new(
        "Magnus formula, 17.625 and 243.04 °C",
        "Alduchov and Eskridge 1996, J. Appl. Meteor. 35, 601",
    )
    .input("temperature", format!("{t:.1} °C"))
    .input("humidity", format!("{humidity_percent} %"))
    .gives(C * gamma / (B - gamma)))
}

fn in_range(temperature: ThermodynamicTemperature) -> Result<f64> {
    let celsius = temperature.get::<degree_celsius>();
    if (-20.0..=50.0).contains(&celsius) {
        return Ok(celsius);
    }
    Err(RuleError::NotAllowed {
        field: Field::AirTemperature,
        given: format!("{celsius:.1} °C"),
        allowed: Allowed::AirTemperature,
    })
}
