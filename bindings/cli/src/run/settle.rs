//! Settling: every question that two phones' records leave open, and a person's answers.

use serde_json::{Value, json};
use sward_book::Book;
use sward_book::sheet::{Conflict, must_be_settled};
use sward_book::view::visit::{Question, VisitView};

use crate::app::App;
use crate::args::{SettleArgs, SettleCommand};
use crate::error::Result;
use crate::names;
use crate::print::{Answer, Page};
use crate::times::moment;
use crate::words::fact_line;

use super::label::conflict_line;
use super::{last_own_fact, who, yard_name};

/// A question in words, and for machines.
pub(super) struct Open {
    pub(super) text: String,
    json: Value,
}

/// Runs `sward settle`.
pub(super) fn run(app: &App, args: &SettleArgs) -> Result<Answer> {
    match &args.command {
        SettleCommand::List => list(app),
        SettleCommand::Finish { visit, fact, why } => {
            let mut book = app.writing()?;
            let visit = names::visit(&book, visit)?;
            let chosen = names::facts(&book, visit, std::slice::from_ref(fact))?[0];
            book.choose_finish(visit, chosen, why)?;
            let page = Page::of("This finish holds; the others stay, marked.");
            let fact = last_own_fact(&book, visit)?;
            Ok(Answer::new(
                page,
                json!({ "visit": visit, "chosen": chosen, "fact": fact }),
            ))
        }
        SettleCommand::Late {
            visit,
            fact,
            put_on,
            why,
        } => {
            let mut book = app.writing()?;
            let visit = names::visit(&book, visit)?;
            let addition = names::facts(&book, visit, std::slice::from_ref(fact))?[0];
            let counts = put_on == "yes";
            book.settle_late(visit, addition, counts, why)?;
            let page = Page::of(if counts {
                "Settled: it was put on, beside what the finish holds."
            } else {
                "Settled: it was not put on."
            });
            let fact = last_own_fact(&book, visit)?;
            Ok(Answer::new(
                page,
                json!({ "visit": visit, "addition": addition, "fact": fact }),
            ))
        }
        SettleCommand::OneJob { visit, other, same } => {
            let mut book = app.writing()?;
            let (a, b) = (names::visit(&book, visit)?, names::visit(&book, other)?);
            let same = same == "yes";
            book.settle_one_job(a, b, same)?;
            let page = Page::of(if same {
                "Settled: one job."
            } else {
                "Settled: two jobs."
            });
            Ok(Answer::new(page, json!({ "visits": [a, b], "same": same })))
        }
        SettleCommand::Yard { yard, field, value } => {
            let mut book = app.writing()?;
            let yard = names::yard(&book, yard)?;
            book.set_yard(yard, &field.replace(['-', ' '], "_"), value)?;
            let page = Page::of(format!("Settled: {field} is {value}."));
            Ok(Answer::new(
                page,
                json!({ "yard": yard, "field": field, "value": value }),
            ))
        }
        SettleCommand::Label {
            label,
            field,
            value,
        } => {
            let mut book = app.writing()?;
            let label = names::label(&book, label)?;
            book.set_label(label, &field.replace(['-', ' '], "_"), value)?;
            let mut page = Page::of(format!("Settled: {field} is {value}."));
            page.line(
                "Read the numbers back before the label sheet is used: sward label read-back.",
            );
            Ok(Answer::new(
                page,
                json!({ "label": label, "field": field, "value": value }),
            ))
        }
    }
}

fn list(app: &App) -> Result<Answer> {
    let book = app.reading()?;
    let open = everything_open(app, &book)?;
    let mut page = Page::default();
    if open.is_empty() {
        page.line("Nothing is to be settled.");
    }
    for question in &open {
        page.line(format!("- {}", question.text));
    }
    let json: Vec<Value> = open.into_iter().map(|q| q.json).collect();
    Ok(Answer::new(page, json!({ "questions": json })))
}

