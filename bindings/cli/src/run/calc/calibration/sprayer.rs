//! A sprayer's rate.

use sward_rules::calibrate::{
    SprayRate, TimedCatch, acre_128th_course, acre_128th_rate, boom_rate, spray_rate, timed_rate,
};
use sward_rules::quantity::{Dimension, Unit};

use super::{against, findings, short};
use crate::args::SprayerCalc;
use crate::error::{CliError, Result};
use crate::run::calc::Worked;

/// The rate in one of four ways.
pub(in crate::run::calc) fn sprayer(args: &SprayerCalc) -> Result<Worked> {
    let mut worked = Worked::default();
    let rate = match args {
        SprayerCalc {
            flow: Some(flow),
            speed: Some(speed),
            width: Some(width),
            ..
        } => worked.take("rate", boom_rate(flow, speed, width)?),
        SprayerCalc {
            area: Some(area),
            area_time: Some(area_time),
            caught: Some(caught),
            catch_time,
            ..
        } => {
            let run = TimedCatch {
                area: *area,
                area_time: *area_time,
                caught: *caught,
                catch_time: catch_time.unwrap_or(*area_time),
            };
            worked.take("rate", timed_rate(&run)?)
        }
        SprayerCalc {
            spacing: Some(spacing),
            caught,
            ..
        } => {
            let course = worked.take("course", acre_128th_course(spacing)?);
            worked
                .line(format!(
                    "Go {} and catch one nozzle for as long: fluid ounces are then gallons an acre.",
                    short(&course)
                ))
                .value("course", course);
            let Some(caught) = caught else {
                return Ok(worked);
            };
            worked.take("rate", acre_128th_rate(caught)?)
        }
        SprayerCalc {
            rate: Some(rate), ..
        } => spray_rate(rate)?,
        _ => {
            return Err(CliError::Usage(
                "give --flow --speed --width, or --area --area-time --caught, or --spacing, or \
                 --rate, like --spacing \"20 in\""
                    .into(),
            ));
        }
    };
    told(&mut worked, args, &rate)?;
    Ok(worked)
}

fn told(worked: &mut Worked, args: &SprayerCalc, rate: &SprayRate) -> Result<()> {
    worked
        .line(format!(
            "Rate: {}, that is {}.",
            short(&rate.per_acre),
            short(&rate.per_1000_ft2)
        ))
        .value("rate", rate);
    // In the unit of the rate wanted, so that a person sees the two beside each other.
    let unit =
        args.against
            .wanted
            .map_or(Unit::GALLON_PER_ACRE, |wanted| match wanted.dimension() {
                Dimension::VolumePerArea => wanted.unit(),
                _ => Unit::GALLON_PER_ACRE,
            });
    if let Some(finding) = against(&args.against, &rate.per_acre.convert(unit)?)? {
        findings(worked, &[finding]);
    }
    Ok(())
}
