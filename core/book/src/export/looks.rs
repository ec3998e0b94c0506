//! Counts, wind and temperatures of a visit, as a record tells them.
//!
//! Which facts are given is decided in [`super::gather`].

use rust_decimal::Decimal;
use sward_rules::Entered;
use sward_rules::finding::Finding;
use sward_rules::look::density;
use sward_rules::sky::MeterReading;

use super::record::{Amount, BeaufortNote, Count, When, WindNote, WindReading};
use super::words::{self, Clock};
use crate::fact::{Counted, Fact, Replacement, SkySeen};

/// The looks and readings of a visit that stand.
#[derive(Default)]
pub(super) struct Seen<'a> {
    pub(super) counts: Vec<&'a Counted>,
    pub(super) wind: Vec<&'a MeterReading>,
    pub(super) sky: Vec<SkySeen>,
    pub(super) findings: Vec<Finding>,
}

impl<'a> Seen<'a> {
    pub(super) fn add(&mut self, fact: &'a Fact) {
        match fact {
            Fact::Counted(f) => self.counts.push(f),
            Fact::WindMeasured(f) => self.wind.extend(&f.readings),
            Fact::SkySeen(f) => self.sky.push(f.clone()),
            Fact::Judged(f) => self.findings.clone_from(&f.findings),
            Fact::Corrected(c) => match &c.new {
                Replacement::Counted(f) => self.counts.push(f),
                Replacement::WindMeasured(f) => self.wind.extend(&f.readings),
                _ => {}
            },
            _ => {}
        }
    }
}

pub(super) fn count(counted: &Counted) -> Count {
    let density = density(&counted.samples).ok().flatten();
    Count {
        pest: counted.pest.clone(),
        found: counted
            .samples
            .iter()
            .fold(0_u32, |sum, s| sum.saturating_add(s.count)),
        samples: counted.samples.len(),
        density: density.map(|d| format!("{:.1} per ft²", d.value.mean_per_ft2)),
        note: counted.note.clone(),
    }
}

pub(super) fn temperatures(sky: &[SkySeen]) -> Vec<Amount> {
    sky.iter()
        .filter_map(|s| s.air.as_ref())
        .map(|a| words::amount(&a.temperature))
        .collect()
}

pub(super) fn wind<'a>(
    readings: impl Iterator<Item = &'a MeterReading>,
    sky: &[SkySeen],
    clock: Clock,
) -> WindNote {
    let readings: Vec<&MeterReading> = readings.collect();
    let at = |utc_ms: i64| -> When { clock.when(utc_ms) };
    WindNote {
        mean: mean(&readings).map(|mean| mean.for_person()),
        gust: readings
            .iter()
            .filter_map(|r| r.gust)
            .reduce(|a, b| {
                if b.compare(&a).is_ok_and(std::cmp::Ordering::is_gt) {
                    b
                } else {
                    a
                }
            })
            .map(|gust| gust.for_person()),
        readings: readings
            .iter()
            .map(|r| WindReading {
                at: at(r.at_utc_ms),
                speed: words::amount(&r.wind),
                gust: r.gust.as_ref().map(words::amount),
                from_degrees: r.from_degrees,
            })
            .collect(),
        estimates: sky
            .iter()
            .filter_map(|s| s.wind)
            .map(|b| BeaufortNote {
                at: at(b.at_utc_ms),
                force: b.force,
            })
            .collect(),
    }
}

/// Mean of the readings, in decimals, so that it is the same on every machine.
fn mean(readings: &[&MeterReading]) -> Option<Entered> {
    let unit = readings.first()?.wind.unit();
    let mut sum = Decimal::ZERO;
    for reading in readings {
        sum = sum.checked_add(reading.wind.convert(unit).ok()?.amount())?;
    }
    let mean = sum.checked_div(Decimal::from(readings.len()))?;
    Entered::new(mean.round_dp(1).normalize(), unit).ok()
}
