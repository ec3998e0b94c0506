//! The list of records: found by place, date, product and person, and written to a file.

use std::collections::{BTreeMap, BTreeSet};

use maud::{Markup, html};
use sward_book::Book;
use sward_book::book::FindingWanted;
use sward_book::export::{
    IncidentRecord, Record, RecordFilter, incidents, incidents_to_csv, records, to_csv, to_json,
};
use sward_book::ids::{IncidentId, SheetId, VisitId};
use sward_book::view::sheets::YardView;
use sward_book::view::visit::{VisitState, VisitView};

use super::wanted::Wanted;
use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::screen::look::pest_name;
use crate::trouble::Wrong;
use crate::words::Clock;
use crate::{Result, Trouble, part};

pub(super) const SCREEN: Screen = Screen {
    path: "/records",
    show,
    acts: &[("find", find), ("all", all), ("export", export)],
};

/// Rows of one page.
const ROWS_MOST: usize = 30;
/// No page begins later.
const OFFSET_MOST: usize = 1_000_000;

fn show(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let wanted = Wanted::read(&ask.desk(), ask.shared.which())?;
    let offset = offset(ask.query("after"));
    let mut found = book.find_visits(&wanted.for_book(offset + ROWS_MOST + 1))?;
    let more = found.len() > offset + ROWS_MOST;
    found.truncate(offset + ROWS_MOST);
    let page: Vec<VisitView> = found.drain(offset.min(found.len())..).collect();
    let mut yards = BTreeMap::new();
    for yard in page.iter().filter_map(|v| v.yard) {
        if let Ok(view) = book.yard(yard) {
            yards.insert(yard, view);
        }
    }
    Ok(Page {
        title: ask.t("records-title"),
        main: html! {
            @if book.roster().practice() { p.wrong { (ask.t("records-practice")) } }
            (list(ask, &wanted, &page, &yards, offset))
            @if more {
                (part::way(&format!("/records?after={}", offset + ROWS_MOST), &ask.t("records-more")))
            }
            @if offset > 0 { (part::way("/records", &ask.t("records-newest"))) }
            @if !page.is_empty() || offset > 0 || !wanted.is_all() {
                (find_form(ask, &wanted))
                (export_form(ask, &wanted))
            }
        },
        place: Place::Records,
        back: None,
    })
}

/// Where a page begins; what is no number begins at the newest.
fn offset(asked: Option<&str>) -> usize {
    asked
        .and_then(|n| n.parse::<usize>().ok())
        .unwrap_or_default()
        .min(OFFSET_MOST)
}

fn list(
    ask: &Ask<'_>,
    wanted: &Wanted,
    page: &[VisitView],
    yards: &BTreeMap<SheetId, YardView>,
    offset: usize,
) -> Markup {
    html! {
        h2 { (ask.t(if wanted.is_all() { "records-list-newest" } else { "records-list-found" })) }
        @if !wanted.is_all() {
            @let form = ask.form("all");
            (form.wrap(html! { (form.quiet_submit("records-all")) }))
        }
        @if page.is_empty() {
            @if !wanted.is_all() { p { (ask.t("records-found-none")) } }
            @else if offset == 0 {
                p { (ask.t("records-none")) }
                (part::next_step("/yards", &ask.t("records-to-yards")))
            }
        }
        ul.list {
            @for visit in page { li { (line(ask, visit, visit.yard.and_then(|y| yards.get(&y)))) } }
        }
    }
}

fn line(ask: &Ask<'_>, visit: &VisitView, yard: Option<&YardView>) -> Markup {
    let words = ask.words.in_zone(yard.and_then(|y| y.zone.parse().ok()));
    let day = if visit.at_utc_ms() == i64::MIN {
        ask.t("frame-no-date")
    } else {
        words.moment(visit.at_utc_ms(), Clock::Day)
    };
    let name = yard.map_or_else(|| ask.t("frame-not-known"), |y| y.name.clone());
    let products: Vec<&str> = visit.products.iter().map(|p| p.product.as_str()).collect();
    html! {
        a.way href=(format!("/records/{}", visit.visit)) { strong { (name) } span { ", " (day) } }
        p.note {
            (state_words(ask, visit.state))
            @if !products.is_empty() { " \u{b7} " (products.join(", ")) }
            @if !visit.target.is_empty() { " \u{b7} " (pest_name(words, &visit.target)) }
            @if !visit.people.is_empty() { " \u{b7} " (visit.people.join(", ")) }
        }
        @if !visit.questions.is_empty() {
            p { (ask.words.t_with("records-questions", &[("n", visit.questions.len().into())])) }
        }
    }
}

fn state_words(ask: &Ask<'_>, state: VisitState) -> String {
    ask.t(match state {
        VisitState::Looking => "records-state-looking",
        VisitState::Treating => "records-state-treating",
        VisitState::Finished => "records-state-finished",
        VisitState::NotTreated => "records-state-not-treated",
    })
}

fn find_form(ask: &Ask<'_>, wanted: &Wanted) -> Markup {
    let form = ask.form("find");
    let day = |day: Option<chrono::NaiveDate>| day.map(|d| d.to_string());
    html! {
        section.card {
            h2 { (ask.t("records-find")) }
            (form.wrap(html! {
                (form.text("place", "records-find-place", "records-find-place-help", Some(&wanted.place)))
                (form.day("from", "records-find-from", "", day(wanted.from).as_deref()))
                (form.day("to", "records-find-to", "", day(wanted.to).as_deref()))
                (form.text("product", "records-find-product", "records-find-product-help", Some(&wanted.product)))
                (form.text("person", "records-find-person", "", Some(&wanted.person)))
                (form.submit("records-find-go"))
            }))
        }
    }
}

