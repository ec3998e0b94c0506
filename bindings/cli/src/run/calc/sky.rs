//! The sky: sun, wind, air, inversions, and what lies down wind.

use chrono::TimeZone as _;
use chrono_tz::Tz;
use serde_json::json;
use sward_rules::finding::{Check, Finding};
use sward_rules::keep_off::Now;
use sward_rules::label::{Label, Method};
use sward_rules::quantity::Unit;
use sward_rules::sky::{
    AllDay, Around, InversionLook, Nearby, Place, Sector, SeenThrough, SkyAdvice, SkyInputs,
    SunDay, beaufort_mph, delta_t_c, dew_point_c, down_wind as lies_down_wind, inversion_hours,
    must_be_wind, outlook, sun_day, sun_position, wet_bulb_c, wind_at_10_m_mph,
};
use sward_rules::{Entered, Field};

use super::Worked;
use crate::args::{AirCalc, DayArgs, DownWindCalc, InversionCalc, SunCalc, WindCalc};
use crate::error::{CliError, Result};
use crate::run::reading::inversion_signs;
use crate::times::{moment, when};
use crate::words::{code, verdict as said};

/// A look is judged for its own moment, not for a treatment that follows.
const MOMENT_MIN: u32 = 1;

const HALF_DAY_MS: i64 = 12 * 3_600_000;

/// Sunrise, sunset, twilight and where the sun stands.
pub(super) fn sun(args: &SunCalc) -> Result<Worked> {
    let (place, zone) = (place(&args.day)?, args.day.zone);
    let mut worked = Worked::default();
    let sun = worked.take("sun", sun_day(place, args.day.day, zone)?);
    told_sun(&mut worked, &sun, zone);
    if let Some(at) = &args.at {
        let at_utc_ms = at_of(at, &args.day)?;
        let position = sun_position(place, at_utc_ms, SeenThrough::default())?;
        let position = worked.take("sun_position", position);
        worked
            .line(format!(
                "{}: {:.1}° above the horizon, {:.1}° from north",
                moment(at_utc_ms, zone),
                position.elevation_deg,
                position.azimuth_deg
            ))
            .value("sun_position", position);
    }
    Ok(worked)
}

fn told_sun(worked: &mut Worked, sun: &SunDay, zone: Tz) {
    let mut line = |name: &str, at: Option<i64>| {
        if let Some(at) = at {
            worked.line(format!("{name}: {}", moment(at, zone)));
        }
    };
    line("first light", sun.first_light_utc_ms);
    line("sunrise", sun.rises_utc_ms);
    line("sunset", sun.sets_utc_ms);
    line("last light", sun.last_light_utc_ms);
    match sun.all_day {
        Some(AllDay::Up) => worked.line("the sun stays up all day"),
        Some(AllDay::Down) => worked.line("the sun stays down all day"),
        None => worked,
    }
    .value("sun", sun);
}

/// A wind in other units and at 10 m, and a force in mph.
pub(super) fn wind(args: &WindCalc) -> Result<Worked> {
    let mut worked = Worked::default();
    if let Some(speed) = args.speed {
        let speed_m_s = must_be_wind(&speed)?.value;
        let units = ["mph", "km/h", "m/s", "kn"];
        let in_units = units
            .iter()
            .map(|unit| Ok(speed.convert(Unit::parse(unit)?)?.amount().round_dp(1)))
            .collect::<Result<Vec<_>>>()?;
        let shown: Vec<String> = in_units
            .iter()
            .zip(units)
            .map(|(amount, unit)| format!("{} {unit}", amount.normalize()))
            .collect();
        let raised = worked.take(
            "wind_at_10_m",
            wind_at_10_m_mph(&speed, args.height.as_ref())?,
        );
        let height = args
            .height
            .map_or_else(|| "3 ft, assumed".into(), |h: Entered| h.for_person());
        worked
            .line(shown.join(" = "))
            .line(format!(
                "at 33 ft (10 m), by estimate from {height}: {raised:.1} mph"
            ))
            .value("wind_m_s", speed_m_s)
            .value("wind_at_10_m_mph", raised);
    }
    if let Some(force) = args.beaufort {
        let (least_mph, most_mph) = beaufort_mph(force)?;
        let most = Some(most_mph).filter(|most| most.is_finite());
        let range = most.map_or_else(
            || format!("{least_mph} mph or more"),
            |most| format!("{least_mph} to {most} mph"),
        );
        worked
            .line(format!("Beaufort force {force}: {range}"))
            .value("beaufort_least_mph", least_mph)
            .value("beaufort_most_mph", most);
    }
    Ok(worked)
}

/// Wet bulb, Delta T and dew point.
pub(super) fn air(args: &AirCalc) -> Result<Worked> {
    let temperature = args
        .temperature
        .to_temperature()
        .map_err(|e| e.of(Field::AirTemperature))?;
    let mut worked = Worked::default();
    let dew = worked.take("dew_point", dew_point_c(temperature, args.humidity)?);
    let wet_bulb = worked.take("wet_bulb", wet_bulb_c(temperature, args.humidity)?);
    let delta_t = worked.take("delta_t", delta_t_c(temperature, args.humidity)?);
    let advice = SkyAdvice::default();
    worked
        .line(format!(
            "wet bulb: {wet_bulb:.1} °C ({:.1} °F)",
            fahrenheit(wet_bulb)
        ))
        .line(format!(
            "dew point: {dew:.1} °C ({:.1} °F)",
            fahrenheit(dew)
        ))
        .line(format!(
            "Delta T: {delta_t:.1} °C; for sprays {} to {} is advised, not from {}, and methods \
             differ by about 0.3",
            advice.delta_t_least_c, advice.delta_t_care_c, advice.delta_t_stop_c
        ))
        .value("wet_bulb_c", wet_bulb)
        .value("dew_point_c", dew)
        .value("delta_t_c", delta_t);
    Ok(worked)
}

