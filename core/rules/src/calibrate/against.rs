//! What a calibration found, held against the rate wanted and the label's most.
//!
//! Within 5 % of the rate wanted is accepted; at the label's most the tolerance has one side only,
//! because anything above it is off the label.

use std::cmp::Ordering;

use rust_decimal::Decimal;

use super::{out_of_range, percent_off, positive};
use crate::error::{Allowed, Field, Result, RuleError};
use crate::finding::{Check, Finding, Reason, Shown, Source, Tenths, Verdict, Whose};
use crate::label::LabelSays;
use crate::plan::Passes;
use crate::quantity::{Dimension, Entered, Unit, shown, to_f64, whole};

/// A rate found is accepted within this many percent of the one wanted (UMass Extension, Rotary
/// Spreader Calibration Procedures).
pub const ACCEPTED_PERCENT: u32 = 5;

/// A rate found against the rate wanted and the label's most, both in all: where it goes on twice,
/// the found one counts twice.
///
/// Where the label's most is not known, the answer is `Unknown`, however near the rate is.
///
/// ```
/// use sward_rules::{Entered, Verdict, calibrate::rate_found_finding, label::LabelSays, plan::Passes};
/// let e = |t: &str| Entered::parse(t);
/// let most = LabelSays::Value(e("5 lb/1000 ft2")?);
/// let wanted = e("5 lb/1000 ft2")?;
/// // Within five percent, and yet above the label's most.
/// let over = rate_found_finding(&e("5.1 lb/1000 ft2")?, &wanted, &most, Passes::One)?;
/// assert_eq!(over.verdict, Verdict::DontTreat);
/// let under = rate_found_finding(&e("4.8 lb/1000 ft2")?, &wanted, &most, Passes::One)?;
/// assert_eq!(under.verdict, Verdict::Clear);
/// // Two passes of 2.6 lb are 5.2 lb.
/// let twice = Passes::TwoAtRightAngles;
/// let over = rate_found_finding(&e("2.6 lb/1000 ft2")?, &wanted, &most, twice)?;
/// assert_eq!(over.verdict, Verdict::DontTreat);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a rate is zero or none, or the three are of different kinds.
pub fn rate_found_finding(
    found: &Entered,
    wanted: &Entered,
    most: &LabelSays<Entered>,
    passes: Passes,
) -> Result<Finding> {
    let kind = rate_kind(wanted, &Field::WantedRate)?;
    let wanted_si = positive(wanted, kind, &Field::WantedRate)?;
    let each_si = positive(found, kind, &Field::FoundRate)?;
    let times = Decimal::from(passes.times());
    let in_all = found.amount().checked_mul(times);
    let in_all = in_all.and_then(|amount| shown(amount, found.unit()));
    let (Some(found_si), Some(in_all)) = (each_si.checked_mul(times), in_all) else {
        return Err(out_of_range(found));
    };
    let off = percent_off(found_si, wanted_si).ok_or_else(|| out_of_range(found))?;
    let value = Shown::OffWanted {
        amount: in_all,
        change: Tenths::nearest(to_f64(off)),
    };
    let Some(most) = most.value() else {
        let unknown = Finding::unknown(Check::CalibratedRate, Reason::MostNotOnSheet);
        return Ok(unknown.with_value(value));
    };
    if above(&in_all, most)? {
        let stop = Finding::new(
            Check::CalibratedRate,
            Verdict::DontTreat,
            Reason::CalibratedAboveMost,
        );
        return Ok(stop
            .with_value(value)
            .with_limit(Shown::Amount { amount: *most }, Whose::Label));
    }
    let accepted = Decimal::from(ACCEPTED_PERCENT);
    let (verdict, reason) = if off > accepted {
        (Verdict::Caution, Reason::CalibratedHeavy)
    } else if off < -accepted {
        (Verdict::Caution, Reason::CalibratedLight)
    } else {
        (Verdict::Clear, Reason::CalibratedOnRate)
    };
    Ok(Finding::new(Check::CalibratedRate, verdict, reason)
        .with_value(value)
        .with_limit(within(), Whose::Advice)
        .with_source(Source::SpreaderCalibration))
}

/// Whether a rate found is above the label's most, both as a person would write them.
fn above(found: &Entered, most: &Entered) -> Result<bool> {
    found
        .must_be(most.dimension())
        .map_err(|e| e.of(Field::FoundRate))?;
    // In the label's unit and to the digits shown: what is equal by hand is equal here.
    let found = found.convert(most.unit())?;
    Ok(found.compare(most)? == Ordering::Greater)
}

/// The kind of a rate: a weight or a volume per area.
pub(super) fn rate_kind(rate: &Entered, field: &Field) -> Result<Dimension> {
    match rate.dimension() {
        kind @ (Dimension::MassPerArea | Dimension::VolumePerArea) => Ok(kind),
        _ => Err(RuleError::NotAllowed {
            field: field.clone(),
            given: rate.for_person(),
            allowed: Allowed::RateKind,
        }),
    }
}

/// [`ACCEPTED_PERCENT`] as a limit.
pub(super) fn within() -> Shown {
    Shown::Within {
        percent: whole(ACCEPTED_PERCENT, Unit::PERCENT),
    }
}
