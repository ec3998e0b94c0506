//! Treating: start, load, finish. With a start the keep-offs begin.

use sward_book::action;
use sward_rules::Field;

use crate::names::{check, entered, id, ids};
use crate::{Result, Swardbook};

/// What treating is started with.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct Start {
    /// The label sheet.
    pub label: String,
    /// The rate chosen: "2 lb/1000 ft2".
    pub rate: String,
    /// The sections; empty: every one that is measured and not hidden.
    pub sections: Vec<String>,
    /// The name of each check that is not known and that the person acknowledges.
    pub acknowledged: Vec<String>,
    /// Why it is started against a "don't treat"; none where nothing says so.
    pub against: Option<String>,
    /// What it is put on with; none where that is not told.
    pub equipment: Option<String>,
    /// The product's lot.
    pub lot: Option<String>,
    /// Protective gear worn.
    pub gear: Option<String>,
}

#[uniffi::export]
impl Swardbook {
    /// Starts treating; the ids of the keep-offs that begin, one a section. `Refused` names what
    /// has to be checked, acknowledged or given a reason first.
    pub fn start_treating(&self, visit: String, start: Start) -> Result<Vec<String>> {
        self.with(|open| {
            let acknowledged = start.acknowledged.iter().map(|name| check(name));
            let start = action::Start {
                label_sheet: id(&start.label)?,
                rate: entered(&start.rate, Field::Rate)?,
                sections: ids(&start.sections)?,
                acknowledged: acknowledged.collect::<sward_screens::Result<_>>()?,
                against: start.against,
                equipment: start.equipment,
                lot: start.lot,
                gear: start.gear,
            };
            open.books.writing(|book| {
                let begun = book.start(id(&visit)?, start)?;
                Ok(begun.iter().map(ToString::to_string).collect())
            })
        })
    }

    /// Records a load that was put on, on these keep-offs' sections; on all of the visit where none
    /// is named. Amounts as typed: "3 lb", "2 gal".
    pub fn record_load(
        &self,
        visit: String,
        keep_offs: Vec<String>,
        product: String,
        water: Option<String>,
        applied_utc_ms: i64,
    ) -> Result<()> {
        self.with(|open| {
            let product = entered(&product, Field::FilledProduct)?;
            let water = water
                .map(|water| entered(&water, Field::Carrier))
                .transpose()?;
            open.books.writing(|book| {
                let (visit, keep_offs) = (id(&visit)?, ids(&keep_offs)?);
                Ok(book.load(visit, keep_offs, product, water, applied_utc_ms)?)
            })
        })
    }

    /// Finishes treating and freezes its record. Each section was last applied at its last load,
    /// else now: from then its keep-off counts.
    pub fn finish_treating(&self, visit: String, note: String) -> Result<()> {
        self.with(|open| {
            open.books
                .writing(|book| Ok(book.finish(id(&visit)?, &[], &note)?))
        })
    }
}
