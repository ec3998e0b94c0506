//! Keep-offs: which run, when to ring for them, and "I looked: it is dry".

use sward_book::Book;
use sward_book::book;
use sward_book::fact::Fact;
use sward_book::view::keep_off::{KeepOffView, Standing};
use sward_rules::keep_off::{Now, State};
use sward_rules::label;

use crate::names::{id, ids};
use crate::{Result, Swardbook};

/// How the product was put on: what to look at before anyone comes back depends on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Enum)]
pub enum Method {
    /// Dry granules by spreader.
    Granule,
    /// Liquid on the leaves, left to dry there.
    FoliarSpray,
    /// Liquid in much water, into the soil.
    Drench,
    /// Bait, scattered or in spots.
    Bait,
}

/// Where a keep-off stands. Only `Ended` and `Lifted` let anyone back.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Enum)]
pub enum KeepOffState {
    /// Treating is not recorded as finished: it has no end yet.
    RunsUntilFinish,
    /// The label sheet does not say how long: a person has to read the label.
    RunsUntilLabelIsRead,
    /// The wait runs.
    Runs {
        /// Until when; milliseconds since 1970 in UTC.
        until_utc_ms: i64,
        /// Whether a person has to see it dry as well.
        then_dry: bool,
    },
    /// Any wait is over: a person has to look whether it is dry.
    WaitsForDry,
    /// The time is not proven. Never to be told as over.
    TimeUncertain {
        /// It cannot be over before this; none where not even that can be told.
        not_before_utc_ms: Option<i64>,
        /// Whether a person has to see it dry as well.
        then_dry: bool,
    },
    /// It is over.
    Ended {
        /// Since when; milliseconds since 1970 in UTC.
        at_utc_ms: i64,
    },
    /// A crew lead lifted it, with a reason.
    Lifted,
}

/// What a person is called for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Enum)]
pub enum RingFor {
    /// The wait is over then, and nothing more is asked.
    WaitOver,
    /// The wait is over then: somebody has to look whether it is dry.
    Look,
    /// It cannot be over before then, but the time is not proven: somebody has to confirm it.
    ConfirmTime,
}

/// When to ring.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Record)]
pub struct Ring {
    /// When this device's own wall clock shows that time, in milliseconds since 1970 in UTC: what
    /// an alarm is set to.
    pub at_device_utc_ms: i64,
    /// What for.
    pub what: RingFor,
}

/// A keep-off.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct KeepOff {
    /// The visit it belongs to.
    pub visit: String,
    /// Its id within the visit.
    pub keep_off: String,
    /// The yard's name; empty while that has not arrived.
    pub yard: String,
    /// The yard's IANA time zone; empty while it is not set.
    pub zone: String,
    /// The section's name when treating started.
    pub section: String,
    /// The product.
    pub product: String,
    /// How it was put on; none where that cannot be told.
    pub method: Option<Method>,
    /// When treating started; milliseconds since 1970 in UTC.
    pub started_utc_ms: i64,
    /// Where it stands.
    pub state: KeepOffState,
    /// Whether people and pets stay off, as far as anyone can tell.
    pub keeps_off: bool,
    /// When to ring; none when it is over, and when a person has to act first.
    pub ring: Option<Ring>,
}

/// The keep-offs to watch, and the time they were judged by.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct Watch {
    /// Milliseconds since 1970 in UTC.
    pub utc_ms: i64,
    /// Whether the time may be relied on.
    pub proven: bool,
    /// Every keep-off that runs, by start.
    pub keep_offs: Vec<KeepOff>,
}

#[uniffi::export]
impl Swardbook {
    /// Every keep-off that runs now, as far as anyone can tell.
    pub fn keep_offs_to_watch(&self) -> Result<Watch> {
        self.with(|open| {
            open.books.reading(|book| {
                let (now, running) = book.keep_offs_to_watch()?;
                let keep_offs = running.iter().map(|view| told(book, view, now));
                Ok(Watch {
                    utc_ms: now.utc_ms,
                    proven: now.proven,
                    keep_offs: keep_offs.collect::<sward_screens::Result<_>>()?,
                })
            })
        })
    }

