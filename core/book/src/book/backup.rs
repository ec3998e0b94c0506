//! Backups: a whole copy of the store, without this device's keys and clock.
//!
//! Restoring is [`Book::restore`].

use std::fs;
use std::path::Path;

use super::Book;
use crate::refusal::StoreRefusal;
use crate::store::Store;
use crate::{BookError, Result};

impl Book {
    /// Writes a backup into a new file: all entries, sheets and views. The device's keys are not
    /// in it; whoever restores it gets new ones and asks to be admitted again.
    ///
    /// # Errors
    /// [`BookError::Refused`] when the file is there already; [`BookError::NotWritable`],
    /// [`BookError::DiskFull`]: then no file is left behind.
    pub fn back_up(&self, file: &Path) -> Result<()> {
        if file.exists() {
            return Err(BookError::refused(StoreRefusal::BackupIsThere {
                file: file.display().to_string(),
            }));
        }
        let mut fresh = file.as_os_str().to_owned();
        fresh.push(".part");
        let fresh = Path::new(&fresh);
        let written = self
            .write_backup(fresh)
            .and_then(|()| fs::rename(fresh, file).map_err(|source| not_writable(file, source)));
        if written.is_err() {
            let _ = fs::remove_file(fresh);
        }
        written
    }

    fn write_backup(&self, fresh: &Path) -> Result<()> {
        if fresh.exists() {
            fs::remove_file(fresh).map_err(|source| not_writable(fresh, source))?;
        }
        self.store.copy_into(fresh)?;
        let copy = Store::open(fresh)?;
        copy.forget_device()?;
        copy.close_into_one_file()?;
        let file = fs::File::open(fresh).map_err(|source| not_writable(fresh, source))?;
        file.sync_all()
            .map_err(|source| not_writable(fresh, source))
    }
}

fn not_writable(path: &Path, source: std::io::Error) -> BookError {
    BookError::NotWritable {
        path: path.to_owned(),
        source,
    }
}
