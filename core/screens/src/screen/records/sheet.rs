//! One result as it is shown, on screen and on paper: what it holds, field by field.
//!
//! Whatever is not told stands there as "not known", so that a gap is seen.

use maud::{Markup, html};
use sward_rules::finding::sum;
use sward_rules::label::{Label, LabelSays, WateringIn};
use sward_rules::quantity::Entered;

use super::content::{Content, Section};
use super::fact;
use super::told::Told;
use crate::ask::Ask;
use crate::part::finding::{check_name, finding, verdict_words, worst_first};
use crate::part::keep_off::terms;
use crate::part::{amounts, row};
use crate::screen::look::pest_name;
use crate::words::{Clock, Words};

/// Where it is shown: paper has nothing that can be opened.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum On {
    Screen,
    Paper,
}

/// Everything that a result holds.
pub(super) fn sheet(ask: &Ask<'_>, told: &Told, content: &Content, on: On) -> Markup {
    html! {
        (place(ask, told, content))
        (put_on(ask, told, content))
        (sections(ask, told, content))
        (seen(ask, told, content))
        (checks(ask, content, on))
        (label(ask, told.words(), content.label.as_ref(), on))
    }
}

fn place(ask: &Ask<'_>, told: &Told, content: &Content) -> Markup {
    let words = told.words();
    let none = ask.t("frame-not-known");
    let at =
        |ms: Option<i64>| ms.map_or_else(String::new, |ms| words.moment(ms, Clock::DayAndTime));
    let person = content.applicator.as_ref();
    html! {
        @if content.practice && !told.practice { p.wrong { (ask.t("records-practice")) } }
        dl {
            (row(&ask.t("records-yard"), &content.yard_name, &none))
            (row(&ask.t("records-address"), &content.address, &none))
            (row(&ask.t("records-pest"), &pest_name(words, &content.target), &none))
            (row(&ask.t("records-started"), &at(content.started_ms), &none))
            (row(&ask.t("records-finished"), &at(content.finished_ms), &none))
            (row(&ask.t("records-applicator"), person.map_or("", |p| &p.name), &none))
            (row(&ask.t("records-licence"), person.map_or("", |p| &p.licence), &none))
            (row(&ask.t("records-crew"), &content.crew, &none))
        }
        @if content.zone.is_empty() { p.note { (words.t_with("records-no-zone", &[("zone", words.zone.name().into())])) } }
        @if content.time_uncertain { p.note { (ask.t("records-time-uncertain")) } }
    }
}

fn put_on(ask: &Ask<'_>, told: &Told, content: &Content) -> Markup {
    // words: records-method-*
    let words = told.words();
    let none = ask.t("frame-not-known");
    let amount = |a: &Option<Entered>| a.as_ref().map_or_else(String::new, |a| words.amount(a));
    let label = content.label.as_ref();
    let method = label.map_or_else(String::new, |l| words.said("records-method", &l.method));
    let text = |t: &Option<String>| t.clone().unwrap_or_default();
    html! {
        @if label.is_some() {
            h2 { (ask.t("records-put-on")) }
            dl {
                (row(&ask.t("records-product"), label.map_or("", |l| &l.product), &none))
                (row(&ask.t("records-registration"), label.map_or("", |l| &l.registration), &none))
                (row(&ask.t("records-ingredients"), &label.map_or_else(String::new, |l| ingredients(words, l)), &none))
                (row(&ask.t("records-method"), &method, &none))
                (row(&ask.t("records-rate"), &amount(&content.rate), &none))
                (row(&ask.t("records-product-total"), &amount(&content.product_total), &none))
                (row(&ask.t("records-water-total"), &water(words, content), &none))
                (row(&ask.t("records-equipment"), &text(&content.equipment), &none))
                (row(&ask.t("records-lot"), &text(&content.lot), &none))
                (row(&ask.t("records-gear"), &text(&content.gear), &none))
                (row(&ask.t("records-note"), &content.note, &ask.t("records-no-note")))
            }
            h2 { (ask.t("records-loads")) }
            @if content.loads.is_empty() { p.unknown { (ask.t("records-no-loads")) } }
            ul.list { @for load in &content.loads { li { (fact::loaded(told, load)) } } }
        }
    }
}

fn ingredients(words: Words, label: &Label) -> String {
    let all: Vec<String> = label
        .ingredients
        .iter()
        .map(|i| format!("{} {}", i.name, words.amount(&i.content)))
        .collect();
    all.join(", ")
}

/// No water in any load is known to be none; a total that cannot be added up is not known.
fn water(words: Words, content: &Content) -> String {
    match &content.water_total {
        Some(total) => words.amount(total),
        None if content.loads.is_empty() => String::new(),
        None if content.loads.iter().all(|l| l.water.is_none()) => words.t("records-no-water"),
        None => String::new(),
    }
}

fn sections(ask: &Ask<'_>, told: &Told, content: &Content) -> Markup {
    html! {
        @if !content.sections.is_empty() {
            h2 { (ask.t("records-sections")) }
            ul.list { @for section in &content.sections { li { (one_section(ask, told, section)) } } }
        }
    }
}

