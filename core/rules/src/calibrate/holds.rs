//! Whether a calibration still holds: it does for one product, one person, one machine as it was
//! set up, one swath, and for a time.
//!
//! Each thing that changed is a finding with its name; what nobody wrote down stays unknown.

use minicbor::{Decode, Encode};
use serde::{Deserialize, Serialize};

use crate::error::{Field, Result};
use crate::finding::{CalibrationPart, Check, Finding, Reason, Shown, Source, Verdict, Whose};
use crate::quantity::{Dimension, Entered};
use crate::same_text::same_text;

/// Advised limits; a crew may set its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Encode, Decode, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CalibrationAdvice {
    /// Days after which to calibrate again. Common practice, no source.
    #[n(0)]
    pub age_most_days: u32,
}

impl Default for CalibrationAdvice {
    fn default() -> Self {
        Self { age_most_days: 30 }
    }
}

/// One thing that a calibration depends on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Part<'a> {
    /// Nobody wrote it down.
    #[default]
    NotKnown,
    /// The machine has none, as a spreader has no nozzles.
    None,
    /// This one.
    Is(&'a str),
}

/// How a machine is set up, and by whom it is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct SetUp<'a> {
    /// The product.
    pub product: Part<'a>,
    /// Who walks or drives.
    pub operator: Part<'a>,
    /// The spreader or sprayer.
    pub machine: Part<'a>,
    /// Wheels and tires.
    pub wheel: Part<'a>,
    /// Nozzles.
    pub nozzle: Part<'a>,
    /// Distance from line to line.
    pub swath: Option<Entered>,
}

/// A calibration that was written down.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Calibrated<'a> {
    /// How many days ago; below zero is a day still to come, none a day nobody wrote down.
    pub age_days: Option<i64>,
    /// On what it was done.
    pub on: SetUp<'a>,
}

/// What speaks against using a calibration now; one `Clear` finding where nothing does.
///
/// ```
/// use sward_rules::{Verdict, calibrate::*, finding::sum};
/// let on = SetUp {
///     product: Part::Is("Example"),
///     operator: Part::Is("Ann"),
///     machine: Part::Is("red spreader"),
///     wheel: Part::Is("air tires"),
///     nozzle: Part::None,
///     swath: Some(sward_rules::Entered::parse("8 ft")?),
/// };
/// let made = Calibrated { age_days: Some(3), on };
/// let advice = CalibrationAdvice::default();
/// assert_eq!(sum(&calibration_findings(Some(&made), &on, advice)?), Verdict::Clear);
/// let now = SetUp { operator: Part::Is("Ben"), ..on };
/// assert_eq!(sum(&calibration_findings(Some(&made), &now, advice)?), Verdict::Unknown);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a swath is no length.
pub fn calibration_findings(
    calibrated: Option<&Calibrated<'_>>,
    now: &SetUp<'_>,
    advice: CalibrationAdvice,
) -> Result<Vec<Finding>> {
    let Some(made) = calibrated else {
        let reason = Reason::NeverCalibrated;
        return Ok(vec![Finding::unknown(Check::Calibration, reason)]);
    };
    let mut findings: Vec<Finding> = age(made.age_days, advice).into_iter().collect();
    let then = &made.on;
    let parts = [
        (
            CalibrationPart::CalibrationProduct,
            then.product,
            now.product,
        ),
        (
            CalibrationPart::CalibrationOperator,
            then.operator,
            now.operator,
        ),
        (
            CalibrationPart::CalibrationMachine,
            then.machine,
            now.machine,
        ),
        (CalibrationPart::CalibrationWheel, then.wheel, now.wheel),
        (CalibrationPart::CalibrationNozzle, then.nozzle, now.nozzle),
    ];
    let changed = parts
        .into_iter()
        .filter_map(|(part, then, now)| Some(unknown(changed(then, now)?, part)));
    findings.extend(changed);
    findings.extend(swath(then.swath.as_ref(), now.swath.as_ref())?);
    if findings.is_empty() {
        findings.push(Finding::new(
            Check::Calibration,
            Verdict::Clear,
            Reason::CalibrationHolds,
        ));
    }
    Ok(findings)
}

/// Whether it is another, or not known to be the same.
#[derive(Clone, Copy)]
enum Changed {
    Other,
    NotKnown,
}

fn changed(then: Part<'_>, now: Part<'_>) -> Option<Changed> {
    match (then, now) {
        (Part::NotKnown, _) | (_, Part::NotKnown) => Some(Changed::NotKnown),
        (Part::None, Part::None) => None,
        (Part::Is(then), Part::Is(now)) => {
            // A name of blanks is a field that was not filled in.
            if then.trim().is_empty() || now.trim().is_empty() {
                Some(Changed::NotKnown)
            } else {
                (!same_text(then, now)).then_some(Changed::Other)
            }
        }
        (Part::None, Part::Is(_)) | (Part::Is(_), Part::None) => Some(Changed::Other),
    }
}

fn unknown(changed: Changed, part: CalibrationPart) -> Finding {
    let reason = match changed {
        Changed::Other => Reason::CalibratedOtherwise { part },
        Changed::NotKnown => Reason::CalibrationPartNotKnown { part },
    };
    Finding::unknown(Check::Calibration, reason)
}

fn swath(then: Option<&Entered>, now: Option<&Entered>) -> Result<Option<Finding>> {
    for swath in [then, now].into_iter().flatten() {
        swath
            .must_be(Dimension::Length)
            .map_err(|e| e.of(Field::Swath))?;
    }
    let part = CalibrationPart::CalibrationSwath;
    Ok(match (then, now) {
        (Some(then), Some(now)) if then.compare(now)?.is_eq() => None,
        (Some(then), Some(now)) => Some(
            unknown(Changed::Other, part)
                .with_value(Shown::Amount { amount: *now })
                .with_limit(Shown::Amount { amount: *then }, Whose::Nobody),
        ),
        _ => Some(unknown(Changed::NotKnown, part)),
    })
}

fn age(age_days: Option<i64>, advice: CalibrationAdvice) -> Option<Finding> {
    let Some(days) = age_days else {
        let part = CalibrationPart::CalibrationDay;
        return Some(unknown(Changed::NotKnown, part));
    };
    let most_days = advice.age_most_days;
    if days < 0 {
        return Some(Finding::unknown(Check::Calibration, Reason::TimeToCome));
    }
    (days > i64::from(most_days)).then(|| {
        let age_days = u32::try_from(days).unwrap_or(u32::MAX);
        let reason = Reason::CalibrationOld {
            age_days,
            most_days,
        };
        Finding::new(Check::Calibration, Verdict::Caution, reason)
            .with_value(Shown::DaysAgo { days: age_days })
            .with_source(Source::Practice)
    })
}
