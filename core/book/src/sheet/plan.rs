//! A plan: what is intended for a visit before it starts. It has the visit's own UUID.

use sward_rules::Entered;

use super::doc::SheetDoc;
use crate::ids::SheetId;

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
}

impl PlanSheet {
    /// Reads the sheet.
    pub fn read(sheet: &SheetDoc) -> Self {
        let number = |key: &str| Entered::parse(&sheet.text(key)).ok();
        Self {
            label: sheet.text("label").parse().ok(),
            rate: number("rate"),
            carrier: number("carrier"),
            holds: number("holds"),
            vessel: number("vessel"),
            two_passes: sheet.text("passes") == "2",
            swath: number("swath"),
        }
    }
}
