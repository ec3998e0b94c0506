//! Records: list, show with the history, export.

use serde_json::{Value, json};
use sward_book::Book;
use sward_book::export::{
    Outcome, Record, RecordFilter, TreatmentNote, incidents, incidents_to_csv, records, to_csv,
    to_json, unfinished,
};

use crate::app::App;
use crate::args::{ExportForm, RecordsArgs, RecordsCommand, RecordsExportArgs, RecordsFilterArgs};
use crate::error::{CliError, Result};
use crate::names;
use crate::print::{Answer, Page, write_out};
use crate::words::{findings_table, key_of, verdict, why_not};

use super::yard::counted;
use super::yard_name;

/// Runs `sward records`.
pub(super) fn run(app: &App, args: &RecordsArgs) -> Result<Answer> {
    match &args.command {
        RecordsCommand::List(filter) => list(app, filter),
        RecordsCommand::Show { visit } => show(app, visit),
        RecordsCommand::Export(args) => export(app, args),
    }
}

fn filter_of(book: &Book, args: &RecordsFilterArgs) -> Result<RecordFilter> {
    Ok(RecordFilter {
        yard: args
            .yard
            .as_deref()
            .map(|yard| names::yard(book, yard))
            .transpose()?,
        product: args.product.clone(),
        person: args.person.clone(),
        from: args.from,
        to: args.to,
    })
}

fn list(app: &App, args: &RecordsFilterArgs) -> Result<Answer> {
    let book = app.reading()?;
    let filter = filter_of(&book, args)?;
    let found = records(&book, &filter)?;
    let mut page = Page::default();
    if found.is_empty() {
        page.line("No record yet: a record is made by sward finish or sward not-treated.");
    }
    page.table(
        &["date", "yard", "visit", "result", "mind"],
        found.iter().map(row).collect(),
    );
    let open = unfinished(&book, filter.yard)?;
    for visit in &open {
        page.line(format!(
            "{}, visit {}: treating is not finished, so there is no record yet.",
            yard_name(&book, book.visit(*visit)?.yard),
            names::short(visit.0)
        ));
    }
    Ok(Answer::new(
        page,
        json!({ "records": found, "unfinished": open }),
    ))
}

fn row(record: &Record) -> Vec<String> {
    let marks: Vec<String> = record.marks.iter().map(ToString::to_string).collect();
    vec![
        record
            .date
            .map_or_else(|| "not known".into(), |day| day.to_string()),
        record.yard_name.clone(),
        names::short(record.visit.0),
        result_words(record),
        if marks.is_empty() {
            "-".into()
        } else {
            marks.join("; ")
        },
    ]
}

fn result_words(record: &Record) -> String {
    match (&record.outcome, &record.treatment, &record.not_treated) {
        (Outcome::Treated, Some(t), _) => {
            let total = t.product_total.as_ref().map(|a| format!(", {}", a.entered));
            format!("{}{}", t.product, total.unwrap_or_default())
        }
        (Outcome::NotTreated, _, Some(not)) => format!("not treated: {}", why_not(not.why)),
        (outcome, _, _) => key_of(outcome).replace('_', " "),
    }
}

fn show(app: &App, asked: &str) -> Result<Answer> {
    let book = app.reading()?;
    let visit = names::visit(&book, asked)?;
    let view = book.visit(visit)?;
    let filter = RecordFilter {
        yard: view.yard,
        ..RecordFilter::default()
    };
    let found: Vec<Record> = records(&book, &filter)?
        .into_iter()
        .filter(|r| r.visit == visit)
        .collect();
    let mut page = Page::default();
    if found.is_empty() {
        page.line("This visit has no record yet: sward finish or sward not-treated makes one.");
    }
    for record in &found {
        one(&mut page, record);
        page.blank();
    }
    page.line("History");
    let history = super::visit::history(app, &book, &view, &mut page)?;
    Ok(Answer::new(
        page,
        json!({ "visit": visit, "records": found, "history": history }),
    ))
}

