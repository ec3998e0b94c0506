//! What rules ask a record to hold: which fields are filled, which are not, and where a missing one
//! is filled. A help to look with, never a verdict about a law.
//!
//! The rules themselves are [`sward_rules::record_rules`], when a field counts as filled is
//! [`sward_book::export`]'s.

use chrono::{DateTime, SecondsFormat};
use maud::{Markup, html};
use sward_book::export::{
    After, AftercareNote, Amount, BeaufortNote, IncidentNote, Outcome, Record, SectionNote,
    TreatmentNote, When, Who, WindNote, WindReading, fields_asked,
};
use sward_book::fact::Fact;
use sward_book::ids::{SheetId, VisitId};
use sward_book::view::visit::Line;
use sward_rules::Entered;
use sward_rules::finding::sum;
use sward_rules::label::Label;
use sward_rules::place::{Mark, Place, Told as Known};
use sward_rules::record_rules::{
    Asked, FieldName, Filled, RULES, RecordRule, rules_that_may_govern,
};

use super::content::Content;
use super::told::Told;
use crate::ask::Ask;
use crate::part;
use crate::part::how::slug;
use crate::words::Words;

/// A field that a rule asks for and that is empty, with where it is filled.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Missing {
    pub(super) field: FieldName,
    pub(super) href: String,
}

/// The state of the visit's yard, where it is one whose rules were read.
pub(super) fn state_of(ask: &Ask<'_>, told: &Told) -> Option<Place> {
    let sheet = ask.book().ok()?.yard_sheet(told.visit().yard?).ok()?;
    Place::from_typed(&sheet.state)
}

/// Every rule with its fields: those that may govern in the yard's state first.
pub(super) fn asked(ask: &Ask<'_>, told: &Told, record: &Record) -> Markup {
    let place = (told.visit().visit, told.visit().yard);
    let state = state_of(ask, told);
    let may_govern = rules_that_may_govern(state, None);
    let others = RULES.into_iter().filter(|rule| !may_govern.contains(rule));
    html! {
        h2 { (ask.t("rule-title")) }
        p { (ask.t("rule-check-yours")) }
        h3 { (ask.t("rule-may-govern")) }
        @if state.is_none_or(|state| state.record_rule().is_none()) {
            p.unknown { (ask.t("rule-state-not-read")) }
            @if let (None, Some(yard)) = (state, place.1) {
                (part::way(&format!("/yards/{yard}/edit"), &ask.t("rule-set-state")))
            }
        }
        @for rule in &may_govern { (one(ask, place, rule, &fields_asked(record, rule))) }
        p.note { (ask.t("rule-confirm")) }
        h3 { (ask.t("rule-others")) }
        @for rule in others { (one(ask, place, rule, &fields_asked(record, rule))) }
        p.note { (ask.t("rule-not-all")) }
    }
}

fn one(
    ask: &Ask<'_>,
    (visit, yard): (VisitId, Option<SheetId>),
    rule: &RecordRule,
    fields: &[Asked],
) -> Markup {
    let words = ask.words;
    let count = |filled: Filled| fields.iter().filter(|a| a.filled == filled).count();
    let summary = words.t_with(
        "rule-summary",
        &[
            ("filled", count(Filled::Yes).into()),
            ("all", fields.len().into()),
            ("look", count(Filled::LookInText).into()),
            ("missing", count(Filled::No).into()),
        ],
    );
    let number = |told: Option<Known<u8>>, key: &str| {
        let Some(told) = told else {
            return words.t("frame-not-known");
        };
        let said = words.t_with(key, &[("n", told.value.into())]);
        match told.mark {
            Mark::Read => said,
            Mark::FromMemory => words.t_with("rule-from-memory", &[("said", said.into())]),
        }
    };
    html! {
        details.card {
            summary { strong { (rule.name) } ": " (summary) }
            p { (about(words, rule)) }
            ul.list {
                @for Asked { field, filled } in fields {
                    li {
                        (mark(*filled)) " " (field_name(words, *field)) ": " (filled_words(words, *filled))
                        @if *filled == Filled::No && let Some(href) = where_filled(*field, visit, yard) {
                            " " a href=(href) { (words.t("rule-fill")) }
                        }
                    }
                }
            }
            dl {
                (part::row(&words.t("rule-keep"), &number(rule.keep_years, "rule-years"), ""))
                (part::row(&words.t("rule-write-within"), &number(rule.write_within_days, "rule-days"), ""))
                (part::row(&words.t("frame-source"), rule.source, ""))
            }
            p.note { (words.t("rule-check-current")) }
        }
    }
}

