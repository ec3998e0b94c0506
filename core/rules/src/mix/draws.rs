//! Draws from one tank at several stops: what each got, at which rate, and what is left.
//!
//! What was drawn is held against the area it went on, all draws of one yard together. More than was
//! left cannot be drawn: such an entry is refused, as some number in it is wrong.

use rust_decimal::Decimal;
use serde::Serialize;

use super::rates::lawn;
use super::tank::area_down;
use super::{SPARE_DIGITS, times_over};
use crate::error::{Allowed, Field, Result, RuleError};
use crate::finding::{Check, Finding, Reason, Shown, Verdict, sum};
use crate::label::Label;
use crate::measure::AreaEstimate;
use crate::note::Note;
use crate::plan::{carrier_finding, rate_findings};
use crate::quantity::{
    Dimension, Entered, Unit, near, out_of_range, positive, shown, shown_down, shown_up,
};
use crate::same_text::same_text;
use crate::working::{Answer, Working};

/// Most stops of one tank.
pub const DRAWS_MOST: usize = 200;

/// What was put into a tank.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TankMix {
    /// Product.
    pub product: Entered,
    /// Finished mix, product included.
    pub mix: Entered,
}

/// Finished mix drawn for one yard; one that is drawn for twice bears the same name and area.
#[derive(Debug, Clone)]
pub struct Draw {
    /// The yard's name.
    pub name: String,
    /// Finished mix drawn for it.
    pub drawn: Entered,
    /// The area it went on, where it is known.
    pub area: Option<AreaEstimate>,
}

/// A yard still to be served.
#[derive(Debug, Clone)]
pub struct Stop {
    /// Its name.
    pub name: String,
    /// Its area.
    pub area: AreaEstimate,
}

/// One tank and its stops.
#[derive(Debug, Clone)]
pub struct Serving<'a> {
    /// The label sheet.
    pub label: &'a Label,
    /// What was put in.
    pub tank: &'a TankMix,
    /// Finished mix per area as planned.
    pub carrier: Entered,
    /// What was drawn, in order.
    pub draws: &'a [Draw],
    /// What is still to come, in order.
    pub to_come: &'a [Stop],
}

/// What one yard got.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DrawnAt {
    /// The yard's name.
    pub name: String,
    /// Finished mix drawn.
    pub drawn: Entered,
    /// Product in it.
    pub product: Entered,
    /// Area that it covers at the planned carrier, rounded down.
    pub covers: Entered,
    /// The rate on the area it went on, with all else that was drawn for this yard; none where that
    /// area is not known.
    pub rate: Option<Entered>,
    /// Finished mix left in the tank afterwards, rounded down.
    pub left: Entered,
    /// What the label says to all that was drawn for this yard.
    pub findings: Vec<Finding>,
}

/// What comes of a tank.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Served {
    /// Each draw.
    pub draws: Vec<DrawnAt>,
    /// Finished mix left, rounded down.
    pub left: Entered,
    /// Product in what is left.
    pub product_left: Entered,
    /// Area that it would still cover at the planned carrier, rounded down.
    pub left_covers: Entered,
    /// Finished mix that the yards still to come take at the planned carrier.
    pub to_come: Option<Entered>,
    /// What is missing for them, rounded up.
    pub short: Option<Entered>,
}

impl Served {
    /// All findings of all draws in one word; nothing drawn is `Unknown`.
    pub fn verdict(&self) -> Verdict {
        let all: Vec<Finding> = self.draws.iter().flat_map(|d| d.findings.clone()).collect();
        sum(&all)
    }
}

