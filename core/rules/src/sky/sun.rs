//! Where the sun stands over a place, when it rises and sets, and the hours in which air commonly
//! does not mix.
//!
//! Day and zone are passed in; what the hours mean for spraying is in [`super::inversion`].

use chrono::{DateTime, Datelike, NaiveDate, TimeDelta, Utc};
use chrono_tz::Tz;
use serde::Serialize;
use solar_positioning::{
    Horizon, Location, RefractionCorrection, SolarEvents, SolarPositions, delta_t,
};

use super::SkyAdvice;
use crate::error::{Allowed, Field, Result, RuleError};
use crate::note::Note;
use crate::working::{Answer, Working};

const MIN_MS: i64 = 60_000;

/// The years whose sun is told.
const YEARS: std::ops::RangeInclusive<i32> = 1970..=2199;

/// How far back or ahead the other end of a night is looked for.
const NIGHT_MOST: TimeDelta = TimeDelta::hours(24);

/// Longest time over which hours are listed.
const LISTED_MOST: TimeDelta = TimeDelta::days(15);

/// A place on earth.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Place {
    lat_deg: f64,
    lon_deg: f64,
}

impl Place {
    /// A place by its latitude (north above zero) and longitude (east above zero) in degrees.
    ///
    /// ```
    /// use sward_rules::sky::Place;
    /// assert!(Place::new(40.7128, -74.006).is_ok());
    /// let error = Place::new(-74.006, 190.0).unwrap_err();
    /// assert!(error.to_string().starts_with("the longitude is 190"));
    /// ```
    ///
    /// # Errors
    /// [`RuleError::NotAllowed`] for what is no place on earth.
    pub fn new(lat_deg: f64, lon_deg: f64) -> Result<Self> {
        within(lat_deg, 90.0, Field::Latitude, Allowed::Latitude)?;
        within(lon_deg, 180.0, Field::Longitude, Allowed::Longitude)?;
        Ok(Self { lat_deg, lon_deg })
    }

    /// Latitude in degrees, north above zero.
    pub fn lat_deg(&self) -> f64 {
        self.lat_deg
    }

    /// Longitude in degrees, east above zero.
    pub fn lon_deg(&self) -> f64 {
        self.lon_deg
    }

    fn location(self) -> Location {
        Location {
            latitude: self.lat_deg,
            longitude: self.lon_deg,
        }
    }
}

/// A day on which the sun neither rises nor sets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum AllDay {
    /// It stays up.
    Up,
    /// It stays down.
    Down,
}

/// The sun over one day of a place's own calendar. A time that the day does not have is not there:
/// near the poles there may be a rise without a set, or neither.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct SunDay {
    /// The day.
    pub date: NaiveDate,
    /// Where the sun neither rises nor sets on this day: whether it is up.
    pub all_day: Option<AllDay>,
    /// Start of civil twilight before the rise (sun 6 degrees below the horizon), in milliseconds
    /// since 1970 UTC, as all of these.
    pub first_light_utc_ms: Option<i64>,
    /// Sunrise: the sun's upper edge on a flat horizon at sea level.
    pub rises_utc_ms: Option<i64>,
    /// Sunset.
    pub sets_utc_ms: Option<i64>,
    /// End of civil twilight after the set; it may lie past midnight.
    pub last_light_utc_ms: Option<i64>,
}

