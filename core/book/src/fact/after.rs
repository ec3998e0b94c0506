//! Facts of a visit beside the treatment itself: the check half-way, who was told, what was
//! cleaned up, and the return that is planned.
//!
//! What they add up to is [`crate::view::visit`] and [`crate::view::keep_off`].

use minicbor::{Decode, Encode};
use serde::Serialize;
use sward_rules::Entered;
use sward_rules::finding::Verdict;
use sward_rules::look::BeforeAfter;

use crate::ids::{KeepOffId, VisitId};

/// What a return is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Encode, Decode, Serialize)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum ReturnWhat {
    /// Did it work? Counts after a treatment.
    #[n(0)]
    ReCheck,
    /// Look again, after a visit that treated nothing.
    #[n(1)]
    Look,
    /// The next application.
    #[n(2)]
    Repeat,
    /// Something else, told in the note.
    #[n(3)]
    Other,
}

/// A return to the yard is planned.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct ReturnPlanned {
    /// The visit it follows from.
    #[n(0)]
    pub visit: VisitId,
    /// The day, as year-month-day.
    #[n(1)]
    pub day: String,
    /// What for.
    #[n(2)]
    pub what: ReturnWhat,
    /// In the person's own words.
    #[n(3)]
    pub note: String,
}

/// How somebody was told of a keep-off.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Encode, Decode, Serialize)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum ToldHow {
    /// Face to face.
    #[n(0)]
    InPerson,
    /// By telephone.
    #[n(1)]
    Phone,
    /// By a message.
    #[n(2)]
    Message,
    /// By a note left there.
    #[n(3)]
    Note,
    /// By a sign on the lawn.
    #[n(4)]
    Sign,
}

/// Somebody was told of keep-offs. It ends none, and makes none longer.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct KeepOffTold {
    /// The visit.
    #[n(0)]
    pub visit: VisitId,
    /// The keep-offs they were told of.
    #[n(1)]
    pub keep_offs: Vec<KeepOffId>,
    /// Who was told.
    #[n(2)]
    pub who: String,
    /// How.
    #[n(3)]
    pub how: ToldHow,
    /// Whether they were told how to check that it is dry.
    #[n(4)]
    pub told_dry_check: bool,
}

/// A task after treating.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Encode, Decode, Serialize)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum AftercareTask {
    /// Product swept or blown off hard surfaces, back onto the lawn.
    #[n(0)]
    HardSurfacesSwept,
    /// Tank, hopper and tools rinsed.
    #[n(1)]
    Rinsed,
    /// Rinse water or the rest in the equipment put out on turf that may take it.
    #[n(2)]
    EquipmentEmptiedOnTurf,
    /// Gloves washed before they were taken off.
    #[n(3)]
    GlovesWashed,
    /// Left-over product kept for its next use.
    #[n(4)]
    LeftoverKept,
    /// The sign put up.
    #[n(5)]
    SignPosted,
}

/// Whether a task was done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Encode, Decode, Serialize)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum TaskState {
    /// It was done.
    #[n(0)]
    Done,
    /// There was nothing to do.
    #[n(1)]
    NotNeeded,
    /// It was not done.
    #[n(2)]
    NotDone,
}

/// One task with its answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct AftercareDone {
    /// The task.
    #[n(0)]
    pub task: AftercareTask,
    /// Whether it was done.
    #[n(1)]
    pub state: TaskState,
}

/// What was done after treating. A task that is not named was not answered; of several answers
/// to one task the last holds.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct Aftercare {
    /// The visit.
    #[n(0)]
    pub visit: VisitId,
    /// The tasks that were answered.
    #[n(1)]
    pub done: Vec<AftercareDone>,
    /// Anything else: what was left over and where it went.
    #[n(2)]
    pub note: String,
}

/// Treating was checked half-way: what was read, and what the check said.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct HalfWayChecked {
    /// The visit.
    #[n(0)]
    pub visit: VisitId,
    /// Product planned for the whole area.
    #[n(1)]
    pub planned: Entered,
    /// Product filled in so far.
    #[n(2)]
    pub filled: Entered,
    /// Product still in the spreader or tank.
    #[n(3)]
    pub left: Entered,
    /// Share of the area that was done.
    #[n(4)]
    pub done: Entered,
    /// The rate on the part that was done, as the check told it.
    #[n(5)]
    pub rate_done: Entered,
    /// Product for the rest at the planned rate, as the check told it.
    #[n(6)]
    pub for_the_rest: Entered,
    /// What the check found.
    #[n(7)]
    pub verdict: Verdict,
}

/// The living counted before and after a treatment, on the treated lawn and on a part left
/// untreated: what percent control is worked out from.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct ControlCounted {
    /// The visit whose treatment it judges.
    #[n(0)]
    pub visit: VisitId,
    /// The counts.
    #[n(1)]
    pub counts: BeforeAfter,
    /// What else was seen.
    #[n(2)]
    pub note: String,
}
