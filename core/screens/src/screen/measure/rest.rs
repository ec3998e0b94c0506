//! What a strip along the edge leaves to treat, and what a slope makes of an area. Worked out, and
//! kept nowhere: what was typed stands behind the question mark of the address.

use maud::{Markup, html};
use sward_book::ids::{ItemId, SheetId};
use sward_book::sheet::Section;
use sward_rules::measure::{
    AreaEstimate, Measured, Outline, Shape, Slope, SlopedArea, Strip, sloped_area,
};
use sward_rules::{Answer, Field, RuleError};

use super::section::outline_now;
use crate::ask::{Ask, Doing, Next};
use crate::part::amounts;
use crate::part::how::how;
use crate::part::inputs::{Inputs, address};
use crate::server::Form;
use crate::trouble::Wrong;
use crate::{Result, Trouble, part};

/// The length of a section's edge, or why it is not known.
pub(super) fn edge(ask: &Ask<'_>, outline: &Outline) -> Markup {
    match outline.perimeter() {
        Ok(answer) => html! {
            p { (ask.t("measure-edge")) ": " (amounts::length(ask.words, &answer.value)) }
            (how(ask, &answer.working))
        },
        Err(error) => html! {
            p.note { (ask.t("measure-edge")) ": " (ask.words.trouble(&error.into())) }
        },
    }
}

/// The form, and above it what was worked out last.
pub(super) fn shown(ask: &Ask<'_>, section: &Section) -> Markup {
    let Some(outline) = &section.outline else {
        return html! {};
    };
    let typed = Form::of_query(ask.query);
    // An address that was changed by hand has no result.
    let found = work(outline, &typed).ok();
    let refused = ask.again.is_some_and(|a| a.form.text("do") == "rest");
    let inputs = Inputs::new(ask, "rest", typed);
    let form = &inputs.form;
    html! {
        @if let Some(found) = &found { (result(ask, found)) }
        details open[refused] {
            summary { (ask.t("measure-rest")) }
            (form.wrap(html! {
                p.note { (ask.t("measure-rest-how")) }
                (inputs.number("strip", "word-field-strip-width", ("ft", "m"), None))
                (inputs.number("along", "measure-strip-along", ("ft", "m"), None))
                (inputs.number("slope", "word-field-slope", ("%", "%"), None))
                (form.quiet_submit("measure-rest-work-out"))
            }))
        }
    }
}

/// Works it out, and leads to where the result stands.
pub(super) fn worked(doing: &mut Doing<'_>) -> Result<Next> {
    let (yard, id): (SheetId, ItemId) = (doing.param("yard")?, doing.param("section")?);
    let form = doing.form;
    let path = doing.path;
    let outline = outline_now(doing.book()?, yard, id)?.ok_or(Trouble::NotFound)?;
    work(&outline, form)?;
    Ok(Next::Go(address(path, form, &[])))
}

/// What was asked for: a strip, a slope, or both.
#[derive(Debug)]
struct Rest {
    strip: Option<Answer<Strip>>,
    slope: Option<Answer<SlopedArea>>,
}

fn work(outline: &Outline, form: &Form) -> Result<Rest> {
    let width = form.amount("strip")?;
    let along = form.amount("along")?;
    let grade = form.amount("slope")?;
    if width.is_none() && (grade.is_none() || along.is_some()) {
        return Err(Trouble::field("strip", Wrong::Missing));
    }
    let strip = width
        .map(|width| match &along {
            Some(edge) => outline.strip_along(edge, &width),
            None => outline.strip_inside(&width),
        })
        .transpose()
        .map_err(|error| Trouble::in_field(beside(&error), error))?;
    let slope = match grade {
        None => None,
        Some(grade) => {
            let area = match &strip {
                Some(strip) => strip.value.rest,
                None => outline.area()?.value,
            };
            Some(on_slope(outline, &area, &Slope::Grade { grade })?)
        }
    };
    Ok(Rest { strip, slope })
}

fn on_slope(outline: &Outline, area: &AreaEstimate, slope: &Slope) -> Result<Answer<SlopedArea>> {
    // A receiver sees the lawn from above; a tape lies on it.
    let measured = match outline.shape {
        Shape::Walk { .. } => Measured::Level,
        _ => Measured::AlongGround,
    };
    sloped_area(area, measured, slope).map_err(|error| Trouble::in_field("slope", error))
}

/// The input that a strip's error is about.
fn beside(error: &RuleError) -> &'static str {
    match error {
        // The length along it is what is missing where the edge is not known.
        RuleError::EdgeNotGiven
        | RuleError::NotPositive {
            field: Field::StripEdge,
            ..
        }
        | RuleError::NotAllowed {
            field: Field::StripEdge,
            ..
        }
        | RuleError::In {
            field: Field::StripEdge,
            ..
        } => "along",
        _ => "strip",
    }
}

fn result(ask: &Ask<'_>, found: &Rest) -> Markup {
    let words = ask.words;
    let not_known = ask.t("frame-not-known");
    let row = |key: &str, value: &str| part::row(&ask.t(key), value, &not_known);
    let area = |key: &str, area: &AreaEstimate| row(key, &amounts::area(words, area));
    html! {
        section.card {
            h2 { (ask.t("measure-rest-found")) }
            @if let Some(strip) = &found.strip {
                dl {
                    (area("measure-strip", &strip.value.strip))
                    (area("measure-strip-rest", &strip.value.rest))
                }
                (how(ask, &strip.working))
            }
            @if let Some(slope) = &found.slope {
                dl {
                    (row("word-field-slope", &format!(
                        "{} % ({}°)",
                        amounts::rounded(words, slope.value.grade_percent, 1),
                        amounts::rounded(words, slope.value.angle_deg, 1),
                    )))
                    (area("measure-on-the-ground", &slope.value.surface))
                    (area("measure-level", &slope.value.level))
                }
                (how(ask, &slope.working))
            }
            p.note { (ask.t("measure-rest-not-kept")) }
        }
    }
}

#[cfg(test)]
mod tests;