/// What a rule is about. Names and sources stay as they were published.
fn about(words: Words, rule: &RecordRule) -> String {
    // words: rule-about-*
    let key = format!("rule-about-{}", slug(rule.name));
    if words.has(&key) {
        words.t(&key)
    } else {
        rule.about.to_owned()
    }
}

/// A field's name.
pub(super) fn field_name(words: Words, field: FieldName) -> String {
    // words: rule-field-*
    words.said("rule-field", &field)
}

fn mark(filled: Filled) -> Markup {
    html! {
        span aria-hidden="true" {
            @match filled {
                Filled::Yes => "\u{2713}",
                Filled::LookInText => "?",
                Filled::No => "\u{25cb}",
                Filled::NotApplicable => "\u{2013}",
            }
        }
    }
}

fn filled_words(words: Words, filled: Filled) -> String {
    words.t(match filled {
        Filled::Yes => "rule-filled",
        Filled::LookInText => "rule-look-in-text",
        Filled::No => "rule-missing",
        Filled::NotApplicable => "rule-not-applicable",
    })
}

/// The first field that a rule asks for, that is empty, and that can still be filled. Where the
/// yard's state is not known, any rule may be the one.
pub(super) fn first_missing(record: &Record, state: Option<Place>) -> Option<Missing> {
    let rules = match state {
        Some(_) => rules_that_may_govern(state, None),
        None => RULES.to_vec(),
    };
    rules
        .into_iter()
        .flat_map(|rule| fields_asked(record, rule))
        .filter(|asked| asked.filled == Filled::No)
        .find_map(|Asked { field, .. }| {
            let href = where_filled(field, record.visit, record.yard)?;
            Some(Missing { field, href })
        })
}

/// Where an empty field is filled. What was copied or read when treating started cannot be filled
/// later: nobody reads yesterday's wind.
fn where_filled(field: FieldName, visit: VisitId, yard: Option<SheetId>) -> Option<String> {
    match field {
        FieldName::Location | FieldName::AddressWithZip | FieldName::Customer => {
            yard.map(|yard| format!("/yards/{yard}/edit"))
        }
        FieldName::TotalProduct
        | FieldName::TotalMix
        | FieldName::Equipment
        | FieldName::UnexpectedOccurrence
        | FieldName::Disposal => Some(format!("/records/{visit}/correct")),
        _ => None,
    }
}

/// A result in the form in which the book answers what it holds of a rule's fields.
pub(super) fn record_of(told: &Told, line: &Line, content: &Content) -> Record {
    let by = Who {
        name: String::new(),
        licence: String::new(),
        device: line.by,
        of_the_crew: line.of_the_crew,
    };
    Record {
        outcome: Outcome::Treated,
        marks: Vec::new(),
        visit: told.visit().visit,
        fact: line.fact,
        entry: line.fact.entry,
        frozen: None,
        crew: content.crew.clone(),
        yard: told.visit().yard,
        yard_name: content.yard_name.clone(),
        address: content.address.clone(),
        zone: content.zone.clone(),
        target: content.target.clone(),
        date: content.started_ms.map(|ms| told.words().day_of(ms)),
        started: content.started_ms.map(when),
        finished: when(content.finished_ms.unwrap_or(i64::MIN)),
        applicator: content.applicator.clone(),
        recorded_by: by.clone(),
        treatment: content
            .label
            .as_ref()
            .zip(content.rate.as_ref())
            .map(|(label, rate)| treatment(content, label, rate)),
        not_treated: None,
        counts: Vec::new(),
        wind: wind(content),
        temperatures: content
            .sky
            .iter()
            .filter_map(|s| s.air.as_ref())
            .map(|a| amount(&a.temperature))
            .collect(),
        verdict: sum(&content.findings),
        findings: content.findings.clone(),
        note: content.note.clone(),
        late: Vec::new(),
        amendments: Vec::new(),
        after: after(told, &by),
    }
}

