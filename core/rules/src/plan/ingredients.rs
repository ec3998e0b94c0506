//! How much active ingredient a rate of product puts on.
//!
//! Without a density, a share by weight says nothing about a rate by volume: then there is no
//! figure, and the working says why.

use rust_decimal::Decimal;
use serde::Serialize;

use crate::error::{Allowed, Field, Result, RuleError};
use crate::label::{Ingredient, Label};
use crate::note::Note;
use crate::quantity::{Dimension, Entered, Unit, out_of_range};
use crate::working::{Answer, Working};

/// One active ingredient's dose.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct IngredientDose {
    /// Its generic name.
    pub name: String,
    /// Weight per acre; none where it cannot be known.
    pub per_acre: Option<Entered>,
}

pub(super) fn doses(label: &Label, rate: &Entered) -> Result<Vec<Answer<IngredientDose>>> {
    label
        .ingredients
        .iter()
        .map(|i| {
            let name = || i.name.clone();
            dose(i, rate).map_err(|e| e.of(Field::Ingredient { name: name() }))
        })
        .collect()
}

fn dose(ingredient: &Ingredient, rate: &Entered) -> Result<Answer<IngredientDose>> {
    let content = &ingredient.content;
    if content.dimension() == Dimension::Percent && content.amount() > Decimal::ONE_HUNDRED {
        let given = content.for_person();
        return Err(RuleError::NotAllowed {
            field: Field::Content,
            given,
            allowed: Allowed::ContentMost,
        });
    }
    let working = Working::new("rate × content", "arithmetic")
        .input("rate", rate.for_person())
        .input("content", content.for_person());
    let answer = |working: Working, per_acre| {
        working.gives(IngredientDose {
            name: ingredient.name.clone(),
            per_acre,
        })
    };
    let by = match (rate.dimension(), content.dimension()) {
        (Dimension::MassPerArea, Dimension::Percent)
        | (Dimension::VolumePerArea, Dimension::MassPerVolume) => content.dimension(),
        (_, Dimension::Percent | Dimension::MassPerVolume) => {
            return Ok(answer(working.note(Note::NoDensity), None));
        }
        _ => {
            return Err(RuleError::NotAllowed {
                field: Field::Content,
                given: content.for_person(),
                allowed: Allowed::ContentKind,
            });
        }
    };
    let (rate_si, content_si) = (rate.si(rate.dimension())?, content.si(by)?);
    let per_acre = rate_si
        .checked_mul(content_si)
        .and_then(|si| Entered::from_si(si, Unit::POUND_PER_ACRE))
        .ok_or_else(|| out_of_range(rate))?;
    Ok(answer(working, Some(per_acre)))
}
