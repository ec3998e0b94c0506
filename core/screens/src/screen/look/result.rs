//! What the counts of a visit say: density with its interval, beside each threshold.

use maud::{Markup, html};
use sward_book::Book;
use sward_book::fact::{Counted, Fact, Replacement};
use sward_book::view::visit::VisitView;
use sward_rules::look::{
    Decided, Decision, Density, More, MoreUnknown, SampleMethod, Threshold, decide, density,
    more_samples, threshold_for, thresholds,
};
use sward_rules::{Answer, Note};

use super::pest;
use crate::Result;
use crate::ask::Ask;
use crate::part::amounts::per_area;
use crate::part::how::how;
use crate::screen::visit::who;
use crate::words::{Clock, Words};

/// One count that stands, with what it says.
pub(super) struct Look {
    pub(super) count: Counted,
    at_utc_ms: i64,
    by: String,
    /// None where the samples give no density.
    density: Option<Answer<Density>>,
    decided: Vec<Decided>,
}

impl Look {
    fn of(count: Counted, at_utc_ms: i64, by: String) -> Self {
        // What another program recorded may have no area; then it says nothing.
        let density = density(&count.samples).ok().flatten();
        let found = density.as_ref().map(|d| &d.value);
        let known = pest::of_text(&count.pest)
            .map(threshold_for)
            .unwrap_or_default();
        let decided = if known.is_empty() {
            vec![decide(found, None)]
        } else {
            known.into_iter().map(|t| decide(found, Some(t))).collect()
        };
        Self {
            count,
            at_utc_ms,
            by,
            density,
            decided,
        }
    }

    /// What speaks most for treating among the thresholds; not known where none could tell.
    pub(super) fn worst(&self) -> Decision {
        let decisions = || self.decided.iter().map(|d| d.decision);
        [Decision::TreatingMayPay, Decision::Watch, Decision::Unknown]
            .into_iter()
            .find(|d| decisions().any(|is| is == *d))
            .unwrap_or(Decision::Leave)
    }
}

/// The counts of a visit that stand, the oldest first.
pub(super) fn looks(book: &Book, visit: &VisitView) -> Result<Vec<Look>> {
    let mut looks = Vec::new();
    for line in visit.history.iter().filter(|l| l.superseded_by.is_none()) {
        let (_, fact) = book.fact(line.fact)?;
        let count = match fact {
            Fact::Counted(count) => count,
            Fact::Corrected(c) if line.of_the_crew => match c.new {
                Replacement::Counted(count) => count,
                _ => continue,
            },
            _ => continue,
        };
        looks.push(Look::of(count, line.at.utc_ms, who(book, line.by)));
    }
    Ok(looks)
}

/// The newest count, in full.
pub(super) fn newest(ask: &Ask<'_>, words: Words, look: &Look) -> Markup {
    html! {
        div.card {
            h2 { (pest::pest_name(words, &look.count.pest)) }
            (found(ask, words, look))
            ul.list {
                @for decided in &look.decided {
                    li {
                        (decision(ask, decided))
                        (more(ask, look.density.as_ref().map(|d| &d.value), decided.threshold.as_ref()))
                    }
                }
            }
            @for note in notes(look) { p.note { (ask.words.said("note", note)) } }
            @if !look.count.note.is_empty() { p { (look.count.note) } }
            (who_and_when(ask, words, look))
        }
    }
}

/// Every earlier count of this visit.
pub(super) fn earlier(ask: &Ask<'_>, words: Words, looks: &[Look]) -> Markup {
    let earlier = looks.split_last().map_or(&[][..], |(_, before)| before);
    html! {
        @if !earlier.is_empty() {
            h2 { (ask.t("look-earlier")) }
            @for look in earlier.iter().rev() { (newest(ask, words, look)) }
        }
    }
}

fn who_and_when(ask: &Ask<'_>, words: Words, look: &Look) -> Markup {
    html! {
        p.note {
            (look.by) ", " (words.moment(look.at_utc_ms, Clock::DayAndTime))
            " (" (words.ago(look.at_utc_ms, ask.now.utc_ms)) ")"
        }
    }
}

fn found(ask: &Ask<'_>, words: Words, look: &Look) -> Markup {
    let counts: Vec<String> = look
        .count
        .samples
        .iter()
        .map(|s| s.count.to_string())
        .collect();
    let how_taken = look.count.samples.first().map(|s| taken(words, &s.method));
    html! {
        @match &look.density {
            Some(answer) => {
                p.big { (per_area(words, answer.value.mean_per_ft2)) }
                p {
                    (words.t_with("look-interval", &[
                        ("least", per_area(words, answer.value.lower_per_ft2).into()),
                        ("most", per_area(words, answer.value.upper_per_ft2).into()),
                    ]))
                }
                (how(ask, &answer.working))
            }
            None => p { span.unknown { (ask.t("frame-not-known")) } }
        }
        p {
            (words.t_with("look-counts", &[("counts", counts.join(", ").into())]))
            @if let Some(taken) = how_taken { " (" (taken) ")" }
        }
    }
}