/// Sunrise, sunset and civil twilight on a day of the place's own calendar.
///
/// The sun's position by Reda and Andreas (2004); sunrise as in almanacs, with the sun's centre 50
/// minutes of arc below a flat horizon.
///
/// ```
/// use sward_rules::sky::{Place, sun_day};
/// let new_york = Place::new(40.7128, -74.006)?;
/// let day = "2024-06-20".parse().expect("a day");
/// let sun = sun_day(new_york, day, chrono_tz::America::New_York)?.value;
/// let rises = chrono::DateTime::from_timestamp_millis(sun.rises_utc_ms.expect("it rises"));
/// assert_eq!(rises.expect("a time").format("%H:%M").to_string(), "09:24");
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// [`RuleError::NotAllowed`] for a day before 1970 or after 2199.
pub fn sun_day(place: Place, date: NaiveDate, zone: Tz) -> Result<Answer<SunDay>> {
    let late = || no_such_day(&date);
    if !YEARS.contains(&date.year()) {
        return Err(late());
    }
    let sun = Sun::near(place, date.year())?;
    let day = SolarEvents::new()
        .for_date(
            date,
            &zone,
            place.location(),
            sun.delta_t_s,
            Horizon::SunriseSunset,
        )
        .map_err(|_| late())?;
    let rises = day.rises.first().map(DateTime::to_utc);
    let sets = day.sets.last().map(DateTime::to_utc);
    let all_day = match (day.always_above(), day.always_below()) {
        (true, _) => Some(AllDay::Up),
        (_, true) => Some(AllDay::Down),
        _ => None,
    };
    let half_day = TimeDelta::hours(12);
    let first_light = match rises {
        Some(at) => sun.next(Edge::Rise, SIX, at - half_day, at)?,
        None => None,
    };
    let last_light = match sets {
        Some(at) => sun.next(Edge::Set, SIX, at, at + half_day)?,
        None => None,
    };
    let ms = |at: Option<DateTime<Utc>>| at.map(|at| at.timestamp_millis());
    Ok(working(place)
        .input("day", date)
        .input("time zone", zone.name())
        .note(Note::FlatHorizon)
        .gives(SunDay {
            date,
            all_day,
            first_light_utc_ms: ms(first_light),
            rises_utc_ms: ms(rises),
            sets_utc_ms: ms(sets),
            last_light_utc_ms: ms(last_light),
        }))
}

/// The air and the height through which the sun is seen: it lifts the sun a little near the
/// horizon.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeenThrough {
    /// Height above the sea, in metres.
    pub height_m: f64,
    /// Air pressure there, in hPa.
    pub pressure_hpa: f64,
    /// Air temperature, in °C.
    pub temperature_c: f64,
}

impl Default for SeenThrough {
    /// At the sea, at 1013.25 hPa and 15 °C.
    fn default() -> Self {
        Self {
            height_m: 0.0,
            pressure_hpa: 1013.25,
            temperature_c: 15.0,
        }
    }
}

/// Where the sun stands.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SunPosition {
    /// Degrees from straight up; above 90 the sun is down.
    pub zenith_deg: f64,
    /// Degrees above the horizon, below zero under it.
    pub elevation_deg: f64,
    /// Degrees clockwise from north.
    pub azimuth_deg: f64,
}

/// Where the sun stands over a place at a moment.
///
/// # Errors
/// [`RuleError::NotAllowed`] for a moment before 1970 or after 2199, or air that is not outdoors.
pub fn sun_position(place: Place, at_utc_ms: i64, air: SeenThrough) -> Result<Answer<SunPosition>> {
    if !(-500.0..=9_000.0).contains(&air.height_m) {
        return Err(RuleError::NotAllowed {
            field: Field::PlaceHeight,
            given: format!("{} m", air.height_m),
            allowed: Allowed::PlaceHeight,
        });
    }
    let outdoors = (300.0..=1_100.0).contains(&air.pressure_hpa)
        && (-90.0..=60.0).contains(&air.temperature_c);
    let refraction = RefractionCorrection::new(air.pressure_hpa, air.temperature_c)
        .ok()
        .filter(|_| outdoors)
        .ok_or_else(|| RuleError::NotAllowed {
            field: Field::Air,
            given: format!("{} hPa, {} °C", air.pressure_hpa, air.temperature_c),
            allowed: Allowed::AirOutdoors,
        })?;
    let at = moment(at_utc_ms)?;
    let sun = Sun::near(place, at.year())?;
    let position = SolarPositions::new()
        .at(
            &at,
            place.location(),
            air.height_m,
            sun.delta_t_s,
            Some(refraction),
        )
        .map_err(|_| no_such_day(&at.to_rfc3339()))?;
    Ok(working(place)
        .input("moment", at.to_rfc3339())
        .input("height above the sea", format!("{} m", air.height_m))
        .input("air pressure", format!("{} hPa", air.pressure_hpa))
        .input("temperature", format!("{} °C", air.temperature_c))
        .gives(SunPosition {
            zenith_deg: position.zenith_angle(),
            elevation_deg: position.elevation_angle(),
            azimuth_deg: position.azimuth(),
        }))
}

/// Hours in which air commonly does not mix, from before a sunset to after the sunrise.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct InversionHours {
    /// Their start, in milliseconds since 1970 UTC; none where no sunset lies in the day before.
    pub from_utc_ms: Option<i64>,
    /// Their end; none where no sunrise lies in the day after.
    pub to_utc_ms: Option<i64>,
}