fn one_section(ask: &Ask<'_>, told: &Told, section: &Section) -> Markup {
    let words = told.words();
    let area = section.outline.area().map_or_else(
        |_| ask.t("frame-not-known"),
        |a| amounts::area(words, &a.value),
    );
    let last = section.last_ms.map_or_else(
        || ask.t("frame-not-known"),
        |ms| words.moment(ms, Clock::DayAndTime),
    );
    let keep_off = told
        .keep_offs
        .iter()
        .find(|k| k.keep_off == section.keep_off);
    let asked = keep_off.map_or_else(
        || ask.t("frame-not-known"),
        |k| {
            let all: Vec<String> = k
                .standing_claims()
                .map(|c| terms(words, &c.terms))
                .collect();
            all.join("; ")
        },
    );
    let dry = keep_off.and_then(|k| k.dry_utc_ms);
    html! {
        p { strong { (section.name) } ", " (area) }
        p.note { (words.t_with("records-last-applied", &[("at", last.into())])) }
        p.note { (words.t_with("records-keep-off", &[("terms", asked.into())])) }
        @if let Some(dry) = dry {
            p.note { (words.t_with("records-seen-dry", &[("at", words.moment(dry, Clock::DayAndTime).into())])) }
        }
        @if keep_off.is_some_and(|k| k.released_by.is_some()) { p.note { (ask.t("records-lifted")) } }
    }
}

fn seen(ask: &Ask<'_>, told: &Told, content: &Content) -> Markup {
    let words = told.words();
    html! {
        h2 { (ask.t("records-counts")) }
        @if content.counts.is_empty() { p.unknown { (ask.t("frame-not-known")) } }
        ul.list { @for count in &content.counts { li { (fact::counted(words, count)) } } }
        h2 { (ask.t("records-wind")) }
        @if content.wind.is_empty() { p.unknown { (ask.t("frame-not-known")) } }
        ul.list { @for reading in &content.wind { li { (fact::reading(words, reading)) } } }
        h2 { (ask.t("records-sky")) }
        @if content.sky.is_empty() { p.unknown { (ask.t("frame-not-known")) } }
        ul.list { @for sky in &content.sky { li { (fact::sky(words, sky)) } } }
    }
}

fn checks(ask: &Ask<'_>, content: &Content, on: On) -> Markup {
    let names: Vec<String> = content
        .acknowledged
        .iter()
        .map(|check| check_name(ask, *check))
        .collect();
    html! {
        h2 { (ask.t("records-checks")) }
        @if content.findings.is_empty() {
            p.unknown { (ask.t("frame-not-known")) }
        } @else {
            p { strong { (verdict_words(ask, sum(&content.findings))) } }
            ul.list {
                @for one in worst_first(&content.findings) {
                    li { (check_name(ask, one.check)) ": " (verdict_words(ask, one.verdict)) }
                }
            }
            @if on == On::Screen {
                details {
                    summary { (ask.t("records-checks-all")) }
                    @for one in worst_first(&content.findings) { (finding(ask, one)) }
                }
            }
        }
        @if !names.is_empty() {
            p { (ask.words.t_with("records-acknowledged", &[("checks", names.join(", ").into())])) }
        }
        @if let Some(why) = &content.against {
            p.wrong { (ask.words.t_with("records-against", &[("why", why.clone().into())])) }
        }
    }
}

/// The label sheet as it was copied when treating started.
fn label(ask: &Ask<'_>, words: Words, label: Option<&Label>, on: On) -> Markup {
    let Some(label) = label else {
        return html! {};
    };
    let says = |value: &LabelSays<Entered>| match value {
        LabelSays::Unfilled => String::new(),
        LabelSays::Nothing => words.t("records-label-silent"),
        LabelSays::Value(amount) => words.amount(amount),
    };
    let none = ask.t("frame-not-known");
    let rows = html! {
        dl {
            (row(&ask.t("records-label-rate-least"), &says(&label.rate_least), &none))
            (row(&ask.t("records-label-rate-most"), &says(&label.rate_most), &none))
            (row(&ask.t("records-label-carrier"), &says(&label.carrier_least), &none))
            (row(&ask.t("records-label-wind"), &says(&label.wind_most), &none))
            (row(&ask.t("records-label-rain-free"), &says(&label.rain_free), &none))
            (row(&ask.t("records-label-coldest"), &says(&label.temperature_least), &none))
            (row(&ask.t("records-label-hottest"), &says(&label.temperature_most), &none))
            (row(&ask.t("records-label-keep-off"), &terms(words, &label.keep_off), &none))
            (row(&ask.t("records-label-watering"), &watering(words, &label.watering_in), &none))
            (row(&ask.t("records-label-repeat"), &says(&label.repeat_after), &none))
        }
    };
    html! {
        @if on == On::Screen {
            details { summary { (ask.t("records-label")) } (rows) }
        } @else {
            h2 { (ask.t("records-label")) }
            (rows)
        }
    }
}

fn watering(words: Words, says: &LabelSays<WateringIn>) -> String {
    let with = |key: &str, amount: &Option<Entered>| match amount {
        Some(amount) => format!("{}, {}", words.t(key), words.amount(amount)),
        None => words.t(key),
    };
    match says {
        LabelSays::Unfilled => String::new(),
        LabelSays::Nothing => words.t("records-label-silent"),
        LabelSays::Value(WateringIn::Required(depth)) => with("records-water-in", depth),
        LabelSays::Value(WateringIn::Withheld(time)) => with("records-water-off", time),
    }
}
