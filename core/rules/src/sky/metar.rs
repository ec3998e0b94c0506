//! A station's report (METAR or SPECI): what it says about wind and temperature, and when.
//!
//! The `metar` crate reads it, after the spellings that it does not take are put into those that it
//! does. What a far station is worth for a yard is decided in [`super::wind`].

use chrono::{DateTime, Datelike, Days, Months, NaiveDate, TimeDelta};
use metar::{Data, Metar, Wind, WindDirection, WindSpeed};
use minicbor::{Decode, Encode};
use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};

use crate::error::{MetarGroup, Result, RuleError};
use crate::quantity::{Entered, Unit};

/// Longest report that is read; real ones have fewer than half as many bytes.
const REPORT_BYTES_MOST: usize = 600;

/// How far a report's time may lie ahead of now.
const AHEAD_MOST: TimeDelta = TimeDelta::hours(1);

/// A station's report, as far as it bears on a lawn.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize, Deserialize)]
pub struct StationReport {
    /// The station's four letters.
    #[n(0)]
    pub station: String,
    /// Day of the month, UTC. A METAR names no month.
    #[n(1)]
    pub day: u8,
    /// Hour, UTC.
    #[n(2)]
    pub hour: u8,
    /// Minute.
    #[n(3)]
    pub minute: u8,
    /// Mean wind in the unit reported; none where the sensor gave none. Zero is calm.
    #[n(4)]
    pub wind: Option<Entered>,
    /// Highest gust, where one is reported.
    #[n(5)]
    pub gust: Option<Entered>,
    /// Whether the wind is beyond the scale of the report, so that the number is only its start.
    #[n(6)]
    pub beyond_scale: bool,
    /// Where the wind comes from in degrees; none when calm, variable or not reported.
    #[n(7)]
    pub from_degrees: Option<u16>,
    /// Air temperature.
    #[n(8)]
    pub temperature: Option<Entered>,
    /// Dew point.
    #[n(9)]
    pub dew_point: Option<Entered>,
    /// The report as given.
    #[n(10)]
    pub raw: String,
}

impl StationReport {
    /// Reads one report.
    ///
    /// ```
    /// use sward_rules::sky::StationReport;
    /// let report = StationReport::parse("SPECI KXYZ 041251Z 32012G20KT M1/4SM M04/M07 A2992=")?;
    /// assert_eq!(report.gust.unwrap().for_person(), "20 kn");
    /// assert_eq!(report.temperature.unwrap().for_person(), "-4 °C");
    /// # Ok::<(), sward_rules::RuleError>(())
    /// ```
    ///
    /// # Errors
    /// When it is too long, cannot be read, or has no wind group.
    pub fn parse(raw: &str) -> Result<Self> {
        let groups = normalise(raw)?;
        let text = groups.join(" ");
        let metar = Metar::parse(&text).map_err(|errors| {
            let at = errors.first().map_or(text.len(), |e| e.start);
            RuleError::MetarDamaged {
                group: group_at(&groups, at),
            }
        })?;
        if !groups.iter().any(|g| is_wind(g)) {
            return Err(RuleError::MetarLacks {
                group: MetarGroup::Wind,
            });
        }
        if metar.time.date == 0 {
            let group = groups.get(1).cloned().unwrap_or_default();
            return Err(RuleError::MetarDamaged { group });
        }
        let (from_degrees, wind, gust, beyond_scale) = wind_of(&metar.wind)?;
        Ok(Self {
            station: metar.station,
            day: metar.time.date,
            hour: metar.time.hour,
            minute: metar.time.minute,
            wind,
            gust,
            beyond_scale,
            from_degrees,
            temperature: celsius(metar.temperature)?,
            dew_point: celsius(metar.dewpoint)?,
            raw: raw.trim().to_owned(),
        })
    }