/// The hours in which air commonly does not mix that touch a span of time, in order.
///
/// From `sunset_before_min` before sunset to `sunrise_after_min` after sunrise, after the GRDC
/// Spray Application Manual, module 10, which has one to two hours before sunset and about one
/// after sunrise. Outside of them there may be an inversion all the same: see
/// [`super::InversionSign`].
///
/// # Errors
/// [`RuleError::NotAllowed`] for a time before 1970 or after 2199, or over more than 15 days.
pub fn inversion_hours(
    place: Place,
    (from_utc_ms, to_utc_ms): (i64, i64),
    advice: &SkyAdvice,
) -> Result<Answer<Vec<InversionHours>>> {
    let (from, to) = (moment(from_utc_ms)?, moment(to_utc_ms)?);
    if to < from || to - from > LISTED_MOST {
        return Err(no_such_day(&format!(
            "{} to {}",
            from.to_rfc3339(),
            to.to_rfc3339()
        )));
    }
    let margins = Margins::of(advice);
    let sun = Sun::near(place, from.year())?;
    let (mut at, end) = (from - margins.after_rise, to + margins.before_set);
    let mut hours: Vec<InversionHours> = Vec::new();
    while at <= end {
        let sets = if sun.is_down(at) {
            sun.last_set(at - NIGHT_MOST, at)?
        } else {
            match sun.next(Edge::Set, FLAT, at, end)? {
                Some(sets) => Some(sets),
                None => break,
            }
        };
        let dark_from = sets.unwrap_or(at).max(at);
        let rises = sun.next(Edge::Rise, FLAT, dark_from, dark_from + NIGHT_MOST)?;
        let ms = |at: DateTime<Utc>| at.timestamp_millis();
        let next = InversionHours {
            from_utc_ms: sets.map(|s| ms(s - margins.before_set)),
            to_utc_ms: rises.map(|r| ms(r + margins.after_rise)),
        };
        // Where the day is short, one night's hours run into the next.
        match hours
            .last_mut()
            .filter(|last| last.to_utc_ms >= next.from_utc_ms)
        {
            Some(last) => last.to_utc_ms = next.to_utc_ms,
            None => hours.push(next),
        }
        let Some(rises) = rises else { break };
        at = rises + TimeDelta::minutes(1);
    }
    Ok(working(place)
        .input("before sunset", format!("{} min", advice.sunset_before_min))
        .input("after sunrise", format!("{} min", advice.sunrise_after_min))
        .note(Note::FlatHorizon)
        .note(Note::InversionAnyHour)
        .gives(hours))
}

/// Whether any of a span of time lies in the hours in which air commonly does not mix; none when
/// that cannot be told.
pub(super) fn in_inversion_hours(
    place: Place,
    (from_utc_ms, to_utc_ms): (i64, i64),
    advice: &SkyAdvice,
) -> Option<bool> {
    let (from, to) = (moment(from_utc_ms).ok()?, moment(to_utc_ms).ok()?);
    if to < from {
        return None;
    }
    // Some time of the night lies within the margins of the span.
    let margins = Margins::of(advice);
    let (from, to) = (from - margins.after_rise, to + margins.before_set);
    let sun = Sun::near(place, from.year()).ok()?;
    let ends = (sun.above_flat_deg(from).ok()?, sun.above_flat_deg(to).ok()?);
    sun.is_down_between((from, to), ends)
}

/// How far the hours reach beyond the night.
struct Margins {
    before_set: TimeDelta,
    after_rise: TimeDelta,
}

impl Margins {
    fn of(advice: &SkyAdvice) -> Self {
        // Half a day on either side is every hour there is.
        let minutes = |min: u32| TimeDelta::minutes(i64::from(min.min(12 * 60)));
        Self {
            before_set: minutes(advice.sunset_before_min),
            after_rise: minutes(advice.sunrise_after_min),
        }
    }
}

#[derive(Clone, Copy)]
enum Edge {
    Rise,
    Set,
}

/// The sun goes round by no more than this, in degrees an hour: 15, and the half minute by which a
/// day may be longer or shorter.
const TURNS_MOST_DEG_H: f64 = 15.01;
/// Its declination changes by less than this, in degrees an hour.
const DECLINES_MOST_DEG_H: f64 = 0.02;

const FLAT: Horizon = Horizon::SunriseSunset;
const SIX: Horizon = Horizon::CivilTwilight;

