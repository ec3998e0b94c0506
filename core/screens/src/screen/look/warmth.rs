//! Degree-days: how much warmth above a base since a day, by the temperatures a person types in.
//!
//! Worked out and kept nowhere: what was typed stands behind the question mark of the address.

use maud::{Markup, html};
use sward_book::ids::VisitId;
use sward_rules::look::{DayAir, DegreeDays, degree_days};
use sward_rules::{Answer, Entered};

use crate::ask::{Ask, Doing, Next, Page, Place};
use crate::part::how::how;
use crate::part::inputs::{Inputs, address};
use crate::server::Form;
use crate::trouble::Wrong;
use crate::words::Units;
use crate::{Result, Trouble, part};

pub(super) fn show(ask: &Ask<'_>) -> Result<Page> {
    let visit: VisitId = ask.param("visit")?;
    let last = Form::of_query(ask.query);
    // An address that was changed by hand has no sum; sent again the form says what is wrong.
    let sum = work(&last).ok().filter(|_| ask.again.is_none());
    let inputs = Inputs::new(ask, "sum", last);
    let form = &inputs.form;
    let base = match ask.words.units {
        Units::Us => "50 F",
        Units::Metric => "10 C",
    };
    let base = inputs.last("base").unwrap_or_else(|| base.to_owned());
    let (start, days) = (inputs.last("start"), inputs.last("days"));
    Ok(Page {
        title: ask.t("look-warmth"),
        main: html! {
            @if let Some(sum) = &sum { (told(ask, sum)) }
            p { (ask.t("look-warmth-about")) }
            (form.wrap(html! {
                (form.text("base", "look-warmth-base", "look-warmth-base-help", Some(&base)))
                (form.day("start", "look-warmth-start", "look-warmth-start-help", start.as_deref()))
                (form.lines("days", "look-warmth-days", "look-warmth-days-help", days.as_deref()))
                (form.submit("look-warmth-sum"))
            }))
            p.note { (ask.t("look-ask-extension")) }
            @if sum.is_some() { (part::way(&format!("/visit/{visit}/look"), &ask.t("key-back-to-count"))) }
        },
        place: Place::Today,
        back: Some(format!("/visit/{visit}/look")),
    })
}

/// Sums up, and leads to where the sum stands.
pub(super) fn sum(doing: &mut Doing<'_>) -> Result<Next> {
    work(doing.form)?;
    // An address has room for the longest list of days, not for any number of blank lines.
    let lines: Vec<&str> = lines(doing.text("days")).collect();
    let days = lines.join("\n");
    Ok(Next::Go(address(
        doing.path,
        doing.form,
        &[("days", &days)],
    )))
}

fn work(form: &Form) -> Result<Answer<DegreeDays>> {
    let needed = |field: &str| match form.text(field) {
        "" => Err(Trouble::field(field, Wrong::Missing)),
        text => Ok(text),
    };
    let base = Entered::parse(needed("base")?).map_err(|error| Trouble::in_field("base", error))?;
    let start = form
        .day("start")?
        .ok_or_else(|| Trouble::field("start", Wrong::Missing))?;
    let days: Vec<DayAir> = lines(needed("days")?).map(one_day).collect::<Result<_>>()?;
    degree_days(&days, base, start, None).map_err(|error| Trouble::in_field("days", error))
}

fn told(ask: &Ask<'_>, sum: &Answer<DegreeDays>) -> Markup {
    let words = ask.words;
    let value = &sum.value;
    let key = if value.is_at_least() {
        "look-warmth-at-least"
    } else {
        "look-warmth-is"
    };
    let rounded = |sum: f64| format!("{sum:.1}");
    let missing: Vec<String> = value.missing.iter().map(|day| words.day(*day)).collect();
    html! {
        section {
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
            (how(ask, &sum.working))
        }
    }
}

/// A day a line: day, lowest, highest.
fn lines(text: &str) -> impl Iterator<Item = &str> {
    text.lines().map(str::trim).filter(|line| !line.is_empty())
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
