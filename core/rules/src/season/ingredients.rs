//! Active ingredient over a season, against the label's most.
//!
//! What is not known (a treatment without its amount, what others put on) is named with every sum,
//! and a sum with such a part never clears.

use rust_decimal::Decimal;
use serde::Serialize;

use crate::error::{Allowed, Field, Result, RuleError};
use crate::finding::{Check, Finding, Reason, Shown, Verdict, Whose, sum};
use crate::label::{Ingredient, LabelSays};
use crate::measure::AreaEstimate;
use crate::mix::{SPARE_DIGITS, content_si, lawn, positive_si, times_over};
use crate::note::Note;
use crate::plan::amounts::out_of_range;
use crate::quantity::{Dimension, Entered, Unit, shown_down};
use crate::working::{Answer, Working};

/// Most treatments in one sum.
pub const TREATMENTS_MOST: usize = 1000;

/// A treatment of this ground.
#[derive(Debug, Clone)]
pub struct PutOn {
    /// The product's ingredients and contents; none listed is none known.
    pub ingredients: Vec<Ingredient>,
    /// Product put on; none where nobody knows.
    pub product: Option<Entered>,
    /// The area it went on.
    pub area: AreaEstimate,
}

/// The label's most of an ingredient in a season.
#[derive(Debug, Clone)]
pub struct SeasonMost {
    /// The ingredient's generic name.
    pub name: String,
    /// Weight per area and season.
    pub most: LabelSays<Entered>,
}

/// What others put on this season: the owner, another crew.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Others {
    /// Nobody has asked.
    NotKnown,
    /// Nothing, as a person was told.
    SaidNone,
}

/// What is asked.
#[derive(Debug, Clone)]
pub struct SeasonInput<'a> {
    /// Treatments of this season.
    pub before: &'a [PutOn],
    /// One to come, if any.
    pub planned: Option<&'a PutOn>,
    /// The label's most, by ingredient.
    pub most: &'a [SeasonMost],
    /// What others put on.
    pub others: Others,
}

/// One ingredient's season.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct IngredientSum {
    /// Its generic name.
    pub name: String,
    /// Known to be put on so far, weight per acre.
    pub so_far: Entered,
    /// With the planned treatment, where there is one.
    pub with_planned: Option<Entered>,
    /// Treatments of which it is not known how much they put on.
    pub not_known: u32,
    /// What may still go on within the label's most, rounded down, as far as is known.
    pub room: Option<Entered>,
    /// What the label says to it.
    pub finding: Finding,
}

/// Sums each ingredient over a season's treatments.
///
/// ```
/// # use sward_rules::{Entered, Verdict, label::*, measure::AreaEstimate, season::*};
/// # let e = |t: &str| Entered::parse(t).unwrap();
/// let treatment = PutOn {
///     ingredients: vec![Ingredient { name: "bifenthrin".into(), content: e("0.2 %") }],
///     product: Some(e("100 lb")),
///     area: AreaEstimate::stated(&e("1 acre"), &e("0 ft2"))?,
/// };
/// let most = [SeasonMost { name: "bifenthrin".into(), most: LabelSays::Value(e("0.4 lb/acre")) }];
/// let sums = season_ingredients(&SeasonInput {
///     before: &[treatment.clone()],
///     planned: Some(&treatment),
///     most: &most,
///     others: Others::SaidNone,
/// })?.value;
/// assert_eq!(sums[0].with_planned, Some(e("0.4 lb/acre")));
/// assert_eq!(sums[0].room, Some(e("0.2 lb/acre")));
/// assert_eq!(sums[0].finding.verdict, Verdict::Clear);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a content, product or limit is of the wrong kind, or there are too many treatments.
pub fn season_ingredients(input: &SeasonInput<'_>) -> Result<Answer<Vec<IngredientSum>>> {
    let count = input.before.len() + usize::from(input.planned.is_some());
    if count > TREATMENTS_MOST {
        return Err(RuleError::TooMany {
            field: Field::Treatments,
            count,
            limit: TREATMENTS_MOST,
        });
    }
    let mut working = Working::new("sum of product × content ÷ area", "arithmetic")
        .input("treatments", input.before.len())
        .note(Note::SameGround);
    for most in input.most {
        if let LabelSays::Value(value) = &most.most {
            working = working.input("most in a season", value.for_person());
        }
    }
    let sums = names(input)
        .into_iter()
        .map(|name| one(input, name))
        .collect::<Result<Vec<_>>>()?;
    Ok(working.gives(sums))
}

