//! A plan: what is intended for a visit before it starts. It has the visit's own UUID.

use sward_rules::Entered;

use super::SheetKind;
use super::doc::SheetDoc;
use super::reading::Reading;
use crate::ids::{ItemId, SheetId};

/// What a plan says; none where nothing readable stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlanSheet {
    /// The label sheet to work from.
    pub label: Option<SheetId>,
    /// Product by area.
    pub rate: Option<Entered>,
    /// Water by area, for liquids.
    pub carrier: Option<Entered>,
    /// What the hopper or tank holds.
    pub holds: Option<Entered>,
    /// The smallest step of the vessel that product is measured with.
    pub vessel: Option<Entered>,
    /// Whether it goes on in two passes of half the rate.
    pub two_passes: bool,
    /// Width of one swath.
    pub swath: Option<Entered>,
    /// The equipment sheet of what it goes on with.
    pub equipment: Option<SheetId>,
    /// The stock sheet it is taken from.
    pub stock: Option<SheetId>,
    /// Protective gear worn.
    pub gear: String,
    /// Sections to treat; empty: all of the yard's.
    pub sections: Vec<ItemId>,
    /// Whether product is brought for the area less its uncertainty.
    pub less_uncertainty: bool,
}

impl PlanSheet {
    /// Reads the sheet.
    pub fn read(sheet: &SheetDoc) -> Self {
        let r = Reading::of(SheetKind::Plan, sheet);
        Self {
            label: r.text("label").parse().ok(),
            rate: r.number("rate"),
            carrier: r.number("carrier"),
            holds: r.number("holds"),
            vessel: r.number("vessel"),
            two_passes: r.text("passes") == "2",
            swath: r.number("swath"),
            equipment: r.text("equipment").parse().ok(),
            stock: r.text("stock").parse().ok(),
            gear: r.text("gear"),
            sections: r
                .text("sections")
                .split_whitespace()
                .filter_map(|id| id.parse().ok())
                .collect(),
            less_uncertainty: r.yes_no("less_uncertainty").unwrap_or(false),
        }
    }
}
