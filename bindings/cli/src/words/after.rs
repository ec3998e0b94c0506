//! Facts around a treatment in one line: half-way, aftercare, who was told, the return, incidents.
//!
//! The treatment's own facts are in [`super::facts`].

use chrono_tz::Tz;
use sward_book::fact::{
    Aftercare, ControlCounted, HalfWayChecked, IncidentFiled, KeepOffTold, ReturnPlanned,
};

use super::codes::{key_of, verdict};
use crate::times::moment;

fn spoken(value: &impl serde::Serialize) -> String {
    key_of(value).replace('_', " ")
}

pub(super) fn return_planned(f: &ReturnPlanned) -> String {
    let note = match f.note.as_str() {
        "" => String::new(),
        note => format!("; {note}"),
    };
    format!("return planned for {}: {}{note}", f.day, spoken(&f.what))
}

pub(super) fn keep_off_told(f: &KeepOffTold) -> String {
    let dry = if f.told_dry_check {
        ", and of how to check that it is dry"
    } else {
        ""
    };
    format!("{} told of the keep-off ({}){dry}", f.who, spoken(&f.how))
}

pub(super) fn aftercare(f: &Aftercare) -> String {
    let mut parts: Vec<String> = f
        .done
        .iter()
        .map(|d| format!("{} {}", spoken(&d.task), spoken(&d.state)))
        .collect();
    parts.extend((!f.note.is_empty()).then(|| f.note.clone()));
    format!("after treating: {}", parts.join(", "))
}

pub(super) fn half_way(f: &HalfWayChecked) -> String {
    format!(
        "half-way: {} filled in, {} left, {} done; {} on the part done: {}",
        f.filled.for_person(),
        f.left.for_person(),
        f.done.for_person(),
        f.rate_done.for_person(),
        verdict(f.verdict)
    )
}

pub(super) fn control(f: &ControlCounted) -> String {
    format!(
        "control counted: treated {} then {}, untreated {} then {}",
        f.counts.treated_before,
        f.counts.treated_after,
        f.counts.check_before,
        f.counts.check_after
    )
}

pub(super) fn incident(f: &IncidentFiled, zone: Tz) -> String {
    let mut parts = vec![format!(
        "incident ({}) at {}",
        spoken(&f.what),
        moment(f.happened_utc_ms, zone)
    )];
    parts.extend((!f.told.is_empty()).then(|| f.told.clone()));
    parts.extend((!f.done.is_empty()).then(|| format!("done: {}", f.done)));
    parts.extend((!f.who_called.is_empty()).then(|| format!("called: {}", f.who_called)));
    parts.join("; ")
}
