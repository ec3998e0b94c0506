//! Long work: it runs on a thread of its own, tells how far it is, and can be left.
//!
//! What the work is, the screen that begins it knows.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use maud::html;
use uuid::Uuid;

use crate::ask::{Ask, Page, Place, Screen};
use crate::{Result, Trouble, part};

pub(crate) const SCREENS: &[Screen] = &[Screen {
    path: "/working/{job}",
    show,
    acts: &[],
}];

/// The most pieces of long work remembered; the oldest is forgotten first.
const REMEMBERED_MOST: usize = 20;

/// How far a piece of long work is.
#[derive(Debug, Clone)]
pub(crate) struct Job {
    /// What it is: a message of the words.
    pub(crate) what: &'static str,
    /// Done so far.
    pub(crate) done: u64,
    /// Of how much; 0 while that is not known.
    pub(crate) of: u64,
    /// How it ended, in words for the person, and where the next step leads.
    pub(crate) ended: Option<Ended>,
}

/// How long work ended.
#[derive(Debug, Clone)]
pub(crate) struct Ended {
    /// What there is to say, line by line.
    pub(crate) lines: Vec<String>,
    /// Whether it went well.
    pub(crate) well: bool,
    /// Where the next step leads.
    pub(crate) then_go: String,
}

/// Handed to long work, to tell how far it is.
#[derive(Clone)]
pub(crate) struct Teller {
    jobs: Jobs,
    job: Uuid,
}

impl Teller {
    /// Tells how far it is.
    pub(crate) fn tell(&self, done: u64, of: u64) {
        if let Some(job) = self.jobs.held().get_mut(&self.job) {
            job.done = done;
            job.of = of;
        }
    }

    fn end(&self, ended: Ended) {
        if let Some(job) = self.jobs.held().get_mut(&self.job) {
            job.ended = Some(ended);
        }
    }
}

/// All long work of this start of the program.
#[derive(Clone, Default)]
pub(crate) struct Jobs {
    all: Arc<Mutex<BTreeMap<Uuid, Job>>>,
}

impl Jobs {
    fn held(&self) -> MutexGuard<'_, BTreeMap<Uuid, Job>> {
        self.all.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Begins long work; returns the address of the screen that shows how far it is. `id` is a
    /// UUID of version 7, so that the oldest is known.
    ///
    /// # Errors
    /// [`Trouble::System`] when the system gives no thread.
    pub(crate) fn begin(
        &self,
        id: Uuid,
        what: &'static str,
        work: impl FnOnce(&Teller) -> Ended + Send + 'static,
    ) -> Result<String> {
        let job = Job {
            what,
            done: 0,
            of: 0,
            ended: None,
        };
        {
            let mut all = self.held();
            while all.len() >= REMEMBERED_MOST {
                all.pop_first();
            }
            all.insert(id, job);
        }
        let teller = Teller {
            jobs: self.clone(),
            job: id,
        };
        std::thread::Builder::new()
            .name("long work".to_owned())
            .spawn(move || {
                let ended = work(&teller);
                teller.end(ended);
            })
            .map_err(Trouble::System)?;
        Ok(format!("/working/{id}"))
    }

    /// How far a piece of work is.
    pub(crate) fn get(&self, id: Uuid) -> Option<Job> {
        self.held().get(&id).cloned()
    }
}

fn show(ask: &Ask<'_>) -> Result<Page> {
    let job = ask
        .shared
        .jobs
        .get(ask.param("job")?)
        .ok_or(Trouble::NotFound)?;
    let main = match &job.ended {
        None => html! {
            // The script asks again by itself; without it the person does.
            div data-again="1000" {
                @if job.of > 0 {
                    progress value=(job.done) max=(job.of) aria-label=(ask.t(job.what)) {}
                    p.big { (job.done) " / " (job.of) }
                } @else {
                    progress aria-label=(ask.t(job.what)) {}
                }
                p { (ask.t("jobs-can-be-left")) }
                (part::way(ask.path, &ask.t("jobs-look-again")))
            }
        },
        Some(ended) => html! {
            div.result .well[ended.well] role="status" {
                @for line in &ended.lines { p { (line) } }
            }
            (part::next_step(&ended.then_go, &ask.t("jobs-go-on")))
        },
    };
    Ok(Page {
        title: ask.t(job.what),
        main,
        place: Place::Today,
        back: None,
    })
}
