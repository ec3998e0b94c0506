//! Re-check: did it work? A return that is planned, counts before and after, percent control.
//!
//! The formulas are [`sward_rules::look`]'s; what is counted here stands in the record.

use maud::{Markup, html};
use sward_book::Book;
use sward_book::fact::{Fact, ReturnWhat};
use sward_book::ids::VisitId;
use sward_book::view::visit::VisitView;
use sward_rules::look::{BeforeAfter, Control, abbott, henderson_tilton};
use sward_rules::{Answer, RuleError};

use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::part::how::how;
use crate::screen::look::pest_name;
use crate::trouble::Wrong;
use crate::words::Words;
use crate::{Result, Trouble, part};

pub(crate) const SCREENS: &[Screen] = &[Screen {
    path: "/visit/{visit}/recheck",
    show,
    acts: &[("plan", plan), ("control", control), ("visit", open_visit)],
}];

const REASONS: [(ReturnWhat, &str, &str); 4] = [
    (ReturnWhat::ReCheck, "re_check", "recheck-what-re-check"),
    (ReturnWhat::Look, "look", "recheck-what-look"),
    (ReturnWhat::Repeat, "repeat", "recheck-what-repeat"),
    (ReturnWhat::Other, "other", "recheck-what-other"),
];

fn show(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let visit: VisitId = ask.param("visit")?;
    let view = book.visit(visit)?;
    let zone = view
        .yard
        .and_then(|yard| book.yard_sheet(yard).ok())
        .and_then(|sheet| sheet.zone);
    let words = ask.words.in_zone(zone);
    Ok(Page {
        title: ask.t("recheck-title"),
        main: html! {
            (planned(ask, words, &view))
            (counts(ask, book, words, &view)?)
            (results(ask, book, words, &view)?)
            (control_form(ask))
            (plan_form(ask))
            (new_visit(ask))
            (part::way(&format!("/records/{visit}"), &ask.t("recheck-to-record")))
        },
        place: Place::Today,
        back: Some(format!("/visit/{visit}")),
    })
}

fn planned(ask: &Ask<'_>, words: Words, view: &VisitView) -> Markup {
    html! {
        @match &view.return_day {
            None => p.unknown { (ask.t("recheck-none-planned")) },
            Some(planned) => {
                @let day = planned.day.parse().map_or_else(|_| planned.day.clone(), |day| words.day(day));
                @let what = REASONS.iter().find(|(what, _, _)| *what == planned.what).map_or("recheck-what-other", |(_, _, key)| key);
                p.big { (day) }
                p { (ask.t(what)) @if !planned.note.is_empty() { ": " (planned.note) } }
            },
        }
    }
}

/// What was counted on this visit, the latest last.
fn counts(ask: &Ask<'_>, book: &Book, words: Words, view: &VisitView) -> Result<Markup> {
    let mut lines = Vec::new();
    for line in view.history.iter().filter(|l| l.superseded_by.is_none()) {
        if let (_, Fact::Counted(count)) = book.fact(line.fact)? {
            let total: u32 = count.samples.iter().map(|s| s.count).sum();
            lines.push(words.t_with(
                "recheck-count",
                &[
                    ("pest", pest_name(words, &count.pest).into()),
                    ("total", total.into()),
                    ("samples", count.samples.len().into()),
                    (
                        "at",
                        words.moment_near(line.at.utc_ms, ask.now.utc_ms).into(),
                    ),
                ],
            ));
        }
    }
    Ok(html! {
        h2 { (ask.t("recheck-counts")) }
        @if lines.is_empty() { p.unknown { (ask.t("recheck-no-counts")) } }
        ul.list { @for line in &lines { li { (line) } } }
        (part::way(&format!("/visit/{}/look", view.visit), &ask.t("recheck-count-more")))
    })
}

/// What was worked out before, with how.
fn results(ask: &Ask<'_>, book: &Book, words: Words, view: &VisitView) -> Result<Markup> {
    let mut found = Vec::new();
    for line in view.history.iter().filter(|l| l.superseded_by.is_none()) {
        if let (_, Fact::ControlCounted(f)) = book.fact(line.fact)? {
            found.push((line.at.utc_ms, f.counts));
        }
    }
    Ok(html! {
        @for (at_ms, counts) in found.iter().rev() {
            section.card role="status" {
                p.note { (words.moment_near(*at_ms, ask.now.utc_ms)) }
                (result(ask, *counts))
            }
        }
    })
}

