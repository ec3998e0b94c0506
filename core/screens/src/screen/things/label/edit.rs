//! Writing in a label sheet, field by field, with the label in hand.
//!
//! Ingredients are a list and stand on the sheet's own screen.

use maud::html;
use sward_book::ids::SheetId;

use super::{GROUPS, KIND};
use crate::Result;
use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::screen::things::{fields, typed};

pub(super) const SCREEN: Screen = Screen {
    path: "/things/labels/{label}/edit",
    show,
    acts: &[("save", save)],
};

fn show(ask: &Ask<'_>) -> Result<Page> {
    let label: SheetId = ask.param("label")?;
    let doc = ask.book()?.sheet(label, KIND)?;
    let form = ask.form("save");
    Ok(Page {
        title: ask.words.t_with(
            "label-edit-title",
            &[("product", doc.text("product").into())],
        ),
        main: html! {
            p { (ask.t("label-edit-how")) }
            (form.wrap(html! {
                (fields::groups(ask, &form, KIND, Some(&doc), GROUPS)?)
                p.note { (ask.t("label-edit-note")) }
                (form.submit("label-save"))
            }))
        },
        place: Place::Things,
        back: Some(format!("/things/labels/{label}")),
    })
}

fn save(doing: &mut Doing<'_>) -> Result<Next> {
    let label: SheetId = doing.param("label")?;
    let typed = typed::changed(doing.form, KIND, GROUPS)?;
    if !typed.is_empty() {
        doing
            .book()?
            .set_label_fields(label, &typed::borrowed(&typed))?;
    }
    Ok(Next::Go(format!("/things/labels/{label}")))
}
