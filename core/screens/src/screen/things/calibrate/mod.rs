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
use sward_rules::quantity::Unit;
use sward_rules::{Entered, Field, RuleError};

use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::part::form::{FormPart, NumberField};
use crate::server::Form;
use crate::words::Units;
use crate::{Result, Trouble};

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

/// What is sent along with a form and is none of what was typed.
const NOT_TYPED: [&str; 3] = ["do", "key", "once"];

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
    let fields = match ask.again {
        Some(again) if again.form.text("do") == "keep" => keep::sent_along(&again.form),
        _ => ask.query.to_vec(),
    };
    Form {
        fields,
        files: Vec::new(),
    }
}

/// Works it out, and leads to where the result stands.
fn worked(doing: &mut Doing<'_>, name: &'static str) -> Result<Next> {
    let form = doing.form;
    let path = doing.path;
    let method = METHODS.iter().find(|m| m.name == name);
    let method = method.ok_or(Trouble::NotFound)?;
    (method.check)(doing.book()?, form)?;
    let mut query = form_urlencoded::Serializer::new(String::new());
    query.append_pair("method", name);
    for (field, value) in &form.fields {
        if !NOT_TYPED.contains(&field.as_str()) && field != "method" {
            query.append_pair(field, value);
        }
    }
    Ok(Next::Go(format!("{path}?{}", query.finish())))
}

/// Amounts that must be there, all that is wrong with them at once.
fn needed<const N: usize>(form: &Form, names: [&str; N]) -> Result<[Entered; N]> {
    let mut wrong = Vec::new();
    let mut all = Vec::with_capacity(N);
    for name in names {
        match form.amount_needed(name) {
            Ok(amount) => all.push(amount),
            Err(error) => wrong.push(error),
        }
    }
    <[Entered; N]>::try_from(all).map_err(|_| Trouble::Fields(wrong))
}

/// What the rules refuse, beside the input that it is about.
fn beside(error: RuleError, names: &[(Field, &'static str)]) -> Trouble {
    let (RuleError::NotPositive { field, .. }
    | RuleError::NotAllowed { field, .. }
    | RuleError::TooMany { field, .. }
    | RuleError::In { field, .. }) = &error
    else {
        return error.into();
    };
    let name = names.iter().find(|(of, _)| same_field(of, field));
    match name {
        Some((_, name)) => Trouble::in_field(*name, error),
        None => error.into(),
    }
}

/// The same field, whichever number of it.
fn same_field(one: &Field, other: &Field) -> bool {
    std::mem::discriminant(one) == std::mem::discriminant(other)
}

/// Amounts set apart by commas or on lines of their own, in the unit chosen beside them.
fn listed(form: &Form, name: &str) -> Result<Vec<Entered>> {
    let unit = form.text(&format!("{name}.unit"));
    let text = form.text(name);
    let parts = text.split([',', ';', '\n']).map(str::trim);
    parts
        .filter(|part| !part.is_empty())
        .map(|part| {
            let typed = if part.chars().any(char::is_alphabetic) {
                part.to_owned()
            } else {
                format!("{part} {unit}")
            };
            Entered::parse(&typed).map_err(|error| Trouble::in_field(name, error))
        })
        .collect()
}

/// An amount as it is filled into a number field: with its unit only where that is another.
fn filled(amount: &Entered, unit: &str) -> String {
    match Unit::parse(unit) {
        Ok(unit) if unit == amount.unit() => amount.amount().to_string(),
        _ => format!("{} {}", amount.amount(), amount.unit().for_person()),
    }
}

/// What the forms share: inputs filled with what was typed last, else with what the sheet says.
struct Inputs<'a> {
    ask: &'a Ask<'a>,
    form: FormPart<'a>,
    last: Form,
}

impl<'a> Inputs<'a> {
    fn new(ask: &'a Ask<'a>, act: &'static str) -> Self {
        let typed = typed(ask);
        let is_this = typed.text("method") == act;
        Self {
            ask,
            form: ask.form(act),
            last: if is_this { typed } else { Form::default() },
        }
    }

    fn last(&self, name: &str) -> Option<String> {
        self.last.raw(name).map(str::to_owned)
    }

    /// A number in the one unit that the person's system has for it; another may be typed with it.
    fn number(
        &self,
        name: &str,
        label: &str,
        (us, metric): (&str, &str),
        sheet: Option<&Entered>,
    ) -> Markup {
        let unit = match self.ask.words.units {
            Units::Us => us,
            Units::Metric => metric,
        };
        self.form.number(&NumberField {
            name,
            label,
            unit,
            filled: self.last(name).or(sheet.map(|amount| filled(amount, unit))),
            from: String::new(),
        })
    }

    fn text(&self, name: &str, label: &str, help: &str) -> Markup {
        self.form
            .text(name, label, help, self.last(name).as_deref())
    }

    /// A list of numbers, with one unit for all.
    fn list(&self, name: &str, label: &str, help: &str, units: &[&str]) -> Markup {
        let words = self.ask.words;
        let unit_words = |unit: &&str| {
            let sign = Unit::parse(unit).map_or_else(|_| (*unit).to_owned(), |u| words.unit(u));
            ((*unit).to_owned(), sign)
        };
        let options: Vec<(String, String)> = units.iter().map(unit_words).collect();
        let unit = format!("{name}.unit");
        html! {
            (self.form.lines(name, label, help, self.last(name).as_deref()))
            (self.form.select(&unit, "calibrate-unit", &options, self.last(&unit).as_deref().or(units.first().copied())))
        }
    }
}
