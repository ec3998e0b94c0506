//! The walk round the yard: every row on one screen, moved or seen to, not here, or can't.
//!
//! Nothing is filled in; what is not answered stays not looked at.

use maud::html;
use sward_book::Book;
use sward_book::ids::VisitId;
use sward_rules::label::Method;
use sward_rules::walk_round::{Answered, Question, WalkAnswer, questions};

use super::read::Ready;
use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::server::Form;
use crate::trouble::Wrong;
use crate::{Result, Trouble};

pub(super) const SCREEN: Screen = Screen {
    path: "/visit/{visit}/ready/walk",
    show,
    acts: &[("walk", walk)],
};

/// A question with its field and its message.
fn row(question: Question) -> (&'static str, &'static str) {
    match question {
        Question::Toys => ("toys", "ready-walk-toys"),
        Question::Bowls => ("bowls", "ready-walk-bowls"),
        Question::Laundry => ("laundry", "ready-walk-laundry"),
        Question::Windows => ("windows", "ready-walk-windows"),
        Question::PondOrHive => ("pond", "ready-walk-pond-or-hive"),
        Question::Irrigation => ("irrigation", "ready-walk-irrigation"),
        Question::Gates => ("gates", "ready-walk-gates"),
        Question::Puddles => ("puddles", "ready-walk-puddles"),
        Question::HardSurfaces => ("hard", "ready-walk-hard-surfaces"),
        Question::Drains => ("drains", "ready-walk-drains"),
        Question::PeopleAndPets => ("people", "ready-walk-people-and-pets"),
    }
}

const ANSWERS: [(&str, WalkAnswer, &str); 3] = [
    ("moved", WalkAnswer::Moved, "ready-walk-moved"),
    ("none", WalkAnswer::NotHere, "ready-walk-not-here"),
    ("cant", WalkAnswer::Cant, "ready-walk-cant"),
];

fn show(ask: &Ask<'_>) -> Result<Page> {
    let visit: VisitId = ask.param("visit")?;
    let book = ask.book()?;
    let asked = questions(method_of(book, visit)?);
    let earlier = Ready::read(book, ask.shared, visit, ask.words)
        .map(|ready| ready.answers)
        .unwrap_or_default();
    let form = ask.form("walk");
    let answers: Vec<_> = ANSWERS.iter().map(|(v, _, key)| (*v, ask.t(key))).collect();
    Ok(Page {
        title: ask.t("ready-walk-title"),
        main: html! {
            p { (ask.t("ready-walk-how")) }
            (form.wrap(html! {
                div.three {
                @for question in asked {
                    @let (name, label) = row(*question);
                    (form.choice(name, label, &answers, None))
                    @if let Some(last) = last_of(&earlier, *question) {
                        p.note { (said_before(ask, last)) }
                    }
                }
                }
                (form.submit("ready-walk-keep"))
            }))
        },
        place: Place::Today,
        back: Some(format!("/visit/{visit}/ready")),
    })
}

/// How the plan's product goes on; without a plan, the method that asks everything.
fn method_of(book: &Book, visit: VisitId) -> Result<Method> {
    let label = book.plan(visit)?.and_then(|plan| plan.label);
    let sheet = label.and_then(|label| book.label_sheet(label).ok());
    Ok(sheet.map_or(Method::FoliarSpray, |sheet| sheet.label.method))
}

fn last_of(answers: &[Answered], question: Question) -> Option<Answered> {
    let own = answers.iter().filter(|a| a.question == question);
    own.max_by_key(|a| a.at_utc_ms).copied()
}

fn said_before(ask: &Ask<'_>, last: Answered) -> String {
    let key = ANSWERS
        .iter()
        .find(|(_, answer, _)| *answer == last.answer)
        .map_or("frame-not-known", |(_, _, key)| key);
    let ago = ask.words.ago(last.at_utc_ms, ask.now.utc_ms);
    let args = [("answer", ask.t(key).into()), ("ago", ago.into())];
    ask.words.t_with("ready-walk-before", &args)
}

/// Records the answers of this round.
fn walk(doing: &mut Doing<'_>) -> Result<Next> {
    let visit: VisitId = doing.param("visit")?;
    let now_ms = doing.now_ms();
    let asked = questions(method_of(doing.book()?, visit)?);
    let answers = answers(doing.form, asked, now_ms)?;
    doing.book()?.walk_round(visit, answers)?;
    super::judged_once(doing)
}

fn answers(form: &Form, asked: &[Question], at_utc_ms: i64) -> Result<Vec<Answered>> {
    let mut answers = Vec::new();
    for question in asked {
        let (name, _) = row(*question);
        let typed = form.text(name);
        if typed.is_empty() {
            continue;
        }
        let answer = ANSWERS
            .iter()
            .find(|(value, ..)| *value == typed)
            .map(|(_, answer, _)| *answer)
            .ok_or_else(|| Trouble::field(name, Wrong::NotOffered))?;
        answers.push(Answered {
            question: *question,
            answer,
            at_utc_ms,
        });
    }
    if answers.is_empty() {
        return Err(Wrong::Missing.into());
    }
    Ok(answers)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::sent;

    #[test]
    fn what_is_not_answered_is_not_there() {
        let asked = questions(Method::Granule);
        let form = sent(&[("people", "moved"), ("gates", "cant"), ("laundry", "moved")]);
        let told = answers(&form, asked, 7).unwrap();
        let told: Vec<_> = told.iter().map(|a| (a.question, a.answer)).collect();
        assert_eq!(
            told,
            [
                (Question::PeopleAndPets, WalkAnswer::Moved),
                (Question::Gates, WalkAnswer::Cant),
            ],
            "laundry is not asked for granules"
        );
    }

    #[test]
    fn an_empty_round_and_an_answer_that_is_none_are_refused() {
        let asked = questions(Method::FoliarSpray);
        assert!(answers(&sent(&[]), asked, 7).is_err());
        assert!(
            answers(&sent(&[("toys", "maybe")]), asked, 7)
                .unwrap_err()
                .of_field("toys")
                .is_some()
        );
    }

    #[test]
    fn every_question_has_a_field_of_its_own() {
        let names: std::collections::BTreeSet<_> = questions(Method::FoliarSpray)
            .iter()
            .map(|q| row(*q).0)
            .collect();
        assert_eq!(names.len(), 11);
    }
}
