//! What samples say.

use serde_json::{Value, json};
use sward_rules::Note;
use sward_rules::look::{Threshold, decide, density, more_samples, threshold_for};

use super::Worked;
use crate::args::SamplesCalc;
use crate::error::Result;
use crate::run::count::{decided_json, pest_of, samples_of};
use crate::words::{decision, more};

/// The density with its interval; with a pest also what each threshold makes of it.
pub(super) fn samples(args: &SamplesCalc) -> Result<Worked> {
    let samples = samples_of(&args.method, &args.counts)?;
    let mut worked = Worked::default();
    let Some(answer) = density(&samples)? else {
        worked.line("Not known: no sample was taken.");
        return Ok(worked);
    };
    let found = worked.take("density", answer);
    worked.line(format!(
        "{:.1} per ft² ({:.1} to {:.1}, 95 %), {} in {} samples on {:.2} ft²",
        found.mean_per_ft2,
        found.lower_per_ft2,
        found.upper_per_ft2,
        found.count,
        found.samples,
        found.searched_ft2
    ));
    if let Some(dispersion) = found.dispersion.filter(|d| *d > 1.0) {
        worked.line(format!(
            "The samples differ {dispersion:.1} times as much as chance would have them; the \
             interval is widened by that."
        ));
    }
    let mut decisions = Vec::new();
    if let Some(pest) = &args.pest {
        let known = pest_of(pest).map(threshold_for).unwrap_or_default();
        let against: Vec<Option<&Threshold>> = match known[..] {
            [] => vec![None],
            _ => known.into_iter().map(Some).collect(),
        };
        for threshold in against {
            let decided = decide(Some(&found), threshold);
            worked.line(format!(
                "{}: {}.",
                decision(decided.decision),
                decided.reason
            ));
            for note in decided
                .notes
                .iter()
                .filter(|n| matches!(n, Note::ThresholdOf { .. }))
            {
                worked.line(format!("- {note}"));
            }
            if let Some(per_yd2) = threshold.and_then(Threshold::per_yd2) {
                worked.line(format!("- published as {per_yd2:.0} per yd²"));
            }
            let ahead = more_samples(Some(&found), threshold).value;
            if let Some(said) = more(ahead) {
                worked.line(format!("- {said}"));
            }
            let mut value: Value = decided_json(&decided);
            value["more_samples"] = json!(ahead);
            decisions.push(value);
        }
    }
    worked.line(format!("{}.", Note::AskExtension));
    worked
        .value("density", &found)
        .value("decisions", decisions);
    Ok(worked)
}
