//! Crew: are we in step? Who belongs, who waits, what is missing from whom, and the ways to swap
//! records, settle questions and confirm the time.
//!
//! Membership is [`sward_book::view::roster`]'s; the files are [`sward_crew`]'s.

mod admit;
mod member;
mod settle;
mod swap;
mod time;

use maud::{Markup, html};
use sward_book::Book;
use sward_book::fact::Role;
use sward_book::ids::StreamId;
use sward_book::view::roster::{Member, MemberState};
use sward_crew::{crew_check_digits, device_check_digits};

use crate::Result;
use crate::ask::{Ask, Page, Place, Screen};
use crate::part;
use crate::screen::visit::who;

pub(crate) const SCREENS: &[Screen] = &[
    Screen {
        path: "/crew",
        show,
        acts: &[("request", admit::request)],
    },
    swap::SCREEN,
    admit::SCREEN,
    member::SCREEN,
    member::RECOVER,
    settle::SCREEN,
    settle::OF_VISIT,
    time::SCREEN,
];

/// Roles with the names of their messages and of the form's values.
const ROLES: [(Role, &str, &str); 3] = [
    (Role::Applicator, "applicator", "crew-role-applicator"),
    (Role::CrewLead, "crew_lead", "crew-role-lead"),
    (Role::Office, "office", "crew-role-office"),
];

/// How many questions wait for a person's answer.
pub(super) fn questions_open(book: &Book) -> Result<usize> {
    settle::count(book)
}

fn show(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let own = book.secret()?.stream();
    let roster = book.roster();
    let is_lead = roster.is_lead(own);
    let belongs = roster
        .member(own)
        .is_some_and(|m| m.state == MemberState::Member);
    let open = settle::count(book)?;
    Ok(Page {
        title: ask.t("crew-title"),
        main: html! {
            (identity(ask, book))
            @if belongs { (part::next_step("/crew/swap", &ask.t("crew-to-swap"))) }
            @else { (own_request(ask, book)) }
            (waiting(ask, book)?)
            @if open > 0 {
                (part::way("/crew/settle", &ask.words.t_with("crew-to-settle", &[("n", open.into())])))
            }
            h2 { (ask.t("crew-members")) }
            ul.list { @for member in roster.members() { li { (member_line(ask, member, own)) } } }
            @if is_lead { (part::way("/crew/admit", &ask.t("crew-to-admit"))) }
            @else { (part::way("/crew/recover", &ask.t("crew-to-recover"))) }
            (part::way("/crew/time", &ask.t("crew-to-time")))
        },
        place: Place::Crew,
        back: None,
    })
}

fn identity(ask: &Ask<'_>, book: &Book) -> Markup {
    let roster = book.roster();
    html! {
        @match (roster.crew_name(), book.crew()) {
            (Some(name), Some(crew)) => {
                p.big { (name) }
                @if roster.practice() { p.note { (ask.t("crew-practice")) } }
                p.note { (ask.words.t_with("crew-digits", &[("digits", crew_check_digits(crew).into())])) }
            },
            _ => p.unknown { (ask.t("crew-none-yet")) },
        }
    }
}

/// This device's own request, while nobody has admitted it.
fn own_request(ask: &Ask<'_>, book: &Book) -> Markup {
    let Ok(asked) = book.own_request() else {
        return part::next_step("/crew/swap", &ask.t("crew-to-swap"));
    };
    let form = ask.form("request");
    html! {
        section.card {
            h2 { (ask.t("crew-pending-title")) }
            p { (ask.t("crew-pending-how")) }
            p { (ask.t("crew-pending-digits")) }
            p.code { (device_check_digits(&asked.device)) }
            (form.wrap(html! { (form.submit("crew-request-download")) }))
            (part::way("/crew/swap", &ask.t("crew-pending-then")))
        }
    }
}

fn waiting(ask: &Ask<'_>, book: &Book) -> Result<Markup> {
    let missing = book.waiting_for()?;
    Ok(html! {
        @if !missing.is_empty() {
            h2 { (ask.t("crew-waiting")) }
            ul.list {
                @for (stream, entries) in &missing {
                    li { (ask.words.t_with("crew-waiting-line", &[
                        ("who", who(book, *stream).into()),
                        ("n", (*entries).into()),
                    ])) }
                }
            }
            p.note { (ask.t("crew-waiting-help")) }
        }
    })
}

fn member_line(ask: &Ask<'_>, member: &Member, own: StreamId) -> Markup {
    let name = member
        .person
        .as_ref()
        .map_or_else(|| ask.t("crew-not-told"), |p| p.name.clone());
    let state = ask.t(match member.state {
        MemberState::Pending => "crew-state-pending",
        MemberState::Member => "crew-state-member",
        MemberState::Retired { .. } => "crew-state-retired",
    });
    let role = member
        .role
        .and_then(|role| ROLES.iter().find(|(r, _, _)| *r == role))
        .map_or_else(String::new, |(_, _, key)| ask.t(key));
    html! {
        a.way href=(format!("/crew/member/{}", member.stream)) {
            strong { (name) } @if member.stream == own { " (" (ask.t("crew-this-device")) ")" } br;
            span { (state) @if !role.is_empty() { ", " (role) } ", " (member.stream.short()) }
        }
    }
}

#[cfg(test)]
mod tests;