fn treatment(content: &Content, label: &Label, rate: &Entered) -> TreatmentNote {
    TreatmentNote {
        product: label.product.clone(),
        registration: label.registration.clone(),
        ingredients: label.ingredients.clone(),
        method: label.method,
        rate: amount(rate),
        product_total: content.product_total.as_ref().map(amount),
        water_total: content.water_total.as_ref().map(amount),
        loads: Vec::new(),
        sections: content
            .sections
            .iter()
            .map(|s| SectionNote {
                name: s.name.clone(),
                area: s
                    .outline
                    .area()
                    .map(|a| a.value.for_person())
                    .unwrap_or_default(),
                last_applied: when(s.last_ms.unwrap_or(i64::MIN)),
                keep_off: None,
            })
            .collect(),
        acknowledged: content.acknowledged.clone(),
        against: content.against.clone(),
        equipment: content.equipment.clone(),
        lot: content.lot.clone(),
        gear: content.gear.clone(),
    }
}

fn wind(content: &Content) -> WindNote {
    WindNote {
        readings: content
            .wind
            .iter()
            .map(|r| WindReading {
                at: when(r.at_utc_ms),
                speed: amount(&r.wind),
                gust: r.gust.as_ref().map(amount),
                from_degrees: r.from_degrees,
            })
            .collect(),
        estimates: content
            .sky
            .iter()
            .filter_map(|s| s.wind)
            .map(|b| BeaufortNote {
                at: when(b.at_utc_ms),
                force: b.force,
            })
            .collect(),
        ..WindNote::default()
    }
}

fn after(told: &Told, by: &Who) -> After {
    let mut after = After::default();
    for known in told.standing() {
        match &known.fact {
            Fact::Aftercare(f) => after.aftercare.push(AftercareNote {
                at: when(known.line.at.utc_ms),
                by: by.clone(),
                done: Vec::new(),
                note: f.note.clone(),
            }),
            Fact::IncidentFiled(f) => after.incidents.push(IncidentNote {
                incident: f.incident,
                what: f.what,
                happened: when(f.happened_utc_ms),
                said: Vec::new(),
            }),
            _ => {}
        }
    }
    after
}

fn amount(entered: &Entered) -> Amount {
    Amount {
        entered: entered.for_person(),
        ucum: entered.to_string(),
        metric: None,
    }
}

/// A moment that is none ends without the "Z" by which the book knows a time.
fn when(utc_ms: i64) -> When {
    let text = DateTime::from_timestamp_millis(utc_ms)
        .map(|at| at.to_rfc3339_opts(SecondsFormat::Secs, true))
        .unwrap_or_default();
    When {
        local: text.clone(),
        utc: text,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::{Language, Units};
    use uuid::Uuid;

    #[test]
    fn every_rule_is_told_in_both_languages() {
        for language in Language::ALL {
            let words = Words {
                language,
                units: Units::Us,
                zone: chrono_tz::UTC,
            };
            for rule in RULES {
                assert!(
                    words.has(&format!("rule-about-{}", slug(rule.name))),
                    "{}",
                    rule.name
                );
                for (field, _) in rule.fields {
                    let name = field_name(words, *field);
                    assert!(!name.contains('\u{27e6}'), "{name}");
                }
            }
        }
    }

    #[test]
    fn what_only_the_day_itself_could_tell_is_filled_nowhere() {
        let visit = VisitId(Uuid::nil());
        let yard = Some(SheetId(Uuid::nil()));
        for field in [
            FieldName::WindSpeed,
            FieldName::Temperature,
            FieldName::StartTime,
        ] {
            assert_eq!(where_filled(field, visit, yard), None);
        }
        let edit = where_filled(FieldName::AddressWithZip, visit, yard).unwrap();
        assert!(edit.ends_with("/edit"), "{edit}");
        assert_eq!(where_filled(FieldName::AddressWithZip, visit, None), None);
    }

    #[test]
    fn a_moment_that_is_none_is_no_time() {
        assert!(!when(i64::MIN).is_readable());
        assert!(when(0).is_readable());
    }
}
