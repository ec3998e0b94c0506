//! The can test: straight-sided cans on the lawn, run the water, measure what each caught.

use rust_decimal::Decimal;
use serde::Serialize;

use crate::error::{Field, Result, RuleError};
use crate::mix::times_over;
use crate::note::Note;
use crate::quantity::{Dimension, Entered, Unit, out_of_range, positive, to_f64};
use crate::working::{Answer, Working};

/// Fewest cans that say anything of evenness.
pub const CANS_LEAST: usize = 4;
/// Most cans in one test.
pub const CANS_MOST: usize = 200;

const PI: Decimal = Decimal::from_parts(2_721_204_694, 731_459_039, 0, false, 18);

/// A can test.
#[derive(Debug, Clone)]
pub struct CanTest<'a> {
    /// The depth in each can; zero where it stayed dry.
    pub depths: &'a [Entered],
    /// How long the water ran.
    pub ran: Entered,
}

/// What the cans say.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CanTestResult {
    /// Mean depth.
    pub mean: Entered,
    /// Mean depth of the driest quarter of the cans.
    pub driest_quarter: Entered,
    /// The driest quarter in percent of the mean (distribution uniformity).
    pub uniformity_percent: f64,
    /// Mean depth in a second, in metres.
    #[serde(skip)]
    pub(crate) mean_m_s: Decimal,
    /// Mean depth of the driest quarter in a second, in metres.
    #[serde(skip)]
    pub(crate) driest_m_s: Decimal,
}

/// Mean, driest quarter and uniformity of a can test.
///
/// The driest quarter is that of the cans, rounded down to whole cans, at least one.
///
/// ```
/// use sward_rules::{Entered, watering::{CanTest, can_test}};
/// let e = |t: &str| Entered::parse(t).unwrap();
/// let cans = [e("0.2 in"), e("0.3 in"), e("0.25 in"), e("0.25 in")];
/// let test = can_test(&CanTest { depths: &cans, ran: e("15 min") })?.value;
/// assert_eq!((test.mean, test.driest_quarter), (e("0.25 in"), e("0.2 in")));
/// assert!((test.uniformity_percent - 80.0).abs() < 1e-9);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When there are fewer than [`CANS_LEAST`] or more than [`CANS_MOST`] cans, a depth is no length or
/// no can's, the time is none, or no can caught anything.
pub fn can_test(test: &CanTest<'_>) -> Result<Answer<CanTestResult>> {
    let count = test.depths.len();
    if count < CANS_LEAST {
        return Err(RuleError::TooFewCans {
            count,
            needed: CANS_LEAST,
        });
    }
    if count > CANS_MOST {
        return Err(RuleError::TooMany {
            field: Field::Cans,
            count,
            limit: CANS_MOST,
        });
    }
    let ran_s = positive(&test.ran, Dimension::Time, &Field::CanTime)?;
    let mut depths_m = (1..)
        .zip(test.depths)
        .map(|(number, depth)| depth_m(depth, number))
        .collect::<Result<Vec<_>>>()?;
    depths_m.sort();
    let range = || out_of_range(&test.ran);
    let mean = |part: &[Decimal]| {
        let sum: Decimal = part.iter().sum();
        sum.checked_div(Decimal::from(part.len())).ok_or_else(range)
    };
    let mean_m = mean(&depths_m)?;
    if mean_m.is_zero() {
        return Err(RuleError::CansEmpty);
    }
    let driest_m = mean(&depths_m[..(count / 4).max(1)])?;
    let unit = test.depths.first().map_or(Unit::INCH, Entered::unit);
    let as_depth = |m: Decimal| Entered::from_si(m, unit).ok_or_else(range);
    let share = driest_m.checked_div(mean_m).ok_or_else(range)?;
    let per_second = |m: Decimal| times_over(m, Decimal::ONE, ran_s).ok_or_else(range);
    let texts: Vec<String> = test.depths.iter().map(Entered::for_person).collect();
    let working = Working::new(
        "mean of the cans; mean of the driest quarter ÷ mean of all",
        "distribution uniformity of the lowest quarter (from memory)",
    )
    .input("cans", texts.join(", "))
    .input("ran", test.ran.for_person())
    .note(Note::DriestQuarter);
    Ok(working.gives(CanTestResult {
        mean: as_depth(mean_m)?,
        driest_quarter: as_depth(driest_m)?,
        uniformity_percent: to_f64(share * Decimal::ONE_HUNDRED),
        mean_m_s: per_second(mean_m)?,
        driest_m_s: per_second(driest_m)?,
    }))
}

/// The depth of a volume caught in a can with straight sides, from its opening's diameter.
///
/// ```
/// use sward_rules::{Entered, watering::can_depth};
/// let e = |t: &str| Entered::parse(t).unwrap();
/// let depth = can_depth(&e("100 mL"), &e("10 cm"))?.value;
/// assert_eq!(depth, e("12.7323954 mm"));
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When either is of the wrong kind, the opening is zero, or the depth is no can's.
pub fn can_depth(caught: &Entered, opening: &Entered) -> Result<Answer<Entered>> {
    let m3 = caught
        .si(Dimension::Volume)
        .map_err(|e| e.of(Field::Caught))?;
    let across_m = positive(opening, Dimension::Length, &Field::Diameter)?;
    let metric = [Unit::MILLILITRE, Unit::LITRE].contains(&caught.unit());
    let unit = if metric { Unit::MILLIMETRE } else { Unit::INCH };
    let range = || out_of_range(caught);
    let opening_m2 = across_m
        .checked_mul(across_m)
        .and_then(|square| square.checked_mul(PI))
        .and_then(|square| square.checked_div(Decimal::from(4)))
        .ok_or_else(range)?;
    let depth = times_over(m3, Decimal::ONE, opening_m2)
        .and_then(|m| Entered::from_si(m, unit))
        .ok_or_else(range)?;
    depth_m(&depth, 1)?;
    let working = Working::new("volume ÷ (π/4 × diameter²)", "geometry")
        .input("water caught", caught.for_person())
        .input("diameter", opening.for_person());
    Ok(working.gives(depth))
}

/// A can's depth in metres; none is deeper than half a metre.
fn depth_m(depth: &Entered, number: usize) -> Result<Decimal> {
    let field = Field::CanDepth { number };
    let m = depth
        .si(Dimension::Length)
        .map_err(|e| e.of(field.clone()))?;
    if m > Decimal::new(5, 1) {
        return Err(out_of_range(depth).of(field));
    }
    Ok(m)
}
