//! SQLite: where a book lies, how it is opened, and plain reading and writing of its tables.
//!
//! No meaning here: what facts add up to is [`crate::view`]; who may write what, [`crate::book`].

mod entries;
mod find;
mod lock;
mod peers;
mod sheets;
mod views;

pub(crate) use find::VisitsWanted;
pub(crate) use lock::WriterLock;
pub use views::{ComparedRow, FoundByRow};
pub(crate) use views::{ViewKind, ViewRow};

use std::path::{Path, PathBuf};

use rusqlite::{Connection, OpenFlags, OptionalExtension as _};

use crate::refusal::StoreRefusal;
use crate::{BookError, Result, Written};

/// Format of the store, kept in `PRAGMA user_version`. Unstable until a first release.
pub const STORE_FORMAT: u64 = 3;
/// `PRAGMA application_id`: "SwBk".
const APPLICATION_ID: i64 = 0x5377_426b;
const FILE_NAME: &str = "book.sqlite";

/// The tables of one book.
pub(crate) struct Store {
    conn: Connection,
    /// The format found on disk, where it is an older one.
    older: Option<u64>,
}

/// All tables of a store.
const SCHEMA: [&str; 2] = [include_str!("schema.sql"), include_str!("view.sql")];

impl Store {
    /// Where the store of the book in `folder` lies.
    pub(crate) fn path(folder: &Path) -> PathBuf {
        folder.join(FILE_NAME)
    }

    /// Makes an empty store. The file must not exist.
    pub(crate) fn create(path: &Path) -> Result<Self> {
        let conn = Connection::open_with_flags(
            path,
            OpenFlags::SQLITE_OPEN_READ_WRITE
                | OpenFlags::SQLITE_OPEN_CREATE
                | OpenFlags::SQLITE_OPEN_NO_MUTEX,
        )
        .map_err(|e| cannot_open(path, e))?;
        Self::set_pragmas(&conn)?;
        conn.execute_batch(&format!(
            "BEGIN IMMEDIATE; {} PRAGMA application_id = {APPLICATION_ID}; PRAGMA user_version = {STORE_FORMAT}; COMMIT;",
            SCHEMA.concat()
        ))?;
        Ok(Self::over(conn, None))
    }

    fn over(conn: Connection, older: Option<u64>) -> Self {
        // One action runs some thirty statements; the cache holds sixteen unless told otherwise, and
        // preparing each anew cost more than running them.
        conn.set_prepared_statement_cache_capacity(128);
        Self { conn, older }
    }

    /// A store in memory, for rebuilding views beside the one on disk.
    pub(crate) fn in_memory() -> Result<Self> {
        let conn = Connection::open_in_memory()?;
        conn.execute_batch(&SCHEMA.concat())?;
        Ok(Self::over(conn, None))
    }

    /// Opens the store for writing.
    pub(crate) fn open(path: &Path) -> Result<Self> {
        Self::open_with(path, OpenFlags::SQLITE_OPEN_READ_WRITE)
    }

    /// Opens the store for reading. Another program may be writing it.
    pub(crate) fn open_reading(path: &Path) -> Result<Self> {
        // Reading a WAL store needs its index file to be writable or to be there already; where
        // the folder is read-only and neither holds, SQLite says so and we pass it on.
        Self::open_with(path, OpenFlags::SQLITE_OPEN_READ_ONLY)
    }

    fn open_with(path: &Path, mode: OpenFlags) -> Result<Self> {
        let conn = Connection::open_with_flags(path, mode | OpenFlags::SQLITE_OPEN_NO_MUTEX)
            .map_err(|e| cannot_open(path, e))?;
        let older = Self::check_format(&conn)?;
        if mode.contains(OpenFlags::SQLITE_OPEN_READ_WRITE) {
            Self::set_pragmas(&conn)?;
        } else if let Some(found) = older {
            return Err(BookError::refused(StoreRefusal::WriteOnceFirst { found }));
        } else {
            conn.busy_timeout(std::time::Duration::from_secs(5))?;
        }
        Ok(Self::over(conn, older))
    }

    /// The format, where it is an older one.
    fn check_format(conn: &Connection) -> Result<Option<u64>> {
        let number = |name: &str| conn.query_row(&format!("PRAGMA {name}"), [], |r| r.get(0));
        let application: i64 = number("application_id")?;
        if application != APPLICATION_ID {
            return Err(BookError::Damaged(
                "book.sqlite is not a Swardbook store".into(),
            ));
        }
        let found: u64 = u64::try_from(number("user_version")?).unwrap_or(0);
        if found > STORE_FORMAT {
            return Err(BookError::Newer {
                what: Written::Book,
                found,
                known: STORE_FORMAT,
            });
        }
        if found == 0 {
            return Err(BookError::Damaged(format!("unknown old format {found}")));
        }
        Ok((found < STORE_FORMAT).then_some(found))
    }

    /// The format found on disk, where it is an older one: then the views cannot be read before
    /// [`Store::renew_views`].
    pub(crate) fn older_format(&self) -> Option<u64> {
        self.older
    }

    /// Brings a store of an older format up to this one, all or nothing. Formats 1 and 2 differ in
    /// the views' table and rows alone, and `make_views` makes what stands in it anew from the log.
    pub(crate) fn renew_views(
        &mut self,
        make_views: impl FnOnce(&Self) -> Result<()>,
    ) -> Result<()> {
        self.transaction(|store| {
            store
                .conn
                .execute_batch(&format!("DROP TABLE view; {}", include_str!("view.sql")))?;
            make_views(store)?;
            store
                .conn
                .execute_batch(&format!("PRAGMA user_version = {STORE_FORMAT}"))?;
            Ok(())
        })?;
        self.older = None;
        Ok(())
    }

