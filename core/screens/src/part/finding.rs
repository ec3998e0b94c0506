//! A finding as a person sees it: the answer by shape and words, what was held against which limit
//! and whose, how old the reading is, why, and who published the limit.
//!
//! What is checked, and when an answer is which, is the rules' business.

use maud::{Markup, html};
use sward_rules::finding::{Check, Finding, Verdict, Whose, sum};

use crate::ask::Ask;

/// An answer: its shape and its words.
pub(crate) fn verdict(ask: &Ask<'_>, verdict: Verdict) -> Markup {
    html! {
        span.verdict.(class(verdict)) { (shape(verdict)) " " (verdict_words(ask, verdict)) }
    }
}

/// An answer in words.
pub(crate) fn verdict_words(ask: &Ask<'_>, verdict: Verdict) -> String {
    ask.t(match verdict {
        Verdict::Clear => "finding-clear",
        Verdict::Caution => "finding-caution",
        Verdict::Unknown => "finding-unknown",
        Verdict::DontTreat => "finding-dont-treat",
    })
}

/// What a finding is about.
pub(crate) fn check_name(ask: &Ask<'_>, check: Check) -> String {
    // words: finding-check-*
    ask.words.said("finding-check", &check)
}

/// One finding.
pub(crate) fn finding(ask: &Ask<'_>, finding: &Finding) -> Markup {
    let words = ask.words;
    html! {
        div.card.finding.(class(finding.verdict)) {
            p { strong { (check_name(ask, finding.check)) } " " (verdict(ask, finding.verdict)) }
            @for reason in finding.reasons() { p { (words.said("reason", reason)) } }
            dl {
                @if let Some(value) = &finding.value {
                    (line(&ask.t("finding-value"), &words.said("shown", value)))
                }
                @if let Some(limit) = &finding.limit {
                    (line(&ask.t(whose(finding.whose)), &words.said("shown", limit)))
                } @else if finding.value.is_some() {
                    (line(&ask.t("finding-limit"), &ask.t("finding-no-limit")))
                }
                @if let Some(age_min) = finding.age_min {
                    (line(&ask.t("finding-age"), &words.span(i64::from(age_min) * 60_000)))
                }
                @if let Some(source) = &finding.source {
                    (line(&ask.t("frame-source"), &words.said("word", source)))
                }
            }
        }
    }
}

/// Findings with their sum on top, the worst first.
pub(crate) fn findings(ask: &Ask<'_>, found: &[Finding]) -> Markup {
    html! {
        p.big { (verdict(ask, sum(found))) }
        @for one in worst_first(found) { (finding(ask, one)) }
    }
}

/// The worst first; among equals in the order given.
pub(crate) fn worst_first(found: &[Finding]) -> Vec<&Finding> {
    let mut sorted: Vec<&Finding> = found.iter().collect();
    sorted.sort_by_key(|f| std::cmp::Reverse(f.verdict));
    sorted
}

fn line(name: &str, value: &str) -> Markup {
    html! { div.row { dt { (name) } dd { (value) } } }
}

fn whose(whose: Whose) -> &'static str {
    match whose {
        Whose::Label => "finding-limit-label",
        Whose::Law => "finding-limit-law",
        Whose::Advice => "finding-limit-advice",
        Whose::Nobody => "finding-limit",
    }
}

fn class(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Clear => "verdict-clear",
        Verdict::Caution => "verdict-caution",
        Verdict::Unknown => "verdict-unknown",
        Verdict::DontTreat => "verdict-dont-treat",
    }
}

/// Four outlines that differ without colour: a disc with a hook, a triangle, a dashed ring with a
/// question, a square standing on its corner with a bar.
fn shape(verdict: Verdict) -> Markup {
    html! {
        svg.mark viewBox="0 0 24 24" aria-hidden="true" fill="none" stroke="currentColor" stroke-width="2.5" {
            @match verdict {
                Verdict::Clear => {
                    circle cx="12" cy="12" r="10" {}
                    path d="M7 12.5l3.5 3.5L17 8.5" {}
                }
                Verdict::Caution => {
                    path d="M12 2.5L22 21H2z" {}
                    path d="M12 9v6M12 17v2" {}
                }
                Verdict::Unknown => {
                    circle cx="12" cy="12" r="10" stroke-dasharray="4 3" {}
                    path d="M9 9.5a3 3 0 1 1 4.5 2.6c-1 .6-1.5 1.2-1.5 2.4M12 16.5v2" {}
                }
                Verdict::DontTreat => {
                    path d="M12 1.5L22.5 12 12 22.5 1.5 12z" {}
                    path d="M7 12h10" {}
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use sward_rules::finding::Reason;

    #[test]
    fn what_is_worst_stands_first_and_unknown_before_care() {
        let found: Vec<Finding> = [
            Verdict::Clear,
            Verdict::Caution,
            Verdict::DontTreat,
            Verdict::Unknown,
        ]
        .into_iter()
        .map(|verdict| Finding {
            verdict,
            ..Finding::unknown(Check::Wind, Reason::WindNotMeasured)
        })
        .collect();
        let order: Vec<Verdict> = worst_first(&found).iter().map(|f| f.verdict).collect();
        assert_eq!(
            order,
            [
                Verdict::DontTreat,
                Verdict::Unknown,
                Verdict::Caution,
                Verdict::Clear
            ]
        );
    }
}
