//! A spreader by strip: weighed before and after, or caught.

use maud::{Markup, html};
use rust_decimal::Decimal;
use sward_book::Book;
use sward_book::ids::SheetId;
use sward_book::sheet::EquipmentSheet;
use sward_rules::calibrate::{
    SettingToTry, StripRate, StripRun, Tried, Weighed, rate_found_finding, setting_to_try,
    strip_rate,
};
use sward_rules::finding::{Finding, Verdict};
use sward_rules::label::LabelSays;
use sward_rules::plan::Passes;
use sward_rules::quantity::Dimension;
use sward_rules::{Answer, Entered, Field};

use super::super::{fields, units};
use super::keep::Kept;
use super::{inputs, keep};
use crate::ask::Ask;
use crate::part::finding::finding;
use crate::part::how::how;
use crate::part::inputs::{beside, needed};
use crate::server::Form;
use crate::{Result, part};

const RATES: [Dimension; 2] = [Dimension::MassPerArea, Dimension::VolumePerArea];

const NAMES: [(Field, &str); 10] = [
    (Field::ProductAtStart, "start"),
    (Field::ProductLeft, "left"),
    (Field::StripLength, "length"),
    (Field::Swath, "swath"),
    (Field::WantedRate, "wanted"),
    (Field::FoundRate, "wanted"),
    (Field::Rate, "wanted"),
    (Field::SettingTried { number: 1 }, "before"),
    (Field::SettingsTried, "before"),
    (Field::ProductCaught, "start"),
];

/// What a strip showed.
pub(super) struct Strip {
    rate: Answer<StripRate>,
    swath: Entered,
    product: String,
    finding: Option<Finding>,
    next: Option<Answer<SettingToTry>>,
}

pub(super) fn form(ask: &Ask<'_>, sheet: &EquipmentSheet) -> Result<Markup> {
    let inputs = inputs(ask, "strip");
    let form = &inputs.form;
    let choose = ask.t("field-choose-unit");
    let rate = |name: &str, label: &str| {
        let unit = inputs.last(&format!("{name}.unit")).unwrap_or_default();
        let (options, _) = units::options(ask.words, &RATES, None, &choose);
        let filled = inputs.last(name).unwrap_or_default();
        form.number_in_units(name, label, "", &options, (&filled, &unit))
    };
    let label = inputs.last("label").unwrap_or_default();
    let passes = [
        ("1", ask.t("calibrate-passes-one")),
        ("2", ask.t("calibrate-passes-two")),
    ];
    Ok(form.wrap(html! {
        p.note { (ask.t("calibrate-strip-how")) }
        (inputs.number("start", "calibrate-start", ("lb", "kg"), None))
        (inputs.number("left", "calibrate-left", ("lb", "kg"), None))
        (inputs.number("length", "calibrate-length", ("ft", "m"), None))
        (inputs.number("swath", "field-swath", ("ft", "m"), sheet.swath.as_ref()))
        (rate("wanted", "calibrate-wanted"))
        (form.choice("passes", "calibrate-passes", &passes, inputs.last("passes").as_deref().or(Some("1"))))
        (form.select("label", "calibrate-label", &fields::products(ask, &label)?, Some(&label)))
        (inputs.text("setting", "field-setting", ""))
        (inputs.text("before", "calibrate-before", "calibrate-before-help"))
        (rate("gave", "calibrate-gave"))
        (form.submit("calibrate-work-out"))
    }))
}

/// Works out what was typed.
pub(super) fn work(book: &Book, form: &Form) -> Result<Strip> {
    let [start, left, length, swath] = needed(form, ["start", "left", "length", "swath"])?;
    let wanted = form.amount("wanted")?;
    let run = StripRun {
        weighed: Weighed::StartAndLeft { start, left },
        length,
        swath,
    };
    let unit = wanted.map(|wanted| wanted.unit());
    let rate = strip_rate(&run, unit).map_err(|e| beside(e, &NAMES))?;
    let (product, most) = match form.text("label").parse::<SheetId>() {
        Ok(id) => {
            let label = book.label_sheet(id)?.label;
            (label.product, label.rate_most)
        }
        Err(_) => (String::new(), LabelSays::Unfilled),
    };
    let found = &rate.value.rate;
    let passes = match form.text("passes") {
        "2" => Passes::TwoAtRightAngles,
        _ => Passes::One,
    };
    let finding = wanted
        .map(|wanted| rate_found_finding(found, &wanted, &most, passes))
        .transpose()
        .map_err(|e| beside(e, &NAMES))?;
    let next = match &wanted {
        Some(wanted) => {
            let tries = tried(form, found)?;
            let most = most.value();
            setting_to_try(&tries, wanted, most, passes).map_err(|e| beside(e, &NAMES))?
        }
        None => None,
    };
    Ok(Strip {
        rate,
        swath,
        product,
        finding,
        next,
    })
}

/// The setting of this run and one tried before, as far as they are numbers.
fn tried(form: &Form, found: &Entered) -> Result<Vec<Tried>> {
    let number = |name: &str| Decimal::from_str_exact(form.text(name)).ok();
    let mut tries = Vec::new();
    if let Some(setting) = number("setting") {
        let rate = *found;
        tries.push(Tried { setting, rate });
    }
    if let (Some(setting), Some(rate)) = (number("before"), form.amount("gave")?) {
        tries.push(Tried { setting, rate });
    }
    Ok(tries)
}

pub(super) fn result(ask: &Ask<'_>, sheet: &EquipmentSheet, form: &Form) -> Result<Markup> {
    let strip = work(ask.book()?, form)?;
    let words = ask.words;
    let not_known = ask.t("frame-not-known");
    let row = |key: &str, value: &str| part::row(&ask.t(key), value, &not_known);
    let rate = &strip.rate.value;
    let stops = strip
        .finding
        .as_ref()
        .is_some_and(|f| f.verdict == Verdict::DontTreat);
    Ok(html! {
        dl {
            (row("calibrate-rate", &words.worked_out(&rate.rate)))
            (row("field-swath", &words.amount(&strip.swath)))
            (row("calibrate-used", &words.worked_out(&rate.used)))
            (row("calibrate-area", &words.worked_out(&rate.area)))
        }
        @if let Some(found) = &strip.finding { (finding(ask, found)) }
        (how(ask, &strip.rate.working))
        @if let Some(next) = &strip.next {
            p.big { (words.t_with("calibrate-try-next", &[("setting", words.number(next.value.setting).into())])) }
            (how(ask, &next.working))
        }
        @if stops { p { strong { (ask.t("calibrate-not-kept")) } } } @else {
            (keep::form(ask, sheet, &Kept {
                rate: rate.rate,
                swath: Some(strip.swath),
                pace: None,
                setting: form.text("setting").to_owned(),
                product: strip.product.clone(),
            }))
        }
    })
}
