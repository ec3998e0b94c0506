//! Corrections: what is wrong is superseded by what holds, with a reason. The old stays.

use serde_json::json;
use sward_book::Book;
use sward_book::fact::{Counted, NotTreated, Replacement, WalkedRound, WindMeasured};
use sward_book::ids::VisitId;

use crate::app::App;
use crate::args::{CorrectArgs, CorrectCommand, WrongArgs};
use crate::error::{CliError, Result};
use crate::names;
use crate::print::{Answer, Page};

use super::{count, last_own_fact, reading, treat, walk_round};

/// Runs `sward correct`.
pub(super) fn run(app: &App, args: &CorrectArgs) -> Result<Answer> {
    let mut book = app.writing()?;
    let wrong = match &args.command {
        CorrectCommand::Withdraw { wrong }
        | CorrectCommand::Count { wrong, .. }
        | CorrectCommand::Wind { wrong, .. }
        | CorrectCommand::WalkRound { wrong, .. }
        | CorrectCommand::Load { wrong, .. }
        | CorrectCommand::NotTreated { wrong, .. } => wrong,
        CorrectCommand::Finish { visit, done, why } => {
            let visit = names::visit(&book, visit)?;
            let sections = treat::sections_done(app, &book, visit, done)?;
            book.correct_finish(visit, &sections, &done.note, why)?;
            return treat::finished(app, &book, visit);
        }
    };
    let visit = names::visit(&book, &wrong.visit)?;
    let new = replacement(app, &book, visit, &args.command)?;
    correct(&mut book, visit, wrong, new)
}

fn replacement(
    app: &App,
    book: &Book,
    visit: VisitId,
    command: &CorrectCommand,
) -> Result<Replacement> {
    Ok(match command {
        CorrectCommand::Withdraw { .. } | CorrectCommand::Finish { .. } => Replacement::Nothing,
        CorrectCommand::Count { counted, .. } => Replacement::Counted(Counted {
            visit,
            pest: counted.pest.clone(),
            samples: count::samples(counted)?,
            note: counted.note.clone(),
        }),
        CorrectCommand::Wind { wind, .. } => {
            let zone = app.zone_of_visit(book, visit)?;
            let readings = reading::meter_readings(wind, zone, app.now_utc_ms())?;
            if readings.is_empty() {
                return Err(CliError::Usage(
                    "give the right readings: --wind or --wind-file".into(),
                ));
            }
            Replacement::WindMeasured(WindMeasured { visit, readings })
        }
        CorrectCommand::WalkRound { answers, .. } => {
            let answers = walk_round::given(app, book, visit, answers)?;
            if answers.is_empty() {
                return Err(CliError::Usage(
                    "give the right answers: --moved, --not-here or --cant".into(),
                ));
            }
            Replacement::WalkedRound(WalkedRound { visit, answers })
        }
        CorrectCommand::Load { loaded, .. } => {
            Replacement::Loaded(treat::loaded(app, book, visit, loaded)?)
        }
        CorrectCommand::NotTreated {
            why_not,
            note,
            look_again,
            ..
        } => Replacement::NotTreated(NotTreated {
            visit,
            why: (*why_not).into(),
            note: note.clone(),
            look_again: look_again.as_deref().map(day).transpose()?,
        }),
    })
}

fn day(text: &str) -> Result<String> {
    text.parse::<chrono::NaiveDate>()
        .map(|day| day.to_string())
        .map_err(|_| CliError::Refused(format!("{text} is no day: write it like 2026-06-30")))
}

fn correct(book: &mut Book, visit: VisitId, wrong: &WrongArgs, new: Replacement) -> Result<Answer> {
    let facts = names::facts(book, visit, &wrong.facts)?;
    book.correct(visit, facts.clone(), new, &wrong.why)?;
    let mut page = Page::of("Corrected. What was recorded first stays in the history.");
    if book.visit(visit)?.finish().is_some() {
        page.line(
            "The finished record does not hold this yet: sward correct finish, to freeze it anew.",
        );
    }
    let json = json!({
        "visit": visit,
        "fact": last_own_fact(book, visit)?,
        "supersedes": facts,
    });
    Ok(Answer::new(page, json))
}