/// Follows a tank from stop to stop.
///
/// ```
/// # use sward_rules::{Entered, label::*, measure::AreaEstimate, mix::*};
/// # let e = |t: &str| Entered::parse(t).unwrap();
/// let mut label = Label::unfilled(Method::Drench);
/// label.rate_most = LabelSays::Value(e("0.6 fl oz/1000 ft2"));
/// let area = AreaEstimate::stated(&e("5000 ft2"), &e("0 ft2"))?;
/// let served = serve(&Serving {
///     label: &label,
///     tank: &TankMix { product: e("15 fl oz"), mix: e("50 gal") },
///     carrier: e("2 gal/1000 ft2"),
///     draws: &[Draw { name: "Elm".into(), drawn: e("10 gal"), area: Some(area) }],
///     to_come: &[],
/// })?.value;
/// assert_eq!(served.draws[0].product, e("3 fl oz"));
/// assert_eq!(served.draws[0].rate, Some(e("0.6 fl oz/1000 ft2")));
/// assert_eq!((served.left, served.left_covers), (e("40 gal"), e("20000 ft2")));
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a value is of the wrong kind or zero, more is drawn than was left, one yard is given two
/// areas, or there are more than [`DRAWS_MOST`] stops.
pub fn serve(input: &Serving<'_>) -> Result<Answer<Served>> {
    let count = input.draws.len() + input.to_come.len();
    if count > DRAWS_MOST {
        return Err(RuleError::TooMany {
            field: Field::Stops,
            count,
            limit: DRAWS_MOST,
        });
    }
    let carrier_m = positive(&input.carrier, Dimension::VolumePerArea, &Field::Carrier)?;
    let filled = Contents::of(input.tank)?;
    let mut left = filled.mix;
    let mut amounts = Vec::with_capacity(input.draws.len());
    for draw in input.draws {
        let field = Field::Drawn {
            name: draw.name.clone(),
        };
        positive(&draw.drawn, Dimension::Volume, &field)?;
        let drawn = draw.drawn.in_unit(filled.unit());
        let drawn = drawn.ok_or_else(|| out_of_range(&draw.drawn).of(field))?;
        if drawn > left {
            return Err(RuleError::DrawnMoreThanLeft {
                stop: draw.name.clone(),
                drawn: draw.drawn.for_person(),
                left: filled.down(left)?.for_person(),
            });
        }
        left -= drawn;
        amounts.push((drawn, left));
    }
    let each = input.draws.iter().zip(&amounts);
    let draws = each
        .map(|(draw, &(drawn, left))| {
            let in_all = in_all(draw, input.draws, &amounts)?;
            drawn_at(input.label, &filled, carrier_m, draw, (drawn, in_all, left))
        })
        .collect::<Result<Vec<_>>>()?;
    let needed = to_come(input, carrier_m, &filled)?;
    let short = needed.filter(|needed| *needed > left).map(|n| n - left);
    let in_mix_unit = |amount| {
        shown_up(amount, filled.unit(), SPARE_DIGITS).ok_or_else(|| out_of_range(&input.tank.mix))
    };
    let working = Working::new(
        "product × finished mix drawn ÷ finished mix in the tank",
        "arithmetic",
    )
    .input("product", input.tank.product.for_person())
    .input("finished mix", input.tank.mix.for_person())
    .input("carrier", input.carrier.for_person())
    .note(Note::SpareRoundedDown);
    Ok(working.gives(Served {
        draws,
        left: filled.down(left)?,
        product_left: filled.product_in(left)?,
        left_covers: filled.covers(left, carrier_m)?,
        to_come: needed.map(in_mix_unit).transpose()?,
        short: short.map(in_mix_unit).transpose()?,
    }))
}

/// All that was drawn for the yard of one draw: two small draws may be too much together.
fn in_all(draw: &Draw, draws: &[Draw], amounts: &[(Decimal, Decimal)]) -> Result<Decimal> {
    let mut sum = Decimal::ZERO;
    for (other, (drawn, _)) in draws.iter().zip(amounts) {
        if !same_text(&draw.name, &other.name) {
            continue;
        }
        // Two areas are two yards, or one of them is wrong.
        if let (Some(one), Some(another)) = (&draw.area, &other.area)
            && one != another
        {
            let name = draw.name.clone();
            return Err(RuleError::SameName { name });
        }
        let more = sum.checked_add(*drawn);
        sum = more.ok_or_else(|| out_of_range(&other.drawn))?;
    }
    Ok(sum)
}

fn drawn_at(
    label: &Label,
    filled: &Contents<'_>,
    carrier_m: Decimal,
    draw: &Draw,
    (drawn, in_all, left): (Decimal, Decimal, Decimal),
) -> Result<DrawnAt> {
    let product = filled.product_in(drawn)?;
    let (rate, findings) = match &draw.area {
        None => {
            let section = draw.name.clone();
            let reason = Reason::StopAreaNotKnown { section };
            let value = Shown::Amount { amount: product };
            let unknown = Finding::unknown(Check::Rate, reason).with_value(value);
            (None, vec![unknown])
        }
        Some(area) => {
            let (rate, findings) = on_area(label, filled, draw, in_all, area)?;
            (Some(rate), findings)
        }
    };
    Ok(DrawnAt {
        name: draw.name.clone(),
        drawn: draw.drawn,
        product,
        covers: filled.covers(drawn, carrier_m)?,
        rate,
        left: filled.down(left)?,
        findings,
    })
}

/// The rate of all that was drawn on the area, and what the label says to it; an area that may be
/// smaller than measured is flagged where the dose would then be above the label's most.
fn on_area(
    label: &Label,
    filled: &Contents<'_>,
    draw: &Draw,
    in_all: Decimal,
    area: &AreaEstimate,
) -> Result<(Entered, Vec<Finding>)> {
    let in_section = |e: RuleError| {
        let name = draw.name.clone();
        e.of(Field::Section { name })
    };
    let (area_m2, sure_m2) = lawn(area).map_err(in_section)?;
    let range = || out_of_range(&draw.drawn);
    // A label in metric units, or per acre, has its rates shown in its own.
    let unit = label
        .rate_most
        .value()
        .map(Entered::unit)
        .filter(|unit| unit.over().map(Unit::dimension) == Some(filled.kind));
    let product = filled.exact_product_in(in_all).ok_or_else(range)?;
    let rate_on = |m2: Decimal| filled.rate(product, m2, unit).ok_or_else(range);
    let rate = rate_on(area_m2)?;
    let mut findings = rate_findings(label, &rate)?;
    let worst = if sure_m2 > Decimal::ZERO {
        Some(rate_on(sure_m2)?)
    } else {
        None
    };
    if let Some(most) = label.rate_most.value()
        && rate.compare(most)?.is_le()
        && worst.map_or(Ok(true), |w| w.compare(most).map(std::cmp::Ordering::is_gt))?
    {
        let section = draw.name.clone();
        let percent = near(area.uncertainty_percent(), 1, Unit::PERCENT);
        findings.push(
            Finding::new(
                Check::Rate,
                Verdict::Caution,
                Reason::AreaUnsure { section },
            )
            .with_value(Shown::AreaWithin { percent }),
        );
    }
    let depth = times_over(in_all, filled.unit_m3, area_m2)
        .zip(draw.drawn.unit().per(Unit::SQUARE_FEET_1000))
        .and_then(|(si, unit)| Entered::from_si(si, unit))
        .ok_or_else(range)?;
    findings.push(carrier_finding(label, &depth)?);
    Ok((rate, findings))
}

