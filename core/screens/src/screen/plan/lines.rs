//! The lines to walk, drawn on the yard sketch.
//!
//! How a sketch is drawn is [`crate::sketch`]'s business.

use maud::{Markup, html};
use rust_decimal::prelude::ToPrimitive as _;
use sward_book::ids::ItemId;
use sward_rules::plan::{PassPlan, Passes};
use sward_rules::quantity::Unit;

use super::work::{Job, area, shown};
use crate::Result;
use crate::ask::Ask;
use crate::screen::visit::Here;
use crate::sketch::{PassLines, Sketch};

/// The sections of the plan; without a swath there is nothing to tell how far apart lines lie.
pub(super) fn sketch(ask: &Ask<'_>, here: &Here, job: &Job, passes: &PassPlan) -> Result<Markup> {
    let (Some(yard), Some(sheet)) = (here.visit.yard, &here.yard) else {
        return Ok(html! {});
    };
    let chosen = job.kept.as_ref().map_or(&[][..], |k| k.sections.as_slice());
    let ids: Vec<ItemId> = shown(here, chosen)
        .filter(|s| area(s).is_some())
        .map(|s| s.id)
        .collect();
    let mut sketch = Sketch::for_yard(ask, yard, sheet)?.only(&ids);
    if let Some(lines) = lines(passes) {
        sketch = sketch.with_passes(lines);
    }
    Ok(sketch.markup(here.words))
}

fn lines(passes: &PassPlan) -> Option<PassLines> {
    let spacing = passes.line_spacing?.convert(Unit::METRE).ok()?;
    Some(PassLines {
        spacing_m: spacing.amount().to_f64()?,
        crosswise: passes.passes == Passes::TwoAtRightAngles,
    })
}
