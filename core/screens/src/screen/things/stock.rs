//! Product on hand, lot by lot, as last counted.
//!
//! What visits took since the count is not reckoned here.

use maud::{Markup, html};
use sward_book::ids::SheetId;
use sward_book::sheet::schema::HIDDEN;
use sward_book::sheet::{SheetKind, StockSheet};

use super::fields::Group;
use super::kept::{self, Kept};
use super::said;
use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::{Result, part};

pub(super) const SCREENS: [Screen; 3] = [
    Screen {
        path: "/things/stock",
        show: list,
        acts: &[],
    },
    Screen {
        path: "/things/stock/new",
        show: new,
        acts: &[("add", add)],
    },
    Screen {
        path: "/things/stock/{id}",
        show: one,
        acts: &[
            ("save", save),
            ("settle", settle),
            ("put-away", put_away),
            ("bring-back", bring_back),
        ],
    },
];

/// The fields of a stock sheet.
pub(super) const GROUPS: &[Group] = &[Group {
    heading: "",
    keys: &["label", "lot", "on_hand", "counted_on", "least", "where"],
}];

const KEPT: Kept = Kept {
    kind: SheetKind::Stock,
    groups: GROUPS,
    path: "/things/stock",
    put_away: HIDDEN,
    new_title: "things-stock-new",
    put_away_button: "things-stock-used-up",
    bring_back_button: "things-stock-back",
};

fn list(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let mut shown = Vec::new();
    let mut away = Vec::new();
    for (id, sheet) in book.stock()? {
        let product = product(ask, &sheet)?;
        let said = line(ask, &sheet, &product);
        let of = if sheet.hidden { &mut away } else { &mut shown };
        of.push((product, (id, said)));
    }
    let sorted = |mut all: Vec<(String, (SheetId, Markup))>| {
        all.sort_by(|(a, _), (b, _)| a.cmp(b));
        all.into_iter().map(|(_, line)| line).collect::<Vec<_>>()
    };
    let (shown, away) = (sorted(shown), sorted(away));
    let has_label = !book.labels()?.is_empty();
    Ok(Page {
        title: ask.t("things-stock"),
        main: html! {
            @if shown.is_empty() { p { (ask.t("things-stock-none")) } }
            (kept::list(ask, &KEPT, &shown, &away))
            p.note { (ask.t("things-stock-as-counted")) }
            @if has_label {
                (part::next_step("/things/stock/new", &ask.t("things-stock-add")))
            } @else {
                p { (ask.t("things-stock-no-label")) }
                (part::next_step("/things/labels/new", &ask.t("label-new")))
            }
        },
        place: Place::Things,
        back: Some("/things".to_owned()),
    })
}

/// The product's name as its label sheet has it.
fn product(ask: &Ask<'_>, sheet: &StockSheet) -> Result<String> {
    let named = match sheet.label {
        Some(label) => said::product(ask, &label.to_string())?,
        None => None,
    };
    Ok(named.unwrap_or_else(|| ask.t("frame-not-known")))
}

fn line(ask: &Ask<'_>, sheet: &StockSheet, product: &str) -> Markup {
    let lot = match sheet.lot.as_str() {
        "" => ask.t("frame-not-known"),
        lot => lot.to_owned(),
    };
    html! {
        strong { (product) } ", " (ask.t("field-lot")) ": " (lot)
        br;
        (counted(ask, sheet))
        @if sheet.is_short() == Some(true) { br; strong { (ask.t("things-stock-short")) } }
    }
}

/// How much there was at the last count, and when that was.
fn counted(ask: &Ask<'_>, sheet: &StockSheet) -> Markup {
    html! {
        (ask.t("field-on-hand")) ": "
        @match &sheet.on_hand {
            Some(on_hand) => (ask.words.amount(on_hand)),
            None => span.unknown { (ask.t("frame-not-known")) },
        }
        "; " (ask.t("field-counted-on")) ": "
        @match sheet.counted_on {
            Some(day) => (said::day_with_age(ask, day)),
            None => span.unknown { (ask.t("frame-not-known")) },
        }
    }
}

fn new(ask: &Ask<'_>) -> Result<Page> {
    kept::new(
        ask,
        &KEPT,
        &html! { p { (ask.t("things-stock-as-counted")) } },
    )
}

fn one(ask: &Ask<'_>) -> Result<Page> {
    let sheet = ask.book()?.stock_sheet(ask.param("id")?)?;
    let product = product(ask, &sheet)?;
    let above = html! {
        p { (counted(ask, &sheet)) }
        @if sheet.is_short() == Some(true) { p { strong { (ask.t("things-stock-short")) } } }
    };
    kept::one(ask, &KEPT, product, sheet.hidden, &above)
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