fn fahrenheit(celsius: f64) -> f64 {
    celsius * 1.8 + 32.0
}

/// The hours of a day in which air commonly does not mix, and what signs then say.
pub(super) fn inversion(args: &InversionCalc) -> Result<Worked> {
    let (place, zone) = (place(&args.day)?, args.day.zone);
    let advice = SkyAdvice::default();
    let noon_ms = noon_of(&args.day)?;
    let span = (noon_ms - HALF_DAY_MS, noon_ms + HALF_DAY_MS - 1);
    let mut worked = Worked::default();
    let hours = worked.take("inversion_hours", inversion_hours(place, span, &advice)?);
    if hours.is_empty() {
        worked.line("the sun does not come near setting on this day");
    }
    let side = |at: Option<i64>, open: &str| at.map_or_else(|| open.into(), |at| moment(at, zone));
    for night in &hours {
        worked.line(format!(
            "air commonly does not mix from {} to {}",
            side(night.from_utc_ms, "days before"),
            side(night.to_utc_ms, "days after")
        ));
    }
    worked.value("inversion_hours", &hours);
    if let Some(at) = &args.at {
        let finding = judged(place, at_of(at, &args.day)?, &args.signs)?;
        worked
            .line(format!("{}: {}", said(finding.verdict), finding.why()))
            .value("finding", finding);
    }
    Ok(worked)
}

fn judged(place: Place, at_utc_ms: i64, signs: &[String]) -> Result<Finding> {
    let (label, advice) = (Label::unfilled(Method::FoliarSpray), SkyAdvice::default());
    let look = inversion_signs(signs)?.map(|signs| InversionLook { at_utc_ms, signs });
    let now = Now {
        utc_ms: at_utc_ms,
        proven: true,
    };
    let mut inputs = SkyInputs::new(&label, now, &advice);
    inputs.job_min = MOMENT_MIN;
    inputs.place = Some(place);
    inputs.inversion = look.as_ref();
    let found = outlook(&inputs).into_iter();
    Ok(found
        .filter(|f| f.check == Check::Inversion)
        .max_by_key(|f| f.verdict)
        .unwrap_or_else(|| {
            Finding::unknown(Check::Inversion, sward_rules::finding::Reason::NotChecked)
        }))
}

/// What lies down wind.
pub(super) fn down_wind(args: &DownWindCalc) -> Result<Worked> {
    let around = args
        .things
        .iter()
        .map(|text| thing(text))
        .collect::<Result<Vec<_>>>()?;
    let sorted = lies_down_wind(&around, &args.from)?;
    let names = |things: &[&Nearby]| -> Vec<String> {
        things.iter().map(|t| t.what.name().to_owned()).collect()
    };
    let mut worked = Worked::default();
    for (said, things) in [
        ("down wind", &sorted.down_wind),
        ("may lie down wind", &sorted.maybe),
        ("not down wind", &sorted.aside),
    ] {
        if !things.is_empty() {
            worked.line(format!("{said}: {}", names(things).join(", ")));
        }
    }
    worked
        .value("down_wind", json!(sorted))
        .value("verdict", sorted.verdict());
    Ok(worked)
}

/// Reads `hive=90`, `windows=120-180`, or `hive` alone where nobody knows.
fn thing(text: &str) -> Result<Nearby> {
    let (what, lies) = match text.split_once('=') {
        Some((what, lies)) => (what, Some(sector(lies)?)),
        None => (text, None),
    };
    let what = what.trim().to_lowercase().replace([' ', '-'], "_");
    let around: Around = code(&what).ok_or_else(|| {
        let all: Vec<String> = Around::ALL.iter().map(|a| word_of(*a)).collect();
        CliError::Usage(format!("--thing {text}: write one of {}", all.join(", ")))
    })?;
    Ok(Nearby {
        what: around,
        name: String::new(),
        lies,
    })
}

fn word_of(around: Around) -> String {
    json!(around).as_str().unwrap_or_default().replace('_', "-")
}

fn sector(text: &str) -> Result<Sector> {
    let degrees = |text: &str| {
        text.trim().parse::<u16>().map_err(|_| {
            CliError::Usage(format!(
                "{text}: write a direction in degrees from north, like 90, or two like 120-180"
            ))
        })
    };
    Ok(match text.split_once('-') {
        Some((from, to)) => Sector::new(degrees(from)?, degrees(to)?)?,
        None => Sector::at(degrees(text)?)?,
    })
}

fn place(args: &DayArgs) -> Result<Place> {
    Ok(Place::new(args.lat, args.lon)?)
}

/// A time of the day asked for, in its place's zone.
fn at_of(text: &str, args: &DayArgs) -> Result<i64> {
    when(text, args.zone, noon_of(args)?)
}

/// Noon of the day asked for.
fn noon_of(args: &DayArgs) -> Result<i64> {
    let noon = args.day.and_hms_opt(12, 0, 0);
    noon.and_then(|noon| args.zone.from_local_datetime(&noon).earliest())
        .map(|noon| noon.timestamp_millis())
        .ok_or_else(|| CliError::Usage(format!("{}: give another day", args.day)))
}
