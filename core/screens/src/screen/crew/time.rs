//! Confirming this device's clock against another one. Until then no keep-off is called over.

use maud::html;
use sward_book::env::TimeProof;

use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::trouble::Wrong;
use crate::words::Clock;
use crate::{Result, Trouble};

pub(super) const SCREEN: Screen = Screen {
    path: "/crew/time",
    show,
    acts: &[("confirm", confirm)],
};

fn show(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let form = ask.form("confirm");
    let by = match book.time_proof()? {
        TimeProof::Unproven => "crew-time-unproven",
        TimeProof::Person => "crew-time-person",
        TimeProof::Network => "crew-time-network",
        TimeProof::Peer => "crew-time-peer",
    };
    let clock_ms = ask.shared.setting.env.clock().utc_ms;
    Ok(Page {
        title: ask.t("crew-time-title"),
        main: html! {
            p { (ask.t(by)) }
            @if !ask.now.proven && book.time_proof()? != TimeProof::Unproven { p { (ask.t("crew-time-far-off")) } }
            p { (ask.t("crew-time-says")) }
            p.big { (ask.words.moment(clock_ms, Clock::DayAndTime)) }
            p { (ask.t("crew-time-how")) }
            (form.wrap(html! {
                (form.tick("same", &ask.t("crew-time-same"), false))
                (form.submit("crew-time-confirm"))
            }))
            p.note { (ask.t("crew-time-wrong")) }
        },
        place: Place::Crew,
        back: Some("/crew".to_owned()),
    })
}

fn confirm(doing: &mut Doing<'_>) -> Result<Next> {
    if !doing.form.is_ticked("same") {
        return Err(Trouble::field("same", Wrong::Missing));
    }
    doing.book()?.confirm_time(TimeProof::Person)?;
    Ok(Next::Go("/".to_owned()))
}
