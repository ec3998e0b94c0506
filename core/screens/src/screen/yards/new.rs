//! A new yard: what it is called, where it is, and its time zone.

use maud::html;

use crate::ask::{Ask, Doing, Next, Page, Place};
use crate::trouble::Wrong;
use crate::words::Units;
use crate::{Result, Trouble};

#[expect(clippy::unnecessary_wraps, reason = "every screen has this shape")]
pub(super) fn show(ask: &Ask<'_>) -> Result<Page> {
    let form = ask.form("add");
    let units = [
        ("us", ask.t("yards-units-us")),
        ("metric", ask.t("yards-units-metric")),
    ];
    Ok(Page {
        title: ask.t("yards-new-title"),
        main: html! {
            (form.wrap(html! {
                (form.text("name", "yards-name", "yards-name-help", None))
                (form.text("address", "yards-address", "yards-address-help", None))
                (form.select("zone", "yards-zone", &zones(), Some(ask.shared.setting.zone.name())))
                (form.choice("units", "yards-units", &units, Some(ask.words.units.code())))
                (form.submit("yards-add-and-measure"))
            }))
        },
        place: Place::Yards,
        back: Some("/yards".to_owned()),
    })
}

/// Every time zone: those of the United States first, then all by name.
pub(super) fn zones() -> Vec<(String, String)> {
    const FIRST: [&str; 8] = [
        "America/New_York",
        "America/Chicago",
        "America/Denver",
        "America/Phoenix",
        "America/Los_Angeles",
        "America/Anchorage",
        "Pacific/Honolulu",
        "America/Puerto_Rico",
    ];
    let rest = chrono_tz::TZ_VARIANTS.iter().map(|zone| zone.name());
    FIRST
        .into_iter()
        .chain(rest.filter(|name| !FIRST.contains(name)))
        // Shown as it is stored: a list of six hundred weighs half as much that way.
        .map(|name| (name.to_owned(), name.to_owned()))
        .collect()
}

pub(super) fn add(doing: &mut Doing<'_>) -> Result<Next> {
    let mut troubles = Vec::new();
    let name = doing.text("name").to_owned();
    if name.is_empty() {
        troubles.push(Trouble::field("name", Wrong::Missing));
    }
    let zone = doing.text("zone").to_owned();
    if zone.parse::<chrono_tz::Tz>().is_err() {
        troubles.push(Trouble::field("zone", Wrong::NotOffered));
    }
    let units = Units::of(doing.text("units"));
    if units.is_none() {
        troubles.push(Trouble::field("units", Wrong::NotOffered));
    }
    if !troubles.is_empty() {
        return Err(Trouble::Fields(troubles));
    }
    let address = doing.text("address").to_owned();
    let yard = doing.book()?.add_yard(&name, &address, &zone)?;
    if let Some(units) = units {
        doing.shared.desk().set("units", units.code())?;
    }
    Ok(Next::Go(format!("/yards/{yard}/sections/new")))
}

#[cfg(test)]
mod tests {
    use super::zones;

    #[test]
    fn every_zone_is_offered_once() {
        let mut names: Vec<String> = zones().into_iter().map(|(name, _)| name).collect();
        assert_eq!(names[0], "America/New_York");
        let count = names.len();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), count);
        assert_eq!(count, chrono_tz::TZ_VARIANTS.len());
        assert!(names.iter().all(|n| n.parse::<chrono_tz::Tz>().is_ok()));
    }
}
