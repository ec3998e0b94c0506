//! What SQLite adds to a library, used as the log and the views use it.

use rusqlite::{Connection, params};

uniffi::setup_scaffolding!();

/// Writes a row and reads it again.
#[uniffi::export]
#[must_use]
pub fn used(text: &str) -> String {
    written_and_read(text).unwrap_or_else(|error| error.to_string())
}

fn written_and_read(text: &str) -> rusqlite::Result<String> {
    let mut connection = Connection::open(text)?;
    let transaction = connection.transaction()?;
    transaction.execute_batch("CREATE TABLE entry (bytes BLOB NOT NULL) STRICT")?;
    transaction
        .prepare_cached("INSERT INTO entry (bytes) VALUES (?1)")?
        .execute(params![text.as_bytes()])?;
    transaction.commit()?;
    connection.query_row("SELECT hex(bytes) FROM entry", [], |row| row.get(0))
}
