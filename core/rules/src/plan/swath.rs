//! A setting on another swath than it was calibrated on: the dose doubles or halves.
//!
//! What goes on is what the setting gives on its own swath, times that swath over the distance
//! between lines, times how often the lawn is gone over. Crosswise and parallel half-rate passes are
//! both here; which one to take is the person's choice.

use std::cmp::Ordering;

use rust_decimal::Decimal;
use serde::Serialize;

use super::amounts::product_kind;
use super::rate::{CHANGE_FLAG_PERCENT, flag};
use crate::calibrate::percent_off;
use crate::error::{Field, Result};
use crate::finding::{Check, Finding, Reason, Shown, Source, Tenths, Verdict, Whose};
use crate::label::Label;
use crate::note::Note;
use crate::quantity::{Dimension, Entered, exact, out_of_range, positive, shown, shown_up, to_f64};
use crate::working::{Answer, Working};

/// How often the whole lawn is gone over with the setting.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum TimesOver {
    /// Once, in parallel lines.
    #[default]
    Once,
    /// Twice, the second time at right angles to the first.
    TwiceAtRightAngles,
}

/// A setting, and how it is used.
#[derive(Debug, Clone)]
pub struct SettingUse<'a> {
    /// The label sheet.
    pub label: &'a Label,
    /// The rate that is to go on in all.
    pub planned: Entered,
    /// What one pass with the setting gave when it was calibrated.
    pub gives: Entered,
    /// The swath it was calibrated on, if known.
    pub calibrated_swath: Option<Entered>,
    /// The distance between lines on the lawn.
    pub line_spacing: Entered,
    /// How often the lawn is gone over.
    pub times: TimesOver,
}

/// What comes of it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SettingUsed {
    /// What each time over gives; none where the swath of the calibration is not known.
    pub rate_each: Option<Entered>,
    /// What goes on in all; none where it is not known.
    pub rate_in_all: Option<Entered>,
    /// How far that is from the planned rate, in percent; above zero is heavy.
    pub off_percent: Option<f64>,
    /// What the setting should give on its own swath, for the planned rate to go on.
    pub should_give: Option<Entered>,
    /// Distance between lines at which the setting gives the planned rate once over, rounded up;
    /// none where that is wider than its swath.
    pub spacing_once: Option<Entered>,
    /// The same for twice over, the second time at right angles.
    pub spacing_crosswise: Option<Entered>,
    /// What the label and the plan say to it.
    pub finding: Finding,
}

