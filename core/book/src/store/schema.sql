-- The store of one book. The log is the truth: everything below it can be made anew from it.
-- `PRAGMA user_version` holds the format's number; see STORE_FORMAT. The views' table is in view.sql.

-- What belongs to this device alone: which crew, clock anchor, what it has told the crew it saw.
CREATE TABLE local (
  key   TEXT PRIMARY KEY,
  value BLOB NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE stream (
  id  INTEGER PRIMARY KEY,
  key BLOB NOT NULL UNIQUE
) STRICT;

-- The signed log. `linked` is 1 when every entry before it in its stream is here too.
-- `received_ms` and `source` depend on arrival: never compared between phones, in no view.
CREATE TABLE entry (
  id      INTEGER PRIMARY KEY,
  hash    BLOB NOT NULL UNIQUE,
  stream  INTEGER NOT NULL REFERENCES stream,
  seq     INTEGER NOT NULL,
  prev    BLOB NOT NULL,
  lamport INTEGER NOT NULL,
  linked  INTEGER NOT NULL,
  wire    BLOB NOT NULL,
  received_ms INTEGER NOT NULL,
  source      BLOB
) STRICT;
CREATE INDEX entry_by_stream ON entry (stream, seq);

-- The ends of the linked branches: how far this book has come.
CREATE TABLE tip (
  hash   BLOB PRIMARY KEY,
  stream INTEGER NOT NULL REFERENCES stream,
  seq    INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

-- Which facts are about what. `kind` is the subject's, see subject_key.
CREATE TABLE fact (
  kind    INTEGER NOT NULL,
  subject BLOB NOT NULL,
  entry   INTEGER NOT NULL REFERENCES entry,
  place   INTEGER NOT NULL,
  PRIMARY KEY (kind, subject, entry, place)
) STRICT, WITHOUT ROWID;

-- The sheets' present state, and which entries edited them.
-- A plan has the UUID of its visit, so the kind is part of the name.
CREATE TABLE sheet (
  id    BLOB NOT NULL,
  kind  INTEGER NOT NULL,
  doc   BLOB NOT NULL,
  heads BLOB NOT NULL,
  PRIMARY KEY (id, kind)
) STRICT, WITHOUT ROWID;
CREATE TABLE edit (
  sheet BLOB NOT NULL,
  kind  INTEGER NOT NULL,
  entry INTEGER NOT NULL REFERENCES entry,
  place INTEGER NOT NULL,
  PRIMARY KEY (sheet, kind, entry, place)
) STRICT, WITHOUT ROWID;

-- What each peer said it holds: never compared either.
CREATE TABLE peer (
  stream  BLOB PRIMARY KEY,
  heads   BLOB NOT NULL,
  told_ms INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
