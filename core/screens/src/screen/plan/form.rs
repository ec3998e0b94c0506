//! The plan's form, and keeping what is typed.

use maud::{Markup, html};
use sward_book::ids::{ItemId, SheetId, VisitId};
use sward_book::sheet::{EquipmentSheet, StockSheet};

use super::prefill::{Equipment, Filled, From, Prefill};
use super::work::{Job, area, is_wet, last_with, shown};
use crate::ask::{Ask, Doing, Next};
use crate::part::amounts;
use crate::part::form::{FormPart, NumberField};
use crate::screen::visit::Here;
use crate::trouble::Wrong;
use crate::words::Clock;
use crate::{Result, Trouble};

/// The numbers that every plan needs; a carrier is needed beside them where there is one.
const NEEDED: [&str; 3] = ["rate", "holds", "vessel"];

/// The form with everything that can stand there already.
pub(super) fn form(ask: &Ask<'_>, here: &Here, job: &Job) -> Result<Markup> {
    let book = ask.book()?;
    let last = last_with(book, here, Some(job.label_id))?;
    let equipment = book.equipment()?;
    let known: Vec<_> = equipment.iter().map(|(id, sheet)| (*id, sheet)).collect();
    let filled = Prefill::new(
        job.kept.as_ref(),
        last.as_ref().map(|(plan, at_ms)| (plan, *at_ms)),
        &job.sheet.label,
        &known,
        ask.words.units,
    );
    let lots = book.stock()?;
    let form = ask.form_keyed("keep", &job.label_id.to_string());
    Ok(form.wrap(html! {
        @if let Some(at_ms) = filled.last_ms() {
            p.note { (ask.words.t_with("plan-copied", &[("day", here.words.moment(at_ms, Clock::Day).into())])) }
        }
        (form.hidden("label", &job.label_id.to_string()))
        (lawn(ask, here, &form, &filled))
        (product(ask, here, &form, &filled, &lots, job))
        (put_on_with(ask, here, &form, &filled, &known, job.is_wet()))
        (form.lines("gear", "plan-gear-worn", "", Some(&filled.gear)))
        @if filled.last_ms().is_some() { (form.submit("plan-still-true")) } @else { (form.submit("plan-keep")) }
    }))
}

/// Which sections, and whether for their area less its uncertainty.
fn lawn(ask: &Ask<'_>, here: &Here, form: &FormPart<'_>, filled: &Prefill) -> Markup {
    let measured = |id: &ItemId| filled.sections.is_empty() || filled.sections.contains(id);
    let mut options = Vec::new();
    let mut ticked = Vec::new();
    for section in shown(here, &[]) {
        let Some(known) = area(section) else { continue };
        let id = section.id.to_string();
        if measured(&section.id) {
            ticked.push(id.clone());
        }
        let size = amounts::area(ask.words, &known.area);
        options.push((id, format!("{}, {size}", section.name)));
    }
    html! {
        @if options.is_empty() {
            p { span.unknown { (ask.t("plan-nothing-measured")) } }
        } @else {
            (form.several("sections", "plan-sections", &options, &ticked))
        }
        (form.tick("less_uncertainty", &ask.t("plan-less-uncertainty"), filled.less_uncertainty))
    }
}

fn product(
    ask: &Ask<'_>,
    here: &Here,
    form: &FormPart<'_>,
    filled: &Prefill,
    lots: &[(SheetId, StockSheet)],
    job: &Job,
) -> Markup {
    let own = lots
        .iter()
        .filter(|(_, lot)| !lot.hidden && lot.label == Some(job.label_id))
        .map(|(id, lot)| (id.to_string(), lot_words(ask, lot)));
    let options: Vec<_> = std::iter::once((String::new(), ask.t("frame-not-known")))
        .chain(own)
        .collect();
    let stock = filled.stock.map(|s| s.to_string()).unwrap_or_default();
    html! {
        (number(ask, here, form, ("rate", "plan-rate"), &filled.rate))
        @if let Some(carrier) = &filled.carrier {
            (number(ask, here, form, ("carrier", "plan-carrier"), carrier))
        }
        (form.select("stock", "plan-stock", &options, Some(&stock)))
    }
}

/// A lot with what there was of it at the last count.
pub(super) fn lot_words(ask: &Ask<'_>, lot: &StockSheet) -> String {
    let not_known = ask.t("frame-not-known");
    let name = if lot.lot.is_empty() {
        not_known.clone()
    } else {
        lot.lot.clone()
    };
    let on_hand = lot.on_hand.map_or(not_known, |a| ask.words.amount(&a));
    match lot.counted_on {
        Some(day) => ask.words.t_with(
            "plan-lot-counted",
            &[
                ("lot", name.into()),
                ("amount", on_hand.into()),
                ("day", ask.words.day(day).into()),
            ],
        ),
        None => ask.words.t_with(
            "plan-lot",
            &[("lot", name.into()), ("amount", on_hand.into())],
        ),
    }
}

