//! Where a leftover may go: onto a site that the label names, within the label's most there; else by
//! the label and the local code. The tool offers choices and takes none.

use rust_decimal::Decimal;
use serde::Serialize;

use super::draws::{Contents, TankMix};
use super::rates::lawn;
use super::{SPARE_DIGITS, times_over};
use crate::error::{Field, Result, RuleError};
use crate::finding::{Check, Finding, Reason, Shown, Verdict, Whose, sum};
use crate::label::Label;
use crate::measure::AreaEstimate;
use crate::note::Note;
use crate::plan::amounts::product_kind;
use crate::plan::carrier_finding;
use crate::quantity::{
    Dimension, Entered, Unit, out_of_range, positive, shown, shown_down, shown_up,
};
use crate::working::{Answer, Working};

/// Most sites to choose from.
const SITES_MOST: usize = 50;

/// A leftover and the sites it might go to.
#[derive(Debug, Clone)]
pub struct Leftover<'a> {
    /// The label sheet.
    pub label: &'a Label,
    /// What was put into the tank.
    pub tank: &'a TankMix,
    /// Finished mix left.
    pub left: Entered,
    /// Finished mix per area as planned.
    pub carrier: Entered,
    /// Sites that might take it.
    pub sites: &'a [Site],
}

/// A site that might take a leftover.
#[derive(Debug, Clone)]
pub struct Site {
    /// Its name.
    pub name: String,
    /// Whether the label names such a site; none where nobody has looked.
    pub on_label: Option<bool>,
    /// Its area.
    pub area: AreaEstimate,
    /// What it has got of the product already.
    pub already: Already,
}

/// What a site has got of the product within the time for which the label's most holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Already {
    /// Nothing, as a person says.
    Nothing,
    /// This rate.
    Rate(Entered),
    /// Nobody knows.
    NotKnown,
}

/// What one site can take.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SiteTakes {
    /// Its name.
    pub name: String,
    /// Finished mix that it takes within the label's most, rounded down; none where it may take none.
    pub takes: Option<Entered>,
    /// Finished mix left afterwards, rounded down.
    pub left_after: Option<Entered>,
    /// The least area the whole leftover must be spread over there, rounded up.
    pub least_area: Option<Entered>,
    /// What the label says to it: to the rate, and to the water that the mix brings there.
    pub findings: Vec<Finding>,
}

impl SiteTakes {
    /// The findings in one word.
    pub fn verdict(&self) -> Verdict {
        sum(&self.findings)
    }
}

/// Where a leftover may go.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LeftoverChoices {
    /// Product in it.
    pub product: Entered,
    /// Area that it would cover at the planned carrier, rounded down.
    pub covers: Entered,
    /// Each site, in the order given. Where none takes it, the label and the local code decide.
    pub sites: Vec<SiteTakes>,
}

/// Offers where a leftover may go.
///
/// ```
/// # use sward_rules::{Entered, Verdict, label::*, measure::AreaEstimate, mix::*};
/// # let e = |t: &str| Entered::parse(t).unwrap();
/// let mut label = Label::unfilled(Method::Drench);
/// label.rate_most = LabelSays::Value(e("0.6 fl oz/1000 ft2"));
/// let area = AreaEstimate::stated(&e("1000 ft2"), &e("0 ft2"))?;
/// let choices = leftover_choices(&Leftover {
///     label: &label,
///     tank: &TankMix { product: e("15 fl oz"), mix: e("50 gal") },
///     left: e("3 gal"),
///     carrier: e("2 gal/1000 ft2"),
///     sites: &[Site { name: "Elm, strip".into(), on_label: Some(true), area, already: Already::Nothing }],
/// })?.value;
/// assert_eq!(choices.covers, e("1500 ft2"));
/// assert_eq!(choices.sites[0].takes, Some(e("2 gal")));
/// assert_eq!(choices.sites[0].left_after, Some(e("1 gal")));
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a value is of the wrong kind or zero, more is left than was mixed, or there are too many
/// sites.
pub fn leftover_choices(input: &Leftover<'_>) -> Result<Answer<LeftoverChoices>> {
    if input.sites.len() > SITES_MOST {
        return Err(RuleError::TooMany {
            field: Field::Sites,
            count: input.sites.len(),
            limit: SITES_MOST,
        });
    }
    let carrier_m = positive(&input.carrier, Dimension::VolumePerArea, &Field::Carrier)?;
    positive(&input.left, Dimension::Volume, &Field::LeftInTank)?;
    let filled = Contents::of(input.tank)?;
    let left = input.left.in_unit(filled.unit());
    let left = left.ok_or_else(|| out_of_range(&input.left).of(Field::LeftInTank))?;
    if left > filled.mix {
        return Err(RuleError::NotAllowed {
            field: Field::LeftInTank,
            given: input.left.for_person(),
            allowed: crate::error::Allowed::NoMoreThanFilled,
        });
    }
    let sites = input
        .sites
        .iter()
        .map(|site| {
            takes(input, &filled, (left, carrier_m), site).map_err(|e| {
                let name = site.name.clone();
                e.of(Field::Section { name })
            })
        })
        .collect::<Result<Vec<_>>>()?;
    let working = Working::new(
        "(label's most − put on already) × area ÷ product in the mix",
        "arithmetic",
    )
    .input("left", input.left.for_person())
    .input("product", input.tank.product.for_person())
    .input("finished mix", input.tank.mix.for_person())
    .input("carrier", input.carrier.for_person())
    .note(Note::SpareRoundedDown)
    .note(Note::RepeatHoldsThereToo)
    .note(Note::LeftoverElse);
    Ok(working.gives(LeftoverChoices {
        product: filled.product_in(left)?,
        covers: filled.covers(left, carrier_m)?,
        sites,
    }))
}

