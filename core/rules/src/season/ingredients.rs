//! Active ingredient over a season, against the label's most.
//!
//! What is not known (a treatment without its amount, what others put on) is named with every sum,
//! and a sum with such a part never clears.

use rust_decimal::Decimal;
use serde::Serialize;

use crate::error::{Allowed, Field, Result, RuleError};
use crate::finding::{Check, Finding, Reason, Shown, Verdict, Whose};
use crate::label::{Ingredient, LabelSays};
use crate::measure::AreaEstimate;
use crate::mix::{SPARE_DIGITS, content_si, lawn, times_over};
use crate::note::Note;
use crate::quantity::{Dimension, Entered, Unit, out_of_range, positive, shown_down};
use crate::same_text::same_text;
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
    /// Known to be put on so far, weight per acre; over an area that may be nothing, as measured.
    pub so_far: Entered,
    /// With the planned treatment, where there is one.
    pub with_planned: Option<Entered>,
    /// Treatments of which it is not known how much they put on.
    pub not_known: u32,
    /// What may still go on within the label's most, rounded down, as far as is known; none while a
    /// label's most was not read.
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
        if !names.iter().any(|n| same_text(n, name)) {
            names.push(name.trim());
        }
    }
    names
}

fn one(input: &SeasonInput<'_>, name: &str) -> Result<IngredientSum> {
    let (mut so_far, mut not_known) = (Decimal::ZERO, 0_u32);
    for (number, treatment) in (1..).zip(input.before) {
        let on = density(treatment, name, number)?;
        so_far = plus(so_far, on.least, treatment)?;
        not_known += u32::from(!on.known);
    }
    let mut in_all = so_far;
    let number = input.before.len() + 1;
    let planned = input
        .planned
        .map(|treatment| density(treatment, name, number))
        .transpose()?;
    let planned = match (planned, input.planned) {
        (Some(on), Some(treatment)) => {
            in_all = plus(in_all, on.least, treatment)?;
            not_known += u32::from(!on.known);
            on.known.then_some(in_all)
        }
        _ => None,
    };
    let show = |density: Decimal| {
        let text = density.to_string();
        Entered::from_si(density, Unit::POUND_PER_ACRE).ok_or(RuleError::OutOfRange { given: text })
    };
    let most = limit(input, name)?;
    let in_all_shown = show(in_all)?;
    let room = most
        .least
        .filter(|_| most.all_read)
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
        finding: finding(input.others, name, &most, (in_all, in_all_shown), not_known),
    })
}

/// What a treatment put on of an ingredient.
struct On {
    /// Weight per area in SI, as far as it can be told.
    least: Decimal,
    /// Whether it can be no more.
    known: bool,
}

impl On {
    const NOT_KNOWN: Self = Self {
        least: Decimal::ZERO,
        known: false,
    };
}

fn plus(sum: Decimal, more: Decimal, treatment: &PutOn) -> Result<Decimal> {
    sum.checked_add(more).ok_or_else(|| RuleError::OutOfRange {
        given: treatment.product.map_or_else(
            || treatment.area.for_person(),
            |product| product.for_person(),
        ),
    })
}

/// Weight of an ingredient per area that a treatment put on. A product without the ingredient put
/// on none of it.
fn density(treatment: &PutOn, name: &str, number: usize) -> Result<On> {
    let in_field = |e: RuleError| e.of(Field::PutOn { number });
    let (area_m2, sure_m2) = lawn(&treatment.area).map_err(in_field)?;
    // The smaller area has the more on it; one that may be nothing may have had any dose.
    let unsure = sure_m2.is_zero();
    let area_m2 = if unsure { area_m2 } else { sure_m2 };
    if treatment.ingredients.is_empty() {
        return Ok(On::NOT_KNOWN);
    }
    let mut sum = Decimal::ZERO;
    let same = |i: &&Ingredient| same_text(&i.name, name);
    let mut known = true;
    for ingredient in treatment.ingredients.iter().filter(same) {
        let content = content_si(&ingredient.content).map_err(|e| {
            let name = ingredient.name.clone();
            e.of(Field::Ingredient { name })
        })?;
        let Some(product) = &treatment.product else {
            return Ok(On::NOT_KNOWN);
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
            return Ok(On::NOT_KNOWN);
        }
        let product_si = positive(product, kind, &Field::PutOn { number })?;
        let part = times_over(product_si, content, area_m2);
        sum = part
            .and_then(|part| sum.checked_add(part))
            .ok_or_else(|| in_field(out_of_range(product)))?;
        known &= !unsure;
    }
    Ok(On { least: sum, known })
}

/// What the labels set for a season.
struct Limit {
    /// The lowest most that was read.
    least: Option<(Entered, Decimal)>,
    /// Whether no label's was left unread.
    all_read: bool,
}

fn limit(input: &SeasonInput<'_>, name: &str) -> Result<Limit> {
    let (mut found, mut all_read) = (None::<(Entered, Decimal)>, true);
    let same = |m: &&SeasonMost| same_text(&m.name, name);
    for most in input.most.iter().filter(same) {
        let value = match &most.most {
            LabelSays::Value(value) => value,
            LabelSays::Nothing => continue,
            LabelSays::Unfilled => {
                all_read = false;
                continue;
            }
        };
        let field = Field::SeasonMost {
            name: name.to_owned(),
        };
        let si = positive(value, Dimension::MassPerArea, &field)?;
        // Two labels with one ingredient: the lower limit counts.
        if found.is_none_or(|(_, least)| si < least) {
            found = Some((*value, si));
        }
    }
    Ok(Limit {
        least: found,
        all_read,
    })
}

fn finding(
    others: Others,
    name: &str,
    most: &Limit,
    (in_all, shown): (Decimal, Entered),
    not_known: u32,
) -> Finding {
    let check = Check::SeasonIngredient;
    let ingredient = || name.to_owned();
    // A billionth is how the area was written, not a dose.
    let hair = Decimal::new(1_000_000_001, 9);
    let is_above = |(_, most_si): (Entered, Decimal)| {
        // What is too large to reckon with is above nothing.
        most_si.checked_mul(hair).is_some_and(|most| in_all > most)
    };
    let above = most.least.is_some_and(is_above);
    let with_limit = |finding: Finding| match most.least {
        Some((amount, _)) => finding.with_limit(Shown::Amount { amount }, Whose::Label),
        None => finding,
    };
    // A most that nobody read may be the lower one.
    if !above && (most.least.is_none() || !most.all_read) {
        let reason = Reason::SeasonMostNotKnown {
            ingredient: ingredient(),
        };
        let finding = Finding::unknown(check, reason).with_value(Shown::AtLeast { least: shown });
        return named(with_limit(finding), others, name, not_known);
    }
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
            let finding =
                Finding::unknown(check, reason).with_value(Shown::AtLeast { least: shown });
            let finding = with_limit(finding);
            return match others {
                Others::NotKnown => finding.and(Reason::OthersNotKnown),
                Others::SaidNone => finding.and(Reason::OthersSaidNone),
            };
        }
        (false, false) => {
            let finding = Finding::unknown(check, Reason::OthersNotKnown);
            return with_limit(finding.with_value(Shown::AtLeast { least: shown }));
        }
    };
    let finding = Finding::new(check, verdict, reason).with_value(Shown::AtLeast { least: shown });
    let finding = with_limit(finding);
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