/// What a setting puts on, where its lines lie as they do.
///
/// Above the label's most is `DontTreat`; off the planned rate by more than 5 % is `Caution`; an
/// unknown swath, or no most on the label sheet, is `Unknown`.
///
/// ```
/// # use sward_rules::{Entered, Verdict, label::*, plan::*};
/// # let e = |t: &str| Entered::parse(t).unwrap();
/// let mut label = Label::unfilled(Method::Granule);
/// label.rate_most = LabelSays::Value(e("2.5 lb/1000 ft2"));
/// // Calibrated for the whole rate on 10 ft, then used in lines 5 ft apart: twice the dose.
/// let used = setting_used(&SettingUse {
///     label: &label,
///     planned: e("2.5 lb/1000 ft2"),
///     gives: e("2.5 lb/1000 ft2"),
///     calibrated_swath: Some(e("10 ft")),
///     line_spacing: e("5 ft"),
///     times: TimesOver::Once,
/// })?.value;
/// assert_eq!(used.rate_in_all, Some(e("5 lb/1000 ft2")));
/// assert_eq!(used.should_give, Some(e("1.25 lb/1000 ft2")));
/// assert_eq!(used.finding.verdict, Verdict::DontTreat);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a rate is zero or of another kind than the others, or a distance is zero or no length.
pub fn setting_used(input: &SettingUse<'_>) -> Result<Answer<SettingUsed>> {
    product_kind(&input.planned)?;
    let kind = input.planned.dimension();
    let gives = positive(&input.gives, kind, &Field::SettingGives)?;
    let planned = positive(&input.planned, kind, &Field::Rate)?;
    let spacing_m = positive(&input.line_spacing, Dimension::Length, &Field::LineSpacing)?;
    let times = match input.times {
        TimesOver::Once => Decimal::ONE,
        TimesOver::TwiceAtRightAngles => Decimal::TWO,
    };
    let working = Working::new(
        "what the setting gives × its swath ÷ distance between lines × times over",
        "arithmetic",
    )
    .input("planned rate", input.planned.for_person())
    .input("what the setting gives", input.gives.for_person())
    .input("distance between lines", input.line_spacing.for_person())
    .input("times over", times)
    .note(Note::HalfSwathIsMoreEven);
    let Some(swath) = &input.calibrated_swath else {
        let finding = Finding::unknown(Check::Swath, Reason::SwathNotKnown);
        return Ok(working.gives(SettingUsed {
            rate_each: None,
            rate_in_all: None,
            off_percent: None,
            should_give: None,
            spacing_once: None,
            spacing_crosswise: None,
            finding,
        }));
    };
    let swath_m = positive(swath, Dimension::Length, &Field::CalibratedSwath)?;
    let working = working.input("swath of the calibration", swath.for_person());
    let range = || out_of_range(&input.gives);
    let factor = swath_m.checked_div(spacing_m).ok_or_else(range)?;
    let each = gives.checked_mul(factor).ok_or_else(range)?;
    let in_all = each.checked_mul(times).and_then(exact).ok_or_else(range)?;
    let unit = input.planned.unit();
    let per_unit = |si: Decimal| {
        // Through the planned rate, whose unit is the one shown.
        let share = si.checked_div(planned).and_then(exact);
        share
            .and_then(|s| s.checked_mul(input.planned.amount()))
            .and_then(|amount| shown(amount, unit))
            .ok_or_else(range)
    };
    let should = planned
        .checked_div(factor.checked_mul(times).ok_or_else(range)?)
        .ok_or_else(range)?;
    let off_percent = to_f64(percent_off(in_all, planned).ok_or_else(range)?);
    let rate_in_all = per_unit(in_all)?;
    // Lines wider apart than the swath leave strips between them.
    let spacing = |times: Decimal| {
        let share = gives.checked_mul(times)?.checked_div(planned)?;
        let share = exact(share).filter(|share| *share <= Decimal::ONE)?;
        shown_up(swath.amount().checked_mul(share)?, swath.unit(), 6)
    };
    Ok(working.gives(SettingUsed {
        rate_each: Some(per_unit(each)?),
        rate_in_all: Some(rate_in_all),
        off_percent: Some(off_percent),
        should_give: Some(per_unit(should)?),
        spacing_once: spacing(Decimal::ONE),
        spacing_crosswise: spacing(Decimal::TWO),
        finding: finding(input.label, &rate_in_all, off_percent)?,
    }))
}

fn finding(label: &Label, rate: &Entered, off_percent: f64) -> Result<Finding> {
    let value = Shown::Changed {
        amount: *rate,
        change: Tenths::nearest(off_percent),
    };
    let Some(most) = label.rate_most.value() else {
        return Ok(Finding::unknown(Check::Swath, Reason::MostNotOnSheet).with_value(value));
    };
    rate.must_be(most.dimension())
        .map_err(|e| e.of(Field::Rate))?;
    if rate.compare(most)? == Ordering::Greater {
        let limit = Shown::Amount { amount: *most };
        return Ok(
            Finding::new(Check::Swath, Verdict::DontTreat, Reason::SwathAboveMost)
                .with_value(value)
                .with_limit(limit, Whose::Label),
        );
    }
    let (verdict, reason) = if off_percent > CHANGE_FLAG_PERCENT {
        (Verdict::Caution, Reason::SwathCloser)
    } else if off_percent < -CHANGE_FLAG_PERCENT {
        (Verdict::Caution, Reason::SwathWider)
    } else {
        (Verdict::Clear, Reason::SwathAsCalibrated)
    };
    Ok(Finding::new(Check::Swath, verdict, reason)
        .with_value(value)
        .with_limit(flag(), Whose::Advice)
        .with_source(Source::SpreaderCalibration))
}
