//! Fields that two people filled differently without seeing each other: the other value is one tap
//! away.

use maud::{Markup, html};
use sward_book::ids::{ItemId, SheetId};
use sward_book::sheet::SheetKind;

use super::fields::{beside, field_words};
use crate::Result;
use crate::ask::{Ask, Doing, Next};
use crate::trouble::Wrong;

/// Every such field of a yard with its values.
pub(super) fn cards(ask: &Ask<'_>, yard: SheetId) -> Result<Markup> {
    let conflicts = ask.book()?.conflicts(yard, SheetKind::Yard)?;
    Ok(html! {
        @for (number, found) in conflicts.iter().enumerate() {
            @let conflict = &found.conflict;
            div.card {
                p { (ask.words.t_with("yards-two-values", &[("field", field_words(ask, &conflict.field).into())])) }
                @for (n, value) in conflict.values.iter().enumerate() {
                    @let form = ask.form_keyed("settle", &format!("{number}-{n}"));
                    (form.wrap(html! {
                        p {
                            @if value.trim().is_empty() { span.unknown { (ask.t("frame-not-known")) } } @else { (value) }
                            @if conflict.acted_on.as_ref() == Some(value) { " (" (ask.t("yards-shown-now")) ")" }
                        }
                        (form.hidden("field", &conflict.field))
                        (form.hidden("value", value))
                        @if let Some((list, item)) = &found.item {
                            (form.hidden("list", list))
                            (form.hidden("item", &item.to_string()))
                        }
                        (form.quiet_submit("yards-this-holds"))
                    }))
                }
            }
        }
    })
}

pub(super) fn settle(doing: &mut Doing<'_>) -> Result<Next> {
    let yard: SheetId = doing.param("yard")?;
    let form = doing.form;
    let field = form.text("field");
    let item: Option<ItemId> = form.text("item").parse().ok();
    let book = doing.book()?;
    // Only what two people wrote: anything else is changed on the yard's own form.
    let conflicts = book.conflicts(yard, SheetKind::Yard)?;
    let found = conflicts
        .iter()
        .filter(|c| c.conflict.field == field && c.item.as_ref().map(|(_, id)| *id) == item)
        .find_map(|c| {
            Some((
                c,
                c.conflict
                    .values
                    .iter()
                    .find(|v| v.trim() == form.text("value").replace("\r\n", "\n"))?,
            ))
        });
    let Some((of, value)) = found else {
        return Err(Wrong::ChangedMeanwhile.into());
    };
    let typed = [(field, value.as_str())];
    match &of.item {
        Some((list, item)) => beside(book.set_item(yard, SheetKind::Yard, list, *item, &typed))?,
        None => beside(book.set_yard_fields(yard, &typed))?,
    }
    Ok(Next::Go(doing.path.to_owned()))
}