/// How a sample was taken, with its size as it was typed.
fn taken(words: Words, method: &SampleMethod) -> String {
    let (key, size) = match method {
        SampleMethod::SodSquare(size) => ("look-taken-sod", size),
        SampleMethod::FloatingCan(size) => ("look-taken-can", size),
        SampleMethod::CupCutter(size) => ("look-taken-cup", size),
        SampleMethod::SoapDrench(size) => ("look-taken-drench", size),
        SampleMethod::Area(size) => ("look-taken-area", size),
    };
    words.t_with(key, &[("size", words.amount(size).into())])
}

/// What a count says beside one threshold.
fn decision(ask: &Ask<'_>, decided: &Decided) -> Markup {
    let said = ask.t(match decided.decision {
        Decision::Leave => "look-decided-leave",
        Decision::Watch => "look-decided-watch",
        Decision::TreatingMayPay => "look-decided-treat",
        Decision::Unknown => "frame-not-known",
    });
    let why = ask.t(match decided.decision {
        Decision::Leave => "look-why-below",
        Decision::Watch => "look-why-between",
        Decision::TreatingMayPay => "look-why-above",
        Decision::Unknown if decided.threshold.is_some() => "look-why-no-density",
        Decision::Unknown => "look-why-no-threshold",
    });
    html! {
        p { strong { (said) } ": " (why) }
        @if let Some(threshold) = &decided.threshold { p.note { (one_threshold(ask, threshold)) } }
    }
}

/// How many more samples would decide, where the count does not.
fn more(ask: &Ask<'_>, density: Option<&Density>, threshold: Option<&Threshold>) -> Markup {
    let ahead = more_samples(density, threshold);
    let because = |because| match because {
        MoreUnknown::NoSample => "look-more-no-sample",
        MoreUnknown::OneSample => "look-more-one-sample",
        MoreUnknown::NoThreshold => "look-more-no-threshold",
        MoreUnknown::BetweenLimits => "look-more-between",
        MoreUnknown::CountedTogether => "look-more-counted-together",
        MoreUnknown::TooMany => "look-more-too-many",
    };
    html! {
        @match ahead.value {
            More::None => {},
            More::Samples { samples, toward } => {
                p {
                    (ask.words.t_with("look-more-decide", &[("n", samples.into())]))
                    " "
                    @match toward {
                        Decision::Leave => (ask.t("look-more-to-leave")),
                        _ => (ask.t("look-more-to-treat")),
                    }
                }
                (how(ask, &ahead.working))
            },
            More::NotKnown { because: why } => p.unknown { (ask.t(because(why))) },
        }
    }
}

/// What to keep in mind, each once. The threshold itself and the extension office stand on the
/// screen already.
fn notes(look: &Look) -> Vec<&Note> {
    let mut notes: Vec<&Note> = Vec::new();
    for note in look.decided.iter().flat_map(|d| &d.notes) {
        let stands_already = matches!(note, Note::AskExtension | Note::ThresholdOf { .. });
        if !stands_already && !notes.contains(&note) {
            notes.push(note);
        }
    }
    notes
}

/// A threshold with its life stage, region and source.
fn one_threshold(ask: &Ask<'_>, threshold: &Threshold) -> String {
    let words = ask.words;
    let (least, most) = (threshold.least_per_ft2, threshold.most_per_ft2);
    let limits = if least < most {
        format!(
            "{} \u{2013} {}",
            per_area(words, least),
            per_area(words, most)
        )
    } else {
        per_area(words, least)
    };
    let limits = match threshold.per_yd2() {
        Some(per_yd2) => format!("{limits} ({per_yd2:.0}/yd²)"),
        None => limits,
    };
    words.t_with(
        "look-threshold",
        &[
            ("limits", limits.into()),
            ("stage", words.stage(threshold.life_stage).into()),
            ("region", words.term(threshold.region).into()),
            ("source", words.term(threshold.source).into()),
        ],
    )
}

/// Every threshold, folded away: for whoever wants to know it before counting.
pub(super) fn all_thresholds(ask: &Ask<'_>) -> Markup {
    html! {
        details {
            summary { (ask.t("look-thresholds")) }
            ul.list {
                @for threshold in thresholds() {
                    li { (pest::name(ask.words, threshold.pest)) ": " (one_threshold(ask, threshold)) }
                }
            }
            p.note { (ask.t("look-thresholds-differ")) }
        }
    }
}
