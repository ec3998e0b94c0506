//! What every command needs: where the book lies, the clock, and opening the book.
//!
//! Here is decided that a pretended clock is for practice books only, and that a device whose
//! keys are in use elsewhere begins anew.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use chrono_tz::Tz;
use sward_book::fact::Person;
use sward_book::ids::{SheetId, VisitId};
use sward_book::refusal::StoreRefusal;
use sward_book::{Book, BookError, Env};
use sward_device::{DeviceEnv, PretendedClock};

use crate::args::Global;
use crate::error::{CliError, Result};
use crate::print::say;

/// The program's surroundings for one command.
pub(crate) struct App {
    folder: PathBuf,
    env: Arc<dyn Env>,
    zone: Tz,
    is_pretended: bool,
    /// Do not ask for confirmation.
    pub(crate) yes: bool,
}

impl App {
    /// Takes the flags that every command has.
    pub(crate) fn new(global: &Global) -> Result<Self> {
        let folder = match &global.data {
            Some(folder) => folder.clone(),
            None => platform_folder()?,
        };
        let device = DeviceEnv::of_the_system();
        let zone = device.zone();
        let env: Arc<dyn Env> = match global.practice_clock {
            Some(at) => {
                let offset_min = i16::try_from(at.offset().local_minus_utc() / 60).unwrap_or(0);
                Arc::new(PretendedClock::new(at.timestamp_millis(), offset_min))
            }
            None => Arc::new(device),
        };
        Ok(Self {
            folder,
            env,
            zone,
            is_pretended: global.practice_clock.is_some(),
            yes: global.yes,
        })
    }

    /// Where the book lies.
    pub(crate) fn folder(&self) -> &Path {
        &self.folder
    }

    /// Clock and randomness.
    pub(crate) fn env(&self) -> Arc<dyn Env> {
        Arc::clone(&self.env)
    }

    /// The time by the device's clock, in milliseconds since 1970 in UTC.
    pub(crate) fn now_utc_ms(&self) -> i64 {
        self.env.clock().utc_ms
    }

    /// The device's time zone.
    pub(crate) fn device_zone(&self) -> Tz {
        self.zone
    }

    /// Opens the book for reading, also while another program writes it.
    pub(crate) fn reading(&self) -> Result<Book> {
        let book = Book::open_reading(&self.folder, self.env())?;
        self.may_pretend(book.is_practice()?)?;
        Ok(book)
    }

    /// Opens the book for writing. A device whose keys were seen in use elsewhere gets new ones.
    pub(crate) fn writing(&self) -> Result<Book> {
        let mut book = Book::open(&self.folder, self.env())?;
        self.may_pretend(book.is_practice()?)?;
        begin_anew_if_needed(&mut book)?;
        Ok(book)
    }

    /// Refuses a pretended clock for anything but practice.
    pub(crate) fn may_pretend(&self, practice: bool) -> Result<()> {
        if self.is_pretended && !practice {
            return Err(BookError::refused(StoreRefusal::PretendedClock).into());
        }
        Ok(())
    }

    /// The zone in which a yard's times are shown and typed: its own, else the device's.
    pub(crate) fn zone_of_yard(&self, book: &Book, yard: Option<SheetId>) -> Tz {
        yard.and_then(|yard| book.yard_sheet(yard).ok())
            .and_then(|sheet| sheet.zone)
            .unwrap_or_else(|| self.device_zone())
    }

    /// The zone of a visit's yard.
    pub(crate) fn zone_of_visit(&self, book: &Book, visit: VisitId) -> Result<Tz> {
        Ok(self.zone_of_yard(book, book.visit(visit)?.yard))
    }
}

/// Gives the device new keys when its old ones are in use elsewhere too, and says so.
pub(crate) fn begin_anew_if_needed(book: &mut Book) -> Result<bool> {
    if !book.must_begin_anew()? {
        return Ok(false);
    }
    let secret = sward_crew::keys::new_device_secret(book.env());
    let recipient = sward_crew::keys::device_keys(&secret)?.recipient;
    book.begin_anew(secret, recipient)?;
    say(
        "This phone's keys were in use on another phone too (the book was copied or restored), so it has new ones now. \
         Nothing is lost. Hand a crew lead this phone's request (`sward request FILE`) to be admitted again; until then \
         it records as pending.",
    );
    Ok(true)
}

fn platform_folder() -> Result<PathBuf> {
    directories::ProjectDirs::from("", "", "swardbook")
        .map(|dirs| dirs.data_dir().to_owned())
        .ok_or_else(|| {
            CliError::Usage(
                "this system tells no folder for data: say where with --data DIR".into(),
            )
        })
}

/// The person of this device, as records name them.
pub(crate) fn own_person(book: &Book) -> Option<Person> {
    let own = book.secret().ok()?.stream();
    book.roster().member(own)?.person.clone()
}
