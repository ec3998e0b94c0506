//! A boom by jar test: what each nozzle gives, and with pace and spacing the rate of the boom.

use maud::{Markup, html};
use sward_book::sheet::EquipmentSheet;
use sward_rules::calibrate::{NozzleCatches, NozzleResult, SprayRate, boom_rate, nozzle_test};
use sward_rules::{Answer, Entered, Field};

use super::keep::Kept;
use super::{inputs, keep, timed};
use crate::ask::Ask;
use crate::part::amounts::change;
use crate::part::finding::findings;
use crate::part::how::how;
use crate::part::inputs::{beside, listed, needed};
use crate::server::Form;
use crate::trouble::Wrong;
use crate::{Result, Trouble};

const NAMES: [(Field, &str); 9] = [
    (Field::Nozzles, "jars"),
    (Field::NozzleCatch { number: 1 }, "jars"),
    (Field::WaterCaught, "jars"),
    (Field::CatchTime, "time"),
    (Field::NewFlow, "new_flow"),
    (Field::Flow, "jars"),
    (Field::Speed, "pace"),
    (Field::TargetSpeed, "pace"),
    (Field::SprayWidth, "between"),
];

/// What the jars showed.
pub(super) struct Jars {
    nozzles: Answer<NozzleResult>,
    boom: Option<(Answer<SprayRate>, Entered)>,
}

pub(super) fn form(ask: &Ask<'_>, sheet: &EquipmentSheet) -> Markup {
    let inputs = inputs(ask, "jars");
    inputs.form.wrap(html! {
        p.note { (ask.t("calibrate-jars-how")) }
        (inputs.list("jars", "calibrate-jars-caught", "calibrate-jars-help", &["fl oz", "mL"]))
        (inputs.number("time", "calibrate-catch-time", ("s", "s"), None))
        (inputs.number("new_flow", "calibrate-new-flow", ("gal/min", "L/min"), None))
        (inputs.number("pace", "field-pace", ("mph", "km/h"), sheet.pace.as_ref()))
        (inputs.number("between", "calibrate-between", ("in", "cm"), None))
        (inputs.form.submit("calibrate-work-out"))
    })
}

/// Works out what was typed.
pub(super) fn work(form: &Form) -> Result<Jars> {
    let catches = listed(form, "jars")?;
    let [time] = needed(form, ["time"])?;
    let told = |error| beside(error, &NAMES);
    let nozzles = nozzle_test(&NozzleCatches {
        catches: &catches,
        time,
        new_flow: form.amount("new_flow")?,
    })
    .map_err(told)?;
    let boom = match (form.amount("pace")?, form.amount("between")?) {
        (Some(pace), Some(between)) => {
            let rate = boom_rate(&nozzles.value.mean_flow, &pace, &between).map_err(told)?;
            Some((rate, pace))
        }
        (None, Some(_)) => return Err(Trouble::field("pace", Wrong::Missing)),
        // A pace stands there already where one is on the sheet.
        (_, None) => None,
    };
    Ok(Jars { nozzles, boom })
}

pub(super) fn result(ask: &Ask<'_>, sheet: &EquipmentSheet, form: &Form) -> Result<Markup> {
    let jars = work(form)?;
    let words = ask.words;
    let found = &jars.nozzles.value;
    let off = |percent: Option<f64>| {
        percent.map_or_else(|| ask.t("frame-not-known"), |p| change(words, p))
    };
    Ok(html! {
        (findings(ask, &found.findings))
        table {
            thead { tr {
                th { (ask.t("calibrate-nozzle")) }
                th { (ask.t("calibrate-flow")) }
                th { (ask.t("calibrate-off-mean")) }
                th { (ask.t("calibrate-off-new")) }
            } }
            tbody { @for n in &found.nozzles { tr {
                td { (n.number) }
                td { (words.worked_out(&n.flow)) }
                td { (off(Some(n.off_mean_percent))) }
                td { (off(n.off_new_percent)) }
            } } }
        }
        (how(ask, &jars.nozzles.working))
        @if let Some((rate, pace)) = &jars.boom {
            (timed::rate(ask, &rate.value))
            (how(ask, &rate.working))
            (keep::form(ask, sheet, &Kept {
                rate: rate.value.per_1000_ft2,
                swath: None,
                pace: Some(*pace),
                setting: String::new(),
                product: None,
            }))
        } @else {
            p.unknown { (ask.t("calibrate-no-boom-rate")) }
        }
    })
}
