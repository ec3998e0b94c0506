-- Views: pure functions of the log, one row a subject. All columns but `body` are for finding rows:
-- what is still open must be found without reading a season.
-- `state`: a visit's, 0 and 1 are open. `until_ms`: from when on a keep-off is over for a proven
-- time, the greatest number where no time alone ends it; none once it was lifted.
-- `returns`: the day of a visit's planned return, counted from 0001-01-01 as 1. `due`: the same
-- where no later visit to the yard is known. `asks`: 1 while a visit has something to settle.
-- `words`: what a person may search for, folded, in UTF-8; see view/words.rs. Bytes, because SQLite
-- looks through bytes twice as fast as through text.
CREATE TABLE view (
  kind     INTEGER NOT NULL,
  subject  BLOB NOT NULL,
  yard     BLOB,
  at_ms    INTEGER,
  state    INTEGER,
  until_ms INTEGER,
  returns  INTEGER,
  due      INTEGER,
  asks     INTEGER,
  words    BLOB,
  body     BLOB NOT NULL,
  PRIMARY KEY (kind, subject)
) STRICT, WITHOUT ROWID;
CREATE INDEX view_by_yard ON view (yard, kind, at_ms) WHERE yard IS NOT NULL;
-- Kind 4 is a visit's. With its words in the index a search never touches the rows themselves.
CREATE INDEX visit_by_time ON view (at_ms, subject, yard, words) WHERE kind = 4;
CREATE INDEX visit_open ON view (at_ms) WHERE state < 2;
CREATE INDEX visit_asks ON view (at_ms) WHERE asks = 1;
CREATE INDEX visit_due ON view (yard, due) WHERE due IS NOT NULL;
CREATE INDEX keep_off_until ON view (until_ms) WHERE until_ms IS NOT NULL;
