//! Settings of this device: language, units, light; and what this device is.
//!
//! They belong to the desk, not to the book: nobody else receives them.

use maud::{Markup, html};
use sward_book::fact::Role;
use sward_book::view::roster::MemberState;

use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::part::frame::Light;
use crate::part::row;
use crate::trouble::Wrong;
use crate::words::{Language, Units};
use crate::{Result, Trouble, part};

pub(super) const SCREEN: Screen = Screen {
    path: "/things/settings",
    show,
    acts: &[("save", save)],
};

fn show(ask: &Ask<'_>) -> Result<Page> {
    ask.book()?;
    let form = ask.form("save");
    // Each language by its own name, so that whoever reads no other finds it.
    let languages: Vec<(&str, String)> = Language::ALL
        .iter()
        .map(|language| {
            let own = crate::words::Words {
                language: *language,
                ..ask.words
            };
            (language.code(), own.t("things-language-own"))
        })
        .collect();
    let units = [
        (Units::Us.code(), ask.t("things-units-us")),
        (Units::Metric.code(), ask.t("things-units-metric")),
    ];
    let lights = [
        (Light::Day.code(), ask.t("things-light-day")),
        (Light::Night.code(), ask.t("things-light-night")),
        (Light::Device.code(), ask.t("things-light-device")),
    ];
    let light = ask.desk().setting("light")?.unwrap_or_default();
    Ok(Page {
        title: ask.t("things-settings"),
        main: html! {
            (form.wrap(html! {
                (form.choice("language", "things-language", &languages, Some(ask.words.language.code())))
                (form.choice("units", "things-units", &units, Some(ask.words.units.code())))
                p.note { (ask.t("things-units-note")) }
                (form.choice("light", "things-light", &lights, Some(Light::of(&light).code())))
                (form.submit("things-save"))
            }))
            (device(ask)?)
        },
        place: Place::Things,
        back: Some("/things".to_owned()),
    })
}

/// What this device is in the crew, and where its book lies.
fn device(ask: &Ask<'_>) -> Result<Markup> {
    let book = ask.book()?;
    let not_known = ask.t("frame-not-known");
    let own = book
        .secret()
        .ok()
        .map(sward_book::keys::DeviceSecret::stream);
    let member = own.and_then(|own| book.roster().member(own));
    let person = member
        .and_then(|m| m.person.as_ref())
        .map(|p| p.name.clone())
        .unwrap_or_default();
    let role = match member.map(|m| (&m.state, m.role)) {
        Some((MemberState::Member, Some(Role::Office))) => ask.t("things-role-office"),
        Some((MemberState::Member, Some(Role::Applicator))) => ask.t("things-role-applicator"),
        Some((MemberState::Member, Some(Role::CrewLead))) => ask.t("things-role-lead"),
        _ => ask.t("things-role-none"),
    };
    let kind = if book.is_practice()? {
        "things-device-practice"
    } else {
        "things-device-real"
    };
    let name = own.map(|own| own.to_string()).unwrap_or_default();
    Ok(html! {
        h2 { (ask.t("things-device")) }
        dl {
            (row(&ask.t("things-device-crew"), book.roster().crew_name().unwrap_or_default(), &not_known))
            (row(&ask.t("things-device-person"), &person, &not_known))
            (row(&ask.t("things-device-role"), &role, &not_known))
            (row(&ask.t("things-device-kind"), &ask.t(kind), &not_known))
            (row(&ask.t("things-device-zone"), ask.shared.zone().name(), &not_known))
            (row(&ask.t("things-device-entries"), &ask.words.number(book.entry_count()?.into()), &not_known))
            (row(&ask.t("things-device-name"), &name, &not_known))
            (row(&ask.t("things-device-folder"), &book.folder().display().to_string(), &not_known))
        }
        (part::way("/crew", &ask.t("things-to-crew")))
    })
}

fn save(doing: &mut Doing<'_>) -> Result<Next> {
    let language = Language::of(doing.text("language"));
    let units = Units::of(doing.text("units"));
    let light = Light::of(doing.text("light"));
    let light = (light.code() == doing.text("light")).then_some(light);
    let (Some(language), Some(units), Some(light)) = (language, units, light) else {
        let asked = [
            ("language", language.is_none()),
            ("units", units.is_none()),
            ("light", light.is_none()),
        ];
        return Err(Trouble::Fields(
            asked
                .into_iter()
                .filter(|(_, missing)| *missing)
                .map(|(field, _)| Trouble::field(field, Wrong::NotOffered))
                .collect(),
        ));
    };
    let desk = doing.shared.desk();
    desk.set("language", language.code())?;
    desk.set("units", units.code())?;
    desk.set("light", light.code())?;
    Ok(Next::Go("/things/settings".to_owned()))
}
