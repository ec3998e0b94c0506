//! Facts: what happened or was stated. Typed, append-only, never edited.
//!
//! A correction is a new fact that names those it supersedes. What facts add up to is the
//! business of [`crate::view`]; how they are stored, of the store.

mod after;
mod incident;
mod membership;
mod visit;

pub use after::{
    Aftercare, AftercareDone, AftercareTask, ControlCounted, HalfWayChecked, KeepOffTold,
    ReturnPlanned, ReturnWhat, TaskState, ToldHow,
};
pub use incident::{IncidentFiled, IncidentWhat};
pub use membership::{
    Admitted, ClockSeen, DeviceKeys, Founded, JoinAsked, Person, Recovered, Retired, Role,
    RoleGiven, TimeConfirmed, recovery_message,
};
pub use visit::{
    Corrected, Counted, FinishChosen, Finished, Judged, KeepOffClaimed, KeepOffOpened,
    KeepOffReleased, LabelReadBack, LateSettled, Loaded, LookedDry, NotTreated, NotTreatedWhy,
    OneJob, ReadBackHow, Replacement, SectionDone, SkySeen, Started, StationHeard, VisitOpened,
    WalkedRound, WindMeasured,
};

use minicbor::{Decode, Encode};
use serde::Serialize;

use crate::ids::{IncidentId, SheetId, StreamId, VisitId};
use crate::sheet::SheetKind;

/// What a fact is about: the row of a view that is made anew when it arrives.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Subject {
    /// The crew: its members and roles.
    Crew,
    /// A device and its clock.
    Device(StreamId),
    /// A visit, its keep-offs among it.
    Visit(VisitId),
    /// An incident.
    Incident(IncidentId),
    /// A sheet; of the kinds, those that have rows of their own.
    Sheet(SheetKind, SheetId),
}

