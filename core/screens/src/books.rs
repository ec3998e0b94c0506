//! The person's book on this device, for whatever runs beside the screens in the same program: one
//! book, one writer, one number that tells of every change.
//!
//! The invented season is the screens' own business: what is asked for here is always the
//! person's own book, whatever is being looked at.

use std::path::Path;
use std::sync::Arc;
use std::time::Duration;

use chrono_tz::Tz;
use sward_book::{Book, BookError, Env};
use sward_rules::measure::Fix;

use crate::server::{Served, serve_shared};
use crate::state::{Setting, Shared, Which};
use crate::words::{Language, Units, Words};
use crate::{Result, Trouble};

/// The person's book, and what goes with it. Clones are the same.
#[derive(Clone)]
pub struct Books {
    shared: Arc<Shared>,
}

/// How far a walk is recorded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WalkSoFar {
    /// Whether it goes on.
    pub recording: bool,
    /// Fixes so far.
    pub fixes: usize,
    /// The accuracy of the last, in millimetres; none without a fix, or where the receiver gave
    /// none.
    pub accuracy_mm: Option<u32>,
}

impl Books {
    /// Opens the person's own book where there is one.
    ///
    /// # Errors
    /// [`Trouble::Book`] when it cannot be opened, [`Trouble::Desk`].
    pub fn open(setting: Setting) -> Result<Self> {
        Ok(Self {
            shared: Arc::new(Shared::new(setting)?),
        })
    }

    /// Serves the screens of this book on loopback in threads of their own, at the setting's port.
    ///
    /// # Errors
    /// [`Trouble::Port`] when the port is taken, [`Trouble::System`].
    pub fn serve(&self) -> Result<Served> {
        serve_shared(Arc::clone(&self.shared))
    }

    /// Whether the person has a book of their own.
    ///
    /// # Errors
    /// As [`Books::reading`], but for there being none.
    pub fn has_book(&self) -> Result<bool> {
        match self.reading(|_| Ok(())) {
            Ok(()) => Ok(true),
            Err(Trouble::NoBook | Trouble::Book(BookError::NoBook(_))) => Ok(false),
            Err(error) => Err(error),
        }
    }

    /// Runs `work` with the book for reading; writing never keeps it waiting.
    ///
    /// # Errors
    /// [`Trouble::NoBook`], what opening says, and what `work` says.
    pub fn reading<T>(&self, work: impl FnOnce(&Book) -> Result<T>) -> Result<T> {
        if self.shared.which() == Some(Which::Own) {
            self.shared
                .reading(|book| work(book.ok_or(Trouble::NoBook)?))?
        } else {
            let folder = self.shared.folder_of(Which::Own);
            work(&Book::open_reading(&folder, self.env())?)
        }
    }

    /// Runs `work` with the book for writing, after whoever writes now, and tells the screens.
    ///
    /// # Errors
    /// [`Trouble::NoBook`], what opening says, and what `work` says.
    pub fn writing<T>(&self, work: impl FnOnce(&mut Book) -> Result<T>) -> Result<T> {
        let mut slot = self.shared.writer();
        let done = if self.shared.which() == Some(Which::Own) {
            work(slot.as_mut().ok_or(Trouble::NoBook)?)
        } else {
            work(&mut self.shared.open_book(Which::Own)?)
        };
        // Also after an error: a swap that breaks off has brought what came before.
        self.shared.changed();
        done
    }

    /// Begins the person's own book: `begin` makes it in the folder that it is given.
    ///
    /// # Errors
    /// [`BookError::AlreadyABook`] while it is open, and what `begin` says.
    pub fn begin(&self, begin: impl FnOnce(&Path, Arc<dyn Env>) -> Result<Book>) -> Result<()> {
        let mut slot = self.shared.writer();
        let folder = self.shared.folder_of(Which::Own);
        if self.shared.which() == Some(Which::Own) {
            return Err(BookError::AlreadyABook(folder).into());
        }
        let book = begin(&folder, self.env())?;
        *slot = Some(book);
        self.shared.set_which(Some(Which::Own));
        Ok(())
    }