fn find(doing: &mut Doing<'_>) -> Result<Next> {
    let wanted = Wanted::typed(doing.form)?;
    if let (Some(from), Some(to)) = (wanted.from, wanted.to)
        && to < from
    {
        return Err(Trouble::field("to", Wrong::BothSaid));
    }
    wanted.keep(&doing.shared.desk(), doing.shared.which())?;
    Ok(Next::Go("/records".to_owned()))
}

fn all(doing: &mut Doing<'_>) -> Result<Next> {
    Wanted::default().keep(&doing.shared.desk(), doing.shared.which())?;
    Ok(Next::Go("/records".to_owned()))
}

fn export_form(ask: &Ask<'_>, wanted: &Wanted) -> Markup {
    let form = ask.form("export");
    let mut of = vec![("whole", ask.t("records-export-whole"))];
    if !wanted.is_all() {
        of.insert(0, ("found", ask.t("records-export-found")));
    }
    let kinds = [
        ("csv", ask.t("records-export-csv")),
        ("json", ask.t("records-export-json")),
        ("incidents", ask.t("records-export-incidents")),
    ];
    html! {
        section.card {
            h2 { (ask.t("records-export")) }
            p { (ask.t("records-export-help")) }
            (form.wrap(html! {
                (form.choice("of", "records-export-of", &of, of.first().map(|(value, _)| *value)))
                (form.choice("kind", "records-export-kind", &kinds, Some("csv")))
                (form.quiet_submit("records-export-go"))
            }))
            p.note { (ask.t("rule-check-yours")) }
        }
    }
}

fn export(doing: &mut Doing<'_>) -> Result<Next> {
    let form = match doing.text("kind") {
        "csv" => Form::Records,
        "json" => Form::Json,
        "incidents" => Form::Incidents,
        "" => return Err(Trouble::field("kind", Wrong::Missing)),
        _ => return Err(Trouble::field("kind", Wrong::NotOffered)),
    };
    let wanted = match doing.text("of") {
        "whole" => None,
        "found" => Some(Wanted::read(&doing.shared.desk(), doing.shared.which())?),
        "" => return Err(Trouble::field("of", Wrong::Missing)),
        _ => return Err(Trouble::field("of", Wrong::NotOffered)),
    };
    let day = doing.words.day_of(doing.now_ms());
    let text = text(doing.book()?, wanted.as_ref(), form)?;
    let (ending, kind) = match form {
        Form::Records => ("csv", "text/csv; charset=utf-8"),
        Form::Json => ("json", "application/json"),
        Form::Incidents => ("incidents.csv", "text/csv; charset=utf-8"),
    };
    Ok(Next::File {
        // The day alone: a file's name is seen by more people than the file.
        name: format!("{day}.{ending}"),
        kind,
        bytes: text.into_bytes(),
    })
}

/// What is exported.
#[derive(Clone, Copy)]
enum Form {
    Records,
    Json,
    Incidents,
}

/// The records of what was found, or of the whole book. A visit without a result has none; an
/// incident is told whether it belongs to one or not.
fn text(book: &Book, wanted: Option<&Wanted>, form: Form) -> Result<String> {
    let found = || -> Result<Vec<Record>> {
        let mut found = records(book, &RecordFilter::default())?;
        if let Some(wanted) = wanted {
            // The same visits as the list shows: a record's own day may differ from its visit's.
            let visits = visits_of(book, &wanted.for_book(0))?;
            found.retain(|r| visits.contains_key(&r.visit));
        }
        Ok(found)
    };
    let happened = || -> Result<Vec<IncidentRecord>> {
        match wanted {
            None => Ok(incidents(book, &RecordFilter::default())?),
            Some(wanted) => incidents_found(book, wanted),
        }
    };
    Ok(match form {
        Form::Records => to_csv(&found()?),
        Form::Json => to_json(&found()?, &happened()?),
        Form::Incidents => incidents_to_csv(&happened()?),
    })
}

/// Incidents of the visits that were found; and of those that name no visit the ones of these days:
/// all of them where only days are looked for, else those on a yard of such visits.
fn incidents_found(book: &Book, wanted: &Wanted) -> Result<Vec<IncidentRecord>> {
    let visits = visits_of(book, &wanted.for_book(0))?;
    let whenever = FindingWanted {
        from_day: None,
        to_day: None,
        ..wanted.for_book(0)
    };
    let visits_whenever = visits_of(book, &whenever)?;
    let yards: BTreeSet<SheetId> = visits_whenever.into_values().flatten().collect();
    let days = RecordFilter {
        from: wanted.from,
        to: wanted.to,
        ..RecordFilter::default()
    };
    let in_days = incidents(book, &days)?;
    let in_days: BTreeSet<IncidentId> = in_days.iter().map(|i| i.incident.incident).collect();
    let mut happened = incidents(book, &RecordFilter::default())?;
    happened.retain(|i| match i.visit {
        Some(visit) => visits.contains_key(&visit),
        None => {
            in_days.contains(&i.incident.incident)
                && (wanted.is_of_days() || i.yard.is_some_and(|yard| yards.contains(&yard)))
        }
    });
    Ok(happened)
}

/// The visits that are found, with their yards.
fn visits_of(book: &Book, wanted: &FindingWanted) -> Result<BTreeMap<VisitId, Option<SheetId>>> {
    let found = book.find_visits(wanted)?;
    Ok(found.into_iter().map(|v| (v.visit, v.yard)).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_begins_at_a_number_or_at_the_newest() {
        assert_eq!(offset(None), 0);
        assert_eq!(offset(Some("30")), 30);
        assert_eq!(offset(Some("-1")), 0);
        assert_eq!(offset(Some("Corner")), 0);
        assert_eq!(offset(Some("99999999999")), OFFSET_MOST);
    }
}
