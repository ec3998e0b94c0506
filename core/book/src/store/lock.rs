//! One program writes a book at a time.

use std::fs::{File, OpenOptions, TryLockError};
use std::path::Path;

use crate::{BookError, Result};

/// Held while a book is open for writing; the system lets go of it when the program ends,
/// however it ends.
pub(crate) struct WriterLock {
    _file: File,
}

impl WriterLock {
    /// Takes the lock of the book in `folder`.
    ///
    /// # Errors
    /// [`BookError::Busy`] while another program holds it, [`BookError::NotWritable`].
    pub(crate) fn take(folder: &Path) -> Result<Self> {
        let path = folder.join("writer.lock");
        let not_writable = |source| BookError::NotWritable {
            path: path.clone(),
            source,
        };
        let file = OpenOptions::new()
            .create(true)
            .truncate(false)
            .write(true)
            .open(&path)
            .map_err(not_writable)?;
        match file.try_lock() {
            Ok(()) => Ok(Self { _file: file }),
            Err(TryLockError::WouldBlock) => Err(BookError::Busy),
            Err(TryLockError::Error(source)) => Err(not_writable(source)),
        }
    }
}
