//! Yards: add, change, list, show.

use serde_json::json;
use sward_book::Book;
use sward_book::ids::SheetId;
use sward_book::sheet::SheetKind;

use crate::app::App;
use crate::args::{YardArgs, YardCommand};
use crate::error::Result;
use crate::names;
use crate::print::{Answer, Page};

use super::section;

/// Runs `sward yard`.
pub(super) fn run(app: &App, args: &YardArgs) -> Result<Answer> {
    match &args.command {
        YardCommand::Add {
            name,
            address,
            zone,
        } => add(app, name, address, zone.as_deref()),
        YardCommand::Set { yard, fields } => set(app, yard, fields),
        YardCommand::List => list(app),
        YardCommand::Show { yard } => show(app, yard),
    }
}

fn add(app: &App, name: &str, address: &str, zone: Option<&str>) -> Result<Answer> {
    let mut book = app.writing()?;
    let device = app.device_zone();
    let zone = zone.unwrap_or_else(|| device.name());
    let yard = book.add_yard(name, address, zone)?;
    let mut page = Page::of(format!(
        "Yard added: {name} ({}), times in {zone}.",
        names::short(yard.0)
    ));
    page.line("Next: sward section add, to measure its lawn.");
    Ok(Answer::new(page, json!({ "yard": yard, "zone": zone })))
}

fn set(app: &App, asked: &str, fields: &[(String, String)]) -> Result<Answer> {
    let mut book = app.writing()?;
    let yard = names::yard(&book, asked)?;
    for (key, value) in fields {
        book.set_yard(yard, key, value)?;
    }
    let page = Page::of(format!(
        "{}: {} changed.",
        asked,
        counted(fields.len(), "field")
    ));
    Ok(Answer::new(
        page,
        json!({ "yard": yard, "changed": fields.len() }),
    ))
}

/// "1 field", "2 fields".
pub(super) fn counted(count: usize, what: &str) -> String {
    if count == 1 {
        format!("1 {what}")
    } else {
        format!("{count} {what}s")
    }
}

fn list(app: &App) -> Result<Answer> {
    let book = app.reading()?;
    let yards = book.yards()?;
    let mut page = Page::default();
    if yards.is_empty() {
        page.line("No yard yet: sward yard add NAME.");
    }
    let rows = yards
        .iter()
        .map(|y| {
            vec![
                y.name.clone(),
                names::short(y.yard.0),
                y.zone.clone(),
                y.address.clone(),
            ]
        })
        .collect();
    page.table(&["yard", "id", "time zone", "address"], rows);
    Ok(Answer::new(page, json!({ "yards": yards })))
}

fn show(app: &App, asked: &str) -> Result<Answer> {
    let book = app.reading()?;
    let yard = names::yard(&book, asked)?;
    let sheet = book.yard_sheet(yard)?;
    let mut page = Page::of(format!("{} ({})", sheet.name, names::short(yard.0)));
    let zone = sheet.zone.map_or("not set", |z| z.name());
    for (what, text) in [
        ("address", sheet.address.as_str()),
        ("time zone", zone),
        ("people", &sheet.people),
        ("note", &sheet.note),
    ] {
        if !text.is_empty() {
            page.item(format!("{what}: {text}"));
        }
    }
    conflicts(&book, yard, &mut page)?;
    page.blank();
    let sections = section::table(&sheet, &mut page);
    let json = json!({
        "yard": yard,
        "name": sheet.name,
        "address": sheet.address,
        "zone": sheet.zone.map(chrono_tz::Tz::name),
        "people": sheet.people,
        "note": sheet.note,
        "sections": sections,
        "waits_for_changes": waits(&book, yard)?,
    });
    Ok(Answer::new(page, json))
}

fn conflicts(book: &Book, yard: SheetId, page: &mut Page) -> Result<()> {
    for view in book.yards()?.into_iter().filter(|y| y.yard == yard) {
        for conflict in view.conflicts {
            page.item(format!(
                "{}: two phones say {}; settle it with sward settle yard",
                conflict.field,
                conflict.values.join(" and ")
            ));
        }
    }
    if waits(book, yard)? {
        page.item("some changes wait for others that have not arrived: swap records");
    }
    Ok(())
}

fn waits(book: &Book, yard: SheetId) -> Result<bool> {
    Ok(book.sheet(yard, SheetKind::Yard)?.waits())
}
