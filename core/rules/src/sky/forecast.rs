//! The gridpoint forecast of the US National Weather Service, a JSON file saved for one place.
//!
//! Units are checked strictly and values for sense; what a forecast is worth is decided in
//! [`super::rain`], [`super::wind`] and [`super::window`].

use serde::{Deserialize, Serialize};

use super::SkyAdvice;
use super::interval::{instant_utc_ms, interval_utc_ms};
use crate::error::{Field, Result, RuleError, shortened};
use crate::finding::Reason;
use crate::keep_off::Now;

/// So much of a file's own text stands in a sentence about it.
const TEXT_MOST: usize = 60;

/// Largest file that is read; real ones have about a tenth.
const FILE_BYTES_MOST: usize = 4 * 1024 * 1024;

/// Most values in one layer; real ones have fewer than 200.
const STEPS_MOST: usize = 5_000;

/// A value and the time for which it holds.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Step {
    /// Start, in milliseconds since 1970 UTC.
    pub from_utc_ms: i64,
    /// End, in milliseconds since 1970 UTC.
    pub to_utc_ms: i64,
    /// The value; none where the forecast leaves it open.
    pub value: Option<f64>,
}

/// One quantity over time, in order of start.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct Layer {
    steps: Vec<Step>,
}

/// A forecast for one place. Units are those of the file, in the names of the fields.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Forecast {
    /// When it was made, in milliseconds since 1970 UTC.
    pub updated_utc_ms: i64,
    /// Mean wind at 10 m.
    pub wind_kmh: Layer,
    /// Gusts at 10 m.
    pub gust_kmh: Layer,
    /// Where the wind comes from, in degrees.
    pub wind_from_degrees: Layer,
    /// Relative humidity.
    pub humidity_percent: Layer,
    /// Air temperature.
    pub temperature_c: Layer,
    /// Chance of at least 0.01 in of rain.
    pub rain_chance_percent: Layer,
    /// Amount of rain in each step.
    pub rain_mm: Layer,
    /// Share of the sky under cloud.
    pub cloud_percent: Layer,
}

impl Forecast {
    /// Reads a gridpoint forecast file (GeoJSON, as the service sends it).
    ///
    /// # Errors
    /// When it is too large, damaged, or a layer has another unit, a time that cannot be read or a
    /// value that cannot be. A layer that is missing is no error: what needs it is Unknown.
    pub fn parse(json: &[u8]) -> Result<Self> {
        if json.len() > FILE_BYTES_MOST {
            return Err(RuleError::ForecastTooLarge { limit_mb: 4 });
        }
        let file: File = serde_json::from_slice(json).map_err(|e| RuleError::ForecastDamaged {
            line: e.line(),
            column: e.column(),
        })?;
        let p = file.properties;
        let updated_utc_ms =
            instant_utc_ms(&p.update_time).ok_or_else(|| RuleError::ForecastTime {
                text: shortened(&p.update_time, TEXT_MOST),
            })?;
        Ok(Self {
            updated_utc_ms,
            wind_kmh: KMH.layer("windSpeed", p.wind_speed)?,
            gust_kmh: KMH.layer("windGust", p.wind_gust)?,
            wind_from_degrees: DEGREES.layer("windDirection", p.wind_direction)?,
            humidity_percent: PERCENT.layer("relativeHumidity", p.relative_humidity)?,
            temperature_c: CELSIUS.layer("temperature", p.temperature)?,
            rain_chance_percent: PERCENT
                .layer("probabilityOfPrecipitation", p.probability_of_precipitation)?,
            rain_mm: MILLIMETRES
                .layer("quantitativePrecipitation", p.quantitative_precipitation)?,
            cloud_percent: PERCENT.layer("skyCover", p.sky_cover)?,
        })
    }

    /// Age in minutes.
    ///
    /// # Errors
    /// Why the forecast cannot be used: too old, or from a time still to come.
    pub(super) fn age_min(&self, now: Now, advice: &SkyAdvice) -> std::result::Result<u32, Reason> {
        let age_min = now.utc_ms.saturating_sub(self.updated_utc_ms) / super::MIN_MS;
        if age_min < -60 {
            return Err(Reason::ForecastToCome);
        }
        if age_min > i64::from(advice.forecast_age_most_h) * 60 {
            return Err(Reason::ForecastTooOld {
                age_h: u32::try_from(age_min / 60).unwrap_or(u32::MAX),
                most_h: advice.forecast_age_most_h,
            });
        }
        Ok(u32::try_from(age_min.max(0)).unwrap_or(u32::MAX))
    }
}

