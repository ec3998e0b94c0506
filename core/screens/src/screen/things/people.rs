//! People and their licences.
//!
//! Which device somebody carries, and what it may do, is on the crew's screens.

use chrono::NaiveDate;
use maud::{Markup, html};
use sward_book::sheet::schema::HIDDEN;
use sward_book::sheet::{PersonSheet, SheetKind};

use super::fields::Group;
use super::kept::{self, Kept};
use super::said;
use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::{Result, part};

pub(super) const SCREENS: [Screen; 3] = [
    Screen {
        path: "/things/people",
        show: list,
        acts: &[],
    },
    Screen {
        path: "/things/people/new",
        show: new,
        acts: &[("add", add)],
    },
    Screen {
        path: "/things/people/{id}",
        show: one,
        acts: &[
            ("save", save),
            ("settle", settle),
            ("put-away", put_away),
            ("bring-back", bring_back),
        ],
    },
];

/// The fields of a person's sheet.
pub(super) const GROUPS: &[Group] = &[Group {
    heading: "",
    keys: &["name", "licence", "licence_until", "phone", "note"],
}];

const KEPT: Kept = Kept {
    kind: SheetKind::Person,
    groups: GROUPS,
    path: "/things/people",
    put_away: HIDDEN,
    new_title: "things-people-new",
    put_away_button: "things-people-left",
    bring_back_button: "things-people-back",
};

fn list(ask: &Ask<'_>) -> Result<Page> {
    let mut all = ask.book()?.people()?;
    all.sort_by(|(_, a), (_, b)| a.name.cmp(&b.name));
    let said = |away: bool| {
        all.iter()
            .filter(|(_, sheet)| sheet.hidden == away)
            .map(|(id, sheet)| {
                (
                    *id,
                    html! { strong { (sheet.name) } br; (licence(ask, sheet)) },
                )
            })
            .collect::<Vec<_>>()
    };
    let shown = said(false);
    Ok(Page {
        title: ask.t("things-people"),
        main: html! {
            @if shown.is_empty() { p { (ask.t("things-people-none")) } }
            (kept::list(ask, &KEPT, &shown, &said(true)))
            (part::next_step("/things/people/new", &ask.t("things-people-add")))
            p.note { (ask.t("things-people-devices")) }
            (part::way("/crew", &ask.t("things-to-crew")))
        },
        place: Place::Things,
        back: Some("/things".to_owned()),
    })
}

/// Whether a licence whose last day is `until` is over.
fn is_over(until: NaiveDate, today: NaiveDate) -> bool {
    until < today
}

fn licence(ask: &Ask<'_>, sheet: &PersonSheet) -> Markup {
    let number = match sheet.licence.as_str() {
        "" => ask.t("frame-not-known"),
        number => number.to_owned(),
    };
    let today = ask.words.day_of(ask.now.utc_ms);
    html! {
        (ask.t("field-licence")) ": " (number) "; " (ask.t("field-licence-until")) ": "
        @match sheet.licence_until {
            Some(day) => {
                (said::day_with_age(ask, day))
                @if is_over(day, today) { " " strong { (ask.t("things-licence-over")) } }
            },
            None => span.unknown { (ask.t("frame-not-known")) },
        }
    }
}

fn new(ask: &Ask<'_>) -> Result<Page> {
    kept::new(ask, &KEPT, &html! {})
}

fn one(ask: &Ask<'_>) -> Result<Page> {
    let sheet = ask.book()?.person_sheet(ask.param("id")?)?;
    let above = html! { p { (licence(ask, &sheet)) } };
    kept::one(ask, &KEPT, sheet.name, sheet.hidden, &above)
}

fn add(doing: &mut Doing<'_>) -> Result<Next> {
    kept::add(doing, &KEPT)
}

fn save(doing: &mut Doing<'_>) -> Result<Next> {
    kept::save(doing, &KEPT)
}

fn settle(doing: &mut Doing<'_>) -> Result<Next> {
    kept::settle(doing, &KEPT)
}

fn put_away(doing: &mut Doing<'_>) -> Result<Next> {
    kept::put_away(doing, &KEPT, true)
}

fn bring_back(doing: &mut Doing<'_>) -> Result<Next> {
    kept::put_away(doing, &KEPT, false)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_licence_still_holds_on_its_last_day() {
        let day = |d| NaiveDate::from_ymd_opt(2026, 6, d).unwrap();
        assert!(!is_over(day(30), day(30)));
        assert!(is_over(day(29), day(30)));
    }
}
