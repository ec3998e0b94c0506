//! Founding, joining, opening and restoring a book.

use std::fs;
use std::path::Path;
use std::sync::Arc;

use super::{Book, CREW, NEW_KEYS, PRACTICE};
use crate::env::Env;
use crate::fact::{DeviceKeys, Fact, Founded, JoinAsked, Person};
use crate::ids::{Hash, StreamId};
use crate::keys::DeviceSecret;
use crate::refusal::{CrewRefusal, Named, StoreRefusal};
use crate::store::{Store, WriterLock};
use crate::view::refresh_all;
use crate::{BookError, Malformed, Result};

/// What a crew is founded with.
pub struct Founding {
    /// The crew's name.
    pub crew: String,
    /// A practice crew: marked in every record.
    pub practice: bool,
    /// Public half of the recovery code.
    pub recovery_key: StreamId,
    /// Who carries the founding device.
    pub person: Person,
    /// The device's keys.
    pub secret: DeviceSecret,
    /// The device's age recipient.
    pub recipient: String,
}

/// What a device asks to join with.
pub struct Joining {
    /// Who carries it.
    pub person: Person,
    /// Whether it joins a practice crew.
    pub practice: bool,
    /// The device's new keys.
    pub secret: DeviceSecret,
    /// The device's age recipient.
    pub recipient: String,
}

impl Book {
    /// Founds a crew: a new book in `folder` with its first entry.
    ///
    /// # Errors
    /// [`BookError::AlreadyABook`], [`BookError::NotWritable`], [`BookError::Refused`] for a name
    /// that cannot stand in a record.
    pub fn found(folder: &Path, env: Arc<dyn Env>, founding: Founding) -> Result<Self> {
        check_name(Named::Crew, &founding.crew)?;
        check_person(&founding.person)?;
        let mut book = Self::begin(folder, env, founding.secret)?;
        let device = DeviceKeys {
            stream: book.secret()?.stream(),
            recipient: founding.recipient,
        };
        let founded = Fact::Founded(Founded {
            crew: founding.crew,
            practice: founding.practice,
            recovery_key: founding.recovery_key,
            device,
            person: founding.person,
        });
        let done = book
            .mark_practice(founding.practice)
            .and_then(|()| book.write_founding(founded));
        book.whole_or_gone(done)
    }

    /// Begins a book that asks to join a crew. It can record at once; the crew counts what it
    /// writes when a crew lead has admitted it.
    ///
    /// # Errors
    /// As [`Book::found`].
    pub fn ask_to_join(folder: &Path, env: Arc<dyn Env>, joining: Joining) -> Result<Self> {
        check_person(&joining.person)?;
        let mut book = Self::begin(folder, env, joining.secret)?;
        let done = book
            .mark_practice(joining.practice)
            .and_then(|()| book.introduce(joining.person, joining.recipient, None));
        book.whole_or_gone(done)
    }

    fn mark_practice(&self, practice: bool) -> Result<()> {
        if practice {
            self.store.set_local(PRACTICE, &[1])?;
        }
        Ok(())
    }

    /// A book whose first entry could not be written is none: what was just made goes again, so
    /// that the person can try once more in the same folder.
    fn whole_or_gone(self, done: Result<()>) -> Result<Self> {
        if let Err(error) = done {
            let folder = self.folder.clone();
            drop(self);
            remove_new_book(&folder);
            return Err(error);
        }
        Ok(self)
    }

    fn begin(folder: &Path, env: Arc<dyn Env>, secret: DeviceSecret) -> Result<Self> {
        make_folder(folder)?;
        let lock = WriterLock::take(folder)?;
        let path = Store::path(folder);
        if path.exists() {
            return Err(BookError::AlreadyABook(folder.to_owned()));
        }
        let made = Store::create(&path).and_then(|store| {
            secret.save(folder)?;
            Ok(store)
        });
        let store = made.inspect_err(|_| remove_new_book(folder))?;
        Ok(Self::assemble(folder, env, store, Some(secret), Some(lock)))
    }

