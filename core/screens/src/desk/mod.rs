//! The desk: what belongs to the screens of this device alone. Half-filled forms, settings, the
//! last numbers typed, and which forms were sent already.
//!
//! A small SQLite file of its own beside the book: nothing here is a record, nothing is swapped.

use std::path::Path;

use rusqlite::{Connection, ErrorCode, OptionalExtension as _, params};

use crate::{Result, Trouble};

/// How many earlier numbers a field offers.
pub(crate) const RECENT_MOST: usize = 3;

/// Forms sent longer ago than this cannot be sent again by a double tap.
const SENT_KEPT_MS: i64 = 2 * 24 * 3_600_000;

const SCHEMA: &str = "
CREATE TABLE IF NOT EXISTS setting (name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS draft (form TEXT PRIMARY KEY, fields TEXT NOT NULL, saved_ms INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS sent (once TEXT PRIMARY KEY, then_go TEXT NOT NULL, sent_ms INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS recent (field TEXT NOT NULL, value TEXT NOT NULL, used_ms INTEGER NOT NULL,
  PRIMARY KEY (field, value)) STRICT;
";

/// A half-filled form.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Draft {
    /// Its fields, as typed.
    pub(crate) fields: Vec<(String, String)>,
    /// When it was last typed in; milliseconds since 1970 in UTC.
    pub(crate) saved_ms: i64,
}

/// The open desk.
pub(crate) struct Desk {
    conn: Connection,
}

impl Desk {
    /// Opens the desk in a folder, which is made where it is missing. A damaged one is set aside and
    /// begun anew: half-filled forms must never stand between a person and the book.
    pub(crate) fn open(folder: &Path) -> Result<Self> {
        make_folder(folder).map_err(Trouble::System)?;
        let path = folder.join("desk.sqlite");
        match Self::open_at(&path) {
            Err(Trouble::Desk(error)) if is_damage(&error) => {
                set_aside(&path).map_err(Trouble::System)?;
                Self::open_at(&path)
            }
            opened => opened,
        }
    }

    fn open_at(path: &Path) -> Result<Self> {
        let conn = Connection::open(path)?;
        // A draft has to survive the program being killed, not the power failing.
        conn.pragma_update(None, "journal_mode", "WAL")?;
        conn.pragma_update(None, "synchronous", "NORMAL")?;
        conn.execute_batch(SCHEMA)?;
        Ok(Self { conn })
    }

    /// A setting, if it was ever made.
    pub(crate) fn setting(&self, name: &str) -> Result<Option<String>> {
        let mut find = self
            .conn
            .prepare_cached("SELECT value FROM setting WHERE name = ?1")?;
        Ok(find.query_row([name], |r| r.get(0)).optional()?)
    }

    /// Makes a setting.
    pub(crate) fn set(&self, name: &str, value: &str) -> Result<()> {
        self.conn
            .prepare_cached("INSERT OR REPLACE INTO setting (name, value) VALUES (?1, ?2)")?
            .execute([name, value])?;
        Ok(())
    }

    /// The draft of a form.
    pub(crate) fn draft(&self, form: &str) -> Result<Option<Draft>> {
        let mut find = self
            .conn
            .prepare_cached("SELECT fields, saved_ms FROM draft WHERE form = ?1")?;
        let row: Option<(String, i64)> = find
            .query_row([form], |r| Ok((r.get(0)?, r.get(1)?)))
            .optional()?;
        // What cannot be read is no draft: it was never a record.
        Ok(row.and_then(|(fields, saved_ms)| {
            let fields = serde_json::from_str(&fields).ok()?;
            Some(Draft { fields, saved_ms })
        }))
    }

    /// Keeps the draft of a form.
    pub(crate) fn keep_draft(
        &self,
        form: &str,
        fields: &[(String, String)],
        now_ms: i64,
    ) -> Result<()> {
        let text = serde_json::to_string(fields).unwrap_or_default();
        self.conn
            .prepare_cached(
                "INSERT OR REPLACE INTO draft (form, fields, saved_ms) VALUES (?1, ?2, ?3)",
            )?
            .execute(params![form, text, now_ms])?;
        Ok(())
    }

    /// Throws the draft of a form away: it was sent, or the person does not want it.
    pub(crate) fn drop_draft(&self, form: &str) -> Result<()> {
        self.conn
            .prepare_cached("DELETE FROM draft WHERE form = ?1")?
            .execute([form])?;
        Ok(())
    }

    /// Where a form that was sent before had led.
    pub(crate) fn was_sent(&self, once: &str) -> Result<Option<String>> {
        let mut find = self
            .conn
            .prepare_cached("SELECT then_go FROM sent WHERE once = ?1")?;
        Ok(find.query_row([once], |r| r.get(0)).optional()?)
    }

    /// Remembers that a form was sent.
    pub(crate) fn note_sent(&self, once: &str, then_go: &str, now_ms: i64) -> Result<()> {
        self.conn
            .prepare_cached("DELETE FROM sent WHERE sent_ms < ?1")?
            .execute([now_ms - SENT_KEPT_MS])?;
        self.conn
            .prepare_cached(
                "INSERT OR REPLACE INTO sent (once, then_go, sent_ms) VALUES (?1, ?2, ?3)",
            )?
            .execute(params![once, then_go, now_ms])?;
        Ok(())
    }

    /// The last numbers typed into a field, the newest first.
    pub(crate) fn recent(&self, field: &str) -> Result<Vec<String>> {
        let mut find = self.conn.prepare_cached(
            "SELECT value FROM recent WHERE field = ?1 ORDER BY used_ms DESC, value LIMIT ?2",
        )?;
        let most = i64::try_from(RECENT_MOST).unwrap_or(i64::MAX);
        let rows = find.query_map(params![field, most], |r| r.get(0))?;
        Ok(rows.collect::<rusqlite::Result<_>>()?)
    }

    /// Remembers a number that was typed into a field.
    pub(crate) fn note_recent(&self, field: &str, value: &str, now_ms: i64) -> Result<()> {
        self.conn
            .prepare_cached(
                "INSERT OR REPLACE INTO recent (field, value, used_ms) VALUES (?1, ?2, ?3)",
            )?
            .execute(params![field, value, now_ms])?;
        Ok(())
    }
}

fn is_damage(error: &rusqlite::Error) -> bool {
    matches!(
        error.sqlite_error_code(),
        Some(ErrorCode::NotADatabase | ErrorCode::DatabaseCorrupt)
    )
}

/// Under another name, so that somebody may still look into it; the one set aside before goes.
fn set_aside(path: &Path) -> std::io::Result<()> {
    for beside in ["-wal", "-shm"] {
        let mut name = path.as_os_str().to_owned();
        name.push(beside);
        match std::fs::remove_file(&name) {
            Err(error) if error.kind() != std::io::ErrorKind::NotFound => return Err(error),
            _ => {}
        }
    }
    std::fs::rename(path, path.with_extension("damaged"))
}

/// Drafts name people and places: the folder is for the user alone, where it is ours to say.
fn make_folder(folder: &Path) -> std::io::Result<()> {
    std::fs::create_dir_all(folder)?;
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        if std::fs::read_dir(folder)?.next().is_none() {
            std::fs::set_permissions(folder, std::fs::Permissions::from_mode(0o700))?;
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_draft_is_there_after_the_program_was_begun_again() {
        let folder = tempfile::tempdir().unwrap();
        let fields = vec![("name".to_owned(), "Corner".to_owned())];
        Desk::open(folder.path())
            .unwrap()
            .keep_draft("/yards/new#save", &fields, 5)
            .unwrap();
        let desk = Desk::open(folder.path()).unwrap();
        let draft = desk.draft("/yards/new#save").unwrap().unwrap();
        assert_eq!((draft.fields, draft.saved_ms), (fields, 5));
        desk.drop_draft("/yards/new#save").unwrap();
        assert_eq!(desk.draft("/yards/new#save").unwrap(), None);
    }

    #[test]
    fn a_damaged_one_is_set_aside_and_begun_anew() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("desk.sqlite");
        std::fs::write(&path, b"this is no store".repeat(500)).unwrap();
        let desk = Desk::open(folder.path()).unwrap();
        desk.set("language", "es").unwrap();
        assert_eq!(desk.setting("language").unwrap().as_deref(), Some("es"));
        let aside = std::fs::read(folder.path().join("desk.damaged")).unwrap();
        assert!(aside.starts_with(b"this is no store"));
    }

    #[test]
    fn a_field_offers_its_last_three_numbers_the_newest_first() {
        let folder = tempfile::tempdir().unwrap();
        let desk = Desk::open(folder.path()).unwrap();
        for (n, value) in ["6", "7", "8", "6", "9"].iter().enumerate() {
            desk.note_recent("wind", value, i64::try_from(n).unwrap())
                .unwrap();
        }
        assert_eq!(desk.recent("wind").unwrap(), ["9", "6", "8"]);
    }

    #[test]
    fn a_form_is_known_as_sent_for_two_days() {
        let folder = tempfile::tempdir().unwrap();
        let desk = Desk::open(folder.path()).unwrap();
        desk.note_sent("a", "/yard", 0).unwrap();
        assert_eq!(desk.was_sent("a").unwrap().as_deref(), Some("/yard"));
        desk.note_sent("b", "/", SENT_KEPT_MS + 1).unwrap();
        assert_eq!(desk.was_sent("a").unwrap(), None);
    }
}
