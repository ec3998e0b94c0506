//! The end of a visit that treats nothing: a full result, with its reason and the day to look again.

use maud::html;
use sward_book::BookError;
use sward_book::fact::NotTreatedWhy;
use sward_book::ids::VisitId;
use sward_book::view::visit::VisitState;

use crate::ask::{Ask, Doing, Next, Page, Place};
use crate::screen::visit::Here;
use crate::trouble::Wrong;
use crate::{Result, Trouble, part};

/// The reasons with their names in the form and their words.
const REASONS: [(&str, NotTreatedWhy, &str); 6] = [
    ("below", NotTreatedWhy::BelowThreshold, "look-reason-below"),
    ("like", NotTreatedWhy::LookAlike, "look-reason-look-alike"),
    ("weather", NotTreatedWhy::Weather, "look-reason-weather"),
    ("yard", NotTreatedWhy::YardNotReady, "look-reason-yard"),
    (
        "not-wanted",
        NotTreatedWhy::NotWanted,
        "look-reason-not-wanted",
    ),
    ("other", NotTreatedWhy::Other, "look-reason-other"),
];

pub(super) fn show(ask: &Ask<'_>) -> Result<Page> {
    let here = Here::read(ask.book()?, ask.param("visit")?, ask.words)?;
    let back = format!("/visit/{}", here.visit.visit);
    let form = ask.form("not-treated");
    let reasons: Vec<(&str, String)> = REASONS
        .iter()
        .map(|(name, _, key)| (*name, ask.t(key)))
        .collect();
    let has_started = matches!(
        here.visit.state,
        VisitState::Treating | VisitState::Finished
    );
    Ok(Page {
        title: ask.t("look-end-title"),
        main: html! {
            @if has_started {
                p.note { (ask.t("look-end-started")) }
                (part::next_step(&back, &ask.t("look-end-back")))
            } @else {
                p { (ask.t("look-end-full-result")) }
                (form.wrap(html! {
                    (form.choice("why", "look-end-why", &reasons, None))
                    (form.lines("note", "look-end-note", "look-end-note-help", None))
                    (form.day("again", "look-end-again", "look-end-again-help", None))
                    (form.submit("look-end-save"))
                }))
            }
        },
        place: Place::Today,
        back: Some(back),
    })
}

pub(super) fn not_treated(doing: &mut Doing<'_>) -> Result<Next> {
    let visit: VisitId = doing.param("visit")?;
    let typed = doing.needed("why")?;
    let why = REASONS
        .iter()
        .find(|(name, ..)| *name == typed)
        .map(|(_, why, _)| *why)
        .ok_or_else(|| Trouble::field("why", Wrong::NotOffered))?;
    let again = doing.form.day("again")?.map(|day| day.to_string());
    let note = doing.text("note").to_owned();
    if why == NotTreatedWhy::Other && note.is_empty() {
        return Err(Trouble::field("note", Wrong::Missing));
    }
    doing
        .book()?
        .not_treated(visit, why, &note, again.as_deref())
        .map_err(|error: BookError| Trouble::from(error))?;
    Ok(Next::Go(format!("/visit/{visit}")))
}