    fn assemble(
        folder: &Path,
        env: Arc<dyn Env>,
        store: Store,
        secret: Option<DeviceSecret>,
        lock: Option<WriterLock>,
    ) -> Self {
        let mut nonce = [0; 8];
        env.random(&mut nonce);
        Self {
            folder: folder.to_owned(),
            store,
            env,
            secret,
            lock,
            crew: None,
            roster: crate::view::roster::Roster::default(),
            lamport_max: 0,
            nonce: u64::from_be_bytes(nonce),
        }
    }

    /// Opens a book for writing. One program at a time can.
    ///
    /// # Errors
    /// [`BookError::NoBook`], [`BookError::Busy`], [`BookError::Newer`], [`BookError::Damaged`],
    /// [`BookError::NotWritable`].
    pub fn open(folder: &Path, env: Arc<dyn Env>) -> Result<Self> {
        if !Store::path(folder).exists() {
            return Err(BookError::NoBook(folder.to_owned()));
        }
        let lock = WriterLock::take(folder)?;
        let store = Store::open(&Store::path(folder))?;
        let secret = DeviceSecret::load(folder)?;
        Self::assemble(folder, env, store, secret, Some(lock)).ready()
    }

    /// Opens a book for reading, also while another program writes it.
    ///
    /// # Errors
    /// [`BookError::NoBook`], [`BookError::Newer`], [`BookError::Damaged`].
    pub fn open_reading(folder: &Path, env: Arc<dyn Env>) -> Result<Self> {
        if !Store::path(folder).exists() {
            return Err(BookError::NoBook(folder.to_owned()));
        }
        let store = Store::open_reading(&Store::path(folder))?;
        let secret = DeviceSecret::load(folder)?;
        Self::assemble(folder, env, store, secret, None).ready()
    }

    fn ready(mut self) -> Result<Self> {
        self.bring_up_to_date()?;
        self.reload()?;
        self.lamport_max = self.store.lamport_max()?;
        Ok(self)
    }

    /// The views of an older store are made anew from its log.
    fn bring_up_to_date(&mut self) -> Result<()> {
        let Some(found) = self.store.older_format() else {
            return Ok(());
        };
        let crew = self.store.local(CREW)?;
        let crew = crew.map(|bytes| Hash::from_slice(&bytes)).transpose()?;
        let renewed = self.store.renew_views(|store| refresh_all(store, crew));
        renewed.map_err(|error| match error {
            BookError::Format(_) => BookError::refused(StoreRefusal::NoLongerRead { found }),
            other => other,
        })
    }

    /// Puts a backup into an empty folder. The device gets new keys and a new stream: the old
    /// ones may still be in use elsewhere. It asks to be admitted again, and records meanwhile.
    ///
    /// # Errors
    /// [`BookError::AlreadyABook`], [`BookError::NotReadable`], [`BookError::Newer`],
    /// [`BookError::Damaged`] when the backup is not whole.
    pub fn restore(
        backup: &Path,
        folder: &Path,
        env: Arc<dyn Env>,
        joining: Joining,
    ) -> Result<Self> {
        check_person(&joining.person)?;
        make_folder(folder)?;
        let lock = WriterLock::take(folder)?;
        let path = Store::path(folder);
        if path.exists() {
            return Err(BookError::AlreadyABook(folder.to_owned()));
        }
        // Under another name until it has proven whole: a half-restored book is none.
        let fresh = folder.join("book.sqlite.restoring");
        fs::copy(backup, &fresh).map_err(|source| BookError::NotReadable {
            path: backup.to_owned(),
            source,
        })?;
        let checked = Store::open(&fresh).and_then(|store| {
            let faults = store.integrity()?;
            if let Some(fault) = faults.first() {
                return Err(BookError::Damaged(fault.clone()));
            }
            store.forget_device()
        });
        let moved = checked.and_then(|()| {
            fs::rename(&fresh, &path).map_err(|source| BookError::NotWritable {
                path: path.clone(),
                source,
            })
        });
        if let Err(error) = moved {
            let _ = fs::remove_file(&fresh);
            return Err(error);
        }
        joining.secret.save(folder)?;
        let mut book = Self::assemble(
            folder,
            env,
            Store::open(&path)?,
            Some(joining.secret),
            Some(lock),
        )
        .ready()?;
        if joining.practice || book.roster.practice() {
            book.store.set_local(PRACTICE, &[1])?;
        }
        book.introduce(joining.person, joining.recipient, None)?;
        Ok(book)
    }

