//! Two people calibrate, each on their own: do they find the same?

use super::against::within;
use super::{ACCEPTED_PERCENT, out_of_range, percent_off, positive};
use crate::error::{Field, Result};
use crate::finding::{Check, Finding, Reason, Shown, Source, Tenths, Verdict, Whose};
use crate::quantity::{Entered, to_f64};
use crate::same_text::same_text;
use rust_decimal::Decimal;

/// One person's result.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Person<'a> {
    /// Who it was.
    pub name: &'a str,
    /// What they found: a rate, a flow, a time.
    pub found: Entered,
}

/// The results of two people. More than 5 % apart, or one person twice, or one without a name, is
/// `Unknown`: which of the two is right nobody can tell.
///
/// The difference is in percent of the smaller, so that it does not matter who was first.
///
/// ```
/// use sward_rules::{Entered, Verdict, calibrate::*};
/// let first = Person { name: "Ann", found: Entered::parse("3.6 lb/1000 ft2")? };
/// let second = Person { name: "Ben", found: Entered::parse("3.9 lb/1000 ft2")? };
/// assert_eq!(two_people_finding(&first, Some(&second))?.verdict, Verdict::Unknown);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a result is zero, or the two are of different kinds.
pub fn two_people_finding(first: &Person<'_>, second: Option<&Person<'_>>) -> Result<Finding> {
    let kind = first.found.dimension();
    let one = positive(&first.found, kind, &Field::FirstResult)?;
    let nobody = Finding::unknown(Check::Calibration, Reason::NoSecondPerson);
    let Some(second) = second else {
        return Ok(nobody);
    };
    let other = positive(&second.found, kind, &Field::SecondResult)?;
    // Who has no name may be the other one.
    let nameless = [first.name, second.name]
        .iter()
        .any(|n| n.trim().is_empty());
    if nameless || same_text(first.name, second.name) {
        return Ok(nobody);
    }
    let apart = percent_off(one.max(other), one.min(other));
    let apart = apart.ok_or_else(|| out_of_range(&second.found))?;
    let (verdict, reason) = if apart > Decimal::from(ACCEPTED_PERCENT) {
        (Verdict::Unknown, Reason::TwoPeopleDiffer)
    } else {
        (Verdict::Clear, Reason::TwoPeopleAgree)
    };
    let change = Tenths::nearest(to_f64(apart));
    Ok(Finding::new(Check::Calibration, verdict, reason)
        .with_value(Shown::Change { change })
        .with_limit(within(), Whose::Advice)
        .with_source(Source::SpreaderCalibration))
}