impl Layer {
    /// A layer from its steps, in any order. Steps without length are left out.
    pub fn new(mut steps: Vec<Step>) -> Self {
        steps.retain(|s| s.from_utc_ms < s.to_utc_ms);
        steps.sort_by_key(|s| (s.from_utc_ms, s.to_utc_ms));
        Self { steps }
    }

    /// The steps, in order of start.
    pub fn steps(&self) -> &[Step] {
        &self.steps
    }

    /// The end of the last step that has a value.
    pub fn ends_utc_ms(&self) -> Option<i64> {
        self.steps
            .iter()
            .filter(|s| s.value.is_some())
            .map(|s| s.to_utc_ms)
            .max()
    }

    /// The known values of all steps that touch the time from `from` up to `to`.
    pub fn touching(&self, from: i64, to: i64) -> impl Iterator<Item = f64> + '_ {
        self.steps
            .iter()
            .filter(move |s| s.from_utc_ms < to && s.to_utc_ms > from)
            .filter_map(|s| s.value)
    }

    /// Whether every moment from `from` up to `to` has a value.
    pub fn covers(&self, from: i64, to: i64) -> bool {
        let mut known_to = from;
        for step in self.steps.iter().filter(|s| s.value.is_some()) {
            if step.from_utc_ms > known_to {
                break;
            }
            known_to = known_to.max(step.to_utc_ms);
        }
        known_to >= to
    }
}

#[derive(Deserialize)]
struct File {
    properties: Properties,
}

#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
struct Properties {
    update_time: String,
    wind_speed: Option<RawLayer>,
    wind_gust: Option<RawLayer>,
    wind_direction: Option<RawLayer>,
    relative_humidity: Option<RawLayer>,
    temperature: Option<RawLayer>,
    probability_of_precipitation: Option<RawLayer>,
    quantitative_precipitation: Option<RawLayer>,
    sky_cover: Option<RawLayer>,
}

#[derive(Deserialize)]
struct RawLayer {
    uom: Option<String>,
    #[serde(default)]
    values: Vec<RawStep>,
}

#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
struct RawStep {
    valid_time: String,
    value: Option<f64>,
}

/// A unit code of the World Meteorological Organization, and the values that make sense in it.
struct Kind {
    code: &'static str,
    least: f64,
    most: f64,
}

const KMH: Kind = Kind {
    code: "km_h-1",
    least: 0.0,
    most: 500.0,
};
const DEGREES: Kind = Kind {
    code: "degree_(angle)",
    least: 0.0,
    most: 360.0,
};
const PERCENT: Kind = Kind {
    code: "percent",
    least: 0.0,
    most: 100.0,
};
const CELSIUS: Kind = Kind {
    code: "degC",
    least: -100.0,
    most: 70.0,
};
const MILLIMETRES: Kind = Kind {
    code: "mm",
    least: 0.0,
    most: 2_000.0,
};

impl Kind {
    fn layer(&self, name: &'static str, raw: Option<RawLayer>) -> Result<Layer> {
        let Some(raw) = raw.filter(|r| !r.values.is_empty()) else {
            return Ok(Layer::default());
        };
        let unit = raw.uom.unwrap_or_default();
        // "unit:" is the older spelling of the same codes.
        let code = unit
            .strip_prefix("wmoUnit:")
            .or_else(|| unit.strip_prefix("unit:"));
        if code != Some(self.code) {
            let (unit, wanted) = (shortened(&unit, TEXT_MOST), self.code);
            return Err(RuleError::ForecastUnit {
                layer: name,
                unit,
                wanted,
            });
        }
        if raw.values.len() > STEPS_MOST {
            let (count, limit) = (raw.values.len(), STEPS_MOST);
            return Err(RuleError::TooMany {
                field: Field::ForecastLayer { layer: name },
                count,
                limit,
            });
        }
        let steps = raw.values.into_iter().map(|step| self.step(name, &step));
        Ok(Layer::new(steps.collect::<Result<_>>()?))
    }

    fn step(&self, layer: &'static str, raw: &RawStep) -> Result<Step> {
        let (from_utc_ms, to_utc_ms) =
            interval_utc_ms(&raw.valid_time).ok_or_else(|| RuleError::ForecastInterval {
                layer,
                text: shortened(&raw.valid_time, TEXT_MOST),
            })?;
        match raw.value {
            Some(value) if !(self.least..=self.most).contains(&value) => {
                Err(RuleError::ForecastValue {
                    layer,
                    value: value.to_string(),
                })
            }
            value => Ok(Step {
                from_utc_ms,
                to_utc_ms,
                value,
            }),
        }
    }
}
