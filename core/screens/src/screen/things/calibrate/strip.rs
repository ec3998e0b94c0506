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
use crate::trouble::Wrong;
use crate::{Result, Trouble, part};

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
    let (product, most) = match form.text("label") {
        "" => (String::new(), LabelSays::Unfilled),
        named => {
            let id: SheetId = named
                .parse()
                .map_err(|_| Trouble::field("label", Wrong::NotOffered))?;
            let label = book.label_sheet(id)?.label;
            (label.product, label.rate_most)
        }
    };
    let found = &rate.value.rate;
    let passes = match form.text("passes") {
        "2" => Passes::TwoAtRightAngles,
        "1" | "" => Passes::One,
        _ => return Err(Trouble::field("passes", Wrong::NotOffered)),
    };
    let finding = wanted
        .map(|wanted| rate_found_finding(found, &wanted, &most, passes))
        .transpose()
        .map_err(|e| beside(e, &NAMES))?;
    let tries = tried(form, found)?;
    let next = match &wanted {
        Some(wanted) => {
            let most = most.value();
            setting_to_try(&tries, wanted, most, passes).map_err(|e| beside(e, &NAMES))?
        }
        // Two settings are compared for the rate that is wanted.
        None if tries.len() > 1 => return Err(Trouble::field("wanted", Wrong::Missing)),
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

/// The setting of this run and, where it is typed whole, one tried before. A letter on the dial may
/// be this run's setting, but nothing follows from two settings of which one is no number.
fn tried(form: &Form, found: &Entered) -> Result<Vec<Tried>> {
    let number = |name: &'static str| {
        let typed = form.text(name);
        if typed.is_empty() {
            return Err(Trouble::field(name, Wrong::Missing));
        }
        Decimal::from_str_exact(typed).map_err(|_| Trouble::field(name, Wrong::NotANumber))
    };
    let this = |setting| Tried {
        setting,
        rate: *found,
    };
    let gave = form.amount("gave")?;
    if form.text("before").is_empty() && gave.is_none() {
        return Ok(number("setting").ok().map(this).into_iter().collect());
    }
    let before = Tried {
        setting: number("before")?,
        rate: gave.ok_or_else(|| Trouble::field("gave", Wrong::Missing))?,
    };
    Ok(vec![this(number("setting")?), before])
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
                product: Some(strip.product.clone()),
            }))
        }
    })
}