    /// Clock and randomness.
    pub fn env(&self) -> Arc<dyn Env> {
        Arc::clone(&self.shared.setting.env)
    }

    /// A number that grows with every change, whoever made it.
    pub fn version(&self) -> u64 {
        *self.shared.follow().borrow()
    }

    /// Waits until the number is another than `seen`, or the time is up; the number then.
    ///
    /// # Errors
    /// [`Trouble::System`] when the system gives no timer.
    pub fn wait_for_change(&self, seen: u64, longest: Duration) -> Result<u64> {
        let mut follow = self.shared.follow();
        let timer = tokio::runtime::Builder::new_current_thread()
            .enable_time()
            .build()
            .map_err(Trouble::System)?;
        timer.block_on(async {
            let changed = follow.wait_for(|version| *version != seen);
            // Either way the number is what is asked for.
            let _ = tokio::time::timeout(longest, changed).await;
        });
        Ok(self.version())
    }

    /// Notes that the device is in another zone now.
    pub fn set_zone(&self, zone: Tz) {
        self.shared.set_zone(zone);
    }

    /// The language the screens speak, as a code: as set on them, else the first of `languages` (as
    /// a browser lists them) that they know.
    pub fn language(&self, languages: &str) -> &'static str {
        self.words(languages).language.code()
    }

    /// What went wrong, in the language of [`Books::language`].
    pub fn say(&self, trouble: &Trouble, languages: &str) -> String {
        self.words(languages).trouble(trouble)
    }

    /// What a finding says, why, and what it held against what, in the language of
    /// [`Books::language`].
    pub fn say_finding(
        &self,
        finding: &sward_rules::Finding,
        languages: &str,
    ) -> (String, Vec<String>) {
        let words = self.words(languages);
        // words: finding-check-*
        let name = words.said("finding-check", &finding.check);
        let reasons = finding.reasons();
        (name, reasons.map(|r| words.said("reason", r)).collect())
    }

    fn words(&self, languages: &str) -> Words {
        Words::of(&self.shared, languages)
    }

    /// Begins to record a walk; the one before is let go.
    pub fn begin_walk(&self) {
        self.shared.walk().begin();
    }

    /// Adds a fix to the walk that is recorded.
    pub fn add_fix(&self, fix: Fix) -> WalkSoFar {
        self.shared.walk().add(fix);
        self.walk()
    }

    /// Ends the walk; its fixes wait for the page that measures.
    pub fn end_walk(&self) -> WalkSoFar {
        self.shared.walk().end();
        self.walk()
    }

    /// How far the walk is.
    pub fn walk(&self) -> WalkSoFar {
        let walk = self.shared.walk();
        WalkSoFar {
            recording: walk.is_recording(),
            fixes: walk.fixes().len(),
            accuracy_mm: walk.fixes().last().and_then(|fix| fix.accuracy_mm),
        }
    }
}

/// What went wrong where no book could be opened, in the first of `languages` that is known.
pub fn say(trouble: &Trouble, languages: &str) -> String {
    let words = Words {
        language: Language::wanted(languages),
        units: Units::Us,
        zone: Tz::UTC,
    };
    words.trouble(trouble)
}

impl Words {
    /// The words for a device, or a browser, that asks for `languages`: as set, else as asked.
    pub(crate) fn of(shared: &Shared, languages: &str) -> Self {
        let setting = |name: &str| shared.desk().setting(name).ok().flatten();
        Self {
            language: setting("language")
                .and_then(|code| Language::of(&code))
                .unwrap_or_else(|| Language::wanted(languages)),
            units: setting("units")
                .and_then(|code| Units::of(&code))
                .unwrap_or(Units::Us),
            zone: shared.zone(),
        }
    }
}

#[cfg(test)]
mod tests;
