//! The jar test: what each nozzle of a boom gives, against the others and against a new one.

use rust_decimal::Decimal;
use serde::Serialize;

use super::{at_most, in_unit, out_of_range, percent_off, positive};
use crate::error::{Allowed, Field, Result, RuleError};
use crate::finding::{Check, Finding, Reason, Shown, Source, Tenths, Verdict, Whose};
use crate::note::Note;
use crate::quantity::{Dimension, Entered, Unit, to_f64, whole};
use crate::working::{Answer, Working};

/// Most nozzles of one test.
pub const NOZZLES_MOST: usize = 200;

/// A nozzle farther off the mean than this many percent is named. Common practice, no source.
pub const NOZZLE_OFF_PERCENT: u32 = 10;

/// A nozzle that gives more than a new one by over this many percent is worn. Common practice, no
/// source.
pub const NOZZLE_WORN_PERCENT: u32 = 10;

/// What the jars caught.
#[derive(Debug, Clone, Copy)]
pub struct NozzleCatches<'a> {
    /// The catch of each nozzle, in order along the boom, all for the same time.
    pub catches: &'a [Entered],
    /// For how long each was caught.
    pub time: Entered,
    /// What a new nozzle gives at the same pressure, where it is known.
    pub new_flow: Option<Entered>,
}

/// One nozzle.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Nozzle {
    /// Its number along the boom, the first being 1.
    pub number: u32,
    /// Its flow in gallons a minute.
    pub flow: Entered,
    /// How far it is off the mean, in percent.
    pub off_mean_percent: f64,
    /// How far it is off a new one, in percent, where that is known.
    pub off_new_percent: Option<f64>,
}

/// What the test shows.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct NozzleResult {
    /// Each nozzle.
    pub nozzles: Vec<Nozzle>,
    /// Their mean flow.
    pub mean_flow: Entered,
    /// The flow of all.
    pub total_flow: Entered,
    /// Evenness first, then wear. A nozzle that gives nothing is among those off the mean.
    pub findings: Vec<Finding>,
}

/// Compares the nozzles of a boom.
///
/// ```
/// use sward_rules::{Entered, Verdict, calibrate::*};
/// let catches = ["20 fl oz", "21 fl oz", "25 fl oz"].map(|t| Entered::parse(t).unwrap());
/// let test = NozzleCatches {
///     catches: &catches,
///     time: Entered::parse("1 min")?,
///     new_flow: Some(Entered::parse("0.16 gal/min")?),
/// };
/// let result = nozzle_test(&test)?.value;
/// assert_eq!(result.findings[0].verdict, Verdict::Caution);
/// assert!(result.nozzles[2].off_mean_percent > 10.0);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When there is no catch, or too many, all caught nothing, or a measure is of the wrong kind.
pub fn nozzle_test(test: &NozzleCatches<'_>) -> Result<Answer<NozzleResult>> {
    at_most(test.catches.len(), NOZZLES_MOST, Field::Nozzles)?;
    let Some(first) = test.catches.first() else {
        return Err(RuleError::NotAllowed {
            field: Field::Nozzles,
            given: "0".to_owned(),
            allowed: Allowed::OneNozzleAtLeast,
        });
    };
    let time = positive(&test.time, Dimension::Time, &Field::CatchTime)?;
    let new = test
        .new_flow
        .map(|flow| positive(&flow, Dimension::VolumePerTime, &Field::NewFlow))
        .transpose()?;
    let catches = catches(test.catches)?;
    let total: Decimal = catches.iter().sum();
    let count = Decimal::from(catches.len());
    let mean = total.checked_div(count).filter(|m| *m > Decimal::ZERO);
    let mean = mean.ok_or_else(|| RuleError::NotPositive {
        field: Field::WaterCaught,
        given: first.for_person(),
    })?;
    let flow_of = |volume: Decimal, given: &Entered| {
        in_unit(volume.checked_div(time), Unit::GALLON_PER_MINUTE, given)
    };
    let mut nozzles = Vec::with_capacity(catches.len());
    for (index, (caught, given)) in catches.iter().zip(test.catches).enumerate() {
        let beyond = || out_of_range(given);
        let off_mean = percent_off(*caught, mean).ok_or_else(beyond)?;
        let off_new = match new {
            Some(new) => {
                let flow = caught.checked_div(time).ok_or_else(beyond)?;
                Some(to_f64(percent_off(flow, new).ok_or_else(beyond)?))
            }
            None => None,
        };
        nozzles.push(Nozzle {
            number: u32::try_from(index + 1).expect("a boom has few nozzles"),
            flow: flow_of(*caught, given)?,
            off_mean_percent: to_f64(off_mean),
            off_new_percent: off_new,
        });
    }
    let findings = vec![against_mean(&nozzles), against_new(&nozzles)];
    Ok(working(test).gives(NozzleResult {
        mean_flow: flow_of(mean, first)?,
        total_flow: flow_of(total, first)?,
        nozzles,
        findings,
    }))
}

