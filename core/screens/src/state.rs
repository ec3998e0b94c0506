//! What the running program holds: which book is open, the desk, and a number that grows with
//! every change so that open screens can follow.
//!
//! One book for writing, one beside it for reading: a long swap never keeps a screen waiting.

use std::path::PathBuf;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use chrono_tz::Tz;
use sward_book::sheet::Position;
use sward_book::{Book, BookError, Env};
use tokio::sync::watch;

use crate::desk::Desk;
use crate::screen::jobs::Jobs;
use crate::walk::Walk;
use crate::{Result, Trouble};

/// Where and how the screens run: what only the program around them can know.
#[derive(Clone)]
pub struct Setting {
    /// The folder for this person's data; the book lies in it.
    pub folder: PathBuf,
    /// Clock and randomness.
    pub env: Arc<dyn Env>,
    /// The device's time zone when the program starts.
    pub zone: Tz,
    /// The port on loopback; 0 takes a free one.
    pub port: u16,
}

/// Which of the two books is open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Which {
    /// The person's own.
    Own,
    /// The invented season, to look at and to practise in.
    Season,
}

#[derive(Default)]
struct Reader {
    version: u64,
    book: Option<Book>,
}

/// Everything the screens share.
pub(crate) struct Shared {
    pub(crate) setting: Setting,
    pub(crate) jobs: Jobs,
    desk: Mutex<Desk>,
    writer: Mutex<Option<Book>>,
    which: Mutex<Option<Which>>,
    reader: Mutex<Reader>,
    version: watch::Sender<u64>,
    stands_at: Mutex<Option<Position>>,
    zone: Mutex<Tz>,
    walk: Mutex<Walk>,
}

/// A panic while holding one of these left nothing half-done that matters: books are opened anew.
fn held<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Shared {
    /// Opens the person's own book where there is one.
    pub(crate) fn new(setting: Setting) -> Result<Self> {
        let desk = Desk::open(&setting.folder)?;
        let shared = Self {
            desk: Mutex::new(desk),
            writer: Mutex::default(),
            which: Mutex::default(),
            reader: Mutex::default(),
            version: watch::Sender::new(1),
            stands_at: Mutex::default(),
            zone: Mutex::new(setting.zone),
            walk: Mutex::default(),
            jobs: Jobs::default(),
            setting,
        };
        match shared.open(Which::Own) {
            Ok(()) | Err(Trouble::Book(BookError::NoBook(_))) => Ok(shared),
            Err(error) => Err(error),
        }
    }

    /// The folder of one of the books.
    pub(crate) fn folder_of(&self, which: Which) -> PathBuf {
        match which {
            Which::Own => self.setting.folder.clone(),
            Which::Season => self.setting.folder.join("invented-season"),
        }
    }

    /// Opens a book in place of the one that is open.
    pub(crate) fn open(&self, which: Which) -> Result<()> {
        let mut slot = self.writer();
        // Closed first, and also when the other cannot be opened.
        *slot = None;
        self.set_which(None);
        let book = self.open_book(which)?;
        *slot = Some(book);
        self.set_which(Some(which));
        Ok(())
    }

    /// Opens a book for writing; one whose keys are in use elsewhere too begins anew.
    pub(crate) fn open_book(&self, which: Which) -> Result<Book> {
        let mut book = Book::open(&self.folder_of(which), Arc::clone(&self.setting.env))?;
        if book.must_begin_anew()? {
            let secret = sward_crew::keys::new_device_secret(book.env());
            let recipient = sward_crew::keys::device_keys(&secret)?.recipient;
            book.begin_anew(secret, recipient)?;
        }
        Ok(book)
    }

    /// Notes which book stands in the slot, or that none does.
    pub(crate) fn set_which(&self, which: Option<Which>) {
        *held(&self.which) = which;
        self.changed();
    }

    /// The desk.
    pub(crate) fn desk(&self) -> MutexGuard<'_, Desk> {
        held(&self.desk)
    }

    /// The book for writing; waits until whoever writes is done.
    pub(crate) fn writer(&self) -> MutexGuard<'_, Option<Book>> {
        held(&self.writer)
    }

    /// Runs `work` with the book for reading, if one is open.
    pub(crate) fn reading<T>(&self, work: impl FnOnce(Option<&Book>) -> T) -> Result<T> {
        let Some(which) = self.which() else {
            return Ok(work(None));
        };
        let mut reader = held(&self.reader);
        let version = *self.version.borrow();
        if reader.version != version || reader.book.is_none() {
            reader.book = None;
            reader.book = Some(Book::open_reading(
                &self.folder_of(which),
                Arc::clone(&self.setting.env),
            )?);
            reader.version = version;
        }
        Ok(work(reader.book.as_ref()))
    }

    /// Which book is open; none before the first start is through.
    pub(crate) fn which(&self) -> Option<Which> {
        *held(&self.which)
    }

    /// Where the person last said that they stand; nothing stores it.
    pub(crate) fn stands_at(&self) -> Option<Position> {
        *held(&self.stands_at)
    }

    /// Notes where the person stands.
    pub(crate) fn stand_at(&self, here: Position) {
        *held(&self.stands_at) = Some(here);
    }

    /// The device's time zone, as last told.
    pub(crate) fn zone(&self) -> Tz {
        *held(&self.zone)
    }

    /// Notes that the device is in another zone now.
    pub(crate) fn set_zone(&self, zone: Tz) {
        *held(&self.zone) = zone;
        self.changed();
    }

    /// The walk that the device records.
    pub(crate) fn walk(&self) -> MutexGuard<'_, Walk> {
        held(&self.walk)
    }

    /// Tells every open screen that something changed.
    pub(crate) fn changed(&self) {
        self.version.send_modify(|v| *v += 1);
    }

    /// Follows the changes.
    pub(crate) fn follow(&self) -> watch::Receiver<u64> {
        self.version.subscribe()
    }
}
