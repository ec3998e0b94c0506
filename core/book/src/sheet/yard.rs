//! A yard sheet: the place, the sections of its lawn, its people, and what lies near.
//!
//! How a section is measured is the rules' matter.

use chrono_tz::Tz;
use sward_rules::measure::Outline;
use sward_rules::sky::{Around, Nearby, Place, Sector};

use super::doc::{Item, SheetDoc};
use super::reading::Reading;
use super::{Offset, Position, SheetKind, value};
use crate::ids::ItemId;

/// A section of a yard's lawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// Its name in the sheet.
    pub id: ItemId,
    /// What people call it.
    pub name: String,
    /// Its outline, as entered; none while it is not measured.
    pub outline: Option<Outline>,
    /// Other outlines, drawn at the same time on other phones.
    pub other_outlines: Vec<Outline>,
    /// How far east of the yard sketch's origin its first corner lies.
    pub east: Option<Offset>,
    /// How far north of it.
    pub north: Option<Offset>,
    /// How far it is turned on the sketch, in degrees clockwise, from 0 to below 360.
    pub turn_deg: Option<f64>,
    /// Whether it is hidden from new visits.
    pub hidden: bool,
}

/// Someone to call or to tell about a treatment.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Contact {
    /// Its name in the sheet.
    pub id: ItemId,
    /// Who it is.
    pub name: String,
    /// Telephone number.
    pub phone: String,
    /// Owner, tenant, neighbour and the like.
    pub role: String,
    /// Whether they want notice before; none: nobody asked.
    pub wants_notice: Option<bool>,
    /// Whether it is hidden.
    pub hidden: bool,
}

choice! {
    /// What a mark on a yard sketch stands for.
    MarkKind {
        /// Where children play.
        PlayArea = "play_area",
        /// A pond, a stream, a pool.
        Water = "water",
        /// A well.
        Well = "well",
        /// A drain or a gully.
        Drain = "drain",
        /// Flowers that bees visit.
        Bloom = "bloom",
        /// A neighbour.
        Neighbour = "neighbour",
        /// A bee hive.
        Hive = "hive",
        /// A gate.
        Gate = "gate",
        /// The street.
        Street = "street",
        /// A building.
        Building = "building",
        /// A tree.
        Tree = "tree",
    }
}

/// Something that lies near, marked on the yard sketch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mark {
    /// Its name in the sheet.
    pub id: ItemId,
    /// What it is; none for what a newer program wrote.
    pub kind: Option<MarkKind>,
    /// What people call it.
    pub name: String,
    /// How far east of the yard sketch's origin.
    pub east: Option<Offset>,
    /// How far north of it.
    pub north: Option<Offset>,
    /// Whether it is hidden.
    pub hidden: bool,
}

impl Mark {
    /// What it is where drift is in question; none for what drift does not harm. A building has
    /// windows, and what a newer program wrote may be anything.
    pub fn around(&self) -> Option<Around> {
        Some(match self.kind {
            Some(MarkKind::PlayArea) => Around::PlayArea,
            Some(MarkKind::Water) => Around::Water,
            Some(MarkKind::Well) => Around::Well,
            Some(MarkKind::Drain) => Around::Drain,
            Some(MarkKind::Bloom) => Around::Blooms,
            Some(MarkKind::Neighbour) => Around::Neighbor,
            Some(MarkKind::Hive) => Around::Hive,
            Some(MarkKind::Building) => Around::Windows,
            Some(MarkKind::Gate | MarkKind::Street | MarkKind::Tree) => return None,
            None => Around::SomethingElse,
        })
    }

    /// It as the rules ask for what lies around, with the directions in which it lies; none for what
    /// drift does not harm.
    pub fn nearby(&self, lies: Option<Sector>) -> Option<Nearby> {
        Some(Nearby {
            what: self.around()?,
            name: self.name.clone(),
            lies,
        })
    }
}

