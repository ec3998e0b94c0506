//! What equipment, stock and people have in common: a sheet is begun, changed, put away and
//! brought back on a form of its own.
//!
//! Their lists, and what a sheet says at a glance, stand in their own files.

use maud::{Markup, html};
use sward_book::ids::SheetId;
use sward_book::sheet::SheetKind;
use sward_book::sheet::schema::{NO, YES};

use super::fields::{self, Group};
use super::{two_values, typed};
use crate::Result;
use crate::ask::{Ask, Doing, Next, Page, Place};

/// A kind of sheet with its place and words.
pub(super) struct Kept {
    /// The kind.
    pub(super) kind: SheetKind,
    /// Its fields.
    pub(super) groups: &'static [Group],
    /// The address of its list.
    pub(super) path: &'static str,
    /// The field that puts it away.
    pub(super) put_away: &'static str,
    /// The title of the form for a new one.
    pub(super) new_title: &'static str,
    /// The button that puts it away.
    pub(super) put_away_button: &'static str,
    /// The button that brings it back.
    pub(super) bring_back_button: &'static str,
}

/// The form for a new one.
pub(super) fn new(ask: &Ask<'_>, kept: &Kept, above: &Markup) -> Result<Page> {
    // Before a book is open there is nothing to write in.
    ask.book()?;
    let form = ask.form("add");
    Ok(Page {
        title: ask.t(kept.new_title),
        main: html! {
            (above)
            (form.wrap(html! {
                (fields::groups(ask, &form, kept.kind, None, kept.groups)?)
                (form.submit("things-save"))
            }))
        },
        place: Place::Things,
        back: Some(kept.path.to_owned()),
    })
}

/// Adds a new one.
pub(super) fn add(doing: &mut Doing<'_>, kept: &Kept) -> Result<Next> {
    let typed = typed::changed(doing.form, kept.kind, kept.groups)?;
    doing
        .book()?
        .add_sheet(kept.kind, &typed::borrowed(&typed))?;
    Ok(Next::Go(kept.path.to_owned()))
}

/// One sheet: what it says at a glance, and the form that changes it.
pub(super) fn one(
    ask: &Ask<'_>,
    kept: &Kept,
    title: String,
    is_away: bool,
    above: &Markup,
) -> Result<Page> {
    let id: SheetId = ask.param("id")?;
    let book = ask.book()?;
    let doc = book.sheet(id, kept.kind)?;
    let conflicts = book.conflicts(id, kept.kind)?;
    let form = ask.form("save");
    Ok(Page {
        title,
        main: html! {
            @if is_away { p.big { (ask.t("things-put-away")) } }
            (above)
            (two_values::cards(ask, kept.kind, &conflicts)?)
            (form.wrap(html! {
                (fields::groups(ask, &form, kept.kind, Some(&doc), kept.groups)?)
                (form.submit("things-save"))
            }))
            @if is_away {
                @let back = ask.form("bring-back");
                (back.wrap(html! { (back.quiet_submit(kept.bring_back_button)) }))
            } @else {
                @let away = ask.form("put-away");
                (away.wrap(html! { (away.quiet_submit(kept.put_away_button)) }))
            }
        },
        place: Place::Things,
        back: Some(kept.path.to_owned()),
    })
}

/// Writes what was changed.
pub(super) fn save(doing: &mut Doing<'_>, kept: &Kept) -> Result<Next> {
    let id: SheetId = doing.param("id")?;
    let typed = typed::changed(doing.form, kept.kind, kept.groups)?;
    if !typed.is_empty() {
        doing
            .book()?
            .set_sheet(id, kept.kind, &typed::borrowed(&typed))?;
    }
    Ok(Next::Go(kept.path.to_owned()))
}

/// Puts it away, or brings it back; nothing is deleted.
pub(super) fn put_away(doing: &mut Doing<'_>, kept: &Kept, away: bool) -> Result<Next> {
    let id: SheetId = doing.param("id")?;
    let value = if away { YES } else { NO };
    doing
        .book()?
        .set_sheet(id, kept.kind, &[(kept.put_away, value)])?;
    Ok(Next::Go(kept.path.to_owned()))
}

/// Writes the value that a person said holds.
pub(super) fn settle(doing: &mut Doing<'_>, kept: &Kept) -> Result<Next> {
    let id: SheetId = doing.param("id")?;
    two_values::settle(doing, id, kept.kind)
}

/// A list with those that are put away folded below.
pub(super) fn list(
    ask: &Ask<'_>,
    kept: &Kept,
    shown: &[(SheetId, Markup)],
    away: &[(SheetId, Markup)],
) -> Markup {
    let line = |id: &SheetId, said: &Markup| {
        html! { li { a.way href=(format!("{}/{id}", kept.path)) { span { (said) } } } }
    };
    html! {
        ul.list { @for (id, said) in shown { (line(id, said)) } }
        @if !away.is_empty() {
            details {
                summary { (ask.t("things-away")) }
                ul.list { @for (id, said) in away { (line(id, said)) } }
            }
        }
    }
}
