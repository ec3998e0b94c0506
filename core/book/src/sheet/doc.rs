//! One sheet as an Automerge document: reading with every conflict, writing with our own actor.
//!
//! Which fields there are and what they mean stands in [`super::schema`].

use automerge::transaction::{CommitOptions, Transactable as _};
use automerge::{
    ActorId, AutoCommit, Change, ChangeHash, ObjId, ObjType, ROOT, ReadDoc as _, ScalarValue, Value,
};
use sha2::{Digest, Sha256};

use super::{SheetKind, schema};
use crate::ids::{ItemId, StreamId};
use crate::{BookError, Malformed, Result, Thing};

/// The value of a field, and what others wrote at the same time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Versions {
    /// The value that wins, the same way everywhere.
    pub value: FieldValue,
    /// The others, different from it and from one another.
    pub others: Vec<FieldValue>,
}

impl Versions {
    /// All values, the winner first.
    pub fn all(&self) -> impl Iterator<Item = &FieldValue> {
        std::iter::once(&self.value).chain(&self.others)
    }
}

/// What can stand in a field.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FieldValue {
    /// Text; numbers too, as "decimal unit" in one value.
    Text(String),
    /// Encoded content, such as an outline.
    Bytes(Vec<u8>),
}

impl FieldValue {
    /// The text; none for bytes.
    pub fn text(&self) -> Option<&str> {
        match self {
            Self::Text(text) => Some(text),
            Self::Bytes(_) => None,
        }
    }

    /// The bytes; none for text.
    pub fn bytes(&self) -> Option<&[u8]> {
        match self {
            Self::Text(_) => None,
            Self::Bytes(bytes) => Some(bytes),
        }
    }
}

impl From<&str> for FieldValue {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}

/// The actor under which one start of a program writes one device's changes.
///
/// It depends on the start, because a copied store must never continue the other's sequence; and
/// on the stream, so that a receiver can check that nobody writes in another's name.
pub fn actor_of(stream: StreamId, nonce: u64) -> [u8; 16] {
    let mut sha = Sha256::new();
    sha.update(b"swardbook actor 1\0");
    sha.update(stream.0);
    sha.update(nonce.to_be_bytes());
    let digest: [u8; 32] = sha.finalize().into();
    digest[..16]
        .try_into()
        .expect("a hash is longer than an actor")
}

/// Whether an Automerge change can be read and was written under `actor`.
///
/// # Errors
/// [`BookError::Format`] with the reason.
pub fn check_change(bytes: &[u8], actor: [u8; 16]) -> Result<()> {
    let change = Change::from_bytes(bytes.to_vec())
        .map_err(|_| BookError::format(Malformed::SheetChangeDamaged))?;
    if change.actor_id().to_bytes() != actor {
        return Err(BookError::format(Malformed::SheetChangeInAnothersName));
    }
    Ok(())
}

/// A sheet.
pub struct SheetDoc {
    doc: AutoCommit,
}

impl Default for SheetDoc {
    fn default() -> Self {
        Self {
            doc: AutoCommit::new(),
        }
    }
}