/// Each ingredient once, in the order in which they come; those with a limit only, last.
fn names<'a>(input: &'a SeasonInput<'_>) -> Vec<&'a str> {
    let of_treatments = input.before.iter().chain(input.planned);
    let all = of_treatments
        .flat_map(|t| t.ingredients.iter().map(|i| i.name.as_str()))
        .chain(input.most.iter().map(|m| m.name.as_str()));
    let mut names: Vec<&str> = Vec::new();
    for name in all {
        if !names.iter().any(|n| n.eq_ignore_ascii_case(name)) {
            names.push(name);
        }
    }
    names
}

fn one(input: &SeasonInput<'_>, name: &str) -> Result<IngredientSum> {
    let (mut so_far, mut not_known) = (Decimal::ZERO, 0_u32);
    for (number, treatment) in (1..).zip(input.before) {
        match density(treatment, name, number)? {
            Some(density) => so_far += density,
            None => not_known += 1,
        }
    }
    let mut in_all = so_far;
    let number = input.before.len() + 1;
    let planned = input
        .planned
        .map(|treatment| density(treatment, name, number))
        .transpose()?;
    let planned = match planned {
        Some(Some(density)) => {
            in_all += density;
            Some(in_all)
        }
        Some(None) => {
            not_known += 1;
            None
        }
        None => None,
    };
    let show = |density: Decimal| {
        let text = density.to_string();
        Entered::from_si(density, Unit::POUND_PER_ACRE).ok_or(RuleError::OutOfRange { given: text })
    };
    let most = limit(input, name)?;
    let in_all_shown = show(in_all)?;
    let room = most
        .map(|(_, most_si)| (most_si - so_far).max(Decimal::ZERO))
        .map(|room| {
            let acre_m2 = Decimal::new(40_468_564_224, 7);
            let pound = Decimal::new(45_359_237, 8);
            times_over(room, acre_m2, pound)
                .and_then(|amount| shown_down(amount, Unit::POUND_PER_ACRE, SPARE_DIGITS))
                .ok_or_else(|| out_of_range(&in_all_shown))
        })
        .transpose()?;
    Ok(IngredientSum {
        name: name.to_owned(),
        so_far: show(so_far)?,
        with_planned: planned.map(show).transpose()?,
        not_known,
        room,
        finding: finding(input.others, name, most, (in_all, in_all_shown), not_known),
    })
}

/// Weight of an ingredient per area that a treatment put on, in SI; none where it is not known. A
/// product without the ingredient put on none of it.
fn density(treatment: &PutOn, name: &str, number: usize) -> Result<Option<Decimal>> {
    let in_field = |e: RuleError| e.of(Field::PutOn { number });
    let (area_m2, sure_m2) = lawn(&treatment.area).map_err(in_field)?;
    // The smaller area has the more on it.
    let area_m2 = if sure_m2.is_zero() { area_m2 } else { sure_m2 };
    if treatment.ingredients.is_empty() {
        return Ok(None);
    }
    let mut sum = Decimal::ZERO;
    let same = |i: &&Ingredient| i.name.eq_ignore_ascii_case(name);
    for ingredient in treatment.ingredients.iter().filter(same) {
        let content = content_si(&ingredient.content).map_err(|e| {
            let name = ingredient.name.clone();
            e.of(Field::Ingredient { name })
        })?;
        let Some(product) = &treatment.product else {
            return Ok(None);
        };
        let kind = product.dimension();
        if !matches!(kind, Dimension::Mass | Dimension::Volume) {
            return Err(RuleError::NotAllowed {
                field: Field::PutOn { number },
                given: product.for_person(),
                allowed: Allowed::ProductKind,
            });
        }
        // Without a density, a share by weight says nothing about a volume.
        let fits = matches!(
            (kind, ingredient.content.dimension()),
            (Dimension::Mass, Dimension::Percent) | (Dimension::Volume, Dimension::MassPerVolume)
        );
        if !fits {
            return Ok(None);
        }
        let product_si = positive_si(product, kind, &Field::PutOn { number })?;
        let part = times_over(product_si, content, area_m2);
        sum += part.ok_or_else(|| in_field(out_of_range(product)))?;
    }
    Ok(Some(sum))
}

