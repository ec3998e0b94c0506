//! The step "measure" of a visit: the yard's sections with their areas.

use maud::html;
use sward_book::ids::VisitId;
use sward_book::sheet::Section;
use sward_rules::measure::Outline;

use crate::ask::{Ask, Page, Place};
use crate::part::amounts;
use crate::sketch::{Sketch, area_sum_words};
use crate::{Result, Trouble, part};

pub(super) fn show(ask: &Ask<'_>) -> Result<Page> {
    let visit: VisitId = ask.param("visit")?;
    let book = ask.book()?;
    let yard = book.visit(visit)?.yard.ok_or(Trouble::NotFound)?;
    let sheet = book.yard_sheet(yard)?;
    let shown: Vec<&Section> = sheet.sections.iter().filter(|s| !s.hidden).collect();
    let areas: Vec<_> = shown
        .iter()
        .filter_map(|s| s.outline.as_ref()?.area().ok())
        .map(|answer| answer.value)
        .collect();
    let new = format!("/yards/{yard}/sections/new");
    Ok(Page {
        title: ask.t("measure-title"),
        main: html! {
            p.lead { (sheet.name) }
            @if areas.is_empty() {
                p { (ask.t("measure-first")) }
                (part::next_step(&new, &ask.t("measure-new")))
            } @else {
                p.big { (area_sum_words(ask.words, &areas).unwrap_or_default()) }
                p.note { (ask.t("measure-sum-note")) }
                @if areas.len() < shown.len() { p.unknown { (ask.t("measure-some-missing")) } }
            }
            (Sketch::for_yard(ask, yard, &sheet)?.markup(ask.words))
            @if !areas.is_empty() {
                (part::next_step(&format!("/visit/{visit}/plan"), &ask.t("measure-to-plan")))
            }
            @for section in &shown {
                (part::way(&format!("/yards/{yard}/sections/{}", section.id), &section_line(ask, section)))
            }
            @if !areas.is_empty() { (part::way(&new, &ask.t("measure-new"))) }
        },
        place: Place::Today,
        back: Some(format!("/visit/{visit}")),
    })
}

fn section_line(ask: &Ask<'_>, section: &Section) -> String {
    let area = match section.outline.as_ref().map(Outline::area) {
        Some(Ok(answer)) => amounts::area(ask.words, &answer.value),
        Some(Err(_)) | None => ask.t("measure-not-measured"),
    };
    format!("{}: {area}", section.name)
}
