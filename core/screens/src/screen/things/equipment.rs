//! Spreaders and sprayers: how they are set, and on what they were calibrated.
//!
//! How a rate follows from a calibration run is the rules' matter.

use maud::{Markup, html};
use sward_book::ids::SheetId;
use sward_book::sheet::{EquipmentKind, EquipmentSheet, SheetKind};

use super::fields::Group;
use super::kept::{self, Kept};
use super::said;
use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::{Result, part};

pub(super) const SCREENS: [Screen; 3] = [
    Screen {
        path: "/things/equipment",
        show: list,
        acts: &[],
    },
    Screen {
        path: "/things/equipment/new",
        show: new,
        acts: &[("add", add)],
    },
    Screen {
        path: "/things/equipment/{id}",
        show: one,
        acts: &[
            ("save", save),
            ("settle", settle),
            ("put-away", put_away),
            ("bring-back", bring_back),
        ],
    },
];

/// The fields of an equipment sheet.
pub(super) const GROUPS: &[Group] = &[
    Group {
        heading: "",
        keys: &["name", "kind", "holds", "vessel", "swath"],
    },
    Group {
        heading: "things-calibration",
        keys: &[
            "calibrated_on",
            "calibrated_for",
            "calibrated_rate",
            "setting",
            "pace",
            "calibrated_by",
            "parts",
        ],
    },
    Group {
        heading: "things-more",
        keys: &["note"],
    },
];

const KEPT: Kept = Kept {
    kind: SheetKind::Equipment,
    groups: GROUPS,
    path: "/things/equipment",
    put_away: "retired",
    new_title: "things-equipment-new",
    put_away_button: "things-equipment-retire",
    bring_back_button: "things-equipment-back",
};

fn list(ask: &Ask<'_>) -> Result<Page> {
    let mut all = ask.book()?.equipment()?;
    all.sort_by(|(_, a), (_, b)| a.name.cmp(&b.name));
    let said = |away: bool| {
        all.iter()
            .filter(|(_, sheet)| sheet.retired == away)
            .map(|(id, sheet)| (*id, line(ask, sheet)))
            .collect::<Vec<_>>()
    };
    let shown = said(false);
    Ok(Page {
        title: ask.t("things-equipment"),
        main: html! {
            @if shown.is_empty() { p { (ask.t("things-equipment-none")) } }
            (kept::list(ask, &KEPT, &shown, &said(true)))
            (part::next_step("/things/equipment/new", &ask.t("things-equipment-add")))
        },
        place: Place::Things,
        back: Some("/things".to_owned()),
    })
}

fn line(ask: &Ask<'_>, sheet: &EquipmentSheet) -> Markup {
    html! {
        strong { (sheet.name) }
        @if let Some(kind) = sheet.kind { ", " (kind_words(ask, kind)) }
        br;
        (calibrated(ask, sheet))
    }
}

fn kind_words(ask: &Ask<'_>, kind: EquipmentKind) -> String {
    said::choice(ask, "kind", kind.word())
}

/// When it was calibrated and with what.
fn calibrated(ask: &Ask<'_>, sheet: &EquipmentSheet) -> Markup {
    let Some(day) = sheet.calibrated_on else {
        return html! { (ask.t("things-calibrated")) ": " span.unknown { (ask.t("frame-not-known")) } };
    };
    let material = match sheet.calibrated_for.as_str() {
        "" => ask.t("frame-not-known"),
        material => material.to_owned(),
    };
    html! {
        (ask.t("things-calibrated")) " " (said::day_with_age(ask, day))
        "; " (ask.t("things-calibrated-with")) ": " (material)
    }
}

/// When a calibration no longer holds. Common practice, no source.
fn hints(ask: &Ask<'_>) -> Markup {
    html! { p.note { (ask.t("things-calibration-void")) } }
}

fn new(ask: &Ask<'_>) -> Result<Page> {
    kept::new(ask, &KEPT, &hints(ask))
}

fn one(ask: &Ask<'_>) -> Result<Page> {
    let id: SheetId = ask.param("id")?;
    let sheet = ask.book()?.equipment_sheet(id)?;
    let above = html! {
        p { (calibrated(ask, &sheet)) }
        (part::way(&format!("/things/equipment/{id}/calibrate"), &ask.t("calibrate-go")))
        (hints(ask))
    };
    kept::one(ask, &KEPT, sheet.name, sheet.retired, &above)
}

fn add(doing: &mut Doing<'_>) -> Result<Next> {
    kept::add(doing, &KEPT)
}

fn save(doing: &mut Doing<'_>) -> Result<Next> {
    kept::save(doing, &KEPT)
}

fn settle(doing: &mut Doing<'_>) -> Result<Next> {
    kept::settle(doing, &KEPT)
}

fn put_away(doing: &mut Doing<'_>) -> Result<Next> {
    kept::put_away(doing, &KEPT, true)
}

fn bring_back(doing: &mut Doing<'_>) -> Result<Next> {
    kept::put_away(doing, &KEPT, false)
}
