//! The yard sketch by itself: large, north up or as one stands in the street, on one page of paper.

use maud::html;
use sward_book::ids::SheetId;

use crate::ask::{Ask, Page, Place};
use crate::sketch::Sketch;
use crate::{Result, part};

pub(super) fn show(ask: &Ask<'_>) -> Result<Page> {
    let yard: SheetId = ask.param("yard")?;
    let sheet = ask.book()?.yard_sheet(yard)?;
    let from_street = ask.query("up") == Some("street");
    let sketch = Sketch::for_yard(ask, yard, &sheet)?;
    let sketch = match sheet.street_bearing_deg {
        Some(_) if from_street => sketch.seen_from_street(sheet.street_bearing_deg),
        _ => sketch,
    };
    Ok(Page {
        title: ask
            .words
            .t_with("yards-sketch-title", &[("yard", sheet.name.clone().into())]),
        main: html! {
            div.sheet { (sketch.markup(ask.words)) }
            p.note { (ask.t("yards-sketch-note")) }
            @match (sheet.street_bearing_deg, from_street) {
                (Some(_), true) => (part::way(ask.path, &ask.t("yards-north-up"))),
                (Some(_), false) => (part::way(&format!("{}?up=street", ask.path), &ask.t("yards-from-street"))),
                (None, _) => p.note { (ask.t("yards-street-unknown")) },
            }
            (part::way(&format!("/yards/{yard}/marks"), &ask.t("yards-to-marks")))
        },
        place: Place::Yards,
        back: Some(format!("/yards/{yard}")),
    })
}