fn result(ask: &Ask<'_>, counts: BeforeAfter) -> Markup {
    let by_change = henderson_tilton(counts);
    let by_level = abbott(counts.check_after, counts.treated_after);
    html! {
        (percent(ask, "recheck-control", &by_change))
        (percent(ask, "recheck-abbott", &by_level))
        p { (ask.t("recheck-advice")) }
    }
}

/// Percent control with its interval; where the counts do not define one, that is said by name.
fn percent(ask: &Ask<'_>, key: &str, control: &Result<Answer<Control>, RuleError>) -> Markup {
    let whole = |percent: f64| format!("{percent:.0}");
    html! {
        @match control {
            Ok(answer) => {
                p.big { (ask.words.t_with(key, &[("percent", whole(answer.value.percent).into())])) }
                @match answer.value.interval {
                    Some(interval) => p {
                        (ask.words.t_with("recheck-interval", &[
                            ("least", whole(interval.lower_percent).into()),
                            ("most", whole(interval.upper_percent).into()),
                        ]))
                        @if interval.lower_percent < 0.0 { " " (ask.t("recheck-may-be-none")) }
                    },
                    None => p.unknown { (ask.t("recheck-no-interval")) },
                }
                (how(ask, &answer.working))
            },
            Err(error) => p.unknown { (ask.words.said("error", error)) },
        }
    }
}

fn control_form(ask: &Ask<'_>) -> Markup {
    let form = ask.form("control");
    html! {
        section.card {
            h2 { (ask.t("recheck-control-title")) }
            p { (ask.t("recheck-control-help")) }
            (form.wrap(html! {
                (form.count("treated_before", "recheck-treated-before", "", None))
                (form.count("treated_after", "recheck-treated-after", "", None))
                (form.count("check_before", "recheck-check-before", "", None))
                (form.count("check_after", "recheck-check-after", "", None))
                (form.submit("recheck-work-out"))
            }))
        }
    }
}

fn control(doing: &mut Doing<'_>) -> Result<Next> {
    let visit: VisitId = doing.param("visit")?;
    let count = |field: &str| -> Result<u32> {
        let number = doing.form.whole(field, 0, 100_000)?;
        let number = number.ok_or_else(|| Trouble::field(field, Wrong::Missing))?;
        u32::try_from(number).map_err(|_| Trouble::field(field, Wrong::NotANumber))
    };
    let counts = BeforeAfter {
        treated_before: count("treated_before")?,
        treated_after: count("treated_after")?,
        check_before: count("check_before")?,
        check_after: count("check_after")?,
    };
    doing.book()?.record_control(visit, counts, "")?;
    Ok(Next::Go(format!("/visit/{visit}/recheck")))
}

fn plan_form(ask: &Ask<'_>) -> Markup {
    let form = ask.form("plan");
    let reasons: Vec<(&str, String)> = REASONS
        .iter()
        .map(|(_, value, key)| (*value, ask.t(key)))
        .collect();
    html! {
        section.card {
            h2 { (ask.t("recheck-plan-title")) }
            (form.wrap(html! {
                (form.day("day", "recheck-day", "", None))
                (form.choice("what", "recheck-what", &reasons, Some("re_check")))
                (form.lines("note", "recheck-note", "", None))
                (form.quiet_submit("recheck-plan"))
            }))
        }
    }
}

fn plan(doing: &mut Doing<'_>) -> Result<Next> {
    let visit: VisitId = doing.param("visit")?;
    let day = doing
        .form
        .day("day")?
        .ok_or_else(|| Trouble::field("day", Wrong::Missing))?;
    let what = REASONS
        .iter()
        .find(|(_, value, _)| *value == doing.text("what"))
        .map(|(what, _, _)| *what)
        .ok_or_else(|| Trouble::field("what", Wrong::Missing))?;
    let note = doing.text("note").to_owned();
    doing
        .book()?
        .plan_return(visit, &day.to_string(), what, &note)?;
    Ok(Next::Go(format!("/visit/{visit}/recheck")))
}

fn new_visit(ask: &Ask<'_>) -> Markup {
    let form = ask.form("visit");
    html! { (form.wrap(html! { (form.quiet_submit("recheck-new-visit")) })) }
}

/// A new visit to the same yard, for the same pest.
fn open_visit(doing: &mut Doing<'_>) -> Result<Next> {
    let visit: VisitId = doing.param("visit")?;
    let book = doing.book()?;
    let before = book.visit(visit)?;
    let yard = before.yard.ok_or(Trouble::NotFound)?;
    let next = book.open_visit(yard, &before.target)?;
    Ok(Next::Go(format!("/visit/{next}")))
}