/// What a yard sheet says. An empty text is not known, never "none".
#[derive(Debug, Clone, PartialEq)]
pub struct YardSheet {
    /// What people call the yard.
    pub name: String,
    /// Postal address.
    pub address: String,
    /// The state, as somebody typed it: which rules about signs and records may govern.
    pub state: String,
    /// The yard's time zone; none while it is not set.
    pub zone: Option<Tz>,
    /// Who lives there.
    pub people: String,
    /// Children, and where they play.
    pub children: String,
    /// Pets.
    pub pets: String,
    /// Bee hives, here and near.
    pub hives: String,
    /// Wells.
    pub well: String,
    /// Gate code, and how to get in.
    pub gate: String,
    /// On which days it is mown.
    pub mowing: String,
    /// When it is watered.
    pub irrigation: String,
    /// What others put on, as told.
    pub others_applied: String,
    /// Who wants notice before a treatment, and how.
    pub notice: String,
    /// Anything else.
    pub note: String,
    /// The direction in which the street lies, in degrees clockwise from north, from 0 to below
    /// 360.
    pub street_bearing_deg: Option<f64>,
    /// Where it lies: as entered, or else where a walk along a section's edge began.
    pub position: Option<Position>,
    /// Sections, in the order they were made.
    pub sections: Vec<Section>,
    /// Contacts, in the order they were made.
    pub contacts: Vec<Contact>,
    /// Marks on the sketch, in the order they were made.
    pub marks: Vec<Mark>,
}

impl YardSheet {
    /// Where the yard lies, for the sun's times; none while it is not known.
    pub fn place(&self) -> Option<Place> {
        let position = self.position?;
        Place::new(position.lat_deg(), position.lon_deg()).ok()
    }

    /// Reads the sheet. What cannot be read is shown as not there.
    pub fn read(sheet: &SheetDoc) -> Self {
        let r = Reading::of(SheetKind::Yard, sheet);
        let sections: Vec<Section> = sheet.items("sections").iter().map(section).collect();
        Self {
            name: r.text("name"),
            address: r.text("address"),
            state: r.text("state"),
            zone: r.text("zone").parse().ok(),
            people: r.text("people"),
            children: r.text("children"),
            pets: r.text("pets"),
            hives: r.text("hives"),
            well: r.text("well"),
            gate: r.text("gate"),
            mowing: r.text("mowing"),
            irrigation: r.text("irrigation"),
            others_applied: r.text("others_applied"),
            notice: r.text("notice"),
            note: r.text("note"),
            street_bearing_deg: r.degrees("street_bearing"),
            position: r
                .position("position")
                .or_else(|| Position::of_walks(&sections)),
            sections,
            contacts: sheet.items("contacts").iter().map(contact).collect(),
            marks: sheet.items("marks").iter().map(mark).collect(),
        }
    }
}

fn section(item: &Item<'_>) -> Section {
    let r = Reading::of_item(SheetKind::Yard, "sections", item);
    let mut outlines = item
        .get("outline")
        .iter()
        .flat_map(|v| v.all().map(value::outline_of).collect::<Vec<_>>())
        .filter_map(Result::ok)
        .collect::<Vec<_>>()
        .into_iter();
    Section {
        id: item.id,
        name: r.text("name"),
        outline: outlines.next(),
        other_outlines: outlines.collect(),
        east: r.offset("east"),
        north: r.offset("north"),
        turn_deg: r.degrees("turn"),
        hidden: item.is_hidden(),
    }
}

fn contact(item: &Item<'_>) -> Contact {
    let r = Reading::of_item(SheetKind::Yard, "contacts", item);
    Contact {
        id: item.id,
        name: r.text("name"),
        phone: r.text("phone"),
        role: r.text("role"),
        wants_notice: r.yes_no("wants_notice"),
        hidden: item.is_hidden(),
    }
}

fn mark(item: &Item<'_>) -> Mark {
    let r = Reading::of_item(SheetKind::Yard, "marks", item);
    Mark {
        id: item.id,
        kind: MarkKind::of_word(&r.text("kind")),
        name: r.text("name"),
        east: r.offset("east"),
        north: r.offset("north"),
        hidden: item.is_hidden(),
    }
}
