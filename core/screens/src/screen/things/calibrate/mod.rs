//! Calibrating a spreader or sprayer: what was weighed, caught or timed, and what it comes to.
//!
//! The rules work it out; a result is written on the equipment's sheet only by a tap. What was
//! typed stands behind the question mark of the address, so that a result can be looked at again.

mod boxes;
mod draw;
mod jars;
mod keep;
mod strip;
#[cfg(test)]
mod tests;
mod timed;

use maud::{Markup, html};
use sward_book::Book;
use sward_book::ids::SheetId;
use sward_book::sheet::{EquipmentKind, EquipmentSheet};

use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::part::inputs::Inputs;
use crate::server::Form;
use crate::{Result, Trouble, part};

pub(super) const SCREENS: [Screen; 1] = [Screen {
    path: "/things/equipment/{id}/calibrate",
    show,
    acts: &[
        ("strip", |doing| worked(doing, "strip")),
        ("boxes", |doing| worked(doing, "boxes")),
        ("timed", |doing| worked(doing, "timed")),
        ("jars", |doing| worked(doing, "jars")),
        ("keep", keep::keep),
    ],
}];

/// One way to calibrate.
struct Method {
    /// Its name in the form.
    name: &'static str,
    /// The heading's message.
    heading: &'static str,
    /// Its form, filled with what was typed last.
    form: fn(&Ask<'_>, &EquipmentSheet) -> Result<Markup>,
    /// What it comes to.
    result: fn(&Ask<'_>, &EquipmentSheet, &Form) -> Result<Markup>,
    /// Whether what was typed can be worked out.
    check: fn(&Book, &Form) -> Result<()>,
}

const METHODS: [Method; 4] = [
    Method {
        name: "strip",
        heading: "calibrate-strip",
        form: strip::form,
        result: strip::result,
        check: |book, form| strip::work(book, form).map(drop),
    },
    Method {
        name: "boxes",
        heading: "calibrate-boxes",
        form: |ask, sheet| Ok(boxes::form(ask, sheet)),
        result: boxes::result,
        check: |_, form| boxes::work(form).map(drop),
    },
    Method {
        name: "timed",
        heading: "calibrate-timed",
        form: |ask, sheet| Ok(timed::form(ask, sheet)),
        result: timed::result,
        check: |_, form| timed::work(form).map(drop),
    },
    Method {
        name: "jars",
        heading: "calibrate-jars",
        form: |ask, sheet| Ok(jars::form(ask, sheet)),
        result: jars::result,
        check: |_, form| jars::work(form).map(drop),
    },
];

fn show(ask: &Ask<'_>) -> Result<Page> {
    let id: SheetId = ask.param("id")?;
    let sheet = ask.book()?.equipment_sheet(id)?;
    let typed = typed(ask);
    let chosen = typed.text("method");
    let mut parts = Vec::new();
    for method in methods(sheet.kind) {
        let result = if method.name == chosen {
            // An address that was changed by hand has no result; the form says what is wrong.
            (method.result)(ask, &sheet, &typed).ok()
        } else {
            None
        };
        let refused = ask.again.is_some_and(|a| a.form.text("do") == method.name);
        let open = refused || result.is_some();
        parts.push(html! {
            @if let Some(result) = &result { section { h2 { (ask.t("calibrate-result")) } (result) } }
            details open[open && result.is_none()] {
                summary { (ask.t(method.heading)) }
                ((method.form)(ask, &sheet)?)
            }
        });
    }
    Ok(Page {
        title: ask
            .words
            .t_with("calibrate-title", &[("name", sheet.name.clone().into())]),
        main: html! {
            p.note { (ask.t("calibrate-first")) }
            @for part in &parts { (part) }
            p.note { (ask.t("things-calibration-void")) }
        },
        place: Place::Things,
        back: Some(format!("/things/equipment/{id}")),
    })
}

/// The ways that fit the equipment, all of them where its kind is not known.
fn methods(kind: Option<EquipmentKind>) -> impl Iterator<Item = &'static Method> {
    use EquipmentKind as K;
    let fits = move |name: &str| match kind {
        Some(K::RotarySpreader | K::HandSpreader) => matches!(name, "strip" | "boxes"),
        Some(K::DropSpreader) => name == "strip",
        Some(K::BackpackSprayer | K::HoseEndSprayer | K::HandGun) => name == "timed",
        Some(K::BoomSprayer) => matches!(name, "jars" | "timed"),
        Some(K::Other) | None => true,
    };
    METHODS.iter().filter(move |m| fits(m.name))
}

/// What was typed last, behind the question mark; or sent along with a "keep this" that did not fit.
fn typed(ask: &Ask<'_>) -> Form {
    match ask.again {
        Some(again) if again.form.text("do") == "keep" => {
            Form::of_query(&keep::sent_along(&again.form))
        }
        _ => Form::of_query(ask.query),
    }
}

/// Works it out, and leads to where the result stands.
fn worked(doing: &mut Doing<'_>, name: &'static str) -> Result<Next> {
    let form = doing.form;
    let path = doing.path;
    let method = METHODS.iter().find(|m| m.name == name);
    let method = method.ok_or(Trouble::NotFound)?;
    (method.check)(doing.book()?, form)?;
    Ok(Next::Go(part::inputs::address(
        path,
        form,
        &[("method", name)],
    )))
}

/// A form's inputs, filled with what was typed last for it.
fn inputs<'a>(ask: &'a Ask<'a>, act: &'static str) -> Inputs<'a> {
    let typed = typed(ask);
    let is_this = typed.text("method") == act;
    Inputs::new(ask, act, if is_this { typed } else { Form::default() })
}