    /// Whether this device's keys were seen in use elsewhere (the store was copied, or restored
    /// with its keys), so that it has to begin anew.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn must_begin_anew(&self) -> Result<bool> {
        Ok(self.store.local(NEW_KEYS)?.is_some())
    }

    /// Takes new keys and a new stream, and asks to be admitted again. Nothing written under the
    /// old keys is lost.
    ///
    /// # Errors
    /// [`BookError::NotWritable`].
    pub fn begin_anew(&mut self, secret: DeviceSecret, recipient: String) -> Result<()> {
        self.must_be_writable()?;
        let was = self.secret()?.stream();
        let person = self
            .roster
            .member(was)
            .and_then(|m| m.person.clone())
            .unwrap_or_else(|| Person {
                name: String::new(),
                licence: String::new(),
            });
        secret.save(&self.folder)?;
        self.secret = Some(secret);
        self.introduce(person, recipient, Some(was))?;
        self.store.remove_local(NEW_KEYS)
    }

    /// The request with which this device asks to join, from its first entry.
    ///
    /// # Errors
    /// [`BookError::Refused`] for the founding device, which never asked.
    pub fn own_request_entry(&self) -> Result<crate::log::Entry> {
        let own = self.secret()?.stream();
        for hash in self.store.hashes_at(own, 1)? {
            let entry = self.entry(hash)?;
            if entry
                .body()
                .facts
                .iter()
                .any(|f| matches!(f, Fact::JoinAsked(_)))
            {
                return Ok(entry);
            }
        }
        Err(BookError::refused(CrewRefusal::FoundedItsCrew))
    }

    /// What this device asked to join with.
    ///
    /// # Errors
    /// As [`Book::own_request_entry`].
    pub fn own_request(&self) -> Result<JoinAsked> {
        let entry = self.own_request_entry()?;
        entry
            .body()
            .facts
            .iter()
            .find_map(|f| match f {
                Fact::JoinAsked(asked) => Some(asked.clone()),
                _ => None,
            })
            .ok_or_else(|| BookError::format(Malformed::Request))
    }

    fn introduce(
        &mut self,
        person: Person,
        recipient: String,
        was: Option<StreamId>,
    ) -> Result<()> {
        let device = DeviceKeys {
            stream: self.secret()?.stream(),
            recipient,
        };
        self.write(|w| {
            w.fact(Fact::JoinAsked(JoinAsked {
                device,
                person,
                was,
            }));
            Ok(())
        })
    }
}

/// Removes the files of a book that this call has begun and could not finish.
fn remove_new_book(folder: &Path) {
    let store = Store::path(folder);
    for end in ["", "-wal", "-shm", "-journal"] {
        let mut file = store.clone().into_os_string();
        file.push(end);
        // What is not there need not go; what cannot go is told by the next attempt.
        let _ = fs::remove_file(file);
    }
    let _ = fs::remove_file(DeviceSecret::path(folder));
}

fn make_folder(folder: &Path) -> Result<()> {
    let not_writable = |source| BookError::NotWritable {
        path: folder.to_owned(),
        source,
    };
    fs::create_dir_all(folder).map_err(not_writable)?;
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        // Records name people and places: for the user alone, where the folder is ours.
        let is_empty = fs::read_dir(folder).map_err(not_writable)?.next().is_none();
        if is_empty {
            fs::set_permissions(folder, fs::Permissions::from_mode(0o700)).map_err(not_writable)?;
        }
    }
    Ok(())
}

/// The longest name, in bytes.
const NAME_BYTES_MAX: usize = 200;

fn check_name(what: Named, name: &str) -> Result<()> {
    let name = name.trim();
    if name.is_empty() {
        return Err(BookError::refused(CrewRefusal::NameMissing { what }));
    }
    if name.len() > NAME_BYTES_MAX || name.chars().any(char::is_control) {
        return Err(BookError::refused(CrewRefusal::NameUnfit {
            what,
            bytes_most: NAME_BYTES_MAX,
        }));
    }
    Ok(())
}

fn check_person(person: &Person) -> Result<()> {
    check_name(Named::Person, &person.name)?;
    if person.licence.is_empty() {
        Ok(())
    } else {
        check_name(Named::Licence, &person.licence)
    }
}
