//! Sections: measure, leave out, hide, list with areas and how they were found.

use std::collections::BTreeMap;

use serde_json::{Value, json};
use sward_book::Book;
use sward_book::ids::{ItemId, SheetId};
use sward_book::sheet::{Section, YardSheet};
use sward_rules::measure::{AreaEstimate, Outline, WalkRead};

use crate::app::App;
use crate::args::{SectionArgs, SectionCommand};
use crate::error::{CliError, Result};
use crate::names;
use crate::print::{Answer, Page};
use crate::words::how as how_lines;

use super::shapes;

/// Runs `sward section`.
pub(super) fn run(app: &App, args: &SectionArgs) -> Result<Answer> {
    match &args.command {
        SectionCommand::Add {
            yard,
            section,
            shape,
        } => {
            let given = shapes::outline(shape)?;
            let mut book = app.writing()?;
            let yard = names::yard(&book, yard)?;
            let id = book.add_section(yard, section, &given.outline)?;
            measured(yard, id, section, &given.outline, given.walk.as_ref())
        }
        SectionCommand::Measure {
            yard,
            section,
            shape,
        } => {
            let given = shapes::outline(shape)?;
            let mut book = app.writing()?;
            let (yard, found) = find(&book, yard, section)?;
            book.set_outline(yard, found.id, &given.outline)?;
            measured(
                yard,
                found.id,
                &found.name,
                &given.outline,
                given.walk.as_ref(),
            )
        }
        SectionCommand::LeaveOut {
            yard,
            section,
            shapes,
        } => leave_out(app, yard, section, shapes),
        SectionCommand::Hide { yard, section } => hide(app, yard, section, true),
        SectionCommand::Unhide { yard, section } => hide(app, yard, section, false),
        SectionCommand::List { yard, how } => list(app, yard, *how),
    }
}

fn find(book: &Book, yard: &str, section: &str) -> Result<(SheetId, Section)> {
    let yard = names::yard(book, yard)?;
    let sheet = book.yard_sheet(yard)?;
    Ok((yard, names::section(&sheet, section)?.clone()))
}

fn measured(
    yard: SheetId,
    section: ItemId,
    name: &str,
    outline: &Outline,
    walk: Option<&WalkRead>,
) -> Result<Answer> {
    let area = outline.area()?.value;
    let mut page = Page::of(format!(
        "{name} ({}): {}.",
        names::short(section.0),
        area.for_person()
    ));
    let mut json = json!({ "yard": yard, "section": section, "name": name, "area": area });
    if let Some(walk) = walk {
        walk_told(&mut page, walk);
        json["walk"] = json!({
            "read": walk.read,
            "used": walk.fixes.len(),
            "dropped": walk.dropped,
            "notes": walk.notes,
        });
    }
    Ok(Answer::new(page, json))
}

fn walk_told(page: &mut Page, walk: &WalkRead) {
    page.line(format!("{} of {} fixes used.", walk.fixes.len(), walk.read));
    let mut by_reason: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for fix in &walk.dropped {
        by_reason
            .entry(fix.why.to_string())
            .or_default()
            .push(fix.number.to_string());
    }
    for (why, numbers) in by_reason {
        const SHOWN: usize = 8;
        let more = numbers.len().saturating_sub(SHOWN);
        let shown = numbers[..numbers.len().min(SHOWN)].join(", ");
        let more = if more > 0 {
            format!(" and {more} more")
        } else {
            String::new()
        };
        page.item(format!("dropped fix {shown}{more}: {why}"));
    }
    for note in &walk.notes {
        page.item(format!("note: {note}"));
    }
}

fn leave_out(app: &App, yard: &str, section: &str, typed: &[String]) -> Result<Answer> {
    let shapes: Vec<_> = typed
        .iter()
        .map(|t| shapes::left_out(t))
        .collect::<Result<_>>()?;
    let mut book = app.writing()?;
    let (yard, found) = find(&book, yard, section)?;
    let Some(mut outline) = found.outline else {
        return Err(CliError::Refused(format!(
            "{} is not measured yet: measure it first, then leave parts out",
            found.name
        )));
    };
    outline.left_out.extend(shapes);
    book.set_outline(yard, found.id, &outline)?;
    measured(yard, found.id, &found.name, &outline, None)
}

fn hide(app: &App, yard: &str, section: &str, hidden: bool) -> Result<Answer> {
    let mut book = app.writing()?;
    let (yard, found) = find(&book, yard, section)?;
    book.hide_section(yard, found.id, hidden)?;
    let page = Page::of(if hidden {
        format!(
            "{} is hidden from new visits; its keep-offs stay as they are.",
            found.name
        )
    } else {
        format!("{} is shown again.", found.name)
    });
    Ok(Answer::new(
        page,
        json!({ "yard": yard, "section": found.id, "hidden": hidden }),
    ))
}

fn list(app: &App, asked: &str, how: bool) -> Result<Answer> {
    let book = app.reading()?;
    let yard = names::yard(&book, asked)?;
    let sheet = book.yard_sheet(yard)?;
    let mut page = Page::default();
    let sections = table(&sheet, &mut page);
    if how {
        for section in &sheet.sections {
            if let Some(Ok(answer)) = section.outline.as_ref().map(Outline::area) {
                page.blank();
                how_lines(&mut page, &section.name, &answer.working);
            }
        }
    }
    Ok(Answer::new(
        page,
        json!({ "yard": yard, "sections": sections }),
    ))
}

/// Adds a yard's sections to a page, and gives them for machines.
pub(super) fn table(sheet: &YardSheet, page: &mut Page) -> Vec<Value> {
    let mut rows = Vec::new();
    let mut json = Vec::new();
    for section in &sheet.sections {
        let answer = section.outline.as_ref().map(Outline::area);
        let area: Option<AreaEstimate> = answer
            .as_ref()
            .and_then(|a| a.as_ref().ok())
            .map(|a| a.value);
        let mut remarks = Vec::new();
        if section.hidden {
            remarks.push("hidden".to_owned());
        }
        if let Some(Err(error)) = &answer {
            remarks.push(error.to_string());
        }
        if !section.other_outlines.is_empty() {
            remarks.push(
                "drawn differently on two phones: settle it with sward section measure".into(),
            );
        }
        rows.push(vec![
            section.name.clone(),
            names::short(section.id.0),
            area.map_or_else(|| "not measured".into(), |a| a.for_person()),
            remarks.join("; "),
        ]);
        json.push(json!({
            "section": section.id,
            "name": section.name,
            "area": area,
            "working": answer.and_then(Result::ok).map(|a| a.working),
            "hidden": section.hidden,
            "other_outlines": section.other_outlines.len(),
        }));
    }
    if rows.is_empty() {
        page.line("No section yet: sward section add YARD SECTION --rectangle \"60 ft x 25 ft\".");
    }
    page.table(&["section", "id", "area", "remarks"], rows);
    json
}