    /// When the report was made, in milliseconds since 1970 UTC: the latest such day and time that
    /// is not more than an hour ahead of now.
    ///
    /// # Errors
    /// [`RuleError::MetarTime`] when no month of the year up to now has such a day.
    pub fn at_utc_ms(&self, now_utc_ms: i64) -> Result<i64> {
        let none = || RuleError::MetarTime {
            day: self.day,
            hour: self.hour,
            minute: self.minute,
        };
        let now = DateTime::from_timestamp_millis(now_utc_ms).ok_or_else(none)?;
        let latest = now
            .checked_add_signed(AHEAD_MOST)
            .ok_or_else(none)?
            .naive_utc();
        let month = latest
            .date()
            .checked_sub_days(Days::new(u64::from(latest.day0())));
        (0..=12)
            .filter_map(|back| month?.checked_sub_months(Months::new(back)))
            .filter_map(|m| NaiveDate::from_ymd_opt(m.year(), m.month(), u32::from(self.day)))
            .filter_map(|d| d.and_hms_opt(u32::from(self.hour), u32::from(self.minute), 0))
            .find(|at| *at <= latest)
            .map(|at| at.and_utc().timestamp_millis())
            .ok_or_else(none)
    }
}

/// The report's groups up to its remarks and trend, in the spellings that the reader takes.
fn normalise(raw: &str) -> Result<Vec<String>> {
    if raw.len() > REPORT_BYTES_MOST {
        return Err(RuleError::MetarTooLong);
    }
    let report = raw
        .split('=')
        .next()
        .unwrap_or_default()
        .to_ascii_uppercase();
    let mut groups = Vec::new();
    for group in report.split_ascii_whitespace() {
        // Remarks and trends say nothing that is used here, and vary from country to country.
        if matches!(group, "RMK" | "TEMPO" | "BECMG" | "NOSIG" | "INTER") {
            break;
        }
        let plain = group
            .bytes()
            .all(|b| b.is_ascii_alphanumeric() || b"/+-$".contains(&b));
        // Outside of digits the reader has no answer to a range of directions.
        let odd_range = group.contains("VRBV") || group.ends_with("VVRB");
        if !plain || odd_range {
            let group = group.chars().filter(|c| !c.is_control()).take(20).collect();
            return Err(RuleError::MetarDamaged { group });
        }
        if is_direction_range(group) || matches!(group, "METAR" | "SPECI") {
            continue;
        }
        groups.push(respell(group));
    }
    if groups.is_empty() {
        return Err(RuleError::MetarLacks {
            group: MetarGroup::Station,
        });
    }
    Ok(groups)
}

fn respell(group: &str) -> String {
    if let Some(miles) = group.strip_suffix("SM") {
        let digits = miles.strip_prefix(['M', 'P']).unwrap_or(miles);
        return format!("{digits}SM");
    }
    if let Some(kmh) = group.strip_suffix("KMH") {
        return respell_kmh(kmh).unwrap_or_else(|| group.to_owned());
    }
    // A hundred knots and more have three digits, which the reader writes as "above 99".
    let over_99 = group.len() >= 8 && group.ends_with("KT") && all_digits(&group[..6]);
    if over_99 {
        format!("{}P99KT", &group[..3])
    } else {
        group.to_owned()
    }
}

/// Kilometres an hour, which the reader takes as `KPH` with three digits.
fn respell_kmh(group: &str) -> Option<String> {
    let (direction, speeds) = group.split_at_checked(3)?;
    let three = |s: &str| {
        if s.len() == 2 {
            format!("0{s}")
        } else {
            s.to_owned()
        }
    };
    Some(match speeds.split_once('G') {
        Some((mean, gust)) => format!("{direction}{}G{}KPH", three(mean), three(gust)),
        None => format!("{direction}{}KPH", three(speeds)),
    })
}

fn is_direction_range(group: &str) -> bool {
    group.split_once('V').is_some_and(|(from, to)| {
        from.len() == 3 && to.len() == 3 && all_digits(from) && all_digits(to)
    })
}

fn is_wind(group: &str) -> bool {
    group == "CALM"
        || ["KT", "MPS", "KPH"]
            .iter()
            .any(|unit| group.ends_with(unit))
}

fn all_digits(text: &str) -> bool {
    text.bytes().all(|b| b.is_ascii_digit())
}

fn group_at(groups: &[String], at: usize) -> String {
    let mut end = 0;
    for group in groups {
        end += group.len() + 1;
        if at < end {
            return group.clone();
        }
    }
    "the end".to_owned()
}

type WindParts = (Option<u16>, Option<Entered>, Option<Entered>, bool);

