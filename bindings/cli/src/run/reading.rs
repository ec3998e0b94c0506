//! Readings at the yard: wind by meter or by the trees, air, soil, blooms, signs of an inversion.

use chrono_tz::Tz;
use serde_json::json;
use sward_book::fact::SkySeen;
use sward_book::ids::VisitId;
use sward_rules::Entered;
use sward_rules::sky::{
    AirReading, BeaufortSeen, BloomLook, InversionLook, MeterReading, SkyAdvice, SoilLook,
    must_be_meter_height, summarise,
};

use crate::app::App;
use crate::args::{ReadingArgs, SkyArgs, WindArgs};
use crate::error::{CliError, Result};
use crate::names;
use crate::print::{Answer, Page};
use crate::times::when;
use crate::words::code;

use super::last_own_fact;

/// A series of readings on a lawn is short; a longer file is another one.
const CSV_BYTES_MOST: u64 = 1024 * 1024;

/// Runs `sward reading`.
pub(super) fn run(app: &App, args: &ReadingArgs) -> Result<Answer> {
    let mut book = app.writing()?;
    let visit = names::visit(&book, &args.visit)?;
    let zone = app.zone_of_visit(&book, visit)?;
    let now = app.now_utc_ms();
    let readings = meter_readings(&args.wind, zone, now)?;
    let seen = sky_seen(visit, &args.sky, zone, now)?;
    if readings.is_empty() && seen.is_none() {
        return Err(CliError::Usage(
            "give what was read or seen, like --wind \"6 mph gust 9 mph\" or --soil fit".into(),
        ));
    }
    let mut page = Page::default();
    let mut facts = Vec::new();
    let mut summary = None;
    if !readings.is_empty() {
        summary = summarise(&readings, book.now()?, &SkyAdvice::default());
        book.measure_wind(visit, readings)?;
        facts.push(last_own_fact(&book, visit)?);
    }
    if let Some(s) = &summary {
        let gust = s
            .gust_mph
            .map_or_else(|| "no gust noted".into(), |g| format!("gust {g:.1} mph"));
        page.line(format!(
            "Wind: mean {:.1} mph, {gust}, {} readings over {} s.",
            s.mean_mph, s.count, s.span_s
        ));
        if let Some(lacks) = &s.lacks {
            page.item(format!("not a whole series yet: {lacks}"));
        }
    }
    if let Some(seen) = seen {
        book.see_sky(seen)?;
        facts.push(last_own_fact(&book, visit)?);
        page.line("Recorded what was seen.");
    }
    Ok(Answer::new(
        page,
        json!({ "visit": visit, "facts": facts, "wind": summary }),
    ))
}

/// The readings of a wind meter, from flags and from a file.
pub(super) fn meter_readings(args: &WindArgs, zone: Tz, now: i64) -> Result<Vec<MeterReading>> {
    let mut readings = Vec::new();
    for text in &args.wind {
        readings.push(meter_reading(text, zone, now)?);
    }
    if let Some(path) = &args.wind_file {
        let bytes = super::read_file(path, CSV_BYTES_MOST)?;
        readings.extend(from_csv(&bytes, zone, now)?);
    }
    Ok(readings)
}

/// Reads `6 mph gust 9 mph from 200 at 5 ft @08:01`; all but the speed may be left out.
fn meter_reading(text: &str, zone: Tz, now: i64) -> Result<MeterReading> {
    let (rest, at) = match text.rsplit_once('@') {
        Some((rest, at)) => (rest, when(at, zone, now)?),
        None => (text, now),
    };
    let (rest, height) = match rest.rsplit_once(" at ") {
        Some((rest, height)) => (rest, Some(meter_height(height)?)),
        None => (rest, None),
    };
    let (rest, from) = match rest.rsplit_once(" from ") {
        Some((rest, from)) => (rest, Some(degrees(from)?)),
        None => (rest, None),
    };
    let (wind, gust) = match rest.split_once(" gust ") {
        Some((wind, gust)) => (wind, Some(Entered::parse(gust)?)),
        None => (rest, None),
    };
    Ok(MeterReading {
        at_utc_ms: at,
        wind: Entered::parse(wind)?,
        gust,
        from_degrees: from,
        height,
    })
}

fn meter_height(text: &str) -> Result<Entered> {
    let height = Entered::parse(text)?;
    must_be_meter_height(&height)?;
    Ok(height)
}

fn degrees(text: &str) -> Result<u16> {
    let text = text.trim().trim_end_matches('°');
    text.parse().ok().filter(|d| *d <= 360).ok_or_else(|| {
        CliError::Refused(format!(
            "from {text}: give the direction in degrees from north, 0 to 360"
        ))
    })
}