impl SheetDoc {
    /// A saved sheet.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn load(bytes: &[u8]) -> Result<Self> {
        // Our own bytes, checked by SQLite's pages and by `verify`; hashing every change again at
        // each load would cost more than the edit.
        let doc = AutoCommit::load_unverified_heads(bytes)
            .map_err(|e| BookError::Damaged(format!("a sheet: {e}")))?;
        Ok(Self { doc })
    }

    /// A saved sheet, with every change hashed again: for proving a store whole.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub(crate) fn load_checked(bytes: &[u8]) -> Result<Self> {
        let doc =
            AutoCommit::load(bytes).map_err(|e| BookError::Damaged(format!("a sheet: {e}")))?;
        Ok(Self { doc })
    }

    /// Begins a new sheet: its lists are made here, once, by whoever makes the sheet.
    pub(crate) fn begin(&mut self, kind: SheetKind, actor: [u8; 16]) -> Result<()> {
        self.set_actor(actor);
        for list in schema::lists(kind) {
            self.doc
                .put_object(ROOT, list.key, ObjType::Map)
                .map_err(|e| cannot_write(&e))?;
        }
        Ok(())
    }

    pub(crate) fn set_actor(&mut self, actor: [u8; 16]) {
        self.doc.set_actor(ActorId::from(actor));
    }

    /// Applies changes from anyone. What waits for a missing one is kept in the sheet.
    pub(crate) fn apply(&mut self, changes: Vec<Vec<u8>>) -> Result<()> {
        let changes = changes
            .into_iter()
            .map(|bytes| {
                Change::from_bytes(bytes)
                    .map_err(|_| BookError::format(Malformed::SheetChangeDamaged))
            })
            .collect::<Result<Vec<_>>>()?;
        self.doc.apply_changes(changes).map_err(|e| {
            BookError::format(Malformed::SheetChangeUnfit {
                detail: e.to_string(),
            })
        })
    }

    /// All at once where they fit together; else one by one, so that one that does not fit (two
    /// changes under one number, which only a device that forges its own stream can write) costs
    /// no other. The entry that carried it is in the log all the same.
    pub(crate) fn apply_each(&mut self, changes: Vec<Vec<u8>>) {
        if self.apply(changes.clone()).is_ok() {
            return;
        }
        for change in changes {
            let _ = self.apply(vec![change]);
        }
    }

    /// Whether some change waits for one that has not arrived.
    pub fn waits(&mut self) -> bool {
        !self.doc.get_missing_deps(&[]).is_empty()
    }

    /// Heads, as compared between phones: 32 bytes each, sorted.
    pub fn heads(&mut self) -> Vec<u8> {
        let mut heads: Vec<ChangeHash> = self.doc.get_heads();
        heads.sort_unstable();
        heads.iter().flat_map(|h| h.0).collect()
    }

    /// The sheet's bytes for the store.
    pub(crate) fn save(&mut self) -> Vec<u8> {
        self.doc.save()
    }

    /// Writes a field; the same value again makes no change.
    pub(crate) fn set(&mut self, key: &str, value: &FieldValue) -> Result<()> {
        Self::put(&mut self.doc, &ROOT, key, value)
    }

    /// Writes a field of an item, making the item if it is new.
    pub(crate) fn set_item(
        &mut self,
        list: &str,
        item: ItemId,
        key: &str,
        value: &FieldValue,
    ) -> Result<()> {
        let list = self
            .object(&ROOT, list)
            .ok_or_else(|| BookError::NotFound {
                what: Thing::ListInSheet,
                name: list.to_owned(),
            })?;
        let name = item.to_string();
        let item = match self.object(&list, &name) {
            Some(item) => item,
            None => self
                .doc
                .put_object(&list, name, ObjType::Map)
                .map_err(|e| cannot_write(&e))?,
        };
        Self::put(&mut self.doc, &item, key, value)
    }

    fn put(doc: &mut AutoCommit, object: &ObjId, key: &str, value: &FieldValue) -> Result<()> {
        let scalar = match value {
            FieldValue::Text(text) => ScalarValue::Str(text.as_str().into()),
            FieldValue::Bytes(bytes) => ScalarValue::Bytes(bytes.clone()),
        };
        doc.put(object, key, scalar).map_err(|e| cannot_write(&e))
    }

    /// Ends the edit: the change in Automerge's own form; none when nothing changed.
    pub(crate) fn finish_edit(&mut self, utc_ms: i64) -> Option<Vec<u8>> {
        self.doc
            .commit_with(CommitOptions::default().with_time(utc_ms.div_euclid(1000)))?;
        self.doc
            .get_last_local_change()
            .map(|mut change| change.bytes().into_owned())
    }

    fn object(&self, parent: &ObjId, key: &str) -> Option<ObjId> {
        match self.doc.get(parent, key) {
            Ok(Some((Value::Object(ObjType::Map), id))) => Some(id),
            _ => None,
        }
    }

    /// A field with all its versions; none when it was never written.
    pub fn get(&self, key: &str) -> Option<Versions> {
        self.versions(&ROOT, key)
    }

    /// The winning text of a field; empty when it was never written.
    pub fn text(&self, key: &str) -> String {
        text_of(self.get(key))
    }

    /// The items of a list, in the order of their ids, which is the order they were made in.
    pub fn items(&self, list: &str) -> Vec<Item<'_>> {
        let Some(list) = self.object(&ROOT, list) else {
            return Vec::new();
        };
        let mut items: Vec<Item<'_>> = self
            .doc
            .keys(&list)
            .filter_map(|key| {
                let id = key.parse().ok()?;
                Some(Item {
                    id,
                    sheet: self,
                    object: self.object(&list, &key)?,
                })
            })
            .collect();
        items.sort_by_key(|item| item.id);
        items
    }

    fn versions(&self, object: &ObjId, key: &str) -> Option<Versions> {
        let winner = match self.doc.get(object, key) {
            Ok(Some((value, _))) => field_value(&value)?,
            _ => return None,
        };
        let mut others: Vec<FieldValue> = self
            .doc
            .get_all(object, key)
            .unwrap_or_default()
            .iter()
            .filter_map(|(value, _)| field_value(value))
            .filter(|value| *value != winner)
            .collect();
        others.sort_unstable();
        others.dedup();
        Some(Versions {
            value: winner,
            others,
        })
    }
}

/// One item of a list in a sheet.
pub struct Item<'a> {
    /// Its name in the sheet.
    pub id: ItemId,
    sheet: &'a SheetDoc,
    object: ObjId,
}

impl Item<'_> {
    /// A field with all its versions; none when it was never written.
    pub fn get(&self, key: &str) -> Option<Versions> {
        self.sheet.versions(&self.object, key)
    }

    /// The winning text of a field; empty when it was never written.
    pub fn text(&self, key: &str) -> String {
        text_of(self.get(key))
    }

    /// Whether the item is hidden. Nothing is ever deleted; when one hid it while another
    /// wrote in it, it is shown.
    pub fn is_hidden(&self) -> bool {
        self.get(schema::HIDDEN)
            .is_some_and(|v| v.all().all(|value| value.text() == Some(schema::YES)))
    }
}

fn text_of(versions: Option<Versions>) -> String {
    versions
        .and_then(|v| v.value.text().map(str::to_owned))
        .unwrap_or_default()
}

fn field_value(value: &Value<'_>) -> Option<FieldValue> {
    match value {
        Value::Scalar(scalar) => match scalar.as_ref() {
            ScalarValue::Str(text) => Some(FieldValue::Text(text.to_string())),
            ScalarValue::Bytes(bytes) => Some(FieldValue::Bytes(bytes.clone())),
            _ => None,
        },
        Value::Object(_) => None,
    }
}

fn cannot_write(error: &automerge::AutomergeError) -> BookError {
    BookError::Damaged(format!("a sheet: {error}"))
}
