//! What was read or seen at the yard: wind by a hand meter or by the trees, and the air.
//!
//! What it means beside a limit is in [`super::wind`] and [`super::temperature`].

use minicbor::{Decode, Encode};
use serde::{Deserialize, Serialize};
use uom::si::velocity::mile_per_hour;

use super::height::{raise, raise_most};
use super::{SkyAdvice, age_min};
use crate::error::{Allowed, Field, Result, RuleError};
use crate::finding::Reason;
use crate::keep_off::Now;
use crate::quantity::Entered;

/// One look at a hand meter.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize, Deserialize)]
pub struct MeterReading {
    /// When, in milliseconds since 1970 UTC.
    #[n(0)]
    pub at_utc_ms: i64,
    /// The speed the meter showed.
    #[n(1)]
    pub wind: Entered,
    /// The highest speed it showed since the reading before, where it was noted.
    #[n(2)]
    pub gust: Option<Entered>,
    /// Where the wind comes from, in degrees clockwise from north; 360 is north.
    #[n(3)]
    pub from_degrees: Option<u16>,
    /// How high above the lawn the meter was held, where it was noted.
    #[n(4)]
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub height: Option<Entered>,
}

/// Wind judged by what it moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Encode, Decode, Serialize, Deserialize)]
pub struct BeaufortSeen {
    /// When, in milliseconds since 1970 UTC.
    #[n(0)]
    pub at_utc_ms: i64,
    /// The force, 0 to 12.
    #[n(1)]
    pub force: u8,
}

/// Wind at the yard. A meter stands above an estimate: whoever has readings gives those.
#[derive(Debug, Clone, Copy)]
pub enum YardWind<'a> {
    /// A series of readings with a hand meter.
    Meter(&'a [MeterReading]),
    /// An estimate by the Beaufort scale, which counts as the upper end of its force.
    Seen(&'a BeaufortSeen),
}

/// The air at the yard.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize, Deserialize)]
pub struct AirReading {
    /// When, in milliseconds since 1970 UTC.
    #[n(0)]
    pub at_utc_ms: i64,
    /// Air temperature in the shade.
    #[n(1)]
    pub temperature: Entered,
    /// Relative humidity in percent, where it was read.
    #[n(2)]
    pub humidity_percent: Option<u8>,
}

/// A series of meter readings in a few numbers.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WindSummary {
    /// Mean of the readings that still count.
    pub mean_mph: f64,
    /// Highest gust noted with them.
    pub gust_mph: Option<f64>,
    /// The highest number of all, mean, single readings and gusts: what is held against a limit.
    pub largest_mph: f64,
    /// The highest of single readings and gusts as it may blow at 10 m, estimated from the height
    /// of each; never below `largest_mph`.
    pub at_10_m_mph: f64,
    /// The lowest height at which the meter was held; none where a reading notes none.
    pub height: Option<Entered>,
    /// How many readings still count.
    pub count: usize,
    /// Time from the first to the last of them, in seconds.
    pub span_s: u32,
    /// Age of the newest, in minutes.
    pub age_min: u32,
    /// Mean direction the wind comes from, in degrees from 1 to 360, where one can be told.
    pub from_degrees: Option<u16>,
    /// What the series lacks to count as a measurement; none when it is whole.
    pub lacks: Option<Reason>,
}

/// Sums up the readings that are not too old; none when there is no such reading.
///
/// A series is whole when it has enough readings over a long enough time and a gust was noted with
/// at least one of them: without a gust the larger of mean and gust is not known. A reading at a
/// height where no meter is held is taken for the lowest's, and the series is not whole.
pub fn summarise(readings: &[MeterReading], now: Now, advice: &SkyAdvice) -> Option<WindSummary> {
    let mut used = Vec::new();
    let mut lacks = None;
    let mut at_10_m_mph = 0.0_f64;
    for reading in readings {
        match age_min(reading.at_utc_ms, now) {
            Err(_) => lacks = Some(Reason::WindReadingToCome),
            Ok(age) if age > advice.wind_age_most_min => {}
            Ok(age) => match speeds(reading) {
                Ok((wind, gust)) => {
                    // Where no meter is held the wind was all the same, and counts as the lowest's.
                    let mut height = reading.height;
                    let raised = raise(height.as_ref()).unwrap_or_else(|_| {
                        let unusable = height.take();
                        lacks = unusable.map(|given| Reason::MeterHeightUnusable { given });
                        raise_most()
                    });
                    let strongest = gust.map_or(wind, |g| g.max(wind));
                    at_10_m_mph = at_10_m_mph.max(strongest * raised);
                    used.push((reading, age, wind, gust, height));
                }
                Err(why) => lacks = Some(why),
            },
        }
    }
    let first = used.iter().map(|u| u.0.at_utc_ms).min()?;
    let last = used.iter().map(|u| u.0.at_utc_ms).max()?;
    let span_s = u32::try_from(last.saturating_sub(first) / 1000).unwrap_or(u32::MAX);
    let mean_mph = used.iter().map(|u| u.2).sum::<f64>() / used.len() as f64;
    let gust_mph = used.iter().filter_map(|u| u.3).reduce(f64::max);
    let largest_mph = used
        .iter()
        .map(|u| u.2)
        .chain(gust_mph)
        .fold(mean_mph, f64::max);

    let least = usize::try_from(advice.readings_least).unwrap_or(usize::MAX);
    if used.len() < least {
        lacks = Some(Reason::TooFewWindReadings {
            count: u32::try_from(used.len()).unwrap_or(u32::MAX),
            needed: advice.readings_least,
        });
    } else if span_s < advice.readings_span_least_s {
        let needed_s = advice.readings_span_least_s;
        lacks = Some(Reason::WindReadingsTooClose { span_s, needed_s });
    } else if gust_mph.is_none() {
        lacks = Some(Reason::NoGustNoted);
    }
    Some(WindSummary {
        mean_mph,
        gust_mph,
        largest_mph,
        at_10_m_mph: at_10_m_mph.max(largest_mph),
        height: lowest(used.iter().map(|u| u.4)),
        count: used.len(),
        span_s,
        age_min: used.iter().map(|u| u.1).min()?,
        from_degrees: mean_direction(used.iter().filter_map(|u| u.0.from_degrees)),
        lacks,
    })
}