fn to_come(
    input: &Serving<'_>,
    carrier_m: Decimal,
    filled: &Contents<'_>,
) -> Result<Option<Decimal>> {
    let mut area_m2 = Decimal::ZERO;
    for stop in input.to_come {
        let name = stop.name.clone();
        let (more_m2, _) = lawn(&stop.area).map_err(|e| e.of(Field::Section { name }))?;
        let sum = area_m2.checked_add(more_m2);
        area_m2 = sum.ok_or_else(|| out_of_range(&input.carrier))?;
    }
    if input.to_come.is_empty() {
        return Ok(None);
    }
    let needed = times_over(carrier_m, area_m2, filled.unit_m3);
    needed.map(Some).ok_or_else(|| out_of_range(&input.carrier))
}

/// A tank's contents in the unit in which its mix was given.
pub(super) struct Contents<'a> {
    tank: &'a TankMix,
    pub(super) kind: Dimension,
    pub(super) mix: Decimal,
    unit_m3: Decimal,
}

impl<'a> Contents<'a> {
    pub(super) fn of(tank: &'a TankMix) -> Result<Self> {
        let kind = tank.product.dimension();
        if !matches!(kind, Dimension::Mass | Dimension::Volume) {
            let allowed = Allowed::ProductKind;
            return Err(super::rates::not_allowed(
                &tank.product,
                Field::FilledProduct,
                allowed,
            ));
        }
        positive(&tank.product, kind, &Field::FilledProduct)?;
        let mix_m3 = positive(&tank.mix, Dimension::Volume, &Field::FinishedMix)?;
        if kind == Dimension::Volume && tank.product.compare(&tank.mix)?.is_ge() {
            return Err(RuleError::ProductFillsTank {
                product: tank.product.for_person(),
                capacity: tank.mix.for_person(),
            });
        }
        let mix = tank.mix.amount();
        let unit_m3 = mix_m3.checked_div(mix);
        Ok(Self {
            tank,
            kind,
            mix,
            unit_m3: unit_m3.ok_or_else(|| out_of_range(&tank.mix))?,
        })
    }

    pub(super) fn unit(&self) -> Unit {
        self.tank.mix.unit()
    }

    /// Product in so much finished mix, in the product's unit.
    pub(super) fn exact_product_in(&self, mix: Decimal) -> Option<Decimal> {
        times_over(self.tank.product.amount(), mix, self.mix)
    }

    pub(super) fn product_in(&self, mix: Decimal) -> Result<Entered> {
        let product = self.exact_product_in(mix);
        product
            .and_then(|p| shown(p, self.tank.product.unit()))
            .ok_or_else(|| out_of_range(&self.tank.product))
    }

    /// Finished mix per area that brings so much product per area, both in SI.
    pub(super) fn depth_with(&self, rate: Decimal) -> Option<Decimal> {
        let mix_m3 = self.mix.checked_mul(self.unit_m3)?;
        let product = self.tank.product.si(self.kind).ok()?;
        times_over(rate, mix_m3, product)
    }

    /// A volume of finished mix, rounded down.
    pub(super) fn down(&self, mix: Decimal) -> Result<Entered> {
        shown_down(mix, self.unit(), SPARE_DIGITS).ok_or_else(|| out_of_range(&self.tank.mix))
    }

    /// Area that so much finished mix covers, rounded down.
    pub(super) fn covers(&self, mix: Decimal, carrier_m: Decimal) -> Result<Entered> {
        times_over(mix, self.unit_m3, carrier_m)
            .and_then(area_down)
            .ok_or_else(|| out_of_range(&self.tank.mix))
    }

    /// Product on an area, in `unit`, or in its own per 1000 ft².
    pub(super) fn rate(
        &self,
        product: Decimal,
        area_m2: Decimal,
        unit: Option<Unit>,
    ) -> Option<Entered> {
        let thousand_m2 = Decimal::new(9_290_304, 5);
        let own = self.tank.product.unit().per(Unit::SQUARE_FEET_1000)?;
        let rate = shown(times_over(product, thousand_m2, area_m2)?, own)?;
        match unit {
            Some(unit) if unit != own => rate.convert(unit).ok(),
            _ => Some(rate),
        }
    }
}
