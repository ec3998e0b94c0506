//! Times, amounts and facts in words, the same on every phone.
//!
//! English only: an export is read by tools and offices, not on the lawn.

use chrono::{DateTime, Datelike as _, NaiveDate, SecondsFormat, Utc};
use chrono_tz::Tz;
use serde::Serialize;
use sward_rules::Entered;
use sward_rules::finding::Verdict;
use sward_rules::label::{KeepOffTerms, LabelSays};
use sward_rules::quantity::{Dimension, Unit};

use super::record::{Amount, When};
use crate::fact::{Counted, Fact, Finished, Loaded, NotTreated, Replacement, WindMeasured};
use crate::record::Treatment;

/// Writes times for one yard.
#[derive(Debug, Clone, Copy)]
pub(super) struct Clock {
    /// The yard's zone; none: UTC.
    pub(super) zone: Option<Tz>,
}

impl Clock {
    pub(super) fn named(zone: &str) -> Self {
        Self {
            zone: zone.parse().ok(),
        }
    }

    pub(super) fn when(self, utc_ms: i64) -> When {
        let Some(at) = readable(utc_ms) else {
            let text = format!("no readable time ({utc_ms} ms)");
            return When {
                local: text.clone(),
                utc: text,
            };
        };
        let utc = at.to_rfc3339_opts(SecondsFormat::Secs, true);
        let local = self.zone.map_or_else(
            || utc.clone(),
            |zone| {
                at.with_timezone(&zone)
                    .to_rfc3339_opts(SecondsFormat::Secs, false)
            },
        );
        When { local, utc }
    }

    pub(super) fn day(self, utc_ms: i64) -> Option<NaiveDate> {
        let at = readable(utc_ms)?;
        Some(self.zone.map_or_else(
            || at.date_naive(),
            |zone| at.with_timezone(&zone).date_naive(),
        ))
    }
}

/// A year outside these is no time that a phone had, and has no RFC 3339 form.
fn readable(utc_ms: i64) -> Option<DateTime<Utc>> {
    DateTime::from_timestamp_millis(utc_ms).filter(|at| (1900..9999).contains(&at.year()))
}

/// An amount as entered, with its metric counterpart beside it.
pub(super) fn amount(entered: &Entered) -> Amount {
    let counterpart = match entered.dimension() {
        Dimension::Mass => Some("kg"),
        Dimension::Volume => Some("L"),
        Dimension::MassPerArea => Some("kg/ha"),
        Dimension::VolumePerArea => Some("L/ha"),
        Dimension::Speed => Some("m/s"),
        Dimension::Temperature => Some("Cel"),
        _ => None,
    };
    let metric = counterpart
        .and_then(|unit| Unit::parse(unit).ok())
        .filter(|unit| *unit != entered.unit())
        .and_then(|unit| entered.convert(unit).ok())
        .map(|converted| converted.for_person());
    Amount {
        entered: entered.for_person(),
        ucum: entered.to_string(),
        metric,
    }
}

/// The stable name of an enum's value, with spaces.
pub(super) fn word(value: &impl Serialize) -> String {
    serde_json::to_value(value)
        .ok()
        .and_then(|v| v.as_str().map(|s| s.replace('_', " ")))
        .unwrap_or_default()
}

/// The four words of a finding.
pub(super) fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Clear => "no limit hit",
        Verdict::Caution => "take care",
        Verdict::Unknown => "not known",
        Verdict::DontTreat => "don't treat",
    }
}

/// What must be true before anyone comes back.
pub(super) fn terms(terms: &KeepOffTerms) -> String {
    let dry = match terms.until_dry {
        LabelSays::Value(true) => "until seen dry",
        LabelSays::Value(false) | LabelSays::Nothing => "dryness not asked for",
        LabelSays::Unfilled => "dryness not known",
    };
    match &terms.wait {
        LabelSays::Value(wait) => {
            format!("{dry}; {} after the last application", wait.for_person())
        }
        LabelSays::Nothing => format!("{dry}; no wait asked for"),
        LabelSays::Unfilled => format!("{dry}; wait not known"),
    }
}

