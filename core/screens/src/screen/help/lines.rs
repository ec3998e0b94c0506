//! Whom to call: the crew's own lines, each with the day it was read off its source, and the few
//! public ones that stand here until the crew has its own.

use maud::{Markup, html};
use sward_book::Book;
use sward_book::ids::{ItemId, SheetId};
use sward_book::sheet::{HelpLine, HelpLineKind, SheetKind};

use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::trouble::Wrong;
use crate::{Result, Trouble};

pub(super) const SCREEN: Screen = Screen {
    path: "/help/lines",
    show,
    acts: &[("add", add), ("hide", hide)],
};

/// Public lines of the United States, from memory: the screen says to check them. Emergency 911;
/// Poison Help (US Health Resources and Services Administration); National Pesticide Information
/// Center (Oregon State University and US EPA); National Response Center (US Coast Guard).
const PUBLIC: [(&str, &str, &str); 4] = [
    ("help-public-emergency", "911", "tel:911"),
    ("help-public-poison", "1-800-222-1222", "tel:+18002221222"),
    (
        "help-public-pesticide",
        "1-800-858-7378",
        "tel:+18008587378",
    ),
    ("help-public-spill", "1-800-424-8802", "tel:+18004248802"),
];

/// Kinds of lines with their messages.
fn kind_key(kind: Option<HelpLineKind>) -> &'static str {
    match kind {
        Some(HelpLineKind::Poison) => "help-kind-poison",
        Some(HelpLineKind::Vet) => "help-kind-vet",
        Some(HelpLineKind::Spill) => "help-kind-spill",
        Some(HelpLineKind::Agency) => "help-kind-agency",
        Some(HelpLineKind::Emergency) => "help-kind-emergency",
        Some(HelpLineKind::Office) => "help-kind-office",
        _ => "help-kind-other",
    }
}

/// Every line as something to tap.
pub(super) fn calls(ask: &Ask<'_>, book: &Book) -> Result<Markup> {
    let own = book.help_lines()?.lines;
    Ok(html! {
        ul.list {
            @for line in own.iter().filter(|line| !line.hidden) { li { (own_call(ask, line)) } }
            @for (key, number, href) in PUBLIC {
                li { a.way href=(href) { (ask.t(key)) br; strong.big { (number) } } }
            }
        }
        p.note { (ask.t("help-public-source")) }
    })
}

fn own_call(ask: &Ask<'_>, line: &HelpLine) -> Markup {
    let read = line.read_on.map_or_else(
        || ask.t("help-read-unknown"),
        |day| {
            ask.words
                .t_with("help-read-on", &[("day", ask.words.day(day).into())])
        },
    );
    html! {
        @for phone in std::iter::once(&line.phone).chain(&line.other_phones) {
            a.way href=(dial(phone)) {
                (ask.t(kind_key(line.kind))) ": " (line.name) br;
                strong.big { (phone) } br;
                span { (read) }
            }
        }
        @if !line.note.is_empty() { p.note { (line.note) } }
    }
}

/// A number as a telephone dials it: digits and a leading plus.
fn dial(phone: &str) -> String {
    let digits: String = phone
        .chars()
        .enumerate()
        .filter(|(place, c)| c.is_ascii_digit() || (*place == 0 && *c == '+'))
        .map(|(_, c)| c)
        .collect();
    format!("tel:{digits}")
}

fn show(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let form = ask.form("add");
    let kinds: Vec<(String, String)> = HelpLineKind::ALL
        .iter()
        .map(|kind| (kind.word().to_owned(), ask.t(kind_key(Some(*kind)))))
        .collect();
    Ok(Page {
        title: ask.t("help-lines-title"),
        main: html! {
            p { (ask.t("help-lines-why")) }
            @for line in book.help_lines()?.lines.iter().filter(|line| !line.hidden) {
                section.card {
                    (own_call(ask, line))
                    @let hide = ask.form_keyed("hide", &format!("{} {}", line.sheet, line.id));
                    (hide.wrap(html! { (hide.quiet_submit("help-line-hide")) }))
                }
            }
            section.card {
                h2 { (ask.t("help-line-add-title")) }
                (form.wrap(html! {
                    (form.select("kind", "help-line-kind", &kinds, None))
                    (form.text("name", "help-line-name", "", None))
                    (form.text("phone", "help-line-phone", "", None))
                    (form.day("read_on", "help-line-read-on", "help-line-read-on-help", None))
                    (form.lines("note", "help-line-note", "", None))
                    (form.submit("help-line-add"))
                }))
            }
        },
        place: Place::Things,
        back: Some("/help".to_owned()),
    })
}

fn add(doing: &mut Doing<'_>) -> Result<Next> {
    doing.needed("name")?;
    doing.needed("phone")?;
    let typed: Vec<(String, String)> = ["kind", "name", "phone", "read_on", "note"]
        .iter()
        .map(|key| ((*key).to_owned(), doing.text(key).to_owned()))
        .collect();
    let typed: Vec<(&str, &str)> = typed
        .iter()
        .map(|(k, v)| (k.as_str(), v.as_str()))
        .collect();
    doing.book()?.add_help_line(&typed)?;
    Ok(Next::Go("/help/lines".to_owned()))
}

fn hide(doing: &mut Doing<'_>) -> Result<Next> {
    let bad = || Trouble::Wrong(Wrong::NotOffered);
    let (sheet, item) = doing.text("key").split_once(' ').ok_or_else(bad)?;
    let sheet: SheetId = sheet.parse().map_err(|_| bad())?;
    let item: ItemId = item.parse().map_err(|_| bad())?;
    doing
        .book()?
        .hide_item(sheet, SheetKind::HelpLines, "lines", item, true)?;
    Ok(Next::Go("/help/lines".to_owned()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_is_dialled_without_what_people_write_between() {
        assert_eq!(dial("+1 (800) 555-0100"), "tel:+18005550100");
        assert_eq!(dial("555-0100 ext"), "tel:5550100");
    }
}
