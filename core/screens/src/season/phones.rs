//! The season's three phones: a crew lead's, which becomes the one looked at, and two applicators'.

use std::path::Path;
use std::sync::Arc;

use sward_book::book::{Founding, Joining};
use sward_book::env::TimeProof;
use sward_book::fact::{Person, Role};
use sward_book::{Book, Env};
use sward_crew::keys::{device_keys, new_device_secret};
use sward_crew::recovery::RecoveryCode;

use super::clock::SeasonEnv;
use crate::Result;
use crate::state::Shared;

/// How long the season lasts, in days.
const DAYS: i64 = 72;

const DAY_MS: i64 = 86_400_000;

/// Invented people: name and licence.
const PEOPLE: [(&str, &str); 3] = [
    ("Ines Tarrow", "PRACTICE-01"),
    ("Bo Halter", "PRACTICE-02"),
    ("Odile Marsh", "PRACTICE-03"),
];

/// The crew's books while the season is made.
pub(super) struct Phones {
    env: Arc<SeasonEnv>,
    real: Arc<dyn Env>,
    now_utc_ms: i64,
    zone: chrono_tz::Tz,
    /// The crew lead's first.
    pub(super) books: Vec<Book>,
}

impl Phones {
    /// Founds the crew and lets the others join.
    pub(super) fn begin(shared: &Shared, folder: &Path) -> Result<Self> {
        let real = Arc::clone(&shared.setting.env);
        let now_utc_ms = real.clock().utc_ms;
        let env = SeasonEnv::new(Arc::clone(&real), now_utc_ms - DAYS * DAY_MS);
        let mut phones = Self {
            books: Vec::new(),
            zone: shared.zone(),
            env,
            real,
            now_utc_ms,
        };
        phones.found(&folder.join("own"))?;
        for (n, name) in ["two", "three"].iter().enumerate() {
            phones.join(&folder.join(name), n + 1)?;
        }
        phones.swap()?;
        Ok(phones)
    }

    fn found(&mut self, folder: &Path) -> Result<()> {
        let env: Arc<dyn Env> = Arc::clone(&self.env) as Arc<dyn Env>;
        let secret = new_device_secret(&env);
        let recipient = device_keys(&secret)?.recipient;
        let founding = Founding {
            crew: "Alder Ferry lawns".to_owned(),
            practice: true,
            recovery_key: RecoveryCode::new(&env).public(),
            person: person(0),
            secret,
            recipient,
        };
        self.books.push(Book::found(folder, env, founding)?);
        Ok(())
    }

    fn join(&mut self, folder: &Path, who: usize) -> Result<()> {
        let env: Arc<dyn Env> = Arc::clone(&self.env) as Arc<dyn Env>;
        let secret = new_device_secret(&env);
        let recipient = device_keys(&secret)?.recipient;
        let joining = Joining {
            person: person(who),
            practice: true,
            secret,
            recipient,
        };
        let mut book = Book::ask_to_join(folder, env, joining)?;
        let request = book.own_request_entry()?;
        let asked = book.own_request()?;
        self.books[0].take_in(&[request.wire().to_vec()], Some(asked.device.stream))?;
        self.books[0].admit(&asked, Role::Applicator)?;
        give(&self.books[0], &mut book)?;
        self.books.push(book);
        Ok(())
    }

    /// Everybody hands everybody everything.
    pub(super) fn swap(&mut self) -> Result<()> {
        let (lead, others) = self.books.split_at_mut(1);
        for other in others.iter_mut() {
            give(other, &mut lead[0])?;
        }
        for other in others {
            give(&lead[0], other)?;
        }
        Ok(())
    }

    /// Puts the clock to so many minutes before now.
    pub(super) fn at_minutes_ago(&self, minutes: i64) {
        self.env.set(self.now_utc_ms - minutes * 60_000);
    }

    /// Lets minutes pass.
    pub(super) fn pass_min(&self, minutes: i64) {
        self.env.pass_min(minutes);
    }

    /// The season's clock.
    pub(super) fn clock_ms(&self) -> i64 {
        self.env.clock().utc_ms
    }

    /// The day so many days from now, as year-month-day.
    pub(super) fn day_from_now(&self, days: i64) -> String {
        use chrono::TimeZone as _;
        let at = self
            .zone
            .timestamp_millis_opt(self.now_utc_ms + days * DAY_MS)
            .single();
        at.map(|t| t.date_naive().to_string()).unwrap_or_default()
    }

    /// The time zone of every yard: the device's, so that times read as on its clock.
    pub(super) fn zone(&self) -> chrono_tz::Tz {
        self.zone
    }

    /// Swaps a last time but for what is only on the crew lead's phone, and has the time confirmed
    /// as a person would.
    pub(super) fn end(mut self) -> Result<()> {
        let folder = self.books[0].folder().to_owned();
        self.books.clear();
        let mut book = Book::open(&folder, self.real)?;
        book.confirm_time(TimeProof::Person)?;
        Ok(())
    }
}

fn person(who: usize) -> Person {
    let (name, licence) = PEOPLE[who];
    Person {
        name: name.to_owned(),
        licence: licence.to_owned(),
    }
}

/// Hands over everything, as a swap does, and notes what the other holds now.
fn give(from: &Book, to: &mut Book) -> Result<()> {
    let mut wires = Vec::new();
    for head in from.heads()? {
        wires.extend(from.wires_up_to(head.hash, None, usize::MAX)?);
    }
    let source = from.secret()?.stream();
    match (to.crew(), from.crew()) {
        (None, Some(crew)) => {
            to.join_crew(crew, &wires, Some(source))?;
        }
        _ => {
            to.take_in(&wires, Some(source))?;
        }
    }
    to.note_peer(source, &from.heads()?)?;
    Ok(())
}
