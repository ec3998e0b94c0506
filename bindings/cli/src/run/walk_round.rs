//! The walk round the yard: each question answered by flags, or asked one by one.

use serde_json::json;
use sward_book::Book;
use sward_book::ids::VisitId;
use sward_rules::label::Method;
use sward_rules::walk_round::{Answered, Question, WalkAnswer, questions};

use crate::app::App;
use crate::args::{AnswersArgs, WalkRoundArgs};
use crate::error::{CliError, Result};
use crate::names;
use crate::print::{Answer, Page, say};
use crate::prompt;
use crate::times::when;

/// Runs `sward walk-round`.
pub(super) fn run(app: &App, args: &WalkRoundArgs) -> Result<Answer> {
    let mut book = app.writing()?;
    let visit = names::visit(&book, &args.visit)?;
    let asked = questions(method_of(&book, visit));
    let mut answers = given(app, &book, visit, &args.answers)?;
    if answers.is_empty() {
        answers = ask_all(app, asked)?;
    }
    let open: Vec<&str> = asked
        .iter()
        .filter(|q| !answers.iter().any(|a| a.question == **q))
        .map(|q| q.name())
        .collect();
    let count = answers.len();
    let rows = answers
        .iter()
        .map(|a| vec![a.question.name().to_owned(), said(a.answer).to_owned()])
        .collect();
    book.walk_round(visit, answers)?;
    let mut page = Page::default();
    page.table(&["looked at", "answer"], rows);
    if !open.is_empty() {
        page.line(format!("Not looked at in this round: {}.", open.join(", ")));
    }
    let fact = super::last_own_fact(&book, visit)?;
    let json = json!({ "visit": visit, "fact": fact, "answered": count, "not_looked_at": open });
    Ok(Answer::new(page, json))
}

/// How the product of the plan goes on; without a plan, the method that asks everything.
fn method_of(book: &Book, visit: VisitId) -> Method {
    super::plan::planned(book, visit).map_or(Method::FoliarSpray, |p| p.label.label.method)
}

/// The answers given by flags.
pub(super) fn given(
    app: &App,
    book: &Book,
    visit: VisitId,
    args: &AnswersArgs,
) -> Result<Vec<Answered>> {
    let now = app.now_utc_ms();
    let at_utc_ms = match &args.looked_at {
        Some(at) => when(at, app.zone_of_visit(book, visit)?, now)?,
        None => now,
    };
    let mut answers: Vec<Answered> = Vec::new();
    let kinds = [
        (&args.moved, WalkAnswer::Moved),
        (&args.not_here, WalkAnswer::NotHere),
        (&args.cant, WalkAnswer::Cant),
    ];
    for (questions, answer) in kinds {
        for question in questions {
            if answers
                .iter()
                .any(|a| a.question == *question && a.answer != answer)
            {
                return Err(CliError::Usage(format!(
                    "{}: two different answers are given; give one",
                    question.name()
                )));
            }
            answers.push(Answered {
                question: *question,
                answer,
                at_utc_ms,
            });
        }
    }
    Ok(answers)
}

fn ask_all(app: &App, asked: &[Question]) -> Result<Vec<Answered>> {
    let flags = "--moved, --not-here and --cant, each with what it is about";
    let mut answers = Vec::new();
    for question in asked {
        let text = format!(
            "{}: m(oved or seen to), n(ot here), c(an't), or empty to leave open:",
            question.name()
        );
        loop {
            let answer = match prompt::ask(&text, flags)?.to_lowercase().as_str() {
                "" => break,
                "m" | "moved" => WalkAnswer::Moved,
                "n" | "not here" => WalkAnswer::NotHere,
                "c" | "can't" | "cant" => WalkAnswer::Cant,
                _ => {
                    say("answer m, n or c");
                    continue;
                }
            };
            let at_utc_ms = app.now_utc_ms();
            answers.push(Answered {
                question: *question,
                answer,
                at_utc_ms,
            });
            break;
        }
    }
    Ok(answers)
}

fn said(answer: WalkAnswer) -> &'static str {
    match answer {
        WalkAnswer::Moved => "seen to",
        WalkAnswer::NotHere => "none here",
        WalkAnswer::Cant => "cannot be seen to",
    }
}
