//! A new section: how it is measured, then its measures.

use maud::html;
use sward_book::ids::SheetId;
use sward_rules::measure::{Outline, WalkRead};

use super::choose::Entering;
use super::kind::Kind;
use super::{choose, read};
use crate::Result;
use crate::ask::{Ask, Doing, Next, Page, Place};

pub(super) fn show(ask: &Ask<'_>) -> Result<Page> {
    let yard: SheetId = ask.param("yard")?;
    let sheet = ask.book()?.yard_sheet(yard)?;
    let kind = choose::chosen(ask, "save", "shape");
    let main = match kind {
        None => html! {
            p.lead { (ask.words.t_with("measure-of-yard", &[("yard", sheet.name.clone().into())])) }
            h2 { (ask.t("measure-choose")) }
            (choose::ways(ask, "shape", &Kind::ALL))
        },
        Some(kind) => {
            let form = ask.form_keyed("save", kind.code());
            let form = if kind == Kind::Walk {
                form.with_files()
            } else {
                form
            };
            html! {
                p.lead { (ask.words.t_with("measure-of-yard", &[("yard", sheet.name.clone().into())])) }
                h2 { (kind.name(ask.words)) }
                (form.wrap(html! {
                    (form.text("name", "measure-name", "measure-name-help", None))
                    (choose::form_of(ask, &form, &Entering { name: "shape", kind, filled: None, around: None }))
                    (form.submit("measure-save"))
                }))
                p { a href=(ask.path) { (ask.t("measure-otherwise")) } }
            }
        }
    };
    Ok(Page {
        title: ask.t("measure-new-title"),
        main,
        place: Place::Yards,
        back: Some(match kind {
            Some(_) => ask.path.to_owned(),
            None => format!("/yards/{yard}"),
        }),
    })
}

pub(super) fn save(doing: &mut Doing<'_>) -> Result<Next> {
    let yard: SheetId = doing.param("yard")?;
    let kind = choose::sent(doing)?;
    let name = choose::name_sent(doing).map(str::to_owned);
    let (name, sent) = choose::both(name, read::shape(doing.form, kind))?;
    let outline = Outline {
        shape: sent.shape,
        left_out: Vec::new(),
    };
    let section = doing.book()?.add_section(yard, &name, &outline)?;
    Ok(Next::Go(with_walk(
        format!("/yards/{yard}/sections/{section}"),
        sent.walk.as_ref(),
    )))
}

/// The address, with how many fixes of a walk were read and used.
pub(super) fn with_walk(path: String, walk: Option<&WalkRead>) -> String {
    match walk {
        Some(walk) => format!("{path}?read={}&used={}", walk.read, walk.fixes.len()),
        None => path,
    }
}