/// A series with the columns time and wind, and gust and from where they were noted.
fn from_csv(bytes: &[u8], zone: Tz, now: i64) -> Result<Vec<MeterReading>> {
    let damaged = |what: String| {
        CliError::Refused(format!(
            "the wind file: {what}; write a first line time,wind,gust,from and then lines like 08:01,6 mph,9 mph,200"
        ))
    };
    let mut reader = csv::ReaderBuilder::new()
        .trim(csv::Trim::All)
        .from_reader(bytes);
    let header = reader
        .headers()
        .map_err(|e| damaged(e.to_string()))?
        .clone();
    let column = |name: &str| header.iter().position(|h| h.eq_ignore_ascii_case(name));
    let (Some(time), Some(wind)) = (column("time"), column("wind")) else {
        return Err(damaged(
            "the columns time and wind are not both there".into(),
        ));
    };
    let (gust, from, height) = (column("gust"), column("from"), column("height"));
    let mut readings = Vec::new();
    for (number, row) in reader.records().enumerate() {
        let row = row.map_err(|e| damaged(e.to_string()))?;
        let cell = |at: usize| row.get(at).unwrap_or_default();
        let noted = |at: Option<usize>| at.map(cell).filter(|text| !text.is_empty());
        let in_line =
            |error: CliError| damaged(format!("line {}: {error}", number.saturating_add(2)));
        let read = || -> Result<MeterReading> {
            Ok(MeterReading {
                at_utc_ms: when(cell(time), zone, now)?,
                wind: Entered::parse(cell(wind))?,
                gust: noted(gust).map(Entered::parse).transpose()?,
                from_degrees: noted(from).map(degrees).transpose()?,
                height: noted(height).map(meter_height).transpose()?,
            })
        };
        readings.push(read().map_err(in_line)?);
    }
    if readings.is_empty() {
        return Err(damaged("it holds no reading".into()));
    }
    Ok(readings)
}

/// What was seen of the sky; none when nothing was given.
fn sky_seen(visit: VisitId, args: &SkyArgs, zone: Tz, now: i64) -> Result<Option<SkySeen>> {
    let at_utc_ms = args
        .at
        .as_deref()
        .map_or(Ok(now), |at| when(at, zone, now))?;
    let signs = inversion_signs(&args.inversion)?;
    let seen = SkySeen {
        visit,
        air: args.air.map(|temperature| AirReading {
            at_utc_ms,
            temperature,
            humidity_percent: args.humidity,
        }),
        inversion: signs.map(|signs| InversionLook { at_utc_ms, signs }),
        soil: args.soil.map(|soil| SoilLook {
            at_utc_ms,
            soil,
            temperature: args.soil_temperature,
        }),
        bloom: args.bloom.map(|bloom| BloomLook { at_utc_ms, bloom }),
        wind: args.beaufort.map(|force| BeaufortSeen { at_utc_ms, force }),
    };
    if let Some(air) = &seen.air {
        air.temperature
            .to_temperature()
            .map_err(|e| e.of(sward_rules::Field::Air))?;
    }
    if let Some(temperature) = args.soil_temperature {
        temperature
            .to_temperature()
            .map_err(|e| e.of(sward_rules::Field::SoilTemperature))?;
    }
    let nothing = seen.air.is_none()
        && seen.inversion.is_none()
        && seen.soil.is_none()
        && seen.bloom.is_none()
        && seen.wind.is_none();
    Ok((!nothing).then_some(seen))
}

/// None where nobody looked; an empty list where somebody looked and saw no sign.
pub(super) fn inversion_signs(
    typed: &[String],
) -> Result<Option<Vec<sward_rules::sky::InversionSign>>> {
    match typed {
        [] => Ok(None),
        [only] if only == "none" => Ok(Some(Vec::new())),
        signs => signs
            .iter()
            .map(|sign| {
                code(sign).ok_or_else(|| {
                    CliError::Usage(format!(
                        "--inversion {sign}: write none, or of hanging-smoke, fog, dew, still-air, clear-sky-low-sun"
                    ))
                })
            })
            .collect::<Result<_>>()
            .map(Some),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const NOW: i64 = 1_781_526_600_000;
    const ZONE: Tz = Tz::America__New_York;

    #[test]
    fn a_reading_holds_speed_gust_direction_and_time() {
        let r = meter_reading("6 mph gust 9 mph from 200 at 5 ft @08:01", ZONE, NOW).unwrap();
        assert_eq!(r.wind.for_person(), "6 mph");
        assert_eq!(r.gust.unwrap().for_person(), "9 mph");
        assert_eq!(r.from_degrees, Some(200));
        assert_eq!(r.height.unwrap().for_person(), "5 ft");
        assert_eq!(r.at_utc_ms, NOW - 29 * 60_000);
        assert_eq!(meter_reading("6 mph", ZONE, NOW).unwrap().at_utc_ms, NOW);
        assert!(meter_reading("6", ZONE, NOW).is_err());
        assert!(meter_reading("6 mph at 1 ft", ZONE, NOW).is_err());
        assert!(meter_reading("6 mph from 400", ZONE, NOW).is_err());
    }

    #[test]
    fn a_series_is_read_from_csv_with_its_line_in_every_complaint() {
        let good = b"time,wind,gust,from\n08:01,6 mph,9 mph,200\n08:02,7 mph,,\n";
        let series = from_csv(good, ZONE, NOW).unwrap();
        assert_eq!(series.len(), 2);
        assert_eq!(series[1].gust, None);
        let bad = from_csv(b"time,wind\n08:01,6 mph\n08:02,6\n", ZONE, NOW).unwrap_err();
        assert!(bad.to_string().contains("line 3"), "{bad}");
        assert!(from_csv(b"when,speed\n1,2\n", ZONE, NOW).is_err());
        assert!(from_csv(b"time,wind\n", ZONE, NOW).is_err());
        assert!(from_csv(&[0xff, 0xfe, 0x00], ZONE, NOW).is_err());
    }
}
