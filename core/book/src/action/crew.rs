//! Who belongs: admit, retire, give a role, recover.

use super::reason;
use crate::fact::{Admitted, Fact, JoinAsked, Recovered, Retired, Role, RoleGiven};
use crate::ids::StreamId;
use crate::log::Head;
use crate::refusal::CrewRefusal;
use crate::view::roster::MemberState;
use crate::{Book, BookError, Result, Thing};

impl Book {
    /// Admits a device that asked to join.
    ///
    /// # Errors
    /// [`BookError::Refused`] when this device is no crew lead's, or the other belongs already or
    /// was retired.
    pub fn admit(&mut self, asked: &JoinAsked, role: Role) -> Result<()> {
        self.must_be_lead()?;
        match self.roster().member(asked.device.stream).map(|m| &m.state) {
            Some(MemberState::Member) => {
                return Err(BookError::refused(CrewRefusal::BelongsAlready));
            }
            Some(MemberState::Retired { .. }) => {
                return Err(BookError::refused(CrewRefusal::WasRetired));
            }
            Some(MemberState::Pending) | None => {}
        }
        let admitted = Admitted {
            device: asked.device.clone(),
            person: asked.person.clone(),
            role,
        };
        self.write(|w| {
            w.fact(Fact::Admitted(admitted));
            Ok(())
        })
    }

    /// Retires a device. What it wrote up to the last entry known here counts; what comes later
    /// stays in the log, marked, for a crew lead to decide.
    ///
    /// # Errors
    /// [`BookError::Refused`] when this device is no crew lead's or no reason is given,
    /// [`BookError::NotFound`].
    pub fn retire(&mut self, stream: StreamId, why: &str) -> Result<()> {
        self.must_be_lead()?;
        let why = reason(why)?;
        self.must_be_known(stream)?;
        let last = self.last_entry_of(stream)?;
        self.write(|w| {
            w.fact(Fact::Retired(Retired { stream, last, why }));
            Ok(())
        })
    }

    /// Gives a device another role, from the last entry known here on.
    ///
    /// # Errors
    /// As [`Book::retire`].
    pub fn give_role(&mut self, stream: StreamId, role: Role) -> Result<()> {
        self.must_be_lead()?;
        self.must_be_known(stream)?;
        let last = self.last_entry_of(stream)?;
        self.write(|w| {
            w.fact(Fact::RoleGiven(RoleGiven { stream, role, last }));
            Ok(())
        })
    }

    /// Makes this device a crew lead by the recovery code.
    ///
    /// # Errors
    /// [`BookError::Refused`] when the code is not this crew's.
    pub fn recover(&mut self, recovered: Recovered) -> Result<()> {
        let stream = self.secret()?.stream();
        self.write(|w| {
            w.fact(Fact::Recovered(recovered));
            Ok(())
        })?;
        if self.roster().is_lead(stream) {
            Ok(())
        } else {
            Err(BookError::refused(CrewRefusal::RecoveryNotOfThisCrew))
        }
    }

    fn must_be_lead(&self) -> Result<()> {
        if self.roster().is_lead(self.secret()?.stream()) {
            Ok(())
        } else {
            Err(BookError::refused(CrewRefusal::OnlyCrewLead))
        }
    }

    fn must_be_known(&self, stream: StreamId) -> Result<()> {
        match self.roster().member(stream) {
            Some(_) => Ok(()),
            None => Err(BookError::NotFound {
                what: Thing::Device,
                name: stream.short(),
            }),
        }
    }

    /// The last entry of a stream known here. Of a forked stream, the longer branch.
    fn last_entry_of(&self, stream: StreamId) -> Result<Option<Head>> {
        let heads = self.heads()?;
        Ok(heads
            .into_iter()
            .filter(|h| h.stream == stream)
            .max_by_key(|h| h.seq))
    }
}
