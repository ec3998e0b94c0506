//! Visits: open, list, show with the whole history.

use serde_json::{Value, json};
use sward_book::Book;
use sward_book::view::visit::VisitView;

use crate::app::App;
use crate::args::{VisitArgs, VisitCommand};
use crate::error::Result;
use crate::names;
use crate::print::{Answer, Page};
use crate::times::moment;
use crate::words::{fact_line, visit_state};

use super::{who, yard_name};

/// Runs `sward visit`.
pub(super) fn run(app: &App, args: &VisitArgs) -> Result<Answer> {
    match &args.command {
        VisitCommand::Open { yard, target } => open(app, yard, target),
        VisitCommand::Show { visit } => show(app, visit),
        VisitCommand::List { yard } => list(app, yard.as_deref()),
    }
}

fn open(app: &App, asked: &str, target: &str) -> Result<Answer> {
    let mut book = app.writing()?;
    let yard = names::yard(&book, asked)?;
    let visit = book.open_visit(yard, target)?;
    let mut page = Page::of(format!(
        "Visit to {} opened ({}).",
        yard_name(&book, Some(yard)),
        names::short(visit.0)
    ));
    for keep_off in super::keep_off::running(app, &book, Some(yard))? {
        page.line(format!("Mind: {keep_off}"));
    }
    Ok(Answer::new(page, json!({ "visit": visit, "yard": yard })))
}

fn list(app: &App, asked: Option<&str>) -> Result<Answer> {
    let book = app.reading()?;
    let visits = match asked {
        Some(yard) => book.visits_to(names::yard(&book, yard)?)?,
        None => book.visits()?,
    };
    let mut page = Page::default();
    if visits.is_empty() {
        page.line("No visit yet: sward visit open YARD.");
    }
    let rows = visits.iter().map(|v| row(app, &book, v)).collect();
    page.table(
        &["opened", "yard", "id", "pest", "state", "to settle"],
        rows,
    );
    let json: Vec<Value> = visits
        .iter()
        .map(|v| {
            json!({
                "visit": v.visit,
                "yard": v.yard,
                "yard_name": yard_name(&book, v.yard),
                "target": v.target,
                "opened": v.opened,
                "state": v.state,
                "questions": v.questions,
            })
        })
        .collect();
    Ok(Answer::new(page, json!({ "visits": json })))
}

fn row(app: &App, book: &Book, view: &VisitView) -> Vec<String> {
    let zone = app.zone_of_yard(book, view.yard);
    let opened = view
        .opened
        .map_or_else(|| "not known yet".into(), |at| moment(at.utc_ms, zone));
    let open = view.questions.len();
    vec![
        opened,
        yard_name(book, view.yard),
        names::short(view.visit.0),
        view.target.clone(),
        visit_state(view.state).to_owned(),
        if open == 0 {
            "-".into()
        } else {
            open.to_string()
        },
    ]
}

fn show(app: &App, asked: &str) -> Result<Answer> {
    let book = app.reading()?;
    let visit = names::visit(&book, asked)?;
    let view = book.visit(visit)?;
    let mut page = Page::of(format!(
        "Visit {} to {}: {}{}",
        names::short(visit.0),
        yard_name(&book, view.yard),
        visit_state(view.state),
        if view.target.is_empty() {
            String::new()
        } else {
            format!(", for {}", view.target)
        },
    ));
    let history = history(app, &book, &view, &mut page)?;
    for line in super::settle::questions_of(app, &book, &view)? {
        page.line(format!("To settle: {}", line.text));
    }
    let json = json!({
        "visit": visit,
        "yard": view.yard,
        "target": view.target,
        "state": view.state,
        "opened": view.opened,
        "finish": view.finish(),
        "finishes": view.finishes,
        "late": view.late,
        "questions": view.questions,
        "history": history,
    });
    Ok(Answer::new(page, json))
}

/// Adds every fact of a visit in its order, and gives them for machines.
pub(super) fn history(
    app: &App,
    book: &Book,
    view: &VisitView,
    page: &mut Page,
) -> Result<Vec<Value>> {
    let zone = app.zone_of_yard(book, view.yard);
    let mut rows = Vec::new();
    let mut json = Vec::new();
    for line in &view.history {
        let (_, fact) = book.fact(line.fact)?;
        let mut what = fact_line(&fact, zone);
        if let Some(by) = line.superseded_by {
            what = format!("(superseded by {}) {what}", names::short_fact(by));
        }
        if !line.of_the_crew {
            what = format!("(not of the crew) {what}");
        }
        rows.push(vec![
            moment(line.at.utc_ms, zone),
            who(book, line.by),
            names::short_fact(line.fact),
            what,
        ]);
        json.push(json!({
            "fact": line.fact,
            "by": line.by,
            "person": who(book, line.by),
            "at": line.at,
            "of_the_crew": line.of_the_crew,
            "superseded_by": line.superseded_by,
            "content": fact,
        }));
    }
    page.table(&["when", "who", "fact", "what"], rows);
    Ok(json)
}
