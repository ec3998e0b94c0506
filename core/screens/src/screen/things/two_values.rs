//! Fields that two people filled differently without seeing each other: both values are shown, and
//! one tap says which holds.
//!
//! Which value is acted on meanwhile is the book's matter.

use maud::{Markup, html};
use sward_book::ids::{ItemId, SheetId};
use sward_book::sheet::schema::{self, Field};
use sward_book::sheet::{SheetConflict, SheetKind};

use super::said;
use crate::Result;
use crate::ask::{Ask, Doing, Next};
use crate::trouble::Wrong;

fn field_of(kind: SheetKind, found: &SheetConflict) -> Option<&'static Field> {
    let key = found.conflict.field.as_str();
    match &found.item {
        None => schema::field(kind, key),
        Some((list, _)) => schema::list(kind, list)?
            .fields
            .iter()
            .find(|f| f.key == key),
    }
}

/// Every such field of a sheet with its values.
pub(super) fn cards(ask: &Ask<'_>, kind: SheetKind, conflicts: &[SheetConflict]) -> Result<Markup> {
    let mut cards = Vec::new();
    for (number, found) in conflicts.iter().enumerate() {
        let mut values = Vec::new();
        for value in &found.conflict.values {
            let said = match field_of(kind, found) {
                Some(field) => said::in_words(ask, field, value)?,
                None => Some(value.clone()).filter(|text| !text.is_empty()),
            };
            values.push((value, said));
        }
        cards.push((number, found, values));
    }
    Ok(html! {
        @for (number, found, values) in &cards {
            @let conflict = &found.conflict;
            section.card {
                h2 { (ask.words.t_with("things-two-values", &[("field", said::name(ask, &conflict.field).into())])) }
                @if conflict.acted_on.is_none() { p { (ask.t("things-none-used")) } }
                @for (n, (value, said)) in values.iter().enumerate() {
                    @let form = ask.form_keyed("settle", &format!("{number}-{n}"));
                    (form.wrap(html! {
                        p {
                            @match said {
                                Some(said) => strong { (said::in_lines(said)) },
                                None => span.unknown { (ask.t("frame-not-known")) },
                            }
                            @if conflict.acted_on.as_ref() == Some(*value) { " (" (ask.t("things-used-now")) ")" }
                        }
                        (form.hidden("field", &conflict.field))
                        (form.hidden("value", value))
                        @if let Some((list, item)) = &found.item {
                            (form.hidden("list", list))
                            (form.hidden("item", &item.to_string()))
                        }
                        (form.quiet_submit("things-this-holds"))
                    }))
                }
            }
        }
    })
}

/// Writes the value that a person said holds.
pub(super) fn settle(doing: &mut Doing<'_>, sheet: SheetId, kind: SheetKind) -> Result<Next> {
    let form = doing.form;
    let field = form.text("field");
    let item: Option<ItemId> = form.text("item").parse().ok();
    let wanted = form.text("value").replace("\r\n", "\n");
    let book = doing.book()?;
    // Only what two people wrote: anything else is changed on the sheet's own form.
    let conflicts = book.conflicts(sheet, kind)?;
    let found = conflicts
        .iter()
        .filter(|c| c.conflict.field == field && c.item.as_ref().map(|(_, id)| *id) == item)
        .find_map(|c| {
            let value = c.conflict.values.iter().find(|v| v.trim() == wanted)?;
            Some((c, value))
        });
    let Some((of, value)) = found else {
        return Err(Wrong::ChangedMeanwhile.into());
    };
    let typed = [(field, value.as_str())];
    match &of.item {
        Some((list, item)) => book.set_item(sheet, kind, list, *item, &typed)?,
        None => book.set_sheet(sheet, kind, &typed)?,
    }
    Ok(Next::Go(doing.path.to_owned()))
}
