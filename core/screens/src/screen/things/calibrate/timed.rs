//! A backpack or hose-end sprayer: an area is timed, then the spray is caught.

use maud::{Markup, html};
use sward_book::sheet::EquipmentSheet;
use sward_rules::calibrate::{SprayRate, TimedCatch, timed_rate};
use sward_rules::{Answer, Field};

use super::keep::Kept;
use super::{inputs, keep};
use crate::ask::Ask;
use crate::part::how::how;
use crate::part::inputs::{beside, needed};
use crate::server::Form;
use crate::{Result, part};

const NAMES: [(Field, &str); 4] = [
    (Field::TestArea, "area"),
    (Field::AreaTime, "area_time"),
    (Field::WaterCaught, "caught"),
    (Field::CatchTime, "catch_time"),
];

pub(super) fn form(ask: &Ask<'_>, _: &EquipmentSheet) -> Markup {
    let inputs = inputs(ask, "timed");
    inputs.form.wrap(html! {
        p.note { (ask.t("calibrate-timed-how")) }
        (inputs.number("area", "calibrate-test-area", ("ft2", "m2"), None))
        (inputs.number("area_time", "calibrate-area-time", ("s", "s"), None))
        (inputs.number("caught", "calibrate-caught", ("gal", "L"), None))
        (inputs.number("catch_time", "calibrate-catch-time", ("s", "s"), None))
        (inputs.form.submit("calibrate-work-out"))
    })
}

/// Works out what was typed.
pub(super) fn work(form: &Form) -> Result<Answer<SprayRate>> {
    let [area, area_time, caught] = needed(form, ["area", "area_time", "caught"])?;
    let run = TimedCatch {
        area,
        area_time,
        caught,
        catch_time: form.amount("catch_time")?.unwrap_or(area_time),
    };
    timed_rate(&run).map_err(|e| beside(e, &NAMES))
}

pub(super) fn result(ask: &Ask<'_>, sheet: &EquipmentSheet, form: &Form) -> Result<Markup> {
    let answer = work(form)?;
    Ok(html! {
        (rate(ask, &answer.value))
        (how(ask, &answer.working))
        (keep::form(ask, sheet, &Kept {
            rate: answer.value.per_1000_ft2,
            swath: None,
            pace: None,
            setting: String::new(),
            product: None,
        }))
    })
}

/// A sprayer's rate in both units.
pub(super) fn rate(ask: &Ask<'_>, rate: &SprayRate) -> Markup {
    let not_known = ask.t("frame-not-known");
    let words = ask.words;
    html! {
        dl {
            (part::row(&ask.t("calibrate-rate"), &words.worked_out(&rate.per_1000_ft2), &not_known))
            (part::row(&ask.t("calibrate-rate-acre"), &words.worked_out(&rate.per_acre), &not_known))
        }
    }
}
