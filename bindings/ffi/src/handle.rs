//! The handle: opening, shutting, and what stands around every call. A shut book answers every
//! call with [`SwardError::Closed`]; a panic in the core becomes [`SwardError::Broken`].

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::sync::{Arc, Mutex, PoisonError, RwLock};

use chrono_tz::Tz;
use sward_book::refusal::{FieldRefusal, StoreRefusal};
use sward_book::{BookError, Env};
use sward_device::{DeviceEnv, PretendedClock};
use sward_screens::{Books, Served, Setting, Trouble};

use crate::error::told;
use crate::{DeviceTold, PracticeClock, Result, SwapProgress, SwardError};

/// A person's book on this device, and everything that is done with it.
///
/// One is open at a time for a folder. It may be used from any thread; calls that write wait for
/// each other, calls that read do not wait for them.
#[derive(uniffi::Object)]
pub struct Swardbook {
    open: RwLock<Option<Open>>,
}

/// What an open book holds.
pub(crate) struct Open {
    // First, so that it is dropped first: screens stop before their book closes.
    pub(crate) served: Mutex<Option<Served>>,
    pub(crate) books: Books,
    pub(crate) languages: String,
    pub(crate) swapping: Mutex<Option<SwapProgress>>,
    device: Device,
}

/// Which clock the book runs on.
enum Device {
    Real(Arc<DeviceEnv>),
    Practice(Arc<PretendedClock>),
}

impl Device {
    fn env(&self) -> Arc<dyn Env> {
        match self {
            Self::Real(env) => Arc::clone(env) as _,
            Self::Practice(clock) => Arc::clone(clock) as _,
        }
    }
}

#[uniffi::export]
impl Swardbook {
    /// Opens the person's book, or stands ready where none was begun yet.
    ///
    /// Fails as `Busy` while another program or handle writes it, as `Newer`, `Damaged` or `Disk`;
    /// as `BadInput` for a zone that is none.
    #[uniffi::constructor]
    pub fn open(device: DeviceTold) -> Result<Arc<Self>> {
        Self::on(device, |zone, boot_count| {
            Device::Real(Arc::new(DeviceEnv::new(zone, boot_count)))
        })
    }

    /// The same with a pretended clock, for practice books alone: a real one is `Refused`.
    #[uniffi::constructor]
    pub fn practise(device: DeviceTold, clock: Arc<PracticeClock>) -> Result<Arc<Self>> {
        let opened = Self::on(device, |_, _| Device::Practice(Arc::clone(&clock.clock)))?;
        opened.with(|open| {
            if open.books.has_book()? {
                let practice = open.books.reading(|book| Ok(book.is_practice()?))?;
                open.may_begin(practice)?;
            }
            Ok(())
        })?;
        Ok(opened)
    }

    /// Shuts the book and stops the screens, after the calls that are being answered. Every later
    /// call fails as `Closed`; to shut it once more does nothing.
    pub fn shut(&self) {
        let open = self
            .open
            .write()
            .unwrap_or_else(PoisonError::into_inner)
            .take();
        // Stops the screens, then closes the book.
        drop(open);
    }

    /// Whether the book was not shut yet.
    pub fn is_open(&self) -> bool {
        self.open
            .read()
            .unwrap_or_else(PoisonError::into_inner)
            .is_some()
    }

    /// Whether a book was begun here: else found a crew, or ask to join one.
    pub fn has_book(&self) -> Result<bool> {
        self.with(|open| open.books.has_book())
    }

    /// Takes the device's new time zone, by its IANA name. No keep-off moves with it.
    pub fn zone_changed(&self, zone: String) -> Result<()> {
        self.with(|open| {
            let zone = zone_of(&zone)?;
            if let Device::Real(env) = &open.device {
                env.set_zone(zone);
            }
            open.books.set_zone(zone);
            Ok(())
        })
    }
}

impl Swardbook {
    fn on(
        told_of: DeviceTold,
        device: impl FnOnce(Tz, Option<u64>) -> Device,
    ) -> Result<Arc<Self>> {
        let languages = told_of.languages;
        // Before a book is open nobody has chosen a language on its screens.
        let before = |trouble: &Trouble| told(trouble, |t| sward_screens::say(t, &languages));
        let zone = zone_of(&told_of.zone).map_err(|trouble| before(&trouble))?;
        let device = device(zone, told_of.boot_count);
        let setting = Setting {
            folder: PathBuf::from(told_of.folder),
            env: device.env(),
            zone,
            port: 0,
        };
        let books = guarded(|| Books::open(setting))?.map_err(|trouble| before(&trouble))?;
        Ok(Arc::new(Self {
            open: RwLock::new(Some(Open {
                served: Mutex::default(),
                books,
                languages,
                swapping: Mutex::default(),
                device,
            })),
        }))
    }

    /// Runs a call: only while the book is open, with a panic turned into an error.
    pub(crate) fn with<T>(
        &self,
        work: impl FnOnce(&Open) -> sward_screens::Result<T>,
    ) -> Result<T> {
        let held = self.open.read().unwrap_or_else(PoisonError::into_inner);
        let open = held.as_ref().ok_or(SwardError::Closed)?;
        guarded(|| work(open))?.map_err(|trouble| open.told(&trouble))
    }
}

impl Open {
    /// Refuses a real book on a pretended clock.
    pub(crate) fn may_begin(&self, practice: bool) -> sward_screens::Result<()> {
        match self.device {
            Device::Practice(_) if !practice => {
                Err(BookError::refused(StoreRefusal::PretendedClock).into())
            }
            _ => Ok(()),
        }
    }

    /// An error with its sentence in the person's language.
    pub(crate) fn told(&self, trouble: &Trouble) -> SwardError {
        told(trouble, |t| self.books.say(t, &self.languages))
    }
}

/// A panic is a fault of the core: what it was doing was one transaction, which is undone, and its
/// locks are free again.
fn guarded<T>(work: impl FnOnce() -> T) -> Result<T> {
    catch_unwind(AssertUnwindSafe(work)).map_err(|_| SwardError::Broken)
}

fn zone_of(name: &str) -> sward_screens::Result<Tz> {
    let zone = name.parse();
    Ok(zone.map_err(|_| BookError::refused(FieldRefusal::ZoneUnknown))?)
}

#[cfg(test)]
mod tests {
    use super::guarded;
    use crate::SwardError;

    #[test]
    fn a_panic_becomes_an_error() {
        let hushed = std::panic::take_hook();
        std::panic::set_hook(Box::new(|_| {}));
        let broken = guarded(|| -> u8 { panic!("a fault") });
        std::panic::set_hook(hushed);
        assert_eq!(broken, Err(SwardError::Broken));
        assert_eq!(guarded(|| 7), Ok(7));
    }
}