fn one(page: &mut Page, record: &Record) {
    page.line(format!("{}: {}", record.yard_name, result_words(record)));
    for mark in &record.marks {
        page.item(format!("mind: {mark}"));
    }
    let mut lines: Vec<(&str, String)> = vec![
        ("crew", record.crew.clone()),
        ("address", record.address.clone()),
        ("pest", record.target.clone()),
    ];
    if let Some(started) = &record.started {
        lines.push(("started", started.local.clone()));
    }
    lines.push(("recorded", record.finished.local.clone()));
    if let Some(person) = &record.applicator {
        lines.push(("applicator", with_licence(&person.name, &person.licence)));
    }
    lines.push(("recorded by", record.recorded_by.name.clone()));
    for count in &record.counts {
        let density = count
            .density
            .as_ref()
            .map(|d| format!(", {d}"))
            .unwrap_or_default();
        lines.push((
            "counted",
            format!(
                "{}: {} in {} samples{density}",
                count.pest, count.found, count.samples
            ),
        ));
    }
    if let Some(mean) = &record.wind.mean {
        let gust = record
            .wind
            .gust
            .as_ref()
            .map(|g| format!(", gust {g}"))
            .unwrap_or_default();
        lines.push(("wind", format!("mean {mean}{gust}")));
    }
    if let Some(t) = &record.treatment {
        treatment_lines(&mut lines, t);
    }
    if let Some(day) = record
        .not_treated
        .as_ref()
        .and_then(|n| n.look_again.as_ref())
    {
        lines.push(("look again", day.clone()));
    }
    lines.push(("note", record.note.clone()));
    for late in &record.late {
        lines.push((
            "late addition",
            format!("{} by {}", late.load.product.entered, late.by.name),
        ));
    }
    for amendment in &record.amendments {
        lines.push((
            "amended",
            format!(
                "{} by {}: {} -> {} ({})",
                amendment.at.local,
                amendment.by.name,
                amendment.old.join("; "),
                amendment.new,
                amendment.why
            ),
        ));
    }
    for (what, text) in lines.iter().filter(|(_, text)| !text.is_empty()) {
        page.item(format!("{what}: {text}"));
    }
    page.item(format!(
        "checks before the start: {}",
        verdict(record.verdict)
    ));
    findings_table(page, &record.findings);
}

fn with_licence(name: &str, licence: &str) -> String {
    if licence.is_empty() {
        name.to_owned()
    } else {
        format!("{name}, licence {licence}")
    }
}

fn treatment_lines(lines: &mut Vec<(&'static str, String)>, t: &TreatmentNote) {
    lines.push(("registration", t.registration.clone()));
    lines.push(("rate", t.rate.entered.clone()));
    if let Some(total) = &t.product_total {
        lines.push(("product in all", total.entered.clone()));
    }
    if let Some(total) = &t.water_total {
        lines.push(("water in all", total.entered.clone()));
    }
    for load in &t.loads {
        lines.push((
            "load",
            format!("{} at {}", load.product.entered, load.applied.local),
        ));
    }
    for section in &t.sections {
        lines.push((
            "section",
            format!(
                "{}, {}, last treated {}",
                section.name, section.area, section.last_applied.local
            ),
        ));
    }
    if !t.acknowledged.is_empty() {
        let names: Vec<String> = t.acknowledged.iter().map(key_of).collect();
        lines.push(("acknowledged as not known", names.join(", ")));
    }
    if let Some(why) = &t.against {
        lines.push(("against \"don't treat\"", why.clone()));
    }
}

fn export(app: &App, args: &RecordsExportArgs) -> Result<Answer> {
    let to_stdout = args.file.as_os_str() == "-";
    let form = args
        .form
        .or_else(|| form_by_name(args))
        .ok_or_else(|| CliError::Usage("say in which form: --as csv or --as json".to_owned()))?;
    let book = app.reading()?;
    let filter = filter_of(&book, &args.filter)?;
    let found = match form {
        ExportForm::IncidentsCsv => Vec::new(),
        ExportForm::Csv | ExportForm::Json => records(&book, &filter)?,
    };
    let happened = match form {
        ExportForm::Csv => Vec::new(),
        ExportForm::Json | ExportForm::IncidentsCsv => incidents(&book, &filter)?,
    };
    let text = match form {
        ExportForm::Csv => to_csv(&found),
        ExportForm::Json => to_json(&found, &happened),
        ExportForm::IncidentsCsv => incidents_to_csv(&happened),
    };
    let open = unfinished(&book, filter.yard)?;
    if to_stdout {
        write_out(text.as_bytes())?;
        return Ok(Answer::silent());
    }
    super::write_new_file(&args.file, text.as_bytes())?;
    let written = match form {
        ExportForm::Csv => counted(found.len(), "record"),
        ExportForm::Json => format!(
            "{} and {}",
            counted(found.len(), "record"),
            counted(happened.len(), "incident")
        ),
        ExportForm::IncidentsCsv => counted(happened.len(), "incident"),
    };
    let mut page = Page::of(format!("{written} written to {}.", args.file.display()));
    if !open.is_empty() {
        page.line(format!(
            "{} without a finish: not in the export.",
            counted(open.len(), "started visit")
        ));
    }
    let json: Value = json!({
        "file": args.file,
        "records": found.len(),
        "incidents": happened.len(),
        "bytes": text.len(),
        "unfinished": open,
    });
    Ok(Answer::new(page, json))
}

fn form_by_name(args: &RecordsExportArgs) -> Option<ExportForm> {
    let ending = args.file.extension()?.to_str()?.to_lowercase();
    match ending.as_str() {
        "csv" => Some(ExportForm::Csv),
        "json" => Some(ExportForm::Json),
        _ => None,
    }
}
