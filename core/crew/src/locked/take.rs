//! Taking a locked file: first all of it is read and checked, then its entries go to the log.

use std::io::{Read, Seek, SeekFrom};

use sward_book::BookError;
use sward_book::fact::Fact;
use sward_book::ids::{Hash, StreamId};
use sward_book::keys::DeviceSecret;
use sward_book::log::{Entry, Stamp};

use super::MAGIC;
use super::frame::{Manifest, Whole};
use super::header::{Header, open};
use crate::{CrewError, Log, Result, Standing, TakenIn, keys};

/// The most streams that are reported as refused.
pub const REFUSED_MAX: usize = 100;

/// What opens locked files for one device.
pub struct Opener {
    identity: age::x25519::Identity,
    stream: StreamId,
}

impl Opener {
    /// Opens files with a device's own key.
    ///
    /// # Errors
    /// [`CrewError::BadIdentity`] when the device's key file is damaged.
    pub fn new(secret: &DeviceSecret) -> Result<Self> {
        Ok(Self {
            identity: keys::identity(secret)?,
            stream: secret.stream(),
        })
    }
}

/// What became of a locked file.
#[derive(Debug)]
pub struct Taken {
    /// The device that made it; its signature fits.
    pub from: StreamId,
    /// What that device is to the crew, now that the file is taken in. Entries from a retired or
    /// unknown device are logged all the same, and a person should be told.
    pub standing: Standing,
    /// When it was made, by that device's clock.
    pub made: Stamp,
    /// Ends of the branches that the device holds, at most 4,096 of them.
    pub heads: Vec<Hash>,
    /// The crew, when this phone had none before.
    pub joined: Option<Hash>,
    /// Entries that were not here before.
    pub new_entries: u64,
    /// Entries that were here already.
    pub known_entries: u64,
    /// Streams that were refused from some entry on, and why, at most [`REFUSED_MAX`] of them.
    /// No stream where not even that could be read.
    pub refused: Vec<(Option<StreamId>, BookError)>,
}

impl Taken {
    /// By how many milliseconds the maker's clock is ahead of this device's at least, when the
    /// file is taken at `now_utc_ms`: a file takes an unknown time on its way, so that there is
    /// no "at most".
    pub fn ahead_ms_least(&self, now_utc_ms: i64) -> i64 {
        self.made.utc_ms.saturating_sub(now_utc_ms)
    }

    fn add(&mut self, batch: TakenIn) {
        self.new_entries += batch.new;
        self.known_entries += batch.known;
        for (stream, reason) in batch.refused {
            let told = self.refused.iter().any(|(other, _)| *other == stream);
            if !told && self.refused.len() < REFUSED_MAX {
                self.refused.push((stream, reason));
            }
        }
    }

    /// Whether an entry says it is of a stream that was refused: what comes after a bad entry
    /// hangs in the air.
    fn has_refused(&self, wire: &[u8]) -> bool {
        !self.refused.is_empty()
            && Entry::claimed_stream(wire)
                .is_some_and(|stream| self.refused.iter().any(|(s, _)| *s == Some(stream)))
    }
}

/// How far the taking of a locked file has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Progress {
    /// The first reading, in which the file is checked and nothing is stored. How many entries
    /// the file has is told by its end.
    Checked {
        /// Entries read so far.
        entries: u64,
    },
    /// The second reading: what was told of is on disk, whatever comes of the rest.
    Taken {
        /// Entries read so far, those known here or refused among them.
        entries: u64,
        /// Of how many.
        of: u64,
    },
}

/// Takes a locked file into the log, in batches. Unless all of the file is whole, nothing is
/// stored. Taking a file again changes nothing. A log without a crew takes a file that admits
/// this device.
///
/// # Errors
/// [`CrewError::OtherFile`], a newer format as [`BookError::Newer`], [`CrewError::AnotherCrew`],
/// [`CrewError::NotForThisPhone`], [`CrewError::DoesNotAdmit`], [`CrewError::Damaged`],
/// [`CrewError::NotRead`]: nothing was stored. What the log says when it cannot store: the batches
/// before are stored, and taking the file again goes on from there.
pub fn take_locked_file<R: Read + Seek>(
    file: R,
    opener: &Opener,
    log: &mut dyn Log,
) -> Result<Taken> {
    take_locked_file_telling(file, opener, log, &mut |_| {})
}

