//! A fact of a visit in one line, for its history.

use chrono_tz::Tz;
use sward_book::fact::{
    Counted, Fact, Loaded, NotTreated, Replacement, SkySeen, Started, WindMeasured,
};
use sward_rules::finding::sum;
use sward_rules::look::Sample;

use super::after;
use super::codes::{key_of, verdict, why_not};
use super::keep_off::terms;
use crate::times::moment;

/// One line that says what the fact states.
pub(crate) fn fact_line(fact: &Fact, zone: Tz) -> String {
    match fact {
        Fact::VisitOpened(f) if f.target.is_empty() => "visit opened".to_owned(),
        Fact::VisitOpened(f) => format!("visit opened, for {}", f.target),
        Fact::Counted(f) => counted(f),
        Fact::WindMeasured(f) => wind(f),
        Fact::SkySeen(f) => sky(f),
        Fact::StationHeard(f) => format!("heard from {}: {}", f.from, f.text),
        Fact::WalkedRound(f) => answers(&f.answers),
        Fact::Judged(f) => format!("{} checks: {}", f.findings.len(), verdict(sum(&f.findings))),
        Fact::NotTreated(f) => not_treated(f),
        Fact::Started(f) => started(f),
        Fact::Loaded(f) => load(f, zone),
        Fact::Finished(_) => "treating finished, the record is frozen".to_owned(),
        Fact::KeepOffClaimed(f) => format!("keep-off: {}; {}", terms(&f.terms), f.why),
        Fact::LookedDry(f) => {
            let sections = if f.keep_offs.len() == 1 {
                "section"
            } else {
                "sections"
            };
            let at = moment(f.looked_utc_ms, zone);
            format!("looked at {} {sections} at {at}: dry", f.keep_offs.len())
        }
        Fact::KeepOffReleased(f) => format!("keep-off lifted: {}", f.why),
        Fact::Corrected(f) => format!("corrected ({}): {}", f.why, replacement(&f.new, zone)),
        Fact::FinishChosen(f) => format!("one finish chosen: {}", f.why),
        Fact::LateSettled(f) if f.counts => format!("a late load was put on: {}", f.why),
        Fact::LateSettled(f) => format!("a late load was not put on: {}", f.why),
        Fact::OneJob(f) if f.same => "one job with another visit".to_owned(),
        Fact::OneJob(_) => "another job than another visit".to_owned(),
        Fact::ReturnPlanned(f) => after::return_planned(f),
        Fact::KeepOffTold(f) => after::keep_off_told(f),
        Fact::Aftercare(f) => after::aftercare(f),
        Fact::HalfWayChecked(f) => after::half_way(f),
        Fact::ControlCounted(f) => after::control(f),
        Fact::IncidentFiled(f) => after::incident(f, zone),
        other => key_of(&serde_json::json!(other)["fact"]).replace('_', " "),
    }
}

fn started(f: &Started) -> String {
    let sections: Vec<&str> = f.keep_offs.iter().map(|k| k.name.as_str()).collect();
    let mut parts = vec![format!(
        "treating started: {} at {} on {}",
        f.label.product,
        f.rate.for_person(),
        sections.join(", ")
    )];
    if !f.acknowledged.is_empty() {
        let names: Vec<String> = f.acknowledged.iter().map(key_of).collect();
        parts.push(format!("acknowledged as not known: {}", names.join(", ")));
    }
    parts.extend(
        f.against
            .as_ref()
            .map(|why| format!("against \"don't treat\": {why}")),
    );
    for (what, told) in [
        ("with", &f.equipment),
        ("lot", &f.lot),
        ("wearing", &f.gear),
    ] {
        parts.extend(told.as_ref().map(|told| format!("{what} {told}")));
    }
    parts.join("; ")
}

fn counted(f: &Counted) -> String {
    let found: u32 = f
        .samples
        .iter()
        .map(|s: &Sample| s.count)
        .fold(0, u32::saturating_add);
    let note = if f.note.is_empty() {
        String::new()
    } else {
        format!("; {}", f.note)
    };
    format!(
        "counted {}: {found} in {} samples{note}",
        f.pest,
        f.samples.len()
    )
}

fn wind(f: &WindMeasured) -> String {
    let readings: Vec<String> = f
        .readings
        .iter()
        .map(|r| match &r.gust {
            Some(gust) => format!("{} gust {}", r.wind.for_person(), gust.for_person()),
            None => r.wind.for_person(),
        })
        .collect();
    format!("wind by meter: {}", readings.join(", "))
}

fn sky(f: &SkySeen) -> String {
    let mut parts = Vec::new();
    if let Some(air) = &f.air {
        let humidity = air
            .humidity_percent
            .map(|h| format!(", {h} % humidity"))
            .unwrap_or_default();
        parts.push(format!("air {}{humidity}", air.temperature.for_person()));
    }
    if let Some(look) = &f.soil {
        parts.push(format!("soil {}", key_of(&look.soil).replace('_', "-")));
    }
    if let Some(look) = &f.bloom {
        parts.push(format!("blooms {}", key_of(&look.bloom).replace('_', " ")));
    }
    if let Some(look) = &f.inversion {
        let signs: Vec<String> = look
            .signs
            .iter()
            .map(|s| key_of(s).replace('_', " "))
            .collect();
        let signs = if signs.is_empty() {
            "none".to_owned()
        } else {
            signs.join(", ")
        };
        parts.push(format!("signs of an inversion: {signs}"));
    }
    if let Some(seen) = &f.wind {
        parts.push(format!("wind by the trees: force {}", seen.force));
    }
    parts.join("; ")
}

fn answers(answers: &[sward_rules::walk_round::Answered]) -> String {
    let said: Vec<String> = answers
        .iter()
        .map(|a| {
            format!(
                "{} {}",
                a.question.name(),
                key_of(&a.answer).replace('_', " ")
            )
        })
        .collect();
    format!("walked round: {}", said.join(", "))
}

fn not_treated(f: &NotTreated) -> String {
    let mut parts = vec![format!("not treated: {}", why_not(f.why))];
    if !f.note.is_empty() {
        parts.push(f.note.clone());
    }
    parts.extend(
        f.look_again
            .as_ref()
            .map(|day| format!("look again on {day}")),
    );
    parts.join("; ")
}

fn load(f: &Loaded, zone: Tz) -> String {
    let water = f
        .water
        .as_ref()
        .map(|w| format!(" in {} water", w.for_person()))
        .unwrap_or_default();
    format!(
        "load: {}{water}, on at {}",
        f.product.for_person(),
        moment(f.applied_utc_ms, zone)
    )
}

fn replacement(new: &Replacement, zone: Tz) -> String {
    match new {
        Replacement::Nothing => "taken back".to_owned(),
        Replacement::Counted(f) => counted(f),
        Replacement::WindMeasured(f) => wind(f),
        Replacement::WalkedRound(f) => answers(&f.answers),
        Replacement::Loaded(f) => load(f, zone),
        Replacement::Finished(_) => "finished anew, the record is frozen".to_owned(),
        Replacement::NotTreated(f) => not_treated(f),
    }
}
