//! Notice to neighbours before a treatment.

use serde_json::json;
use sward_rules::place::{Adopted, NoticeTimes, is_within_reach, notice_asked};

use super::Worked;
use super::place::{amount, finding_line, moment_json, place, tell_place, time, time_if};
use crate::args::NoticeCalc;
use crate::error::Result;
use crate::times::moment;
use crate::words::key_of;

/// The notice before one start.
pub(super) fn notice(args: &NoticeCalc) -> Result<Worked> {
    let (place, zone) = place(&args.place)?;
    let times = NoticeTimes {
        planned_start_utc_ms: time("start", &args.start, zone)?,
        given_utc_ms: time_if("given", args.given.as_deref(), zone)?,
        now_utc_ms: time_if("now", args.now.as_deref(), zone)?,
    };
    let adopted = match args.adopted.as_deref() {
        None => Adopted::NotSaid,
        Some("yes") => Adopted::Yes,
        Some(_) => Adopted::No,
    };
    let mut worked = Worked::default();
    tell_place(&mut worked, &args.place.state, place);
    let asked = worked.take("notice", notice_asked(place, adopted, &times)?);
    if let Some(source) = asked.source {
        worked.line(format!("Rule: {}, read {}", source.law, source.read));
    }
    if let Some(rule) = asked.rule {
        worked.line(format!(
            "Written notice to those on bordering property within {} ft, {} h before the start.",
            rule.within_ft.value, rule.hours_before.value
        ));
        if let Some(told) = rule.languages {
            let names: Vec<String> = told.value.iter().map(key_of).collect();
            worked.line(format!("Languages: {}", names.join(", ")));
        }
        let mut reached = Vec::new();
        for text in &args.distances {
            let distance = amount("distance", text)?;
            let within = is_within_reach(rule, &distance)?;
            let is = if within { "within" } else { "beyond" };
            worked.line(format!(
                "A neighbour at {}: {is} that distance",
                distance.for_person()
            ));
            reached.push(json!({ "distance": distance, "within": within }));
        }
        worked.value("neighbours", reached);
    }
    if let Some(latest) = asked.latest_utc_ms {
        worked.line(format!("Give it by {}.", moment(latest, zone)));
    }
    worked.line(finding_line(&asked.finding));
    worked
        .value("rule", asked.rule)
        .value("source", asked.source)
        .value("latest", moment_json(asked.latest_utc_ms, zone))
        .value("finding", &asked.finding);
    Ok(worked)
}