/// A fact that can be corrected, in one line.
pub(super) fn fact(fact: &Fact, clock: Clock) -> String {
    match fact {
        Fact::Counted(f) => counted(f),
        Fact::WindMeasured(f) => wind(f),
        Fact::WalkedRound(f) => answers(&f.answers),
        Fact::Loaded(f) => loaded(f, clock),
        Fact::Finished(f) => finished(f, clock),
        Fact::NotTreated(f) => not_treated(f),
        Fact::LookedDry(f) => format!("looked, dry at {}", clock.when(f.looked_utc_ms).local),
        Fact::SkySeen(f) => {
            let air = f
                .air
                .as_ref()
                .map_or_else(String::new, |a| a.temperature.for_person());
            format!("look at the sky {air}").trim_end().to_owned()
        }
        Fact::Corrected(c) => replacement(&c.new, clock),
        Fact::ReturnPlanned(f) => format!("return planned for {}: {}", f.day, word(&f.what)),
        Fact::KeepOffTold(f) => format!("{} told of the keep-off: {}", f.who, word(&f.how)),
        Fact::Aftercare(f) => {
            let done: Vec<String> = f
                .done
                .iter()
                .map(|d| format!("{} {}", word(&d.task), word(&d.state)))
                .collect();
            format!("aftercare: {}", done.join(", "))
        }
        Fact::HalfWayChecked(f) => format!(
            "check half-way: {} filled in, {} left, {} done",
            f.filled.for_person(),
            f.left.for_person(),
            f.done.for_person()
        ),
        Fact::ControlCounted(f) => format!(
            "control counted: treated {} then {}, untreated {} then {}",
            f.counts.treated_before,
            f.counts.treated_after,
            f.counts.check_before,
            f.counts.check_after
        ),
        // Nothing else can be corrected; a hostile entry may name it all the same.
        _ => "another entry".to_owned(),
    }
}

/// What stands in the place of superseded facts, in one line.
pub(super) fn replacement(new: &Replacement, clock: Clock) -> String {
    match new {
        Replacement::Nothing => "nothing: withdrawn".to_owned(),
        Replacement::Counted(f) => counted(f),
        Replacement::WindMeasured(f) => wind(f),
        Replacement::WalkedRound(f) => answers(&f.answers),
        Replacement::Loaded(f) => loaded(f, clock),
        Replacement::Finished(f) => finished(f, clock),
        Replacement::NotTreated(f) => not_treated(f),
    }
}

fn counted(f: &Counted) -> String {
    let counts: Vec<String> = f.samples.iter().map(|s| s.count.to_string()).collect();
    format!("count of {}: {}", f.pest, counts.join(", "))
}

fn wind(f: &WindMeasured) -> String {
    let readings: Vec<String> = f
        .readings
        .iter()
        .map(|r| {
            let gust = r
                .gust
                .map(|g| format!(" gust {}", g.for_person()))
                .unwrap_or_default();
            let from = r
                .from_degrees
                .map(|d| format!(" from {d}°"))
                .unwrap_or_default();
            format!("{}{gust}{from}", r.wind.for_person())
        })
        .collect();
    format!("wind: {}", readings.join(", "))
}

fn answers(answers: &[sward_rules::walk_round::Answered]) -> String {
    let answers: Vec<String> = answers
        .iter()
        .map(|a| format!("{} {}", word(&a.question), word(&a.answer)))
        .collect();
    format!("walk round: {}", answers.join(", "))
}

fn loaded(f: &Loaded, clock: Clock) -> String {
    let water = f
        .water
        .map(|w| format!(" in {} of water", w.for_person()))
        .unwrap_or_default();
    let applied = clock.when(f.applied_utc_ms).local;
    format!(
        "load of {}{water}, applied {applied}",
        f.product.for_person()
    )
}

fn finished(f: &Finished, clock: Clock) -> String {
    let Ok(t) = Treatment::thaw(&f.frozen, f.frozen_hash) else {
        return format!(
            "finish that cannot be read, frozen {}",
            f.frozen_hash.short()
        );
    };
    let in_all = |total: Option<Entered>| {
        total.map_or_else(|| "not known".to_owned(), |total| total.for_person())
    };
    let sections: Vec<String> = t
        .sections
        .iter()
        .map(|s| {
            format!(
                "{} done {}",
                s.name,
                clock.when(s.last_applied_utc_ms).local
            )
        })
        .collect();
    let note = if t.note.is_empty() {
        String::new()
    } else {
        format!("; note: {}", t.note)
    };
    format!(
        "finish of {} at {}: product in all {}, water in all {}; {}{note}; frozen {}",
        t.label.product,
        t.rate.for_person(),
        in_all(t.product_total),
        in_all(t.water_total),
        sections.join(", "),
        f.frozen_hash.short()
    )
}

fn not_treated(f: &NotTreated) -> String {
    let mut text = format!("not treated: {}", word(&f.why));
    if !f.note.is_empty() {
        text = format!("{text}; note: {}", f.note);
    }
    if let Some(day) = &f.look_again {
        text = format!("{text}; look again {day}");
    }
    text
}