fn put_on_with(
    ask: &Ask<'_>,
    here: &Here,
    form: &FormPart<'_>,
    filled: &Prefill,
    equipment: &[Equipment<'_>],
    wet: bool,
) -> Markup {
    let usable = equipment
        .iter()
        .filter(|(_, sheet)| !sheet.retired)
        .map(|(id, sheet)| (id.to_string(), sheet.name.clone()));
    let options: Vec<_> = std::iter::once((String::new(), ask.t("frame-not-known")))
        .chain(usable)
        .collect();
    let chosen = filled.equipment.map(|e| e.to_string()).unwrap_or_default();
    let holds = if wet {
        "plan-holds-tank"
    } else {
        "plan-holds-hopper"
    };
    let passes = [
        ("1", ask.t("plan-passes-one")),
        ("2", ask.t("plan-passes-two")),
    ];
    let two = filled.two_passes.map(|two| if two { "2" } else { "1" });
    html! {
        (form.select("equipment", "plan-equipment", &options, Some(&chosen)))
        @if options.len() > 1 { p.note { (ask.t("plan-equipment-fills")) } }
        (number(ask, here, form, ("holds", holds), &filled.holds))
        (number(ask, here, form, ("vessel", "plan-vessel"), &filled.vessel))
        (form.choice("passes", "plan-passes", &passes, two))
        (number(ask, here, form, ("swath", "plan-swath"), &filled.swath))
    }
}

fn number(
    ask: &Ask<'_>,
    here: &Here,
    form: &FormPart<'_>,
    (name, label): (&str, &str),
    value: &Filled,
) -> Markup {
    let from = match value.from {
        From::Here => String::new(),
        From::Label => ask.t("plan-from-label"),
        From::Equipment => ask.t("plan-from-equipment"),
        From::Last(at_ms) => {
            let day = here.words.moment(at_ms, Clock::Day);
            ask.words.t_with("plan-from-day", &[("day", day.into())])
        }
    };
    form.number(&NumberField {
        name,
        label,
        unit: &value.unit,
        filled: value.amount.map(|a| a.amount().to_string()),
        from,
    })
}

/// Keeps the plan: everything that its amounts are worked out from, or nothing.
pub(super) fn keep(doing: &mut Doing<'_>) -> Result<Next> {
    let visit: VisitId = doing.param("visit")?;
    let label: SheetId = doing
        .text("label")
        .parse()
        .map_err(|_| Trouble::field("label", Wrong::NotOffered))?;
    let words = doing.words;
    let book = doing.book()?;
    let wet = is_wet(book.label_sheet(label)?.label.method);
    let here = Here::read(book, visit, words)?;
    let equipment = chosen_equipment(doing)?;
    let mut fields = typed(doing, &here, wet, equipment.as_ref())?;
    fields.push(("label", label.to_string()));
    for name in ["equipment", "stock", "gear"] {
        fields.push((name, doing.text(name).to_owned()));
    }
    let less = if doing.form.is_ticked("less_uncertainty") {
        "yes"
    } else {
        "no"
    };
    fields.push(("less_uncertainty", less.to_owned()));
    let typed: Vec<(&str, &str)> = fields.iter().map(|(n, t)| (*n, t.as_str())).collect();
    doing.book()?.set_plan(visit, &typed).map_err(|error| {
        match error.field().map(str::to_owned) {
            Some(field) => Trouble::in_field(field, error),
            None => Trouble::from(error),
        }
    })?;
    Ok(Next::Go(format!("/visit/{visit}/plan")))
}

/// The equipment that is chosen; none where none is.
fn chosen_equipment(doing: &mut Doing<'_>) -> Result<Option<EquipmentSheet>> {
    let chosen = doing.text("equipment").to_owned();
    if chosen.is_empty() {
        return Ok(None);
    }
    let offered = chosen
        .parse()
        .ok()
        .and_then(|id| doing.book().ok()?.equipment_sheet(id).ok());
    offered
        .map(Some)
        .ok_or_else(|| Trouble::field("equipment", Wrong::NotOffered))
}

/// Every field as it will be kept; all that is wrong is said at once. What is left empty is as on
/// the equipment's sheet.
fn typed(
    doing: &Doing<'_>,
    here: &Here,
    wet: bool,
    equipment: Option<&EquipmentSheet>,
) -> Result<Vec<(&'static str, String)>> {
    let mut fields = Vec::new();
    let mut wrong = Vec::new();
    for name in ["rate", "carrier", "holds", "vessel", "swath"] {
        let is_needed = NEEDED.contains(&name) || (wet && name == "carrier");
        let own = equipment.and_then(|sheet| match name {
            "holds" => sheet.holds,
            "vessel" => sheet.vessel,
            "swath" => sheet.swath,
            _ => None,
        });
        match doing.form.amount(name) {
            Ok(Some(amount)) => fields.push((name, amount.for_person())),
            Ok(None) => match own {
                Some(own) => fields.push((name, own.for_person())),
                None if is_needed => wrong.push(Trouble::field(name, Wrong::Missing)),
                None => fields.push((name, String::new())),
            },
            Err(error) => wrong.push(error),
        }
    }
    match doing.text("passes") {
        passes @ ("1" | "2") => fields.push(("passes", passes.to_owned())),
        "" => wrong.push(Trouble::field("passes", Wrong::Missing)),
        _ => wrong.push(Trouble::field("passes", Wrong::NotOffered)),
    }
    match sections(doing, here) {
        Ok(sections) => fields.push(("sections", sections)),
        Err(error) => wrong.push(error),
    }
    if wrong.is_empty() {
        Ok(fields)
    } else {
        Err(Trouble::Fields(wrong))
    }
}

/// The sections that are ticked; empty, which stands for all, where all of them are.
fn sections(doing: &Doing<'_>, here: &Here) -> Result<String> {
    let measured: Vec<String> = shown(here, &[])
        .filter(|s| area(s).is_some())
        .map(|s| s.id.to_string())
        .collect();
    let ticked: Vec<&str> = doing.form.all("sections").collect();
    if measured.is_empty() {
        return Ok(String::new());
    }
    if ticked.is_empty() {
        return Err(Trouble::field("sections", Wrong::Missing));
    }
    if ticked.iter().any(|id| !measured.iter().any(|m| m == id)) {
        return Err(Trouble::field("sections", Wrong::NotOffered));
    }
    let all = measured.iter().all(|m| ticked.contains(&m.as_str()));
    Ok(if all { String::new() } else { ticked.join(" ") })
}
