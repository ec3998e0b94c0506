//! The active ingredients of a label sheet: added, hidden, shown again.
//!
//! One that was typed wrongly is hidden and added anew; nothing is deleted.

use maud::{Markup, html};
use sward_book::ids::{ItemId, SheetId};
use sward_book::sheet::schema::{self, Field};
use sward_book::sheet::{Item, SheetDoc, check_text};

use super::KIND;
use crate::ask::{Ask, Doing, Next};
use crate::screen::things::fields::{self, Purpose};
use crate::screen::things::{said, typed};
use crate::trouble::Wrong;
use crate::{Result, Trouble};

pub(super) const LIST: &str = "ingredients";

fn content_field() -> &'static Field {
    schema::list(KIND, LIST)
        .and_then(|list| list.fields.iter().find(|f| f.key == "content"))
        .expect("the table has the content of an ingredient")
}

/// An ingredient's content in words.
pub(super) fn content(ask: &Ask<'_>, item: &Item<'_>) -> Result<String> {
    let said = said::in_words(ask, content_field(), &item.text("content"))?;
    Ok(said.unwrap_or_else(|| ask.t("frame-not-known")))
}

/// The ingredients, and a form for one more.
pub(super) fn part(ask: &Ask<'_>, doc: &SheetDoc) -> Result<Markup> {
    let items = doc.items(LIST);
    let (hidden, shown): (Vec<&Item<'_>>, Vec<&Item<'_>>) =
        items.iter().partition(|item| item.is_hidden());
    let form = ask.form("add");
    Ok(html! {
        section {
            h2 { (ask.t("label-ingredients")) }
            @if shown.is_empty() { p { span.unknown { (ask.t("frame-not-known")) } ": " (ask.t("label-no-ingredient")) } }
            ul.list {
                @for item in &shown { (line(ask, item, "hide", "label-hide-ingredient")?) }
            }
            details open[ask.again.is_some_and(|a| a.form.text("do") == "add")] {
                summary { (ask.t("label-add-ingredient")) }
                (form.wrap(html! {
                    (form.text("name", "label-ingredient-name", "label-ingredient-name-help", None))
                    (fields::input(ask, &form, content_field(), "", Purpose::Blind)?)
                    (form.quiet_submit("label-add-this"))
                }))
            }
            @if !hidden.is_empty() {
                details {
                    summary { (ask.t("label-hidden-ingredients")) }
                    ul.list {
                        @for item in &hidden { (line(ask, item, "bring-back", "label-bring-ingredient-back")?) }
                    }
                }
            }
        }
    })
}

fn line(ask: &Ask<'_>, item: &Item<'_>, act: &'static str, button: &str) -> Result<Markup> {
    let form = ask.form_keyed(act, &item.id.to_string());
    Ok(html! {
        li {
            p { strong { (item.text("name")) } ", " (content(ask, item)?) }
            (form.wrap(html! { (form.quiet_submit(button)) }))
        }
    })
}

pub(super) fn add(doing: &mut Doing<'_>) -> Result<Next> {
    let label: SheetId = doing.param("label")?;
    let mut troubles = Vec::new();
    let name = doing.text("name").to_owned();
    if name.is_empty() {
        troubles.push(Trouble::field("name", Wrong::Missing));
    }
    let field = content_field();
    let content = match typed::composed(doing.form, field) {
        Ok(text) if text.is_empty() => Err(Trouble::field("content", Wrong::Missing)),
        Ok(text) => check_text(field, &text)
            .map(|_| text)
            .map_err(|error| Trouble::in_field("content", error)),
        Err(trouble) => Err(trouble),
    };
    match content {
        Ok(content) if troubles.is_empty() => {
            doing.book()?.add_ingredient(label, &name, &content)?;
            Ok(Next::Go(doing.path.to_owned()))
        }
        Ok(_) => Err(Trouble::Fields(troubles)),
        Err(trouble) => {
            troubles.push(trouble);
            Err(Trouble::Fields(troubles))
        }
    }
}

pub(super) fn hide(doing: &mut Doing<'_>) -> Result<Next> {
    set_hidden(doing, true)
}

pub(super) fn bring_back(doing: &mut Doing<'_>) -> Result<Next> {
    set_hidden(doing, false)
}

fn set_hidden(doing: &mut Doing<'_>, hidden: bool) -> Result<Next> {
    let label: SheetId = doing.param("label")?;
    let item: ItemId = doing
        .text("key")
        .parse()
        .map_err(|_| Trouble::Wrong(Wrong::NotOffered))?;
    doing.book()?.hide_item(label, KIND, LIST, item, hidden)?;
    Ok(Next::Go(doing.path.to_owned()))
}
