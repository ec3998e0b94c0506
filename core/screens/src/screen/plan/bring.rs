//! What a plan is put on with, and the lot it is taken from.
//!
//! Calibrating and counting stock have screens of their own.

use maud::{Markup, html};
use sward_rules::plan::Plan;

use super::calibration;
use super::form::lot_words;
use super::work::Job;
use crate::Result;
use crate::ask::Ask;
use crate::part::finding::findings;
use crate::part::{row, way};
use crate::trouble::if_there;

/// The equipment with its setting, pace, and what that was calibrated on.
pub(super) fn equipment(ask: &Ask<'_>, job: &Job) -> Result<Markup> {
    let words = ask.words;
    let not_known = ask.t("frame-not-known");
    let id = job.kept.as_ref().and_then(|p| p.equipment);
    let sheet = match id {
        Some(id) => if_there(ask.book()?.equipment_sheet(id))?,
        None => None,
    };
    let (Some(id), Some(sheet)) = (id, sheet) else {
        return Ok(html! { h2 { (ask.t("plan-equipment")) } p { span.unknown { (not_known) } } });
    };
    let amount = |a: Option<sward_rules::Entered>| a.map_or_else(String::new, |a| words.amount(&a));
    let calibrated = sheet
        .calibrated_on
        .map_or_else(String::new, |day| words.day(day));
    Ok(html! {
        h2 { (ask.t("plan-equipment")) }
        dl {
            (row(&ask.t("plan-equipment-name"), &sheet.name, &not_known))
            (row(&ask.t("plan-setting"), &sheet.setting, &not_known))
            (row(&ask.t("plan-pace"), &amount(sheet.pace), &not_known))
            (row(&ask.t("plan-calibrated-on"), &calibrated, &not_known))
            (row(&ask.t("plan-calibrated-for"), &sheet.calibrated_for, &not_known))
            (row(&ask.t("plan-calibrated-rate"), &amount(sheet.calibrated_rate), &not_known))
            (row(&ask.t("plan-calibrated-by"), &sheet.calibrated_by, &not_known))
            (row(&ask.t("field-parts"), &sheet.parts, &not_known))
        }
        (findings(ask, &calibration::findings(ask, job, &sheet)?))
        (way(&format!("/things/equipment/{id}"), &ask.t("plan-to-equipment")))
    })
}

/// The lot, and whether there is enough of it by its last count.
pub(super) fn stock(ask: &Ask<'_>, job: &Job, plan: &Plan) -> Result<Markup> {
    let chosen = job.kept.as_ref().and_then(|p| p.stock);
    let lot = match chosen {
        Some(id) => if_there(ask.book()?.stock_sheet(id))?,
        None => None,
    };
    let Some(lot) = lot else {
        return Ok(
            html! { h2 { (ask.t("plan-stock")) } p { span.unknown { (ask.t("frame-not-known")) } } },
        );
    };
    let needed = plan.product.value.measured_out;
    let is_short = lot
        .on_hand
        .and_then(|on_hand| on_hand.compare(&needed).ok())
        .is_some_and(std::cmp::Ordering::is_lt);
    Ok(html! {
        h2 { (ask.t("plan-stock")) }
        p { (lot_words(ask, &lot)) }
        @if is_short { p { strong { (ask.t("plan-stock-short")) } } }
    })
}
