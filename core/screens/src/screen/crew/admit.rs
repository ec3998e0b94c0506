//! Inviting: this device's own request as a file, and admitting another's.
//!
//! Two people compare twenty digits aloud: a file that was swapped on its way shows others.

use maud::html;
use sward_book::Book;
use sward_book::fact::{DeviceKeys, JoinAsked};
use sward_book::ids::StreamId;
use sward_book::view::roster::MemberState;
use sward_crew::device_check_digits;
use sward_crew::join::{REQUEST_BYTES_MAX, make_request, read_request};

use super::ROLES;
use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::trouble::Wrong;
use crate::{Result, Trouble, part};

pub(super) const SCREEN: Screen = Screen {
    path: "/crew/admit",
    show,
    acts: &[("read", read), ("admit", admit)],
};

/// The request as a file to hand to a crew lead.
pub(super) fn request(doing: &mut Doing<'_>) -> Result<Next> {
    let book = doing.book()?;
    let bytes = make_request(&book.own_request_entry()?)?;
    let device = book.secret()?.stream().short();
    Ok(Next::File {
        name: format!("swardbook-request-{device}.swreq"),
        kind: "application/octet-stream",
        bytes,
    })
}

fn show(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let file = ask.form("read").with_files();
    let pending: Vec<JoinAsked> = book
        .roster()
        .members()
        .filter(|m| m.state == MemberState::Pending)
        .filter_map(|m| asked_of(book, m.stream))
        .collect();
    let roles: Vec<(&str, String)> = ROLES
        .iter()
        .map(|(_, value, key)| (*value, ask.t(key)))
        .collect();
    Ok(Page {
        title: ask.t("crew-admit-title"),
        main: html! {
            p { (ask.t("crew-admit-how")) }
            @if pending.is_empty() { p.note { (ask.t("crew-admit-none")) } }
            @for asked in &pending {
                @let stream = asked.device.stream.to_string();
                @let form = ask.form_keyed("admit", &stream);
                section.card {
                    h2 { (asked.person.name) }
                    p { (ask.t("crew-admit-compare")) }
                    p.code { (device_check_digits(&asked.device)) }
                    (form.wrap(html! {
                        (form.choice("role", "crew-admit-role", &roles, None))
                        (form.tick("same", &ask.t("crew-admit-same"), false))
                        (form.submit("crew-admit"))
                    }))
                }
            }
            section.card {
                h2 { (ask.t("crew-admit-file-title")) }
                (file.wrap(html! {
                    (file.file("request", "crew-admit-file", "", ".swreq"))
                    (file.quiet_submit("crew-admit-read"))
                }))
            }
            (part::way("/crew/swap", &ask.t("crew-admit-then")))
        },
        place: Place::Crew,
        back: Some("/crew".to_owned()),
    })
}

/// Takes a request in, so that it stands among those that wait.
fn read(doing: &mut Doing<'_>) -> Result<Next> {
    let file = doing.form.file("request")?;
    if file.len() > REQUEST_BYTES_MAX {
        return Err(Trouble::in_field("request", Trouble::TooLarge));
    }
    let request = read_request(file).map_err(|error| Trouble::in_field("request", error))?;
    let stream = request.asked.device.stream;
    let taken = doing
        .book()?
        .take_in(&[request.entry.wire().to_vec()], Some(stream))?;
    if let Some(refused) = taken.refused.into_iter().next() {
        return Err(Trouble::in_field("request", refused.error));
    }
    Ok(Next::Go("/crew/admit".to_owned()))
}

fn admit(doing: &mut Doing<'_>) -> Result<Next> {
    let stream: StreamId = doing.text("key").parse().map_err(|_| Trouble::NotFound)?;
    let role = ROLES
        .iter()
        .find(|(_, value, _)| *value == doing.text("role"))
        .map(|(role, _, _)| *role)
        .ok_or_else(|| Trouble::field("role", Wrong::Missing))?;
    if !doing.form.is_ticked("same") {
        return Err(Trouble::field("same", Wrong::Missing));
    }
    let book = doing.book()?;
    let asked = asked_of(book, stream).ok_or(Trouble::NotFound)?;
    book.admit(&asked, role)?;
    Ok(Next::Go("/crew/swap".to_owned()))
}

/// The request of a device that is known here.
fn asked_of(book: &Book, stream: StreamId) -> Option<JoinAsked> {
    let member = book.roster().member(stream)?;
    Some(JoinAsked {
        device: DeviceKeys {
            stream,
            recipient: member.recipient.clone()?,
        },
        person: member.person.clone()?,
        was: member.was,
    })
}
