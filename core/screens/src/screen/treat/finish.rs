//! The finish: when each section was last applied, how much went on, what was cleaned up.
//!
//! The keep-offs count from these times, so none is taken for granted: "just now" is chosen.

use maud::{Markup, html};
use sward_book::BookError;
use sward_book::fact::Loaded;
use sward_book::ids::{KeepOffId, VisitId};
use sward_book::refusal::{Typed, VisitRefusal};
use sward_book::view::keep_off::KeepOffView;

use super::aftercare;
use super::load::{amounts, time_before};
use super::read::Treating;
use crate::ask::{Ask, Doing, Next};
use crate::screen::visit::Here;
use crate::server::Form;
use crate::trouble::Wrong;
use crate::words::Words;
use crate::{Result, Trouble};

/// What the book takes of a note, in bytes.
const NOTE_BYTES_MOST: usize = 2000;

/// The field of a section's time.
fn field_of(keep_off: KeepOffId) -> String {
    format!("at.{keep_off}")
}

pub(super) fn form(ask: &Ask<'_>, treating: &Treating) -> Markup {
    let form = ask.form("finish");
    let several = treating.keep_offs.len() > 1;
    let mut when = vec![(
        "now",
        ask.t(if several {
            "treat-all-just-now"
        } else {
            "treat-just-now"
        }),
    )];
    if last_loads(treating).is_some() {
        when.push(("loads", ask.t("treat-at-last-load")));
    }
    when.push((
        "at",
        ask.t(if several {
            "treat-each-at-time"
        } else {
            "treat-at-time"
        }),
    ));
    html! {
        section.card {
            h2 { (ask.t("treat-finish-title")) }
            (form.wrap(html! {
                @if treating.loads.is_empty() {
                    (amounts(ask, treating, &form))
                    (form.tick("unmeasured", &ask.t("treat-amount-not-known"), false))
                }
                (form.choice("when", "treat-finish-when", &when, None))
                details open[ask.again.is_some()] {
                    summary { (ask.t("treat-times")) }
                    @for keep_off in &treating.keep_offs { (time(ask, &form, keep_off, several)) }
                }
                (aftercare::ticks(ask, &form))
                (form.lines("note", "treat-note", "treat-note-help", None))
                (form.submit("treat-finish"))
            }))
        }
    }
}

fn time(
    ask: &Ask<'_>,
    form: &crate::part::form::FormPart<'_>,
    keep_off: &KeepOffView,
    several: bool,
) -> Markup {
    html! {
        @if several { h3 { (keep_off.name) } }
        (form.time(&field_of(keep_off.keep_off), "treat-time", "treat-time-help", None))
        @if let Some(ago) = ask.now.proven.then(|| ask.words.ago(keep_off.started_utc_ms, ask.now.utc_ms)) {
            p.note { (ask.words.t_with("treat-started-ago", &[("ago", ago.into())])) }
        }
    }
}

/// The last load's time of every section; none where one has no load.
fn last_loads(treating: &Treating) -> Option<Vec<(KeepOffId, i64)>> {
    let last = |k: &KeepOffView| {
        let times = treating
            .loads_on(k.keep_off)
            .into_iter()
            .map(|l: &Loaded| l.applied_utc_ms);
        Some((k.keep_off, times.max()?))
    };
    treating.keep_offs.iter().map(last).collect()
}

/// Records the amount where no load has told it, the finish, and what was cleaned up.
pub(super) fn finish(doing: &mut Doing<'_>) -> Result<Next> {
    let visit: VisitId = doing.param("visit")?;
    let (now_ms, words, form) = (doing.now_ms(), doing.words, doing.form);
    let book = doing.book()?;
    let treating = Treating::read(book, Here::read(book, visit, words)?)?;
    // Before a start the book refuses in its own words.
    let Some(treating) = treating else {
        book.finish(visit, &[], form.text("note"))?;
        return Ok(Next::Go(format!("/visit/{visit}/treat")));
    };
    let mut wrong = Vec::new();
    let done = kept(&mut wrong, done(form, &treating, now_ms));
    let product = kept(&mut wrong, product(form, &treating));
    let water = kept(&mut wrong, form.amount("water"));
    let care = kept(&mut wrong, aftercare::ticked(form));
    let (Some(done), Some(product), Some(water), Some(care)) = (done, product, water, care) else {
        return Err(Trouble::Fields(wrong));
    };
    // A refused finish must leave no load behind: the person would enter it twice.
    must_take(form.text("note"))?;
    if !treating.here.visit.finishes.is_empty() {
        book.finish(visit, &done, form.text("note"))?;
    }
    let last = done.iter().map(|(_, at)| *at).max().unwrap_or(now_ms);
    if let Some(product) = product {
        book.load(visit, Vec::new(), product, water, last)
            .map_err(|e| Trouble::in_field("product", e))?;
    }
    book.finish(visit, &done, form.text("note"))?;
    if !care.is_empty() {
        book.record_aftercare(visit, care, "")?;
    }
    Ok(Next::Go(format!("/visit/{visit}/keep-off")))
}

/// What the book would refuse of a note, said beside it.
fn must_take(note: &str) -> Result<()> {
    let is_unfit = |c: char| c.is_control() && c != '\n';
    if note.len() > NOTE_BYTES_MOST || note.chars().any(is_unfit) {
        let unfit = BookError::refused(VisitRefusal::TextUnfit {
            what: Typed::Note,
            bytes_most: NOTE_BYTES_MOST,
        });
        return Err(Trouble::in_field("note", unfit));
    }
    Ok(())
}

fn kept<T>(wrong: &mut Vec<Trouble>, read: Result<T>) -> Option<T> {
    read.map_err(|error| wrong.push(error)).ok()
}

/// The amount in all, where no load was recorded; none where a person says it is not known.
fn product(form: &Form, treating: &Treating) -> Result<Option<sward_rules::Entered>> {
    if !treating.loads.is_empty() {
        return Ok(None);
    }
    match form.amount("product")? {
        None if !form.is_ticked("unmeasured") => Err(Trouble::field("product", Wrong::Missing)),
        product => Ok(product),
    }
}

/// When each section was last applied, as the person says.
fn done(form: &Form, treating: &Treating, now_ms: i64) -> Result<Vec<(KeepOffId, i64)>> {
    let ids = treating.keep_offs.iter().map(|k| k.keep_off);
    match form.text("when") {
        "now" => Ok(ids.map(|id| (id, now_ms)).collect()),
        "loads" => {
            last_loads(treating).ok_or_else(|| Trouble::field("when", Wrong::ChangedMeanwhile))
        }
        "at" => each_at(form, ids, now_ms, treating.here.words),
        _ => Err(Trouble::field("when", Wrong::Missing)),
    }
}

fn each_at(
    form: &Form,
    ids: impl Iterator<Item = KeepOffId>,
    now_ms: i64,
    words: Words,
) -> Result<Vec<(KeepOffId, i64)>> {
    let mut wrong = Vec::new();
    let done: Vec<_> = ids
        .filter_map(|id| {
            let at = kept(&mut wrong, time_before(form, &field_of(id), now_ms, words))?;
            Some((id, at))
        })
        .collect();
    if wrong.is_empty() {
        Ok(done)
    } else {
        Err(Trouble::Fields(wrong))
    }
}
