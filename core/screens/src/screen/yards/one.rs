//! One yard: what is this place? The next step is to start a visit.

use maud::{Markup, html};
use sward_book::ids::SheetId;
use sward_book::sheet::{Section, YardSheet};
use sward_book::view::visit::{VisitState, VisitView};
use sward_rules::measure::Outline;

use super::fields::PLACE;
use super::{contacts, due, two_values};
use crate::ask::{Ask, Doing, Next, Page, Place};
use crate::part::{amounts, keep_off};
use crate::screen::look::pest_name;
use crate::sketch::Sketch;
use crate::words::{Clock, Words};
use crate::{Result, Trouble, part};

/// How many visits of the history are shown.
const VISITS_SHOWN: usize = 5;

/// Pests that a visit may be about, by the names that stand in records.
const PESTS: [&str; 10] = [
    "white grub",
    "chinch bug",
    "sod webworm",
    "cutworm",
    "Japanese beetle",
    "masked chafer",
    "European chafer",
    "oriental beetle",
    "Asiatic garden beetle",
    "May or June beetle",
];

pub(super) fn show(ask: &Ask<'_>) -> Result<Page> {
    let yard: SheetId = ask.param("yard")?;
    let book = ask.book()?;
    let sheet = book.yard_sheet(yard)?;
    let words = ask.words.in_zone(sheet.zone);
    let visits = book.visits_to_newest(yard, VISITS_SHOWN)?;
    Ok(Page {
        title: sheet.name.clone(),
        main: html! {
            (keep_offs(ask, words, yard)?)
            (start(ask, &visits, words))
            (two_values::cards(ask, yard)?)
            (Sketch::for_yard(ask, yard, &sheet)?.markup(words))
            (part::way(&format!("/yards/{yard}/sketch"), &ask.t("yards-large-sketch")))
            (part::way(&format!("/yards/{yard}/marks"), &ask.t("yards-to-marks")))
            (sections(ask, yard, &sheet))
            (place(ask, yard, &sheet))
            (people(ask, yard, &sheet))
            (due::lines(ask, words, yard, &visits)?)
            (history(&visits, words))
        },
        place: Place::Yards,
        back: Some("/yards".to_owned()),
    })
}

/// Running keep-offs stand first: a child stands behind each of them.
fn keep_offs(ask: &Ask<'_>, words: Words, yard: SheetId) -> Result<Markup> {
    let running = keep_off::running_on(ask.book()?, yard)?;
    Ok(html! {
        @for view in &running {
            (keep_off::card(ask, words, view))
            (part::way(&format!("/visit/{}/keep-off", view.visit), &ask.t("yards-to-keep-off")))
        }
    })
}

fn start(ask: &Ask<'_>, visits: &[VisitView], words: Words) -> Markup {
    let form = ask.form("visit");
    let open = visits
        .iter()
        .find(|v| matches!(v.state, VisitState::Looking | VisitState::Treating));
    // The pest of the last visit: what a yard was visited for it is most likely visited for again.
    let last = visits.iter().find(|v| !v.target.is_empty());
    let filled = last.map(|v| v.target.as_str());
    let mut options: Vec<(String, String)> = PESTS
        .iter()
        .map(|p| ((*p).to_owned(), pest_name(words, p)))
        .collect();
    options.insert(0, (String::new(), ask.t("yards-choose")));
    if let Some(own) = filled.filter(|pest| !PESTS.contains(pest)) {
        options.push((own.to_owned(), pest_name(words, own)));
    }
    html! {
        @if let Some(visit) = open {
            (part::next_step(&format!("/visit/{}", visit.visit), &ask.words.t_with("yards-go-on", &[
                ("pest", pest_name(words, &visit.target).into()),
                ("day", day(visit, words).into()),
            ])))
        }
        (form.wrap(html! {
            (form.select("pest", "yards-pest", &options, filled))
            @if let Some(last) = last {
                p.note { (ask.words.t_with("yards-pest-from", &[("day", day(last, words).into())])) }
            }
            (form.text("other", "yards-pest-other", "", None))
            @if open.is_some() { (form.quiet_submit("yards-start-another")) } @else { (form.submit("yards-start")) }
        }))
    }
}

