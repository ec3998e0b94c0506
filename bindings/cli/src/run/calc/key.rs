//! A key in words: what was seen, what is left, what to look at next. The drawings are on the
//! field screens.

use serde_json::{Value, json};
use sward_rules::look::keys::{
    Answered, Key, Kind, Narrowed, Question, Role, Standing, key as key_named, keys, narrow,
};

use super::Worked;
use crate::args::KeyCalc;
use crate::error::{CliError, Result};

/// The answer that excludes nothing.
const UNSURE: &str = "unsure";

/// Lists the keys, or narrows one by what was seen.
pub(super) fn key(args: &KeyCalc) -> Result<Worked> {
    let mut worked = Worked::default();
    let Some(name) = &args.name else {
        if !args.seen.is_empty() {
            return Err(CliError::Usage("say which key, like white-grub".into()));
        }
        for key in keys() {
            worked.line(format!("{}: {}", key.name, key.english));
        }
        let names: Vec<&str> = keys().iter().map(|key| key.name).collect();
        worked.value("keys", names);
        return Ok(worked);
    };
    let key = key_named(name)?;
    let answers = args
        .seen
        .iter()
        .map(|text| answered(text))
        .collect::<Result<Vec<_>>>()?;
    let left = narrow(key, &answers)?;
    tell(&mut worked, key, &left);
    let candidates: Vec<Value> = left
        .candidates
        .iter()
        .map(|c| json!({ "kind": c.kind.name, "standing": c.standing, "role": c.kind.role, "seen": c.seen, "against": c.against }))
        .collect();
    let excluded: Vec<Value> = left
        .excluded
        .iter()
        .map(|e| json!({ "kind": e.kind.name, "by": e.by }))
        .collect();
    worked
        .value("key", key.name)
        .value("candidates", candidates)
        .value("excluded", excluded)
        .value("next_question", left.next.map(|q| q.name))
        .value("not_sure", ASK);
    Ok(worked)
}

/// Stands under every step of a key.
const ASK: &str = "Not sure? Ask your extension office.";

fn answered(text: &str) -> Result<Answered<'_>> {
    let (question, choice) = text.split_once('=').ok_or_else(|| {
        CliError::Usage(format!(
            "`{}` answers no question; write it like raster=v, or raster={UNSURE}",
            text.chars().take(60).collect::<String>()
        ))
    })?;
    Ok(Answered {
        question: question.trim(),
        choice: Some(choice.trim()).filter(|choice| *choice != UNSURE),
    })
}

fn tell(worked: &mut Worked, key: &'static Key, left: &Narrowed) {
    worked.line(format!("{}.", key.english));
    worked.line(key.how_to_look);
    if left.candidates.is_empty() {
        worked.line("Nothing here fits all that was seen.");
    }
    for candidate in &left.candidates {
        let standing = match candidate.standing {
            Standing::Fits => "Fits",
            Standing::MayBe => "May be",
        };
        worked.line(format!("{standing}: {}", described(candidate.kind)));
        if !candidate.against.is_empty() {
            let seen = all_seen(key, &candidate.against);
            worked.line(format!(
                "- It hurts people, so one feature does not exclude it ({seen})"
            ));
        }
        if candidate.standing == Standing::Fits {
            for like in look_alikes(key, candidate.kind) {
                worked.line(format!("- Taken for it: {}", described(like)));
            }
            worked.line(format!("- Source: {}", candidate.kind.sources.join("; ")));
        }
    }
    for excluded in &left.excluded {
        let seen = all_seen(key, &excluded.by);
        worked.line(format!("Not: {} ({seen})", excluded.kind.english));
    }
    if let Some(next) = left.next {
        worked.line(format!("Look next: {}", next.english));
        for choice in next.choices {
            worked.line(format!(
                "- --seen {}={}: {}",
                next.name, choice.name, choice.english
            ));
        }
        worked.line(format!("- --seen {}={UNSURE}: not sure", next.name));
    }
    worked.line(ASK);
}

fn look_alikes(key: &'static Key, kind: &'static Kind) -> impl Iterator<Item = &'static Kind> {
    kind.look_alikes.iter().filter_map(|name| key.kind(name))
}

fn all_seen(key: &'static Key, by: &[(&str, &str)]) -> String {
    let seen = by
        .iter()
        .filter_map(|(question, choice)| seen(key.question(question)?, choice));
    seen.collect::<Vec<_>>().join("; ")
}

/// What was seen, in words.
fn seen(question: &Question, choice: &str) -> Option<String> {
    let choice = question.choices.iter().find(|c| c.name == choice)?;
    Some(format!("seen: {}", choice.english))
}

fn described(kind: &Kind) -> String {
    let role = match kind.role {
        Role::Pest => "a pest",
        Role::Helper => "a helper, leave it",
        Role::Harmless => "harmless to the lawn",
    };
    let ([from_in, to_in], [from_mm, to_mm]) = (kind.length_in(), kind.length_mm);
    format!(
        "{}, {role} ({}, {from_in:.2} to {to_in:.2} in, {from_mm} to {to_mm} mm). {}",
        kind.english, kind.life_stage, kind.tells
    )
}
