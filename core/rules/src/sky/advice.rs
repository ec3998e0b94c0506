//! Advised limits for the checks of the sky, each with its source. A crew may set its own.
//!
//! None of them is a label's limit or a law, and none ever stands in for one.

use minicbor::{Decode, Encode};
use serde::{Deserialize, Serialize};

/// Advised limits. Whole numbers with the unit in the name, so that settings carry no rounding.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SkyAdvice {
    /// Named where the label sets no wind limit; common advice, no limit of anybody's.
    #[n(0)]
    pub wind_common_mph: u32,
    /// From here on, do not apply (Victoria, Australia).
    #[n(1)]
    pub wind_stop_kmh: u32,
    /// Below this a spray hangs in the air: calm is a high risk (Victoria, Australia; Canola
    /// Council of Canada).
    #[n(2)]
    pub wind_calm_kmh: u32,
    /// From this share of the label's wind limit on, take care. Common practice, no source.
    #[n(3)]
    pub wind_near_percent: u32,
    /// Fewest meter readings that make a series. Common practice, no source.
    #[n(4)]
    pub readings_least: u32,
    /// Shortest time from the first to the last reading of a series. Common practice, no source.
    #[n(5)]
    pub readings_span_least_s: u32,
    /// Oldest meter reading, or look at the trees, that still counts. Common practice, no source.
    #[n(6)]
    pub wind_age_most_min: u32,
    /// Oldest station report that still counts; stations report hourly. Common practice, no source.
    #[n(7)]
    pub station_age_most_min: u32,
    /// Oldest reading of the air at the yard that still counts. Common practice, no source.
    #[n(8)]
    pub air_age_most_min: u32,
    /// Oldest look at soil, blooms or signs of an inversion that still counts. Common practice, no
    /// source.
    #[n(9)]
    pub look_age_most_min: u32,
    /// Rain over the window from which, with the chance beside it, not to treat: the least
    /// measurable amount, 0.01 in (US National Weather Service).
    #[n(10)]
    pub rain_stop_hundredths_mm: u32,
    /// Chance of rain from which, with that amount, not to treat. Common practice, no source.
    #[n(11)]
    pub rain_stop_percent: u32,
    /// Chance of rain from which to take care. Common practice, no source.
    #[n(12)]
    pub rain_care_percent: u32,
    /// Oldest forecast that still counts. Common practice, no source.
    #[n(13)]
    pub forecast_age_most_h: u32,
    /// Never apply during rain, whatever the label leaves out (US EPA outdoor pyrethroid label
    /// wording): the shortest window that is held against the forecast.
    #[n(14)]
    pub rain_window_least_min: u32,
    /// Within this of the label's temperature limit, take care: thermometers differ. Common
    /// practice, no source.
    #[n(15)]
    pub temperature_near_c: u32,
    /// Delta T below which drops hang about (Sprayers 101).
    #[n(16)]
    pub delta_t_least_c: u32,
    /// Delta T from which to take care (Sprayers 101).
    #[n(17)]
    pub delta_t_care_c: u32,
    /// Delta T from which not to spray (Sprayers 101).
    #[n(18)]
    pub delta_t_stop_c: u32,
    /// How long a treatment is taken to last when nobody said. Common practice, no source.
    #[n(19)]
    pub job_assumed_min: u32,
    /// From so long before sunset air commonly does not mix: one to two hours, of which the longer
    /// is the safe side (GRDC Spray Application Manual, module 10).
    #[n(20)]
    pub sunset_before_min: u32,
    /// Until so long after sunrise (GRDC, the same).
    #[n(21)]
    pub sunrise_after_min: u32,
}

impl Default for SkyAdvice {
    fn default() -> Self {
        Self {
            wind_common_mph: 10,
            wind_stop_kmh: 20,
            wind_calm_kmh: 3,
            wind_near_percent: 80,
            readings_least: 3,
            readings_span_least_s: 60,
            wind_age_most_min: 10,
            station_age_most_min: 90,
            air_age_most_min: 30,
            look_age_most_min: 30,
            rain_stop_hundredths_mm: 25,
            rain_stop_percent: 50,
            rain_care_percent: 20,
            forecast_age_most_h: 12,
            rain_window_least_min: 60,
            temperature_near_c: 1,
            delta_t_least_c: 2,
            delta_t_care_c: 8,
            delta_t_stop_c: 10,
            job_assumed_min: 60,
            sunset_before_min: 120,
            sunrise_after_min: 60,
        }
    }
}
