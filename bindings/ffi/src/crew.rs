//! The crew: founding it, joining it, and who is in it.

use std::io::Write as _;
use std::path::Path;

use sward_book::Book;
use sward_book::book::{Founding, Joining};
use sward_book::fact;
use sward_book::view::roster::MemberState;
use sward_crew::join::{REQUEST_BYTES_MAX, make_request, read_request};
use sward_crew::keys::{device_keys, new_device_secret};
use sward_crew::recovery::RecoveryCode;
use sward_crew::{crew_check_digits, device_check_digits};
use sward_screens::Trouble;

use crate::swap::{read_file, write_file};
use crate::{Result, Swardbook};

/// Who carries this device, as records name them.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct PersonTold {
    /// The name.
    pub name: String,
    /// The licence's number; empty where there is none.
    pub licence: String,
}

/// What is shown once when a crew was founded.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct FoundedCrew {
    /// Makes a device a crew lead when every crew lead's device is lost. Shown this once: to be
    /// written on paper.
    pub recovery_code: String,
    /// The crew's digits, which people compare.
    pub check_digits: String,
}

/// What a member may do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Enum)]
pub enum Role {
    /// Reads only.
    Office,
    /// Treats and records.
    Applicator,
    /// Also admits, retires and decides.
    CrewLead,
}

/// A device that asks to join, as its request file says.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct JoinRequest {
    /// Who carries it.
    pub person: PersonTold,
    /// The digits that device shows: both people compare them before it is admitted.
    pub check_digits: String,
}

/// A device of the crew.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct Member {
    /// The device.
    pub device: String,
    /// Who carries it; none while nobody has told.
    pub person: Option<PersonTold>,
    /// What it may do; none before it was admitted.
    pub role: Option<Role>,
    /// Whether it is of the crew now: admitted, and not retired.
    pub is_member: bool,
    /// Whether it is this one.
    pub is_this: bool,
}

/// The crew as this device knows it.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct Crew {
    /// Its name; none before the first file from it has arrived.
    pub name: Option<String>,
    /// Whether it is for practice: no record counts.
    pub practice: bool,
    /// The crew's digits; none before the first file from it has arrived.
    pub check_digits: Option<String>,
    /// How many entries there are here.
    pub entries: u64,
    /// A hash over what is here: equal on two phones that hold the same records.
    pub digest: String,
    /// Its devices, this one among them.
    pub members: Vec<Member>,
}

#[uniffi::export]
impl Swardbook {
    /// Founds a crew on this device. A pretended clock founds practice crews only.
    pub fn found_crew(
        &self,
        crew: String,
        person: PersonTold,
        practice: bool,
    ) -> Result<FoundedCrew> {
        self.with(|open| {
            open.may_begin(practice)?;
            let mut told = None;
            open.books.begin(|folder, env| {
                let code = RecoveryCode::new(&env);
                let secret = new_device_secret(&env);
                let recipient = device_keys(&secret)?.recipient;
                let founding = Founding {
                    crew,
                    practice,
                    recovery_key: code.public(),
                    person: person.into(),
                    secret,
                    recipient,
                };
                let book = Book::found(folder, env, founding)?;
                told = book.crew().map(|crew| FoundedCrew {
                    recovery_code: code.printed().to_string(),
                    check_digits: crew_check_digits(crew),
                });
                Ok(book)
            })?;
            told.ok_or(Trouble::NoBook)
        })
    }

    /// Begins a book that asks to join a crew; it records at once, and counts as pending until a
    /// crew lead has admitted it. The digits that both people compare.
    pub fn ask_to_join(&self, person: PersonTold, practice: bool) -> Result<String> {
        self.with(|open| {
            open.may_begin(practice)?;
            open.books.begin(|folder, env| {
                let secret = new_device_secret(&env);
                let recipient = device_keys(&secret)?.recipient;
                let joining = Joining {
                    person: person.into(),
                    practice,
                    secret,
                    recipient,
                };
                Ok(Book::ask_to_join(folder, env, joining)?)
            })?;
            open.books
                .reading(|book| Ok(device_check_digits(&book.own_request()?.device)))
        })
    }

    /// Writes this device's request to join to a new file at `path`; the digits that both people
    /// compare.
    pub fn write_join_request(&self, path: String) -> Result<String> {
        self.with(|open| {
            open.books.reading(|book| {
                let request = make_request(&book.own_request_entry()?)?;
                write_file(Path::new(&path), |file| {
                    file.write_all(&request).map_err(Trouble::System)
                })?;
                Ok(device_check_digits(&book.own_request()?.device))
            })
        })
    }

    /// Reads a request to join from a file.
    pub fn read_join_request(&self, path: String) -> Result<JoinRequest> {
        self.with(|_| {
            let request = read_request(&read_file(Path::new(&path), REQUEST_BYTES_MAX)?)?;
            Ok(JoinRequest {
                person: request.asked.person.into(),
                check_digits: request.check_digits,
            })
        })
    }

    /// Admits the device whose request is at `path`, after both people compared its digits. Only a
    /// crew lead's device can.
    pub fn admit(&self, path: String, role: Role) -> Result<()> {
        self.with(|open| {
            let request = read_request(&read_file(Path::new(&path), REQUEST_BYTES_MAX)?)?;
            open.books.writing(|book| {
                let wire = request.entry.wire().to_vec();
                let taken = book.take_in(&[wire], Some(request.asked.device.stream))?;
                if let Some(refused) = taken.refused.into_iter().next() {
                    return Err(refused.error.into());
                }
                Ok(book.admit(&request.asked, role.into())?)
            })
        })
    }

    /// The crew as this device knows it.
    pub fn crew(&self) -> Result<Crew> {
        self.with(|open| {
            open.books.reading(|book| {
                let own = book.secret()?.stream();
                let roster = book.roster();
                let member = |m: &sward_book::view::roster::Member| Member {
                    device: m.stream.to_string(),
                    person: m.person.clone().map(Into::into),
                    role: m.role.map(Into::into),
                    is_member: matches!(m.state, MemberState::Member),
                    is_this: m.stream == own,
                };
                Ok(Crew {
                    name: roster.crew_name().map(str::to_owned),
                    practice: book.is_practice()?,
                    check_digits: book.crew().map(crew_check_digits),
                    entries: book.entry_count()?,
                    digest: book.digest()?.to_string(),
                    members: roster.members().map(member).collect(),
                })
            })
        })
    }
}

impl From<PersonTold> for fact::Person {
    fn from(person: PersonTold) -> Self {
        Self {
            name: person.name,
            licence: person.licence,
        }
    }
}

impl From<fact::Person> for PersonTold {
    fn from(person: fact::Person) -> Self {
        Self {
            name: person.name,
            licence: person.licence,
        }
    }
}

impl From<Role> for fact::Role {
    fn from(role: Role) -> Self {
        match role {
            Role::Office => Self::Office,
            Role::Applicator => Self::Applicator,
            Role::CrewLead => Self::CrewLead,
        }
    }
}

impl From<fact::Role> for Role {
    fn from(role: fact::Role) -> Self {
        match role {
            fact::Role::Office => Self::Office,
            fact::Role::Applicator => Self::Applicator,
            fact::Role::CrewLead => Self::CrewLead,
        }
    }
}
