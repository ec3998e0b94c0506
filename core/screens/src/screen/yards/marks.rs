//! What lies near, and where the sections lie: places on the yard sketch.
//!
//! Places are metres or feet east and north of one origin that the person chooses, such as a
//! corner of the house.

use maud::{Markup, html};
use sward_book::ids::{ItemId, SheetId};
use sward_book::sheet::{Mark, MarkKind, Offset, Section, SheetKind};

use super::fields::{beside, degrees_of, offset_of};
use crate::ask::{Ask, Doing, Next, Page, Place};
use crate::part::form::FormPart;
use crate::sketch::{Sketch, kind_words};
use crate::words::Units;
use crate::{Result, Trouble, part};

const LIST: &str = "marks";

pub(super) fn show(ask: &Ask<'_>) -> Result<Page> {
    let yard: SheetId = ask.param("yard")?;
    let sheet = ask.book()?.yard_sheet(yard)?;
    let sketch = Sketch::for_yard(ask, yard, &sheet)?;
    let new = ask.form("add");
    Ok(Page {
        title: ask
            .words
            .t_with("yards-marks-title", &[("yard", sheet.name.clone().into())]),
        main: html! {
            p.note { (ask.t("yards-marks-origin")) }
            (sketch.markup(ask.words))
            h2 { (ask.t("yards-mark-new")) }
            (new.wrap(html! {
                (fields(ask, &new, None))
                (new.submit("yards-mark-add"))
            }))
            h2 { (ask.t("yards-marks-there")) }
            @for mark in sheet.marks.iter().filter(|m| !m.hidden) { (one(ask, mark)) }
            h2 { (ask.t("yards-sections-where")) }
            @for section in sheet.sections.iter().filter(|s| !s.hidden) { (section_place(ask, section)) }
            (part::way(&format!("/yards/{yard}"), &ask.t("yards-done")))
        },
        place: Place::Yards,
        back: Some(format!("/yards/{yard}")),
    })
}

fn is_open(ask: &Ask<'_>, key: &str) -> bool {
    ask.again.is_some_and(|a| a.form.text("key") == key)
}

fn one(ask: &Ask<'_>, mark: &Mark) -> Markup {
    let key = mark.id.to_string();
    let (form, hide) = (ask.form_keyed("save", &key), ask.form_keyed("hide", &key));
    let kind = kind_words(mark.kind.map_or("", MarkKind::word), ask.words);
    html! {
        details.card open[is_open(ask, &key)] {
            summary {
                (kind) @if !mark.name.is_empty() { ": " (mark.name) }
                @if mark.east.is_none() || mark.north.is_none() { " · " span.unknown { (ask.t("yards-place-unknown")) } }
            }
            (form.wrap(html! {
                (fields(ask, &form, Some(mark)))
                (form.quiet_submit("yards-save"))
            }))
            (hide.wrap(html! { (hide.quiet_submit("yards-mark-hide")) }))
        }
    }
}

fn fields(ask: &Ask<'_>, form: &FormPart<'_>, filled: Option<&Mark>) -> Markup {
    let kinds: Vec<(String, String)> = std::iter::once((String::new(), ask.t("yards-choose")))
        .chain(
            MarkKind::WORDS
                .iter()
                .map(|w| ((*w).to_owned(), kind_words(w, ask.words))),
        )
        .collect();
    let kind = filled.and_then(|m| m.kind).map_or("", MarkKind::word);
    html! {
        (form.select("kind", "yards-mark-kind", &kinds, Some(kind)))
        (form.text("name", "yards-mark-name", "yards-mark-name-help", filled.map(|m| m.name.as_str())))
        (offset(ask, form, "east", "yards-east", filled.and_then(|m| m.east)))
        (offset(ask, form, "north", "yards-north", filled.and_then(|m| m.north)))
    }
}

/// A place to one side: a plain line of text, because a place may lie below zero.
fn offset(
    ask: &Ask<'_>,
    form: &FormPart<'_>,
    name: &str,
    label: &str,
    filled: Option<Offset>,
) -> Markup {
    let help = match ask.words.units {
        Units::Us => "yards-offset-help-ft",
        Units::Metric => "yards-offset-help-m",
    };
    form.text(name, label, help, filled.map(|o| o.for_person()).as_deref())
}

fn section_place(ask: &Ask<'_>, section: &Section) -> Markup {
    let key = section.id.to_string();
    let form = ask.form_keyed("place", &key);
    html! {
        details.card open[is_open(ask, &key)] {
            summary {
                (section.name)
                @if section.east.is_none() || section.north.is_none() { " · " span.unknown { (ask.t("yards-place-unknown")) } }
            }
            (form.wrap(html! {
                p.note { (ask.t("yards-first-corner")) }
                (offset(ask, &form, "east", "yards-east", section.east))
                (offset(ask, &form, "north", "yards-north", section.north))
                (form.text("turn", "yards-turn", "yards-turn-help", section.turn_deg.map(|d| d.to_string()).as_deref()))
                (form.quiet_submit("yards-save"))
            }))
        }
    }
}

/// The places typed, each with its unit.
fn typed(doing: &Doing<'_>, keys: &[&'static str]) -> Vec<(&'static str, String)> {
    let unit = match doing.words.units {
        Units::Us => "ft",
        Units::Metric => "m",
    };
    keys.iter()
        .map(|key| {
            let text = doing.text(key);
            let typed = match *key {
                "east" | "north" => offset_of(text, unit),
                "turn" => degrees_of(text),
                _ => text.to_owned(),
            };
            (*key, typed)
        })
        .collect()
}

fn borrowed<'a>(typed: &'a [(&'static str, String)]) -> Vec<(&'static str, &'a str)> {
    typed
        .iter()
        .map(|(key, text)| (*key, text.as_str()))
        .collect()
}

fn item(doing: &Doing<'_>) -> Result<ItemId> {
    doing.text("key").parse().map_err(|_| Trouble::NoForm)
}

pub(super) fn add(doing: &mut Doing<'_>) -> Result<Next> {
    let yard: SheetId = doing.param("yard")?;
    let typed = typed(doing, &["kind", "name", "east", "north"]);
    beside(
        doing
            .book()?
            .add_item(yard, SheetKind::Yard, LIST, &borrowed(&typed)),
    )?;
    Ok(Next::Go(doing.path.to_owned()))
}

pub(super) fn save(doing: &mut Doing<'_>) -> Result<Next> {
    let (yard, id): (SheetId, _) = (doing.param("yard")?, item(doing)?);
    let typed = typed(doing, &["kind", "name", "east", "north"]);
    beside(
        doing
            .book()?
            .set_item(yard, SheetKind::Yard, LIST, id, &borrowed(&typed)),
    )?;
    Ok(Next::Go(doing.path.to_owned()))
}

pub(super) fn hide(doing: &mut Doing<'_>) -> Result<Next> {
    let (yard, id): (SheetId, _) = (doing.param("yard")?, item(doing)?);
    doing
        .book()?
        .hide_item(yard, SheetKind::Yard, LIST, id, true)?;
    Ok(Next::Go(doing.path.to_owned()))
}

pub(super) fn place(doing: &mut Doing<'_>) -> Result<Next> {
    let (yard, id): (SheetId, _) = (doing.param("yard")?, item(doing)?);
    let typed = typed(doing, &["east", "north", "turn"]);
    beside(
        doing
            .book()?
            .set_item(yard, SheetKind::Yard, "sections", id, &borrowed(&typed)),
    )?;
    Ok(Next::Go(doing.path.to_owned()))
}
