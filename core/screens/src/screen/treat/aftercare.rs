//! What is done after treating: swept, rinsed, emptied on turf, gloves washed.
//!
//! A task that nobody answered stays open; nothing is taken as done.

use maud::{Markup, html};
use sward_book::fact::{AftercareDone, AftercareTask, TaskState};
use sward_book::ids::VisitId;

use super::read::Treating;
use crate::ask::{Ask, Doing, Next};
use crate::part;
use crate::part::form::FormPart;
use crate::server::Form;
use crate::trouble::Wrong;
use crate::{Result, Trouble};

const TASKS: [(&str, AftercareTask, &str); 6] = [
    (
        "swept",
        AftercareTask::HardSurfacesSwept,
        "treat-care-swept",
    ),
    ("rinsed", AftercareTask::Rinsed, "treat-care-rinsed"),
    (
        "emptied",
        AftercareTask::EquipmentEmptiedOnTurf,
        "treat-care-emptied",
    ),
    ("gloves", AftercareTask::GlovesWashed, "treat-care-gloves"),
    (
        "leftover",
        AftercareTask::LeftoverKept,
        "treat-care-leftover",
    ),
    ("sign", AftercareTask::SignPosted, "treat-care-sign"),
];

const STATES: [(&str, TaskState, &str); 3] = [
    ("done", TaskState::Done, "treat-care-done"),
    ("none", TaskState::NotNeeded, "treat-care-not-needed"),
    ("not", TaskState::NotDone, "treat-care-not-done"),
];

/// Boxes in the finish's form: ticked is done, unticked stays open.
pub(super) fn ticks(ask: &Ask<'_>, form: &FormPart<'_>) -> Markup {
    let options: Vec<_> = TASKS
        .iter()
        .map(|(value, _, key)| ((*value).to_owned(), ask.t(key)))
        .collect();
    form.several("care", "treat-care", &options, &[])
}

/// The boxes that are ticked.
pub(super) fn ticked(form: &Form) -> Result<Vec<AftercareDone>> {
    form.all("care")
        .map(|value| {
            let task = TASKS.iter().find(|(v, ..)| *v == value);
            let (_, task, _) = task.ok_or_else(|| Trouble::field("care", Wrong::NotOffered))?;
            Ok(AftercareDone {
                task: *task,
                state: TaskState::Done,
            })
        })
        .collect()
}

/// After the finish: what was answered, and a form for the rest.
pub(super) fn rest(ask: &Ask<'_>, treating: &Treating) -> Markup {
    let not_known = ask.t("frame-not-known");
    let open: Vec<_> = TASKS
        .iter()
        .filter(|(_, t, _)| !treating.care.contains_key(t))
        .collect();
    let states: Vec<_> = STATES.iter().map(|(v, _, key)| (*v, ask.t(key))).collect();
    let form = ask.form("care");
    html! {
        h2 { (ask.t("treat-care")) }
        dl {
            @for (_, task, key) in &TASKS {
                (part::row(&ask.t(key), &state_words(ask, treating.care.get(task).copied()), &not_known))
            }
        }
        details {
            summary { (ask.t("treat-care-answer")) }
            (form.wrap(html! {
                @for (name, _, key) in &open { (form.choice(name, key, &states, None)) }
                (form.lines("note", "treat-care-note", "treat-care-note-help", None))
                (form.quiet_submit("treat-care-keep"))
            }))
        }
    }
}

fn state_words(ask: &Ask<'_>, state: Option<TaskState>) -> String {
    STATES
        .iter()
        .find(|(_, s, _)| Some(*s) == state)
        .map_or_else(String::new, |(_, _, key)| ask.t(key))
}

/// Records the answers of the form after the finish.
pub(super) fn keep(doing: &mut Doing<'_>) -> Result<Next> {
    let visit: VisitId = doing.param("visit")?;
    let done = answered(doing.form)?;
    let note = doing.text("note").to_owned();
    if done.is_empty() && note.is_empty() {
        return Err(Wrong::Missing.into());
    }
    doing.book()?.record_aftercare(visit, done, &note)?;
    Ok(Next::Go(format!("/visit/{visit}/treat")))
}

fn answered(form: &Form) -> Result<Vec<AftercareDone>> {
    let mut done = Vec::new();
    for (name, task, _) in &TASKS {
        let typed = form.text(name);
        if typed.is_empty() {
            continue;
        }
        let state = STATES.iter().find(|(value, ..)| *value == typed);
        let (_, state, _) = state.ok_or_else(|| Trouble::field(*name, Wrong::NotOffered))?;
        done.push(AftercareDone {
            task: *task,
            state: *state,
        });
    }
    Ok(done)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::sent;

    #[test]
    fn an_unticked_box_is_no_answer() {
        let done = ticked(&sent(&[("care", "swept"), ("care", "gloves")])).unwrap();
        let tasks: Vec<_> = done.iter().map(|d| d.task).collect();
        assert_eq!(
            tasks,
            [
                AftercareTask::HardSurfacesSwept,
                AftercareTask::GlovesWashed
            ]
        );
        assert!(ticked(&sent(&[])).unwrap().is_empty());
        assert!(
            ticked(&sent(&[("care", "all")]))
                .unwrap_err()
                .of_field("care")
                .is_some()
        );
    }

    #[test]
    fn a_task_that_was_not_done_is_an_answer_too() {
        let done = answered(&sent(&[("rinsed", "not"), ("leftover", "none")])).unwrap();
        assert_eq!(done[0].state, TaskState::NotDone);
        assert_eq!(done[1].state, TaskState::NotNeeded);
        assert_eq!(done.len(), 2);
    }
}