/// The sun over a place, within a few years.
struct Sun {
    place: Place,
    /// By how much the earth's turning lags behind even time.
    delta_t_s: f64,
}

impl Sun {
    fn near(place: Place, year: i32) -> Result<Self> {
        let delta_t_s = delta_t::estimate_from_date(year, 7).map_err(|_| no_such_day(&year))?;
        Ok(Self { place, delta_t_s })
    }

    fn next(
        &self,
        edge: Edge,
        horizon: Horizon,
        from: DateTime<Utc>,
        to: DateTime<Utc>,
    ) -> Result<Option<DateTime<Utc>>> {
        let (events, at) = (SolarEvents::new(), self.place.location());
        // That it cannot be told is not that there is none.
        match edge {
            Edge::Rise => events.next_rise(&from, &to, at, self.delta_t_s, horizon),
            Edge::Set => events.next_set(&from, &to, at, self.delta_t_s, horizon),
        }
        .map_err(|_| no_such_day(&from.to_rfc3339()))
    }

    fn last_set(&self, from: DateTime<Utc>, to: DateTime<Utc>) -> Result<Option<DateTime<Utc>>> {
        let mut last = None;
        let mut at = from;
        while let Some(sets) = self.next(Edge::Set, FLAT, at, to)? {
            last = Some(sets);
            at = sets + TimeDelta::minutes(1);
            if at >= to {
                break;
            }
        }
        Ok(last)
    }

    fn is_down(&self, at: DateTime<Utc>) -> bool {
        // What cannot be told counts as dark, the side on which care is taken.
        self.above_flat_deg(at).map_or(true, |above| above <= 0.0)
    }

    /// Degrees above where it rises and sets.
    fn above_flat_deg(&self, at: DateTime<Utc>) -> Result<f64> {
        let place = self.place.location();
        let position = SolarPositions::new().at(&at, place, 0.0, self.delta_t_s, None);
        let position = position.map_err(|_| no_such_day(&at.to_rfc3339()))?;
        Ok(position.elevation_angle() - FLAT.elevation_angle())
    }

    /// Whether it is down at any time of a span, by how far it is up at both ends: as it climbs and
    /// sinks no faster than the earth turns, it cannot come down and up again in a short time. Where
    /// that does not tell, either half of the span is asked; none where it cannot be told.
    fn is_down_between(
        &self,
        (from, to): (DateTime<Utc>, DateTime<Utc>),
        (above_from, above_to): (f64, f64),
    ) -> Option<bool> {
        if above_from <= 0.0 || above_to <= 0.0 {
            return Some(true);
        }
        let span = to - from;
        let rate_deg_h =
            TURNS_MOST_DEG_H * self.place.lat_deg.to_radians().cos() + DECLINES_MOST_DEG_H;
        let swings_most_deg = rate_deg_h * span.as_seconds_f64() / 3600.0;
        if above_from + above_to > swings_most_deg {
            return Some(false);
        }
        // So near to setting that nobody could see which.
        if span < TimeDelta::seconds(30) {
            return Some(true);
        }
        let middle = from + span / 2;
        let above = self.above_flat_deg(middle).ok()?;
        let first = self.is_down_between((from, middle), (above_from, above))?;
        if first {
            return Some(true);
        }
        self.is_down_between((middle, to), (above, above_to))
    }
}

fn working(place: Place) -> Working {
    Working::new(
        "solar position algorithm",
        "Reda and Andreas 2004, Solar Energy 76, 577 (NREL/TP-560-34302)",
    )
    .input("latitude", format!("{}°", place.lat_deg))
    .input("longitude", format!("{}°", place.lon_deg))
}

fn moment(utc_ms: i64) -> Result<DateTime<Utc>> {
    DateTime::from_timestamp_millis(utc_ms)
        .filter(|at| YEARS.contains(&at.year()))
        .ok_or_else(|| no_such_day(&format!("{} min after 1970", utc_ms / MIN_MS)))
}

fn no_such_day(given: &impl ToString) -> RuleError {
    RuleError::NotAllowed {
        field: Field::DayOfSun,
        given: given.to_string(),
        allowed: Allowed::DayOfSun,
    }
}

fn within(degrees: f64, most: f64, field: Field, allowed: Allowed) -> Result<()> {
    if degrees.abs() <= most {
        return Ok(());
    }
    Err(RuleError::NotAllowed {
        field,
        given: degrees.to_string(),
        allowed,
    })
}