/// The lowest of the heights; none where one is missing, or they cannot be compared.
fn lowest(heights: impl Iterator<Item = Option<Entered>>) -> Option<Entered> {
    let mut lowest: Option<Entered> = None;
    for height in heights {
        let height = height?;
        lowest = match lowest {
            Some(least) if least.compare(&height).ok()?.is_le() => Some(least),
            _ => Some(height),
        };
    }
    lowest
}

/// The directions noted with the readings that are not too old, in degrees from north, and the age
/// of each in minutes.
pub(super) fn directions(
    readings: &[MeterReading],
    now: Now,
    advice: &SkyAdvice,
) -> Vec<(u16, u32)> {
    readings
        .iter()
        .filter_map(|r| Some((r.from_degrees?, age_min(r.at_utc_ms, now).ok()?)))
        .filter(|(degrees, age)| *degrees <= 360 && *age <= advice.wind_age_most_min)
        .collect()
}

/// Lower and upper end of a Beaufort force in mph. Force 12 has no upper end.
///
/// US National Weather Service, Beaufort scale, for forces 0 to 6; 7 to 12 from memory.
///
/// # Errors
/// [`RuleError::NotAllowed`] above force 12.
pub fn beaufort_mph(force: u8) -> Result<(f64, f64)> {
    const ENDS: [(f64, f64); 13] = [
        (0.0, 1.0),
        (1.0, 3.0),
        (4.0, 7.0),
        (8.0, 12.0),
        (13.0, 18.0),
        (19.0, 24.0),
        (25.0, 31.0),
        (32.0, 38.0),
        (39.0, 46.0),
        (47.0, 54.0),
        (55.0, 63.0),
        (64.0, 72.0),
        (73.0, f64::INFINITY),
    ];
    ENDS.get(usize::from(force))
        .copied()
        .ok_or_else(|| RuleError::NotAllowed {
            field: Field::BeaufortForce,
            given: force.to_string(),
            allowed: Allowed::BeaufortForce,
        })
}

/// Wind and gust in mph.
fn speeds(reading: &MeterReading) -> std::result::Result<(f64, Option<f64>), Reason> {
    if let Some(degrees) = reading.from_degrees.filter(|d| *d > 360) {
        return Err(Reason::WindDirectionUnusable { degrees });
    }
    let mph = |e: &Entered| {
        e.to_speed()
            .map(|v| v.get::<mile_per_hour>())
            .map_err(|_| Reason::WindReadingUnusable { given: *e })
    };
    Ok((
        mph(&reading.wind)?,
        reading.gust.as_ref().map(mph).transpose()?,
    ))
}

/// The mean of directions as vectors of one length; none when they cancel out.
fn mean_direction(degrees: impl Iterator<Item = u16>) -> Option<u16> {
    let (mut east, mut north, mut count) = (0.0, 0.0, 0.0);
    for degree in degrees {
        let (sin, cos) = f64::from(degree).to_radians().sin_cos();
        (east, north, count) = (east + sin, north + cos, count + 1.0);
    }
    if f64::hypot(east, north) <= 0.1 * count {
        return None;
    }
    let degrees = east.atan2(north).to_degrees().rem_euclid(360.0);
    let whole: u16 = format!("{degrees:.0}").parse().ok()?;
    Some(if whole == 0 { 360 } else { whole })
}
