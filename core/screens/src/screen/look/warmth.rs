//! Degree-days: how much warmth above a base since a day, by the temperatures a person types in.
//!
//! Worked out and shown this once; nothing is stored.

use maud::{Markup, html};
use sward_book::ids::VisitId;
use sward_rules::look::{DayAir, DegreeDays, degree_days};
use sward_rules::{Answer, Entered};

use crate::ask::{Ask, Doing, Next, Page, Place};
use crate::part::how::how_in;
use crate::trouble::Wrong;
use crate::words::{Units, Words};
use crate::{Result, Trouble, part};

pub(super) fn show(ask: &Ask<'_>) -> Result<Page> {
    let visit: VisitId = ask.param("visit")?;
    let form = ask.form("sum");
    let base = match ask.words.units {
        Units::Us => "50 F",
        Units::Metric => "10 C",
    };
    Ok(Page {
        title: ask.t("look-warmth"),
        main: html! {
            p { (ask.t("look-warmth-about")) }
            (form.wrap(html! {
                (form.text("base", "look-warmth-base", "look-warmth-base-help", Some(base)))
                (form.day("start", "look-warmth-start", "look-warmth-start-help", None))
                (form.lines("days", "look-warmth-days", "look-warmth-days-help", None))
                (form.submit("look-warmth-sum"))
            }))
            p.note { (ask.t("look-ask-extension")) }
        },
        place: Place::Today,
        back: Some(format!("/visit/{visit}/look")),
    })
}

/// Sums up, and shows the sum this once.
pub(super) fn sum(doing: &mut Doing<'_>) -> Result<Next> {
    let visit: VisitId = doing.param("visit")?;
    let base =
        Entered::parse(doing.needed("base")?).map_err(|error| Trouble::in_field("base", error))?;
    let start = doing
        .form
        .day("start")?
        .ok_or_else(|| Trouble::field("start", Wrong::Missing))?;
    let days = days(doing.needed("days")?)?;
    let sum =
        degree_days(&days, base, start, None).map_err(|error| Trouble::in_field("days", error))?;
    Ok(Next::Once(Page {
        title: doing.words.t("look-warmth"),
        main: told(doing.words, &sum, visit),
        place: Place::Today,
        back: Some(format!("/visit/{visit}/degree-days")),
    }))
}

fn told(words: Words, sum: &Answer<DegreeDays>, visit: VisitId) -> Markup {
    let value = &sum.value;
    let key = if value.is_at_least() {
        "look-warmth-at-least"
    } else {
        "look-warmth-is"
    };
    let rounded = |sum: f64| format!("{sum:.1}");
    let missing: Vec<String> = value.missing.iter().map(|day| words.day(*day)).collect();
    html! {
        p.big { (words.t_with(key, &[("sum", rounded(value.single_sine).into())])) }
        p {
            (words.t_with("look-warmth-of", &[
                ("base", value.base.as_str().into()),
                ("start", words.day(value.start).into()),
                ("until", words.day(value.until).into()),
                ("days", value.days.into()),
            ]))
        }
        p { (words.t_with("look-warmth-average", &[("sum", rounded(value.simple_average).into())])) }
        @if !missing.is_empty() {
            p.unknown { (words.t_with("look-warmth-missing", &[("days", missing.join("; ").into())])) }
        }
        (how_in(words, &sum.working))
        p.note { (words.t("look-ask-extension")) }
        (part::way(&format!("/visit/{visit}/look"), &words.t("key-back-to-count")))
    }
}

/// A day a line: day, lowest, highest.
fn days(text: &str) -> Result<Vec<DayAir>> {
    let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
    lines.map(one_day).collect()
}

fn one_day(line: &str) -> Result<DayAir> {
    let wrong = || Trouble::field("days", Wrong::NotADay);
    let parts: Vec<&str> = line.split(',').map(str::trim).collect();
    let [day, least, most] = parts[..] else {
        return Err(wrong());
    };
    let air = |text: &str| Entered::parse(text).map_err(|error| Trouble::in_field("days", error));
    Ok(DayAir {
        day: day.parse().map_err(|_| wrong())?,
        least: air(least)?,
        most: air(most)?,
    })
}
