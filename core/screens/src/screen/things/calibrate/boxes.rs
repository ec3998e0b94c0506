//! A spreader's pattern by catch boxes. It shows which swath to calibrate at; nothing of it is kept,
//! because a setting holds for the swath on which it was calibrated.

use maud::{Markup, html};
use sward_book::sheet::EquipmentSheet;
use sward_rules::calibrate::{
    CatchBoxes, Evenness, Pattern, Travel, evenness, evenness_finding, pattern,
};
use sward_rules::finding::Finding;
use sward_rules::{Answer, Field};

use super::{draw, inputs};
use crate::ask::Ask;
use crate::part::amounts::rounded;
use crate::part::finding::finding;
use crate::part::how::how;
use crate::part::inputs::{beside, listed, needed};
use crate::server::Form;
use crate::trouble::Wrong;
use crate::{Result, Trouble, part};

const NAMES: [(Field, &str); 4] = [
    (Field::BoxSpacing, "spacing"),
    (Field::Boxes, "catches"),
    (Field::Catch { number: 1 }, "catches"),
    (Field::Swath, "across"),
];

/// What boxes showed.
pub(super) struct Boxes {
    pattern: Answer<Pattern>,
    curve: Answer<Evenness>,
    finding: Option<Finding>,
}

pub(super) fn form(ask: &Ask<'_>, sheet: &EquipmentSheet) -> Markup {
    let inputs = inputs(ask, "boxes");
    let form = &inputs.form;
    let travel = inputs.last("travel");
    let ways = [
        ("back", ask.t("calibrate-back-and-forth")),
        ("one", ask.t("calibrate-one-way")),
    ];
    form.wrap(html! {
        p.note { (ask.t("calibrate-boxes-how")) }
        (inputs.number("spacing", "calibrate-spacing", ("ft", "m"), None))
        (inputs.list("catches", "calibrate-catches", "calibrate-catches-help", &["g", "mL", "in", "oz"]))
        (inputs.number("across", "field-swath", ("ft", "m"), sheet.swath.as_ref()))
        (form.choice("travel", "calibrate-travel", &ways, travel.as_deref().or(Some("back"))))
        (form.submit("calibrate-work-out"))
    })
}

/// Works out what was typed.
pub(super) fn work(form: &Form) -> Result<Boxes> {
    let [spacing] = needed(form, ["spacing"])?;
    let catches = listed(form, "catches")?;
    let boxes = CatchBoxes {
        spacing,
        catches: &catches,
    };
    let told = |error| beside(error, &NAMES);
    let pattern = pattern(&boxes).map_err(told)?;
    let curve = evenness(&boxes).map_err(told)?;
    let travel = match form.text("travel") {
        "one" => Travel::OneWay,
        "back" | "" => Travel::BackAndForth,
        _ => return Err(Trouble::field("travel", Wrong::NotOffered)),
    };
    let finding = form
        .amount("across")?
        .map(|swath| evenness_finding(&curve.value, &swath, travel))
        .transpose()
        .map_err(told)?;
    Ok(Boxes {
        pattern,
        curve,
        finding,
    })
}

pub(super) fn result(ask: &Ask<'_>, _: &EquipmentSheet, form: &Form) -> Result<Markup> {
    let boxes = work(form)?;
    let words = ask.words;
    let (shape, curve) = (&boxes.pattern.value, &boxes.curve.value);
    let not_known = ask.t("frame-not-known");
    let row = |key: &str, amount: Option<&sward_rules::Entered>| {
        let value = amount.map_or_else(String::new, |a| words.worked_out(a));
        part::row(&ask.t(key), &value, &not_known)
    };
    let percent = |value: f64| format!("{} %", rounded(words, value, 1));
    Ok(html! {
        dl {
            (row("calibrate-effective", shape.effective_swath.as_ref()))
            (row("calibrate-best-back", curve.best_back_and_forth.as_ref()))
            (row("calibrate-best-one", curve.best_one_way.as_ref()))
        }
        @if let Some(found) = &boxes.finding { (finding(ask, found)) }
        figure {
            (draw::pattern(ask, shape))
            figcaption { (ask.t("calibrate-pattern")) }
        }
        figure {
            (draw::curve(ask, curve))
            figcaption { (ask.t("calibrate-curve")) }
        }
        details {
            summary { (ask.t("calibrate-table")) }
            table {
                thead { tr {
                    th { (ask.t("field-swath")) }
                    th { (ask.t("calibrate-back-and-forth")) }
                    th { (ask.t("calibrate-one-way")) }
                } }
                tbody { @for p in &curve.points { tr {
                    td { (words.amount(&p.swath)) }
                    td { (percent(p.back_and_forth_percent)) }
                    td { (percent(p.one_way_percent)) }
                } } }
            }
        }
        (how(ask, &boxes.pattern.working))
        (how(ask, &boxes.curve.working))
        p { (ask.t("calibrate-boxes-then")) }
    })
}