fn takes(
    input: &Leftover<'_>,
    filled: &Contents<'_>,
    (left, carrier_m): (Decimal, Decimal),
    site: &Site,
) -> Result<SiteTakes> {
    let nothing = |findings: Vec<Finding>| SiteTakes {
        name: site.name.clone(),
        takes: None,
        left_after: None,
        least_area: None,
        findings,
    };
    let section = || site.name.clone();
    let unknown = |reason| Ok(nothing(vec![Finding::unknown(Check::Rate, reason)]));
    let refused = |reason| Finding::new(Check::Rate, Verdict::DontTreat, reason);
    match site.on_label {
        Some(true) => {}
        Some(false) => {
            let off_label = refused(Reason::SiteNotOnLabel { section: section() });
            return Ok(nothing(vec![off_label]));
        }
        None => return unknown(Reason::SiteNotChecked { section: section() }),
    }
    let Some(most) = input.label.rate_most.value() else {
        return unknown(Reason::MostNotOnSheet);
    };
    let kind = product_kind(most)?;
    if kind != filled.kind {
        return Err(RuleError::WrongKind {
            given: input.tank.product.for_person(),
            is: filled.kind,
            needed: kind,
        }
        .of(Field::FilledProduct));
    }
    let room = match &site.already {
        Already::NotKnown => return unknown(Reason::AlreadyNotKnown { section: section() }),
        Already::Nothing => most.si(most.dimension())?,
        Already::Rate(rate) => {
            let field = Field::AlreadyPutOn { name: section() };
            let on = rate.si(most.dimension()).map_err(|e| e.of(field))?;
            most.si(most.dimension())? - on
        }
    };
    if room <= Decimal::ZERO {
        let limit = Shown::Amount { amount: *most };
        let full = refused(Reason::NoRoomUnderMost { section: section() });
        return Ok(nothing(vec![full.with_limit(limit, Whose::Label)]));
    }
    let range = || out_of_range(&input.left);
    let water = carrier_finding(
        input.label,
        &carrier_there(input, filled, (room, carrier_m))?,
    )?;
    if water.verdict == Verdict::DontTreat {
        return Ok(nothing(vec![water]));
    }
    // Only the area that is there for sure counts: an uncertain one must not raise the dose.
    let (_, sure_m2) = lawn(&site.area)?;
    let product_left = filled.exact_product_in(left).ok_or_else(range)?;
    let unit_si = Entered::new(Decimal::ONE, input.tank.product.unit())?.si(kind)?;
    let room_product = times_over(room, sure_m2, unit_si).ok_or_else(range)?;
    let takes = if room_product >= product_left {
        left
    } else {
        times_over(left, room_product, product_left).ok_or_else(range)?
    };
    let least_m2 = times_over(product_left, unit_si, room).ok_or_else(range)?;
    let taken = shown_down(takes, filled.unit(), SPARE_DIGITS).ok_or_else(range)?;
    let finding = if taken.is_zero() {
        refused(Reason::NoRoomUnderMost { section: section() })
    } else {
        Finding::new(Check::Rate, Verdict::Clear, Reason::RateWithinMost)
            .with_value(Shown::AtMost {
                most: room_rate(room, most)?,
            })
            .with_limit(Shown::Amount { amount: *most }, Whose::Label)
    };
    Ok(SiteTakes {
        name: section(),
        takes: (!taken.is_zero()).then_some(taken),
        left_after: Some(filled.down(left - taken.amount())?),
        least_area: area_up(least_m2),
        findings: vec![finding, water],
    })
}

/// Finished mix per area that the site gets: as planned, or less where the room under the label's
/// most asks for less of the mix.
fn carrier_there(
    input: &Leftover<'_>,
    filled: &Contents<'_>,
    (room, carrier_m): (Decimal, Decimal),
) -> Result<Entered> {
    let range = || out_of_range(&input.carrier);
    let room_m = filled.depth_with(room).ok_or_else(range)?;
    if room_m >= carrier_m {
        return Ok(input.carrier);
    }
    times_over(room_m, input.carrier.amount(), carrier_m)
        .and_then(|amount| shown(amount, input.carrier.unit()))
        .ok_or_else(range)
}

fn room_rate(room: Decimal, most: &Entered) -> Result<Entered> {
    let share = most.si(most.dimension())?;
    times_over(room, most.amount(), share)
        .and_then(|amount| shown(amount, most.unit()))
        .ok_or_else(|| out_of_range(most))
}

/// Square feet, rounded up.
fn area_up(area_m2: Decimal) -> Option<Entered> {
    let square_feet = area_m2.checked_div(Decimal::new(9_290_304, 8))?;
    shown_up(square_feet, Unit::SQUARE_FOOT, SPARE_DIGITS)
}
