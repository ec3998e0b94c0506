//! One member: giving another role, retiring a device, and becoming a crew lead by the recovery
//! code when every crew lead's device is lost.

use maud::{Markup, html};
use sward_book::Book;
use sward_book::fact::{Fact, Founded};
use sward_book::ids::{Hash, StreamId};
use sward_book::view::roster::{Member, MemberState};
use sward_crew::keys::device_keys;
use sward_crew::recovery::RecoveryCode;

use super::{ROLES, who};
use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::trouble::Wrong;
use crate::{Result, Trouble, part};

pub(super) const SCREEN: Screen = Screen {
    path: "/crew/member/{device}",
    show,
    acts: &[("role", give_role), ("retire", retire)],
};

pub(super) const RECOVER: Screen = Screen {
    path: "/crew/recover",
    show: show_recover,
    acts: &[("recover", recover)],
};

fn show(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let stream: StreamId = ask.param("device")?;
    let member = book.roster().member(stream).ok_or(Trouble::NotFound)?;
    let not_known = ask.t("frame-not-known");
    let licence = member
        .person
        .as_ref()
        .map(|p| p.licence.clone())
        .unwrap_or_default();
    let own = book.secret()?.stream();
    let is_lead = book.roster().is_lead(own);
    Ok(Page {
        title: who(book, stream),
        main: html! {
            dl {
                (part::row(&ask.t("crew-licence"), &licence, &not_known))
                (part::row(&ask.t("crew-device"), &stream.short(), &not_known))
            }
            @if member.was.is_some() { p.note { (ask.t("crew-was-another")) } }
            @if is_lead { (forms(ask, member, stream == own)) } @else { p.note { (ask.t("crew-lead-only")) } }
        },
        place: Place::Crew,
        back: Some("/crew".to_owned()),
    })
}

fn forms(ask: &Ask<'_>, member: &Member, is_own: bool) -> Markup {
    let roles: Vec<(&str, String)> = ROLES
        .iter()
        .map(|(_, value, key)| (*value, ask.t(key)))
        .collect();
    let now = member
        .role
        .and_then(|role| ROLES.iter().find(|(r, _, _)| *r == role))
        .map(|(_, value, _)| *value);
    let role = ask.form("role");
    let retire = ask.form("retire");
    html! {
        @if member.state == MemberState::Member {
            section.card {
                h2 { (ask.t("crew-role-title")) }
                (role.wrap(html! {
                    (role.choice("role", "crew-role", &roles, now))
                    (role.quiet_submit("crew-role-give"))
                }))
            }
        }
        @if !matches!(member.state, MemberState::Retired { .. }) && !is_own {
            section.card {
                h2 { (ask.t("crew-retire-title")) }
                p { (ask.t("crew-retire-help")) }
                (retire.wrap(html! {
                    (retire.lines("why", "crew-why", "crew-why-help", None))
                    (retire.tick("sure", &ask.t("crew-retire-sure"), false))
                    (retire.quiet_submit("crew-retire"))
                }))
            }
        }
    }
}

fn give_role(doing: &mut Doing<'_>) -> Result<Next> {
    let stream: StreamId = doing.param("device")?;
    let role = ROLES
        .iter()
        .find(|(_, value, _)| *value == doing.text("role"))
        .map(|(role, _, _)| *role)
        .ok_or_else(|| Trouble::field("role", Wrong::Missing))?;
    doing.book()?.give_role(stream, role)?;
    Ok(Next::Go("/crew".to_owned()))
}

fn retire(doing: &mut Doing<'_>) -> Result<Next> {
    let stream: StreamId = doing.param("device")?;
    let why = doing.needed("why")?.to_owned();
    if !doing.form.is_ticked("sure") {
        return Err(Trouble::field("sure", Wrong::Missing));
    }
    let book = doing.book()?;
    // A device in hand is in use. Another crew lead's device retires it, when it is gone.
    if book.secret()?.stream() == stream {
        return Err(Trouble::field("sure", Wrong::NotOffered));
    }
    book.retire(stream, &why)?;
    Ok(Next::Go("/crew".to_owned()))
}

fn show_recover(ask: &Ask<'_>) -> Result<Page> {
    ask.book()?;
    let form = ask.form("recover");
    Ok(Page {
        title: ask.t("crew-recover-title"),
        main: html! {
            p { (ask.t("crew-recover-how")) }
            (form.wrap(html! {
                (form.lines("code", "crew-recover-code", "crew-recover-code-help", None))
                (form.submit("crew-recover"))
            }))
        },
        place: Place::Crew,
        back: Some("/crew".to_owned()),
    })
}

fn recover(doing: &mut Doing<'_>) -> Result<Next> {
    let typed = doing.needed("code")?.to_owned();
    let code = RecoveryCode::read(&typed).map_err(|error| Trouble::in_field("code", error))?;
    let book = doing.book()?;
    let (crew, founded) = founding(book)?;
    let device = device_keys(book.secret()?)?;
    let person = book
        .roster()
        .member(device.stream)
        .and_then(|m| m.person.clone())
        .ok_or(Trouble::NotFound)?;
    book.recover(code.sign(crew, &founded, device, person)?)?;
    Ok(Next::Go("/crew".to_owned()))
}

fn founding(book: &Book) -> Result<(Hash, Founded)> {
    let crew = book.crew().ok_or(sward_crew::CrewError::NoCrew)?;
    let entry = book.entry(crew)?;
    let founded = entry.body().facts.iter().find_map(|fact| match fact {
        Fact::Founded(founded) => Some(founded.clone()),
        _ => None,
    });
    Ok((crew, founded.ok_or(sward_crew::CrewError::NoCrew)?))
}