/// Every open question of the book.
pub(super) fn everything_open(app: &App, book: &Book) -> Result<Vec<Open>> {
    let mut open = Vec::new();
    for view in book.visits()? {
        open.extend(questions_of(app, book, &view)?);
    }
    for twice in book.entered_twice()? {
        let (a, b) = (names::short(twice.earlier.0), names::short(twice.later.0));
        open.push(Open {
            text: format!(
                "{}: visits {a} and {b} may be one job: sward settle one-job {a} {b} --same yes|no",
                yard_name(book, Some(twice.yard)),
            ),
            json: json!({
                "question": "one_job",
                "yard": twice.yard,
                "visits": [twice.earlier, twice.later],
            }),
        });
    }
    for label in book.labels()? {
        for conflict in label.conflicts {
            let text = format!("{}: {}", label.product, conflict_line(&conflict));
            let json = conflict_json(json!({ "label": label.sheet }), &conflict);
            open.push(Open { text, json });
        }
    }
    for yard in book.yards()? {
        for conflict in yard.conflicts {
            let text = format!(
                "{}: {}: two phones say {}; one is shown (sward settle yard)",
                yard.name,
                conflict.field,
                conflict.values.join(" and ")
            );
            open.push(Open {
                text,
                json: conflict_json(json!({ "yard": yard.yard }), &conflict),
            });
        }
        for section in book.yard_sheet(yard.yard)?.sections {
            if !section.other_outlines.is_empty() {
                open.push(Open {
                    text: format!(
                        "{}, {}: drawn differently on two phones: sward section measure, to draw it anew",
                        yard.name, section.name
                    ),
                    json: json!({
                        "question": "outlines",
                        "yard": yard.yard,
                        "section": section.id,
                        "others": section.other_outlines.len(),
                    }),
                });
            }
        }
    }
    Ok(open)
}

fn conflict_json(mut of: Value, conflict: &Conflict) -> Value {
    of["question"] = json!("field");
    of["field"] = json!(conflict.field);
    of["values"] = json!(conflict.values);
    of["acted_on"] = json!(conflict.acted_on);
    of["must_be_settled"] = json!(must_be_settled(conflict));
    of
}

/// The open questions of one visit.
pub(super) fn questions_of(app: &App, book: &Book, view: &VisitView) -> Result<Vec<Open>> {
    let zone = app.zone_of_yard(book, view.yard);
    let visit = names::short(view.visit.0);
    let yard = yard_name(book, view.yard);
    view.questions
        .iter()
        .map(|question| {
            let text = match question {
                Question::WhichFinish { finishes } => {
                    let mut each = Vec::new();
                    for fact in finishes {
                        let (entry, _) = book.fact(*fact)?;
                        let body = entry.body();
                        each.push(format!(
                            "{} by {} at {}",
                            names::short_fact(*fact),
                            who(book, body.stream),
                            moment(body.written.utc_ms, zone)
                        ));
                    }
                    format!(
                        "which finish holds, {}? sward settle finish {visit} FACT --why REASON",
                        each.join(" or ")
                    )
                }
                Question::LateLoad { addition } => {
                    let (entry, fact) = book.fact(*addition)?;
                    format!(
                        "{} by {}, recorded without knowing of the finish: was it put on? sward settle late {visit} {} --put-on yes|no --why REASON",
                        fact_line(&fact, zone),
                        who(book, entry.body().stream),
                        names::short_fact(*addition)
                    )
                }
                Question::NotOfTheCrew { device } => format!(
                    "{} wrote here and is not, or no longer, of the crew: a crew lead admits the device, or lifts what it started",
                    who(book, *device)
                ),
                Question::TreatedOrNot { not_treated } => format!(
                    "one phone treated, another recorded that nothing was treated ({}): take that back with sward correct withdraw, or correct the finish",
                    names::short_fact(*not_treated)
                ),
            };
            let mut json = json!(question);
            json["visit"] = json!(view.visit);
            Ok(Open { text: format!("{yard}, visit {visit}: {text}"), json })
        })
        .collect()
}
