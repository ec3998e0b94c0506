//! The first start: look at an invented season, start a book of one's own, or join a crew.
//!
//! The recovery code is made and shown here, once.

use std::sync::Arc;

use maud::html;
use sward_book::Book;
use sward_book::book::{Founding, Joining};
use sward_book::fact::Person;
use sward_crew::join::make_request;
use sward_crew::keys::{device_keys, new_device_secret};
use sward_crew::recovery::RecoveryCode;

use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::state::Which;
use crate::{Result, part};

pub(crate) const SCREENS: &[Screen] = &[
    Screen {
        path: "/start",
        show: start,
        acts: &[("found", found)],
    },
    Screen {
        path: "/join",
        show: join,
        acts: &[("ask", ask_to_join)],
    },
];

/// What stands at `/` before a book is open.
pub(crate) fn welcome(ask: &Ask<'_>) -> Page {
    let form = ask.form("season");
    Page {
        title: ask.t("first-title"),
        main: html! {
            p.lead { (ask.t("first-lead")) }
            (part::next_step("/start", &ask.t("first-own")))
            (form.wrap(html! { (form.quiet_submit("first-season")) }))
            (part::way("/join", &ask.t("first-join")))
            p.note { (ask.t("frame-label-is-the-law")) }
        },
        place: Place::Front,
        back: None,
    }
}

#[expect(clippy::unnecessary_wraps, reason = "the form that every screen has")]
fn start(ask: &Ask<'_>) -> Result<Page> {
    let form = ask.form("found");
    Ok(Page {
        title: ask.t("first-own-title"),
        main: html! {
            (form.wrap(html! {
                (form.text("crew", "first-crew", "first-crew-help", None))
                (form.text("name", "first-name", "first-name-help", None))
                (form.text("licence", "first-licence", "first-licence-help", None))
                (form.submit("first-found"))
            }))
        },
        place: Place::Front,
        back: Some("/".to_owned()),
    })
}

fn found(doing: &mut Doing<'_>) -> Result<Next> {
    let crew = doing.needed("crew")?.to_owned();
    let person = person(doing)?;
    let env = Arc::clone(&doing.shared.setting.env);
    let code = RecoveryCode::new(&env);
    let secret = new_device_secret(&env);
    let recipient = device_keys(&secret)?.recipient;
    let founding = Founding {
        crew,
        practice: false,
        recovery_key: code.public(),
        person,
        secret,
        recipient,
    };
    let book = Book::found(&doing.shared.folder_of(Which::Own), env, founding)?;
    doing.opened(Which::Own, book);
    let words = doing.words;
    let printed = code.printed();
    Ok(Next::Once(Page {
        title: words.t("first-code-title"),
        main: html! {
            p { (words.t("first-code-why")) }
            p.code { @for group in printed.split('-') { span { (group) } " " } }
            p { (words.t("first-code-once")) }
            (part::next_step("/", &words.t("first-code-written")))
        },
        place: Place::Front,
        back: None,
    }))
}

fn person(doing: &Doing<'_>) -> Result<Person> {
    Ok(Person {
        name: doing.needed("name")?.to_owned(),
        licence: doing.text("licence").to_owned(),
    })
}

#[expect(clippy::unnecessary_wraps, reason = "the form that every screen has")]
fn join(ask: &Ask<'_>) -> Result<Page> {
    let form = ask.form("ask");
    Ok(Page {
        title: ask.t("first-join-title"),
        main: html! {
            p { (ask.t("first-join-how")) }
            (form.wrap(html! {
                (form.text("name", "first-name", "first-name-help", None))
                (form.text("licence", "first-licence", "first-licence-help", None))
                (form.submit("first-ask"))
            }))
        },
        place: Place::Front,
        back: Some("/".to_owned()),
    })
}

fn ask_to_join(doing: &mut Doing<'_>) -> Result<Next> {
    let person = person(doing)?;
    let env = Arc::clone(&doing.shared.setting.env);
    let secret = new_device_secret(&env);
    let recipient = device_keys(&secret)?.recipient;
    let joining = Joining {
        person,
        practice: false,
        secret,
        recipient,
    };
    let book = Book::ask_to_join(&doing.shared.folder_of(Which::Own), env, joining)?;
    // Made now, so that a book that cannot ask is not kept open.
    make_request(&book.own_request_entry()?)?;
    doing.opened(Which::Own, book);
    Ok(Next::Go("/crew".to_owned()))
}
