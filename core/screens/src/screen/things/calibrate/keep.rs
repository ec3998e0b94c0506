//! "Keep this": the result on the equipment's sheet, with all that it holds for.

use maud::{Markup, html};
use sward_book::ids::SheetId;
use sward_book::sheet::{EquipmentSheet, SheetKind};
use sward_rules::calibrate::{Person, two_people_finding};
use sward_rules::finding::{Check, Reason};
use sward_rules::{Entered, Finding};

use super::typed;
use crate::ask::{Ask, Doing, Next};
use crate::part::finding::finding;
use crate::part::form::NumberField;
use crate::part::inputs::filled;
use crate::screen::visit::who;
use crate::server::Form;
use crate::trouble::Wrong;
use crate::words::Units;
use crate::{Result, Trouble};

/// What a result knows.
pub(super) struct Kept {
    pub(super) rate: Entered,
    pub(super) swath: Option<Entered>,
    pub(super) pace: Option<Entered>,
    pub(super) setting: String,
    /// None for a sprayer: it is calibrated by the mix that it puts on, whatever is in it.
    pub(super) product: Option<String>,
}

/// Texts that go along; what is left empty is not known, whatever stood there for the calibration
/// before.
const TEXTS: [&str; 4] = ["setting", "calibrated_for", "calibrated_by", "parts"];

/// A day as a form sends it and a sheet stores it.
const DAY: &str = "%Y-%m-%d";

/// In front of what was typed to reach the result: it goes along, so that a slip does not lose it.
const ALONG: &str = "typed.";

/// What was typed to reach the result that was to be kept.
pub(super) fn sent_along(form: &Form) -> Vec<(String, String)> {
    let fields = form.fields.iter();
    fields
        .filter_map(|(name, value)| Some((name.strip_prefix(ALONG)?.to_owned(), value.clone())))
        .collect()
}

pub(super) fn form(ask: &Ask<'_>, sheet: &EquipmentSheet, kept: &Kept) -> Markup {
    let form = ask.form_keyed("keep", &kept.rate.to_string());
    let today = ask.words.day_of(ask.now.utc_ms).format(DAY).to_string();
    let number = |name, label, (us, metric), amount: Option<&Entered>| {
        let unit = match ask.words.units {
            Units::Us => us,
            Units::Metric => metric,
        };
        form.number(&NumberField {
            name,
            label,
            unit,
            filled: amount.map(|amount| filled(amount, unit)),
            from: String::new(),
        })
    };
    let second = second_person(ask, sheet, kept);
    form.wrap(html! {
        h3 { (ask.t("calibrate-second")) }
        p.note { (ask.t("calibrate-second-how")) }
        (finding(ask, &second))
        h3 { (ask.t("calibrate-keep")) }
        p.note { (ask.t("calibrate-keep-how")) }
        (form.hidden("calibrated_rate", &kept.rate.to_string()))
        @for (name, value) in &typed(ask).fields { (form.hidden(&format!("{ALONG}{name}"), value)) }
        (form.day("calibrated_on", "field-calibrated-on", "", Some(&today)))
        (number("swath", "field-swath", ("ft", "m"), kept.swath.as_ref().or(sheet.swath.as_ref())))
        (number("pace", "field-pace", ("mph", "km/h"), kept.pace.as_ref()))
        (form.text("setting", "field-setting", "", Some(&kept.setting)))
        (form.text("calibrated_for", "field-calibrated-for", "field-calibrated-for-help", kept.product.as_deref()))
        (form.text("calibrated_by", "field-calibrated-by", "", None))
        (form.text("parts", "field-parts", "", Some(&sheet.parts)))
        (form.submit("calibrate-keep-this"))
    })
}

/// This result beside what somebody else kept the same day for the same setting and, on a spreader,
/// the same product; that nobody else has done it yet where there is no such result.
fn second_person(ask: &Ask<'_>, sheet: &EquipmentSheet, kept: &Kept) -> Finding {
    let nobody = Finding::unknown(Check::Calibration, Reason::NoSecondPerson);
    let is_same = sheet.calibrated_on == Some(ask.words.day_of(ask.now.utc_ms))
        && kept
            .product
            .as_ref()
            .is_none_or(|p| *p == sheet.calibrated_for)
        && sheet.setting == kept.setting
        && !sheet.calibrated_by.is_empty();
    let (Ok(book), Some(rate), true) = (ask.book(), sheet.calibrated_rate, is_same) else {
        return nobody;
    };
    let Ok(own) = book.secret() else {
        return nobody;
    };
    let here = Person {
        name: &who(book, own.stream()),
        found: kept.rate,
    };
    let there = Person {
        name: &sheet.calibrated_by,
        found: rate,
    };
    // Rates of different kinds are no two results of one thing.
    two_people_finding(&here, Some(&there)).unwrap_or(nobody)
}

/// Writes all fields of the calibration in one action.
pub(super) fn keep(doing: &mut Doing<'_>) -> Result<Next> {
    let id: SheetId = doing.param("id")?;
    let form = doing.form;
    let Ok(rate) = Entered::from_canonical(form.text("calibrated_rate")) else {
        return Err(Trouble::NotFound);
    };
    // A rate by strip was found at a swath; a sprayer's was not, and may have none.
    let along = sent_along(form);
    let by_strip = along.contains(&("method".to_owned(), "strip".to_owned()));
    let swath = form.amount("swath")?;
    if by_strip && swath.is_none() {
        return Err(Trouble::field("swath", Wrong::Missing));
    }
    let pace = form.amount("pace")?;
    let Some(day) = form.day("calibrated_on")? else {
        return Err(Trouble::field("calibrated_on", Wrong::Missing));
    };
    let stored = |amount: Option<Entered>| amount.map_or_else(String::new, |a| a.to_string());
    let mut typed = vec![
        ("calibrated_rate", rate.to_string()),
        ("calibrated_on", day.format(DAY).to_string()),
        ("swath", stored(swath)),
        ("pace", stored(pace)),
    ];
    typed.extend(TEXTS.map(|name| (name, form.text(name).to_owned())));
    let borrowed: Vec<(&str, &str)> = typed.iter().map(|(k, v)| (*k, v.as_str())).collect();
    doing
        .book()?
        .set_sheet(id, SheetKind::Equipment, &borrowed)?;
    Ok(Next::Go(format!("/things/equipment/{id}")))
}
