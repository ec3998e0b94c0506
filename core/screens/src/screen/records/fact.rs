//! A fact in words: what it is, and the numbers and sentences it holds.
//!
//! Facts of membership are no visit's and have no words here.

use sward_book::fact::{
    Aftercare, ControlCounted, Corrected, Counted, Fact, Finished, HalfWayChecked, KeepOffTold,
    Loaded, NotTreated, Replacement, SkySeen, WindMeasured,
};
use sward_book::record::Treatment;
use sward_rules::finding::sum;
use sward_rules::sky::MeterReading;
use sward_rules::walk_round::Answered;

use super::told::Told;
use crate::part::keep_off::terms;
use crate::screen::look::pest_name;
use crate::words::{Clock, Words};

/// What a fact is.
pub(super) fn name(words: Words, fact: &Fact) -> String {
    // words: visit-fact-*
    if let Fact::ControlCounted(_) = fact {
        return words.t("records-control");
    }
    let tag = serde_json::to_value(fact).ok();
    let tag = tag.as_ref().and_then(|v| v.get("fact")?.as_str());
    let key = format!("visit-fact-{}", tag.unwrap_or_default().replace('_', "-"));
    if words.has(&key) {
        words.t(&key)
    } else {
        words.t("visit-fact-newer")
    }
}

/// What it holds; empty where its name says all.
pub(super) fn text(told: &Told, fact: &Fact) -> String {
    let words = told.words();
    match fact {
        Fact::VisitOpened(f) => pest_name(words, &f.target),
        Fact::Counted(f) => counted(words, f),
        Fact::WindMeasured(f) => wind(words, f),
        Fact::SkySeen(f) => sky(words, f),
        Fact::StationHeard(f) => f.from.clone(),
        Fact::WalkedRound(f) => answers(words, &f.answers),
        Fact::Judged(f) => verdict(words, sum(&f.findings)),
        Fact::NotTreated(f) => not_treated(words, f),
        Fact::Started(f) => format!("{}, {}", f.label.product, words.amount(&f.rate)),
        Fact::Loaded(f) => loaded(told, f),
        Fact::Finished(f) => finished(words, f),
        Fact::KeepOffClaimed(f) => with_why(terms(words, &f.terms), &f.why),
        Fact::LookedDry(f) => {
            let at = words.moment(f.looked_utc_ms, Clock::DayAndTime);
            format!("{at}: {}", told.sections(&f.keep_offs))
        }
        Fact::KeepOffReleased(f) => f.why.clone(),
        Fact::Corrected(f) => replacement(told, f),
        Fact::FinishChosen(f) => f.why.clone(),
        Fact::LateSettled(f) => with_why(counts(words, Some(f.counts)), &f.why),
        Fact::ReturnPlanned(f) => with_why(day(words, &f.day), &f.note),
        Fact::KeepOffTold(f) => told_whom(told, f),
        Fact::Aftercare(f) => aftercare(words, f),
        Fact::IncidentFiled(f) => [&f.told, &f.done, &f.who_called]
            .into_iter()
            .filter(|t| !t.is_empty())
            .cloned()
            .collect::<Vec<_>>()
            .join("; "),
        Fact::HalfWayChecked(f) => half_way(words, f),
        Fact::ControlCounted(f) => control(words, f),
        _ => String::new(),
    }
}

/// What a correction puts in the place of the old.
pub(super) fn replacement(told: &Told, corrected: &Corrected) -> String {
    let words = told.words();
    match &corrected.new {
        Replacement::Nothing => words.t("records-withdrawn"),
        Replacement::Counted(f) => counted(words, f),
        Replacement::WindMeasured(f) => wind(words, f),
        Replacement::WalkedRound(f) => answers(words, &f.answers),
        Replacement::Loaded(f) => loaded(told, f),
        Replacement::Finished(f) => finished(words, f),
        Replacement::NotTreated(f) => not_treated(words, f),
    }
}

/// A count.
pub(super) fn counted(words: Words, f: &Counted) -> String {
    let counts: Vec<String> = f.samples.iter().map(|s| s.count.to_string()).collect();
    with_why(
        format!("{}: {}", pest_name(words, &f.pest), counts.join(", ")),
        &f.note,
    )
}

/// A load.
pub(super) fn loaded(told: &Told, f: &Loaded) -> String {
    let words = told.words();
    let product = words.amount(&f.product);
    let amount = match &f.water {
        Some(water) => words.t_with(
            "records-load-in-water",
            &[
                ("product", product.into()),
                ("water", words.amount(water).into()),
            ],
        ),
        None => product,
    };
    let at = words.moment(f.applied_utc_ms, Clock::DayAndTime);
    let on = told.sections(&f.keep_offs);
    if on.is_empty() {
        format!("{amount}, {at}")
    } else {
        format!("{amount}, {at}, {on}")
    }
}

/// Readings of a hand meter.
pub(super) fn reading(words: Words, r: &MeterReading) -> String {
    let mut parts = vec![words.amount(&r.wind)];
    if let Some(gust) = &r.gust {
        parts.push(words.t_with("records-gust", &[("speed", words.amount(gust).into())]));
    }
    match r.from_degrees {
        Some(from) => parts.push(words.t_with("records-from", &[("degrees", from.into())])),
        None => parts.push(words.t("records-from-not-known")),
    }
    format!(
        "{}: {}",
        words.moment(r.at_utc_ms, Clock::Time),
        parts.join(", ")
    )
}

fn wind(words: Words, f: &WindMeasured) -> String {
    let all: Vec<String> = f.readings.iter().map(|r| reading(words, r)).collect();
    all.join("; ")
}