fn wind_of(wind: &Wind) -> Result<WindParts> {
    let Wind::Present { dir, speed, .. } = wind else {
        return Ok((None, Some(amount(0, "kn")?), None, false));
    };
    let (unit, mean, gust) = match *speed {
        WindSpeed::Knots { speed, gusting } => ("kn", speed, gusting),
        WindSpeed::MetresPerSecond { speed, gusting } => ("m/s", speed, gusting),
        WindSpeed::KilometresPerHour { speed, gusting } => ("km/h", speed, gusting),
        // The reader drops the unit of a wind beyond the scale; 99 kn is the least of the three.
        WindSpeed::Greater => return Ok((None, Some(amount(99, "kn")?), None, true)),
    };
    let wind = known(mean).map(|v| amount(v, unit)).transpose()?;
    let gust = gust.and_then(known).map(|v| amount(v, unit)).transpose()?;
    let calm = wind.as_ref().is_some_and(Entered::is_zero);
    let from_degrees = match *dir {
        WindDirection::Heading(heading) if !calm => {
            known(heading).and_then(|d| u16::try_from(d).ok())
        }
        _ => None,
    };
    Ok((from_degrees, wind, gust, false))
}

fn celsius(value: Data<i32>) -> Result<Option<Entered>> {
    known(value)
        .map(|v| Entered::new(Decimal::from(v), Unit::CELSIUS))
        .transpose()
}

fn amount(value: u32, unit: &str) -> Result<Entered> {
    Entered::new(Decimal::from(value), Unit::parse(unit)?)
}

fn known<T>(data: Data<T>) -> Option<T> {
    match data {
        Data::Known(value) => Some(value),
        Data::Unknown => None,
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn names_the_group_that_cannot_be_read() {
        let error = StationReport::parse("KXYZ 041251Z 3201KT 10SM CLR 20/10 A2992").unwrap_err();
        assert!(
            matches!(error, RuleError::MetarDamaged { ref group } if group == "3201KT"),
            "{error}"
        );
    }

    #[test]
    fn refuses_a_report_without_wind_or_cut_short() {
        let lacks = RuleError::MetarLacks {
            group: MetarGroup::Wind,
        };
        assert_eq!(
            StationReport::parse("KXYZ 041251Z 10SM CLR 20/10 A2992"),
            Err(lacks.clone())
        );
        assert_eq!(StationReport::parse("KXYZ 041251Z"), Err(lacks));
        for cut in [
            "",
            "METAR",
            "=",
            "KXYZ",
            "KXYZ 0412",
            "KXYZ 001251Z 32012KT",
            "KX\u{e9}Z 041251Z",
        ] {
            assert!(StationReport::parse(cut).is_err(), "{cut}");
        }
        assert_eq!(
            StationReport::parse(&"A".repeat(700)),
            Err(RuleError::MetarTooLong)
        );
    }

    #[test]
    fn a_sensor_that_gave_nothing_is_no_calm() {
        let report =
            StationReport::parse("KXYZ 041251Z AUTO /////KT 10SM CLR ///// A2992").unwrap();
        assert_eq!(
            (report.wind, report.gust, report.temperature),
            (None, None, None)
        );
    }

    proptest! {
        #[test]
        fn no_text_makes_it_panic(groups in proptest::collection::vec(GROUP, 0..12)) {
            let _ = StationReport::parse(&groups.join(" "));
        }

        #[test]
        fn no_bytes_make_it_panic(text in "\\PC{0,120}") {
            let _ = StationReport::parse(&text);
        }
    }

    const GROUP: &str = "METAR|SPECI|COR|AUTO|KXYZ|041251Z|32012G20KT|VRB03KT|VRBVVRB|180V240|VRBV080|\
        /////KT|00000KT|12012MPS|24015G025KPH|P99KT|320P99KT|10SM|M1/4SM|1|1/2SM|9999|CAVOK|\
        R04R/3000V6000FT|R04/P6000|-RA|\\+TSRA|VCSH|FG|CLR|SKC|BKN015CB|OVC///|VV001|M04/M07|20/|//|\
        A2992|Q1013|Q////|RERA|WS R04|W12/S5|R04/123456|TEMPO|BECMG|NOSIG|RMK|=|/|V|[A-Z0-9/]{1,8}";
}
