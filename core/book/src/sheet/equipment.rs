//! An equipment sheet: a spreader or sprayer, how it is set, and on what it was calibrated.
//!
//! How a rate follows from a calibration run is the rules' matter.

use chrono::NaiveDate;
use serde::Serialize;
use sward_rules::Entered;

use super::SheetKind;
use super::doc::SheetDoc;
use super::reading::Reading;

choice! {
    /// What kind of equipment it is.
    EquipmentKind {
        /// A rotary spreader.
        RotarySpreader = "rotary_spreader",
        /// A drop spreader.
        DropSpreader = "drop_spreader",
        /// A spreader carried in the hand.
        HandSpreader = "hand_spreader",
        /// A sprayer carried on the back.
        BackpackSprayer = "backpack_sprayer",
        /// A sprayer with several nozzles on a boom.
        BoomSprayer = "boom_sprayer",
        /// A sprayer at the end of a garden hose.
        HoseEndSprayer = "hose_end_sprayer",
        /// A gun at the end of a hose from a tank.
        HandGun = "hand_gun",
        /// Something else.
        Other = "other",
    }
}

/// What an equipment sheet says; none or empty where nothing readable stands or two phones
/// disagree on what has no safe side.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct EquipmentSheet {
    /// What people call it.
    pub name: String,
    /// What kind it is.
    pub kind: Option<EquipmentKind>,
    /// What its hopper or tank holds.
    pub holds: Option<Entered>,
    /// The smallest step of the vessel that product is measured with.
    pub vessel: Option<Entered>,
    /// Width of one swath.
    pub swath: Option<Entered>,
    /// The setting it was calibrated at.
    pub setting: String,
    /// The pace it was calibrated at.
    pub pace: Option<Entered>,
    /// When it was calibrated.
    pub calibrated_on: Option<NaiveDate>,
    /// With which product or material.
    pub calibrated_for: String,
    /// What it put out by area.
    pub calibrated_rate: Option<Entered>,
    /// Who calibrated it.
    pub calibrated_by: String,
    /// Wheel, nozzle and other parts it was calibrated with.
    pub parts: String,
    /// Anything else.
    pub note: String,
    /// Whether it is out of use.
    pub retired: bool,
}

impl EquipmentSheet {
    /// Reads the sheet.
    pub fn read(sheet: &SheetDoc) -> Self {
        let r = Reading::of(SheetKind::Equipment, sheet);
        Self {
            name: r.text("name"),
            kind: EquipmentKind::of_word(&r.text("kind")),
            holds: r.number("holds"),
            vessel: r.number("vessel"),
            swath: r.number("swath"),
            setting: r.text("setting"),
            pace: r.number("pace"),
            calibrated_on: r.day("calibrated_on"),
            calibrated_for: r.text("calibrated_for"),
            calibrated_rate: r.number("calibrated_rate"),
            calibrated_by: r.text("calibrated_by"),
            parts: r.text("parts"),
            note: r.text("note"),
            retired: r.is_put_away("retired"),
        }
    }
}
