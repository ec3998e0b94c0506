//! Reading the sheets that have no view rows: equipment, stock, people, help lines; and the
//! conflicts of any sheet. They are few, so that they are read as they stand.

use super::Book;
use crate::Result;
use crate::ids::SheetId;
use crate::sheet::{
    EquipmentSheet, HelpLinesSheet, LabelWords, PersonSheet, SheetConflict, SheetDoc, SheetKind,
    StockSheet, conflicts_in,
};

impl Book {
    /// Spreaders and sprayers, the retired ones marked, by id.
    ///
    /// # Errors
    /// [`crate::BookError::Damaged`].
    pub fn equipment(&self) -> Result<Vec<(SheetId, EquipmentSheet)>> {
        self.sheets_read(SheetKind::Equipment, EquipmentSheet::read)
    }

    /// Product on hand, the hidden lots marked, by id.
    ///
    /// # Errors
    /// [`crate::BookError::Damaged`].
    pub fn stock(&self) -> Result<Vec<(SheetId, StockSheet)>> {
        self.sheets_read(SheetKind::Stock, StockSheet::read)
    }

    /// People of the crew with their licences, the hidden ones marked, by id.
    ///
    /// # Errors
    /// [`crate::BookError::Damaged`].
    pub fn people(&self) -> Result<Vec<(SheetId, PersonSheet)>> {
        self.sheets_read(SheetKind::Person, PersonSheet::read)
    }

    /// Whom to call; empty while nobody wrote a line.
    ///
    /// # Errors
    /// [`crate::BookError::Damaged`].
    pub fn help_lines(&self) -> Result<HelpLinesSheet> {
        let docs = self.sheets_of(SheetKind::HelpLines)?;
        Ok(HelpLinesSheet::read(
            docs.iter().map(|(id, doc)| (*id, doc)),
        ))
    }

    /// One spreader or sprayer.
    ///
    /// # Errors
    /// [`crate::BookError::NotFound`], [`crate::BookError::Damaged`].
    pub fn equipment_sheet(&self, id: SheetId) -> Result<EquipmentSheet> {
        Ok(EquipmentSheet::read(&self.sheet(id, SheetKind::Equipment)?))
    }

    /// One lot of product.
    ///
    /// # Errors
    /// [`crate::BookError::NotFound`], [`crate::BookError::Damaged`].
    pub fn stock_sheet(&self, id: SheetId) -> Result<StockSheet> {
        Ok(StockSheet::read(&self.sheet(id, SheetKind::Stock)?))
    }

    /// One person.
    ///
    /// # Errors
    /// [`crate::BookError::NotFound`], [`crate::BookError::Damaged`].
    pub fn person_sheet(&self, id: SheetId) -> Result<PersonSheet> {
        Ok(PersonSheet::read(&self.sheet(id, SheetKind::Person)?))
    }

    /// What a label sheet holds word by word, whether its method is filled in or not.
    ///
    /// # Errors
    /// [`crate::BookError::NotFound`], [`crate::BookError::Damaged`].
    pub fn label_words(&self, label: SheetId) -> Result<LabelWords> {
        Ok(LabelWords::read(&self.sheet(label, SheetKind::Label)?))
    }

    /// The fields of a sheet and of its lists' items that two people filled differently without
    /// seeing each other. Outlines are not among them: see [`crate::sheet::Section`].
    ///
    /// # Errors
    /// [`crate::BookError::NotFound`], [`crate::BookError::Damaged`].
    pub fn conflicts(&self, sheet: SheetId, kind: SheetKind) -> Result<Vec<SheetConflict>> {
        Ok(conflicts_in(kind, &self.sheet(sheet, kind)?))
    }

    /// The sheet of a kind with the lowest id, the same on every phone that has the same sheets.
    pub(crate) fn first_sheet(&self, kind: SheetKind) -> Result<Option<SheetId>> {
        Ok(self.store.sheets_of(kind)?.first().map(|(id, _)| *id))
    }

    fn sheets_of(&self, kind: SheetKind) -> Result<Vec<(SheetId, SheetDoc)>> {
        self.store
            .sheets_of(kind)?
            .into_iter()
            .map(|(id, saved)| Ok((id, SheetDoc::load(&saved)?)))
            .collect()
    }

    fn sheets_read<T>(
        &self,
        kind: SheetKind,
        read: impl Fn(&SheetDoc) -> T,
    ) -> Result<Vec<(SheetId, T)>> {
        let docs = self.sheets_of(kind)?;
        Ok(docs.iter().map(|(id, doc)| (*id, read(doc))).collect())
    }
}
