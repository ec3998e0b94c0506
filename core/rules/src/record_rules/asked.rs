//! Which fields a rule asks for under given circumstances, and which rules may govern at all.

use super::{AskedWhen, FieldName, Filled, RULES, RecordRule, SpotRule};
use crate::error::{Field, Result};
use crate::place::Place;
use crate::quantity::{Dimension, Entered, Unit, whole};

use serde::Serialize;

/// What bears on which fields are asked for, by a person's word; none: nobody has said, and
/// nothing is left out for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Circumstances {
    /// Whether only spots were treated, and no whole section.
    pub spots_only: Option<bool>,
    /// The area treated.
    pub area: Option<Entered>,
    /// Whether a re-entry time applies.
    pub re_entry_applies: Option<bool>,
}

/// A field that a rule asks for, and whether the record holds it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Asked {
    /// The field.
    pub field: FieldName,
    /// Whether the record holds it. "Yes" says that something stands there, not that it is right
    /// or enough: show [`super::CHECK_YOUR_RULE`] beside it.
    pub filled: Filled,
}

/// Every field of a rule, with whether it is filled, or not asked for under the circumstances.
///
/// What nobody said of the circumstances leaves nothing out: only spots that a person calls spots,
/// of an area known to be small enough, get the short list.
///
/// ```
/// use sward_rules::record_rules::{Circumstances, FieldName, Filled, USDA_7_CFR_110_3, asked};
/// let filled = |field| match field {
///     FieldName::Product | FieldName::Date => Filled::Yes,
///     _ => Filled::No,
/// };
/// let all = asked(&USDA_7_CFR_110_3, &Circumstances::default(), filled)?;
/// assert_eq!(all.len(), 9);
/// assert_eq!(all.iter().filter(|a| a.filled == Filled::No).count(), 7);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// [`crate::RuleError::WrongKind`] when the area is none.
pub fn asked(
    rule: &RecordRule,
    circumstances: &Circumstances,
    filled: impl Fn(FieldName) -> Filled,
) -> Result<Vec<Asked>> {
    let spot = match &rule.spot {
        Some(spot) if is_spot(spot, circumstances)? => Some(spot),
        _ => None,
    };
    let one = |(field, when): &(FieldName, AskedWhen)| {
        let left_out = spot.is_some_and(|spot| !spot.fields.contains(field))
            || (*when == AskedWhen::WhereReEntryApplies
                && circumstances.re_entry_applies == Some(false));
        Asked {
            field: *field,
            filled: if left_out {
                Filled::NotApplicable
            } else {
                filled(*field)
            },
        }
    };
    Ok(rule.fields.iter().map(one).collect())
}

fn is_spot(spot: &SpotRule, circumstances: &Circumstances) -> Result<bool> {
    let Some(area) = circumstances.area else {
        return Ok(false);
    };
    area.must_be(Dimension::Area)
        .map_err(|error| error.of(Field::Area))?;
    let small = area
        .compare(&whole(spot.under_ft2, Unit::SQUARE_FOOT))?
        .is_lt();
    Ok(small && circumstances.spots_only == Some(true))
}

/// The rules that may govern an application at a place: the state's own, where it was read, and
/// the federal one unless a person says that the product is not of restricted use. Which of them
/// does is for a person to confirm; a state that was not read gets no other's.
///
/// ```
/// use sward_rules::place::Place;
/// use sward_rules::record_rules::rules_that_may_govern;
/// let names = |place, restricted| -> Vec<&str> {
///     let rules = rules_that_may_govern(place, restricted);
///     rules.into_iter().map(|rule| rule.name).collect()
/// };
/// assert_eq!(names(Some(Place::Texas), Some(false)), ["Texas 4 TAC chapter 7"]);
/// assert_eq!(names(Place::from_typed("Ohio"), None), ["USDA 7 CFR 110.3"]);
/// assert!(names(Some(Place::Florida), Some(false)).is_empty());
/// ```
pub fn rules_that_may_govern(
    place: Option<Place>,
    restricted_use: Option<bool>,
) -> Vec<&'static RecordRule> {
    RULES
        .into_iter()
        .filter(|rule| match rule.place {
            Some(of) => Some(of) == place,
            None => !(rule.restricted_use_only && restricted_use == Some(false)),
        })
        .collect()
}
