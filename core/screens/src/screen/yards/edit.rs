//! Changing what a yard sheet says of the place and its people.

use maud::html;
use sward_book::ids::SheetId;

use super::fields::{PLACE, beside, degrees_of, lines_of};
use super::new::zones;
use crate::ask::{Ask, Doing, Next, Page, Place};
use crate::part::form::NumberField;
use crate::trouble::Wrong;
use crate::{Result, Trouble};

pub(super) fn show(ask: &Ask<'_>) -> Result<Page> {
    let yard: SheetId = ask.param("yard")?;
    let sheet = ask.book()?.yard_sheet(yard)?;
    let form = ask.form("save");
    let mut zones = zones();
    if sheet.zone.is_none() {
        zones.insert(0, (String::new(), ask.t("frame-not-known")));
    }
    Ok(Page {
        title: ask
            .words
            .t_with("yards-edit-title", &[("yard", sheet.name.clone().into())]),
        main: html! {
            p.note { (ask.t("yards-edit-note")) }
            (form.wrap(html! {
                (form.text("name", "yards-name", "yards-name-help", Some(&sheet.name)))
                (form.text("address", "yards-address", "yards-address-help", Some(&sheet.address)))
                (form.text("state", "yards-state", "yards-state-help", Some(&sheet.state)))
                (form.select("zone", "yards-zone", &zones, Some(sheet.zone.map_or("", |z| z.name()))))
                (form.text("position", "yards-position", "yards-position-help", sheet.position.map(|p| p.to_string()).as_deref()))
                p { button.way type="button" data-here="position" hidden { (ask.t("yards-position-here")) } " " output data-here-state {} }
                @for field in &PLACE {
                    (form.lines(field.key, field.label, field.help, Some((field.value)(&sheet))))
                }
                (form.number(&NumberField {
                    name: "street_bearing",
                    label: "yards-street",
                    unit: "deg",
                    filled: sheet.street_bearing_deg.map(|deg| deg.to_string()),
                    from: ask.t("yards-street-help"),
                }))
                (form.submit("yards-save"))
            }))
        },
        place: Place::Yards,
        back: Some(format!("/yards/{yard}")),
    })
}

pub(super) fn save(doing: &mut Doing<'_>) -> Result<Next> {
    let yard: SheetId = doing.param("yard")?;
    if doing.text("name").is_empty() {
        return Err(Trouble::field("name", Wrong::Missing));
    }
    let mut typed: Vec<(&str, String)> = vec![
        ("name", doing.text("name").to_owned()),
        ("address", doing.text("address").to_owned()),
        ("state", doing.text("state").to_owned()),
        ("zone", doing.text("zone").to_owned()),
        ("position", doing.text("position").to_owned()),
        ("street_bearing", degrees_of(doing.text("street_bearing"))),
    ];
    typed.extend(
        PLACE
            .iter()
            .map(|field| (field.key, lines_of(doing.text(field.key)))),
    );
    let typed: Vec<(&str, &str)> = typed
        .iter()
        .map(|(key, text)| (*key, text.as_str()))
        .collect();
    beside(doing.book()?.set_yard_fields(yard, &typed))?;
    Ok(Next::Go(format!("/yards/{yard}")))
}
