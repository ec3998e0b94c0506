//! A rate in every form in which labels give it, and product from each.
//!
//! By area, by the area that a pack covers, by volume of mix, by active ingredient. Weight and
//! volume never become each other: that would take a density, which nobody has typed.

use rust_decimal::Decimal;

use super::times_over;
use crate::error::{Allowed, Field, Result, RuleError};
use crate::measure::AreaEstimate;
use crate::note::Note;
use crate::plan::AreaBasis;
use crate::plan::amounts::{areas, over, product_kind};
use crate::quantity::{Dimension, Entered, Unit, out_of_range, positive, shown};
use crate::working::{Answer, Working};

/// A rate in the forms that US and metric labels use, beginning with the one that was given.
///
/// ```
/// use sward_rules::{Entered, mix::rate_forms};
/// let forms = rate_forms(&Entered::parse("3.6 pt/acre")?)?.value;
/// assert!(forms.contains(&Entered::parse("1.32231405 fl oz/1000 ft2")?));
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When it is no weight or volume per area, or zero.
pub fn rate_forms(rate: &Entered) -> Result<Answer<Vec<Entered>>> {
    use Unit as U;
    let forms: [(Unit, Unit); 7] = match product_kind(rate)? {
        Dimension::Mass => [
            (U::OUNCE, U::SQUARE_FEET_1000),
            (U::POUND, U::SQUARE_FEET_1000),
            (U::POUND, U::ACRE),
            (U::GRAM, U::SQUARE_FEET_1000),
            (U::GRAM, U::SQUARE_METRE),
            (U::GRAM, U::SQUARE_METRES_100),
            (U::KILOGRAM, U::HECTARE),
        ],
        _ => [
            (U::FLUID_OUNCE, U::SQUARE_FEET_1000),
            (U::GALLON, U::SQUARE_FEET_1000),
            (U::PINT, U::ACRE),
            (U::GALLON, U::ACRE),
            (U::MILLILITRE, U::SQUARE_FEET_1000),
            (U::MILLILITRE, U::SQUARE_METRES_100),
            (U::LITRE, U::HECTARE),
        ],
    };
    let mut all = vec![*rate];
    for (over, under) in forms {
        let Some(unit) = over.per(under) else {
            continue;
        };
        // What is too small to write in one form is left out of the list, not out of the others.
        if let (true, Ok(form)) = (unit != rate.unit(), rate.convert(unit)) {
            all.push(form);
        }
    }
    let working = Working::new("exact factors of the units", "definitions of the units")
        .input("rate", rate.for_person());
    Ok(working.gives(all))
}

/// The rate per 1000 ft² of a pack that covers an area, whatever area it is.
///
/// ```
/// use sward_rules::{Entered, mix::rate_of_coverage};
/// let rate = rate_of_coverage(&Entered::parse("15 lb")?, &Entered::parse("12500 ft2")?)?;
/// assert_eq!(rate.value.for_person(), "1.2 lb/1000 ft²");
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When either is zero or of another kind.
pub fn rate_of_coverage(pack: &Entered, covers: &Entered) -> Result<Answer<Entered>> {
    let field = Field::PackAmount;
    if !matches!(pack.dimension(), Dimension::Mass | Dimension::Volume) {
        return Err(not_allowed(pack, field, Allowed::ProductKind));
    }
    positive(pack, pack.dimension(), &field)?;
    let area_m2 = positive(covers, Dimension::Area, &Field::Covered)?;
    let thousand_m2 = Decimal::new(9_290_304, 5);
    let rate = times_over(pack.amount(), thousand_m2, area_m2)
        .zip(pack.unit().per(Unit::SQUARE_FEET_1000))
        .and_then(|(amount, unit)| shown(amount, unit))
        .ok_or_else(|| out_of_range(pack))?;
    Ok(Working::new("product ÷ area that it covers", "arithmetic")
        .input("product in the pack", pack.for_person())
        .input("area that it covers", covers.for_person())
        .gives(rate))
}

/// Product over an area at a rate, unrounded: a vessel's step comes afterwards
/// ([`crate::plan::measure_out`]).
///
/// # Errors
/// When the rate is none, or the area is no lawn's.
pub fn product_over(rate: &Entered, area: &AreaEstimate) -> Result<Answer<Entered>> {
    product_kind(rate)?;
    let (area_m2, _) = lawn(area)?;
    let unit = rate.unit().over().ok_or_else(|| out_of_range(rate))?;
    let product = over(rate, area_m2, unit)?;
    let product = shown(product, unit).ok_or_else(|| out_of_range(rate))?;
    Ok(Working::new("rate × area", "arithmetic")
        .input("rate", rate.for_person())
        .input("area", area.for_person())
        .gives(product))
}

