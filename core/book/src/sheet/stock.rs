//! A stock sheet: one lot of a product, as last counted.
//!
//! What visits took since then is not reckoned here.

use chrono::NaiveDate;
use serde::Serialize;
use sward_rules::Entered;

use super::SheetKind;
use super::doc::SheetDoc;
use super::reading::Reading;
use super::schema::HIDDEN;
use crate::ids::SheetId;

/// What a stock sheet says; none or empty where nothing readable stands.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StockSheet {
    /// The product's label sheet; none too while two phones name different ones.
    pub label: Option<SheetId>,
    /// The lot number on the package.
    pub lot: String,
    /// How much there was when it was last counted; of two counts the lower.
    pub on_hand: Option<Entered>,
    /// When that was; of two days the earlier.
    pub counted_on: Option<NaiveDate>,
    /// Below this much it is short.
    pub least: Option<Entered>,
    /// Where it is kept.
    pub place: String,
    /// Whether it is hidden: used up, given away.
    pub hidden: bool,
}

impl StockSheet {
    /// Reads the sheet.
    pub fn read(sheet: &SheetDoc) -> Self {
        let r = Reading::of(SheetKind::Stock, sheet);
        Self {
            label: r.text("label").parse().ok(),
            lot: r.text("lot"),
            on_hand: r.number("on_hand"),
            counted_on: r.day("counted_on"),
            least: r.number("least"),
            place: r.text("where"),
            hidden: r.is_put_away(HIDDEN),
        }
    }

    /// Whether the last count is at or below the amount that counts as short; none: not known,
    /// because one of them is not filled in or they cannot be compared.
    pub fn is_short(&self) -> Option<bool> {
        let order = self.on_hand?.compare(&self.least?).ok()?;
        Some(order.is_le())
    }
}