    /// Each setting's reason:
    /// WAL: readers go on while an action is written. FULL: what was acknowledged survives a
    /// power cut. `foreign_keys`: a row that points nowhere is a bug we want to hear of.
    /// `temp_store`: Android has no folder for temporary files. `trusted_schema` and
    /// `cell_size_check`: the file may have been tampered with.
    fn set_pragmas(conn: &Connection) -> Result<()> {
        conn.busy_timeout(std::time::Duration::from_secs(5))?;
        let mode: String = conn.query_row("PRAGMA journal_mode = WAL", [], |r| r.get(0))?;
        if mode != "wal" {
            return Err(BookError::refused(StoreRefusal::DiskUnsuited));
        }
        conn.execute_batch(
            "PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON; PRAGMA temp_store = MEMORY;
             PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON;",
        )?;
        Ok(())
    }

    /// Runs `work` in one transaction: all of it is stored, or nothing.
    pub(crate) fn transaction<T>(&self, work: impl FnOnce(&Self) -> Result<T>) -> Result<T> {
        self.begin()?;
        let done = work(self);
        self.end(done)
    }

    /// Begins a transaction that may write.
    pub(crate) fn begin(&self) -> Result<()> {
        self.conn.prepare_cached("BEGIN IMMEDIATE")?.execute([])?;
        Ok(())
    }

    /// Ends a transaction: commits what was done, or rolls all of it back.
    pub(crate) fn end<T>(&self, done: Result<T>) -> Result<T> {
        let committed = done.and_then(|value| {
            self.conn.prepare_cached("COMMIT")?.execute([])?;
            Ok(value)
        });
        if committed.is_err() {
            self.roll_back();
        }
        committed
    }

    fn roll_back(&self) {
        // SQLite has rolled back by itself where the disk was full; a second time says so.
        if !self.conn.is_autocommit() {
            let _ = self.conn.execute_batch("ROLLBACK");
        }
    }

    /// Leaves no room for more than a few pages, as a disk that is nearly full.
    #[cfg(any(test, feature = "testing"))]
    pub(crate) fn fill_disk(&self) -> Result<()> {
        let pages: u32 = self.conn.query_row("PRAGMA page_count", [], |r| r.get(0))?;
        self.conn.query_row(
            &format!("PRAGMA max_page_count = {}", pages + 2),
            [],
            |_| Ok(()),
        )?;
        Ok(())
    }

    /// SQLite's own check of the file; empty when all is well.
    pub(crate) fn integrity(&self) -> Result<Vec<String>> {
        let mut statement = self.conn.prepare("PRAGMA integrity_check(20)")?;
        let lines = statement.query_map([], |r| r.get::<_, String>(0))?;
        let lines: Vec<String> = lines.collect::<rusqlite::Result<_>>()?;
        Ok(lines.into_iter().filter(|l| l != "ok").collect())
    }

    /// Writes a whole copy into a new file. Copying the file itself would miss the write-ahead log.
    pub(crate) fn copy_into(&self, path: &Path) -> Result<()> {
        let name = path
            .to_str()
            .ok_or_else(|| BookError::refused(StoreRefusal::PathNotText))?;
        self.conn.execute("VACUUM INTO ?1", [name])?;
        Ok(())
    }

    /// Ends the write-ahead log, so that the store is one file without companions.
    pub(crate) fn close_into_one_file(self) -> Result<()> {
        self.conn
            .query_row("PRAGMA journal_mode = DELETE", [], |_| Ok(()))?;
        self.conn.close().map_err(|(_, error)| error.into())
    }

    /// Empties what can be made anew from the log.
    pub(crate) fn drop_derived(&self) -> Result<()> {
        self.conn
            .execute_batch("DELETE FROM view; DELETE FROM sheet;")?;
        Ok(())
    }

    /// A value that belongs to this device alone.
    pub(crate) fn local(&self, key: &str) -> Result<Option<Vec<u8>>> {
        let mut statement = self
            .conn
            .prepare_cached("SELECT value FROM local WHERE key = ?1")?;
        Ok(statement.query_row([key], |r| r.get(0)).optional()?)
    }

    /// Sets a value that belongs to this device alone.
    pub(crate) fn set_local(&self, key: &str, value: &[u8]) -> Result<()> {
        let mut statement = self
            .conn
            .prepare_cached("INSERT OR REPLACE INTO local (key, value) VALUES (?1, ?2)")?;
        statement.execute((key, value))?;
        Ok(())
    }

    /// Removes a value that belongs to this device alone.
    pub(crate) fn remove_local(&self, key: &str) -> Result<()> {
        self.conn
            .prepare_cached("DELETE FROM local WHERE key = ?1")?
            .execute([key])?;
        Ok(())
    }

    /// Removes everything that belongs to the device the store came from.
    pub(crate) fn forget_device(&self) -> Result<()> {
        self.conn
            .execute_batch("DELETE FROM local WHERE key <> 'crew'; DELETE FROM peer;")?;
        Ok(())
    }
}

fn cannot_open(path: &Path, error: rusqlite::Error) -> BookError {
    match error.sqlite_error_code() {
        Some(rusqlite::ErrorCode::CannotOpen | rusqlite::ErrorCode::PermissionDenied) => {
            BookError::NotWritable {
                path: path.to_owned(),
                source: std::io::Error::other(error.to_string()),
            }
        }
        _ => error.into(),
    }
}
