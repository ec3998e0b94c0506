//! Correcting the finish: when each section was last treated, the note. It is frozen anew from all
//! that stands now; the old one stays in the history.

use maud::{Markup, html};
use sward_book::Book;
use sward_book::ids::KeepOffId;

use super::content::{Content, frozen};
use super::correct::{moment, told_of};
use super::told::Told;
use crate::ask::{Ask, Doing, Next};
use crate::words::Clock;
use crate::{Result, Trouble};

/// The finish whose times and note stand there: the one that holds, else the last.
fn last(book: &Book, told: &Told) -> Option<Content> {
    let visit = told.visit();
    let fact = visit
        .finish()
        .or_else(|| visit.finishes.last().map(|f| f.fact))?;
    frozen(book, told, fact).ok()
}

/// When a section was last treated if nobody types another time: as the finish has it, or as a load
/// says that was corrected since. The later of the two, because the keep-off runs from it.
fn unchanged_ms(told: &Told, content: Option<&Content>, keep_off: KeepOffId) -> Option<i64> {
    let as_finished = content
        .and_then(|c| c.sections.iter().find(|s| s.keep_off == keep_off))
        .and_then(|s| s.last_ms);
    as_finished.max(told.last_load_ms(keep_off))
}

fn fields(number: usize) -> (String, String) {
    (format!("day{number}"), format!("time{number}"))
}

/// The form; nothing before there is a finish.
pub(super) fn form(ask: &Ask<'_>, told: &Told) -> Result<Markup> {
    if told.visit().finishes.is_empty() {
        return Ok(html! {});
    }
    let content = last(ask.book()?, told);
    let words = told.words();
    let form = ask.form("finish");
    let note = content.as_ref().map_or("", |c| c.note.as_str());
    Ok(html! {
        section.card {
            h2 { (ask.t("records-correct-finish")) }
            p { (ask.t("records-correct-finish-help")) }
            @if told.visit().finishes.len() > 1 { p.wrong { (ask.t("records-correct-finish-all")) } }
            (form.wrap(html! {
                p.note { (ask.t("records-empty-stays")) }
                @for (number, keep_off) in told.keep_offs.iter().enumerate() {
                    @let (day, time) = fields(number);
                    @let old = unchanged_ms(told, content.as_ref(), keep_off.keep_off);
                    @let old = old.map_or_else(|| ask.t("frame-not-known"), |ms| words.moment(ms, Clock::DayAndTime));
                    fieldset.field {
                        legend { (keep_off.name) }
                        p.note { (ask.words.t_with("records-last-applied", &[("at", old.into())])) }
                        (form.day(&day, "records-load-day", "records-empty-day", None))
                        (form.time(&time, "records-load-time", "", None))
                    }
                }
                (form.lines("note", "records-note", "records-finish-note-help", Some(note)))
                (form.lines("why", "records-why", "records-why-help", None))
                (form.quiet_submit("records-correct-finish"))
            }))
        }
    })
}

pub(super) fn correct(doing: &mut Doing<'_>) -> Result<Next> {
    let told = told_of(doing)?;
    let content = last(doing.book()?, &told);
    let now_ms = doing.now_ms();
    let mut done = Vec::new();
    let mut wrong = Vec::new();
    for (number, keep_off) in told.keep_offs.iter().enumerate() {
        let (day, time) = fields(number);
        let old = unchanged_ms(&told, content.as_ref(), keep_off.keep_off);
        match moment(doing, told.words(), (&day, &time), old.unwrap_or(now_ms)) {
            Ok(typed) => done.extend(typed.or(old).map(|at| (keep_off.keep_off, at))),
            Err(trouble) => wrong.push(trouble),
        }
    }
    let why = match doing.needed("why") {
        Ok(why) => why.to_owned(),
        Err(trouble) => {
            wrong.push(trouble);
            String::new()
        }
    };
    if !wrong.is_empty() {
        return Err(Trouble::Fields(wrong));
    }
    let visit = told.visit().visit;
    let note = doing.text("note").to_owned();
    doing.book()?.correct_finish(visit, &done, &note, &why)?;
    Ok(Next::Go(format!("/records/{visit}")))
}
