//! Whom to call or to tell about a treatment at a yard.

use maud::{Markup, html};
use sward_book::ids::{ItemId, SheetId};
use sward_book::sheet::{Contact, SheetKind};

use super::fields::beside;
use crate::ask::{Ask, Doing, Next, Page, Place};
use crate::part::form::FormPart;
use crate::{Result, Trouble};

const LIST: &str = "contacts";
/// The fields of a contact, as the book has them.
const FIELDS: [&str; 4] = ["name", "phone", "role", "wants_notice"];

pub(super) fn show(ask: &Ask<'_>) -> Result<Page> {
    let yard: SheetId = ask.param("yard")?;
    let sheet = ask.book()?.yard_sheet(yard)?;
    let new = ask.form("add");
    Ok(Page {
        title: ask.words.t_with(
            "yards-contacts-title",
            &[("yard", sheet.name.clone().into())],
        ),
        main: html! {
            @for contact in sheet.contacts.iter().filter(|c| !c.hidden) { (one(ask, contact)) }
            h2 { (ask.t("yards-contact-new")) }
            (new.wrap(html! {
                (fields(ask, &new, None))
                (new.submit("yards-contact-add"))
            }))
        },
        place: Place::Yards,
        back: Some(format!("/yards/{yard}")),
    })
}

fn one(ask: &Ask<'_>, contact: &Contact) -> Markup {
    let key = contact.id.to_string();
    let (form, hide) = (ask.form_keyed("save", &key), ask.form_keyed("hide", &key));
    html! {
        details.card open[ask.again.is_some_and(|a| a.form.text("key") == key)] {
            summary { (line(ask, contact)) }
            (form.wrap(html! {
                (fields(ask, &form, Some(contact)))
                (form.quiet_submit("yards-save"))
            }))
            (hide.wrap(html! { (hide.quiet_submit("yards-contact-hide")) }))
        }
    }
}

/// A contact in one line, with whether they want notice.
pub(super) fn line(ask: &Ask<'_>, contact: &Contact) -> String {
    let notice = ask.t(match contact.wants_notice {
        Some(true) => "yards-notice-yes",
        Some(false) => "yards-notice-no",
        None => "yards-notice-unknown",
    });
    [
        contact.name.as_str(),
        &contact.role,
        &contact.phone,
        &notice,
    ]
    .into_iter()
    .filter(|part| !part.trim().is_empty())
    .collect::<Vec<_>>()
    .join(" · ")
}

fn fields(ask: &Ask<'_>, form: &FormPart<'_>, filled: Option<&Contact>) -> Markup {
    let notice = [
        ("yes", ask.t("yards-yes")),
        ("no", ask.t("yards-no")),
        ("", ask.t("yards-nobody-asked")),
    ];
    let wants = filled.map_or("", |c| match c.wants_notice {
        Some(true) => "yes",
        Some(false) => "no",
        None => "",
    });
    html! {
        (form.text("name", "yards-contact-name", "", filled.map(|c| c.name.as_str())))
        (form.text("phone", "yards-phone", "", filled.map(|c| c.phone.as_str())))
        (form.text("role", "yards-role", "yards-role-help", filled.map(|c| c.role.as_str())))
        (form.choice("wants_notice", "yards-wants-notice", &notice, Some(wants)))
    }
}

fn item(doing: &Doing<'_>) -> Result<ItemId> {
    doing.text("key").parse().map_err(|_| Trouble::NoForm)
}

pub(super) fn add(doing: &mut Doing<'_>) -> Result<Next> {
    let yard: SheetId = doing.param("yard")?;
    let form = doing.form;
    let typed: Vec<(&str, &str)> = FIELDS.iter().map(|key| (*key, form.text(key))).collect();
    beside(doing.book()?.add_item(yard, SheetKind::Yard, LIST, &typed))?;
    Ok(Next::Go(doing.path.to_owned()))
}

pub(super) fn save(doing: &mut Doing<'_>) -> Result<Next> {
    let (yard, id): (SheetId, _) = (doing.param("yard")?, item(doing)?);
    let form = doing.form;
    let typed: Vec<(&str, &str)> = FIELDS.iter().map(|key| (*key, form.text(key))).collect();
    beside(
        doing
            .book()?
            .set_item(yard, SheetKind::Yard, LIST, id, &typed),
    )?;
    Ok(Next::Go(doing.path.to_owned()))
}

pub(super) fn hide(doing: &mut Doing<'_>) -> Result<Next> {
    let (yard, id): (SheetId, _) = (doing.param("yard")?, item(doing)?);
    doing
        .book()?
        .hide_item(yard, SheetKind::Yard, LIST, id, true)?;
    Ok(Next::Go(doing.path.to_owned()))
}