    /// One keep-off, also one that is over.
    pub fn keep_off(&self, visit: String, keep_off: String) -> Result<KeepOff> {
        self.with(|open| {
            open.books.reading(|book| {
                let view = book.keep_off(id(&visit)?, id(&keep_off)?)?;
                told(book, &view, book.now()?)
            })
        })
    }

    /// "I looked: it is dry", for these keep-offs of a visit. Only for a person who looked: a spray
    /// dry on the leaves; for granules the dust settled, or watered in and dry again. None for
    /// `looked_utc_ms` is now, by the device's clock.
    pub fn looked_dry(
        &self,
        visit: String,
        keep_offs: Vec<String>,
        looked_utc_ms: Option<i64>,
    ) -> Result<()> {
        self.with(|open| {
            open.books.writing(|book| {
                let looked = looked_utc_ms.unwrap_or_else(|| book.env().clock().utc_ms);
                Ok(book.looked_dry(id(&visit)?, &ids(&keep_offs)?, looked)?)
            })
        })
    }
}

fn told(book: &Book, view: &KeepOffView, now: Now) -> sward_screens::Result<KeepOff> {
    // A yard that has not arrived has no name yet; its keep-off is there all the same.
    let yard = view.yard.and_then(|yard| book.yard(yard).ok());
    let (name, zone) = yard.map(|yard| (yard.name, yard.zone)).unwrap_or_default();
    Ok(KeepOff {
        visit: view.visit.to_string(),
        keep_off: view.keep_off.to_string(),
        yard: name,
        zone,
        section: view.name.clone(),
        product: view.product.clone(),
        method: method(book, view),
        started_utc_ms: view.started_utc_ms,
        state: view.standing(now).into(),
        keeps_off: view.keeps_off(now),
        ring: book.ring_for(view, now)?.map(Into::into),
    })
}

/// The method of the label that treating was started with.
fn method(book: &Book, view: &KeepOffView) -> Option<Method> {
    view.claims
        .iter()
        .find_map(|claim| match book.fact(claim.fact) {
            Ok((_, Fact::Started(started))) => Some(started.label.method.into()),
            _ => None,
        })
}

impl From<label::Method> for Method {
    fn from(method: label::Method) -> Self {
        match method {
            label::Method::Granule => Self::Granule,
            label::Method::FoliarSpray => Self::FoliarSpray,
            label::Method::Drench => Self::Drench,
            label::Method::Bait => Self::Bait,
        }
    }
}

impl From<Standing> for KeepOffState {
    fn from(standing: Standing) -> Self {
        let state = match standing {
            Standing::Released => return Self::Lifted,
            Standing::ByClaims(state) => state,
        };
        match state {
            State::RunsUntilFinish => Self::RunsUntilFinish,
            State::RunsUntilLabelIsRead => Self::RunsUntilLabelIsRead,
            State::Runs {
                until_utc_ms,
                then_dry,
            } => Self::Runs {
                until_utc_ms,
                then_dry,
            },
            State::WaitsForDry => Self::WaitsForDry,
            State::TimeUncertain {
                not_before_utc_ms,
                then_dry,
            } => Self::TimeUncertain {
                not_before_utc_ms,
                then_dry,
            },
            State::Ended { at_utc_ms, .. } => Self::Ended { at_utc_ms },
        }
    }
}

impl From<book::Ring> for Ring {
    fn from(ring: book::Ring) -> Self {
        Self {
            at_device_utc_ms: ring.at_device_utc_ms,
            what: match ring.what {
                book::RingFor::WaitOver => RingFor::WaitOver,
                book::RingFor::Look => RingFor::Look,
                book::RingFor::ConfirmTime => RingFor::ConfirmTime,
            },
        }
    }
}