/// One fact. The number of a variant is its name in stored and sent bytes; new ones take the
/// next free number, and none is ever given again.
#[derive(Debug, Clone, PartialEq, Encode, Decode, Serialize)]
#[expect(
    clippy::large_enum_variant,
    reason = "facts live one at a time, never in long lists"
)]
#[serde(tag = "fact", rename_all = "snake_case")]
pub enum Fact {
    /// A crew was founded.
    #[n(0)]
    Founded(#[n(0)] Founded),
    /// A device introduces itself and asks to be admitted.
    #[n(1)]
    JoinAsked(#[n(0)] JoinAsked),
    /// A crew lead admits a device.
    #[n(2)]
    Admitted(#[n(0)] Admitted),
    /// A crew lead retires a device.
    #[n(3)]
    Retired(#[n(0)] Retired),
    /// A crew lead gives a device another role.
    #[n(4)]
    RoleGiven(#[n(0)] RoleGiven),
    /// Whoever holds the recovery code makes a device a crew lead.
    #[n(5)]
    Recovered(#[n(0)] Recovered),
    /// Another device's clock was seen to differ.
    #[n(6)]
    ClockSeen(#[n(0)] ClockSeen),
    /// The own clock was confirmed.
    #[n(7)]
    TimeConfirmed(#[n(0)] TimeConfirmed),
    /// The numbers of a label sheet were read back.
    #[n(8)]
    LabelReadBack(#[n(0)] LabelReadBack),
    /// A visit to a yard begins.
    #[n(9)]
    VisitOpened(#[n(0)] VisitOpened),
    /// Insects were counted.
    #[n(10)]
    Counted(#[n(0)] Counted),
    /// Wind was measured at the yard.
    #[n(11)]
    WindMeasured(#[n(0)] WindMeasured),
    /// A weather station's report was heard.
    #[n(12)]
    StationHeard(#[n(0)] StationHeard),
    /// The yard was walked round.
    #[n(13)]
    WalkedRound(#[n(0)] WalkedRound),
    /// The findings before a start, as shown to the person.
    #[n(14)]
    Judged(#[n(0)] Judged),
    /// The visit ends without a treatment: a full result.
    #[n(15)]
    NotTreated(#[n(0)] NotTreated),
    /// Treating starts, and the keep-offs with it.
    #[n(16)]
    Started(#[n(0)] Started),
    /// A load was put on.
    #[n(17)]
    Loaded(#[n(0)] Loaded),
    /// The treatment is finished and frozen.
    #[n(18)]
    Finished(#[n(0)] Finished),
    /// A person states an end of a keep-off.
    #[n(19)]
    KeepOffClaimed(#[n(0)] KeepOffClaimed),
    /// A person looked, and it is dry.
    #[n(20)]
    LookedDry(#[n(0)] LookedDry),
    /// A crew lead lifts a keep-off, with a reason.
    #[n(21)]
    KeepOffReleased(#[n(0)] KeepOffReleased),
    /// Earlier facts are superseded.
    #[n(22)]
    Corrected(#[n(0)] Corrected),
    /// A person says which of several finishes holds.
    #[n(23)]
    FinishChosen(#[n(0)] FinishChosen),
    /// A person says what a late addition means.
    #[n(24)]
    LateSettled(#[n(0)] LateSettled),
    /// A person says whether several visits were one job.
    #[n(25)]
    OneJob(#[n(0)] OneJob),
    /// The air, the soil and the blooms were looked at.
    #[n(26)]
    SkySeen(#[n(0)] SkySeen),
    /// A return to the yard is planned.
    #[n(27)]
    ReturnPlanned(#[n(0)] ReturnPlanned),
    /// Somebody was told of keep-offs.
    #[n(28)]
    KeepOffTold(#[n(0)] KeepOffTold),
    /// What was done after treating.
    #[n(29)]
    Aftercare(#[n(0)] Aftercare),
    /// An incident is filed, or added to.
    #[n(30)]
    IncidentFiled(#[n(0)] IncidentFiled),
    /// Treating was checked half-way.
    #[n(31)]
    HalfWayChecked(#[n(0)] HalfWayChecked),
    /// Counts before and after, treated and not.
    #[n(32)]
    ControlCounted(#[n(0)] ControlCounted),
}

impl Fact {
    /// What the fact is about. `author` is the stream that wrote it.
    pub fn subjects(&self, author: StreamId) -> Vec<Subject> {
        match self {
            Self::Founded(_)
            | Self::JoinAsked(_)
            | Self::Admitted(_)
            | Self::Retired(_)
            | Self::RoleGiven(_)
            | Self::Recovered(_) => vec![Subject::Crew],
            Self::ClockSeen(f) => vec![Subject::Device(f.stream), Subject::Device(author)],
            Self::TimeConfirmed(_) => vec![Subject::Device(author)],
            Self::LabelReadBack(f) => vec![Subject::Sheet(SheetKind::Label, f.sheet)],
            Self::VisitOpened(f) => vec![Subject::Visit(f.visit)],
            Self::Counted(f) => vec![Subject::Visit(f.visit)],
            Self::WindMeasured(f) => vec![Subject::Visit(f.visit)],
            Self::StationHeard(f) => vec![Subject::Visit(f.visit)],
            Self::WalkedRound(f) => vec![Subject::Visit(f.visit)],
            Self::Judged(f) => vec![Subject::Visit(f.visit)],
            Self::NotTreated(f) => vec![Subject::Visit(f.visit)],
            Self::Started(f) => vec![Subject::Visit(f.visit)],
            Self::Loaded(f) => vec![Subject::Visit(f.visit)],
            Self::Finished(f) => vec![Subject::Visit(f.visit)],
            Self::KeepOffClaimed(f) => vec![Subject::Visit(f.visit)],
            Self::LookedDry(f) => vec![Subject::Visit(f.visit)],
            Self::KeepOffReleased(f) => vec![Subject::Visit(f.visit)],
            Self::Corrected(f) => vec![Subject::Visit(f.visit)],
            Self::FinishChosen(f) => vec![Subject::Visit(f.visit)],
            Self::LateSettled(f) => vec![Subject::Visit(f.visit)],
            Self::SkySeen(f) => vec![Subject::Visit(f.visit)],
            Self::ReturnPlanned(f) => vec![Subject::Visit(f.visit)],
            Self::KeepOffTold(f) => vec![Subject::Visit(f.visit)],
            Self::Aftercare(f) => vec![Subject::Visit(f.visit)],
            Self::HalfWayChecked(f) => vec![Subject::Visit(f.visit)],
            Self::ControlCounted(f) => vec![Subject::Visit(f.visit)],
            Self::IncidentFiled(f) => std::iter::once(Subject::Incident(f.incident))
                .chain(f.visit.map(Subject::Visit))
                .collect(),
            Self::OneJob(f) => f.visits.iter().copied().map(Subject::Visit).collect(),
        }
    }

    /// Whether the fact is about membership, so that the roster has to be computed anew.
    pub fn is_membership(&self) -> bool {
        self.subjects(StreamId::NONE).contains(&Subject::Crew)
    }
}