/// The rate of product that brings a rate of active ingredient.
///
/// From a share by weight it is a weight, in the ingredient rate's own unit; from a weight by volume
/// (lb/gal, g/L) it is a volume, in mL where the content is metric, else in fluid ounces.
///
/// ```
/// use sward_rules::{Entered, mix::product_for_ingredient};
/// let e = |t: &str| Entered::parse(t);
/// let powder = product_for_ingredient(&e("2 lb/acre")?, &e("80 %")?)?.value;
/// assert_eq!(powder.for_person(), "2.5 lb/acre");
/// let liquid = product_for_ingredient(&e("1 lb/acre")?, &e("2 lb/gal")?)?.value;
/// assert_eq!(liquid.for_person(), "64 fl oz/acre");
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When the ingredient rate is no weight per area, the content neither a share nor a weight per
/// volume, either is zero, or the share above 100 %.
pub fn product_for_ingredient(ingredient: &Entered, content: &Entered) -> Result<Answer<Entered>> {
    let kind = Dimension::MassPerArea;
    if ingredient.dimension() != kind {
        let field = Field::IngredientRate;
        return Err(not_allowed(ingredient, field, Allowed::IngredientRateKind));
    }
    let rate_si = positive(ingredient, kind, &Field::IngredientRate)?;
    let content_si = content_si(content)?;
    let range = || out_of_range(ingredient);
    let product = if content.dimension() == Dimension::Percent {
        let amount = ingredient.amount().checked_div(content_si);
        amount.and_then(|a| shown(a, ingredient.unit()))
    } else {
        let metric = [Unit::MILLILITRE, Unit::LITRE].map(Some);
        let liquid = if metric.contains(&content.unit().under()) {
            Unit::MILLILITRE
        } else {
            Unit::FLUID_OUNCE
        };
        let unit = ingredient.unit().under().and_then(|u| liquid.per(u));
        let si = rate_si.checked_div(content_si);
        si.zip(unit)
            .and_then(|(si, unit)| Entered::from_si(si, unit))
    };
    Ok(Working::new("ingredient rate ÷ content", "arithmetic")
        .input("ingredient rate", ingredient.for_person())
        .input("content", content.for_person())
        .gives(product.ok_or_else(range)?))
}

/// Product in a volume of finished mix, from a label that gives product per volume of mix.
///
/// ```
/// use sward_rules::{Entered, mix::product_in_mix};
/// let e = |t: &str| Entered::parse(t);
/// let product = product_in_mix(&e("2 lb/100 gal")?, &e("20 gal")?)?.value;
/// assert_eq!(product.compare(&e("6.4 oz")?)?, std::cmp::Ordering::Equal);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When either is zero or of another kind.
pub fn product_in_mix(ratio: &Entered, mix: &Entered) -> Result<Answer<Entered>> {
    let per_m3 = ratio_si(ratio)?;
    let mix_m3 = positive(mix, Dimension::Volume, &Field::FinishedMix)?;
    let product = per_m3
        .checked_mul(mix_m3)
        .zip(ratio.unit().over())
        .and_then(|(si, unit)| Entered::from_si(si, unit))
        .ok_or_else(|| out_of_range(ratio))?;
    Ok(
        Working::new("product in the mix × finished mix", "arithmetic")
            .input("product in the mix", ratio.for_person())
            .input("finished mix", mix.for_person())
            .note(Note::FinishedMix)
            .gives(product),
    )
}

/// The rate per area that a label's product per volume of mix becomes, when so much of the mix goes
/// on an area: what the label's most is held against.
///
/// ```
/// use sward_rules::{Entered, mix::rate_from_mix};
/// let e = |t: &str| Entered::parse(t);
/// let rate = rate_from_mix(&e("2 lb/100 gal")?, &e("5 gal/1000 ft2")?)?.value;
/// assert_eq!(rate.for_person(), "0.1 lb/1000 ft²");
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When either is zero or of another kind.
pub fn rate_from_mix(ratio: &Entered, carrier: &Entered) -> Result<Answer<Entered>> {
    let per_m3 = ratio_si(ratio)?;
    let depth_m = positive(carrier, Dimension::VolumePerArea, &Field::Carrier)?;
    let unit = ratio.unit().over().zip(carrier.unit().under());
    let rate = unit
        .and_then(|(over, under)| over.per(under))
        .zip(per_m3.checked_mul(depth_m))
        .and_then(|(unit, si)| Entered::from_si(si, unit))
        .ok_or_else(|| out_of_range(ratio))?;
    Ok(Working::new("product in the mix × carrier", "arithmetic")
        .input("product in the mix", ratio.for_person())
        .input("carrier", carrier.for_person())
        .gives(rate))
}

/// Area planned for and area there for sure, in square metres.
pub(crate) fn lawn(area: &AreaEstimate) -> Result<(Decimal, Decimal)> {
    areas(area, AreaBasis::Best).ok_or_else(|| RuleError::NotAllowed {
        field: Field::Area,
        given: area.for_person(),
        allowed: Allowed::LawnArea,
    })
}

/// A content's share, or its kilograms in a cubic metre.
pub(crate) fn content_si(content: &Entered) -> Result<Decimal> {
    let kind = content.dimension();
    if !matches!(kind, Dimension::Percent | Dimension::MassPerVolume) {
        return Err(not_allowed(content, Field::Content, Allowed::ContentKind));
    }
    let si = positive(content, kind, &Field::Content)?;
    if kind == Dimension::Percent && si > Decimal::ONE {
        return Err(not_allowed(content, Field::Content, Allowed::ContentMost));
    }
    Ok(si)
}

fn ratio_si(ratio: &Entered) -> Result<Decimal> {
    let kind = ratio.dimension();
    if !matches!(kind, Dimension::MassPerVolume | Dimension::VolumePerVolume) {
        return Err(not_allowed(ratio, Field::MixRatio, Allowed::MixRatioKind));
    }
    positive(ratio, kind, &Field::MixRatio)
}

pub(super) fn not_allowed(given: &Entered, field: Field, allowed: Allowed) -> RuleError {
    RuleError::NotAllowed {
        field,
        given: given.for_person(),
        allowed,
    }
}