/// What was read or seen of the sky; what was not looked at is not there.
pub(super) fn sky(words: Words, f: &SkySeen) -> String {
    // words: ready-soil-*, ready-bloom-*, records-sign-*
    let mut parts = Vec::new();
    if let Some(air) = &f.air {
        parts.push(words.amount(&air.temperature));
        if let Some(percent) = air.humidity_percent {
            parts.push(words.t_with("records-humidity", &[("percent", percent.into())]));
        }
    }
    if let Some(wind) = f.wind {
        parts.push(words.t_with("records-beaufort", &[("force", wind.force.into())]));
    }
    if let Some(look) = &f.inversion {
        let signs: Vec<String> = look
            .signs
            .iter()
            .map(|s| words.said("records-sign", s))
            .collect();
        let signs = if signs.is_empty() {
            words.t("records-no-sign")
        } else {
            signs.join(", ")
        };
        parts.push(format!("{}: {signs}", words.t("records-inversion")));
    }
    if let Some(look) = f.soil {
        let soil = words.said("ready-soil", &look.soil);
        parts.push(format!("{}: {soil}", words.t("records-soil")));
    }
    if let Some(look) = f.bloom {
        let bloom = words.said("ready-bloom", &look.bloom);
        parts.push(format!("{}: {bloom}", words.t("records-bloom")));
    }
    parts.join("; ")
}

fn answers(words: Words, answers: &[Answered]) -> String {
    // words: ready-walk-*
    let said: Vec<String> = answers
        .iter()
        .map(|a| {
            let question = words.said("ready-walk", &a.question);
            format!("{question}: {}", words.said("ready-walk", &a.answer))
        })
        .collect();
    said.join("; ")
}

/// Why nothing was treated.
pub(super) fn not_treated(words: Words, f: &NotTreated) -> String {
    // words: records-why-*
    let why = with_why(words.said("records-why", &f.why), &f.note);
    match &f.look_again {
        Some(again) => {
            let again = words.t_with("records-look-again", &[("day", day(words, again).into())]);
            format!("{why}; {again}")
        }
        None => why,
    }
}

fn finished(words: Words, f: &Finished) -> String {
    let Ok(t) = Treatment::thaw(&f.frozen, f.frozen_hash) else {
        return words.t("records-unreadable");
    };
    let total = match &t.product_total {
        Some(total) => words.amount(total),
        None => words.t("frame-not-known"),
    };
    let sections: Vec<String> = t
        .sections
        .iter()
        .map(|s| {
            let at = words.moment(s.last_applied_utc_ms, Clock::DayAndTime);
            format!("{} {at}", s.name)
        })
        .collect();
    let said = format!("{}, {total}; {}", t.label.product, sections.join("; "));
    with_why(said, &t.note)
}

/// Who was told of keep-offs.
pub(super) fn told_whom(told: &Told, f: &KeepOffTold) -> String {
    // words: keep-told-*
    let words = told.words();
    let how = words.said("keep-told", &f.how);
    let on = told.sections(&f.keep_offs);
    let line = format!("{}: {how}, {on}", f.who);
    if f.told_dry_check {
        format!("{line}; {}", words.t("keep-told-dry-check"))
    } else {
        line
    }
}

/// What was done after treating.
pub(super) fn aftercare(words: Words, f: &Aftercare) -> String {
    // words: records-task-*, records-done-*
    let done: Vec<String> = f
        .done
        .iter()
        .map(|d| {
            let task = words.said("records-task", &d.task);
            format!("{task}: {}", words.said("records-done", &d.state))
        })
        .collect();
    with_why(done.join("; "), &f.note)
}

/// A check half-way.
pub(super) fn half_way(words: Words, f: &HalfWayChecked) -> String {
    words.t_with(
        "records-half-way-line",
        &[
            ("planned", words.amount(&f.planned).into()),
            ("filled", words.amount(&f.filled).into()),
            ("left", words.amount(&f.left).into()),
            ("done", words.amount(&f.done).into()),
            ("rate", words.worked_out(&f.rate_done).into()),
            ("rest", words.worked_out(&f.for_the_rest).into()),
            ("verdict", verdict(words, f.verdict).into()),
        ],
    )
}

/// Counts before and after.
pub(super) fn control(words: Words, f: &ControlCounted) -> String {
    let c = f.counts;
    let line = words.t_with(
        "records-control-line",
        &[
            ("treated-before", c.treated_before.into()),
            ("treated-after", c.treated_after.into()),
            ("check-before", c.check_before.into()),
            ("check-after", c.check_after.into()),
        ],
    );
    with_why(line, &f.note)
}

/// What a person said of a late load.
pub(super) fn counts(words: Words, counts: Option<bool>) -> String {
    words.t(match counts {
        None => "records-late-open",
        Some(true) => "records-late-put-on",
        Some(false) => "records-late-not-put-on",
    })
}

/// A stored day; what is none stays as it is.
pub(super) fn day(words: Words, day: &str) -> String {
    day.parse()
        .map_or_else(|_| day.to_owned(), |day| words.day(day))
}

fn verdict(words: Words, verdict: sward_rules::finding::Verdict) -> String {
    use sward_rules::finding::Verdict;
    words.t(match verdict {
        Verdict::Clear => "finding-clear",
        Verdict::Caution => "finding-caution",
        Verdict::Unknown => "finding-unknown",
        Verdict::DontTreat => "finding-dont-treat",
    })
}

/// A line with what a person wrote beside it.
fn with_why(line: String, why: &str) -> String {
    match (line.is_empty(), why.is_empty()) {
        (_, true) => line,
        (true, false) => why.to_owned(),
        (false, false) => format!("{line}; {why}"),
    }
}