/// As [`take_locked_file`], and tells after every batch how far it has come.
///
/// # Errors
/// As [`take_locked_file`].
pub fn take_locked_file_telling<R: Read + Seek>(
    mut file: R,
    opener: &Opener,
    log: &mut dyn Log,
    tell: &mut dyn FnMut(Progress),
) -> Result<Taken> {
    let start = file.stream_position().map_err(CrewError::NotRead)?;
    let survey = survey(&mut file, opener, log.crew()?, tell)?;
    file.seek(SeekFrom::Start(start))
        .map_err(CrewError::NotRead)?;

    let (_, mut frames) = open(&mut file, &opener.identity, Some(survey.crew))?;
    let Manifest {
        sender,
        made,
        heads,
    } = frames.manifest()?;
    let mut taken = Taken {
        from: sender,
        standing: Standing::Unknown,
        made,
        heads,
        joined: None,
        new_entries: 0,
        known_entries: 0,
        refused: Vec::new(),
    };
    let mut counted_twice = 0;
    if let Some(admission) = survey.admission {
        let batch = log.join(survey.crew, &admission, sender)?;
        counted_twice = batch.new + batch.known;
        taken.joined = Some(survey.crew);
        taken.add(batch);
    }
    let mut entries = 0;
    while let Ok(mut wires) = frames.entries()? {
        entries += wires.len() as u64;
        wires.retain(|wire| !taken.has_refused(wire));
        taken.add(log.take_in(&wires, sender)?);
        tell(Progress::Taken {
            entries,
            of: survey.entries,
        });
    }
    taken.known_entries = taken.known_entries.saturating_sub(counted_twice);
    taken.standing = log.standing(sender)?;
    Ok(taken)
}

/// What the first reading of a file found.
struct Survey {
    crew: Hash,
    entries: u64,
    /// The founding and an admission of this device, for a log without a crew.
    admission: Option<[Vec<u8>; 2]>,
}

fn survey<R: Read>(
    file: R,
    opener: &Opener,
    own_crew: Option<Hash>,
    tell: &mut dyn FnMut(Progress),
) -> Result<Survey> {
    let (header, mut frames) = open(file, &opener.identity, own_crew)?;
    let sender = frames.manifest()?.sender;
    let mut admission = Admission::default();
    let mut entries = 0;
    let end = loop {
        match frames.entries()? {
            Ok(wires) => {
                entries += wires.len() as u64;
                if own_crew.is_none() {
                    for wire in wires {
                        admission.look_at(wire, &header, opener.stream);
                    }
                }
                tell(Progress::Checked { entries });
            }
            Err(end) => break end,
        }
    };
    let sha256 = frames.sha256();
    frames.check_padding()?;
    let survey = match (own_crew, admission) {
        (Some(crew), _) => Survey {
            crew,
            entries,
            admission: None,
        },
        (
            None,
            Admission {
                founding: Some(founding),
                admitting: Some(admitting),
            },
        ) => Survey {
            crew: founding.hash(),
            entries,
            admission: Some([founding.wire().to_vec(), admitting.wire().to_vec()]),
        },
        (None, _) => return Err(CrewError::DoesNotAdmit),
    };
    let whole = Whole {
        crew: survey.crew,
        nonce: header.nonce,
        entries,
        sha256,
    };
    if whole.is_signed_by(sender, &end) {
        Ok(survey)
    } else {
        Err(CrewError::Damaged(MAGIC.called))
    }
}

/// What a phone without a crew looks for in the first file it takes.
#[derive(Default)]
struct Admission {
    founding: Option<Entry>,
    admitting: Option<Entry>,
}

impl Admission {
    fn look_at(&mut self, wire: Vec<u8>, header: &Header, me: StreamId) {
        // A signature costs more than all else: only entries that matter here are checked now,
        // the log checks every one.
        let Ok(entry) = Entry::from_own_store(wire) else {
            return;
        };
        let facts = &entry.body().facts;
        let admits = |fact: &Fact| matches!(fact, Fact::Admitted(a) if a.device.stream == me);
        if facts.iter().any(|fact| matches!(fact, Fact::Founded(_))) && header.is_for(entry.hash())
        {
            self.founding = Entry::check(entry.wire()).ok();
        } else if self.admitting.is_none() && facts.iter().any(admits) {
            self.admitting = Entry::check(entry.wire()).ok();
        }
    }
}
