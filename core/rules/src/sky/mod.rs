//! The sky over a yard: wind, rain, temperature and what else decides whether now is the time.
//!
//! One finding for each check that the method asks for; what was not looked at is Unknown by name.
//! A station, a forecast or an estimate never makes the wind Clear: only a meter at the yard, or a
//! person there, can.

mod advice;
mod air;
mod applies;
mod down_wind;
mod drying;
mod forecast;
mod height;
mod interval;
mod inversion;
mod looks;
mod metar;
mod rain;
mod reading;
mod sun;
mod temperature;
mod wind;
mod window;

pub use advice::SkyAdvice;
pub use air::{delta_t_c, dew_point_c, wet_bulb_c};
pub use applies::which_checks;
pub use down_wind::{Around, DownWind, HALF_ANGLE_DEG, Nearby, Sector, apart_deg, down_wind};
pub use forecast::{Forecast, Layer, Step};
pub use height::{REPORT_HEIGHT_M, must_be_meter_height, must_be_wind, wind_at_10_m_mph};
pub use looks::{Bloom, BloomLook, InversionLook, InversionSign, Soil, SoilLook};
pub use metar::StationReport;
pub use reading::{
    AirReading, BeaufortSeen, MeterReading, WindSummary, YardWind, beaufort_mph, summarise,
};
pub use sun::{
    AllDay, InversionHours, Place, SeenThrough, SunDay, SunPosition, inversion_hours, sun_day,
    sun_position,
};
pub use window::{NextWindow, next_window};

use crate::finding::{Check, Finding, Reason, Verdict};
use crate::keep_off::Now;
use crate::label::Label;

/// Everything that may be known about the sky. What is not known is left out.
#[derive(Debug, Clone, Copy)]
pub struct SkyInputs<'a> {
    /// The label sheet of the product in hand.
    pub label: &'a Label,
    /// The time, and whether it is proven.
    pub now: Now,
    /// How long the treatment will take, in minutes.
    pub job_min: u32,
    /// Wind at the yard, by meter or, only where there is no meter, by what is seen.
    pub yard_wind: Option<YardWind<'a>>,
    /// Air at the yard.
    pub air: Option<&'a AirReading>,
    /// A station's report.
    pub station: Option<&'a StationReport>,
    /// A forecast for the place.
    pub forecast: Option<&'a Forecast>,
    /// What a person saw of an inversion's signs.
    pub inversion: Option<&'a InversionLook>,
    /// What a person saw of the soil.
    pub soil: Option<&'a SoilLook>,
    /// What a person saw of blooms.
    pub bloom: Option<&'a BloomLook>,
    /// Where the yard lies, for the hours of sunrise and sunset.
    pub place: Option<Place>,
    /// What lies around the lawn, as it was noted; an empty list where nothing is marked.
    pub around: Option<&'a [Nearby]>,
    /// Advised limits, the crew's own where it set them.
    pub advice: &'a SkyAdvice,
}

impl<'a> SkyInputs<'a> {
    /// Inputs with nothing looked at yet, for a treatment as long as the advice takes it to be.
    pub fn new(label: &'a Label, now: Now, advice: &'a SkyAdvice) -> Self {
        Self {
            label,
            now,
            job_min: advice.job_assumed_min,
            yard_wind: None,
            air: None,
            station: None,
            forecast: None,
            inversion: None,
            soil: None,
            bloom: None,
            place: None,
            around: None,
            advice,
        }
    }

    fn job_ms(&self) -> i64 {
        i64::from(self.job_min).max(1) * MIN_MS
    }
}

/// One finding for each of [`which_checks`], in that order.
///
/// ```
/// use sward_rules::finding::{sum, Verdict};
/// use sward_rules::keep_off::Now;
/// use sward_rules::label::{Label, LabelSays, Method};
/// use sward_rules::sky::{outlook, SkyAdvice, SkyInputs};
/// let label = Label {
///     product: "Example".into(),
///     registration: "00000-0".into(),
///     method: Method::Granule,
///     ingredients: Vec::new(),
///     rate_least: LabelSays::Unfilled,
///     rate_most: LabelSays::Unfilled,
///     carrier_least: LabelSays::Unfilled,
///     wind_most: LabelSays::Unfilled,
///     rain_free: LabelSays::Unfilled,
///     temperature_least: LabelSays::Unfilled,
///     temperature_most: LabelSays::Unfilled,
///     keep_off: Default::default(),
///     watering_in: LabelSays::Unfilled,
///     repeat_after: LabelSays::Unfilled,
/// };
/// let advice = SkyAdvice::default();
/// let findings = outlook(&SkyInputs::new(&label, Now { utc_ms: 0, proven: true }, &advice));
/// assert!(findings.iter().all(|f| f.verdict == Verdict::Unknown));
/// ```
pub fn outlook(inputs: &SkyInputs<'_>) -> Vec<Finding> {
    which_checks(inputs.label.method)
        .into_iter()
        .map(|check| one(check, inputs))
        .collect()
}

fn one(check: Check, inputs: &SkyInputs<'_>) -> Finding {
    let finding = match check {
        Check::Wind => wind::finding(inputs),
        Check::Rain => rain::finding(inputs),
        Check::Temperature => temperature::finding(inputs),
        Check::Inversion => inversion::finding(inputs),
        Check::DownWind => down_wind::finding(inputs),
        Check::DryingSpeed => drying::finding(inputs),
        Check::Soil => looks::soil(inputs),
        Check::Bloom => looks::bloom(inputs),
        other => Finding::unknown(other, Reason::NotChecked),
    };
    only_if_proven(finding, inputs.now)
}

/// Without a proven time nothing dated can be called recent. A finding that rests on the label's
/// silence alone has no date, and stands.
fn only_if_proven(mut finding: Finding, now: Now) -> Finding {
    let dated = finding.age_min.is_some();
    if !now.proven && dated && finding.verdict < Verdict::Unknown {
        finding.verdict = Verdict::Unknown;
        let reason = std::mem::replace(&mut finding.reason, Reason::TimeNotProven);
        finding.also.insert(0, reason);
    }
    finding
}

const MIN_MS: i64 = 60_000;

/// How old something is in whole minutes, or that it bears a time still to come.
fn age_min(at_utc_ms: i64, now: Now) -> Result<u32, Reason> {
    /// Two phones' clocks differ by seconds; more than this is a doubtful clock.
    const AHEAD_MOST_MS: i64 = 2 * MIN_MS;
    let age_ms = now.utc_ms.saturating_sub(at_utc_ms);
    if age_ms < -AHEAD_MOST_MS {
        return Err(Reason::TimeToCome);
    }
    Ok(u32::try_from(age_ms.max(0) / MIN_MS).unwrap_or(u32::MAX))
}

#[cfg(test)]
mod tests;
