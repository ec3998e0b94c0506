//! Filing an incident, adding to one, and what was filed.
//!
//! Only what happened is asked for: whoever stands beside an accident has no time for more.

use maud::{Markup, html};
use sward_book::Book;
use sward_book::action::Incident;
use sward_book::fact::IncidentWhat;
use sward_book::ids::IncidentId;
use sward_book::view::incident::IncidentView;

use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::trouble::Wrong;
use crate::words::Clock;
use crate::{Result, Trouble, part};

pub(super) const NEW: Screen = Screen {
    path: "/help/incident",
    show: new,
    acts: &[("file", file)],
};

pub(super) const ONE: Screen = Screen {
    path: "/help/incident/{incident}",
    show: one,
    acts: &[("add", add)],
};

const KINDS: [(IncidentWhat, &str, &str); 6] = [
    (IncidentWhat::Exposure, "exposure", "help-what-exposure"),
    (IncidentWhat::Spill, "spill", "help-what-spill"),
    (IncidentWhat::Animal, "animal", "help-what-animal"),
    (IncidentWhat::Drift, "drift", "help-what-drift"),
    (IncidentWhat::Equipment, "equipment", "help-what-equipment"),
    (IncidentWhat::Other, "other", "help-what-other"),
];

fn kind_words(ask: &Ask<'_>, what: IncidentWhat) -> String {
    let key = KINDS
        .iter()
        .find(|(kind, _, _)| *kind == what)
        .map_or("help-what-other", |(_, _, key)| key);
    ask.t(key)
}

fn new(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let form = ask.form("file");
    let kinds: Vec<(&str, String)> = KINDS
        .iter()
        .map(|(_, value, key)| (*value, ask.t(key)))
        .collect();
    let mut yards = vec![(String::new(), ask.t("help-no-yard"))];
    yards.extend(
        book.yards()?
            .into_iter()
            .map(|y| (y.yard.to_string(), y.name)),
    );
    Ok(Page {
        title: ask.t("help-file"),
        main: html! {
            (form.wrap(html! {
                (form.choice("what", "help-what", &kinds, None))
                (form.lines("told", "help-told", "", None))
                (form.lines("done", "help-done", "", None))
                (form.text("who_called", "help-who-called", "", None))
                (form.select("yard", "help-yard", &yards, None))
                (form.choice("when", "help-when", &[
                    ("now", ask.t("help-when-now")),
                    ("at", ask.t("help-when-at")),
                ], None))
                (form.day("day", "help-day", "help-when-help", None))
                (form.time("time", "help-time", "help-when-help", None))
                (form.submit("help-file-it"))
            }))
        },
        place: Place::Today,
        back: Some("/help".to_owned()),
    })
}

fn file(doing: &mut Doing<'_>) -> Result<Next> {
    let what = KINDS
        .iter()
        .find(|(_, value, _)| *value == doing.text("what"))
        .map(|(what, _, _)| *what)
        .ok_or_else(|| Trouble::field("what", Wrong::Missing))?;
    let told = doing.needed("told")?.to_owned();
    let yard = match doing.text("yard") {
        "" => None,
        yard => Some(
            yard.parse()
                .map_err(|_| Trouble::field("yard", Wrong::NotOffered))?,
        ),
    };
    let happened_utc_ms = match doing.text("when") {
        "now" => doing.now_ms(),
        "at" => {
            let day = doing
                .form
                .day("day")?
                .ok_or_else(|| Trouble::field("day", Wrong::Missing))?;
            doing
                .form
                .time("time", day, doing.words.zone)?
                .ok_or_else(|| Trouble::field("time", Wrong::Missing))?
        }
        _ => return Err(Trouble::field("when", Wrong::Missing)),
    };
    let filed = Incident {
        adds_to: None,
        yard,
        visit: None,
        what,
        told,
        done: doing.text("done").to_owned(),
        who_called: doing.text("who_called").to_owned(),
        happened_utc_ms,
    };
    let incident = doing.book()?.file_incident(filed)?;
    Ok(Next::Go(format!("/help/incident/{incident}")))
}

/// What was filed before.
pub(super) fn all(ask: &Ask<'_>, book: &Book) -> Result<Markup> {
    let incidents = book.incidents()?;
    Ok(html! {
        @if !incidents.is_empty() {
            h2 { (ask.t("help-filed-title")) }
            ul.list {
                @for incident in incidents.iter().rev().take(5) {
                    li { (part::way(&format!("/help/incident/{}", incident.incident), &line(ask, incident))) }
                }
            }
        }
    })
}

fn line(ask: &Ask<'_>, incident: &IncidentView) -> String {
    let at = ask
        .words
        .moment(incident.happened_utc_ms, Clock::DayAndTime);
    format!("{}, {at}", kind_words(ask, incident.what))
}

fn one(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let incident = book.incident(ask.param("incident")?)?;
    let form = ask.form("add");
    let who = |stream| {
        book.roster()
            .member(stream)
            .and_then(|m| m.person.as_ref())
            .map_or_else(|| ask.t("help-by-unknown"), |p| p.name.clone())
    };
    let not_known = ask.t("frame-not-known");
    Ok(Page {
        title: line(ask, &incident),
        main: html! {
            @for filed in &incident.lines {
                section.card {
                    p.note {
                        (who(filed.by)) ", " (ask.words.moment(filed.at.utc_ms, Clock::DayAndTime))
                        @if !filed.of_the_crew { " " (ask.t("help-by-outsider")) }
                    }
                    dl {
                        (part::row(&ask.t("help-told"), &filed.told, &not_known))
                        (part::row(&ask.t("help-done"), &filed.done, &not_known))
                        (part::row(&ask.t("help-who-called"), &filed.who_called, &not_known))
                    }
                }
            }
            section.card {
                h2 { (ask.t("help-add-title")) }
                (form.wrap(html! {
                    (form.lines("told", "help-told", "", None))
                    (form.lines("done", "help-done", "", None))
                    (form.text("who_called", "help-who-called", "", None))
                    (form.quiet_submit("help-add"))
                }))
            }
            (part::next_step("/help", &ask.t("help-to-calls")))
        },
        place: Place::Today,
        back: Some("/help".to_owned()),
    })
}

fn add(doing: &mut Doing<'_>) -> Result<Next> {
    let incident: IncidentId = doing.param("incident")?;
    let known = doing.book()?.incident(incident)?;
    let filed = Incident {
        adds_to: Some(incident),
        yard: None,
        visit: None,
        what: known.what,
        told: doing.text("told").to_owned(),
        done: doing.text("done").to_owned(),
        who_called: doing.text("who_called").to_owned(),
        happened_utc_ms: known.happened_utc_ms,
    };
    doing.book()?.file_incident(filed)?;
    Ok(Next::Go(format!("/help/incident/{incident}")))
}
