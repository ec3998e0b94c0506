//! Counts held against the thresholds, and the full result "not treated".

use serde_json::{Value, json};
use sward_rules::look::{
    Decided, Density, Pest, Sample, SampleMethod, decide, density, more_samples, threshold_for,
};
use sward_rules::{Entered, Note};

use crate::app::App;
use crate::args::{CountArgs, CountedArgs, MethodArgs, NotTreatedArgs};
use crate::error::{CliError, Result};
use crate::names;
use crate::print::{Answer, Page};
use crate::words::{code, decision, how, more, why_not};

use super::last_own_fact;

/// Runs `sward count`.
pub(super) fn run(app: &App, args: &CountArgs) -> Result<Answer> {
    let samples = samples(&args.counted)?;
    let mut book = app.writing()?;
    let visit = names::visit(&book, &args.visit)?;
    let found = density(&samples)?;
    let pest = &args.counted.pest;
    book.count(visit, pest, samples, &args.counted.note)?;
    let fact = last_own_fact(&book, visit)?;
    let mut page = Page::default();
    if let Some(answer) = &found {
        let d = &answer.value;
        page.line(format!(
            "{pest}: {:.1} per ft² ({:.1} to {:.1}, 95 %), {} in {} samples.",
            d.mean_per_ft2, d.lower_per_ft2, d.upper_per_ft2, d.count, d.samples
        ));
    }
    let decisions = hold_against(&mut page, pest, found.as_ref().map(|a| &a.value));
    page.line(format!("{}.", Note::AskExtension));
    if args.how
        && let Some(answer) = &found
    {
        page.blank();
        how(&mut page, "density", &answer.working);
    }
    let json = json!({
        "visit": visit,
        "fact": fact,
        "density": found.as_ref().map(|a| &a.value),
        "working": found.as_ref().map(|a| &a.working),
        "decisions": decisions,
    });
    Ok(Answer::new(page, json))
}

/// The samples of a count, all taken in one way.
pub(super) fn samples(args: &CountedArgs) -> Result<Vec<Sample>> {
    samples_of(&args.method, &args.counts)
}

/// Samples from the way they were taken and what each held.
pub(super) fn samples_of(m: &MethodArgs, counts: &[u32]) -> Result<Vec<Sample>> {
    let by = |size: &Option<Entered>, make: fn(Entered) -> SampleMethod| size.map(make);
    let method = by(&m.sod, SampleMethod::SodSquare)
        .or_else(|| by(&m.can, SampleMethod::FloatingCan))
        .or_else(|| by(&m.cup, SampleMethod::CupCutter))
        .or_else(|| by(&m.drench, SampleMethod::SoapDrench))
        .or_else(|| by(&m.area, SampleMethod::Area))
        .ok_or_else(|| {
            CliError::Usage("say how the samples were taken, like --sod \"6 in\"".into())
        })?;
    Ok(counts
        .iter()
        .map(|count| Sample {
            method: method.clone(),
            count: *count,
        })
        .collect())
}

/// Holds a density against each threshold that is published for the pest.
fn hold_against(page: &mut Page, pest: &str, density: Option<&Density>) -> Vec<Value> {
    let known = pest_of(pest);
    let thresholds = known.map(threshold_for).unwrap_or_default();
    if thresholds.is_empty() {
        let decided = decide(density, None);
        page.line(format!("Not known: {}.", decided.reason));
        return vec![decided_json(&decided)];
    }
    thresholds
        .into_iter()
        .map(|threshold| {
            let decided = decide(density, Some(threshold));
            page.line(format!(
                "{}: {}.",
                decision(decided.decision),
                decided.reason
            ));
            for note in decided
                .notes
                .iter()
                .filter(|note| **note != Note::AskExtension)
            {
                page.item(format!("{note}."));
            }
            let ahead = more_samples(density, Some(threshold)).value;
            if let Some(said) = more(ahead) {
                page.item(said);
            }
            let mut value = decided_json(&decided);
            value["more_samples"] = json!(ahead);
            value
        })
        .collect()
}

/// A decision for machines; its reason is named, and stands there in English too.
pub(super) fn decided_json(decided: &Decided) -> Value {
    let mut json = json!(decided);
    json["in_english"] = json!(decided.reason.to_string());
    json
}

/// The pest that a person means, where thresholds know it; in one or many.
pub(super) fn pest_of(typed: &str) -> Option<Pest> {
    let typed = typed.trim().to_lowercase();
    let one = typed.strip_suffix('s').unwrap_or(&typed);
    match one {
        "grub" => Some(Pest::WhiteGrub),
        "june beetle" | "may or june beetle" => Some(Pest::MayBeetle),
        _ => code(one),
    }
}

/// Runs `sward not-treated`.
pub(super) fn not_treated(app: &App, args: &NotTreatedArgs) -> Result<Answer> {
    let mut book = app.writing()?;
    let visit = names::visit(&book, &args.visit)?;
    let why = args.why.into();
    book.not_treated(visit, why, &args.note, args.look_again.as_deref())?;
    let mut page = Page::of(format!(
        "Not treated: {}. That is a full result.",
        why_not(why)
    ));
    if let Some(day) = &args.look_again {
        page.line(format!("Look again on {day}."));
    }
    let json = json!({ "visit": visit, "fact": last_own_fact(&book, visit)?, "why": why });
    Ok(Answer::new(page, json))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pests_are_known_by_their_common_names() {
        assert_eq!(pest_of("Japanese beetle"), Some(Pest::JapaneseBeetle));
        assert_eq!(pest_of("white grubs"), Some(Pest::WhiteGrub));
        assert_eq!(pest_of("chinch bugs"), Some(Pest::ChinchBug));
        assert_eq!(pest_of("moles"), None);
    }
}
