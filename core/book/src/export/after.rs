//! What stands around a result: checks half-way, what was cleaned up, who was told, incidents and
//! the planned return. Told by the facts as they stand, whatever the result has frozen.

use std::collections::BTreeSet;

use serde::Serialize;
use sward_rules::finding::Verdict;

use super::gather::{Known, Visit};
use super::record::{Amount, When, Who};
use super::words::{self, Clock};
use crate::Result;
use crate::fact::{AftercareTask, Fact, IncidentWhat, ReturnWhat, TaskState, ToldHow};
use crate::ids::IncidentId;

/// A check half-way.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct HalfWayNote {
    /// When.
    pub at: When,
    /// By whom.
    pub by: Who,
    /// Product planned for the whole area.
    pub planned: Amount,
    /// Product filled in so far.
    pub filled: Amount,
    /// Product still in the spreader or tank.
    pub left: Amount,
    /// Share of the area done.
    pub done: Amount,
    /// The rate on the part that was done, as the check told it.
    pub rate_done: Amount,
    /// Product for the rest, as the check told it.
    pub for_the_rest: Amount,
    /// What the check found.
    pub verdict: Verdict,
}

/// A task after treating.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct TaskNote {
    /// The task.
    pub task: AftercareTask,
    /// Whether it was done.
    pub state: TaskState,
}

/// What was done after treating.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct AftercareNote {
    /// When it was written.
    pub at: When,
    /// By whom.
    pub by: Who,
    /// The tasks that were answered.
    pub done: Vec<TaskNote>,
    /// Anything else.
    pub note: String,
}

/// Somebody was told of keep-offs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ToldNote {
    /// When it was written.
    pub at: When,
    /// By whom.
    pub by: Who,
    /// Who was told.
    pub who: String,
    /// How.
    pub how: ToldHow,
    /// The sections.
    pub sections: Vec<String>,
    /// Whether they were told how to check that it is dry.
    pub told_dry_check: bool,
}

/// One filing of an incident.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct IncidentSaid {
    /// When it was written.
    pub at: When,
    /// By whom.
    pub by: Who,
    /// What happened.
    pub told: String,
    /// What was done about it.
    pub done: String,
    /// Who was called, and by whom.
    pub who_called: String,
}

/// An incident on the visit.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct IncidentNote {
    /// Its name.
    pub incident: IncidentId,
    /// What kind it is.
    pub what: IncidentWhat,
    /// When it happened.
    pub happened: When,
    /// Everything that was filed, in order.
    pub said: Vec<IncidentSaid>,
}

/// The return that is planned.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ReturnNote {
    /// The day, as year-month-day.
    pub day: String,
    /// What for.
    pub what: ReturnWhat,
    /// In the person's own words.
    pub note: String,
}

/// All that stands around a result.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct After {
    /// Checks half-way.
    pub half_way: Vec<HalfWayNote>,
    /// What was done after treating.
    pub aftercare: Vec<AftercareNote>,
    /// Who was told of the keep-offs.
    pub told: Vec<ToldNote>,
    /// Incidents.
    pub incidents: Vec<IncidentNote>,
    /// The return that is planned.
    pub return_planned: Option<ReturnNote>,
}

/// Gathers what stands around the results of a visit.
pub(super) fn after(visit: &Visit<'_>, clock: Clock) -> Result<After> {
    let mut after = After {
        return_planned: visit.view.return_day.as_ref().map(|r| ReturnNote {
            day: r.day.clone(),
            what: r.what,
            note: r.note.clone(),
        }),
        ..After::default()
    };
    let mut incidents: BTreeSet<IncidentId> = BTreeSet::new();
    for known in visit.known.iter().filter(|k| k.stands()) {
        if let Fact::IncidentFiled(f) = &known.fact
            && incidents.insert(f.incident)
        {
            // With what was added to it without naming the visit again.
            let note = super::incident::by_name(visit.book, f.incident, clock)?;
            after.incidents.push(note);
        }
        add(&mut after, visit, known, clock);
    }
    Ok(after)
}

fn add(after: &mut After, visit: &Visit<'_>, known: &Known, clock: Clock) {
    let at = clock.when(known.line.at.utc_ms);
    let by = visit.who(&known.line);
    match &known.fact {
        Fact::HalfWayChecked(f) => after.half_way.push(HalfWayNote {
            at,
            by,
            planned: words::amount(&f.planned),
            filled: words::amount(&f.filled),
            left: words::amount(&f.left),
            done: words::amount(&f.done),
            rate_done: words::amount(&f.rate_done),
            for_the_rest: words::amount(&f.for_the_rest),
            verdict: f.verdict,
        }),
        Fact::Aftercare(f) => after.aftercare.push(AftercareNote {
            at,
            by,
            done: f
                .done
                .iter()
                .map(|d| TaskNote {
                    task: d.task,
                    state: d.state,
                })
                .collect(),
            note: f.note.clone(),
        }),
        Fact::KeepOffTold(f) => after.told.push(ToldNote {
            at,
            by,
            who: f.who.clone(),
            how: f.how,
            sections: f
                .keep_offs
                .iter()
                .map(|id| visit.section_name(*id))
                .collect(),
            told_dry_check: f.told_dry_check,
        }),
        _ => {}
    }
}
