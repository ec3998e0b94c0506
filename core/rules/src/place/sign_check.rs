//! A sign of a given size, height and wording against what the place's rule asks for.

use std::cmp::Ordering;

use super::sign::{Colour, SignLanguage, SignRule};
use super::{Place, Told, not_read};
use crate::error::{Field, Result, RuleError};
use crate::finding::{Check, Finding, Reason, Shown, Verdict, Whose};
use crate::quantity::{Dimension, Entered};

/// A sign as somebody measured it; none: not measured, or not looked at.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct SignGiven {
    /// Its width.
    pub width: Option<Entered>,
    /// Its height, edge to edge.
    pub height: Option<Entered>,
    /// How tall its letters are.
    pub letters: Option<Entered>,
    /// How high its bottom edge is above the ground.
    pub bottom: Option<Entered>,
    /// Whether it is white.
    pub white: Option<bool>,
    /// The languages of its words.
    pub languages: Option<Vec<SignLanguage>>,
}

/// Holds a sign against the place's rule, one finding a part: its size, its letters, how high it
/// hangs, its colour, its languages.
///
/// What was not measured, and what was not read of the rule, is not known. A sign that falls short
/// is "take care": it can be set right, and the lawn treated.
///
/// ```
/// use sward_rules::Entered;
/// use sward_rules::finding::{Reason, Verdict, sum};
/// use sward_rules::place::{Place, SignGiven, check_sign};
/// let sign = SignGiven {
///     width: Some(Entered::parse("5 in")?),
///     height: Some(Entered::parse("3.5 in")?),
///     ..SignGiven::default()
/// };
/// let findings = check_sign(Some(Place::NewYork), &sign)?;
/// assert_eq!(findings[0].verdict, Verdict::Caution);
/// assert_eq!(findings[0].reason, Reason::SignSmaller);
/// assert_eq!(sum(&check_sign(None, &sign)?), Verdict::Unknown);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// With the field's name, when an amount is no length, or a side or letter has none.
pub fn check_sign(place: Option<Place>, sign: &SignGiven) -> Result<Vec<Finding>> {
    let lengths = [
        (&sign.width, Field::SignWidth, true),
        (&sign.height, Field::SignHeight, true),
        (&sign.letters, Field::SignLetters, true),
        (&sign.bottom, Field::SignBottom, false),
    ];
    for (given, field, above_zero) in lengths {
        let Some(given) = given else { continue };
        given
            .must_be(Dimension::Length)
            .map_err(|error| error.of(field.clone()))?;
        if above_zero && given.is_zero() {
            return Err(RuleError::NotPositive {
                field,
                given: given.for_person(),
            });
        }
    }
    let Some((_, rule)) = place.and_then(Place::sign_rule) else {
        return Ok(vec![not_read(Check::Sign, place)]);
    };
    Ok(vec![
        size(rule, sign)?,
        letters(rule, sign)?,
        bottom(rule, sign)?,
        colour(rule, sign),
        languages(rule, sign),
    ])
}

fn size(rule: &SignRule, sign: &SignGiven) -> Result<Finding> {
    let Some(Told { value, .. }) = rule.least_sides else {
        return Ok(unread(Shown::SignSize));
    };
    let [short, long] = value.map(Entered::from);
    let limit = Shown::SidesOrMore {
        least: short,
        most: long,
    };
    let (Some(width), Some(height)) = (sign.width, sign.height) else {
        return Ok(unmeasured(Shown::SignSize, limit));
    };
    let (shorter, longer) = if width.compare(&height)? == Ordering::Greater {
        (height, width)
    } else {
        (width, height)
    };
    let small =
        shorter.compare(&short)? == Ordering::Less || longer.compare(&long)? == Ordering::Less;
    let value = Shown::Sides {
        least: shorter,
        most: longer,
    };
    Ok(held(small.then_some(Reason::SignSmaller), value, limit))
}

fn letters(rule: &SignRule, sign: &SignGiven) -> Result<Finding> {
    let Some(Told { value, .. }) = rule.letters_least else {
        return Ok(unread(Shown::SignLetters));
    };
    let least = Entered::from(value);
    let limit = Shown::AtLeast { least };
    let Some(given) = sign.letters else {
        return Ok(unmeasured(Shown::SignLetters, limit));
    };
    let small = given.compare(&least)? == Ordering::Less;
    let value = Shown::Amount { amount: given };
    Ok(held(
        small.then_some(Reason::SignLettersSmaller),
        value,
        limit,
    ))
}

fn bottom(rule: &SignRule, sign: &SignGiven) -> Result<Finding> {
    let least = rule.bottom_least.map(|told| Entered::from(told.value));
    let most = rule.bottom_most.map(|told| Entered::from(told.value));
    let limit = match (least, most) {
        (None, None) => return Ok(unread(Shown::SignBottom)),
        (Some(least), None) => Shown::AtLeast { least },
        (None, Some(most)) => Shown::AtMost { most },
        (Some(least), Some(most)) => Shown::Between { least, most },
    };
    let Some(given) = sign.bottom else {
        return Ok(unmeasured(Shown::SignBottom, limit));
    };
    let beyond = |edge: Option<Entered>, wrong: Ordering| -> Result<bool> {
        edge.map_or(Ok(false), |edge| Ok(given.compare(&edge)? == wrong))
    };
    let wrong = if beyond(least, Ordering::Less)? {
        Some(Reason::SignTooLow)
    } else if beyond(most, Ordering::Greater)? {
        Some(Reason::SignTooHigh)
    } else {
        None
    };
    Ok(held(wrong, Shown::Amount { amount: given }, limit))
}

fn colour(rule: &SignRule, sign: &SignGiven) -> Finding {
    match (rule.colour.map(|told| told.value), sign.white) {
        (None, _) => unread(Shown::SignColour),
        (Some(Colour::White), None) => unmeasured(Shown::SignColour, Shown::SignWhite),
        (Some(Colour::White), Some(white)) => held(
            (!white).then_some(Reason::SignNotAsAsked),
            Shown::SignColour,
            Shown::SignWhite,
        ),
    }
}

fn languages(rule: &SignRule, sign: &SignGiven) -> Finding {
    let Some(Told { value: asked, .. }) = rule.languages else {
        return unread(Shown::SignLanguages);
    };
    let limit = if asked.contains(&SignLanguage::Spanish) {
        Shown::SignBothLanguages
    } else {
        Shown::SignEnglish
    };
    let Some(given) = &sign.languages else {
        return unmeasured(Shown::SignLanguages, limit);
    };
    let lacks = asked.iter().any(|language| !given.contains(language));
    held(
        lacks.then_some(Reason::SignNotAsAsked),
        Shown::SignLanguages,
        limit,
    )
}

fn unread(part: Shown) -> Finding {
    Finding::unknown(Check::Sign, Reason::SignPartNotRead)
        .with_value(part)
        .and(Reason::CheckCurrentRule)
}

fn unmeasured(part: Shown, limit: Shown) -> Finding {
    Finding::unknown(Check::Sign, Reason::SignNotMeasured)
        .with_value(part)
        .with_limit(limit, Whose::Law)
        .and(Reason::CheckCurrentRule)
}

fn held(wrong: Option<Reason>, value: Shown, limit: Shown) -> Finding {
    let (verdict, reason) = match wrong {
        Some(reason) => (Verdict::Caution, reason),
        None => (Verdict::Clear, Reason::SignAsAsked),
    };
    Finding::new(Check::Sign, verdict, reason)
        .with_value(value)
        .with_limit(limit, Whose::Law)
        .and(Reason::CheckCurrentRule)
}