fn limit(input: &SeasonInput<'_>, name: &str) -> Result<Option<(Entered, Decimal)>> {
    let mut found: Option<(Entered, Decimal)> = None;
    let same = |m: &&SeasonMost| m.name.eq_ignore_ascii_case(name);
    for most in input.most.iter().filter(same) {
        let LabelSays::Value(value) = &most.most else {
            continue;
        };
        let field = Field::SeasonMost {
            name: name.to_owned(),
        };
        let si = positive_si(value, Dimension::MassPerArea, &field)?;
        // Two labels with one ingredient: the lower limit counts.
        if found.is_none_or(|(_, least)| si < least) {
            found = Some((*value, si));
        }
    }
    Ok(found)
}

fn finding(
    others: Others,
    name: &str,
    most: Option<(Entered, Decimal)>,
    (in_all, shown): (Decimal, Entered),
    not_known: u32,
) -> Finding {
    let check = Check::SeasonIngredient;
    let ingredient = || name.to_owned();
    let Some((limit, most_si)) = most else {
        let reason = Reason::SeasonMostNotKnown {
            ingredient: ingredient(),
        };
        let finding = Finding::unknown(check, reason).with_value(Shown::AtLeast { least: shown });
        return named(finding, others, name, not_known);
    };
    let limit = Shown::Amount { amount: limit };
    // A millionth is how the area was written, not a dose.
    let above = in_all > most_si * Decimal::new(1_000_000_001, 9);
    let all_known = not_known == 0 && others == Others::SaidNone;
    let (verdict, reason) = match (above, all_known) {
        (true, _) => (
            Verdict::DontTreat,
            Reason::SeasonAboveMost {
                ingredient: ingredient(),
            },
        ),
        (false, true) => (
            Verdict::Clear,
            Reason::SeasonWithinMost {
                ingredient: ingredient(),
            },
        ),
        (false, false) if not_known > 0 => {
            let reason = Reason::SeasonPartNotKnown {
                ingredient: ingredient(),
                count: not_known,
            };
            let finding = Finding::unknown(check, reason)
                .with_value(Shown::AtLeast { least: shown })
                .with_limit(limit, Whose::Label);
            return match others {
                Others::NotKnown => finding.and(Reason::OthersNotKnown),
                Others::SaidNone => finding.and(Reason::OthersSaidNone),
            };
        }
        (false, false) => {
            return Finding::unknown(check, Reason::OthersNotKnown)
                .with_value(Shown::AtLeast { least: shown })
                .with_limit(limit, Whose::Label);
        }
    };
    let finding = Finding::new(check, verdict, reason)
        .with_value(Shown::AtLeast { least: shown })
        .with_limit(limit, Whose::Label);
    named(finding, others, name, not_known)
}

fn named(finding: Finding, others: Others, name: &str, not_known: u32) -> Finding {
    let finding = match others {
        Others::NotKnown => finding.and(Reason::OthersNotKnown),
        Others::SaidNone => finding.and(Reason::OthersSaidNone),
    };
    if not_known == 0 {
        return finding;
    }
    finding.and(Reason::SeasonPartNotKnown {
        ingredient: name.to_owned(),
        count: not_known,
    })
}

/// All ingredients in one word.
pub fn season_verdict(sums: &[IngredientSum]) -> Verdict {
    let all: Vec<Finding> = sums.iter().map(|s| s.finding.clone()).collect();
    sum(&all)
}
