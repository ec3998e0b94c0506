//! Findings as a table: the word, what was held against which limit, whose limit, how old.

use chrono_tz::Tz;
use serde_json::{Value, json};
use sward_rules::finding::{Finding, Verdict, Whose, in_english, sum};
use sward_rules::sky::NextWindow;

use super::codes::{check_key, verdict};
use crate::print::Page;
use crate::times::moment;

/// Adds findings, the worst first, each with everything needed to doubt it.
pub(crate) fn findings_table(page: &mut Page, findings: &[Finding]) {
    let mut sorted: Vec<&Finding> = findings.iter().collect();
    sorted.sort_by_key(|f| std::cmp::Reverse(f.verdict));
    let rows = sorted.iter().map(|f| row(f)).collect();
    page.table(&["check", "answer", "value", "limit", "age", "why"], rows);
}

fn row(finding: &Finding) -> Vec<String> {
    let limit = finding.limit.as_ref().map(|limit| match finding.whose {
        Whose::Nobody => limit.to_string(),
        whose => format!("{limit} ({})", whose_word(whose)),
    });
    // Whose advice it is matters where somebody may want to doubt it.
    let why = match &finding.source {
        Some(source) if finding.verdict != Verdict::Clear => {
            format!("{} [{source}]", finding.why())
        }
        _ => finding.why(),
    };
    vec![
        check_key(finding.check),
        verdict(finding.verdict).to_owned(),
        finding
            .value
            .as_ref()
            .map_or_else(|| "-".into(), ToString::to_string),
        limit.unwrap_or_else(|| "-".into()),
        finding.age_min.map_or_else(|| "-".into(), age),
        why,
    ]
}

fn age(minutes: u32) -> String {
    if minutes < 120 {
        format!("{minutes} min")
    } else {
        format!("{} h", minutes / 60)
    }
}

fn whose_word(whose: Whose) -> &'static str {
    match whose {
        Whose::Label => "label",
        Whose::Law => "law",
        Whose::Advice => "advice",
        Whose::Nobody => "nobody's",
    }
}

/// Findings for machines, with their sum. Each names its sentences, and has them in English too.
pub(crate) fn findings_json(findings: &[Finding]) -> Value {
    let each: Vec<Value> = findings.iter().map(finding_json).collect();
    json!({ "verdict": sum(findings), "findings": each })
}

fn finding_json(finding: &Finding) -> Value {
    let mut json = json!(finding);
    json["in_english"] = json!({
        "value": finding.value.as_ref().map(ToString::to_string),
        "limit": finding.limit.as_ref().map(ToString::to_string),
        "why": finding.why(),
        "source": finding.source.map(|s| s.to_string()),
    });
    json
}

/// When it may open next, as a sentence.
pub(crate) fn opens_next(window: &NextWindow, zone: Tz) -> String {
    match window {
        NextWindow::MayOpen {
            from_utc_ms,
            to_utc_ms,
            reasons,
        } => format!(
            "May open {} until {} ({}).",
            moment(*from_utc_ms, zone),
            moment(*to_utc_ms, zone),
            in_english(reasons)
        ),
        NextWindow::NotSeen { reasons } => {
            format!("No opening can be told: {}.", in_english(reasons))
        }
    }
}
