//! What a place asks of the sign on the lawn, a given sign held against it, and a sign's words.

use chrono_tz::Tz;
use sward_rules::Entered;
use sward_rules::place::{
    Place, PutUp, SignAsked, SignFacts, SignGiven, SignLanguage, SignRule, check_sign, sign_asked,
    sign_text,
};

use super::Worked;
use super::place::{
    amount_if, finding_line, moment_json, place, tell_place, time, time_if, yes_if,
};
use crate::args::SignCalc;
use crate::error::Result;
use crate::times::moment;
use crate::words::{findings_json, key_of};

/// The sign for one treatment.
pub(super) fn sign(args: &SignCalc) -> Result<Worked> {
    let (place, zone) = place(&args.place)?;
    let ended = time("ended", &args.ended, zone)?;
    let mut worked = Worked::default();
    tell_place(&mut worked, &args.place.state, place);
    let asked = worked.take("sign", sign_asked(place, ended, zone)?);
    tell_asked(&mut worked, &asked, zone);
    if let Some(given) = given(args)? {
        hold(&mut worked, place, &given)?;
    }
    if args.text {
        let facts = SignFacts {
            product: args.product.as_deref().unwrap_or_default(),
            registration: args.registration.as_deref().unwrap_or_default(),
            ended_utc_ms: ended,
            keep_off_until_utc_ms: time_if("keep-off-until", args.keep_off_until.as_deref(), zone)?,
            stays_until_utc_ms: asked.earliest_removal_utc_ms,
            by: args.by.as_deref().unwrap_or_default(),
            phone: args.phone.as_deref().unwrap_or_default(),
            zone,
        };
        tell_text(&mut worked, &facts);
    }
    Ok(worked)
}

fn tell_asked(worked: &mut Worked, asked: &SignAsked, zone: Tz) {
    if let Some(source) = asked.source {
        worked.line(format!("Rule: {}, read {}", source.law, source.read));
    }
    if let Some(rule) = asked.rule {
        for line in rule_lines(rule) {
            worked.line(line);
        }
    }
    match asked.earliest_removal_utc_ms {
        Some(at) => worked.line(format!("Leave it up at least until {}.", moment(at, zone))),
        None => worked.line("How long it stays is not known."),
    };
    if let Some(at) = asked.removed_before_utc_ms {
        worked.line(format!("It is taken off before {}.", moment(at, zone)));
    }
    let unread: Vec<String> = asked.not_read.iter().map(key_of).collect();
    if !unread.is_empty() {
        worked.line(format!("Not read of it: {}", unread.join(", ")));
    }
    worked.line(finding_line(&asked.finding));
    worked
        .value("rule", asked.rule)
        .value("source", asked.source)
        .value("not_read", &asked.not_read)
        .value(
            "earliest_removal",
            moment_json(asked.earliest_removal_utc_ms, zone),
        )
        .value(
            "removed_before",
            moment_json(asked.removed_before_utc_ms, zone),
        )
        .value("finding", &asked.finding);
}

fn rule_lines(rule: &SignRule) -> Vec<String> {
    let person = |inches| Entered::from(inches).for_person();
    let mut lines = Vec::new();
    if let Some(told) = rule.least_sides {
        let [short, long] = told.value.map(person);
        lines.push(format!("Size: at least {short} by {long}"));
    }
    if let Some(told) = rule.letters_least {
        lines.push(format!("Letters: at least {}", person(told.value)));
    }
    match (rule.bottom_least, rule.bottom_most) {
        (Some(least), Some(most)) => lines.push(format!(
            "Bottom edge: {} to {} above the ground",
            person(least.value),
            person(most.value)
        )),
        (Some(least), None) => lines.push(format!(
            "Bottom edge: at least {} above the ground",
            person(least.value)
        )),
        (None, Some(most)) => lines.push(format!(
            "Bottom edge: at most {} above the ground",
            person(most.value)
        )),
        (None, None) => {}
    }
    if let Some(told) = rule.colour {
        lines.push(format!("Colour: {}", key_of(&told.value)));
    }
    if let Some(told) = rule.languages {
        let names: Vec<String> = told.value.iter().map(key_of).collect();
        lines.push(format!("Languages: {}", names.join(", ")));
    }
    if let Some(told) = rule.put_up {
        lines.push(match told.value {
            PutUp::AtApplication => "Put up: at the time of application".to_owned(),
            PutUp::RightAfter => "Put up: right after the application".to_owned(),
        });
    }
    lines
}

/// The sign as it was measured; none where nothing of it was given.
fn given(args: &SignCalc) -> Result<Option<SignGiven>> {
    let languages = args
        .languages
        .iter()
        .map(|name| match name.as_str() {
            "spanish" => SignLanguage::Spanish,
            _ => SignLanguage::English,
        })
        .collect::<Vec<_>>();
    let given = SignGiven {
        width: amount_if("width", args.width.as_deref())?,
        height: amount_if("height", args.height.as_deref())?,
        letters: amount_if("letters", args.letters.as_deref())?,
        bottom: amount_if("bottom", args.bottom.as_deref())?,
        white: yes_if(args.white.as_deref()),
        languages: (!languages.is_empty()).then_some(languages),
    };
    Ok((given != SignGiven::default()).then_some(given))
}

fn hold(worked: &mut Worked, place: Option<Place>, given: &SignGiven) -> Result<()> {
    let findings = check_sign(place, given)?;
    worked.line("This sign:");
    for finding in &findings {
        worked.line(format!("- {}", finding_line(finding)));
    }
    worked.value("this_sign", findings_json(&findings));
    Ok(())
}

fn tell_text(worked: &mut Worked, facts: &SignFacts<'_>) {
    let texts = [SignLanguage::English, SignLanguage::Spanish].map(|l| (l, sign_text(l, facts)));
    for (language, lines) in &texts {
        worked.line(format!("Words ({}):", key_of(language)));
        for line in lines {
            worked.line(format!("  {line}"));
        }
    }
    let [english, spanish] = texts.map(|(_, lines)| lines);
    worked
        .value("text_english", english)
        .value("text_spanish", spanish);
    worked.line("Your state may set words of its own.");
}