fn day(visit: &VisitView, words: Words) -> String {
    match visit.opened {
        Some(at) => words.moment(at.utc_ms, Clock::Day),
        None => words.t("frame-not-known"),
    }
}

fn sections(ask: &Ask<'_>, yard: SheetId, sheet: &YardSheet) -> Markup {
    html! {
        h2 { (ask.t("yards-sections")) }
        @for section in &sheet.sections {
            (part::way(&format!("/yards/{yard}/sections/{}", section.id), &section_line(ask, section)))
        }
        (part::way(&format!("/yards/{yard}/sections/new"), &ask.t("yards-measure")))
    }
}

fn section_line(ask: &Ask<'_>, section: &Section) -> String {
    let area = match section.outline.as_ref().map(Outline::area) {
        Some(Ok(answer)) => amounts::area(ask.words, &answer.value),
        Some(Err(_)) | None => ask.t("yards-not-measured"),
    };
    let mut line = format!("{}: {area}", section.name);
    if section.hidden {
        line = format!("{line} ({})", ask.t("yards-hidden"));
    }
    if !section.other_outlines.is_empty() {
        line = format!("{line} · {}", ask.t("yards-conflicts"));
    }
    line
}

fn place(ask: &Ask<'_>, yard: SheetId, sheet: &YardSheet) -> Markup {
    let not_known = ask.t("frame-not-known");
    let zone = sheet
        .zone
        .map(|z| z.name().replace('_', " "))
        .unwrap_or_default();
    html! {
        h2 { (ask.t("yards-place")) }
        dl {
            (part::row(&ask.t("yards-address"), &sheet.address, &not_known))
            (part::row(&ask.t("yards-zone"), &zone, &not_known))
            @for field in &PLACE { (part::row(&ask.t(field.label), (field.value)(sheet), &not_known)) }
        }
        (part::way(&format!("/yards/{yard}/edit"), &ask.t("yards-edit")))
    }
}

fn people(ask: &Ask<'_>, yard: SheetId, sheet: &YardSheet) -> Markup {
    let shown: Vec<_> = sheet.contacts.iter().filter(|c| !c.hidden).collect();
    html! {
        h2 { (ask.t("yards-contacts")) }
        @if shown.is_empty() { p.unknown { (ask.t("frame-not-known")) } }
        ul.list {
            @for contact in shown { li { (contacts::line(ask, contact)) } }
        }
        (part::way(&format!("/yards/{yard}/contacts"), &ask.t("yards-to-contacts")))
    }
}

fn history(visits: &[VisitView], words: Words) -> Markup {
    html! {
        h2 { (words.t("yards-history")) }
        @if visits.is_empty() { p.note { (words.t("yards-no-visit")) } }
        ul.list {
            @for visit in visits {
                li {
                    a.way href=(format!("/visit/{}", visit.visit)) {
                        (day(visit, words)) ": " (pest_name(words, &visit.target)) ", " (words.t(state(visit.state)))
                        @for used in &visit.products { " · " (used.product) }
                        @if !visit.questions.is_empty() { " " strong.wrong { (words.t("yards-to-settle")) } }
                    }
                }
            }
        }
    }
}

fn state(state: VisitState) -> &'static str {
    match state {
        VisitState::Looking => "yards-looking",
        VisitState::Treating => "yards-treating",
        VisitState::Finished => "yards-finished",
        VisitState::NotTreated => "yards-not-treated",
    }
}

pub(super) fn visit(doing: &mut Doing<'_>) -> Result<Next> {
    let yard: SheetId = doing.param("yard")?;
    let pest = match doing.text("other") {
        "" => doing.needed("pest")?.to_owned(),
        other => other.to_owned(),
    };
    let visit = doing
        .book()?
        .open_visit(yard, &pest)
        .map_err(|e| Trouble::in_field("pest", e))?;
    Ok(Next::Go(format!("/visit/{visit}")))
}