fn catches(catches: &[Entered]) -> Result<Vec<Decimal>> {
    let each = catches.iter().enumerate().map(|(index, caught)| {
        let number = index + 1;
        caught
            .si(Dimension::Volume)
            .map_err(|e| e.of(Field::NozzleCatch { number }))
    });
    each.collect()
}

/// Every nozzle that is off the mean, the farthest first.
fn against_mean(nozzles: &[Nozzle]) -> Finding {
    let mut off: Vec<&Nozzle> = nozzles
        .iter()
        .filter(|n| n.off_mean_percent.abs() > f64::from(NOZZLE_OFF_PERCENT))
        .collect();
    off.sort_by(|a, b| {
        b.off_mean_percent
            .abs()
            .total_cmp(&a.off_mean_percent.abs())
    });
    let reasons = off.into_iter().map(|n| Reason::NozzleOff {
        nozzle: n.number,
        change: Tenths::nearest(n.off_mean_percent),
    });
    finding(reasons, Reason::NozzlesEven).with_limit(
        Shown::Within {
            percent: whole(NOZZLE_OFF_PERCENT, Unit::PERCENT),
        },
        Whose::Advice,
    )
}

/// Every worn nozzle, the most worn first; unknown without the flow of a new one.
fn against_new(nozzles: &[Nozzle]) -> Finding {
    let known: Option<Vec<(u32, f64)>> = nozzles
        .iter()
        .map(|n| Some((n.number, n.off_new_percent?)))
        .collect();
    let Some(mut worn) = known else {
        return Finding::unknown(Check::Nozzles, Reason::NewFlowNotKnown);
    };
    worn.retain(|(_, off)| *off > f64::from(NOZZLE_WORN_PERCENT));
    worn.sort_by(|a, b| b.1.total_cmp(&a.1));
    let reasons = worn.into_iter().map(|(nozzle, off)| Reason::NozzleWorn {
        nozzle,
        change: Tenths::nearest(off),
    });
    finding(reasons, Reason::NozzlesNotWorn).with_limit(
        Shown::PercentAbove {
            percent: whole(NOZZLE_WORN_PERCENT, Unit::PERCENT),
        },
        Whose::Advice,
    )
}

fn finding(mut reasons: impl Iterator<Item = Reason>, none: Reason) -> Finding {
    let finding = match reasons.next() {
        Some(worst) => Finding::new(Check::Nozzles, Verdict::Caution, worst),
        None => Finding::new(Check::Nozzles, Verdict::Clear, none),
    };
    reasons
        .fold(finding, Finding::and)
        .with_source(Source::Practice)
}

fn working(test: &NozzleCatches<'_>) -> Working {
    let mut working = Working::new(
        "flow of each nozzle against their mean and against a new one",
        "common practice, no source",
    )
    .input("time of the catch", test.time.for_person());
    for caught in test.catches {
        working = working.input("caught", caught.for_person());
    }
    if let Some(new) = &test.new_flow {
        working = working.input("flow of a new nozzle", new.for_person());
    }
    working
        .note(Note::SamePressureEach)
        .note(Note::TriedWithWater)
}
