//! A book: one device's copy of the crew's records, open for reading or for writing.
//!
//! The public face of this crate. What people do is in [`crate::action`]; here are opening,
//! reading, and the two ways in which entries come in: written here, or taken in from a peer.

mod backup;
mod chains;
mod find;
mod open;
mod read;
mod ring;
mod sheets;
mod take_in;
mod time;
mod verify;
mod write;

use std::path::{Path, PathBuf};
use std::sync::Arc;

pub use find::{AloneHere, FindingWanted, Swapped};
pub use open::{Founding, Joining};
pub use read::{Compared, Peer};
pub use ring::{Ring, RingFor, TimeHeard};
pub use take_in::{Refused, TakenIn};
pub use time::ClockDifference;
pub use verify::Verified;
pub use write::Writer;

use crate::env::Env;
use crate::ids::Hash;
use crate::keys::DeviceSecret;
use crate::refusal::CrewRefusal;
use crate::store::{Store, WriterLock};
use crate::view::roster::Roster;
use crate::{BookError, Result};

/// A book that is open.
pub struct Book {
    folder: PathBuf,
    store: Store,
    env: Arc<dyn Env>,
    secret: Option<DeviceSecret>,
    lock: Option<WriterLock>,
    /// The founding entry's hash; none until the crew is known.
    crew: Option<Hash>,
    roster: Roster,
    lamport_max: u64,
    /// Which start of the program this is, for Automerge actors.
    nonce: u64,
}

impl Book {
    /// The folder the book lies in.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// Clock and randomness it was opened with.
    pub fn env(&self) -> &Arc<dyn Env> {
        &self.env
    }

    /// The device's own keys.
    ///
    /// # Errors
    /// [`BookError::Refused`] when there are none: a restored book that has not begun anew yet.
    pub fn secret(&self) -> Result<&DeviceSecret> {
        self.secret
            .as_ref()
            .ok_or_else(|| BookError::refused(CrewRefusal::NoKeys))
    }

    /// What names the crew: the founding entry's hash; none until a first file has told it.
    pub fn crew(&self) -> Option<Hash> {
        self.crew
    }

    /// The crew's members.
    pub fn roster(&self) -> &Roster {
        &self.roster
    }

    /// Whether it is a practice book: marked in every record, and its clock may be pretended.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn is_practice(&self) -> Result<bool> {
        Ok(self.store.local(PRACTICE)?.is_some())
    }

    #[cfg(any(test, feature = "testing"))]
    pub(crate) fn fill_store(&self) -> Result<()> {
        self.store.fill_disk()
    }

    fn must_be_writable(&self) -> Result<()> {
        if self.lock.is_some() {
            Ok(())
        } else {
            Err(BookError::ReadOnly)
        }
    }

    /// Reads again what other rows decide: after a transaction of our own.
    fn reload(&mut self) -> Result<()> {
        self.crew = self
            .store
            .local(CREW)?
            .map(|bytes| Hash::from_slice(&bytes))
            .transpose()?;
        self.roster = read::roster(&self.store)?;
        Ok(())
    }
}

/// Keys in the table `local`.
const CREW: &str = "crew";
const PRACTICE: &str = "practice";
const SEEN: &str = "seen";
const ANCHOR: &str = "time anchor";
const NEW_KEYS: &str = "keys used elsewhere";
