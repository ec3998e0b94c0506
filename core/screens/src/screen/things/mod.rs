//! Tools: label sheets, equipment, stock, people, settings, backup and proof.
//!
//! No rule and no record lives here; whom to call is on the help screens, who belongs on the crew's.

mod backup;
mod calibrate;
mod equipment;
mod fields;
mod kept;
mod label;
mod people;
mod said;
mod settings;
mod stock;
#[cfg(test)]
mod tests;
mod two_values;
mod typed;
mod units;

pub(super) use fields::products;
pub(super) use units::fitting;

use maud::{Markup, html};

use crate::Result;
use crate::ask::{Ask, Page, Place, Screen};

const LIST: Screen = Screen {
    path: "/things",
    show: list,
    acts: &[],
};

pub(crate) const SCREENS: &[Screen] = &{
    let [labels, label_new, label_one, label_edit, label_read] = label::SCREENS;
    let [equipment, equipment_new, equipment_one] = equipment::SCREENS;
    let [calibrate] = calibrate::SCREENS;
    let [stock, stock_new, stock_one] = stock::SCREENS;
    let [people, people_new, people_one] = people::SCREENS;
    [
        LIST,
        labels,
        label_new,
        label_one,
        label_edit,
        label_read,
        equipment,
        equipment_new,
        equipment_one,
        calibrate,
        stock,
        stock_new,
        stock_one,
        people,
        people_new,
        people_one,
        settings::SCREEN,
        backup::SCREEN,
    ]
};

fn list(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let labels = book.labels()?;
    let unread = labels.iter().filter(|l| l.read_back.is_none()).count();
    let equipment = book.equipment()?.iter().filter(|(_, e)| !e.retired).count();
    let stock = book.stock()?;
    let lots = stock.iter().filter(|(_, s)| !s.hidden);
    let short = lots.clone().filter(|(_, s)| s.is_short() == Some(true));
    let (lots, short) = (lots.count(), short.count());
    let people = book.people()?.iter().filter(|(_, p)| !p.hidden).count();
    let count = |key: &str, n: usize| ask.words.t_with(key, &[("n", n.into())]);
    let place = |href: &str, name: &str, said: Option<String>| place(ask, href, name, said);
    Ok(Page {
        title: ask.t("things-title"),
        main: html! {
            ul.list {
                (place("/things/labels", "label-list-title", Some(count("things-count-labels", labels.len()))))
                @if unread > 0 { li { p { strong { (count("things-count-unread", unread)) } } } }
                (place("/things/equipment", "things-equipment", Some(count("things-count-equipment", equipment))))
                (place("/things/stock", "things-stock", Some(count("things-count-lots", lots))))
                @if short > 0 { li { p { strong { (count("things-count-short", short)) } } } }
                (place("/things/work-out", "work-out-title", None))
                (place("/things/people", "things-people", Some(count("things-count-people", people))))
                (place("/help/lines", "things-help-lines", None))
                (place("/things/settings", "things-settings", None))
                (place("/things/backup", "things-backup", None))
            }
            p.note { (ask.t("things-tank-fills")) ": " span.unknown { (ask.t("things-not-kept")) } }
        },
        place: Place::Things,
        back: None,
    })
}

fn place(ask: &Ask<'_>, href: &str, name: &str, said: Option<String>) -> Markup {
    html! {
        li {
            a.way href=(href) {
                span { (ask.t(name)) @if let Some(said) = said { br; small { (said) } } }
            }
        }
    }
}
